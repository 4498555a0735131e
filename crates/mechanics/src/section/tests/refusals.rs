//! What is no section, and how it is said.

use super::super::shapes::{Channel, HollowBox, Tube};
use super::super::{Fault, Form, Isotropic, Point, Section, Wall};
use super::{ALLOY, flat, section};
use crate::failure::Failure;
use crate::statics::Resultants;

const SQUARE: [Point; 4] = [[0.0, 0.0], [40.0, 0.0], [40.0, 40.0], [0.0, 40.0]];

fn fault(nodes: &[Point], walls: &[(usize, usize)]) -> Fault {
    let walls = walls.iter().map(|&(a, b)| flat(a, b, 2.0)).collect();
    match Section::new(nodes.to_vec(), walls, ALLOY) {
        Err(Failure::Section(fault)) => fault,
        other => panic!("expected a fault of the walls, found {other:?}"),
    }
}

#[test]
fn unit_no_walls() {
    assert_eq!(fault(&SQUARE, &[]), Fault::NoWalls);
    let many: Vec<Point> = (0..2101_u32).map(|k| [f64::from(k), 0.0]).collect();
    let chain: Vec<_> = (0..2100).map(|k| (k, k + 1)).collect();
    assert!(matches!(fault(&many, &chain), Fault::TooManyWalls { .. }));
}

#[test]
fn unit_walls_without_nodes_or_length() {
    assert_eq!(fault(&SQUARE, &[(0, 1), (1, 4)]), Fault::UnknownNode { wall: 1, node: 4 });
    assert_eq!(fault(&SQUARE, &[(0, 1), (1, 1)]), Fault::ZeroWall { wall: 1 });
    let twice = [[0.0, 0.0], [40.0, 0.0], [40.0, 0.0]];
    assert_eq!(fault(&twice, &[(0, 1), (1, 2)]), Fault::ZeroWall { wall: 1 });
    let coincident = [[0.0, 0.0], [40.0, 0.0], [20.0, 30.0], [40.0, 0.0]];
    assert_eq!(fault(&coincident, &[(0, 1), (1, 2), (2, 3)]), Fault::NodesCoincide { node: 1, other: 3 });
}

#[test]
fn unit_walls_that_hang_apart() {
    let apart = [[0.0, 0.0], [40.0, 0.0], [0.0, 30.0], [40.0, 30.0]];
    assert_eq!(fault(&apart, &[(0, 1), (2, 3)]), Fault::Disconnected { wall: 1 });
    assert_eq!(fault(&SQUARE, &[(0, 1), (1, 2)]), Fault::LooseNode { node: 3 });
}

#[test]
fn unit_walls_that_meet_away_from_a_node() {
    assert_eq!(fault(&SQUARE, &[(0, 1), (1, 2), (1, 0)]), Fault::DuplicateWall { wall: 0, other: 2 });
    assert_eq!(
        fault(&SQUARE, &[(0, 1), (1, 2), (2, 3), (0, 2), (1, 3)]),
        Fault::CrossingWalls { wall: 3, other: 4 }
    );
    let tee = [[0.0, 0.0], [40.0, 0.0], [20.0, 0.0], [20.0, 30.0], [40.0, 30.0]];
    assert_eq!(fault(&tee, &[(0, 1), (2, 3), (3, 4), (4, 1)]), Fault::CrossingWalls { wall: 0, other: 1 });
    let folded = [[0.0, 0.0], [40.0, 0.0], [10.0, 0.0]];
    assert_eq!(fault(&folded, &[(0, 1), (1, 2)]), Fault::CrossingWalls { wall: 0, other: 1 });
}

