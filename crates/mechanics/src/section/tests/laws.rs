//! Properties that hold for every section.

use super::super::{Isotropic, Point, Section, Wall};
use super::{ALLOY, flat};
use crate::statics::Resultants;
use proptest::prelude::*;

/// Sizes of a two-cell box with a flange, some of whose walls may be missing.
#[derive(Debug, Clone)]
struct Recipe {
    size: Point,
    rib: f64,
    flange: Point,
    thickness: Vec<f64>,
    modulus: Vec<f64>,
    missing: usize,
}

impl Recipe {
    fn nodes(&self) -> Vec<Point> {
        let ([w, h], rib) = (self.size, self.rib * self.size[0]);
        let tip = [w + self.flange[0], h + self.flange[1]];
        vec![[0.0, 0.0], [rib, 0.0], [w, 0.0], [w, h], [rib, h], [0.0, h], tip]
    }

    fn walls(&self) -> Vec<Wall> {
        // Two cells and a flange; one cell and two branches; one cell; open.
        let left_out: &[usize] = [&[][..], &[5], &[6], &[6, 2]][self.missing];
        let ends = [(0, 1), (1, 2), (2, 3), (3, 4), (4, 5), (5, 0), (1, 4), (3, 6)];
        (0..8)
            .filter(|k| !left_out.contains(k))
            .map(|k| Wall {
                material: Isotropic { youngs_modulus_mpa: self.modulus[k], ..ALLOY },
                ..flat(ends[k].0, ends[k].1, self.thickness[k])
            })
            .collect()
    }

    fn section(&self) -> Section {
        Section::new(self.nodes(), self.walls(), ALLOY).unwrap()
    }
}

fn recipe() -> impl Strategy<Value = Recipe> {
    (
        [60.0..150.0, 40.0..150.0],
        0.25..0.75,
        [10.0..60.0, -20.0..30.0],
        prop::collection::vec(1.0..5.0, 8),
        prop::collection::vec(60_000.0..210_000.0, 8),
        0_usize..4,
    )
        .prop_map(|(size, rib, flange, thickness, modulus, missing)| Recipe {
            size,
            rib,
            flange,
            thickness,
            modulus,
            missing,
        })
}

fn loads() -> impl Strategy<Value = Resultants> {
    (prop::array::uniform3(-2e4..2e4), prop::array::uniform3(-2e6..2e6)).prop_map(
        |([axial_n, shear_y_n, shear_z_n], [moment_y_nmm, moment_z_nmm, torque_nmm])| Resultants {
            axial_n,
            shear_y_n,
            shear_z_n,
            moment_y_nmm,
            moment_z_nmm,
            torque_nmm,
        },
    )
}

/// 1e-9 of the greatest force or moment of that size: forces with the moments they make over 100 mm.
fn same(found: &Resultants, expected: &Resultants) -> Result<(), TestCaseError> {
    let force = expected.parts()[..3].iter().fold(1.0, |m: f64, p| m.max(p.abs()));
    let moment = expected.parts()[3..].iter().fold(100.0 * force, |m: f64, p| m.max(p.abs()));
    for (k, (a, b)) in found.parts().into_iter().zip(expected.parts()).enumerate() {
        let scale = if k < 3 { force.max(moment / 100.0) } else { moment };
        prop_assert!((a - b).abs() <= 1e-9 * scale, "{k}: {a} against {b}");
    }
    Ok(())
}

fn close(found: f64, expected: f64, scale: f64) -> Result<(), TestCaseError> {
    prop_assert!((found - expected).abs() <= 1e-9 * scale.abs(), "{found} against {expected}");
    Ok(())
}

/// A section drawn elsewhere: every node mapped.
fn moved(recipe: &Recipe, map: impl Fn(Point) -> Point) -> Section {
    Section::new(recipe.nodes().into_iter().map(map).collect(), recipe.walls(), ALLOY).unwrap()
}

