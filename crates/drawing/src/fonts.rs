//! The typeface: B612 Regular and Bold, cut down to the signs that drawings need (`assets/fonts`).

use std::fmt::Write as _;

use crate::lettering;

/// Families to ask for, ours first; the others are as wide, so that text keeps its room without ours.
pub const FAMILIES: &str = "B612,Verdana,'DejaVu Sans',sans-serif";

/// A cut of the typeface.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Cut {
    /// Upright, weight 400.
    Regular,
    /// Upright, weight 700; every sign is as wide as in Regular.
    Bold,
}

impl Cut {
    /// CSS font weight.
    pub const fn weight(self) -> u16 {
        match self {
            Self::Regular => 400,
            Self::Bold => 700,
        }
    }

    /// The font file for browsers.
    pub const fn woff2(self) -> &'static [u8] {
        match self {
            Self::Regular => include_bytes!("../../../assets/fonts/B612-Regular.woff2"),
            Self::Bold => include_bytes!("../../../assets/fonts/B612-Bold.woff2"),
        }
    }

    /// The same glyphs as OpenType, for writers that embed the outlines.
    pub const fn otf(self) -> &'static [u8] {
        match self {
            Self::Regular => include_bytes!("../../../assets/fonts/B612-Regular.otf"),
            Self::Bold => include_bytes!("../../../assets/fonts/B612-Bold.otf"),
        }
    }
}

/// Whether the font files have the sign (they lack ρ, U+03C1).
pub fn covers(sign: char) -> bool {
    lettering::advance(sign).is_some()
}

/// `@font-face` rules that carry the files themselves, for a page that asks no other host.
pub fn face_css(cuts: &[Cut]) -> String {
    let mut css = String::new();
    for cut in cuts {
        // Writing to a String cannot fail.
        let _ = write!(
            css,
            "@font-face{{font-family:B612;font-weight:{};font-display:block;\
             src:url(data:font/woff2;base64,{}) format(\"woff2\")}}",
            cut.weight(),
            base64(cut.woff2())
        );
    }
    css
}

/// Base 64 with padding (RFC 4648, section 4).
fn base64(bytes: &[u8]) -> String {
    const DIGITS: &[u8; 64] = b"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    let mut text = String::with_capacity(bytes.len().div_ceil(3) * 4);
    for group in bytes.chunks(3) {
        let byte = |i: usize| u32::from(group.get(i).copied().unwrap_or(0));
        let bits = (byte(0) << 16) | (byte(1) << 8) | byte(2);
        for place in 0..4_usize {
            if place > group.len() {
                text.push('=');
            } else {
                let digit = (bits >> (18 - 6 * place)) & 63;
                text.push(char::from(DIGITS[digit as usize]));
            }
        }
    }
    text
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The examples of RFC 4648 (2006), section 10; published.
    #[test]
    fn val_base64_examples_of_the_standard() {
        for (plain, coded) in [
            ("", ""),
            ("f", "Zg=="),
            ("fo", "Zm8="),
            ("foo", "Zm9v"),
            ("foob", "Zm9vYg=="),
            ("fooba", "Zm9vYmE="),
            ("foobar", "Zm9vYmFy"),
        ] {
            assert_eq!(base64(plain.as_bytes()), coded);
        }
    }

    #[test]
    fn unit_the_files_are_what_they_say_and_small() {
        for cut in [Cut::Regular, Cut::Bold] {
            assert_eq!(cut.woff2().get(..4), Some(&b"wOF2"[..]));
            assert_eq!(cut.otf().get(..4), Some(&b"OTTO"[..]));
            assert!(cut.woff2().len() < 40_000);
        }
    }

    #[test]
    fn unit_the_signs_of_the_trade_are_covered() {
        let signs = "αβγδεηθκλμνπστφψωΔΣΩ≤≥≈±×÷·°²³⁴⁻₀₁₂−–…′√∞→ÄÖÜäöüßéøåµ";
        for sign in signs.chars() {
            assert!(covers(sign), "{sign}");
        }
        assert!(!covers('ρ'));
    }
}
