//! The chance of failure of bonds, at the level of the job.

use std::sync::Arc;

use assessment::Verdict;
use evidence::normal;

use super::*;
use crate::Sampling;

const SCATTER: &str =
    "\n[scatter]\ntoughness = 0.0\nbondline = 0.0\noverlap = 0.0\nsurface = 0.0\nload = 0.2\n";

fn asked(text: &str, seed: u64) -> Assessment {
    let job = job::read("job.toml", text, &Witness).expect("the job is well-formed");
    assess(&job, &Ask { probability: Some(Sampling { seed, ..Sampling::default() }), ..Ask::default() })
}

/// Chances that a load of mean 1 with a coefficient of variation of 0.2 comes out above a capacity, by normal and by
/// lognormal tails.
fn beyond(capacity: f64) -> [f64; 2] {
    let zeta = libm::log1p(0.04).sqrt();
    [normal::cdf(-(capacity - 1.0) / 0.2), normal::cdf(-(libm::log(capacity) + 0.5 * zeta * zeta) / zeta)]
}

/// The range of a joint and case holds the chances that the load alone makes of its capacity.
fn holds_the_closed_form(found: &Assessment, fill: &str) {
    let of = |name: &str| number(found, &format!("join.{fill}.{name}"));
    let (low, high) = (of("failure_probability_low"), of("failure_probability_high"));
    for chance in beyond(of("capacity_factor")) {
        assert!(low < chance && chance < high, "{fill}: {low} {chance} {high}");
    }
    let told = finding(found, &format!("join.{fill}.probability"));
    assert_eq!(told.verdict, Verdict::Note);
    assert!(told.because.contains("hangs on load 100 %"), "{}", told.because);
}

/// "a range over normal, lognormal and Weibull tails, always a `note`" and "interval, range over tails, ranking of
/// what matters": where the load alone scatters, the chance is that of a load beyond the capacity, which is known. The
/// range holds that of the normal and of the lognormal tails, and its ends lie within a few per cent of the tails, which
/// lie within a factor of three of each other.
#[test]
fn val_a_load_that_scatters_alone_has_its_closed_form() {
    let text = format!("{COUPON}{SCATTER}");
    let text = edited(
        &text,
        &[
            ("joints.coupon.loads.pull", "{ kind = \"limit\", axial = \"5 kN\" }"),
            ("adhesives.epoxy.scatter", "0.0"),
        ],
    );
    let found = asked(&text, 1);
    holds_the_closed_form(&found, "coupon.pull");
    let low = number(&found, "join.coupon.pull.failure_probability_low");
    let high = number(&found, "join.coupon.pull.failure_probability_high");
    assert!(high / low < 4.0, "{low} {high}");
    let told = finding(&found, "join.coupon.pull.probability");
    assert_eq!(told.verdict, Verdict::Note);
    for words in ["normal tails", "lognormal tails", "Weibull tails", "hangs on load 100 %", "seed 1"] {
        assert!(told.because.contains(words), "{words}: {}", told.because);
    }
}

/// The same of a double lap, without the change of temperature that its metals would feel, and of a sleeve, whose
/// capacity is the lesser of wall free and wall held: the range there, and the words on what is left out.
#[test]
fn val_double_laps_and_sleeves_have_it_too() {
    let strap = edited(
        &format!("{STRAP}{SCATTER}"),
        &[
            ("joints.strap.loads.pull", "{ kind = \"limit\", axial = \"70 kN\" }"),
            ("joints.strap.temperature_change", "\"0 K\""),
            ("adhesives.epoxy.scatter", "0.0"),
        ],
    );
    holds_the_closed_form(&asked(&strap, 1), "strap.pull");
    let rail = edited(&format!("{RAIL}{SCATTER}"), &[("adhesives.epoxy.scatter", "0.0")]);
    let found = asked(&rail, 1);
    holds_the_closed_form(&found, "rail.recovery");
    let told = finding(&found, "join.rail.recovery.probability");
    assert!(told.because.contains("that another place may govern when things scatter is left out"));
    // What carries many times its load is told without sampling.
    let yard = finding(&found, "join.rail.yard_move.probability");
    assert!(yard.statement.contains("a chance less than 1.0e-12"), "{}", yard.statement);
}

