//! Groups in a plane against textbooks, closed forms and laws.

use super::*;
use proptest::prelude::*;

fn rivet(y_mm: f64, z_mm: f64) -> Rivet {
    Rivet { y_mm, z_mm, stiffness_y_n_mm: 3e4, stiffness_z_n_mm: 3e4, strength_n: 6000.0 }
}

fn at(y_mm: f64, z_mm: f64, force_y_n: f64, force_z_n: f64) -> Load {
    Load { y_mm, z_mm, force_y_n, force_z_n, moment_nmm: 0.0 }
}

fn size([y, z]: [f64; 2]) -> f64 {
    (y * y + z * z).sqrt()
}

/// BOLTGRP-SHIG: Shigley, Mechanical Engineering Design, example 8-7 (memory, printed to 0.1 kN):
/// 16 kN at 425 mm from four bolts, 150 mm apart along the arm and 120 mm across it. Shared out
/// equally, as one sometimes reads, it would be 4 kN each.
#[test]
fn val_shigleys_bracket_of_four_bolts() {
    let bolts = [rivet(75.0, 60.0), rivet(75.0, -60.0), rivet(-75.0, 60.0), rivet(-75.0, -60.0)];
    let group = elastic(&bolts, &at(425.0, 0.0, 0.0, -16e3)).unwrap();
    let forces: Vec<f64> = group.forces_n.iter().map(|force| size(*force)).collect();
    for (found, recomputed, printed) in [
        (forces[0], 20_972.559_178_182_927, 21e3),
        (forces[1], 20_972.559_178_182_927, 21e3),
        (forces[2], 14_788.848_065_358_948, 14.8e3),
        (forces[3], 14_788.848_065_358_948, 14.8e3),
    ] {
        assert!((found - recomputed).abs() < 1e-8);
        assert!((found - printed).abs() < 50.0);
    }
    let turned = elastic(&bolts, &Load { moment_nmm: 16e3 * 425.0, ..at(0.0, 0.0, 0.0, 0.0) }).unwrap();
    for force in &turned.forces_n {
        assert!((size(*force) - 17_699.693_014_042_023).abs() < 1e-8);
    }
    // Superposition about the centroid: the centre stands where M r/Σ r² cancels F/n.
    let [y, z] = group.centre_mm.unwrap();
    assert!((y + (2.0 * 4.0 * (75.0 * 75.0 + 60.0 * 60.0) / 2.0) / 4.0 / 425.0).abs() < 1e-9);
    assert!(z.abs() < 1e-9);
    let first = group.first.unwrap();
    assert_eq!(first.rivet, 0);
    assert!((first.factor - 6000.0 / forces[0]).abs() < 1e-12);
}

/// Two rivets a apart from the middle, a force across the line at e from it: each takes half of it
/// across, and along the line nothing; equilibrium alone decides, elastic and plastic.
#[test]
fn unit_two_rivets_are_statically_determinate_across_their_line() {
    let pair = [rivet(-20.0, 0.0), rivet(20.0, 0.0)];
    let load = at(50.0, 0.0, 0.0, 1000.0);
    let group = elastic(&pair, &load).unwrap();
    assert!((group.forces_n[0][1] + 750.0).abs() < 1e-9);
    assert!((group.forces_n[1][1] - 1750.0).abs() < 1e-9);
    let capacity = plastic(&pair, &load).unwrap().unwrap();
    assert!((capacity.factor - 6000.0 / 1750.0).abs() < 1e-8);
}

/// A force along z at e along y from two rivets at z = ±a: half of it each, and a couple along y.
///
/// ```text
/// (P/2)² + (P e/(2 a))² = s²
/// ```
#[test]
fn unit_plastic_pair_beside_the_force() {
    let pair = [rivet(0.0, -30.0), rivet(0.0, 30.0)];
    let capacity = plastic(&pair, &at(75.0, 0.0, 0.0, 1.0)).unwrap().unwrap();
    let exact = 2.0 * 6000.0 / libm::hypot(1.0, 75.0 / 30.0);
    assert!((capacity.factor / exact - 1.0).abs() < 1e-9);
    assert!(capacity.bound >= exact * (1.0 - 1e-12));
}

