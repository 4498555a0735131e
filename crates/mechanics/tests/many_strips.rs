//! Many strips to failure, and what holds for all of a kind.

use std::num::NonZeroUsize;

use mechanics::Adherend;
use mechanics::bondline::Bondline;
use mechanics::rivet::share::{Hold, Row};
use mechanics::strip::progressive::{Cohesive, Control, Joint, Law, Mixing, Scatter, many, run};
use mechanics::strip::{Adhesive, Ends, Geometry, Mesh, Plane, Strip, Supports};
use proptest::prelude::*;

fn plate(thickness_mm: f64) -> Adherend {
    Adherend { youngs_modulus_mpa: 70e3, poissons_ratio: 0.33, thickness_mm, thermal_expansion_per_k: 23e-6 }
}

/// A lap of two plates, 100 N/mm at the factor 1.
fn lap(upper_mm: f64, lower_mm: f64, overlap_mm: f64, law: Cohesive) -> Joint {
    let strip = Strip {
        upper: plate(upper_mm),
        lower: plate(lower_mm),
        adhesive: Adhesive { shear_modulus_mpa: 688.0, peel_modulus_mpa: 2221.0 },
        bondline: Bondline::Constant(0.25),
        overlap_mm,
        supports: Supports::Gripped { ends: Ends::Clamped, left_arm_mm: 50.0, right_arm_mm: 50.0 },
        axial_n_mm: 100.0,
        shear_flow_n_mm: 0.0,
        temperature_change_k: 0.0,
        plane: Plane::Strain,
        hold_transverse: false,
        lever_arm_includes_bondline: true,
        geometry: Geometry::SecondOrder,
        mesh: Mesh { elements: 60, arm_elements: 8, grading: 4.0 },
    };
    Joint::new(strip, Law::Cohesive(law))
}

fn tough() -> Cohesive {
    Cohesive {
        tensile_strength_mpa: 30.0,
        shear_strength_mpa: 24.0,
        mode_1_toughness_n_mm: 1.4,
        mode_2_toughness_n_mm: 2.6,
        mixing: Mixing::Power(1.0),
    }
}

/// "Same seed, same bytes on one and two threads": whole outcomes, joints of another kind between them so
/// that a walker's memory is used for more than one size.
#[test]
fn law_same_seed_same_bytes_on_any_number_of_threads() {
    let scatter = Scatter { strength: 0.1, toughness: 0.15, bondline: 0.2 };
    let (short, long) = (lap(1.6, 1.6, 12.5, tough()), lap(3.0, 2.0, 30.0, tough()));
    let joint = |number: usize| {
        let base = if number.is_multiple_of(3) { &long } else { &short };
        let mut joint = scatter.draw(base, 11, number as u64);
        if number.is_multiple_of(4) {
            joint.strip.hold_transverse = true;
        }
        if number == 5 {
            joint.strip.overlap_mm = -1.0;
        }
        joint
    };
    let bytes = |threads| {
        let threads = NonZeroUsize::new(threads).unwrap();
        let all = many(24, threads, &Control::default(), joint, |outcome| format!("{outcome:?}"));
        assert_eq!(all.iter().filter(|answer| answer.is_err()).count(), 1);
        assert!(all[5].is_err());
        all.into_iter().map(|answer| answer.unwrap_or_default()).collect::<Vec<String>>().concat().into_bytes()
    };
    let one = bytes(1);
    assert!(bytes(2) == one && bytes(3) == one);
    let alone = run(&joint(7), &Control::default()).unwrap();
    let alone = format!("{alone:?}");
    assert!(String::from_utf8(one).unwrap().contains(&alone));
}

fn capacity(joint: &Joint) -> f64 {
    let outcome = run(joint, &Control::default()).unwrap();
    outcome.capacity.unwrap_or_else(|| panic!("no capacity: {:?}", outcome.end)).factor
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 40, ..ProptestConfig::default() })]

    /// "The rule for a bonded and fastened lap is at least not above bond plus fastener."
    #[test]
    fn law_bond_and_rivets_hold_no_more_than_the_sum(
        upper in 1.0..4.0_f64, lower in 1.0..4.0_f64, overlap in 10.0..60.0_f64,
        held in any::<bool>(), brittle in 0.2..1.0_f64,
        place in 0.1..0.9_f64, another in prop::option::of(0.1..0.9_f64),
        stiff in 10e3..60e3_f64, strength in 1e3..8e3_f64, slip in 2.0..20.0_f64,
    ) {
        let law = Cohesive {
            mode_1_toughness_n_mm: 1.4 * brittle, mode_2_toughness_n_mm: 2.6 * brittle, ..tough()
        };
        let mut bond = lap(upper, lower, overlap, law);
        bond.strip.hold_transverse = held;
        let row = |place: f64| {
            let shear = Hold {
                stiffness_n_mm: stiff, strength_n: strength, break_mm: Some(slip * strength / stiff),
            };
            let opening = Hold { break_mm: None, ..shear };
            Row { x_mm: place * overlap, pitch_mm: 20.0, shear, opening }
        };
        let rows: Vec<Row> = std::iter::once(place).chain(another).map(row).collect();
        let alone: f64 = rows.iter().map(Row::shear_strength_n_mm).sum::<f64>() / 100.0;
        let both = capacity(&Joint { rows, ..bond.clone() });
        let bond = capacity(&bond);
        prop_assert!(both <= 1.005 * (bond + alone), "{both} of {bond} and {alone}");
    }
}
