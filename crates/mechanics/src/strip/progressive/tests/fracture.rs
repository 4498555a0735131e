//! Fracture tests whose loads follow from the energy alone.

use super::*;

/// The way of a joint whose damage runs along it, and the load factor as it passes the middle.
fn steady(joint: &Joint) -> (Outcome, f64) {
    let out = run(joint, &Control::default()).unwrap();
    assert!(out.energy_error < 0.01, "energies part by {:e}", out.energy_error);
    let middle = 0.4 * joint.strip.overlap_mm;
    let there = |step: &&Step| (step.lost_mm - middle).abs();
    let step = out.steps.iter().min_by(|a, b| there(a).total_cmp(&there(b))).unwrap();
    assert!(there(&step) < 0.1 * joint.strip.overlap_mm, "the damage did not run: {:?}", out.end);
    let factor = step.at.factor;
    (out, factor)
}

/// Two arms of 6 mm over 150 mm, a layer of 0.3 mm; evenly divided, for the damage runs along it.
fn long(law: Cohesive, edges: [Edge; 2]) -> Joint {
    let strip = Strip {
        upper: plate(6.0),
        lower: plate(6.0),
        bondline: Bondline::Constant(0.3),
        overlap_mm: 150.0,
        geometry: Geometry::FirstOrder,
        mesh: Mesh { elements: 200, arm_elements: 1, grading: 1.0 },
        ..coupon()
    };
    Joint { left_edges: Some(edges), ..Joint::new(strip, Law::Cohesive(law)) }
}

/// E' t and E' t³/12 of an arm of 6 mm.
fn stiffness() -> (f64, f64) {
    let modulus = 70e3 / (1.0 - 0.33 * 0.33);
    (modulus * 6.0, modulus * 216.0 / 12.0)
}

/// "Double-cantilever, two opposite end moments M = sqrt(G_Ic D), D = E't³/12 [...] within 0.5 %."
#[test]
fn cross_double_cantilever_under_end_moments() {
    let (_, bending) = stiffness();
    for toughness in [0.4, 1.4, 3.0] {
        let expected = libm::sqrt(toughness * bending);
        let law = Cohesive { mode_1_toughness_n_mm: toughness, ..tough() };
        let edges = [1.0, -1.0].map(|sign| Edge { moment_n: sign * expected, ..Edge::default() });
        near(steady(&long(law, edges)).1, 1.0, 5e-3);
    }
}

/// A layer that is brittle in opening and very tough in shear: the way of its leader from giving to spent is sixteen times
/// shorter than one in shear would be, which it learns only as it begins to give, and the path goes on.
#[test]
fn cross_double_cantilever_far_tougher_in_shear() {
    let (_, bending) = stiffness();
    let law = Cohesive {
        tensile_strength_mpa: 30.0,
        shear_strength_mpa: 11.76,
        mode_1_toughness_n_mm: 0.686,
        mode_2_toughness_n_mm: 5.306,
        ..tough()
    };
    let expected = libm::sqrt(0.686 * bending);
    let forces = [1.0, -1.0].map(|sign| Edge {
        moment_n: sign * expected,
        across_n_mm: sign * expected / 50.0,
        ..Edge::default()
    });
    let out = run(&long(law, forces), &Control::default()).unwrap();
    assert!(out.capacity.is_some(), "{:?}", out.end);
    let moments = [1.0, -1.0].map(|sign| Edge { moment_n: sign * expected, ..Edge::default() });
    near(steady(&long(law, moments)).1, 1.0, 5e-3);
}

/// Arms of 6 mm pulled by forces P at their free ends, the crack ending a from them: in opening by opposite forces, in
/// shear by like ones. Arms that are built in at the tip give P a sqrt(1/D) = sqrt(G_Ic) and
/// P a sqrt(1/D − 2/D_c) = sqrt(G_IIc) by the energy. The layer lets them turn there, as if the crack were longer by
/// a length that does not depend on it: with it taken from two cracks, the energy is met within 1 %.
#[test]
fn cross_cantilevers_pulled_by_forces() {
    let (axial, bending) = stiffness();
    let composite = 2.0 * bending + 0.5 * axial * (6.0 + 0.3) * (6.0 + 0.3);
    for (second, toughness, compliance) in
        [(-1.0, 1.4, 1.0 / bending), (1.0, 2.6, 1.0 / bending - 2.0 / composite)]
    {
        let built_in = libm::sqrt(toughness / compliance);
        // Crack over the force that it takes: (a + Δ)/built_in.
        let slack = |crack_mm: f64| {
            let edges = [1.0, second].map(|sign| Edge {
                moment_n: sign * built_in,
                across_n_mm: sign * built_in / crack_mm,
                ..Edge::default()
            });
            crack_mm / capacity(&long(tough(), edges), &Control::default())
        };
        let (short, longer) = (slack(60.0), slack(300.0));
        near((longer - short) / 240.0, 1.0, 1e-2);
        let added_mm = short - 60.0;
        assert!((0.0..30.0).contains(&added_mm), "{added_mm}");
    }
}