/// Under a pure moment every rivet pulls across its arm: M = Σ s r about the point that makes it
/// least. For a rectangle that is its middle; a fifth rivet there stands still and adds nothing.
#[test]
fn unit_plastic_moment_of_a_rectangle_and_of_a_rivet_that_stands_still() {
    let mut group = vec![rivet(30.0, 40.0), rivet(-30.0, 40.0), rivet(30.0, -40.0), rivet(-30.0, -40.0)];
    let moment = Load { moment_nmm: 1000.0, ..at(0.0, 0.0, 0.0, 0.0) };
    let exact = 4.0 * 6000.0 * 50.0 / 1000.0;
    for _ in 0..2 {
        let capacity = plastic(&group, &moment).unwrap().unwrap();
        assert!((capacity.factor / exact - 1.0).abs() < 1e-8, "{}", capacity.factor / exact);
        let [y, z] = capacity.centre_mm.unwrap();
        assert!(y.abs() < 1e-4 && z.abs() < 1e-4);
        group.push(rivet(0.0, 0.0));
    }
    // Three at 120°: the middle again, by symmetry.
    let three: Vec<Rivet> = [0.0_f64, 120.0, 240.0]
        .iter()
        .map(|turn| {
            let angle = turn.to_radians();
            rivet(7.0 + 50.0 * libm::cos(angle), 3.0 + 50.0 * libm::sin(angle))
        })
        .collect();
    let capacity = plastic(&three, &moment).unwrap().unwrap();
    assert!((capacity.factor / (3.0 * 6000.0 * 50.0 / 1000.0) - 1.0).abs() < 1e-8);
}

/// A centred force is carried by all alike, whatever their stiffness: many motions need the same
/// load, which is where a search for one centre fails.
#[test]
fn unit_plastic_row_under_a_centred_force() {
    let row: Vec<Rivet> = (0..7).map(|i| rivet(0.0, 20.0 * f64::from(i))).collect();
    for force in [at(0.0, 60.0, 500.0, 0.0), at(0.0, 60.0, 0.0, 500.0), at(0.0, 60.0, 300.0, 400.0)] {
        let capacity = plastic(&row, &force).unwrap().unwrap();
        assert!((capacity.factor - 7.0 * 12.0).abs() < 1e-6, "{}", capacity.factor);
    }
}

/// The least dissipation over a fine grid of centres is the plastic capacity, found without any of
/// the solver: the classical search for the instantaneous centre.
#[test]
fn cross_plastic_capacity_and_the_search_for_the_instantaneous_centre() {
    let group = [
        Rivet { strength_n: 4000.0, ..rivet(0.0, 0.0) },
        rivet(50.0, 5.0),
        Rivet { strength_n: 9000.0, ..rivet(10.0, 60.0) },
        rivet(70.0, 80.0),
        rivet(30.0, 25.0),
    ];
    let load = Load { moment_nmm: 2e4, ..at(180.0, -40.0, 300.0, 900.0) };
    let found = plastic(&group, &load).unwrap().unwrap();
    let needed = |y: f64, z: f64| {
        let work = load.moment_nmm + (load.y_mm - y) * load.force_z_n - (load.z_mm - z) * load.force_y_n;
        let dissipated: f64 = group.iter().map(|r| r.strength_n * libm::hypot(r.y_mm - y, r.z_mm - z)).sum();
        dissipated / work.abs()
    };
    let mut best = (f64::INFINITY, 0.0, 0.0);
    let mut step = 40.0;
    let (mut y0, mut z0) = (0.0, 0.0);
    for _ in 0..14 {
        for i in -20..=20 {
            for j in -20..=20 {
                let (y, z) = (y0 + step * f64::from(i), z0 + step * f64::from(j));
                let value = needed(y, z);
                if value < best.0 {
                    best = (value, y, z);
                }
            }
        }
        (y0, z0) = (best.1, best.2);
        step *= 0.25;
    }
    // The last grid is 6e-7 mm wide: near the minimum the value changes with its square.
    assert!((found.factor / best.0 - 1.0).abs() < 1e-8, "{} {}", found.factor, best.0);
    let [y, z] = found.centre_mm.unwrap();
    assert!(libm::hypot(y - best.1, z - best.2) < 1e-3);
}

#[test]
fn unit_names_the_motion_that_is_free() {
    let free = |rivets: &[Rivet], motion| {
        let load = at(0.0, 10.0, 1000.0, 0.0);
        assert_eq!(elastic(rivets, &load), Err(Failure::FreeMotion { motion }));
    };
    free(&[], "translation along y");
    free(&[rivet(3.0, 4.0)], "rotation about x");
    let rollers: Vec<Rivet> =
        (0..3).map(|i| Rivet { stiffness_z_n_mm: 0.0, ..rivet(0.0, 20.0 * f64::from(i)) }).collect();
    free(&rollers, "translation along z");
    let load = at(0.0, 10.0, 1000.0, 0.0);
    assert_eq!(plastic(&[rivet(3.0, 4.0)], &load), Err(Failure::FreeMotion { motion: "rotation about x" }));
}

#[test]
fn unit_no_load_has_no_factor() {
    let pair = [rivet(-20.0, 0.0), rivet(20.0, 0.0)];
    let none = at(0.0, 0.0, 0.0, 0.0);
    assert_eq!(elastic(&pair, &none).unwrap().first, None);
    assert_eq!(plastic(&pair, &none), Ok(None));
}

