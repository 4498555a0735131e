//! From text to a number in the base unit.

use std::ops::Range;

use crate::cursor::Cursor;
use crate::error::ParseQuantityError;
use crate::exact::Exact;
use crate::kind::Kind;
use crate::nearest;
use crate::number::{NumberFault, number};
use crate::unit::{Conversion, Fit, Unit, UnitFault};

/// Longer texts are refused, which bounds the work and the size of a message.
pub(crate) const LONGEST_TEXT: usize = 200;

/// Zero kelvin in degrees Celsius.
pub(crate) const ABSOLUTE_ZERO_CELSIUS: f64 = -273.15;

/// Reads a quantity of the kind asked for, in its [base unit](Kind::base_unit).
///
/// ```
/// use quantity::{Kind, parse};
/// assert_eq!(parse("6.4 mm", Kind::Length), Ok(6.4));
/// assert_eq!(parse("2 1/2 in", Kind::Length), Ok(63.5));
/// assert_eq!(parse("70 °F", Kind::TemperatureDifference), Ok(350.0 / 9.0));
/// assert!(parse("6.4", Kind::Length).is_err());
/// ```
///
/// The conversion is exact up to the last step, which rounds to the nearest `f64`.
///
/// # Errors
///
/// Where the text is not one quantity of this kind, with the place in the text and a way to mend
/// it; also where the value is not finite, too small to be told from zero, or not above zero
/// kelvin.
pub fn parse(text: &str, kind: Kind) -> Result<f64, ParseQuantityError> {
    if text.len() > LONGEST_TEXT {
        return Err(ParseQuantityError::TooLong { kind, span: 0..text.len() });
    }
    let mut cursor = Cursor::new(text);
    cursor.skip_space();
    if cursor.is_end() {
        return Err(ParseQuantityError::Empty { kind, span: 0..text.len() });
    }
    let start = cursor.at();
    let negative = cursor.sign();
    let parts = parts(text, &mut cursor, kind)?;
    let span = start..parts.last().map_or(start, |part| part.unit.span.end);
    let conversions = parts.iter().map(|part| conversion(text, part, kind)).collect::<Result<Vec<_>, _>>()?;
    if parts.len() > 1 && !is_compound(kind, &conversions) {
        return Err(ParseQuantityError::SeveralNumbers { kind, span });
    }
    let too_long = || ParseQuantityError::TooLong { kind, span: span.clone() };
    let mut size = Exact::ZERO;
    for (part, conversion) in parts.iter().zip(&conversions) {
        let piece = part.number.times(conversion.scale).ok_or_else(too_long)?;
        size = size.plus(piece).ok_or_else(too_long)?;
    }
    let scaled = if negative { size.negated() } else { size };
    let zero = conversions.first().map_or(Exact::ZERO, |conversion| conversion.zero);
    // A sum that the integers do not hold has one member too small to matter.
    let value = scaled.plus(zero).map_or_else(|| scaled.to_f64() + zero.to_f64(), Exact::to_f64);
    let vanishes = scaled.to_f64() == 0.0 && !scaled.is_zero();
    within_range(value, vanishes, text, span, kind)
}

/// Whether a text is a unit of some kind, and nothing else.
///
/// ```
/// use quantity::is_unit;
/// assert!(is_unit("N/mm") && is_unit("°C") && is_unit("kJ/m²"));
/// assert!(!is_unit("rows") && !is_unit("2 mm") && !is_unit(""));
/// ```
pub fn is_unit(text: &str) -> bool {
    let mut cursor = Cursor::new(text);
    let read = (text.len() <= LONGEST_TEXT).then(|| Unit::read(&mut cursor));
    let Some(Ok(unit)) = read else { return false };
    let fits = |kind: Kind| !matches!(unit.fit(kind), Fit::Other);
    cursor.is_end() && !unit.is_absent() && Kind::ALL.into_iter().any(fits)
}

/// A number with its unit.
struct Part {
    number: Exact,
    span: Range<usize>,
    unit: Unit,
}

