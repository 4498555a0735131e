//! The bond day through whole jobs.

use assessment::{Assessment, Finding, Lack, Verdict};
use job::Edit;
use proptest::prelude::*;

use crate::{Ask, assess};

const RAIL: &str = include_str!("../../../../examples/longitudinal.toml");

/// A job of one joint, so that only its bond day takes time.
const SMALL: &str = r#"
fayline = 1
[job]
title = "invented"
[adhesives.epoxy]
standoff_beads = "0.25 mm"
least_cure_temperature = "5 °C"
glass_transition = [{ cured_at = "10 °C", value = "50 °C" }, { cured_at = "23 °C", value = "62 °C" }, { cured_at = "60 °C", value = "90 °C" }]
working_time = [{ at = "23 °C", time = "90 min" }]
cure = [
  { at = "23 °C", time = "8 h", strength = 0.3 },
  { at = "23 °C", time = "24 h", strength = 0.8 },
  { at = "23 °C", time = "7 d", strength = 1.0 },
  { at = "60 °C", time = "16 h", strength = 1.0 },
]
[joints.lap]
form = "lap"
adhesive = "epoxy"
[bond_day]
handling = 0.3
driving = 0.8
moved_by = "15 h"
driven_by = "24 h"
"#;

/// The coupons of the demo, and a temperature log.
struct Data<'t> {
    log: &'t str,
}

impl job::Files for Data<'_> {
    fn read(&self, name: &str) -> Result<Vec<u8>, String> {
        let text =
            if name == "log.csv" { self.log } else { include_str!("../../../../examples/witness.csv") };
        Ok(text.as_bytes().to_vec())
    }
}

fn logged(text: &str, log: &str) -> Assessment {
    let job = job::read("job.toml", text, &Data { log }).expect("the job is well-formed");
    assess(&job, &Ask { to_failure: false, ..Ask::default() })
}

fn assessed(text: &str) -> Assessment {
    logged(text, "")
}

fn edited(text: &str, edits: &[(&str, &str)]) -> String {
    let edits: Vec<Edit> = edits
        .iter()
        .map(|(key, value)| Edit { key: (*key).to_owned(), value: (*value).to_owned() })
        .collect();
    job::edit(text, &edits).expect("the edits are well-formed")
}

fn finding<'a>(assessment: &'a Assessment, id: &str) -> &'a Finding {
    let found = assessment.findings.iter().find(|finding| finding.id == id);
    found.unwrap_or_else(|| panic!("no finding {id}"))
}

fn verdict(assessment: &Assessment, id: &str) -> Verdict {
    finding(assessment, id).verdict
}

fn number(assessment: &Assessment, name: &str) -> f64 {
    match assessment.quantities.get(name) {
        Some(Ok(measure)) => measure.value,
        other => panic!("{name}: {other:?}"),
    }
}

/// A log with a row for each pair of hours and °C.
fn csv(readings: &[(f64, f64)]) -> String {
    let rows: Vec<String> = readings.iter().map(|(hours, c)| format!("{},{c}\n", hours * 3600.0)).collect();
    format!("time_s,temperature\n{}", rows.concat())
}

/// "the demo's lesson (16 °C closes in time, is not drivable next morning, warming first breaks the window,
/// close cold then heat does it) found by the tool"
#[test]
fn unit_demo_teaches_to_close_cold_and_heat_then() {
    let rail = assessed(RAIL);
    assert_eq!(verdict(&rail, "bond_day.rail.closing"), Verdict::Met);
    assert_eq!(verdict(&rail, "bond_day.rail.driving"), Verdict::NotMet);

    // Warming first: 23 °C is drivable by the 24 h of the cure table, but no degree less, and leaves 90 min.
    let warm = assessed(&edited(RAIL, &[("bond_day.temperature", "\"23 °C\"")]));
    assert_eq!(verdict(&warm, "bond_day.rail.driving"), Verdict::Met);
    assert_eq!(verdict(&warm, "bond_day.rail.closing"), Verdict::NotMet);
    let next = finding(&rail, "bond_day.rail.driving").next.clone().expect("a next step");
    assert!(next.text.contains("23 °C") && next.text.contains("90 min"), "{}", next.text);

    // Close cold, then heat: the tool's own edits do it, and break nothing.
    assert!(next.text.starts_with("Close cold, then heat"), "{}", next.text);
    let text = job::edit(RAIL, &next.edits).expect("its edits are well-formed");
    let heated = assessed(&text);
    for id in ["bond_day.rail.driving", "bond_day.rail.closing", "bond_day.rail.handling"] {
        assert_eq!(verdict(&heated, id), Verdict::Met, "{id}");
    }
    // The heat comes after the 100 min that closing takes, though within the working time of the cold shop.
    assert!(number(&heated, "bond_day.rail.working_time") > 120.0 * 60.0);

    // No milder: half an hour less does not do, and none of less than 40 °C is tried.
    assert_eq!(
        next.edits.first().map(|edit| (edit.key.as_str(), edit.value.as_str())),
        Some((
            "bond_day.heating",
            "[{ from = \"2 h\", until = \"6.5 h\", temperature = \"40 °C\", ramp = \"1 h\" }]"
        ))
    );
    let shorter = assessed(&text.replace("until = \"6.5 h\"", "until = \"6 h\""));
    assert_eq!(verdict(&shorter, "bond_day.rail.driving"), Verdict::NotMet);
}

