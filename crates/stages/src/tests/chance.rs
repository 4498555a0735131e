//! The chance of failure of a lap, at the level of the job.

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

/// "a range over normal, lognormal and Weibull tails, always a `note`" and "interval, range over tails, ranking of
/// what matters": where the load alone scatters, the chance is that of a load beyond the capacity, which is known. The
/// range holds that of the normal and of the lognormal tails, and its ends lie within what 120 samples leave open:
/// 2.2/√120 each way at two standard errors, on either side of tails that lie within a third of each other.
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
    let capacity = number(&found, "join.coupon.pull.capacity_factor");
    let normal_tail = normal::cdf(-(capacity - 1.0) / 0.2);
    let zeta = libm::log1p(0.04).sqrt();
    let lognormal_tail = normal::cdf(-(libm::log(capacity) + 0.5 * zeta * zeta) / zeta);
    let low = number(&found, "join.coupon.pull.failure_probability_low");
    let high = number(&found, "join.coupon.pull.failure_probability_high");
    for chance in [normal_tail, lognormal_tail] {
        assert!(low < chance && chance < high, "{low} {chance} {high}");
    }
    assert!(high / low < 4.0, "{low} {high}");
    let told = finding(&found, "join.coupon.pull.probability");
    assert_eq!(told.verdict, Verdict::Note);
    for words in ["normal tails", "lognormal tails", "Weibull tails", "hangs on load 100 %", "seed 1"] {
        assert!(told.because.contains(words), "{words}: {}", told.because);
    }
    // "same seed, same answer"
    assert_eq!(asked(&text, 1).quantities, found.quantities);
    assert_ne!(asked(&text, 2).quantities, found.quantities);
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
