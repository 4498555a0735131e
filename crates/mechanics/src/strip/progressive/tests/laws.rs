//! What holds for every joint.

use super::super::law::{Point, Stiffness};
use super::*;
use proptest::prelude::*;

fn stiffness() -> Stiffness {
    Stiffness { shear: 2750.0, opening: 8880.0, thickness_mm: 0.25 }
}

fn mixing() -> impl Strategy<Value = Mixing> {
    prop_oneof![
        Just(Mixing::Power(1.0)),
        (1.0..3.0_f64).prop_map(Mixing::Power),
        (1.0..3.0_f64).prop_map(Mixing::BenzeggaghKenane),
    ]
}

proptest! {
    /// "It dissipates the toughness that it is given in any mode mix": along any path that goes on opening
    /// and sliding, however the mix changes on it, the works meet the mixing rule when the point is spent,
    /// and what was spent is never taken back.
    ///
    /// 1200 steps: the trapezium's error goes with the square of the step where the path bends.
    #[test]
    fn law_every_path_spends_the_toughness(
        mixing in mixing(), turn in 0.0..1.57_f64, across in 0.0..1.0_f64,
        opens in 0.5..2.0_f64, slides in 0.5..2.0_f64,
        g1 in 0.5..3.0_f64, g2 in 0.5..5.0_f64, n in 10.0..40.0_f64, s in 10.0..40.0_f64,
    ) {
        let law = Cohesive {
            tensile_strength_mpa: n, shear_strength_mpa: s,
            mode_1_toughness_n_mm: g1, mode_2_toughness_n_mm: g2, mixing,
        };
        let mut point = Point::default();
        // Far enough for any mix: 12 times was not always.
        let far = [40.0 * g1 / n * libm::cos(turn), 40.0 * g2 / s * libm::sin(turn)];
        let mut spent = 0.0;
        let steps = 1200;
        for step in 1..=steps {
            let way = f64::from(step) / f64::from(steps);
            let (opening, shear) = (far[0] * libm::pow(way, opens), far[1] * libm::pow(way, slides));
            let slip = [shear * libm::sqrt(1.0 - across * across), shear * across, opening];
            point = Law::Cohesive(law).respond(stiffness(), &point, slip).after;
            let now: f64 = point.spent().iter().sum();
            prop_assert!(now >= spent - 1e-9);
            spent = now;
        }
        prop_assert!(point.keep <= 0.0);
        let [w1, w2] = point.work;
        let share = match mixing {
            Mixing::Power(a) => libm::pow(libm::pow(w1 / g1, a) + libm::pow(w2 / g2, a), 1.0 / a),
            Mixing::BenzeggaghKenane(eta) => {
                (w1 + w2) / (g1 + (g2 - g1) * libm::pow(w2 / (w1 + w2), eta))
            }
        };
        prop_assert!((share - 1.0).abs() < 0.01, "{share}");
    }

    /// The tangent is the change of the stresses, by differences: 1e-4 of the stiffness for steps of 1e-7
    /// of the slip.
    #[test]
    fn law_tangent_is_the_change_of_the_stresses(
        mixing in mixing(), share in 0.0..1.2_f64,
        after in prop::array::uniform3(-0.02..0.06_f64), aside in prop::array::uniform3(0.8..1.2_f64),
    ) {
        let law = Law::Cohesive(Cohesive { mixing, ..tough() });
        let before: [f64; 3] = std::array::from_fn(|i| share * aside[i] * after[i]);
        let point = law.respond(stiffness(), &Point::default(), before).after;
        let here = law.respond(stiffness(), &point, after);
        for j in 0..3 {
            let d = 1e-8;
            let moved = |by: f64| {
                let mut slip = after;
                slip[j] += by;
                law.respond(stiffness(), &point, slip).after.traction
            };
            let (up, down) = (moved(d), moved(-d));
            for i in 0..3 {
                let change = (up[i] - down[i]) / (2.0 * d);
                let forward = (up[i] - here.after.traction[i]) / d;
                // A kink lies between: not a place for a tangent.
                prop_assume!((change - forward).abs() < 1e-3 * 8880.0);
                prop_assert!((here.tangent[i][j] - change).abs() < 1e-3 * 8880.0,
                    "{i} {j}: {} and {change}", here.tangent[i][j]);
            }
        }
    }
}

