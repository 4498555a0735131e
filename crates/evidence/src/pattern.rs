//! Where a coupon failed: the failure pattern in the codes of ISO 10365.

use core::fmt;
use thiserror::Error;

/// A failure pattern of ISO 10365:1992 (codes from memory). Other standards have other codes for
/// the same surfaces; the two are not to be mixed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Code {
    /// AF: between adhesive and adherend.
    Adhesion,
    /// CF: inside the adhesive.
    Cohesion,
    /// SCF: inside the adhesive, close to the adherend, leaving a thin layer on it.
    SpecialCohesion,
    /// SF: the adherend broke.
    Substrate,
    /// CSF: inside the adherend, along the bond.
    CohesiveSubstrate,
    /// DF: between the layers of the adherend.
    Delamination,
    /// ACFP: adhesion and cohesion mixed, by peel.
    AdhesionCohesionPeel,
}

impl Code {
    /// All codes.
    pub const ALL: [Self; 7] = [
        Self::Adhesion,
        Self::Cohesion,
        Self::SpecialCohesion,
        Self::Substrate,
        Self::CohesiveSubstrate,
        Self::Delamination,
        Self::AdhesionCohesionPeel,
    ];

    /// The letters of the code.
    pub fn letters(self) -> &'static str {
        match self {
            Self::Adhesion => "AF",
            Self::Cohesion => "CF",
            Self::SpecialCohesion => "SCF",
            Self::Substrate => "SF",
            Self::CohesiveSubstrate => "CSF",
            Self::Delamination => "DF",
            Self::AdhesionCohesionPeel => "ACFP",
        }
    }
}

impl fmt::Display for Code {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        formatter.write_str(self.letters())
    }
}

/// Why a text is no failure pattern. Positions count bytes from the start of the text.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum PatternError {
    /// Nothing but blanks.
    #[error("no failure pattern")]
    Empty,
    /// A character that belongs to no pattern.
    #[error("unexpected {found:?} at {at}")]
    UnexpectedCharacter {
        /// Position.
        at: usize,
        /// The character.
        found: char,
    },
    /// Letters that are no code.
    #[error("{found:?} at {at} is none of AF, CF, SCF, SF, CSF, DF, ACFP")]
    UnknownCode {
        /// Position.
        at: usize,
        /// The letters.
        found: String,
    },
    /// Digits that are no number.
    #[error("{found:?} at {at} is no number")]
    NotANumber {
        /// Position.
        at: usize,
        /// The text.
        found: String,
    },
    /// Two or more codes, and one has no share.
    #[error("{code} at {at} has no share of the area")]
    MissingShare {
        /// Position of the code.
        at: usize,
        /// The code.
        code: Code,
    },
    /// A share without a code.
    #[error("the share at {at} belongs to no code")]
    ShareWithoutCode {
        /// Position of the share.
        at: usize,
    },
    /// A code stands twice.
    #[error("{code} stands a second time at {at}")]
    RepeatedCode {
        /// Position of the second.
        at: usize,
        /// The code.
        code: Code,
    },
    /// The shares are not the whole area.
    #[error("the shares add up to {percent} %, not 100 %")]
    NotTheWhole {
        /// Their sum, %.
        percent: f64,
    },
}

/// Greatest distance of the shares' sum from 100 %: thirds and sixths written to one decimal.
const SUM_TOLERANCE_PERCENT: f64 = 0.201;

/// A failure pattern: codes with their shares of the bonded area, which add up to the whole.
#[derive(Debug, Clone, PartialEq)]
pub struct Pattern {
    shares: Vec<(Code, f64)>,
}

impl Pattern {
    /// Reads a pattern such as `CF`, `60CF/40AF` or `CF 60 % AF 40 %`.
    ///
    /// Codes in either case; shares in per cent with or without the sign, all before or all after
    /// their codes; between the entries blanks, `/`, `,`, `;` or `+`. A single code may go without
    /// a share.
    ///
    /// # Errors
    ///
    /// A [`PatternError`] with its position.
    pub fn parse(text: &str) -> Result<Self, PatternError> {
        let tokens = tokens(text)?;
        let shares = match tokens.as_slice() {
            [] => return Err(PatternError::Empty),
            [Token { kind: Kind::Code(code), .. }] => vec![(*code, 100.0)],
            _ => pairs(&tokens)?,
        };
        let percent: f64 = shares.iter().map(|(_, share)| share).sum();
        if (percent - 100.0).abs() > SUM_TOLERANCE_PERCENT {
            return Err(PatternError::NotTheWhole { percent });
        }
        Ok(Self { shares: shares.into_iter().map(|(code, share)| (code, share / 100.0)).collect() })
    }

