//! Laws that every strip must obey, whatever its numbers.

use super::*;
use crate::failure::Failure;
use crate::strip::system::System;
use proptest::prelude::*;

fn adherend() -> impl Strategy<Value = Adherend> {
    (50e3..210e3_f64, 0.0..0.4_f64, 0.8..5.0_f64, 5e-6..25e-6_f64).prop_map(
        |(youngs_modulus_mpa, poissons_ratio, thickness_mm, thermal_expansion_per_k)| Adherend {
            youngs_modulus_mpa,
            poissons_ratio,
            thickness_mm,
            thermal_expansion_per_k,
        },
    )
}

fn gripped() -> impl Strategy<Value = Supports> {
    let arm = || prop_oneof![1 => Just(0.0), 4 => 5.0..100.0_f64];
    (any::<bool>(), arm(), arm()).prop_map(|(pinned, left_arm_mm, right_arm_mm)| {
        let ends = if pinned { Ends::Pinned } else { Ends::Clamped };
        Supports::Gripped { ends, left_arm_mm, right_arm_mm }
    })
}

fn bare() -> impl Strategy<Value = Supports> {
    (-100.0..300.0_f64, -20.0..20.0_f64)
        .prop_map(|(moment_n, shear_n_mm)| Supports::EdgeResultants { moment_n, shear_n_mm })
}

fn strip() -> impl Strategy<Value = Strip> {
    strip_on(prop_oneof![3 => gripped(), 1 => bare()])
}

fn gripped_strip() -> impl Strategy<Value = Strip> {
    strip_on(gripped())
}

/// Strips in first order: metals, adhesives from rubber to epoxy, wedged bondlines.
fn strip_on(supports: impl Strategy<Value = Supports>) -> impl Strategy<Value = Strip> {
    let adhesive = (20.0..2000.0_f64, 2.1..4.0_f64).prop_map(|(shear_modulus_mpa, ratio)| Adhesive {
        shear_modulus_mpa,
        peel_modulus_mpa: ratio * shear_modulus_mpa,
    });
    let loads = (10.0..400.0_f64, -100.0..100.0_f64, -80.0..40.0_f64);
    let flags = (any::<bool>(), any::<bool>(), prop::bool::weighted(0.2));
    (adherend(), adherend(), adhesive, (0.1..2.0_f64, 0.1..2.0_f64), 8.0..120.0_f64, supports)
        .prop_flat_map(move |joint| (Just(joint), loads.clone(), flags))
        .prop_map(|((upper, lower, adhesive, (h0, h1), overlap_mm, supports), loads, flags)| Strip {
            upper,
            lower,
            adhesive,
            bondline: Bondline::Along(vec![(0.0, h0), (overlap_mm, h1)]),
            overlap_mm,
            supports,
            axial_n_mm: loads.0,
            shear_flow_n_mm: loads.1,
            temperature_change_k: loads.2,
            plane: if flags.0 { Plane::Strain } else { Plane::Stress },
            hold_transverse: flags.2,
            lever_arm_includes_bondline: flags.1,
            geometry: Geometry::FirstOrder,
            mesh: Mesh { elements: 60, arm_elements: 8, grading: 6.0 },
        })
}

/// The strip turned by half a turn about the y axis, in its own plane: left becomes right and upper
/// becomes lower. Only gripped strips can be turned: bare ones are loaded at one edge.
fn turned(strip: &Strip) -> Strip {
    let supports = match strip.supports {
        Supports::Gripped { ends, left_arm_mm, right_arm_mm } => {
            Supports::Gripped { ends, left_arm_mm: right_arm_mm, right_arm_mm: left_arm_mm }
        }
        bare @ Supports::EdgeResultants { .. } => bare,
    };
    let bondline = match &strip.bondline {
        Bondline::Constant(h) => Bondline::Constant(*h),
        Bondline::Along(stations) => {
            Bondline::Along(stations.iter().rev().map(|(x, h)| (strip.overlap_mm - x, *h)).collect())
        }
    };
    Strip { upper: strip.lower, lower: strip.upper, supports, bondline, ..strip.clone() }
}

/// Every stress and force of `found` is `factor` times that of `expected`, within a share of the
/// greatest.
fn proportional(found: &Answer, expected: &Answer, factor: f64, share: f64) {
    let lists = |a: &Answer| {
        [
            a.shear_mpa.clone(),
            a.peel_mpa.clone(),
            a.antiplane_shear_mpa.clone(),
            a.upper.axial_n_mm.clone(),
            a.lower.axial_n_mm.clone(),
            a.upper.moment_n.clone(),
            a.lower.moment_n.clone(),
        ]
    };
    for (found, expected) in lists(found).iter().zip(&lists(expected)) {
        let scale = greatest(expected) * factor.abs();
        for (found, expected) in found.iter().zip(expected) {
            near(*found, expected * factor, share, scale);
        }
    }
}

