//! Spectra, lasting loads and what they come to.

use assessment::{Lack, Verdict};

use super::{COUPON, RAIL, STRAP, assessed, close, edited, finding, number};
use crate::{Ask, assess};

const LINE: &str = "{ strength = \"6 MPa\", at_cycles = 1e6, slope = 8 }";
const AT_HOLES: &str = "{ strength = \"60 MPa\", at_cycles = 1e6, slope = 5 }";
const OF_RIVET: &str = "{ strength = \"1.2 kN\", at_cycles = 1e6, slope = 6 }";
const BLOCKS: &str =
    "{ blocks = [{ share = 0.3, cycles = 2e4 }, { share = 0.15, least = -0.05, cycles = 1e6 }] }";

/// The main demo with tests of everything and a spectrum on its coupling.
fn whole() -> String {
    edited(
        RAIL,
        &[
            ("adhesives.epoxy.fatigue", LINE),
            ("materials.casting.fatigue_at_holes", AT_HOLES),
            ("materials.sheet.fatigue_at_holes", AT_HOLES),
            ("rivets.structural.fatigue", OF_RIVET),
            ("cases.recovery.spectrum", BLOCKS),
        ],
    )
}

#[test]
fn unit_without_a_spectrum_nothing_is_said_of_fatigue() {
    let rail = assessed(RAIL);
    let of_fatigue = |id: &str| id.contains("fatigue") || id.contains("sustained");
    assert!(rail.findings.iter().all(|finding| !of_fatigue(&finding.id)));
}

/// "Basquin and Palmgren-Miner for bond, rivets and the casting's holes": the bond by hand.
#[test]
fn unit_bond_under_blocks_by_hand() {
    let text =
        edited(&whole(), &[("cases.recovery.spectrum", "{ blocks = [{ share = 0.3, cycles = 2e4 }] }")]);
    let rail = assessed(&text);
    let shear = number(&rail, "join.rail.recovery.line_load") / 100.0;
    // The line holds at the beads, the bond of 0.5 mm has 0.95 + 0.05 × (0.1/0.35) of it; R = 0 is that of the tests.
    let at_bond = 6.0 * (0.95 + 0.05 * 0.1 / 0.35);
    let damage = 2e4 / 1e6 * libm::pow(0.3 * shear / at_bond, 8.0);
    close(number(&rail, "join.rail.recovery.bond_damage"), damage, 1e-9);
    assert_eq!(finding(&rail, "join.rail.recovery.bond_fatigue").verdict, Verdict::Met);
}

/// Weaker tests, by just so much that a tenth too much of the life is used.
#[test]
fn unit_every_part_is_judged_and_weaker_tests_end_its_life() {
    let rail = assessed(&whole());
    for (id, keys, strength, unit, slope) in [
        ("bond", vec!["adhesives.epoxy.fatigue"], 6.0, "MPa", 8.0),
        ("rivet", vec!["rivets.structural.fatigue"], 1.2, "kN", 6.0),
        (
            "hole",
            vec!["materials.casting.fatigue_at_holes", "materials.sheet.fatigue_at_holes"],
            60.0,
            "MPa",
            5.0,
        ),
    ] {
        let name = format!("join.rail.recovery.{id}_damage");
        let finding_id = format!("join.rail.recovery.{id}_fatigue");
        let once = number(&rail, &name);
        assert!(once > 0.0 && once < 1.0, "{name} {once}");
        assert_eq!(finding(&rail, &finding_id).verdict, Verdict::Met);
        let weaker = strength * libm::pow(once / 1.1, 1.0 / slope);
        let line = format!("{{ strength = \"{weaker} {unit}\", at_cycles = 1e6, slope = {slope} }}");
        let edits: Vec<(&str, &str)> = keys.into_iter().map(|key| (key, line.as_str())).collect();
        let weak = assessed(&edited(&whole(), &edits));
        // The strength is written with all its digits; the power has a few roundings.
        close(number(&weak, &name), 1.1, 1e-9);
        assert_eq!(finding(&weak, &finding_id).verdict, Verdict::NotMet);
        assert!(finding(&weak, &finding_id).next.is_some());
    }
}

/// "Miner sum against 1 over a factor".
#[test]
fn unit_a_factor_divides_what_is_allowed() {
    let once = number(&assessed(&whole()), "join.rail.recovery.hole_damage");
    for (factor, verdict) in [(0.5, Verdict::Met), (2.0, Verdict::NotMet)] {
        let line = format!(
            "{{ strength = \"{} MPa\", at_cycles = 1e6, slope = 5 }}",
            60.0 * libm::pow(3.0 * once, 0.2)
        );
        let edits = [
            ("materials.casting.fatigue_at_holes", line.as_str()),
            ("materials.sheet.fatigue_at_holes", line.as_str()),
            ("factors.damage", &format!("{:?}", 3.0 * factor)),
        ];
        let rail = assessed(&edited(&whole(), &edits));
        close(number(&rail, "join.rail.recovery.hole_damage"), 1.0 / 3.0, 1e-9);
        assert_eq!(finding(&rail, "join.rail.recovery.hole_fatigue").verdict, verdict);
    }
}