    /// Codes and their shares of the area, 0 to 1, in the order written.
    pub fn shares(&self) -> &[(Code, f64)] {
        &self.shares
    }

    /// The share of one code, zero if it does not occur.
    pub fn share(&self, code: Code) -> f64 {
        self.shares.iter().filter(|(c, _)| *c == code).map(|(_, share)| share).sum()
    }

    /// The share that surely failed between adhesive and adherend: AF. It is a finding about the
    /// surface, whatever the strength.
    pub fn adhesion_share(&self) -> f64 {
        self.share(Code::Adhesion)
    }

    /// The share that may have failed there: AF and the mixed ACFP.
    pub fn possible_adhesion_share(&self) -> f64 {
        self.adhesion_share() + self.share(Code::AdhesionCohesionPeel)
    }
}

impl fmt::Display for Pattern {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (index, (code, share)) in self.shares.iter().enumerate() {
            if index > 0 {
                formatter.write_str(", ")?;
            }
            // To a tenth of a per cent: what an eye can tell on a surface, and more.
            write!(formatter, "{code} {} %", (share * 1000.0).round() / 10.0)?;
        }
        Ok(())
    }
}

#[derive(Clone, Copy)]
struct Token {
    at: usize,
    kind: Kind,
}

#[derive(Clone, Copy)]
enum Kind {
    Code(Code),
    Percent(f64),
}

fn tokens(text: &str) -> Result<Vec<Token>, PatternError> {
    let mut tokens = Vec::new();
    let mut after_number = false;
    let mut rest = text;
    while let Some(first) = rest.chars().next() {
        let at = text.len() - rest.len();
        let run = |belongs: fn(char) -> bool| rest.find(|c| !belongs(c)).unwrap_or(rest.len());
        let length = match first {
            'a'..='z' | 'A'..='Z' => run(|c| c.is_ascii_alphabetic()),
            '0'..='9' | '.' => run(|c| c.is_ascii_digit() || c == '.'),
            _ => first.len_utf8(),
        };
        let (word, after) = rest.split_at(length);
        let kind = match first {
            'a'..='z' | 'A'..='Z' => Some(Kind::Code(code(word, at)?)),
            '0'..='9' | '.' => Some(Kind::Percent(number(word, at)?)),
            '%' if after_number => None,
            '/' | ',' | ';' | '+' => None,
            blank if blank.is_whitespace() => None,
            found => return Err(PatternError::UnexpectedCharacter { at, found }),
        };
        // A per cent sign may stand off its number, but only once.
        after_number = match kind {
            Some(Kind::Percent(_)) => true,
            Some(Kind::Code(_)) => false,
            None => after_number && first.is_whitespace(),
        };
        tokens.extend(kind.map(|kind| Token { at, kind }));
        rest = after;
    }
    Ok(tokens)
}

fn code(word: &str, at: usize) -> Result<Code, PatternError> {
    Code::ALL
        .into_iter()
        .find(|code| word.eq_ignore_ascii_case(code.letters()))
        .ok_or_else(|| PatternError::UnknownCode { at, found: word.to_owned() })
}

fn number(word: &str, at: usize) -> Result<f64, PatternError> {
    match word.parse::<f64>() {
        Ok(value) if value.is_finite() => Ok(value),
        _ => Err(PatternError::NotANumber { at, found: word.to_owned() }),
    }
}