fn joints() -> Vec<(&'static str, Joint)> {
    let law = Law::Cohesive(tough());
    let brittle =
        Law::Cohesive(Cohesive { mode_1_toughness_n_mm: 0.25, mode_2_toughness_n_mm: 0.8, ..tough() });
    let lap = |strip: Strip, law| Joint::new(strip, law);
    let long = Strip { overlap_mm: 60.0, upper: plate(3.0), lower: plate(3.0), ..coupon() };
    let unequal = Strip { overlap_mm: 40.0, lower: plate(4.0), ..coupon() };
    let hot = Strip {
        temperature_change_k: -60.0,
        lower: Adherend { thermal_expansion_per_k: 12e-6, youngs_modulus_mpa: 210e3, ..plate(1.5) },
        ..long.clone()
    };
    let pressed = Strip {
        axial_n_mm: -100.0,
        supports: Supports::Gripped { ends: Ends::Clamped, left_arm_mm: 10.0, right_arm_mm: 10.0 },
        ..long.clone()
    };
    vec![
        ("coupon", lap(coupon(), law)),
        ("brittle coupon", lap(coupon(), brittle)),
        ("held", lap(Strip { hold_transverse: true, ..long.clone() }, law)),
        ("held, brittle", lap(Strip { hold_transverse: true, ..long.clone() }, brittle)),
        ("long", lap(long.clone(), law)),
        ("long, brittle", lap(long.clone(), brittle)),
        ("unequal", lap(unequal, law)),
        ("sheared", lap(Strip { shear_flow_n_mm: 60.0, ..long.clone() }, law)),
        ("held, sheared", lap(Strip { shear_flow_n_mm: 60.0, hold_transverse: true, ..long.clone() }, law)),
        ("hot", lap(hot, law)),
        ("pressed", lap(pressed, law)),
        ("void", Joint { unbonded_mm: vec![[20.0, 32.0]], ..lap(long.clone(), law) }),
        ("wedge", lap(Strip { bondline: Bondline::Along(vec![(0.0, 0.2), (60.0, 0.8)]), ..long }, law)),
    ]
}

/// "Energy balance of the path within 1 %; mesh halving changes the peak by < 0.5 %; result independent of
/// step size within 0.5 %."
#[test]
fn law_energy_mesh_and_steps() {
    for (name, joint) in joints() {
        let normal = run(&joint, &Control::default()).unwrap();
        let peak =
            normal.capacity.unwrap_or_else(|| panic!("{name}: {:?} {:?}", normal.end, normal.effort)).factor;
        assert!(normal.energy_error < 0.01, "{name}: energies part by {}", normal.energy_error);
        let mesh = Mesh { elements: 2 * joint.strip.mesh.elements, arm_elements: 16, ..joint.strip.mesh };
        let finer = Joint { strip: Strip { mesh, ..joint.strip.clone() }, ..joint.clone() };
        let finer = run(&finer, &Control::default()).unwrap().capacity.unwrap().factor;
        assert!((finer / peak - 1.0).abs() < 5e-3, "{name}: {finer} on the finer mesh, {peak}");
        let slower =
            Control { step: 0.05, load_step: 0.02, bend: 1e-3, most_steps: 4000, ..Control::default() };
        let slower = run(&joint, &slower).unwrap().capacity.unwrap().factor;
        assert!((slower / peak - 1.0).abs() < 5e-3, "{name}: {slower} in smaller steps, {peak}");
    }
}

/// The same joint gives the same bits, in fresh memory and in used one.
#[test]
fn law_memory_does_not_matter() {
    let mut walker = Walker::new();
    for (_, joint) in joints().into_iter().take(6) {
        let used = walker.run(&joint, &Control::default()).unwrap().clone();
        assert_eq!(used, run(&joint, &Control::default()).unwrap());
    }
}

/// Twice all lengths but the width, twice the toughness: twice the load. And a lap turned end for end is
/// the same lap.
#[test]
fn law_scales_and_turns() {
    let joint = Joint::new(coupon(), Law::Cohesive(tough()));
    let one = capacity(&joint, &Control::default());
    let strip = Strip {
        upper: plate(3.2),
        lower: plate(3.2),
        overlap_mm: 25.0,
        bondline: Bondline::Constant(0.5),
        supports: Supports::Gripped { ends: Ends::Clamped, left_arm_mm: 100.0, right_arm_mm: 100.0 },
        ..coupon()
    };
    let law = Cohesive { mode_1_toughness_n_mm: 2.8, mode_2_toughness_n_mm: 5.2, ..tough() };
    near(capacity(&Joint::new(strip, Law::Cohesive(law)), &Control::default()), 2.0 * one, 1e-6);

    let unequal = Strip { lower: plate(3.0), ..coupon() };
    let turned = Strip { upper: unequal.lower, lower: unequal.upper, ..unequal.clone() };
    let of = |strip: Strip| capacity(&Joint::new(strip, Law::Cohesive(tough())), &Control::default());
    near(of(turned), of(unequal), 1e-6);
}

/// "Never a silent wrong number": where no balance can be found there is no capacity, and the end says why.
#[test]
fn unit_no_balance_no_capacity() {
    let joint = Joint::new(coupon(), Law::Cohesive(tough()));
    let hasty = run(&joint, &Control { most_solutions: 0, ..Control::default() }).unwrap();
    assert!(matches!(hasty.end, End::Stalled { .. }), "{:?}", hasty.end);
    assert_eq!(hasty.capacity, None);
    let short = run(&joint, &Control { most_steps: 4, ..Control::default() }).unwrap();
    assert_eq!((short.end, short.capacity), (End::LimitReached { steps: 4 }, None));
}

