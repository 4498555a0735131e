//! What `size` promises, held against what `check` says of its edits.

use std::sync::atomic::{AtomicU32, Ordering};

use assessment::Verdict;
use proptest::prelude::*;

use super::*;
use crate::tests::{RAIL, STRAP, Witness};

fn sized(text: &str, joint: &str, target: f64, bounds: Bounds) -> Sizing {
    let request = Request { joint, target, bounds };
    size("job.toml", text, &Witness, &request, &Watch::default()).expect("a sizing")
}

/// The least reserve of what a joint's sizes can lift, as `check` gives it; `None` where something cannot be told.
fn least(text: &str, joint: &str) -> Option<f64> {
    let job = job::read("job.toml", text, &Witness).expect("a job");
    let start = format!("join.{joint}.");
    let mut least = f64::INFINITY;
    for finding in assess(&job, &Ask::default()).findings {
        let Some(rest) = finding.id.strip_prefix(&start) else { continue };
        let what = rest.split('.').nth(1).unwrap_or("");
        let lifted = ["bond", "insert"].iter().any(|word| what.starts_with(word));
        if !lifted || finding.verdict == Verdict::Note {
            continue;
        }
        least = least.min(finding.reserve?);
    }
    least.is_finite().then_some(least)
}

/// A plate between two others, of the same sizes as [`lap`].
fn double_lap(lap: &str) -> String {
    lap.replace("\"lap\"", "\"double lap\"")
        .replace("upper    =", "inner    =")
        .replace("lower    =", "outer    =")
}

/// A lap of two plates, invented; every finding on its bond can be told.
fn lap(thickness_mm: f64, width_mm: f64, overlap_mm: f64, axial_kn: f64, factor: f64) -> String {
    format!(
        r#"fayline = 1
[job]
title   = "A lap, invented"
method  = "EN 1999-1-1"
service = {{ coldest = "-20 °C", hottest = "40 °C", humid = false }}
[factors]
adhesive = {factor}
[materials.sheet]
youngs_modulus = "70 GPa"
poissons_ratio = 0.33
proof_strength = "250 MPa"
[adhesives.epoxy]
youngs_modulus   = "1.9 GPa"
poissons_ratio   = 0.38
shear_strength   = "24 MPa"
tensile_strength = "30 MPa"
scatter          = 0.10
mode_1_toughness = "1.4 kJ/m²"
mode_2_toughness = "2.6 kJ/m²"
standoff_beads   = "0.25 mm"
by_bondline      = [{{ bondline = "0.25 mm", strength = 1.0, toughness = 1.0 }}, {{ bondline = "0.6 mm", strength = 0.9, toughness = 1.0 }}]
by_temperature   = [{{ at = "-20 °C", strength = 1.1, toughness = 0.7 }}, {{ at = "23 °C", strength = 1.0, toughness = 1.0 }}, {{ at = "55 °C", strength = 0.7, toughness = 1.1 }}]
# This remark stays where it is.
[joints.seam]
form     = "lap"
upper    = {{ material = "sheet", thickness = "{thickness_mm} mm", free_length = "60 mm" }}
lower    = {{ material = "sheet", thickness = "{thickness_mm} mm", free_length = "60 mm" }}
width    = "{width_mm} mm"
overlap  = "{overlap_mm} mm"   # a first guess
adhesive = "epoxy"
loads.pull = {{ kind = "limit", axial = "{axial_kn} kN" }}
"#
    )
}

proptest! {
    // Each case assesses some dozens of candidates, the way to failure among them.
    #![proptest_config(ProptestConfig { cases: 24, ..ProptestConfig::default() })]

    /// "`size` meets its target when its edits are applied and `check` is run (property test over many joints)".
    #[test]
    fn property_size_meets_its_target_when_its_edits_are_applied(
        thickness in 15_u32..50, width in 25_u32..80, overlap in 10_u32..80, load in 10_u32..150,
        target in 80_u32..200, factor in prop::sample::select(vec![1.0, 1.5, 2.0]), double: bool,
    ) {
        let text = lap(f64::from(thickness) / 10.0, f64::from(width), f64::from(overlap), f64::from(load) / 10.0, factor);
        let text = if double { double_lap(&text) } else { text };
        let target = f64::from(target) / 100.0;
        // One bondline: what this is about is the overlap.
        let bounds = Bounds { bondline_most_mm: Some(0.25), ..Bounds::default() };
        let sizing = sized(&text, "seam", target, bounds);
        let edited = job::edit(&text, &sizing.edits).expect("edits");
        prop_assert_eq!(&edited, &sizing.text);
        prop_assert!(edited.contains("# This remark stays where it is.") && edited.contains("# a first guess"));
        let found = least(&edited, "seam").expect("a reserve");
        prop_assert_eq!(sizing.reached, found >= target, "{} against {}", found, target);
        let chosen = sizing.chosen.candidate.overlap_mm;
        let shorter = [("joints.seam.overlap", format!("\"{} mm\"", chosen - 1.0))];
        let shorter: Vec<Edit> =
            shorter.map(|(key, value)| Edit { key: key.to_owned(), value }).to_vec();
        if sizing.reached && chosen - 1.0 >= (0.25 * f64::from(overlap)).ceil() {
            // No more than needed: a millimetre less does not do.
            let less = least(&job::edit(&edited, &shorter).expect("edits"), "seam").expect("a reserve");
            prop_assert!(less < target, "{} mm do, too: {}", chosen - 1.0, less);
        } else if !sizing.reached {
            // Nothing within the bounds does: the longest is tried, and falls short as well.
            let longest = [Edit { key: "joints.seam.overlap".to_owned(), value: format!("\"{} mm\"", 3 * overlap) }];
            let most = least(&job::edit(&edited, &longest).expect("edits"), "seam").expect("a reserve");
            prop_assert!(most < target, "{}", most);
        }
    }
}

