//! Section properties against two-dimensional finite elements of the solid sections.
//!
//! "Section properties against a 2-D finite-element section solver from PyPI for at least six sections incl.
//! two-cell, hat with plate, slit box, thick channel (script and data stored): area and second moments within 1 %,
//! torsion constant within 5 %, shear centre within 1 mm; handbook checks (Bredt, slit box, rectangle) from the
//! references."
//!
//! validation/reference/sections.toml holds the figures and says how they were made; the handbook checks stand beside
//! the code.

#![expect(clippy::unwrap_used, reason = "a reference file that cannot be read fails the test")]

use mechanics::section::shapes::{Channel, Hat, HollowBox, Plate, Tube};
use mechanics::section::{Form, Isotropic, Properties, Section, Wall};
use toml::{Table, Value};

const REFERENCE: &str =
    include_str!(concat!(env!("CARGO_MANIFEST_DIR"), "/../../validation/reference/sections.toml"));

fn number(table: &Table, key: &str) -> f64 {
    table[key].as_float().unwrap_or_else(|| panic!("{key} is no number"))
}

fn index(table: &Table, key: &str) -> usize {
    usize::try_from(table[key].as_integer().unwrap()).unwrap()
}

fn cases() -> Vec<(String, Table)> {
    let file: Table = toml::from_str(REFERENCE).unwrap();
    let cases: Vec<(String, Table)> = file["section"]
        .as_array()
        .unwrap()
        .iter()
        .map(|case| case.as_table().unwrap().clone())
        .map(|case| (case["name"].as_str().unwrap().to_owned(), case))
        .collect();
    for needed in ["two_cell", "hat_with_plate", "slit_box", "thick_channel"] {
        assert!(cases.iter().any(|(name, _)| name == needed), "{needed}");
    }
    assert!(cases.len() >= 8);
    cases
}

/// The section of a case, for one Poisson's ratio.
fn section(case: &Table, poissons_ratio: f64) -> Section {
    let alloy = Isotropic { youngs_modulus_mpa: 70_000.0, poissons_ratio };
    let shape = |key: &str| case.get(key).and_then(Value::as_table);
    if let Some(s) = shape("box") {
        let [width_mm, height_mm] = [number(s, "width"), number(s, "height")];
        let [wall_mm, inner_radius_mm] = [number(s, "wall"), number(s, "inner_radius")];
        HollowBox { width_mm, height_mm, wall_mm, inner_radius_mm }.section(alloy)
    } else if let Some(s) = shape("channel") {
        Channel { web_mm: number(s, "web"), flange_mm: number(s, "flange"), wall_mm: number(s, "wall") }
            .section(alloy)
    } else if let Some(s) = shape("hat") {
        let [top_mm, height_mm, flange_mm] = ["top", "height", "flange"].map(|key| number(s, key));
        Hat { top_mm, height_mm, flange_mm, wall_mm: number(s, "wall"), plate_mm: number(s, "plate") }
            .section(alloy)
    } else if let Some(s) = shape("tube") {
        Tube { outside_diameter_mm: number(s, "outside_diameter"), wall_mm: number(s, "wall") }.section(alloy)
    } else if let Some(s) = shape("plate") {
        Plate { width_mm: number(s, "width"), thickness_mm: number(s, "thickness") }.section(alloy)
    } else {
        let nodes = case["nodes"].as_array().unwrap().iter();
        let nodes = nodes.map(|n| [0, 1].map(|k| n[k].as_float().unwrap())).collect();
        let walls = case["walls"].as_array().unwrap().iter().map(|w| w.as_table().unwrap());
        let wall = |w: &Table| Wall {
            from: index(w, "from"),
            to: index(w, "to"),
            thickness_mm: number(w, "thickness"),
            material: Isotropic { youngs_modulus_mpa: number(w, "youngs_modulus"), poissons_ratio },
            form: Form::Flat,
        };
        Section::new(nodes, walls.map(wall).collect(), alloy)
    }
    .unwrap()
}

/// Relative difference from a figure of a case.
fn off(found: f64, case: &Table, key: &str) -> f64 {
    found / number(case, key) - 1.0
}

/// Required: 1 %. The outlines are the reference's own solids up to the chords of arcs: 2e-4.
#[test]
fn val_area_and_second_moments() {
    for (name, case) in cases() {
        let section = section(&case, 0.33);
        let p = section.properties();
        for (value, key) in [
            (p.area_mm2, "area"),
            (p.i_y_mm4, "i_y"),
            (p.i_z_mm4, "i_z"),
            (p.i_1_mm4, "i_1"),
            (p.i_2_mm4, "i_2"),
        ] {
            assert!(off(value, &case, key).abs() < 2e-4, "{name} {key}: {}", off(value, &case, key));
        }
        let product = p.i_yz_mm4 - number(&case, "i_yz");
        assert!(product.abs() < 2e-4 * p.i_1_mm4, "{name}: {product}");
        for (k, key) in ["centroid_y", "centroid_z"].into_iter().enumerate() {
            let distance = p.centroid_mm[k] - number(&case, key);
            assert!(distance.abs() < 1e-3, "{name} {key}: {distance}");
        }
        // Where the two second moments differ the principal axis is the same line.
        if p.i_1_mm4 > 1.001 * p.i_2_mm4 {
            let turn = (p.principal_angle.to_degrees() - number(&case, "principal_angle")).rem_euclid(180.0);
            assert!(turn.min(180.0 - turn) < 0.01, "{name}: {turn}°");
        }
    }
}

