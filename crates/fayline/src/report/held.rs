//! Figures held to their units, so that no line breaks between them.

/// No unit is longer, in signs.
const LONGEST_UNIT: usize = 8;

/// The words with a no-break space between each figure and its unit.
pub(super) fn held(words: &str) -> String {
    let mut parts = words.split(' ');
    let mut said = parts.next().unwrap_or_default().to_owned();
    for part in parts {
        let after_figure = said.ends_with(|sign: char| sign.is_ascii_digit());
        said.push(if after_figure && is_unit(part) { '\u{a0}' } else { ' ' });
        said.push_str(part);
    }
    said
}

/// Whether a word is a unit, but for the stop after it.
fn is_unit(word: &str) -> bool {
    let unit = word.trim_end_matches(['.', ',', ';', ':', ')']);
    if unit == "%" {
        return true;
    }
    unit.chars().count() <= LONGEST_UNIT && quantity::is_unit(unit)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn unit_a_figure_is_held_to_its_unit_and_to_nothing_else() {
        assert_eq!(held("carries 0 N/mm along 3 walls"), "carries 0\u{a0}N/mm along 3 walls");
        assert_eq!(held("at 55 °C, 70 %."), "at 55\u{a0}°C, 70\u{a0}%.");
        assert_eq!(held("set 2 rows, at 30 mm; "), "set 2 rows, at 30\u{a0}mm; ");
        assert_eq!(held(""), "");
    }
}