/// By hand, with the Arrhenius law of the cure table: 7 d at 23 °C and 16 h at 60 °C.
#[test]
fn unit_heated_clock_by_hand() {
    let stage = "[{ from = \"2 h\", until = \"6.5 h\", temperature = \"40 °C\", ramp = \"0 h\" }]";
    let day = edited(SMALL, &[("bond_day.temperature", "\"16 °C\""), ("bond_day.heating", stage)]);
    let found = number(&assessed(&day), "bond_day.lap.driving_at") / 3600.0;
    let slope = libm::log(168.0 / 16.0) / (1.0 / 296.15 - 1.0 / 333.15);
    let rate = |kelvin: f64| libm::exp(slope * (1.0 / 296.15 - 1.0 / kelvin));
    let by_hand = 6.5 + (24.0 - 2.0 * rate(289.15) - 4.5 * rate(313.15)) / rate(289.15);
    // A step of temperature takes a second.
    assert!((found - by_hand).abs() < 0.005, "{found} {by_hand}");
}

#[test]
fn unit_warming_first_is_named_where_it_leaves_time_to_close() {
    let text =
        edited(SMALL, &[("bond_day.temperature", "\"16 °C\""), ("bond_day.closing_takes", "\"60 min\"")]);
    let next = finding(&assessed(&text), "bond_day.lap.driving").next.clone().expect("a next step");
    let after = assessed(&job::edit(&text, &next.edits).expect("its edits are well-formed"));
    for id in ["bond_day.lap.driving", "bond_day.lap.closing"] {
        assert_eq!(verdict(&after, id), Verdict::Met, "{id}");
    }
}

#[test]
fn unit_no_plan_is_said_where_there_is_none() {
    // Closing alone takes longer than the day has.
    let text = edited(SMALL, &[("bond_day.temperature", "\"16 °C\""), ("bond_day.driven_by", "\"3 h\"")]);
    let day = assessed(&text);
    let next = finding(&day, "bond_day.lap.driving").next.clone().expect("a next step");
    assert!(next.edits.is_empty() && next.text.contains("longer"), "{}", next.text);
    // A closing that does not fit comes first, and has a next step of its own that makes it fit.
    let text =
        edited(SMALL, &[("bond_day.temperature", "\"16 °C\""), ("bond_day.closing_takes", "\"200 min\"")]);
    let day = assessed(&text);
    assert_eq!(verdict(&day, "bond_day.lap.closing"), Verdict::NotMet);
    let next = finding(&day, "bond_day.lap.driving").next.clone().expect("a next step");
    assert!(next.edits.is_empty() && next.text.contains("closing fit"), "{}", next.text);
    let next = finding(&day, "bond_day.lap.closing").next.clone().expect("a next step");
    let after = assessed(&job::edit(&text, &next.edits).expect("its edits are well-formed"));
    assert_eq!(verdict(&after, "bond_day.lap.closing"), Verdict::Met);
}

#[test]
fn unit_heat_before_closing_breaks_the_working_time() {
    let stage = "[{ from = \"0 h\", until = \"8 h\", temperature = \"60 °C\", ramp = \"1 h\" }]";
    let text = edited(RAIL, &[("bond_day.heating", stage)]);
    let rail = assessed(&text);
    assert_eq!(verdict(&rail, "bond_day.rail.closing"), Verdict::NotMet);
    let next = finding(&rail, "bond_day.rail.closing").next.clone().expect("a next step");
    assert!(next.text.contains("Heat after the last closing"), "{}", next.text);
}

