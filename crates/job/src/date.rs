//! A day of the calendar, as TOML writes it.

use std::fmt;

use toml::de::DeValue;

use crate::describe::{Limit, Shape};
use crate::read::{Node, Reader, Value};

/// A day of the calendar. The order is that of time.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Date {
    /// The year.
    pub year: u16,
    /// The month, from 1.
    pub month: u8,
    /// The day of the month, from 1.
    pub day: u8,
}

impl fmt::Display for Date {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:04}-{:02}-{:02}", self.year, self.month, self.day)
    }
}

impl Value for Date {
    fn shape() -> Shape {
        Shape::Date
    }

    fn read(node: &Node<'_>, _: Limit, reader: &mut Reader<'_>) -> Option<Self> {
        const EXPECTED: &str = "a date such as 2031-12-31, without quotation marks";
        let of = |date: toml::value::Date| Self { year: date.year, month: date.month, day: date.day };
        let mend = match node.value.get_ref() {
            DeValue::Datetime(moment) => match (moment.date, moment.time) {
                (Some(date), None) => return Some(of(date)),
                (Some(date), Some(_)) => Some(format!("write {}", of(date))),
                _ => None,
            },
            DeValue::String(text) => {
                let meant = text.parse::<toml::value::Datetime>().ok().and_then(|moment| moment.date);
                meant.map(|date| format!("write {}", of(date)))
            }
            _ => None,
        };
        reader.wrong_kind(node, EXPECTED, mend)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn unit_days_have_the_order_of_time() {
        let day = |year, month, day| Date { year, month, day };
        assert!(day(2031, 12, 31) < day(2032, 1, 1) && day(2031, 2, 28) < day(2031, 11, 7));
        assert_eq!(day(2031, 2, 8).to_string(), "2031-02-08");
    }
}
