//! Unit expressions: symbols joined by products, quotients, powers and brackets.

use std::ops::Range;

use crate::cursor::{Cursor, is_minus, power};
use crate::dimension::Dimension;
use crate::exact::Exact;
use crate::kind::Kind;
use crate::symbol::{self, Symbol};

/// A unit as it stands in the text. No factors: none was written.
#[derive(Debug)]
pub(crate) struct Unit {
    factors: Vec<Factor>,
    pub(crate) span: Range<usize>,
}

/// A symbol with its power.
///
/// `µm/m·K` is read by ISO 80000-1 from left to right, as µm·K/m; those who write it mean
/// µm/(m·K). Both readings are kept, and the kind of quantity asked for decides.
#[derive(Debug)]
struct Factor {
    spelling: String,
    /// The stroke divides by the next factor only.
    power: i32,
    /// The stroke divides by all that follows.
    power_all_below: i32,
}

/// How a unit turns a number into the base unit of a kind: `number × scale + zero`.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Conversion {
    pub(crate) scale: Exact,
    pub(crate) zero: Exact,
}

/// What a unit is to a kind of quantity.
#[derive(Debug)]
pub(crate) enum Fit {
    Fits(Conversion),
    /// Both readings of the stroke fit, and they differ.
    Ambiguous,
    /// It measures something else.
    Other,
}

/// Why a unit cannot be read.
#[derive(Debug)]
pub(crate) enum UnitFault {
    /// A word that is no unit; the span is the word's.
    Unknown(Range<usize>),
    /// A character that has no place in a unit.
    Unexpected(char, Range<usize>),
    /// A stroke, dot or bracket is left without its partner; the span is the whole unit's.
    Unfinished(Range<usize>),
}

const LARGEST_POWER: i32 = 9;

impl Unit {
    /// Reads a unit up to the end of the text or to the number of a next part (`1 h 30 min`).
    pub(crate) fn read(cursor: &mut Cursor<'_>) -> Result<Self, UnitFault> {
        cursor.skip_space();
        let start = cursor.at();
        let mut reader =
            Reader { signs: Signs::default(), outer: Vec::new(), factors: Vec::new(), open: false };
        let mut end = start;
        while reader.step(cursor)? {
            end = cursor.at();
        }
        if reader.open || !reader.outer.is_empty() {
            return Err(UnitFault::Unfinished(start..end));
        }
        Ok(Self { factors: reader.factors, span: start..end })
    }

    pub(crate) fn is_absent(&self) -> bool {
        self.factors.is_empty()
    }

    /// What this unit is where a quantity of `kind` is asked for.
    pub(crate) fn fit(&self, kind: Kind) -> Fit {
        let Some(symbols) = self
            .factors
            .iter()
            .map(|factor| Some((symbol::find(&factor.spelling, kind)?, factor)))
            .collect::<Option<Vec<_>>>()
        else {
            return Fit::Other;
        };
        if kind == Kind::Temperature {
            return point(&symbols);
        }
        let plain = convert(symbols.iter().map(|&(symbol, factor)| (symbol, factor.power)), kind);
        let below = convert(symbols.iter().map(|&(symbol, factor)| (symbol, factor.power_all_below)), kind);
        let same = self.factors.iter().all(|factor| factor.power == factor.power_all_below);
        match (plain, below) {
            (Some(_), Some(_)) if !same => Fit::Ambiguous,
            (Some(scale), _) | (None, Some(scale)) => Fit::Fits(Conversion { scale, zero: Exact::ZERO }),
            (None, None) => Fit::Other,
        }
    }
}