#[test]
fn unit_dew_on_cold_metal() {
    let rail = assessed(RAIL);
    let dew = finding(&rail, "bond_day.dew_point");
    assert_eq!(dew.verdict, Verdict::NotMet);
    // 16 °C and 60 %: 8.2 °C, by the same tables that check the formula.
    assert!(dew.limit.is_some_and(|limit| (limit.value - 11.2).abs() < 0.1), "{dew:?}");
    let next = dew.next.clone().expect("a next step");
    let warmed = job::edit(RAIL, &next.edits).expect("its edits are well-formed");
    assert_eq!(verdict(&assessed(&warmed), "bond_day.dew_point"), Verdict::Met);
    // Without parts of their own the parts have the temperature of the day; without air it is not known.
    let air = "{ temperature = \"16 °C\", humidity = 0.6 }";
    let text = edited(SMALL, &[("bond_day.temperature", "\"16 °C\""), ("bond_day.air", air)]);
    assert_eq!(verdict(&assessed(&text), "bond_day.dew_point"), Verdict::Met);
    let text = edited(SMALL, &[("bond_day.temperature", "\"16 °C\""), ("bond_day.parts", "\"4 °C\"")]);
    let day = assessed(&text);
    let missing = Lack::Missing { keys: vec!["bond_day.air".to_owned()] };
    assert_eq!(finding(&day, "bond_day.dew_point").lack, Some(missing));
    // Air so wet that the shop itself cannot warm the part enough.
    let air = "{ temperature = \"16 °C\", humidity = 0.95 }";
    let day = assessed(&edited(RAIL, &[("bond_day.air", air)]));
    let next = finding(&day, "bond_day.dew_point").next.clone().expect("a next step");
    assert!(next.text.starts_with("Dry the air") && next.edits.is_empty());
}

#[test]
fn unit_batch_and_expiry() {
    assert_eq!(verdict(&assessed(RAIL), "bond_day.rail.batch"), Verdict::Met);
    let last_day = edited(RAIL, &[("bond_day.date", "2032-02-29")]);
    assert_eq!(verdict(&assessed(&last_day), "bond_day.rail.batch"), Verdict::Met);
    let late = edited(RAIL, &[("bond_day.date", "2032-03-01")]);
    assert_eq!(verdict(&assessed(&late), "bond_day.rail.batch"), Verdict::NotMet);
    let day = edited(SMALL, &[("bond_day.temperature", "\"16 °C\"")]);
    assert!(assessed(&day).findings.iter().all(|finding| finding.id != "bond_day.lap.batch"));
    let half = edited(&day, &[("adhesives.epoxy.expires", "2032-02-29")]);
    let missing =
        Lack::Missing { keys: vec!["adhesives.epoxy.batch".to_owned(), "bond_day.date".to_owned()] };
    assert_eq!(finding(&assessed(&half), "bond_day.lap.batch").lack, Some(missing));
}

const KINETICS: &str = r#"
[adhesives.epoxy.kinetics]
model = "Kamal-Sourour"
rate_1 = "1e4 /s"
activation_1 = "55 kJ/mol"
rate_2 = "1e5 /s"
activation_2 = "52 kJ/mol"
m = 0.8
n = 1.6
"#;

/// The adhesive "amine" of validation/reference/cure.toml, held at 23 °C for 24 h, without and with stall.
#[test]
fn cross_conversion_is_the_reference_integrators() {
    let text = format!("{SMALL}temperature = \"23 °C\"\nuntil = \"24 h\"\n{KINETICS}");
    let plain = number(&assessed(&text), "bond_day.lap.conversion");
    assert!((plain - 0.824_761_191_0).abs() < 1e-5, "{plain}");
    let text = format!("{text}tg_uncured = \"-40 °C\"\ntg_cured = \"95 °C\"\nlambda = 0.4\n");
    let stalled = number(&assessed(&text), "bond_day.lap.conversion");
    assert!((stalled - 0.733_637_516_4).abs() < 1e-5, "{stalled}");
    // A third of the stall's data is missing: no conversion without them.
    let half = text.replace("lambda = 0.4\n", "");
    let missing = Lack::Missing { keys: vec!["adhesives.epoxy.kinetics.lambda".to_owned()] };
    assert_eq!(finding(&assessed(&half), "bond_day.lap.conversion").lack, Some(missing));
    // A temperature without an end has no conversion at its end, and none is asked.
    let endless = text.replace("until = \"24 h\"\n", "");
    assert_eq!(assessed(&endless).quantities.get("bond_day.lap.conversion"), None);
}

