//! Amounts of money.

use std::fmt;
use std::ops::Range;
use std::str::FromStr;

use crate::cursor::{Cursor, is_minus};
use crate::exact::Exact;
use crate::number::{NumberFault, number};
use crate::parse::LONGEST_TEXT;

/// An amount in a currency, written `1250 EUR` or `EUR 1250.50`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Money {
    /// How many units of the currency.
    pub amount: f64,
    /// Which currency.
    pub currency: Currency,
}

/// A currency by its code of three capital letters (ISO 4217).
///
/// The code is not looked up in a list: a job may count in any currency, and sums are only made
/// in one.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Currency([u8; 3]);

impl Currency {
    /// From three capital letters.
    pub fn new(code: &str) -> Option<Self> {
        let letters: [u8; 3] = code.as_bytes().try_into().ok()?;
        letters.iter().all(u8::is_ascii_uppercase).then_some(Self(letters))
    }

    /// The three letters.
    pub fn code(&self) -> &str {
        // Only ASCII letters get in.
        str::from_utf8(&self.0).unwrap_or_default()
    }
}

impl fmt::Display for Currency {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(self.code())
    }
}

impl fmt::Debug for Currency {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.code())
    }
}

/// Prints whole amounts without decimals, others with two.
impl fmt::Display for Money {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self { amount, currency } = self;
        if !amount.is_finite() {
            return f.pad("not a number");
        }
        let cents = format!("{amount:.2}");
        let number = match cents.trim_end_matches(".00") {
            "-0" => "0",
            number => number,
        };
        f.pad(&format!("{number} {currency}"))
    }
}

/// Why a text is not an amount of money.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[error("{}", self.sentence())]
#[non_exhaustive]
pub enum ParseMoneyError {
    /// Nothing but white space.
    Empty {
        /// Where in the text.
        span: Range<usize>,
    },
    /// No number where one must stand.
    NoAmount {
        /// What stands there instead.
        rest: String,
        /// Where in the text.
        span: Range<usize>,
    },
    /// A number that cannot be read or is beyond the range of numbers.
    BadAmount {
        /// The number as written.
        written: String,
        /// Where in the text.
        span: Range<usize>,
    },
    /// A comma in the amount.
    DecimalComma {
        /// The number as written.
        written: String,
        /// The numbers that may have been meant.
        meant: Vec<String>,
        /// Where in the text.
        span: Range<usize>,
    },
    /// An amount alone.
    NoCurrency {
        /// The number as written.
        number: String,
        /// Where in the text.
        span: Range<usize>,
    },
    /// Something other than a code of three capital letters.
    NotACode {
        /// What stands where the code should.
        written: String,
        /// Where in the text.
        span: Range<usize>,
    },
}

impl ParseMoneyError {
    /// The bytes of the text that are at fault.
    pub fn span(&self) -> Range<usize> {
        match self {
            Self::Empty { span }
            | Self::NoAmount { span, .. }
            | Self::BadAmount { span, .. }
            | Self::DecimalComma { span, .. }
            | Self::NoCurrency { span, .. }
            | Self::NotACode { span, .. } => span.clone(),
        }
    }

    /// What is wrong, such as `"1250" has no currency`.
    pub fn found(&self) -> String {
        match self {
            Self::Empty { .. } => "nothing is written here".to_owned(),
            Self::NoAmount { rest, .. } if rest.is_empty() => "there is no amount".to_owned(),
            Self::NoAmount { rest, .. } => format!("\"{rest}\" is no amount"),
            Self::BadAmount { written, .. } => {
                format!("\"{written}\" is not an amount to reckon with")
            }
            Self::DecimalComma { written, .. } => format!("the number \"{written}\" has a comma"),
            Self::NoCurrency { number, .. } => format!("\"{number}\" has no currency"),
            Self::NotACode { written, .. } => {
                format!("\"{written}\" is not the code of a currency")
            }
        }
    }

    /// What is allowed.
    pub fn expected(&self) -> String {
        "an amount with the three-letter code of its currency, such as \"1250 EUR\" or \"1250.50 USD\""
            .to_owned()
    }

    /// What would mend it, where that can be told.
    pub fn mend(&self) -> Option<String> {
        match self {
            Self::DecimalComma { meant, .. } => {
                let quoted: Vec<_> = meant.iter().map(|number| format!("\"{number}\"")).collect();
                Some(format!("write {}", quoted.join(" or ")))
            }
            Self::NoCurrency { number, .. } => Some(format!("write \"{number} EUR\" or \"{number} USD\"")),
            Self::NotACode { written, .. } => match written.as_str() {
                "€" => Some("write \"EUR\"".to_owned()),
                "£" => Some("write \"GBP\"".to_owned()),
                "$" => {
                    Some("several currencies share this sign; write \"USD\", \"CAD\" or \"AUD\"".to_owned())
                }
                _ => {
                    let code = written.to_ascii_uppercase();
                    Currency::new(&code).map(|code| format!("did you mean \"{code}\"?"))
                }
            },
            _ => None,
        }
    }

    fn sentence(&self) -> String {
        let mend = self.mend().map_or_else(String::new, |mend| format!("; {mend}"));
        format!("{}; expected {}{mend}", self.found(), self.expected())
    }
}