/// Reads numbers with units up to the end of the text; at least one.
fn parts(text: &str, cursor: &mut Cursor<'_>, kind: Kind) -> Result<Vec<Part>, ParseQuantityError> {
    let mut parts = Vec::new();
    loop {
        cursor.skip_space();
        let start = cursor.at();
        let number = number(cursor).map_err(|fault| number_error(text, fault, kind))?;
        let span = start..cursor.at();
        let unit = Unit::read(cursor).map_err(|fault| unit_error(text, &fault, kind))?;
        parts.push(Part { number, span, unit });
        cursor.skip_space();
        if cursor.is_end() {
            return Ok(parts);
        }
    }
}

/// How the unit of a part turns its number into the base unit.
fn conversion(text: &str, part: &Part, kind: Kind) -> Result<Conversion, ParseQuantityError> {
    let written = |span: &Range<usize>| text.get(span.clone()).unwrap_or_default().to_owned();
    if part.unit.is_absent() && kind != Kind::Factor {
        let number = written(&part.span);
        return Err(ParseQuantityError::NoUnit { kind, number, span: part.span.clone() });
    }
    let span = part.unit.span.clone();
    match part.unit.fit(kind) {
        Fit::Fits(conversion) => Ok(conversion),
        Fit::Ambiguous => Err(ParseQuantityError::AmbiguousUnit { kind, unit: written(&span), span }),
        Fit::Other => {
            let fits = |&other: &Kind| matches!(part.unit.fit(other), Fit::Fits(_));
            let found = Kind::ALL.into_iter().filter(fits).collect();
            Err(ParseQuantityError::WrongKind { kind, unit: written(&span), found, span })
        }
    }
}

/// `1 h 30 min`, `6 ft 2 in`, `5 lb 3 oz`: each unit smaller than the one before it.
fn is_compound(kind: Kind, conversions: &[Conversion]) -> bool {
    matches!(kind, Kind::Length | Kind::Time | Kind::Mass)
        && conversions.windows(2).all(|pair| match pair {
            [greater, lesser] => greater.scale.to_f64() > lesser.scale.to_f64(),
            _ => true,
        })
}

fn within_range(
    value: f64,
    vanishes: bool,
    text: &str,
    span: Range<usize>,
    kind: Kind,
) -> Result<f64, ParseQuantityError> {
    if !value.is_finite() {
        let written = text.get(span.clone()).unwrap_or_default().to_owned();
        return Err(ParseQuantityError::TooLarge { kind, written, span });
    }
    if vanishes {
        let written = text.get(span.clone()).unwrap_or_default().to_owned();
        return Err(ParseQuantityError::TooSmall { kind, written, span });
    }
    if kind == Kind::Temperature && value <= ABSOLUTE_ZERO_CELSIUS {
        return Err(ParseQuantityError::NotAboveAbsoluteZero { celsius: value, span });
    }
    Ok(value)
}

fn number_error(text: &str, fault: NumberFault, kind: Kind) -> ParseQuantityError {
    let written = |span: &Range<usize>| text.get(span.clone()).unwrap_or_default().to_owned();
    match fault {
        NumberFault::Absent(span) => {
            let rest = text.get(span.start..).unwrap_or_default().trim_end().to_owned();
            ParseQuantityError::NoNumber { kind, rest, span }
        }
        NumberFault::NotFinite(span) => ParseQuantityError::NotFinite { kind, written: written(&span), span },
        NumberFault::Malformed(span) => {
            ParseQuantityError::MalformedNumber { kind, written: written(&span), span }
        }
        NumberFault::Comma(span, meant) => {
            ParseQuantityError::DecimalComma { kind, written: written(&span), meant, span }
        }
        NumberFault::DividesByZero(span) => {
            ParseQuantityError::DivisionByZero { kind, written: written(&span), span }
        }
    }
}

fn unit_error(text: &str, fault: &UnitFault, kind: Kind) -> ParseQuantityError {
    match fault {
        UnitFault::Unknown(span) => {
            let word = text.get(span.clone()).unwrap_or_default();
            let nearest = nearest::unit(word, kind);
            ParseQuantityError::UnknownUnit { kind, unit: word.to_owned(), nearest, span: span.clone() }
        }
        UnitFault::Unexpected(character, span) => {
            ParseQuantityError::UnexpectedCharacter { kind, character: *character, span: span.clone() }
        }
        UnitFault::Unfinished(span) => {
            let unit = text.get(span.clone()).unwrap_or_default().to_owned();
            ParseQuantityError::UnfinishedUnit { kind, unit, span: span.clone() }
        }
    }
}