/// "[...] and pure mode II bars within 0.5 %": P = sqrt(2 G_IIc/(1/S₁ − 1/(S₁ + S₂))) of a bar pulled off
/// another that is held, S = E' t, by the energy that the pulled bar's strain gives up.
#[test]
fn cross_bars_pulled_in_mode_2() {
    for (upper, lower, toughness) in [(2.0, 2.0, 2.6), (2.0, 5.0, 2.6), (3.0, 1.5, 1.0)] {
        let modulus = 70e3 / (1.0 - 0.33 * 0.33);
        let (s1, s2) = (modulus * upper, modulus * lower);
        let expected = libm::sqrt(2.0 * toughness / (1.0 / s1 - 1.0 / (s1 + s2)));
        let law = Cohesive { mode_2_toughness_n_mm: toughness, ..tough() };
        let strip = Strip {
            upper: plate(upper),
            lower: plate(lower),
            overlap_mm: 200.0,
            hold_transverse: true,
            mesh: Mesh { elements: 250, arm_elements: 1, grading: 1.0 },
            ..coupon()
        };
        let edges = [Edge { axial_n_mm: expected, ..Edge::default() }, Edge::default()];
        let joint = Joint { left_edges: Some(edges), ..Joint::new(strip, Law::Cohesive(law)) };
        near(steady(&joint).1, 1.0, 5e-3);
    }
}

/// Loads of the steady state for moments on both arms, by the energy: of the part that opens,
/// J_I = M_s²/D, M_s = (M₁ − M₂)/2; of both, J = (M₁² + M₂²)/2D − (M₁ + M₂)²/2D_c,
/// D_c = 2D + E'A (t + h)²/2.
fn energies(moments: [f64; 2], h: f64) -> [f64; 2] {
    let (axial, bending) = stiffness();
    let composite = 2.0 * bending + 0.5 * axial * (6.0 + h) * (6.0 + h);
    let [m1, m2] = moments;
    let opening = 0.25 * (m1 - m2) * (m1 - m2) / bending;
    let whole = 0.5 * (m1 * m1 + m2 * m2) / bending - 0.5 * (m1 + m2) * (m1 + m2) / composite;
    [opening, whole - opening]
}

/// "Mixed-mode steady state against the J-integral closed form (equal arms, per width, moment on one arm:
/// M = sqrt(2 G_c/(1/D − 1/D_c)), D_c = 2D + EA(t+h)²/2) within 1 %; dissipated energy over a sweep of mode
/// mixes within 2 % of the stated law, for G_Ic ≠ G_IIc and unequal strengths."
///
/// The layer's stiffnesses are those of the adhesive, strengths and toughnesses in no special ratio.
#[test]
fn cross_mixed_mode_steady_state() {
    let laws = [
        Cohesive { mode_1_toughness_n_mm: 1.0, mode_2_toughness_n_mm: 4.0, ..tough() },
        Cohesive { tensile_strength_mpa: 45.0, shear_strength_mpa: 20.0, ..tough() },
        Cohesive {
            tensile_strength_mpa: 15.0,
            shear_strength_mpa: 30.0,
            mode_1_toughness_n_mm: 0.8,
            ..tough()
        },
        Cohesive { mixing: Mixing::Power(2.0), mode_2_toughness_n_mm: 4.0, ..tough() },
        Cohesive { mixing: Mixing::BenzeggaghKenane(2.1), mode_2_toughness_n_mm: 4.0, ..tough() },
    ];
    for law in laws {
        // From opening alone toward sliding; (1, 0) is the moment on one arm.
        for second in [-0.7, 0.0, 0.6] {
            let unit = energies([1.0, second], 0.3);
            let toughness = mixed(&law, unit[1] / (unit[0] + unit[1]));
            let expected = libm::sqrt(toughness / (unit[0] + unit[1]));
            let edges = [1.0, second].map(|share| Edge { moment_n: share * expected, ..Edge::default() });
            let (out, factor) = steady(&long(law, edges));
            near(factor, 1.0, 1e-2);
            near(dissipated(&out), toughness, 2e-2);
        }
    }
}

/// G_c of a mix by the stated law.
fn mixed(law: &Cohesive, mix: f64) -> f64 {
    let (g1, g2) = (law.mode_1_toughness_n_mm, law.mode_2_toughness_n_mm);
    match law.mixing {
        Mixing::Power(a) => 1.0 / libm::pow(libm::pow((1.0 - mix) / g1, a) + libm::pow(mix / g2, a), 1.0 / a),
        Mixing::BenzeggaghKenane(eta) => g1 + (g2 - g1) * libm::pow(mix, eta),
    }
}

/// Energy spent for each millimetre that the bond has been lost by, while the damage runs.
fn dissipated(out: &Outcome) -> f64 {
    let running: Vec<&Step> =
        out.steps.iter().filter(|step| step.lost_mm > 10.0 && step.lost_mm < 95.0).collect();
    let (first, last) = (running[0], running[running.len() - 1]);
    assert!(last.lost_mm - first.lost_mm > 50.0, "the damage did not run: {:?}", out.end);
    (last.spent.sum_n() - first.spent.sum_n()) / (last.lost_mm - first.lost_mm)
}