#[test]
fn unit_refuses_and_names_what_is_out_of_range() {
    let pair = [rivet(-20.0, 0.0), Rivet { strength_n: 0.0, ..rivet(20.0, 0.0) }];
    assert_eq!(
        elastic(&pair, &at(0.0, 0.0, 1.0, 0.0)),
        Err(Failure::NotPositive { argument: "strength of a rivet", found: 0.0 })
    );
    let pair = [rivet(-20.0, 0.0), rivet(20.0, 0.0)];
    assert!(plastic(&pair, &at(0.0, f64::NAN, 1.0, 0.0)).is_err());
    assert!(matches!(plastic(&pair, &at(0.0, 0.0, 1e-310, 0.0)), Err(Failure::NoNumber { .. })));
}

/// Groups that restrain every motion, with stiffness and strength of their own.
fn group() -> impl Strategy<Value = Vec<Rivet>> {
    let one = (-80.0..80.0_f64, -80.0..80.0_f64, 5e3..8e4_f64, 5e3..8e4_f64, 2e3..9e3_f64).prop_map(
        |(y_mm, z_mm, stiffness_y_n_mm, stiffness_z_n_mm, strength_n)| Rivet {
            y_mm,
            z_mm,
            stiffness_y_n_mm,
            stiffness_z_n_mm,
            strength_n,
        },
    );
    prop::collection::vec(one, 2..12).prop_filter("apart", |rivets| {
        rivets.iter().any(|r| libm::hypot(r.y_mm - rivets[0].y_mm, r.z_mm - rivets[0].z_mm) > 5.0)
    })
}

fn load() -> impl Strategy<Value = Load> {
    (-200.0..200.0_f64, -200.0..200.0_f64, -5e3..5e3_f64, -5e3..5e3_f64, -3e5..3e5_f64).prop_map(
        |(y_mm, z_mm, force_y_n, force_z_n, moment_nmm)| Load {
            y_mm,
            z_mm,
            force_y_n,
            force_z_n,
            moment_nmm,
        },
    )
}

/// What forces leave unbalanced of `factor` times the load, over the greatest part of it.
fn unbalanced(rivets: &[Rivet], forces: &[[f64; 2]], load: &Load, factor: f64) -> f64 {
    let moment = |y: f64, z: f64, f: [f64; 2]| y * f[1] - z * f[0];
    let mut rest = [
        -factor * load.force_y_n,
        -factor * load.force_z_n,
        -factor * (load.moment_nmm + moment(load.y_mm, load.z_mm, [load.force_y_n, load.force_z_n])),
    ];
    let mut most = [1e-3, 1e-3, 0.1];
    for (rivet, force) in rivets.iter().zip(forces) {
        let turn = moment(rivet.y_mm, rivet.z_mm, *force);
        for (k, part) in [force[0], force[1], turn].into_iter().enumerate() {
            rest[k] += part;
            most[k] = f64::max(most[k], part.abs());
        }
    }
    (0..3).map(|k| rest[k].abs() / most[k]).fold(0.0, f64::max)
}

/// A turn of the plane, and a shift after it.
fn moved(y: f64, z: f64, turn: f64, shift: [f64; 2]) -> [f64; 2] {
    let (c, s) = (libm::cos(turn), libm::sin(turn));
    [c * y - s * z + shift[0], s * y + c * z + shift[1]]
}

fn moved_load(load: &Load, turn: f64, shift: [f64; 2]) -> Load {
    let [y_mm, z_mm] = moved(load.y_mm, load.z_mm, turn, shift);
    let [force_y_n, force_z_n] = moved(load.force_y_n, load.force_z_n, turn, [0.0, 0.0]);
    Load { y_mm, z_mm, force_y_n, force_z_n, moment_nmm: load.moment_nmm }
}

