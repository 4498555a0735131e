//! What is written where the font lacks a sign.

/// Base letters of Latin Extended-A, U+0100 to U+017F, in the order of the signs.
const LATIN_EXTENDED_A: &str = "AaAaAaCcCcCcCcDdDdEeEeEeEeEeGgGgGgGgHhHhIiIiIiIiIiIiJjKkkLlLlLlLlLl\
                                NnNnNnnNnOoOoOoOoRrRrRrSsSsSsSsTtTtTtUuUuUuUuUuUuWwYyYZzZzZzs";

/// Signs of the font that stand in for one that the font lacks; none for a sign that adds nothing.
pub(super) fn for_sign(sign: char) -> &'static str {
    match sign {
        '\u{3c1}' | '\u{3f1}' => "rho",
        '\u{100}'..='\u{17f}' => {
            let place = (u32::from(sign) - 0x100) as usize;
            LATIN_EXTENDED_A.get(place..=place).unwrap_or("?")
        }
        // Accents that follow their letter, joiners, marks of direction, variants of a sign.
        '\u{300}'..='\u{36f}' | '\u{200b}'..='\u{200f}' | '\u{feff}' | '\u{fe00}'..='\u{fe0f}' => "",
        '\u{2011}' => "-",
        sign if sign.is_whitespace() => " ",
        _ => "?",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn unit_the_base_letters_are_in_step() {
        assert_eq!(LATIN_EXTENDED_A.len(), 0x80);
        for (sign, base) in
            [('Ā', "A"), ('č', "c"), ('ğ', "g"), ('Ł', "L"), ('ő', "o"), ('ş', "s"), ('ž', "z")]
        {
            assert_eq!(for_sign(sign), base, "{sign}");
        }
    }
}