fn greatest(values: &[f64]) -> f64 {
    values.iter().fold(0.0, |most, value| f64::max(most, value.abs()))
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 128, ..ProptestConfig::default() })]

    /// "The bond's shear integrates to the load within 1e-8", and the adherends hand their forces
    /// over: at each section axial and transverse forces sum to the same.
    #[test]
    fn law_equilibrium(strip in strip()) {
        let answer = solve(&strip).unwrap();
        prop_assert!(answer.equilibrium_error <= 1e-8, "{:e}", answer.equilibrium_error);
        prop_assert!((answer.shear_integral_n_mm - strip.axial_n_mm).abs() <= 1e-8 * greatest(&answer.shear_mpa) * strip.overlap_mm);
        let transverse = answer.lower.shear_n_mm.last().copied().unwrap();
        // What the peel hands over may be large against what passes through: both set the scale.
        let scale = greatest(&answer.upper.shear_n_mm) + greatest(&answer.lower.shear_n_mm);
        let load_scale = greatest(&answer.upper.axial_n_mm) + greatest(&answer.lower.axial_n_mm);
        for j in 0..answer.x_mm.len() {
            near(answer.upper.axial_n_mm[j] + answer.lower.axial_n_mm[j], strip.axial_n_mm, 1e-8, load_scale);
            near(answer.upper.shear_n_mm[j] + answer.lower.shear_n_mm[j], transverse, 1e-8, scale);
        }
    }

    /// The resultants that were put on the bare overlap's edge are those found there, bent or not,
    /// and the other edge follows by equilibrium.
    #[test]
    fn law_edge_resultants_are_met(
        strip in strip_on(bare()),
        moment_n in -200.0..200.0_f64,
        shear_n_mm in -20.0..20.0_f64,
        second in any::<bool>(),
    ) {
        let strip = Strip {
            supports: Supports::EdgeResultants { moment_n, shear_n_mm },
            hold_transverse: false,
            lever_arm_includes_bondline: true,
            bondline: Bondline::Constant(0.4),
            geometry: if second { Geometry::SecondOrder } else { Geometry::FirstOrder },
            ..strip
        };
        let answer = solve(&strip).unwrap();
        let arm = 0.5 * (strip.upper.thickness_mm + strip.lower.thickness_mm) + 0.4;
        let scale = greatest(&answer.upper.moment_n) + strip.axial_n_mm * arm;
        near(answer.edge_moments_n[0], moment_n, 1e-8, scale);
        near(answer.upper.shear_n_mm[0], shear_n_mm, 1e-8, greatest(&answer.upper.shear_n_mm) + 1.0);
        if !second {
            let right = moment_n - shear_n_mm * strip.overlap_mm - strip.axial_n_mm * arm;
            near(-answer.edge_moments_n[1], right, 1e-8, scale);
        }
    }

    /// First order is linear in the load, temperature counting as one.
    #[test]
    fn law_linear_in_the_load(strip in strip(), factor in -3.0..3.0_f64) {
        let supports = match strip.supports {
            Supports::EdgeResultants { moment_n, shear_n_mm } => Supports::EdgeResultants {
                moment_n: factor * moment_n,
                shear_n_mm: factor * shear_n_mm,
            },
            gripped @ Supports::Gripped { .. } => gripped,
        };
        let scaled = Strip {
            supports,
            axial_n_mm: factor * strip.axial_n_mm,
            shear_flow_n_mm: factor * strip.shear_flow_n_mm,
            temperature_change_k: factor * strip.temperature_change_k,
            ..strip.clone()
        };
        let (one, other) = (solve(&strip).unwrap(), solve(&scaled).unwrap());
        proportional(&other, &one, factor, 1e-8);
        near(other.end_displacement_mm, factor * one.end_displacement_mm, 1e-8, one.end_displacement_mm.abs());
    }

    /// Turned by half a turn, the joint is the same.
    #[test]
    fn law_turned_joint_turns_its_answer(strip in gripped_strip()) {
        let (one, other) = (solve(&strip).unwrap(), solve(&turned(&strip)).unwrap());
        let (shear, peel) = (greatest(&one.shear_mpa), greatest(&one.peel_mpa));
        let anti = greatest(&one.antiplane_shear_mpa);
        for (j, k) in (0..one.x_mm.len()).rev().enumerate() {
            near(other.shear_mpa[j], one.shear_mpa[k], 1e-8, shear);
            near(other.peel_mpa[j], one.peel_mpa[k], 1e-8, peel);
            near(other.antiplane_shear_mpa[j], one.antiplane_shear_mpa[k], 1e-8, anti);
        }
        near(other.end_displacement_mm, one.end_displacement_mm, 1e-8, one.end_displacement_mm.abs());
    }

    /// "A symmetric joint gives a symmetric answer", in second order too.
    #[test]
    fn law_symmetric_joint_gives_a_symmetric_answer(strip in gripped_strip(), second in any::<bool>()) {
        let Supports::Gripped { ends, left_arm_mm, .. } = strip.supports else { return Ok(()) };
        let strip = Strip {
            lower: strip.upper,
            bondline: Bondline::Constant(0.3),
            supports: Supports::Gripped { ends, left_arm_mm, right_arm_mm: left_arm_mm },
            geometry: if second { Geometry::SecondOrder } else { Geometry::FirstOrder },
            ..strip
        };
        let answer = solve(&strip).unwrap();
        let last = answer.x_mm.len() - 1;
        for j in 0..=last {
            near(answer.shear_mpa[j], answer.shear_mpa[last - j], 1e-8, greatest(&answer.shear_mpa));
            near(answer.peel_mpa[j], answer.peel_mpa[last - j], 1e-8, greatest(&answer.peel_mpa));
        }
        let [left, right] = answer.edge_moments_n;
        near(left, right, 1e-8, greatest(&answer.upper.moment_n));
    }

    /// A stiffer part never makes the joint more flexible (Rayleigh).
    #[test]
    fn law_monotone_in_stiffness(strip in gripped_strip(), factor in 1.01..5.0_f64) {
        let strip = Strip { temperature_change_k: 0.0, ..strip };
        let soft = solve(&strip).unwrap().end_displacement_mm;
        let stiffer = |change: &dyn Fn(&mut Strip)| {
            let mut stiff = strip.clone();
            change(&mut stiff);
            solve(&stiff).unwrap().end_displacement_mm
        };
        let changes: [&dyn Fn(&mut Strip); 4] = [
            &|s| s.upper.youngs_modulus_mpa *= factor,
            &|s| s.lower.youngs_modulus_mpa *= factor,
            &|s| s.adhesive.shear_modulus_mpa *= factor,
            &|s| s.adhesive.peel_modulus_mpa *= factor,
        ];
        for change in changes {
            // Some parts hardly matter: allow for rounding.
            prop_assert!(stiffer(change) <= soft * (1.0 + 1e-9));
        }
    }

    /// Twice the size under twice the line load: the same stresses.
    #[test]
    fn law_scaling_of_lengths(strip in strip(), factor in 0.1..20.0_f64) {
        let stretch = |adherend: Adherend| Adherend {
            thickness_mm: factor * adherend.thickness_mm,
            ..adherend
        };
        let supports = match strip.supports {
            Supports::Gripped { ends, left_arm_mm, right_arm_mm } => Supports::Gripped {
                ends,
                left_arm_mm: factor * left_arm_mm,
                right_arm_mm: factor * right_arm_mm,
            },
            Supports::EdgeResultants { moment_n, shear_n_mm } => Supports::EdgeResultants {
                moment_n: factor * factor * moment_n,
                shear_n_mm: factor * shear_n_mm,
            },
        };
        let Bondline::Along(stations) = &strip.bondline else { return Ok(()) };
        let large = Strip {
            upper: stretch(strip.upper),
            lower: stretch(strip.lower),
            bondline: Bondline::Along(stations.iter().map(|(x, h)| (factor * x, factor * h)).collect()),
            overlap_mm: factor * strip.overlap_mm,
            supports,
            axial_n_mm: factor * strip.axial_n_mm,
            shear_flow_n_mm: factor * strip.shear_flow_n_mm,
            ..strip.clone()
        };
        let (one, other) = (solve(&strip).unwrap(), solve(&large).unwrap());
        for (found, expected) in [
            (&other.shear_mpa, &one.shear_mpa),
            (&other.peel_mpa, &one.peel_mpa),
            (&other.antiplane_shear_mpa, &one.antiplane_shear_mpa),
        ] {
            let scale = greatest(expected);
            for (found, expected) in found.iter().zip(expected) {
                near(*found, *expected, 1e-8, scale);
            }
        }
    }

    /// "psi in equals MPa in": moduli and loads in another unit of force, answers in that unit.
    #[test]
    fn law_psi_in_equals_mpa_in(strip in strip(), second in any::<bool>()) {
        let psi = 145.037_737_730_209_2;
        let into = |adherend: Adherend| Adherend {
            youngs_modulus_mpa: psi * adherend.youngs_modulus_mpa,
            ..adherend
        };
        let supports = match strip.supports {
            Supports::EdgeResultants { moment_n, shear_n_mm } => Supports::EdgeResultants {
                moment_n: psi * moment_n,
                shear_n_mm: psi * shear_n_mm,
            },
            gripped @ Supports::Gripped { .. } => gripped,
        };
        let metric = Strip {
            geometry: if second { Geometry::SecondOrder } else { Geometry::FirstOrder },
            ..strip
        };
        let imperial = Strip {
            upper: into(metric.upper),
            lower: into(metric.lower),
            adhesive: Adhesive {
                shear_modulus_mpa: psi * metric.adhesive.shear_modulus_mpa,
                peel_modulus_mpa: psi * metric.adhesive.peel_modulus_mpa,
            },
            supports,
            axial_n_mm: psi * metric.axial_n_mm,
            shear_flow_n_mm: psi * metric.shear_flow_n_mm,
            ..metric.clone()
        };
        proportional(&solve(&imperial).unwrap(), &solve(&metric).unwrap(), psi, 1e-8);
    }

    /// Temperature alone loads the bond with stresses that sum to nothing.
    #[test]
    fn law_thermal_load_is_in_equilibrium_with_itself(strip in gripped_strip()) {
        let strip = Strip { axial_n_mm: 0.0, ..strip };
        let answer = solve(&strip).unwrap();
        prop_assert!(answer.equilibrium_error <= 1e-8);
        let scale = greatest(&answer.upper.axial_n_mm);
        near(answer.upper.axial_n_mm[0], 0.0, 1e-8, scale);
        for (upper, lower) in answer.upper.axial_n_mm.iter().zip(&answer.lower.axial_n_mm) {
            near(*upper, -lower, 1e-8, scale);
        }
        prop_assert!(answer.stiffness_n_mm2.is_none());
    }

    /// The stiffness that is reported is the load's, whatever the temperature.
    #[test]
    fn law_stiffness_does_not_see_the_temperature(strip in gripped_strip()) {
        let cold = Strip { temperature_change_k: 0.0, ..strip.clone() };
        let (warm, cold) = (solve(&strip).unwrap(), solve(&cold).unwrap());
        let stiffness = cold.stiffness_n_mm2.unwrap();
        near(warm.stiffness_n_mm2.unwrap(), stiffness, 1e-7, stiffness);
        near(stiffness, strip.axial_n_mm / cold.end_displacement_mm, 1e-12, stiffness);
    }

    /// "A rigid motion gives none": no force on any unknown.
    #[test]
    fn law_rigid_motion_gives_no_stress(strip in gripped_strip(), shift in -1.0..1.0_f64, rise in -1.0..1.0_f64, turn in -0.1..0.1_f64) {
        // The slip of a tapered layer is taken at its own middle, which moves: one thickness here.
        let strip = Strip {
            bondline: Bondline::Constant(0.3),
            lever_arm_includes_bondline: true,
            hold_transverse: false,
            temperature_change_k: 0.0,
            axial_n_mm: 0.0,
            ..strip
        };
        let mut system = System::default();
        system.prepare(&strip);
        let bond = system.nodes[0].0;
        let apart = bond.arms[0] + bond.arms[1];
        // u = −θ z about the upper midplane, w = θ x.
        let first = system.node(0);
        let last = system.node(system.x.len() - 1);
        for unknown in 0..system.displacement.len() {
            let x = system.position_mm(unknown);
            let upper = [shift, rise + turn * x, turn];
            let lower = [shift + turn * apart, rise + turn * x, turn];
            let (node, kind) = if unknown < first {
                (upper, unknown % 4)
            } else if unknown < last + 6 {
                match (unknown - first) % 8 {
                    kind @ 0..3 => (upper, kind),
                    kind @ 3..6 => (lower, kind - 3),
                    _ => (lower, 3),
                }
            } else {
                // Bubble first, then the node's three.
                (lower, [3, 0, 1, 2][(unknown - last - 6) % 4])
            };
            system.displacement[unknown] = node.get(kind).copied().unwrap_or(0.0);
        }
        system.weigh(0.0);
        // Against the forces that these displacements would cause if they were strains.
        let stiffness = system.sections[0].axial.max(system.sections[1].axial);
        prop_assert!(greatest(&system.out_of_balance) < 1e-9 * stiffness);
    }
}

