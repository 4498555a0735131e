//! What is refused, and in which words.

use quantity::{Kind, parse};

/// Each text with the place of its fault underlined and the three parts of the answer.
fn answers(texts: &[(&str, Kind)]) -> String {
    let mut lines = Vec::new();
    for &(text, kind) in texts {
        let error = match parse(text, kind) {
            Err(error) => error,
            Ok(value) => panic!("{text:?} was read as {value} {}", kind.base_unit()),
        };
        let span = error.span();
        let before = text.get(..span.start).expect("a span within the text").chars().count();
        let marked = text.get(span).expect("a span within the text").chars().count().max(1);
        lines.push(format!("{}: {text}", kind.name()));
        lines.push(format!("{}{}", " ".repeat(kind.name().len() + 2 + before), "^".repeat(marked)));
        lines.push(format!("    {}", error.found()));
        lines.push(format!("    expected {}", error.expected()));
        if let Some(mend) = error.mend() {
            lines.push(format!("    {mend}"));
        }
    }
    lines.join("\n")
}

#[test]
fn golden_faults_of_the_number() {
    insta::assert_snapshot!(answers(&[
        ("", Kind::Length),
        ("   ", Kind::Time),
        ("mm", Kind::Length),
        ("about 6 mm", Kind::Length),
        ("-", Kind::Length),
        ("6,5 mm", Kind::Length),
        ("1,250 psi", Kind::Stress),
        ("1,250.5 psi", Kind::Stress),
        ("1.250,5 mm", Kind::Length),
        ("1,250,000 psi", Kind::Stress),
        ("1.2.3 mm", Kind::Length),
        ("1/2/3 in", Kind::Length),
        ("1/0 in", Kind::Length),
        ("2 1/0 in", Kind::Length),
        ("5^2 mm", Kind::Length),
        ("nan MPa", Kind::Stress),
        ("-inf mm", Kind::Length),
        ("∞ mm", Kind::Length),
        ("1e999 mm", Kind::Length),
        ("1e308 km", Kind::Length),
        ("1e-999 mm", Kind::Length),
        ("--5 mm", Kind::Length),
    ]));
}

#[test]
fn golden_faults_of_the_unit() {
    insta::assert_snapshot!(answers(&[
        ("6.5", Kind::Length),
        ("24", Kind::Stress),
        ("1/4", Kind::Length),
        ("90", Kind::Time),
        ("1 h 30", Kind::Time),
        ("24 mpa", Kind::Stress),
        ("24 Mpa", Kind::Stress),
        ("24 mPa", Kind::Stress),
        ("24 N/mmm²", Kind::Stress),
        ("6.5 MM", Kind::Length),
        ("5 kn", Kind::Force),
        ("8 hous", Kind::Time),
        ("8 furlongs", Kind::Length),
        ("2 ton", Kind::Mass),
        ("2 gal", Kind::Volume),
        ("3 months", Kind::Time),
        ("3 oz", Kind::Volume),
        ("65 KJ/mol", Kind::ActivationEnergy),
        ("24 N/", Kind::Stress),
        ("24 N/(mm", Kind::Stress),
        ("24 N//mm", Kind::Stress),
        ("24 N/mm)", Kind::Stress),
        ("24 ()", Kind::Stress),
        ("24 N/mm^0", Kind::Stress),
        ("24 ppm/m·ppm", Kind::Factor),
        ("21 1/K·ppm", Kind::ThermalExpansion),
        ("5 mm, 6 mm", Kind::Length),
        ("5 mm; 6", Kind::Length),
        ("1:30 h", Kind::Time),
        ("200 mL?", Kind::Volume),
    ]));
}

#[test]
fn golden_faults_of_the_kind() {
    insta::assert_snapshot!(answers(&[
        ("6.5 mm", Kind::Stress),
        ("24 MPa", Kind::Length),
        ("7000 lb", Kind::Length),
        ("500 kg", Kind::Force),
        ("12 N/mm", Kind::Force),
        ("23 °C", Kind::Stress),
        ("70 deg", Kind::Temperature),
        ("70°", Kind::Temperature),
        ("12 J", Kind::Moment),
        ("1.4 kJ/m²", Kind::LineLoad),
        ("25 mm", Kind::Area),
        ("25 mm", Kind::Volume),
        ("90 m", Kind::Time),
        ("15°", Kind::Factor),
        ("0.3 mm", Kind::Factor),
        ("5 kg·m", Kind::Moment),
        ("5 K/m", Kind::Temperature),
        ("0 K", Kind::Temperature),
        ("-300 °C", Kind::Temperature),
        ("-459.67 °F", Kind::Temperature),
        ("-5 K", Kind::Temperature),
    ]));
}

#[test]
fn golden_more_than_one_number() {
    insta::assert_snapshot!(answers(&[
        ("5 mm 3 mm", Kind::Length),
        ("30 min 1 h", Kind::Time),
        ("5 MPa 3 kPa", Kind::Stress),
        ("0.3 0.4", Kind::Factor),
        ("5 mm -3 mm", Kind::Length),
        ("5 mm - 3 mm", Kind::Length),
        ("5 to 6 mm", Kind::Length),
        ("1 h 5 mm", Kind::Time),
    ]));
}

#[test]
fn unit_a_refusal_is_one_plain_line() {
    let error = parse("6.5 mm", Kind::Stress).expect_err("a length");
    assert_eq!(error.to_string(), "this is a length; expected a stress, such as \"24 MPa\" or \"3500 psi\"");
    let error = parse("24 mpa", Kind::Stress).expect_err("no unit");
    assert_eq!(
        error.to_string(),
        "\"mpa\" is not a unit known here; expected a stress, such as \"24 MPa\" or \"3500 psi\"; did you mean \"MPa\"?"
    );
}

#[test]
fn unit_endless_texts_are_refused_at_once() {
    let long = format!("1 {}", "mm·".repeat(100_000));
    let error = parse(&long, Kind::Length).expect_err("too long");
    assert_eq!(error.found(), "this is longer than any quantity");
    let deep = format!("1 {}", "(".repeat(150));
    assert!(parse(&deep, Kind::Length).is_err());
}
