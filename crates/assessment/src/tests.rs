use super::*;

fn finding(verdict: Verdict) -> Finding {
    Finding { verdict, ..Finding::new(Stage::Join, "join.x".to_owned(), "x", Basis::YourData("test")) }
}

fn assessment(verdicts: &[Verdict]) -> Assessment {
    Assessment {
        title: "t".to_owned(),
        name: "t.toml".to_owned(),
        hash: String::new(),
        system: quantity::System::Metric,
        findings: verdicts.iter().copied().map(finding).collect(),
        quantities: Quantities::default(),
        series: SeriesMap::default(),
        sheets: Vec::new(),
        fields: std::collections::BTreeMap::default(),
        assumptions: Vec::new(),
        plans: Vec::new(),
        not_asked: Vec::new(),
    }
}

#[test]
fn unit_verdict_of_a_job_is_the_worst_and_never_met_by_default() {
    use Verdict::{Met, NotMet, Note, Unknown};
    assert_eq!(assessment(&[]).verdict(), Unknown);
    assert_eq!(assessment(&[Note, Note]).verdict(), Unknown);
    assert_eq!(assessment(&[Met, Note]).verdict(), Met);
    assert_eq!(assessment(&[Met, Unknown]).verdict(), Unknown);
    assert_eq!(assessment(&[Met, Unknown, NotMet]).verdict(), NotMet);
}

#[test]
fn unit_numbers_that_are_not_finite_become_failures() {
    let mut quantities = Quantities::default();
    quantities.put(&names::PEAK_SHEAR, &["a", "b"], Ok(f64::NAN));
    quantities.put(&names::PEAK_PEEL, &["a", "b"], Ok(f64::INFINITY));
    quantities.put(&names::MEAN_SHEAR, &["a", "b"], Ok(16.0));
    assert_eq!(quantities.iter().map(|(name, _)| name).collect::<Vec<_>>(), ["join.a.b.mean_shear"]);
    assert!(quantities.unknown().all(|(_, lack)| matches!(lack, Lack::Failed { .. })));
    assert_eq!(quantities.unknown().count(), 2);
}

#[test]
fn unit_patterns_fill_and_match_and_none_hides_another() {
    assert_eq!(names::PEAK_SHEAR.fill(&["rail", "pull"]), "join.rail.pull.peak_shear");
    assert!(names::PEAK_SHEAR.matches("join.rail.pull.peak_shear"));
    assert!(!names::PEAK_SHEAR.matches("join.rail.peak_shear"));
    let all: Vec<&Name> = names::NUMBERS.iter().chain(names::SERIES).chain(names::FIELDS).collect();
    for name in &all {
        let same = all.iter().filter(|other| other.matches(&name.fill(&["a", "b"]))).count();
        assert_eq!(same, 1, "{}", name.pattern);
    }
}