impl FromStr for Money {
    type Err = ParseMoneyError;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        let mut cursor = Cursor::new(text);
        cursor.skip_space();
        if cursor.is_end() {
            return Err(ParseMoneyError::Empty { span: 0..text.len() });
        }
        if text.len() > LONGEST_TEXT {
            return Err(ParseMoneyError::BadAmount {
                written: "this long text".to_owned(),
                span: 0..text.len(),
            });
        }
        let starts_with_code = matches!(number(&mut cursor.clone()), Err(NumberFault::Absent(_)))
            && !cursor.peek().is_some_and(|c| c == '+' || is_minus(c));
        let leading = starts_with_code.then(|| currency(&mut cursor)).transpose()?.flatten();
        cursor.skip_space();
        let start = cursor.at();
        let amount = amount(text, &mut cursor)?;
        let span = start..cursor.at();
        cursor.skip_space();
        let currency = match leading {
            Some(code) => code,
            None => currency(&mut cursor)?.ok_or_else(|| ParseMoneyError::NoCurrency {
                number: text.get(span.clone()).unwrap_or_default().to_owned(),
                span,
            })?,
        };
        cursor.skip_space();
        if !cursor.is_end() {
            let written = cursor.rest().trim_end().to_owned();
            let span = cursor.at()..cursor.at() + written.len();
            return Err(ParseMoneyError::NotACode { written, span });
        }
        Ok(Self { amount, currency })
    }
}

/// The word here as a code; `None` at the end of the text.
fn currency(cursor: &mut Cursor<'_>) -> Result<Option<Currency>, ParseMoneyError> {
    let start = cursor.at();
    let written =
        cursor.take_while(|c| !c.is_whitespace() && !c.is_ascii_digit() && c != '.' && !is_minus(c));
    if written.is_empty() && cursor.is_end() {
        return Ok(None);
    }
    match Currency::new(written) {
        Some(code) => Ok(Some(code)),
        None => Err(ParseMoneyError::NotACode { written: written.to_owned(), span: start..cursor.at() }),
    }
}

fn amount(text: &str, cursor: &mut Cursor<'_>) -> Result<f64, ParseMoneyError> {
    let start = cursor.at();
    let negative = cursor.sign();
    let written = |span: &Range<usize>| text.get(span.clone()).unwrap_or_default().to_owned();
    let size = number(cursor).map_err(|fault| match fault {
        NumberFault::Absent(span) => {
            ParseMoneyError::NoAmount { rest: written(&(span.start..text.len())).trim_end().to_owned(), span }
        }
        NumberFault::NotFinite(span) | NumberFault::Malformed(span) | NumberFault::DividesByZero(span) => {
            ParseMoneyError::BadAmount { written: written(&span), span }
        }
        NumberFault::Comma(span, meant) => {
            ParseMoneyError::DecimalComma { written: written(&span), meant, span }
        }
    })?;
    let exact: Exact = if negative { size.negated() } else { size };
    let amount = exact.to_f64();
    if amount.is_finite() {
        Ok(amount)
    } else {
        let span = start..cursor.at();
        Err(ParseMoneyError::BadAmount { written: written(&span), span })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(text: &str) -> Result<(f64, String), String> {
        text.parse::<Money>()
            .map(|money| (money.amount, money.currency.to_string()))
            .map_err(|e| e.to_string())
    }

    #[test]
    fn unit_amounts_are_read_with_the_code_before_or_behind() {
        let cases = [
            ("1250 EUR", 1250.0, "EUR"),
            ("EUR 1250.50", 1250.5, "EUR"),
            ("1250.50USD", 1250.5, "USD"),
            ("  EUR1250 ", 1250.0, "EUR"),
            ("-40 CHF", -40.0, "CHF"),
            ("CHF -40", -40.0, "CHF"),
            ("15 700 SEK", 15_700.0, "SEK"),
            ("1e3 EUR", 1000.0, "EUR"),
        ];
        for (text, amount, code) in cases {
            assert_eq!(read(text), Ok((amount, code.to_owned())), "{text}");
        }
    }

    #[test]
    fn unit_amounts_print_so_that_they_can_be_read_again() {
        for (text, printed) in [
            ("1250 EUR", "1250 EUR"),
            ("EUR 1250.5", "1250.50 EUR"),
            ("-0 EUR", "0 EUR"),
            ("100 USD", "100 USD"),
        ] {
            let money: Money = text.parse().expect("an amount");
            assert_eq!(money.to_string(), printed);
            assert_eq!(money.to_string().parse(), Ok(money));
        }
    }

    #[test]
    fn golden_messages_about_money() {
        let texts = [
            "",
            "EUR",
            "1250",
            "1,250 EUR",
            "12,50 EUR",
            "1250 eur",
            "1250 €",
            "$ 1250",
            "1250 euros",
            "nan EUR",
            "1e999 EUR",
            "EUR 12 13",
            "12 EUR each",
            "EUR 1.2.3",
        ];
        let messages: Vec<_> = texts.map(|text| format!("{text:?}: {}", read(text).expect_err(text))).into();
        insta::assert_snapshot!(messages.join("\n"));
    }
}