/// "is not beaten by a brute-force grid by more than one grid step".
#[test]
fn unit_size_is_not_beaten_by_a_brute_force_grid() {
    const TARGET: f64 = 1.3;
    let text = lap(3.0, 40.0, 24.0, 5.0, 1.5).replace("overlap  =", "bondline = \"0.45 mm\"\noverlap  =");
    let bounds = Bounds {
        overlap_least_mm: Some(20.0),
        overlap_most_mm: Some(60.0),
        bondline_most_mm: Some(0.6),
        ..Bounds::default()
    };
    let sizing = sized(&text, "seam", TARGET, bounds);
    assert!(sizing.reached);
    // Steps of 1 mm of overlap and 0.05 mm of bondline.
    let mut least_mm = f64::INFINITY;
    for overlap in 20..=60 {
        for step in 0..=7 {
            let bondline = f64::from(25 + 5 * step) / 100.0;
            let edits = [("joints.seam.overlap", f64::from(overlap)), ("joints.seam.bondline", bondline)];
            let edits = edits.map(|(key, mm)| Edit { key: key.to_owned(), value: format!("\"{mm} mm\"") });
            let reserve = least(&job::edit(&text, &edits).expect("edits"), "seam").expect("a reserve");
            if reserve >= TARGET {
                least_mm = least_mm.min(f64::from(overlap));
            }
        }
    }
    assert!(least_mm.is_finite());
    assert!(
        sizing.chosen.candidate.overlap_mm <= least_mm + 1.0,
        "{} against {least_mm}",
        sizing.chosen.candidate.overlap_mm
    );
}

/// The same on the demo's sleeve, over overlaps and rows: steps of 10 mm, rows evenly between the first and the last.
#[test]
fn unit_size_of_a_sleeve_is_not_beaten_by_a_grid_of_overlaps_and_rows() {
    const TARGET: f64 = 0.8;
    const STEP: u32 = 10;
    // A wall of the insert as planned: the grid has no other.
    let bounds = Bounds { wall_most_mm: Some(3.0), ..Bounds::default() };
    let sizing = sized(RAIL, "rail", TARGET, bounds);
    assert!(sizing.reached);
    let mut least_mm = u32::MAX;
    for overlap in (80..=120).step_by(STEP as usize) {
        for rows in 1..=3_u32 {
            // 30 mm from either end, as in the demo.
            let between = f64::from(overlap - 60) / f64::from((rows - 1).max(1));
            let at = (0..rows).map(|row| format!("\"{} mm\"", 30.0 + f64::from(row) * between));
            let edits = [
                ("joints.rail.overlap", format!("\"{overlap} mm\"")),
                ("joints.rail.rivets.rows", format!("[{}]", at.collect::<Vec<_>>().join(", "))),
            ];
            let edits = edits.map(|(key, value)| Edit { key: key.to_owned(), value });
            let text = job::edit(RAIL, &edits).expect("edits");
            if least(&text, "rail").is_some_and(|least| least >= TARGET) {
                least_mm = least_mm.min(overlap);
            }
        }
    }
    assert!(least_mm < u32::MAX);
    let chosen = sizing.chosen.candidate.overlap_mm;
    assert!(chosen <= f64::from(least_mm + STEP), "{chosen} against {least_mm}");
}

/// In the demo two ribs end the search: the hot bond stays short of the target, two rows lift the rivets to it, and
/// the member and the glass transition are named as what no size lifts.
#[test]
fn unit_size_says_what_keeps_the_demo_short_of_its_target() {
    let sizing = sized(RAIL, "rail", 1.2, Bounds::default());
    assert!(!sizing.reached);
    // The rib at 180 mm, the cut at 310 mm with a gap of 2 mm.
    assert!(variables::same(sizing.chosen.candidate.overlap_mm, 310.0 - 180.0 - 1.0));
    assert!(sizing.range.contains("rib front"), "{}", sizing.range);
    let governs = sizing.chosen.least.clone().expect("a reserve");
    assert_eq!(governs.id, "join.rail.recovery.bond_hot");
    assert_eq!(sizing.chosen.candidate.rows_mm.len(), 2);
    let limits: Vec<&str> = sizing.limits.iter().map(|finding| finding.id.as_str()).collect();
    assert_eq!(limits, ["join.rail.glass_transition", "join.rail.recovery.member"]);
    let found = least(&sizing.text, "rail").expect("a reserve");
    assert!((found - governs.reserve).abs() < 1e-9, "{found} against {}", governs.reserve);
}