/// "Contact of the plates where the bond is gone", "elastic compression without damage": moments that press two bars
/// together break nothing, and a void under them closes no further than the layer is thick.
#[test]
fn unit_pressed_plates_touch_and_nothing_gives() {
    let edges = [-1.0, 1.0].map(|sign| Edge { moment_n: 50.0 * sign, ..Edge::default() });
    let pressed = Joint {
        left_edges: Some(edges),
        ..Joint::new(
            Strip { overlap_mm: 60.0, geometry: Geometry::FirstOrder, ..coupon() },
            Law::Cohesive(tough()),
        )
    };
    // The ripple behind the pressed end opens, and gives at a load far above the one that opens the end.
    let opened = Joint {
        left_edges: Some(edges.map(|edge| Edge { moment_n: -edge.moment_n, ..edge })),
        ..pressed.clone()
    };
    let [pressed, opened] = [pressed, opened].map(|joint| run(&joint, &Control::default()).unwrap());
    let onset = |out: &Outcome| out.onset.map_or(f64::INFINITY, |moment| moment.factor);
    assert!(onset(&pressed) > 3.0 * onset(&opened), "{} {}", onset(&pressed), onset(&opened));
    let idle = Joint::new(Strip { axial_n_mm: 0.0, ..coupon() }, Law::Cohesive(tough()));
    let idle = run(&idle, &Control::default()).unwrap();
    assert_eq!((idle.end, idle.capacity), (End::NothingGives, None));
}

/// "Double lap by symmetry with the same law": the outer plates may bend, and then carry no more than held flat; with
/// a brittle opening they carry less.
#[test]
fn law_half_a_double_lap_bends_less_than_a_lap_and_more_than_bars() {
    let strip = Strip { overlap_mm: 30.0, lower: plate(1.6), ..coupon() };
    let of = |strip: &Strip, lower_held_flat: bool| {
        let joint = Joint { lower_held_flat, ..Joint::new(strip.clone(), Law::Cohesive(tough())) };
        capacity(&joint, &Control::default())
    };
    let (lap, half) = (of(&strip, false), of(&strip, true));
    let bars = of(&Strip { hold_transverse: true, ..strip }, true);
    assert!(lap < half && half <= bars * 1.005, "{lap} {half} {bars}");
}

/// An adherend that yields carries its plastic force, and no more than the hardening adds.
#[test]
fn unit_a_yielding_adherend_limits_the_load() {
    let hardening = Hardening { proof_strength_mpa: 120.0, modulus_mpa: 200.0, strain_at_break: Some(0.05) };
    let joint = Joint {
        hardening: [Some(hardening), None],
        ..Joint::new(
            Strip { overlap_mm: 40.0, hold_transverse: true, lower: plate(6.0), ..coupon() },
            Law::Cohesive(tough()),
        )
    };
    let out = run(&joint, &Control::default()).unwrap();
    let found = out.capacity.unwrap().factor;
    assert!(out.events.iter().any(|event| event.what == What::AdherendYields(Side::Upper)));
    // 1.6 · 120 N/mm, and at most 5 % of 200 MPa more.
    assert!((1.92..=1.6 * 1.305).contains(&found), "{found} {:?}", out.end);
    let elastic = capacity(&Joint { hardening: [None; 2], ..joint }, &Control::default());
    assert!(found < 0.8 * elastic);
}

/// Bars of aluminium and steel over a long bond, cooled until it gives at an end without any load, are then loaded
/// from there: less is left than without the cooling or more, by the sense of the stress, but it is known.
#[test]
fn unit_a_bond_that_heat_alone_makes_give_is_loaded_on() {
    let steel = Adherend { thermal_expansion_per_k: 12e-6, youngs_modulus_mpa: 210e3, ..plate(3.0) };
    let weak = Cohesive { tensile_strength_mpa: 15.0, shear_strength_mpa: 12.0, ..tough() };
    let strip =
        Strip { upper: plate(3.0), lower: steel, overlap_mm: 60.0, hold_transverse: true, ..coupon() };
    for temperature_change_k in [-60.0, 60.0] {
        let strip = Strip { temperature_change_k, ..strip.clone() };
        let out = run(&Joint::new(strip, Law::Cohesive(weak)), &Control::default()).unwrap();
        assert!(out.steps[0].damaged_mm > 0.0, "heat alone does nothing here");
        let capacity = out.capacity.unwrap_or_else(|| panic!("{:?} {:?}", out.end, out.effort)).factor;
        assert!(capacity > 1.0 && out.energy_error < 0.01, "{capacity} {}", out.energy_error);
    }
}