/// Codes with their shares; the first token says which stands before the other.
fn pairs(tokens: &[Token]) -> Result<Vec<(Code, f64)>, PatternError> {
    let mut shares: Vec<(Code, f64)> = Vec::new();
    let mut seen = |code: Code, percent: f64, at: usize| {
        if shares.iter().any(|(before, _)| *before == code) {
            return Err(PatternError::RepeatedCode { at, code });
        }
        shares.push((code, percent));
        Ok(())
    };
    let shares_first = matches!(tokens.first(), Some(Token { kind: Kind::Percent(_), .. }));
    let mut rest = tokens;
    while let [first, after @ ..] = rest {
        let pair = match (first.kind, after.first().map(|token| (token.kind, token.at))) {
            (Kind::Percent(percent), Some((Kind::Code(code), at))) if shares_first => (code, percent, at),
            (Kind::Code(code), Some((Kind::Percent(percent), _))) if !shares_first => {
                (code, percent, first.at)
            }
            (Kind::Percent(_), _) => return Err(PatternError::ShareWithoutCode { at: first.at }),
            (Kind::Code(code), _) => return Err(PatternError::MissingShare { at: first.at, code }),
        };
        seen(pair.0, pair.1, pair.2)?;
        rest = after.get(1..).unwrap_or_default();
    }
    Ok(shares)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn shares(text: &str) -> Vec<(Code, f64)> {
        Pattern::parse(text).map(|pattern| pattern.shares).unwrap_or_default()
    }

    /// ISO 10365:1992 has seven codes (from memory).
    #[test]
    fn val_seven_codes() {
        assert_eq!(Code::ALL.len(), 7);
        for code in Code::ALL {
            assert_eq!(shares(code.letters()), vec![(code, 1.0)]);
        }
    }

    #[test]
    fn unit_ways_to_write_the_same() {
        let mixed = vec![(Code::Cohesion, 0.6), (Code::Adhesion, 0.4)];
        for text in [
            "60CF/40AF",
            "CF 60 % AF 40 %",
            "60 % CF, 40 % AF",
            "cf 60%, af 40%",
            "60cf + 40af",
            " 60.0 CF;40. AF ",
            "CF60AF40",
        ] {
            assert_eq!(shares(text), mixed, "{text}");
        }
        assert_eq!(shares("100 % CF"), vec![(Code::Cohesion, 1.0)]);
        assert_eq!(shares("33.3CF/33.3SCF/33.3AF").len(), 3);
    }

    #[test]
    fn unit_each_fault_at_its_place() {
        let cases = [
            ("", PatternError::Empty),
            (" / ", PatternError::Empty),
            ("60CF/40XF", PatternError::UnknownCode { at: 7, found: "XF".to_owned() }),
            ("60CF|40AF", PatternError::UnexpectedCharacter { at: 4, found: '|' }),
            ("-60CF", PatternError::UnexpectedCharacter { at: 0, found: '-' }),
            ("% CF", PatternError::UnexpectedCharacter { at: 0, found: '%' }),
            ("60 %% CF", PatternError::UnexpectedCharacter { at: 4, found: '%' }),
            ("6.0.0CF", PatternError::NotANumber { at: 0, found: "6.0.0".to_owned() }),
            ("CF/AF", PatternError::MissingShare { at: 0, code: Code::Cohesion }),
            ("60CF/AF", PatternError::MissingShare { at: 5, code: Code::Adhesion }),
            ("CF 60 AF", PatternError::MissingShare { at: 6, code: Code::Adhesion }),
            ("60 40 CF", PatternError::ShareWithoutCode { at: 0 }),
            ("60", PatternError::ShareWithoutCode { at: 0 }),
            ("60CF/40CF", PatternError::RepeatedCode { at: 7, code: Code::Cohesion }),
            ("60CF/30AF", PatternError::NotTheWhole { percent: 90.0 }),
            ("0.6CF/0.4AF", PatternError::NotTheWhole { percent: 1.0 }),
            ("60CF/40ÄF", PatternError::UnexpectedCharacter { at: 7, found: 'Ä' }),
        ];
        for (text, error) in cases {
            assert_eq!(Pattern::parse(text), Err(error), "{text}");
        }
    }

    #[test]
    fn unit_adhesion_share() -> Result<(), PatternError> {
        let mixed = Pattern::parse("50CF/30ACFP/20AF")?;
        assert!((mixed.adhesion_share() - 0.2).abs() < 1e-15);
        assert!((mixed.possible_adhesion_share() - 0.5).abs() < 1e-15);
        assert!(Pattern::parse("CF")?.adhesion_share().abs() < 1e-15);
        Ok(())
    }

    proptest! {
        #[test]
        fn law_any_text_is_a_pattern_or_an_error(text in "\\PC{0,24}") {
            if let Ok(pattern) = Pattern::parse(&text) {
                let whole: f64 = pattern.shares().iter().map(|(_, share)| share).sum();
                prop_assert!((whole - 1.0).abs() < 0.003);
            }
        }

        #[test]
        fn law_reads_what_it_prints(a in 0..=100_u32, first in 0..7_usize, second in 0..7_usize) {
            prop_assume!(first != second);
            let (x, y) = (Code::ALL[first], Code::ALL[second]);
            let pattern = Pattern::parse(&format!("{a}{x}/{}{y}", 100 - a))?;
            prop_assert_eq!(Pattern::parse(&pattern.to_string())?, pattern);
        }
    }
}