/// A free expansion of both members alike strains nothing.
#[test]
fn unit_equal_expansion_gives_no_stress() {
    let strip = Strip { axial_n_mm: 0.0, temperature_change_k: 60.0, ..lap() };
    let answer = solve(&strip).unwrap();
    // 25 mm · 23e-6/K · 60 K of free expansion: stresses of an ill-matched joint would be tens.
    assert!(answer.peak_shear.value_mpa < 1e-8, "{}", answer.peak_shear.value_mpa);
    near(answer.end_displacement_mm, 145.0 * 23e-6 * 60.0, 1e-9, 0.2);
}

/// In plane strain the free strain is α (1 + ν) ΔT.
#[test]
fn unit_plane_strain_expands_by_one_plus_poissons_ratio() {
    let strip = Strip { axial_n_mm: 0.0, temperature_change_k: 60.0, plane: Plane::Strain, ..lap() };
    near(solve(&strip).unwrap().end_displacement_mm, 145.0 * 1.33 * 23e-6 * 60.0, 1e-9, 0.2);
}

/// The axial stiffness of the arms is in series with the overlap's.
#[test]
fn unit_held_flat_stiffness_is_arms_and_overlap_in_series() {
    let strip = Strip { hold_transverse: true, plane: Plane::Strain, ..lap() };
    let with = solve(&strip).unwrap();
    let supports = Supports::Gripped { ends: Ends::Clamped, left_arm_mm: 0.0, right_arm_mm: 0.0 };
    let without = solve(&Strip { supports, ..strip }).unwrap();
    let arms = 200.0 * 120.0 / (70_000.0 / (1.0 - 0.33 * 0.33) * 2.0);
    let added = with.end_displacement_mm - without.end_displacement_mm;
    near(added, arms, 1e-9, arms);
}