proptest! {
    /// The required equilibrium: integrating the perimeter gives N, V, M and T to 1e-9.
    #[test]
    fn law_perimeter_integrates_back(recipe in recipe(), load in loads()) {
        same(&recipe.section().perimeter(&load).unwrap().resultants(), &load)?;
    }

    /// Every piece of wall is in equilibrium along x: the flow changes by the change of the axial line
    /// load over a length of member, with the moments moved along; and no flow is lost at nodes.
    #[test]
    fn law_flow_balances_axial_load(recipe in recipe(), load in loads()) {
        let section = recipe.section();
        let here = section.perimeter(&load).unwrap();
        let length = 10.0;
        let further = Resultants {
            moment_y_nmm: load.moment_y_nmm + load.shear_z_n * length,
            moment_z_nmm: load.moment_z_nmm - load.shear_y_n * length,
            ..load
        };
        let there = section.perimeter(&further).unwrap();
        let mut at_node = vec![0.0; section.nodes().len()];
        let scale = here.walls().iter().map(|w| w.shear_flow[0].abs()).fold(1.0, f64::max);
        for (wall, (a, b)) in section.walls().iter().zip(here.walls().iter().zip(there.walls())) {
            let l = a.length_mm;
            let change: f64 = (0..2).map(|k| (b.axial_n_mm[k] - a.axial_n_mm[k]) / length).sum::<f64>() * l / 2.0;
            let flow = a.shear_flow_at(l) - a.shear_flow_at(0.0);
            // The change of n is a small difference of great numbers.
            let size = a.axial_n_mm.iter().fold(scale, |m, n| m.max(n.abs() * l / length));
            prop_assert!((flow + change).abs() <= 1e-9 * size, "{} against {}", flow, -change);
            at_node[wall.from] += a.shear_flow_at(0.0);
            at_node[wall.to] -= a.shear_flow_at(l);
        }
        for sum in at_node {
            prop_assert!(sum.abs() <= 1e-9 * scale, "{sum} left at a node");
        }
    }

    /// Turned and shifted: scalars stay, points and axes turn along, and so does the distribution.
    #[test]
    fn law_rotation(recipe in recipe(), load in loads(), angle in -3.0..3.0, shift in [-500.0..500.0, -500.0..500.0]) {
        let (c, s) = (libm::cos(angle), libm::sin(angle));
        let turn = |[y, z]: Point| [c * y - s * z, s * y + c * z];
        let place = |p: Point| { let [y, z] = turn(p); [y + shift[0], z + shift[1]] };
        let (plain, turned) = (recipe.section(), moved(&recipe, place));
        let (a, b) = (plain.properties(), turned.properties());
        for (one, other) in [
            (a.area_mm2, b.area_mm2), (a.i_1_mm4, b.i_1_mm4), (a.i_2_mm4, b.i_2_mm4),
            (a.torsion.constant_mm4, b.torsion.constant_mm4), (a.torsion.refined_mm4, b.torsion.refined_mm4),
        ] {
            close(other, one, one)?;
        }
        close(b.warping_constant_mm6, a.warping_constant_mm6, a.i_1_mm4 * 1e4)?;
        for (one, other) in [(a.centroid_mm, b.centroid_mm), (a.shear_centre_mm, b.shear_centre_mm)] {
            for (x, y) in place(one).into_iter().zip(other) {
                close(y, x, 1e3)?;
            }
        }
        let second = |p: &super::super::Properties| [p.i_y_mm4, p.i_z_mm4, p.i_yz_mm4];
        let [i_y, i_z, i_yz] = second(a);
        let expected = [
            i_y * c * c + i_z * s * s + 2.0 * i_yz * c * s,
            i_z * c * c + i_y * s * s - 2.0 * i_yz * c * s,
            i_yz * (c * c - s * s) - (i_y - i_z) * c * s,
        ];
        for (x, y) in expected.into_iter().zip(second(b)) {
            close(y, x, a.i_1_mm4)?;
        }
        let [v_y, v_z] = turn([load.shear_y_n, load.shear_z_n]);
        let [m_y, m_z] = turn([load.moment_y_nmm, load.moment_z_nmm]);
        let load_turned = Resultants { shear_y_n: v_y, shear_z_n: v_z, moment_y_nmm: m_y, moment_z_nmm: m_z, ..load };
        distributions_agree(&plain, &load, &turned, &load_turned, 1.0)?;
    }

    /// Mirrored in the x–z plane: y changes sign, and with it V_y, M_z and T.
    #[test]
    fn law_mirror(recipe in recipe(), load in loads()) {
        let (plain, mirrored) = (recipe.section(), moved(&recipe, |[y, z]| [-y, z]));
        let (a, b) = (plain.properties(), mirrored.properties());
        close(b.i_y_mm4, a.i_y_mm4, a.i_1_mm4)?;
        close(b.i_yz_mm4, -a.i_yz_mm4, a.i_1_mm4)?;
        close(b.shear_centre_mm[0], -a.shear_centre_mm[0], 1e2)?;
        close(b.shear_centre_mm[1], a.shear_centre_mm[1], 1e2)?;
        close(b.torsion.constant_mm4, a.torsion.constant_mm4, a.torsion.constant_mm4)?;
        let image = Resultants {
            shear_y_n: -load.shear_y_n, moment_z_nmm: -load.moment_z_nmm, torque_nmm: -load.torque_nmm, ..load
        };
        distributions_agree(&plain, &load, &mirrored, &image, 1.0)?;
    }

    /// In other units of length (millimetres for metres, say) every result follows its dimension.
    #[test]
    fn law_units(recipe in recipe(), load in loads(), factor in 0.01_f64..100.0) {
        let scaled_walls: Vec<Wall> =
            recipe.walls().into_iter().map(|w| Wall { thickness_mm: factor * w.thickness_mm, ..w }).collect();
        let nodes = recipe.nodes().into_iter().map(|n| n.map(|c| factor * c)).collect();
        let (plain, scaled) = (recipe.section(), Section::new(nodes, scaled_walls, ALLOY).unwrap());
        let (a, b) = (plain.properties(), scaled.properties());
        for (one, other, power) in [
            (a.area_mm2, b.area_mm2, 2), (a.i_y_mm4, b.i_y_mm4, 4), (a.i_z_mm4, b.i_z_mm4, 4),
            (a.torsion.constant_mm4, b.torsion.constant_mm4, 4), (a.shear_area_y_mm2, b.shear_area_y_mm2, 2),
            (a.shear_area_z_mm2, b.shear_area_z_mm2, 2),
        ] {
            close(other, one * factor.powi(power), one * factor.powi(power))?;
        }
        let [m_y, m_z, t] = [load.moment_y_nmm, load.moment_z_nmm, load.torque_nmm].map(|m| m * factor);
        let load_scaled = Resultants { moment_y_nmm: m_y, moment_z_nmm: m_z, torque_nmm: t, ..load };
        distributions_agree(&plain, &load, &scaled, &load_scaled, 1.0 / factor)?;
    }

    /// The order of the walls, their directions and the order of the nodes change nothing, though the
    /// cells are then found along other ways.
    #[test]
    fn law_drawing_order(recipe in recipe(), load in loads(), keys in prop::collection::vec(any::<(u32, bool)>(), 8)) {
        let nodes: Vec<Point> = recipe.nodes().into_iter().rev().collect();
        let last = nodes.len() - 1;
        let mut order: Vec<usize> = (0..recipe.walls().len()).collect();
        order.sort_by_key(|&k| keys[k].0);
        let walls = recipe.walls();
        let redrawn = order.iter().map(|&k| {
            let (a, b) = if keys[k].1 { (walls[k].to, walls[k].from) } else { (walls[k].from, walls[k].to) };
            Wall { from: last - a, to: last - b, ..walls[k] }
        });
        let (plain, other) = (recipe.section(), Section::new(nodes, redrawn.collect(), ALLOY).unwrap());
        prop_assert_eq!(plain.cells(), other.cells());
        close(other.properties().torsion.constant_mm4, plain.properties().torsion.constant_mm4,
            plain.properties().torsion.constant_mm4)?;
        let (a, b) = (plain.perimeter(&load).unwrap(), other.perimeter(&load).unwrap());
        let scale = a.walls().iter().map(|w| w.shear_flow[0].abs()).fold(1.0, f64::max);
        for (place, &k) in order.iter().enumerate() {
            let (one, two) = (&a.walls()[k], &b.walls()[place]);
            let l = one.length_mm;
            let (sign, s) = if keys[k].1 { (-1.0, 0.3 * l) } else { (1.0, 0.7 * l) };
            close(sign * two.shear_flow_at(s), one.shear_flow_at(0.7 * l), scale)?;
            close(two.axial_at(s), one.axial_at(0.7 * l), one.axial_at(0.0).abs() + one.axial_at(l).abs() + 1.0)?;
        }
    }

    /// A wall drawn in two pieces is the same wall.
    #[test]
    fn law_split_walls(recipe in recipe(), share in 0.3..0.7) {
        // The lower wall, in one line, of a section with both cells.
        let recipe = Recipe { missing: 0, ..recipe };
        let mut nodes = recipe.nodes();
        nodes.push([share * nodes[1][0], 0.0]);
        let mut walls = recipe.walls();
        walls[0].to = 7;
        walls.push(Wall { from: 7, to: 1, ..walls[0] });
        let split = Section::new(nodes, walls, ALLOY).unwrap();
        let plain = recipe.section();
        let (a, b) = (plain.properties(), split.properties());
        for (one, other) in [
            (a.area_mm2, b.area_mm2), (a.i_y_mm4, b.i_y_mm4), (a.torsion.constant_mm4, b.torsion.constant_mm4),
            (a.torsion.refined_mm4, b.torsion.refined_mm4), (a.shear_area_z_mm2, b.shear_area_z_mm2),
            (a.warping_constant_mm6, b.warping_constant_mm6),
        ] {
            prop_assert!((one - other).abs() <= 1e-8 * one, "{one} {other}");
        }
    }

    /// Clapeyron: the energy of the flow of a torque is T²/(2 G I_t), for any number of cells.
    #[test]
    fn cross_torsion_energy(recipe in recipe()) {
        let recipe = Recipe { missing: recipe.missing % 3, ..recipe };
        let section = recipe.section();
        let load = section.perimeter(&Resultants { torque_nmm: 1e6, ..Resultants::default() }).unwrap();
        let twice: f64 = load.walls().iter().zip(section.walls()).map(|(w, wall)| {
            let g = wall.material.shear_modulus_mpa();
            let t = wall.thickness_mm;
            w.length_mm * (w.shear_flow[0].powi(2) / (g * t) + 3.0 * w.twisting_n.powi(2) / (g * t.powi(3)))
        }).sum();
        let expected = 1e12 / (ALLOY.shear_modulus_mpa() * section.properties().torsion.constant_mm4);
        close(twice, expected, expected)?;
    }

    /// No stress distribution that the strengths allow has a greater moment than the plastic one, and the
    /// elastic one at first yield is such a distribution.
    #[test]
    fn law_plastic_exceeds_elastic(recipe in recipe()) {
        let section = recipe.section();
        let count = section.walls().len();
        let strength = 150.0;
        let plastic = section.plastic(&vec![strength; count]).unwrap();
        let outline_z = section.section_moduli().unwrap();
        prop_assert!(plastic.moment_y_nmm >= strength * outline_z.about_y_mm3 * (1.0 - 1e-9));
        prop_assert!(plastic.moment_z_nmm >= strength * outline_z.about_z_mm3 * (1.0 - 1e-9));
        let double = section.plastic(&vec![2.0 * strength; count]).unwrap();
        close(double.moment_y_nmm, 2.0 * plastic.moment_y_nmm, plastic.moment_y_nmm)?;
    }
}

/// Compares two distributions wall by wall; line loads scale by `factor` per mm.
fn distributions_agree(
    one: &Section,
    load: &Resultants,
    other: &Section,
    other_load: &Resultants,
    factor: f64,
) -> Result<(), TestCaseError> {
    let (a, b) = (one.perimeter(load).unwrap(), other.perimeter(other_load).unwrap());
    let scale = a
        .walls()
        .iter()
        .flat_map(|w| w.axial_n_mm.into_iter().chain([w.shear_flow[0]]))
        .fold(1.0, |m: f64, value| m.max(value.abs()));
    // Mirroring turns left into right: the flow runs along the wall either way, so it keeps its sign.
    for (w, v) in a.walls().iter().zip(b.walls()) {
        for share in [0.0, 0.4, 1.0] {
            close(v.axial_at(share * v.length_mm), factor * w.axial_at(share * w.length_mm), factor * scale)?;
            close(
                v.shear_flow_at(share * v.length_mm),
                factor * w.shear_flow_at(share * w.length_mm),
                factor * scale,
            )?;
        }
    }
    Ok(())
}
