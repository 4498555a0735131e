//! Numbers as the trade writes them: decimals, fractions, mixed numbers, powers of ten.

use std::ops::Range;

use crate::cursor::{Cursor, is_minus, power, signed_integer, superscript};
use crate::exact::Exact;

/// Why a number cannot be read.
#[derive(Debug)]
pub(crate) enum NumberFault {
    /// There is none.
    Absent(Range<usize>),
    /// "nan" or "infinity".
    NotFinite(Range<usize>),
    Malformed(Range<usize>),
    /// A comma, with the numbers that may have been meant.
    Comma(Range<usize>, Vec<String>),
    DividesByZero(Range<usize>),
}

/// Reads a number without its sign.
pub(crate) fn number(cursor: &mut Cursor<'_>) -> Result<Exact, NumberFault> {
    let start = cursor.at();
    if let Some(fraction) = cursor.eat(|c| vulgar(c).is_some()).and_then(vulgar) {
        return Ok(fraction);
    }
    let starts_with_point =
        cursor.peek() == Some('.') && cursor.peek_second().is_some_and(|c| c.is_ascii_digit());
    if !starts_with_point && !cursor.peek().is_some_and(|c| c.is_ascii_digit()) {
        return Err(absent(cursor));
    }
    let mut ahead = cursor.clone();
    if let Some(fraction) = fraction(&mut ahead) {
        *cursor = ahead;
        ends_here(cursor, start)?;
        return fraction.map_err(|()| NumberFault::DividesByZero(start..cursor.at()));
    }
    decimal(cursor)
}

fn absent(cursor: &Cursor<'_>) -> NumberFault {
    let mut ahead = cursor.clone();
    let start = ahead.at();
    if ahead.eat(|c| c == '∞').is_some() {
        return NumberFault::NotFinite(start..ahead.at());
    }
    let word = ahead.take_while(char::is_alphabetic).to_lowercase();
    if matches!(word.as_str(), "nan" | "inf" | "infinity") {
        return NumberFault::NotFinite(start..ahead.at());
    }
    NumberFault::Absent(start..start + cursor.peek().map_or(0, char::len_utf8))
}

/// Refuses a number on which more digits, points or commas follow directly.
fn ends_here(cursor: &mut Cursor<'_>, start: usize) -> Result<(), NumberFault> {
    let goes_on = |c: char| matches!(c, '.' | ',' | '/' | '⁄');
    let more = match cursor.peek() {
        Some(c) if c.is_ascii_digit() => true,
        Some(c) if goes_on(c) => cursor.peek_second().is_some_and(|c| c.is_ascii_digit()),
        Some('^') => true,
        Some(c) => superscript(c).is_some(),
        None => false,
    };
    if more {
        cursor.take_while(|c| c.is_ascii_digit() || goes_on(c) || c == '^' || superscript(c).is_some());
        return Err(NumberFault::Malformed(start..cursor.at()));
    }
    Ok(())
}

/// `1/4`, `2 1/2`, `2-1/2`, `2½`, `2 ½`; `None` where the text is no such thing, an error where
/// the denominator is zero.
fn fraction(cursor: &mut Cursor<'_>) -> Option<Result<Exact, ()>> {
    let first = integer(cursor)?;
    if stroke(cursor) {
        return Some(divide(first, integer(cursor)?));
    }
    let mut ahead = cursor.clone();
    ahead.skip_space();
    if let Some(part) = ahead.eat(|c| vulgar(c).is_some()).and_then(vulgar) {
        *cursor = ahead;
        return Some(Exact::decimal(first, 0).plus(part).ok_or(()));
    }
    if ahead.at() == cursor.at() {
        ahead.eat(is_minus)?;
    }
    let numerator = integer(&mut ahead)?;
    if !stroke(&mut ahead) {
        return None;
    }
    let denominator = integer(&mut ahead)?;
    *cursor = ahead;
    Some(divide(numerator, denominator).and_then(|part| Exact::decimal(first, 0).plus(part).ok_or(())))
}

/// An integer of at most 15 digits, so that sums and products of two of them fit.
fn integer(cursor: &mut Cursor<'_>) -> Option<i128> {
    let digits = cursor.digits();
    if digits.len() > 15 { None } else { digits.parse().ok() }
}

fn stroke(cursor: &mut Cursor<'_>) -> bool {
    cursor.peek_second().is_some_and(|c| c.is_ascii_digit())
        && cursor.eat(|c| matches!(c, '/' | '⁄')).is_some()
}

fn divide(numerator: i128, denominator: i128) -> Result<Exact, ()> {
    if denominator == 0 { Err(()) } else { Ok(Exact::ratio(numerator, denominator, 0)) }
}