#[test]
fn unit_refuses_and_names_what_is_out_of_range() {
    let refused = |change: &dyn Fn(&mut Strip)| {
        let mut strip = lap();
        change(&mut strip);
        solve(&strip).unwrap_err()
    };
    assert_eq!(refused(&|s| s.overlap_mm = 0.0), Failure::NotPositive { argument: "overlap", found: 0.0 });
    assert!(matches!(
        refused(&|s| s.adhesive.peel_modulus_mpa = f64::INFINITY),
        Failure::NotPositive { argument: "adhesive peel modulus", .. }
    ));
    assert!(matches!(
        refused(&|s| s.upper.poissons_ratio = 0.5),
        Failure::OutOfRange { argument: "upper Poisson's ratio", .. }
    ));
    assert!(matches!(
        refused(&|s| s.axial_n_mm = f64::NAN),
        Failure::NotFinite { argument: "axial load", .. }
    ));
    assert!(matches!(refused(&|s| s.mesh.elements = 1), Failure::OutOfRange { argument: "elements", .. }));
    assert!(matches!(
        refused(&|s| s.bondline = Bondline::Along(vec![(0.0, 0.2), (20.0, 0.2)])),
        Failure::BondlineNotCovered { .. }
    ));
    assert!(matches!(
        refused(&|s| {
            s.supports = Supports::Gripped { ends: Ends::Clamped, left_arm_mm: -1.0, right_arm_mm: 0.0 };
        }),
        Failure::Negative { argument: "left arm", .. }
    ));
}