/// A target that the sleeve can have: overlap and rows grow, and the insert becomes as thin as the target allows.
#[test]
fn unit_size_of_a_sleeve_reaches_what_can_be_reached() {
    let sizing = sized(RAIL, "rail", 0.85, Bounds::default());
    assert!(sizing.reached);
    assert!(least(&sizing.text, "rail").expect("a reserve") >= 0.85);
    let Candidate { overlap_mm, wall_mm, .. } = sizing.chosen.candidate;
    for (overlap, wall) in [(overlap_mm - 1.0, wall_mm), (overlap_mm, wall_mm.map(|wall| wall - 0.5))] {
        let wall = wall.expect("a wall");
        let edits = [
            ("joints.rail.overlap", overlap),
            ("sections.insert.box.wall", wall),
            ("sections.insert.box.inner_radius", 7.5 - wall),
        ];
        let edits = edits.map(|(key, mm)| Edit { key: key.to_owned(), value: format!("\"{mm} mm\"") });
        let rows = [Edit {
            key: "joints.rail.rivets.rows".to_owned(),
            value: format!("[\"30 mm\", \"{} mm\"]", overlap - 30.0),
        }];
        let text = job::edit(&sizing.text, &[&edits[..], &rows[..]].concat()).expect("edits");
        assert!(least(&text, "rail").expect("a reserve") < 0.85, "{overlap} mm, wall {wall} mm");
    }
}

#[test]
fn unit_size_refuses_what_it_cannot_size() {
    let refused = |text: &str, joint: &str, bounds: Bounds| {
        let request = Request { joint, target: 1.2, bounds };
        match size("job.toml", text, &Witness, &request, &Watch::default()) {
            Err(Refusal::Cannot(why)) => why,
            other => panic!("{other:?}"),
        }
    };
    assert!(refused(STRAP, "none", Bounds::default()).contains("it has: strap"));
    assert!(refused(crate::tests::STUD, "stud", Bounds::default()).contains("no overlap"));
    assert!(refused(crate::tests::COUPON, "coupon", Bounds::default()).contains("nothing is required"));
    let crossed = Bounds { overlap_least_mm: Some(50.0), overlap_most_mm: Some(40.0), ..Bounds::default() };
    assert!(refused(STRAP, "strap", crossed).contains("no overlap is left"));
    let request = Request { joint: "strap", target: 1.2, bounds: Bounds::default() };
    assert!(matches!(
        size("job.toml", "fayline = 1\n[job", &Witness, &request, &Watch::default()),
        Err(Refusal::Problems(_))
    ));
}

/// Reads the demo's data, and stops the work at one of the readings.
struct Stopping<'a> {
    watch: &'a Watch,
    left: AtomicU32,
}

impl Files for Stopping<'_> {
    fn read(&self, name: &str) -> Result<Vec<u8>, String> {
        if self.left.fetch_sub(1, Ordering::Relaxed) == 1 {
            self.watch.stop();
        }
        Witness.read(name)
    }
}

/// "stopped sizing prints the best so far and says that it was stopped": whenever it is stopped, what it chose is what
/// `check` says of its edits, no more candidates are tried, and a longer search never ends with less.
#[test]
fn law_stopped_it_chooses_the_best_so_far() {
    let request = Request { joint: "rail", target: 1.2, bounds: Bounds::default() };
    let mut best = 0.0;
    for after in [2, 6, 14] {
        let watch = Watch::default();
        let files = Stopping { watch: &watch, left: AtomicU32::new(after) };
        let sizing = size("job.toml", RAIL, &files, &request, &watch).expect("a sizing");
        assert!(sizing.stopped && watch.is_stopped());
        assert!(sizing.by_overlap.is_empty() && sizing.by_rows.is_empty());
        assert!(sizing.tried <= after as usize + 2, "{} after {after}", sizing.tried);
        assert!(sizing.chosen.reserve() >= best, "{after}");
        assert!(sizing.chosen.reserve() >= sizing.planned.reserve() || !sizing.planned.broken.is_empty());
        best = sizing.chosen.reserve();
        if sizing.chosen.unknown.is_empty() {
            let least = least(&sizing.text, "rail").expect("all is told");
            assert!(least >= sizing.chosen.reserve() - 1e-9, "{least} {:?}", sizing.chosen);
        }
    }
    let watch = Watch::default();
    let whole = size("job.toml", STRAP, &Witness, &Request { joint: "strap", ..request }, &watch);
    assert!(!whole.expect("a sizing").stopped);
    assert!((watch.progress().expect("it told of it").share - 1.0).abs() < 0.5);
}