/// The value of a fraction that is one character.
pub(crate) fn vulgar(c: char) -> Option<Exact> {
    let (numerator, denominator) = match c {
        '½' => (1, 2),
        '⅓' => (1, 3),
        '⅔' => (2, 3),
        '¼' => (1, 4),
        '¾' => (3, 4),
        '⅛' => (1, 8),
        '⅜' => (3, 8),
        '⅝' => (5, 8),
        '⅞' => (7, 8),
        _ => return None,
    };
    Some(Exact::ratio(numerator, denominator, 0))
}

/// `6.5`, `.25`, `15 700` in groups of three, `21e-6`, `21×10⁻⁶`, `10^6`.
fn decimal(cursor: &mut Cursor<'_>) -> Result<Exact, NumberFault> {
    let start = cursor.at();
    let first = cursor.digits();
    let mut digits = first.to_owned();
    if digits == "10"
        && let Some(ten) = power(cursor)
    {
        ends_here(cursor, start)?;
        return Ok(Exact::decimal(1, ten));
    }
    if (1..=3).contains(&first.len()) {
        while let Some(group) = group(cursor) {
            digits.push_str(&group);
        }
    }
    refuse_comma(cursor, start)?;
    let mut ten = 0;
    if cursor.eat(|c| c == '.').is_some() {
        let decimals = cursor.digits();
        digits.push_str(decimals);
        ten = i32::try_from(decimals.len()).map_or(i32::MIN, |places| -places);
        refuse_comma(cursor, start)?;
    }
    ten = ten.saturating_add(exponent(cursor)).saturating_add(times_ten(cursor));
    ends_here(cursor, start)?;
    Ok(significand(&digits, ten))
}

/// A group of three digits behind a space (ISO 80000-1), unless it starts a fraction.
fn group(cursor: &mut Cursor<'_>) -> Option<String> {
    let mut ahead = cursor.clone();
    ahead.eat(char::is_whitespace)?;
    let digits = ahead.digits();
    if digits.len() != 3 || matches!(ahead.peek(), Some('/' | '⁄')) {
        return None;
    }
    *cursor = ahead;
    Some(digits.to_owned())
}

/// Refuses `6,5`, and says what may have been meant.
fn refuse_comma(cursor: &mut Cursor<'_>, start: usize) -> Result<(), NumberFault> {
    if cursor.peek() != Some(',') || !cursor.peek_second().is_some_and(|c| c.is_ascii_digit()) {
        return Ok(());
    }
    cursor.take_while(|c| c.is_ascii_digit() || c == ',' || c == '.');
    let written = cursor.since(start).trim_end_matches([',', '.']);
    let span = start..start + written.len();
    let without_commas = written.replace(',', "");
    let meant = match (written.rfind('.'), written.rfind(',')) {
        (Some(point), Some(comma)) if point > comma => vec![without_commas],
        (Some(_), _) => vec![written.replace('.', "").replace(',', ".")],
        _ if written.matches(',').count() > 1 => vec![without_commas],
        _ => {
            let with_point = written.replace(',', ".");
            let thousands = written.split_once(',').is_some_and(|(whole, rest)| {
                rest.len() == 3 && !whole.is_empty() && whole.len() <= 3 && !whole.starts_with('0')
            });
            if thousands { vec![with_point, without_commas] } else { vec![with_point] }
        }
    };
    Err(NumberFault::Comma(span, meant))
}

/// `e-6`; zero, and nothing read, where no digit follows.
fn exponent(cursor: &mut Cursor<'_>) -> i32 {
    let mut ahead = cursor.clone();
    if ahead.eat(|c| matches!(c, 'e' | 'E')).is_none() {
        return 0;
    }
    let negative = ahead.sign();
    let digits = ahead.digits();
    if digits.is_empty() {
        return 0;
    }
    *cursor = ahead;
    signed_integer(negative, digits)
}

/// `×10⁻⁶`, `x 10^-6`, `·10⁻⁶`; zero, and nothing read, where it is something else.
fn times_ten(cursor: &mut Cursor<'_>) -> i32 {
    let mut ahead = cursor.clone();
    ahead.skip_space();
    if ahead.eat(|c| matches!(c, '×' | '·' | '⋅' | '*' | 'x' | 'X')).is_none() {
        return 0;
    }
    ahead.skip_space();
    if ahead.digits() != "10" {
        return 0;
    }
    let Some(ten) = power(&mut ahead) else {
        return 0;
    };
    *cursor = ahead;
    ten
}

/// The number `digits × 10^ten`. Digits behind the nineteenth do not count: a double has 17, and
/// the integers of [`Exact`] need their room for the unit.
fn significand(digits: &str, ten: i32) -> Exact {
    const KEPT: usize = 19;
    let digits = digits.trim_start_matches('0');
    let kept: String = digits.chars().take(KEPT).collect();
    let dropped = i32::try_from(digits.len() - kept.len()).unwrap_or(i32::MAX);
    Exact::decimal(kept.parse().unwrap_or(0), ten.saturating_add(dropped))
}
