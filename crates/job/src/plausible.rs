//! Sizes that no quantity of a vehicle's repair has: a slip of the decimal point, or of the unit.
//!
//! Each key has limits of its own where its meaning sets some. These are for all keys, and so wide that only a
//! slip leaves them; within them no formula runs out of the range of floating-point numbers.

use quantity::{Kind, System};

/// The least size but zero, and the greatest, in the kind's base unit.
fn sizes(kind: Kind) -> (f64, f64) {
    match kind {
        // mm: from an atom's layer to a road.
        Kind::Length => (1e-6, 1e7),
        // N: from what a hair weighs to a rocket's thrust.
        Kind::Force => (1e-3, 1e9),
        // N·mm: of such forces at such lengths.
        Kind::Moment => (1e-3, 1e12),
        // MPa: from a jelly to beyond diamond.
        Kind::Stress => (1e-4, 1e7),
        // N/mm, which is kJ/m².
        Kind::Toughness => (1e-6, 1e4),
        // s: up to a hundred years.
        Kind::Time => (1e-3, 3.2e9),
        // °C and K: what any part or paste stands.
        Kind::Temperature | Kind::TemperatureDifference => (0.0, 2000.0),
        // 1/K.
        Kind::ThermalExpansion => (1e-12, 1e-2),
        // kg.
        Kind::Mass => (1e-6, 1e6),
        // m/s².
        Kind::Acceleration => (1e-6, 1e5),
        // mL.
        Kind::Volume => (1e-6, 1e9),
        // V.
        Kind::ElectricPotential => (1e-6, 1e3),
        _ => (1e-12, 1e12),
    }
}

/// What is allowed in words, where a size is none that a repair has.
pub(crate) fn slip(value: f64, kind: Kind) -> Option<String> {
    let (least, most) = sizes(kind);
    let print = |value| quantity::print(value, kind, System::Metric);
    let size = value.abs();
    if size > most {
        Some(format!("of at most {}; more is a slip", print(most)))
    } else if size > 0.0 && size < least {
        Some(format!("of zero or at least {}; less is a slip", print(least)))
    } else {
        None
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn unit_every_example_of_every_kind_is_plausible() {
        for kind in Kind::ALL {
            let (least, most) = sizes(kind);
            assert!(least < most, "{kind:?}");
            for example in kind.examples() {
                let value = quantity::parse(example, kind).unwrap();
                assert_eq!(slip(value, kind), None, "{example}");
            }
            assert_eq!(slip(0.0, kind), None);
            assert!(slip(-2.0 * most, kind).unwrap().contains("at most"));
        }
        assert!(slip(1e-9, Kind::Length).unwrap().contains("at least"));
    }
}