#[test]
fn unit_numbers_that_are_none() {
    let lost = [[0.0, 0.0], [f64::NAN, 0.0]];
    assert!(matches!(fault(&lost, &[(0, 1)]), Fault::NodeNotFinite { node: 1, .. }));
    for thickness in [0.0, -1.0, f64::NAN, f64::INFINITY] {
        let wall = Section::new(SQUARE[..2].to_vec(), vec![flat(0, 1, thickness)], ALLOY);
        assert!(
            matches!(wall, Err(Failure::Section(Fault::WallProperty { wall: 0, property: "thickness", .. }))),
            "{thickness}"
        );
    }
    let soft = Isotropic { youngs_modulus_mpa: 0.0, poissons_ratio: 0.3 };
    let rubber = Isotropic { youngs_modulus_mpa: 1.0, poissons_ratio: 0.5 };
    for (material, property) in [(soft, "Young's modulus"), (rubber, "Poisson's ratio")] {
        let wall = Wall { material, ..flat(0, 1, 2.0) };
        let found = Section::new(SQUARE[..2].to_vec(), vec![wall], ALLOY);
        assert!(
            matches!(found, Err(Failure::Section(Fault::WallProperty { property: p, .. })) if p == property)
        );
        assert!(Section::new(SQUARE[..2].to_vec(), vec![flat(0, 1, 2.0)], material).is_err());
    }
    let arc = Wall { form: Form::Arc { radius_mm: 0.0 }, ..flat(0, 1, 2.0) };
    assert!(Section::new(SQUARE[..2].to_vec(), vec![arc], ALLOY).is_err());
}

/// Walls so thin or so large that a result overflows are refused, never given as infinity.
#[test]
fn unit_numbers_too_far_apart() {
    for (size, thickness) in [(1e160, 1.0), (1e-120, 1e-121), (40.0, 1e-200)] {
        let nodes = SQUARE.map(|node| node.map(|c| c * size / 40.0)).to_vec();
        let walls = (0..4).map(|k| flat(k, (k + 1) % 4, thickness)).collect();
        assert!(Section::new(nodes, walls, ALLOY).is_err(), "{size} {thickness}");
    }
}

/// A cell of rigid links has no flow that could be told.
#[test]
fn unit_a_rigid_cell() {
    let mut walls: Vec<Wall> =
        (0..4).map(|k| Wall { form: Form::Link, ..flat(k, (k + 1) % 4, 2.0) }).collect();
    walls.push(flat(2, 4, 2.0));
    let nodes = [SQUARE.to_vec(), vec![[80.0, 40.0]]].concat();
    assert!(matches!(Section::new(nodes, walls, ALLOY), Err(Failure::NoNumber { .. })));
}

#[test]
fn unit_shapes_without_room() {
    let casting = HollowBox { width_mm: 80.0, height_mm: 120.0, wall_mm: 4.0, inner_radius_mm: 8.0 };
    for shape in [
        HollowBox { wall_mm: 40.0, ..casting },
        HollowBox { inner_radius_mm: 36.0, ..casting },
        HollowBox { inner_radius_mm: -1.0, ..casting },
        HollowBox { width_mm: f64::NAN, ..casting },
    ] {
        assert!(shape.section(ALLOY).is_err() && shape.faces().is_err(), "{shape:?}");
    }
    assert!(Channel { web_mm: 80.0, flange_mm: 40.0, wall_mm: 40.0 }.section(ALLOY).is_err());
    assert!(Tube { outside_diameter_mm: 60.0, wall_mm: 30.0 }.section(ALLOY).is_err());
}

#[test]
fn unit_questions_about_walls_that_are_not_there() {
    let angle = section(&SQUARE[..3], &[(0, 1, 2.0), (1, 2, 2.0)]);
    let load = angle.perimeter(&Resultants::default()).unwrap();
    assert_eq!(load.at(2, 0.0), Err(Fault::NoSuchWall { wall: 2, walls: 2 }.into()));
    assert!(matches!(load.at(1, 40.1), Err(Failure::OutOfRange { .. })));
    assert_eq!(
        angle.plastic(&[100.0]),
        Err(Fault::OnePerWall { what: "strengths", found: 1, walls: 2 }.into())
    );
    assert!(angle.plastic(&[100.0, 0.0]).is_err());
    let lost = Resultants { torque_nmm: f64::NAN, ..Resultants::default() };
    assert!(angle.perimeter(&lost).is_err() && angle.extremes(&lost).is_err());
    assert!(angle.local_buckling(&lost).is_err());
}

/// The sentences count nodes and walls from 1.
#[test]
fn unit_sentences() {
    let sentence = Failure::from(Fault::CrossingWalls { wall: 0, other: 4 }).to_string();
    assert_eq!(sentence, "walls no. 1 and 5 meet away from a common node: put a node there");
}
