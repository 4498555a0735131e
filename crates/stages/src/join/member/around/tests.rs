use std::collections::BTreeMap;

use job::Job;
use job::tables::{Joint, Sleeve};
use mechanics::strip;
use proptest::prelude::*;

use super::super::super::adhesive::Data;
use super::super::super::subject::Subject;
use super::*;

const RAIL: &str = include_str!("../../../../../../examples/longitudinal.toml");

/// No file beside the job.
struct Alone;

impl job::Files for Alone {
    fn read(&self, _: &str) -> Result<Vec<u8>, String> {
        Err("there is no such file".to_owned())
    }
}

fn rail() -> (Job, Geometry) {
    read(RAIL)
}

fn read(text: &str) -> (Job, Geometry) {
    let without_coupons = text.split("[coupons").next().unwrap_or_default();
    let job = job::read("rail.toml", without_coupons, &Alone).expect("the job is well-formed");
    let geometry = Geometry::of_sleeve(sleeve(&job), &job.tables).expect("all sizes are given");
    (job, geometry)
}

fn sleeve(job: &Job) -> &Sleeve {
    match job.tables.joints.get("rail") {
        Some(Joint::Sleeve(sleeve)) => sleeve,
        _ => panic!("no sleeve"),
    }
}

/// Area under a curve of straight lines, between two places.
fn area(curve: &[(f64, f64)], from: f64, to: f64) -> f64 {
    let inside = curve.windows(2).filter(|ends| ends[0].0 >= from && ends[1].0 <= to);
    inside.map(|ends| (ends[1].0 - ends[0].0) * f64::midpoint(ends[0].1, ends[1].1)).sum()
}

proptest! {
    /// "Around the perimeter": the curves end where they began, and what they carry is what acts at the middle of the
    /// overlap.
    #[test]
    fn law_the_perimeter_closes_and_carries_its_load(
        forces in proptest::array::uniform3(-2e4..2e4_f64),
        moments in proptest::array::uniform3(-3e6..3e6_f64),
    ) {
        let (_, geometry) = rail();
        let at_cut = Resultants {
            axial_n: forces[0],
            shear_y_n: forces[1],
            shear_z_n: forces[2],
            torque_nmm: moments[0],
            moment_y_nmm: moments[1],
            moment_z_nmm: moments[2],
        };
        let sides = sides(&geometry, &at_cut).expect("four flats carry everything");
        let [width, height] = geometry.faying_mm();
        // The faces as they follow: bottom, left, top, right; the way runs along +y, +z, −y, −z.
        let ends = [0.0, width, width + height, 2.0 * width + height, 2.0 * (width + height)];
        for side in &sides {
            let axial = once_around(&geometry, &|at| Some(side.line(at.flat, at.along)?.axial_n_mm));
            let flow = once_around(&geometry, &|at| Some(side.line(at.flat, at.along)?.flow_n_mm * at.runs));
            for curve in [&axial, &flow] {
                prop_assert_eq!(curve.first().map(|it| it.1), curve.last().map(|it| it.1));
                prop_assert!((curve[curve.len() - 1].0 - ends[4]).abs() < 1e-9);
                prop_assert!(curve.windows(2).all(|it| it[0].0 <= it[1].0));
            }
            let of = |face: usize| area(&flow, ends[face], ends[face + 1]);
            // Rounding, beside line loads some hundred times the resultants that they balance.
            let slack = 1e-6 * (1.0 + forces.iter().chain(&moments).fold(0.0_f64, |most, it| most.max(it.abs())));
            prop_assert!((area(&axial, 0.0, ends[4]) - at_cut.axial_n).abs() < slack);
            prop_assert!((of(0) - of(2) - at_cut.shear_y_n).abs() < slack);
            prop_assert!((of(1) - of(3) - at_cut.shear_z_n).abs() < slack);
            let torque = (of(0) + of(2)) * height / 2.0 + (of(1) + of(3)) * width / 2.0;
            prop_assert!((torque - at_cut.torque_nmm).abs() < slack * height);
        }
    }
}

/// Between the strips that are solved, what is read stays close to a strip of its own.
#[test]
fn cross_what_is_read_follows_strips_of_its_own() {
    follows_strips_of_its_own(RAIL, 0.0);
}

/// "Thermal mismatch superposed in the strip": what is read is then what a strip under load and temperature has.
#[test]
fn cross_what_is_read_of_strained_walls_follows_strips_of_its_own() {
    let strained = RAIL.replace("humid = false", "humid = false, stress_free = \"63 °C\"");
    follows_strips_of_its_own(&strained, -40.0);
}

fn follows_strips_of_its_own(text: &str, change_k: f64) {
    let (job, geometry) = read(text);
    let sleeve = sleeve(&job);
    let subject = Subject {
        name: "rail",
        tables: &job.tables,
        adhesive: &sleeve.adhesive,
        ends: None,
        bondline_mm: Ok(geometry.governing_bondline_mm()),
        overlap: Some(&sleeve.overlap),
        surface: &sleeve.surface,
        loads_key: "cases".to_owned(),
        place: &sleeve.place,
    };
    let known = Ok(geometry.clone());
    let form = Form { subject: &subject, geometry: &known, rivets: &sleeve.rivets, cut_tolerance_mm: None };
    let Ok(Data::Given(values)) = subject.data() else { panic!("no values") };
    let ask = Ask::default();
    let at_cut =
        Resultants { axial_n: 16.6e3, moment_y_nmm: -1.49e6, moment_z_nmm: 1.51e6, ..Resultants::default() };
    let sides = sides(&geometry, &at_cut).expect("four flats carry everything");
    let strips = Strips::of(&form, &geometry, &sides, &values, &ask).expect("strips");
    let mut worst: BTreeMap<&str, f64> = BTreeMap::new();
    for flat in 0..geometry.flats.len() {
        for along in [0.0, 0.25, 0.5, 0.75, 1.0] {
            let line = sides[0].line(flat, along).expect("a stretch");
            let own: strip::Answer =
                solved(&form, &geometry, line, &values, &ask, false, change_k).expect("a strip");
            let most = own.peel_mpa.iter().chain(&own.shear_mpa).fold(0.0_f64, |most, it| most.max(it.abs()));
            let pairs = [
                ("peel", strips.peel_free_mpa(flat, &line), own.peel_mpa.clone()),
                (
                    "shear",
                    strips.shear_free_mpa(flat, &line),
                    own.shear_mpa.iter().zip(&own.antiplane_shear_mpa).map(|(a, b)| a.hypot(*b)).collect(),
                ),
            ];
            for (what, ours, theirs) in pairs {
                let off = ours.iter().zip(&theirs).map(|(a, b)| (a - b).abs() / most).fold(0.0, f64::max);
                let known = worst.entry(what).or_insert(0.0);
                *known = known.max(off);
            }
        }
    }
    // A step of the smear is an eighth of the greatest value: a hundredth of the local one is far below it. What is
    // printed stands at the least and the greatest load, where a strip is solved.
    assert!(worst.values().all(|off| *off < 1e-2), "{worst:?}");
}