/// A temperature as a point on its scale: one symbol, with the zero of that scale.
fn point(symbols: &[(&'static Symbol, &Factor)]) -> Fit {
    match symbols {
        &[(&Symbol { scale, zero: Some(zero), .. }, Factor { power: 1, .. })] => {
            Fit::Fits(Conversion { scale, zero })
        }
        _ => Fit::Other,
    }
}

/// One of this product in the base unit of `kind`, where the dimension is the kind's.
fn convert(powers: impl Iterator<Item = (&'static Symbol, i32)>, kind: Kind) -> Option<Exact> {
    let facts = kind.facts();
    let mut dimension = Dimension::NONE;
    let mut scale = Some(Exact::decimal(1, -facts.ten));
    for (symbol, power) in powers {
        dimension = dimension.times(symbol.dimension, power);
        scale = scale.and_then(|scale| scale.times(symbol.scale.power(power)?));
    }
    scale.filter(|_| dimension == facts.dimension)
}

/// The sign of the next factor's power in each of the two readings.
#[derive(Clone, Copy, Debug)]
struct Signs {
    plain: i32,
    all_below: i32,
}

impl Default for Signs {
    fn default() -> Self {
        Self { plain: 1, all_below: 1 }
    }
}

impl Signs {
    fn times(self, other: Self) -> Self {
        Self { plain: self.plain * other.plain, all_below: self.all_below * other.all_below }
    }
}

struct Reader {
    /// Inside the innermost bracket.
    signs: Signs,
    /// For each open bracket: the sign of its content, and the signs to go on with behind it.
    outer: Vec<(Signs, Signs)>,
    factors: Vec<Factor>,
    /// A stroke, a dot or a bracket waits for the factor that must follow.
    open: bool,
}

impl Reader {
    /// Reads the next piece; false, and nothing read, at the end of the unit.
    fn step(&mut self, cursor: &mut Cursor<'_>) -> Result<bool, UnitFault> {
        let mut ahead = cursor.clone();
        ahead.skip_space();
        let start = ahead.at();
        let Some(next) = ahead.peek() else {
            return Ok(false);
        };
        match next {
            '/' | '÷' | '\u{2215}' => {
                ahead.eat(|_| true);
                self.stroke(start, &ahead)?;
            }
            '·' | '*' | '⋅' | '∙' | '•' | '×' => {
                ahead.eat(|_| true);
                self.dot(next, start, &ahead)?;
            }
            // As in `in.` or `N.m`: an abbreviation or a product.
            '.' if !self.factors.is_empty() && !ahead.peek_second().is_some_and(|c| c.is_ascii_digit()) => {
                ahead.eat(|_| true);
            }
            c if is_minus(c) && self.may_join() && ahead.peek_second().is_some_and(is_letter) => {
                ahead.eat(|_| true);
                self.open = true;
            }
            // As in `6'-2"`: the hyphen leads to the next part.
            c if is_minus(c) && self.ends_in_feet() && cursor.peek() == Some(c) => {
                cursor.eat(is_minus);
                return Ok(false);
            }
            '1' if self.is_stroke_over_one(&ahead) => {
                ahead.eat(|_| true);
            }
            '(' => {
                ahead.eat(|_| true);
                let content = self.outer.last().map_or(self.signs, |&(content, _)| content.times(self.signs));
                self.outer.push((content, self.after_factor()));
                self.signs = Signs::default();
                self.open = true;
            }
            ')' => {
                ahead.eat(|_| true);
                match self.outer.pop() {
                    Some((_, behind)) if !self.open => self.signs = behind,
                    _ => return Err(UnitFault::Unexpected(')', start..ahead.at())),
                }
            }
            c if c.is_ascii_digit() || is_fraction(c) || (c == '.' && !self.factors.is_empty()) => {
                return Ok(false);
            }
            c if is_quote(c) || is_letter(c) => self.symbol(&mut ahead)?,
            c => {
                ahead.eat(|_| true);
                return Err(UnitFault::Unexpected(c, start..ahead.at()));
            }
        }
        *cursor = ahead;
        Ok(true)
    }

    fn may_join(&self) -> bool {
        !self.factors.is_empty() && !self.open
    }

    fn ends_in_feet(&self) -> bool {
        !self.open && self.factors.last().is_some_and(|factor| is_foot(&factor.spelling))
    }

    /// The 1 of `1/K`, in front of everything.
    fn is_stroke_over_one(&self, ahead: &Cursor<'_>) -> bool {
        let mut behind = ahead.clone();
        behind.eat(|_| true);
        behind.skip_space();
        self.factors.is_empty() && self.outer.is_empty() && !self.open && behind.peek() == Some('/')
    }

    fn stroke(&mut self, start: usize, ahead: &Cursor<'_>) -> Result<(), UnitFault> {
        if self.open {
            return Err(UnitFault::Unexpected('/', start..ahead.at()));
        }
        self.signs = Signs { plain: -1, all_below: -1 };
        self.open = true;
        Ok(())
    }

    fn dot(&mut self, dot: char, start: usize, ahead: &Cursor<'_>) -> Result<(), UnitFault> {
        if self.open {
            return Err(UnitFault::Unexpected(dot, start..ahead.at()));
        }
        self.open = true;
        Ok(())
    }

    /// The signs to go on with behind a factor: the plain reading of a stroke ends there.
    fn after_factor(&self) -> Signs {
        Signs { plain: 1, ..self.signs }
    }

    fn symbol(&mut self, cursor: &mut Cursor<'_>) -> Result<(), UnitFault> {
        let start = cursor.at();
        let spelling = if cursor.peek().is_some_and(is_quote) { quote(cursor) } else { word(cursor) };
        if spelling == "per" {
            return self.stroke(start, cursor);
        }
        if !symbol::is_known(&spelling) {
            return Err(UnitFault::Unknown(start..cursor.at()));
        }
        let quoted = spelling.chars().all(is_quote);
        let exponent = if quoted { 1 } else { exponent(cursor, !is_foot(&spelling)) };
        if exponent == 0 || exponent.abs() > LARGEST_POWER {
            return Err(UnitFault::Unknown(start..cursor.at()));
        }
        let signs = self.outer.last().map_or(self.signs, |&(content, _)| content.times(self.signs));
        self.factors.push(Factor {
            spelling,
            power: exponent * signs.plain,
            power_all_below: exponent * signs.all_below,
        });
        self.signs = self.after_factor();
        self.open = false;
        Ok(())
    }
}

/// A foot or inch mark, doubled single marks included.
fn quote(cursor: &mut Cursor<'_>) -> String {
    let first = cursor.eat(is_quote);
    let second = cursor.eat(|c| Some(c) == first && matches!(c, '\'' | '′' | '’'));
    first.into_iter().chain(second).collect()
}

/// A word, or two or three that together are one unit (`fl oz`, `deg C`, `US fl oz`), with one
/// space between.
fn word(cursor: &mut Cursor<'_>) -> String {
    let first = cursor.take_while(is_letter).to_owned();
    let mut best = None;
    let mut phrase = first.clone();
    let mut ahead = cursor.clone();
    for _ in 0..2 {
        ahead.eat(|c| c == '.');
        ahead.skip_space();
        let next = ahead.take_while(is_letter);
        if next.is_empty() {
            break;
        }
        phrase = format!("{phrase} {next}");
        if symbol::is_known(&phrase) {
            best = Some((phrase.clone(), ahead.clone()));
        }
    }
    let Some((phrase, behind)) = best else {
        return first;
    };
    *cursor = behind;
    phrase
}

/// The power of a symbol: `²`, `^2`, `-1`, `2`. A plain digit counts only where no further digit
/// and no letter follow, so that `6ft2in` is six feet two inches; a hyphen may lead from feet to
/// inches and is then no sign.
fn exponent(cursor: &mut Cursor<'_>, signed: bool) -> i32 {
    if let Some(power) = power(cursor) {
        return power;
    }
    let mut ahead = cursor.clone();
    let negative = signed && ahead.eat(is_minus).is_some();
    let Some(digit) = ahead.eat(|c| c.is_ascii_digit()).and_then(|c| c.to_digit(10)) else {
        return 1;
    };
    let goes_on = |c: char| c.is_ascii_digit() || is_letter(c) || is_quote(c) || is_fraction(c) || c == '.';
    if ahead.peek().is_some_and(goes_on) {
        return 1;
    }
    *cursor = ahead;
    let size = i32::try_from(digit).unwrap_or(LARGEST_POWER);
    if negative { -size } else { size }
}

fn is_quote(c: char) -> bool {
    matches!(c, '\'' | '"' | '′' | '″' | '’' | '”')
}

fn is_foot(spelling: &str) -> bool {
    matches!(spelling, "ft" | "'" | "′" | "’" | "foot" | "feet")
}

pub(crate) fn is_letter(c: char) -> bool {
    c.is_alphabetic() || matches!(c, '°' | '˚' | '%' | '‰' | '℃' | '℉' | '_' | '#' | '$' | '€' | '£')
}

fn is_fraction(c: char) -> bool {
    crate::number::vulgar(c).is_some()
}