/// "a gap in the log is reported and bracketed, never silently bridged."
#[test]
fn unit_gap_is_reported_and_bracketed() {
    let text = edited(SMALL, &[("bond_day.log", "\"log.csv\"")]);
    let whole: Vec<(f64, f64)> =
        (0..=160_u32).map(|i| (f64::from(i) / 2.0, if i < 6 { 23.0 } else { 16.0 })).collect();
    let gapped: Vec<(f64, f64)> = whole.iter().copied().filter(|(h, _)| *h <= 5.0 || *h >= 9.0).collect();
    let [whole, gapped] = [whole, gapped].map(|readings| logged(&text, &csv(&readings)));
    assert_eq!(verdict(&whole, "bond_day.log"), Verdict::Note);
    assert_eq!(verdict(&whole, "bond_day.lap.driving"), Verdict::NotMet);
    assert_eq!(verdict(&gapped, "bond_day.log"), Verdict::Unknown);
    // The working time is over before the gap begins, so nothing of it is open.
    let working = "bond_day.lap.working_time";
    assert!((number(&whole, working) - number(&gapped, working)).abs() < 1e-6);
    // The clocks behind the gap hang on it: unknown, with both answers, by hand from the two ends.
    let driving = finding(&gapped, "bond_day.lap.driving");
    assert_eq!(driving.verdict, Verdict::Unknown);
    assert!(matches!(gapped.quantities.get("bond_day.lap.driving_at"), Some(Err(Lack::OutOfData { .. }))));
    let [warm, cold] = [23.0, 16.0].map(|in_gap| {
        let filled: Vec<(f64, f64)> = (0..=160_u32)
            .map(|i| (f64::from(i) / 2.0, if i < 6 { 23.0 } else { 16.0 }))
            .flat_map(|(h, c)| match h {
                5.0 => vec![(h, c), (5.0 + 1.0 / 3600.0, in_gap)],
                9.0 => vec![(9.0 - 1.0 / 3600.0, in_gap), (h, c)],
                _ if h > 5.0 && h < 9.0 => vec![(h, in_gap)],
                _ => vec![(h, c)],
            })
            .collect();
        number(&logged(&text, &csv(&filled)), "bond_day.lap.driving_at")
    });
    for at_s in [warm, cold] {
        let printed = quantity::print(at_s, quantity::Kind::Time, quantity::System::Metric);
        assert!(driving.because.contains(&printed), "{} {printed}", driving.because);
    }
    // Heat that covers the gap leaves nothing open.
    let stage = "[{ from = \"4 h\", until = \"10 h\", temperature = \"60 °C\", ramp = \"1 h\" }]";
    let heated = logged(
        &edited(&text, &[("bond_day.heating", stage)]),
        &csv(&(0..=160_u32)
            .map(|i| f64::from(i) / 2.0)
            .filter(|h| *h <= 5.0 || *h >= 9.0)
            .map(|h| (h, if h < 3.0 { 23.0 } else { 16.0 }))
            .collect::<Vec<_>>()),
    );
    assert_eq!(verdict(&heated, "bond_day.lap.driving"), Verdict::Met);
}

/// "clocks at constant temperature and from a logger's CSV (gaps, duplicates, jumps, °F, date-times with a
/// daylight-saving change, 100 000 rows)"
#[test]
fn unit_jump_of_a_log_is_told_and_leaves_its_worth_unknown() {
    let text = edited(SMALL, &[("bond_day.log", "\"log.csv\"")]);
    let readings = |spike: f64| {
        (0..=480_u32).map(|i| (f64::from(i) / 6.0, if i == 20 { spike } else { 16.0 })).collect::<Vec<_>>()
    };
    let told = logged(&text, &csv(&readings(80.0)));
    let jumps = finding(&told, "bond_day.log_jumps");
    assert_eq!(jumps.verdict, Verdict::Unknown);
    assert!(
        jumps.statement.contains("jumps once, most by 64") && jumps.because.contains("3.33 h"),
        "{jumps:?}"
    );
    let quiet = logged(&text, &csv(&readings(17.0)));
    assert!(quiet.findings.iter().all(|finding| finding.id != "bond_day.log_jumps"));
}

