//! Rivets alone, beside the bond, and after it.

use super::*;
use crate::closed::{Lap, Layer};
use crate::rivet::share::{self, Hold, Row};

fn row(x_mm: f64, strength_n: f64) -> Row {
    let shear = Hold { stiffness_n_mm: 30e3, strength_n, break_mm: Some(1.0) };
    Row { x_mm, pitch_mm: 20.0, shear, opening: Hold { break_mm: None, ..shear } }
}

fn held() -> Strip {
    Strip { overlap_mm: 40.0, hold_transverse: true, plane: Plane::Stress, ..coupon() }
}

/// "Rivet-only [...] sequences against hand values": two rows carry the sum of their strengths, and each
/// yields once, the softer way round last; then both let go.
#[test]
fn unit_rivets_alone_carry_the_sum_of_their_strengths() {
    let joint = Joint {
        unbonded_mm: vec![[0.0, 40.0]],
        rows: vec![row(10.0, 3e3), row(30.0, 2e3)],
        ..Joint::new(held(), Law::Cohesive(tough()))
    };
    let out = run(&joint, &Control { to_the_end: true, ..Control::default() }).unwrap();
    // 3000/20 + 2000/20 N/mm over 100 N/mm.
    near(out.capacity.unwrap().factor, 2.5, 1e-4);
    assert_eq!(out.end, End::Spent);
    let rows = |of: fn(usize) -> What| {
        (0..2)
            .map(|row| out.events.iter().position(|event| event.what == of(row)).unwrap())
            .collect::<Vec<_>>()
    };
    let (yields, breaks) = (rows(|row| What::RowYields { row }), rows(|row| What::RowBreaks { row }));
    assert!(yields[1] < yields[0] && yields[0] < breaks[0]);
    // The weaker row yields at twice its own 100 N/mm, but for what the plates' stretch between the rows
    // takes: 1500 N/mm² of row against 70e3 · 1.6/20 = 5600 N/mm² of plate each way.
    let first = out.events[yields[1]].at.factor;
    assert!(first > 1.9 && first < 2.2, "{first}");
    assert!(out.energy_error < 0.01, "{}", out.energy_error);
}

/// "[...] bond-then-rivets sequences": a weak bond lets go, then the rivets carry on to their own strength.
#[test]
fn unit_bond_then_rivets() {
    let weak = Cohesive {
        mode_1_toughness_n_mm: 0.3,
        mode_2_toughness_n_mm: 0.3,
        tensile_strength_mpa: 12.0,
        shear_strength_mpa: 8.0,
        ..tough()
    };
    let rows = vec![row(10.0, 6e3), row(30.0, 6e3)];
    let joint = Joint { rows, ..Joint::new(held(), Law::Cohesive(weak)) };
    let out = run(&joint, &Control { to_the_end: true, ..Control::default() }).unwrap();
    near(out.capacity.unwrap().factor, 6.0, 1e-4);
    let gone = out.events.iter().find(|event| event.what == What::BondGone).unwrap();
    let yields = out.events.iter().find(|event| matches!(event.what, What::RowYields { .. })).unwrap();
    assert!(gone.at.displacement_mm < yields.at.displacement_mm);
    let bond_alone = capacity(&Joint::new(held(), Law::Cohesive(weak)), &Control::default());
    assert!(bond_alone < 6.0);
    assert!(out.energy_error < 0.01, "{}", out.energy_error);
}

/// "[...] rivet share while bonded against an independent model": Volkersen's lap with springs, solved in
/// closed form.
#[test]
fn cross_share_while_bonded() {
    let strip = held();
    let rows = [row(5.0, 20e3), row(20.0, 20e3), row(36.0, 20e3)];
    let lap = Lap {
        upper: strip.upper,
        lower: strip.lower,
        layer: Layer {
            youngs_modulus_mpa: 1900.0,
            shear_modulus_mpa: strip.adhesive.shear_modulus_mpa,
            thickness_mm: 0.25,
        },
        overlap_mm: 40.0,
    };
    let expected: f64 = share::in_lap(&lap, &rows).unwrap().iter().sum();
    let joint = Joint { rows: rows.to_vec(), ..Joint::new(strip, Law::Cohesive(tough())) };
    let out = run(&joint, &Control::default()).unwrap();
    // The first balance is elastic.
    near(out.steps[1].rivet_share, expected, 1e-4);
}