/// Required: 5 %. The refined constant meets 2 % throughout. That of thin-wall theory meets 5 % but for the
/// box of t/b = 1/8, beyond its range: it leaves out that the flow cuts the sharp corners (4.9 % there) and
/// the walls' own twisting (1.7 %).
#[test]
fn val_torsion_constant() {
    for (name, case) in cases() {
        let torsion = section(&case, 0.33).properties().torsion;
        let [thin, refined] =
            [torsion.constant_mm4, torsion.refined_mm4].map(|value| off(value, &case, "torsion_constant"));
        assert!(refined.abs() < 0.02, "{name} refined: {refined}");
        assert!(thin.abs() < 0.05 || name == "thick_box", "{name}: {thin}");
        assert!(
            refined.abs() < thin.abs() + 1e-12,
            "{name}: the refinement refines, {refined} against {thin}"
        );
    }
}

/// Required: 1 mm, here at each Poisson's ratio with the section's own.
#[test]
fn val_shear_centre() {
    for (name, case) in cases() {
        for shear in case["shear"].as_array().unwrap().iter().map(|s| s.as_table().unwrap()) {
            let section = section(&case, number(shear, "poissons_ratio"));
            for (k, key) in ["shear_centre_y", "shear_centre_z"].into_iter().enumerate() {
                let distance = section.properties().shear_centre_mm[k] - number(shear, key);
                assert!(distance.abs() < 1.0, "{name} {key}: {distance}");
            }
        }
    }
}

/// Lateral contraction moves the shear centre of the closed unsymmetric sections by more than 0.5 mm in the
/// reference; the flow's own dependence on Poisson's ratio is what is compared here.
#[test]
fn val_shear_centre_moves_with_poissons_ratio() {
    for (name, key) in [("two_cell", 0), ("hat_with_plate", 1), ("two_materials", 1)] {
        let case = cases().into_iter().find(|(n, _)| n == name).unwrap().1;
        let [rigid, contracting] = [0, 1].map(|k| {
            let shear = case["shear"][k].as_table().unwrap();
            let reference = number(shear, ["shear_centre_y", "shear_centre_z"][key]);
            let section = section(&case, number(shear, "poissons_ratio"));
            (section.properties().shear_centre_mm[key], reference)
        });
        let (found, expected) = (contracting.0 - rigid.0, contracting.1 - rigid.1);
        assert!(expected.abs() > 0.5, "{name}: {expected}");
        // Thin walls: the corners' share of the way around the cell is 2 to 4 %.
        assert!((found / expected - 1.0).abs() < 0.05, "{name}: {found} against {expected}");
    }
}

/// Shear areas by energy. Thin-wall theory: 3 % covers what the flow does where walls of unlike thickness or
/// three walls meet. Not for a plate across its thickness, where Poisson's ratio twists the solid.
#[test]
fn val_shear_areas() {
    for (name, case) in cases() {
        for shear in case["shear"].as_array().unwrap().iter().map(|s| s.as_table().unwrap()) {
            let ratio = number(shear, "poissons_ratio");
            let p: Properties = *section(&case, ratio).properties();
            let y = off(p.shear_area_y_mm2, shear, "shear_area_y");
            let z = off(p.shear_area_z_mm2, shear, "shear_area_z");
            assert!(y.abs() < 0.03, "{name} y at {ratio}: {y}");
            if name == "plate" && ratio > 0.0 {
                assert!(z > 0.4, "the limit of the theory is where the docs say: {z}");
            } else {
                assert!(z.abs() < 0.03, "{name} z at {ratio}: {z}");
            }
        }
    }
}

/// Warping of open sections. The slit box and the zed are thin (t/b = 0.03 to 0.05): 0.1 %; the thick channel
/// (0.1 to 0.2) has warping across its walls as well: 6 %. Closed sections barely warp; what little they do
/// depends on their corners.
#[test]
fn val_warping_constant_of_open_sections() {
    for (name, limit) in [("slit_box", 1e-3), ("zed", 1e-3), ("thick_channel", 0.06)] {
        let case = cases().into_iter().find(|(n, _)| n == name).unwrap().1;
        let warping = off(section(&case, 0.33).properties().warping_constant_mm6, &case, "warping_constant");
        assert!(warping.abs() < limit, "{name}: {warping}");
    }
}

/// Plastic moduli of the same solids, where one material makes them moduli; the reference locates its neutral line to about 1e-5 of the depth.
#[test]
fn val_plastic_moduli() {
    for (name, case) in cases() {
        if !case.contains_key("plastic_modulus_y") {
            continue;
        }
        let section = section(&case, 0.33);
        let plastic = section.plastic(&vec![1.0; section.walls().len()]).unwrap();
        let y = off(plastic.moment_y_nmm, &case, "plastic_modulus_y");
        let z = off(plastic.moment_z_nmm, &case, "plastic_modulus_z");
        assert!(y.abs() < 2e-4 && z.abs() < 2e-4, "{name}: {y} {z}");
    }
}
