//! The list of accepted units, for the reference page.

use crate::kind::Kind;
use crate::symbol;

/// A unit that is accepted for a kind of quantity.
#[derive(Clone, Debug, PartialEq)]
pub struct AcceptedUnit {
    /// All ways to write it, the usual one first.
    pub spellings: Vec<&'static str>,
    /// Its name; empty for a unit that is put together from others.
    pub name: &'static str,
    /// What "1 unit" is in the base unit of the kind.
    pub one: f64,
    /// Where its size comes from; empty for a unit that is put together from others.
    pub source: &'static str,
}

/// The units accepted for a kind: those with a symbol of their own, then the usual products and
/// quotients. Any other product or quotient of symbols that makes the same kind is accepted too.
pub fn units(kind: Kind) -> Vec<AcceptedUnit> {
    let one = |unit: &str| crate::parse(&format!("1 {unit}"), kind).ok();
    let symbols = symbol::of_kind(kind).filter_map(|symbol| {
        let spellings = symbol.spellings.to_vec();
        Some(AcceptedUnit {
            one: one(spellings.first()?)?,
            spellings,
            name: symbol.name,
            source: symbol.basis.text(),
        })
    });
    let composed = kind.facts().composed.iter().filter_map(|unit| {
        Some(AcceptedUnit { one: one(unit)?, spellings: vec![unit], name: "", source: "" })
    });
    symbols.chain(composed).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn unit_every_listed_spelling_reads_as_its_unit() {
        for kind in Kind::ALL {
            let listed = units(kind);
            assert!(listed.len() >= 2, "{kind:?} lists {listed:?}");
            for unit in listed {
                for spelling in &unit.spellings {
                    // "1" and "1/s" without a space between is eleven per second.
                    let joint = if spelling.starts_with('1') { " " } else { "" };
                    for text in [format!("1 {spelling}"), format!("1{joint}{spelling}")] {
                        let read = crate::parse(&text, kind).map(f64::to_bits);
                        assert_eq!(read, Ok(unit.one.to_bits()), "{text} as {kind:?}");
                    }
                }
            }
        }
    }
}