proptest! {
    /// Forces are in equilibrium with the load, elastic ones and plastic ones; plastic ones keep to
    /// their strengths, and the elastic factor is no greater than the plastic one.
    #[test]
    fn law_equilibrium_and_strength(rivets in group(), load in load()) {
        let by_stiffness = elastic(&rivets, &load).unwrap();
        prop_assert!(unbalanced(&rivets, &by_stiffness.forces_n, &load, 1.0) < 1e-9);
        let capacity = plastic(&rivets, &load).unwrap().unwrap();
        prop_assert!(unbalanced(&rivets, &capacity.forces_n, &load, capacity.factor) < 1e-9);
        for (rivet, force) in rivets.iter().zip(&capacity.forces_n) {
            prop_assert!(size(*force) <= rivet.strength_n * (1.0 + 1e-12));
        }
        prop_assert!(capacity.bound >= capacity.factor);
        prop_assert!(capacity.bound <= capacity.factor * (1.0 + LAX));
        prop_assert!(by_stiffness.first.unwrap().factor <= capacity.factor * (1.0 + 1e-9));
    }

    /// A plane turned and shifted carries its forces along.
    #[test]
    fn law_forces_turn_and_shift_with_the_plane(
        rivets in group(), load in load(), turn in -3.0..3.0_f64, shift in prop::array::uniform2(-500.0..500.0_f64),
    ) {
        // One stiffness in both directions: y and z must not differ for the rivet.
        let rivets: Vec<Rivet> =
            rivets.iter().map(|r| Rivet { stiffness_z_n_mm: r.stiffness_y_n_mm, ..*r }).collect();
        let there: Vec<Rivet> = rivets
            .iter()
            .map(|r| {
                let [y_mm, z_mm] = moved(r.y_mm, r.z_mm, turn, shift);
                Rivet { y_mm, z_mm, ..*r }
            })
            .collect();
        let load_there = moved_load(&load, turn, shift);
        let here = elastic(&rivets, &load).unwrap();
        let moved_group = elastic(&there, &load_there).unwrap();
        let most = here.forces_n.iter().map(|f| size(*f)).fold(0.0, f64::max);
        for (a, b) in here.forces_n.iter().zip(&moved_group.forces_n) {
            let [y, z] = moved(a[0], a[1], turn, [0.0, 0.0]);
            prop_assert!(libm::hypot(y - b[0], z - b[1]) < 1e-9 * most);
        }
        let here = plastic(&rivets, &load).unwrap().unwrap();
        let moved_group = plastic(&there, &load_there).unwrap().unwrap();
        prop_assert!((here.factor / moved_group.factor - 1.0).abs() < LAX);
    }

    /// A mirrored group under the mirrored load has mirrored forces.
    #[test]
    fn law_mirrored_groups_mirror(rivets in group(), load in load()) {
        let mirrored: Vec<Rivet> = rivets.iter().map(|r| Rivet { y_mm: -r.y_mm, ..*r }).collect();
        let mirrored_load =
            Load { y_mm: -load.y_mm, force_y_n: -load.force_y_n, moment_nmm: -load.moment_nmm, ..load };
        let (a, b) = (elastic(&rivets, &load).unwrap(), elastic(&mirrored, &mirrored_load).unwrap());
        let most = a.forces_n.iter().map(|f| size(*f)).fold(0.0, f64::max);
        for (a, b) in a.forces_n.iter().zip(&b.forces_n) {
            prop_assert!((a[0] + b[0]).abs() < 1e-9 * most && (a[1] - b[1]).abs() < 1e-9 * most);
        }
        let capacity = |rivets: &[Rivet], load| plastic(rivets, load).unwrap().unwrap().factor;
        let ratio = capacity(&rivets, &load) / capacity(&mirrored, &mirrored_load);
        prop_assert!((ratio - 1.0).abs() < LAX);
    }

    /// Twice the load halves the factors; twice the strength doubles them.
    #[test]
    fn law_factors_scale_with_load_and_strength(rivets in group(), load in load(), c in 0.01..100.0_f64) {
        let larger = Load {
            force_y_n: c * load.force_y_n,
            force_z_n: c * load.force_z_n,
            moment_nmm: c * load.moment_nmm,
            ..load
        };
        let stronger: Vec<Rivet> = rivets.iter().map(|r| Rivet { strength_n: c * r.strength_n, ..*r }).collect();
        let first = |rivets: &[Rivet], load| elastic(rivets, load).unwrap().first.unwrap().factor;
        let last = |rivets: &[Rivet], load| plastic(rivets, load).unwrap().unwrap().factor;
        prop_assert!((first(&rivets, &larger) * c / first(&rivets, &load) - 1.0).abs() < 1e-9);
        prop_assert!((first(&stronger, &load) / c / first(&rivets, &load) - 1.0).abs() < 1e-9);
        prop_assert!((last(&rivets, &larger) * c / last(&rivets, &load) - 1.0).abs() < LAX);
        prop_assert!((last(&stronger, &load) / c / last(&rivets, &load) - 1.0).abs() < LAX);
    }

    /// One rivet more never lowers the plastic capacity. (The elastic factor it may lower.)
    #[test]
    fn law_a_rivet_more_never_lowers_the_plastic_capacity(
        rivets in group(), load in load(), y in -150.0..150.0_f64, z in -150.0..150.0_f64, strength in 1e2..9e3_f64,
    ) {
        let few = plastic(&rivets, &load).unwrap().unwrap();
        let mut more = rivets.clone();
        more.push(Rivet { strength_n: strength, ..rivet(y, z) });
        let many = plastic(&more, &load).unwrap().unwrap();
        prop_assert!(many.factor >= few.factor * (1.0 - LAX));
    }
}

/// Tolerance of laws of the plastic capacity: the distance of its bounds that the solver accepts.
const LAX: f64 = 1e-6;