/// Numbers that no joint has end in a failure or in finite numbers, never in NaN.
#[test]
fn unit_absurd_numbers_do_not_pass_as_answers() {
    for (overlap_mm, modulus, load) in
        [(1e-30, 1e3, 1.0), (1e30, 1e3, 1.0), (25.0, 1e-250, 1e250), (25.0, 1e250, 1e-250)]
    {
        let mut strip = Strip { overlap_mm, axial_n_mm: load, ..lap() };
        strip.adhesive.shear_modulus_mpa = modulus;
        for geometry in [Geometry::FirstOrder, Geometry::SecondOrder] {
            strip.geometry = geometry;
            if let Ok(answer) = solve(&strip) {
                assert!(answer.peak_shear.value_mpa.is_finite());
                assert!(answer.stiffness_n_mm2.is_none_or(f64::is_finite));
            }
        }
    }
}

/// The solver gives the same bits whatever it solved before.
#[test]
fn unit_memory_of_earlier_strips_leaves_no_trace() {
    let mut solver = Solver::new();
    let first = solver.solve(&lap()).unwrap().clone();
    let longer = Strip { shear_flow_n_mm: 50.0, geometry: Geometry::SecondOrder, ..unequal_lap() };
    let mesh = Mesh { elements: 300, ..Mesh::default() };
    solver.solve(&Strip { mesh, ..longer }).unwrap();
    assert_eq!(solver.solve(&lap()).unwrap(), &first);
    assert_eq!(solve(&lap()).unwrap(), first);
}