#[test]
fn unit_missing_tests_are_unknown_and_named() {
    let rail = assessed(&edited(RAIL, &[("cases.recovery.spectrum", BLOCKS)]));
    for (id, keys) in [
        ("bond", vec!["adhesives.epoxy.fatigue"]),
        ("rivet", vec!["rivets.structural.fatigue"]),
        ("hole", vec!["materials.casting.fatigue_at_holes", "materials.sheet.fatigue_at_holes"]),
    ] {
        let found = finding(&rail, &format!("join.rail.recovery.{id}_fatigue"));
        assert_eq!(found.verdict, Verdict::Unknown);
        let keys = keys.into_iter().map(str::to_owned).collect();
        assert_eq!(found.lack, Some(Lack::Missing { keys }), "{id}");
    }
}

/// "spectrum in the job file or a load log": a log of equal swings is the block of them.
#[test]
fn unit_log_counts_as_the_blocks_that_it_shows() {
    struct Log;
    impl job::Files for Log {
        fn read(&self, name: &str) -> Result<Vec<u8>, String> {
            let swings = "time_s,share\n0,0\n1,0.3\n2,0\n3,0.3\n4,0.1\n5,0.2\n";
            match name {
                "loads.csv" => Ok(swings.as_bytes().to_vec()),
                other => super::Witness.read(other),
            }
        }
    }
    let by = |spectrum: &str| {
        let text = edited(&whole(), &[("cases.recovery.spectrum", spectrum)]);
        let job = job::read("job.toml", &text, &Log).unwrap_or_else(|problems| panic!("{problems:?}"));
        let found = assess(&job, &Ask { to_failure: false, ..Ask::default() });
        number(&found, "join.rail.recovery.bond_damage")
    };
    // By hand, begun at 0.3: 0.3 – 0 twice, and within the second way down 0.1 – 0.2.
    let log = by("{ log = \"loads.csv\", repeats = 5e3 }");
    let blocks =
        by("{ blocks = [{ share = 0.3, cycles = 1e4 }, { share = 0.2, least = 0.1, cycles = 5e3 }] }");
    close(log, blocks, 1e-12);
}

#[test]
fn unit_a_cycle_that_breaks_the_bond_at_once_is_unknown_and_no_failed_solver() {
    let text =
        edited(&whole(), &[("cases.recovery.spectrum", "{ blocks = [{ share = 9.0, cycles = 10 }] }")]);
    let rail = assessed(&text);
    let found = finding(&rail, "join.rail.recovery.bond_fatigue");
    assert!(matches!(found.lack, Some(Lack::OutOfData { .. })), "{:?}", found.lack);
    assert!(found.because.contains("static strength"), "{}", found.because);
    assert!(!rail.failed());
}

#[test]
fn unit_log_without_repeats_is_unknown() {
    struct Log;
    impl job::Files for Log {
        fn read(&self, _: &str) -> Result<Vec<u8>, String> {
            Ok(b"share\n0\n1\n".to_vec())
        }
    }
    let text = edited(
        COUPON,
        &[
            ("joints.coupon.loads.pull.spectrum", "{ log = \"loads.csv\" }"),
            ("adhesives.epoxy.fatigue", LINE),
        ],
    );
    let job = job::read("job.toml", &text, &Log).unwrap_or_else(|problems| panic!("{problems:?}"));
    let coupon = assess(&job, &Ask { to_failure: false, ..Ask::default() });
    let found = finding(&coupon, "join.coupon.pull.bond_fatigue");
    let keys = vec!["joints.coupon.loads.pull.spectrum.repeats".to_owned()];
    assert_eq!(found.lack, Some(Lack::Missing { keys }));
}

/// "sustained-load limit".
#[test]
fn unit_lasting_load_is_held_against_the_lasting_share_of_the_strength() {
    let joint = assessed(STRAP);
    let case = joint.findings.iter().find_map(|it| it.case.clone()).expect("a case");
    let name =
        joint.findings.iter().find(|it| it.case.is_some()).map(|it| it.about.clone()).expect("a joint");
    let key = format!("joints.{name}.loads.{case}.lasting");
    let id = format!("join.{name}.{case}.sustained");
    let adhesive = STRAP.lines().find_map(|line| line.strip_prefix("[adhesives.")).expect("an adhesive");
    let adhesive = adhesive.trim_end_matches(|c: char| c != ']').trim_end_matches(']');
    let share_key = format!("adhesives.{adhesive}.sustained_share");
    let asked = assessed(&edited(STRAP, &[(&key, "0.2")]));
    assert_eq!(finding(&asked, &id).lack, Some(Lack::Missing { keys: vec![share_key.clone()] }));
    let told = assessed(&edited(STRAP, &[(&key, "0.2"), (&share_key, "0.25")]));
    let reserve = number(&told, &format!("join.{name}.{case}.sustained_reserve"));
    close(reserve, number(&told, &format!("join.{name}.{case}.reserve")) * 0.25 / 0.2, 1e-12);
    let found = finding(&told, &id);
    assert_eq!(found.verdict, Verdict::of_reserve(reserve));
}