/// The same log in °C and in °F, in seconds and with offsets over the night in which the clock is put back.
#[test]
fn unit_clocks_are_the_same_however_the_log_is_written() {
    let text = edited(SMALL, &[("bond_day.log", "\"log.csv\"")]);
    let celsius = |half_hour: u32| 16.0 + f64::from(half_hour % 5);
    let clocks = |assessment: &Assessment| {
        ["working_time", "handling_at", "driving_at"]
            .map(|name| number(assessment, &format!("bond_day.lap.{name}")))
    };
    let plain: Vec<(f64, f64)> = (0..=120).map(|i| (f64::from(i) / 2.0, celsius(i))).collect();
    let plain = clocks(&logged(&text, &csv(&plain)));
    let row = |i: u32| {
        // From 18:00 summer time; at 01:00 UTC, nine hours after, the clock goes back.
        let (offset, minutes) = if i < 18 { (2, 30 * i + 18 * 60) } else { (1, 30 * i + 17 * 60) };
        let (day, hour, minute) = (25 + minutes / 1440, minutes / 60 % 24, minutes % 60);
        let f = celsius(i) * 1.8 + 32.0;
        format!("2031-10-{day}T{hour:02}:{minute:02}:00+0{offset}:00,{f:.4}\r\n")
    };
    let fahrenheit = format!("time,temperature\r\n{}", (0..=120).map(row).collect::<Vec<_>>().concat());
    let f = edited(&text, &[("bond_day.temperature_unit", "\"°F\"")]);
    let told = logged(&f, &fahrenheit);
    for (plain, other) in plain.into_iter().zip(clocks(&told)) {
        // Four decimals of °F are written.
        assert!((plain / other - 1.0).abs() < 1e-5, "{plain} {other}");
    }
    assert!(finding(&told, "bond_day.log").because.contains("from 16 °C to 20 °C"));
    assert!(!finding(&told, "bond_day.log").because.contains("no offset"));
    // Without offsets the night is not known to have no change, and that is said.
    let local = fahrenheit.replace("+02:00,", ",").replace("+01:00,", ",");
    assert!(job::read("job.toml", &f, &Data { log: &local }).is_err());
    let evening: String = local.split_inclusive('\n').take(10).collect();
    assert!(finding(&logged(&f, &evening), "bond_day.log").because.contains("no offset"));
}

#[test]
fn unit_heat_counts_for_the_glass_transition_only_if_it_cures_out() {
    // 16 h at 60 °C is full strength: with it the glass transition is that of 60 °C, with less that of 16 °C.
    for (until, cured) in [("19 h", "60 °C"), ("18.5 h", "16 °C")] {
        let stage =
            format!("[{{ from = \"2 h\", until = \"{until}\", temperature = \"60 °C\", ramp = \"1 h\" }}]");
        let rail = assessed(&edited(RAIL, &[("bond_day.heating", &stage)]));
        let transition = finding(&rail, "join.rail.glass_transition");
        assert!(transition.because.ends_with(&format!("after a cure at {cured}.")), "{}", transition.because);
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    /// "Clock answers monotone: colder never shortens any of them": whole jobs, on a log and with a stage of heat.
    #[test]
    fn law_colder_never_shortens(
        readings in prop::collection::vec((6.0..30.0_f64, 0.0..8.0_f64), 60),
        warm in 35.0..60.0_f64, less in 0.0..4.0_f64, heat: bool,
    ) {
        let text = edited(SMALL, &[("bond_day.log", "\"log.csv\"")]);
        let clocks = |drop: f64| {
            let readings: Vec<(f64, f64)> =
                readings.iter().zip(0_u32..).map(|((c, d), i)| (f64::from(i), c - drop * d)).collect();
            let stage = format!(
                "[{{ from = \"3 h\", until = \"12 h\", temperature = \"{} °C\", ramp = \"1 h\" }}]",
                warm - drop * less
            );
            let text = if heat { edited(&text, &[("bond_day.heating", &stage)]) } else { text.clone() };
            let day = logged(&text, &csv(&readings));
            // What is not reached, or not promised, is later than all that is.
            ["working_time", "handling_at", "driving_at", "full_at"].map(|name| {
                match day.quantities.get(&format!("bond_day.lap.{name}")) {
                    Some(Ok(measure)) => measure.value,
                    _ => f64::INFINITY,
                }
            })
        };
        for (cold, warm) in clocks(1.0).into_iter().zip(clocks(0.0)) {
            // 1e-9: rounding where the two are nearly equal.
            prop_assert!(cold >= warm * (1.0 - 1e-9), "{cold} {warm}");
        }
    }
}