const ALL: &str =
    "\n[scatter]\ntoughness = 0.15\nbondline = 0.2\noverlap = 0.05\nsurface = 0.1\nload = 0.2\n";

/// "same seed, same answer"; another seed another one, and the intervals of the two have a part in common.
#[test]
fn unit_same_seed_same_answer() {
    let text = format!("{COUPON}{ALL}");
    let (first, again, other) = (asked(&text, 1), asked(&text, 1), asked(&text, 2));
    assert_eq!(again.quantities, first.quantities);
    assert_eq!(again.findings, first.findings);
    assert_ne!(other.quantities, first.quantities);
    let range = |found: &Assessment| {
        ["low", "high"].map(|end| number(found, &format!("join.coupon.pull.failure_probability_{end}")))
    };
    let ([low, high], [low_too, high_too]) = (range(&first), range(&other));
    assert!(low < high_too && low_too < high);
}

/// "a hard budget on strips": few strips leave nothing known, and say so; the job's strips are shared among its loads.
#[test]
fn unit_too_few_strips_are_told() {
    let text = format!("{COUPON}{ALL}");
    let job = job::read("job.toml", &text, &Witness).expect("the job is well-formed");
    let with = |strips| {
        let sampling = Sampling { strips, ..Sampling::default() };
        assess(&job, &Ask { probability: Some(sampling), to_failure: false, ..Ask::default() })
    };
    let told = |found: &Assessment| finding(found, "join.coupon.pull.probability").clone();
    let few = told(&with(200));
    assert_eq!(few.verdict, Verdict::Unknown);
    assert!(few.because.contains("did not get there with the strips allowed"), "{}", few.because);
    assert!(!with(200).failed(), "that is no failure of a solver");
    let more = told(&with(450));
    assert!(more.because.contains("strips were loaded to failure"), "{}", more.because);
}

/// "Ctrl-C keeps what is known": stopped in its second tail, the first one is told, and what was not reached; all other
/// findings are there. Stopped before it began, the chance alone is unknown.
#[test]
fn unit_stopped_it_tells_what_is_known() {
    let text = format!("{COUPON}{ALL}");
    let job = job::read("job.toml", &text, &Witness).expect("the job is well-formed");
    let ask = Ask { probability: Some(Sampling::default()), to_failure: false, ..Ask::default() };
    let stopped = std::thread::scope(|scope| {
        let watch = Arc::clone(&ask.watch);
        scope.spawn(move || {
            while watch.progress().is_none_or(|progress| progress.share < 0.34) {
                std::thread::yield_now();
            }
            watch.stop();
        });
        assess(&job, &ask)
    });
    let told = finding(&stopped, "join.coupon.pull.probability");
    assert_eq!(told.verdict, Verdict::Note);
    assert!(told.statement.starts_with("As far as it was known when it was stopped"), "{}", told.statement);
    assert!(told.because.contains("normal tails") && told.because.contains("Weibull tails were not reached"));
    let early = Ask { watch: Arc::default(), ..ask };
    early.watch.stop();
    let early = assess(&job, &early);
    let told = finding(&early, "join.coupon.pull.probability");
    assert_eq!(told.verdict, Verdict::Unknown);
    assert!(told.because.contains("stopped before anything was known"), "{}", told.because);
    assert_eq!(early.findings.len(), stopped.findings.len());
}

/// "A missing input gives `unknown` with what is missing", and what was not asked is not computed.
#[test]
fn unit_what_scatters_must_be_given() {
    let found = asked(COUPON, 1);
    let told = finding(&found, "join.coupon.pull.probability");
    assert_eq!(told.verdict, Verdict::Unknown);
    for key in ["scatter.toughness", "scatter.bondline", "scatter.overlap", "scatter.surface", "scatter.load"]
    {
        assert!(told.because.contains(key), "{key}: {}", told.because);
    }
    let job = job::read("job.toml", &format!("{COUPON}{SCATTER}"), &Witness).expect("the job is well-formed");
    let not_asked = assess(&job, &Ask { to_failure: false, ..Ask::default() });
    assert!(not_asked.quantities.get("join.coupon.pull.failure_probability").is_none());
    assert!(not_asked.findings.iter().all(|finding| finding.id != "join.coupon.pull.probability"));
}
