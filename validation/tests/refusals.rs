//! What a file of cases may not say, and the message that it gets.

use validation::case_file::CaseFile;
use validation::folder;

const RIGHT: &str = r#"
[source]
author = "Nobody"
title = "Invented"
year = 2000
place = "nowhere"

[[case]]
id = "lap"
checks = "mean shear"
known = "formula"
method = "Volkersen lap"
within = "1 %"
why = "invented for the test"
[case.inputs]
adherend = { youngs_modulus = "70 GPa", thickness = "2 mm" }
adhesive_shear_modulus = "800 MPa"
bondline = "0.1 mm"
overlap = "30 mm"
load = "240 N/mm"
[case.expected]
mean_shear = "8 MPa"
"#;

/// The message for a file in which one thing stands in place of another.
fn refusal(from: &str, to: &str) -> String {
    assert!(RIGHT.contains(from), "{from}");
    let outcome = CaseFile::parse("test.toml", &RIGHT.replace(from, to))
        .and_then(|file| file.run(&folder().join("reference")));
    outcome.expect_err(to).to_string()
}

#[test]
fn unit_the_file_itself_is_right() {
    let comparisons = CaseFile::parse("test.toml", RIGHT).unwrap().run(folder()).unwrap();
    assert!(comparisons.len() == 1 && comparisons[0].holds());
}

#[test]
fn unit_each_fault_has_its_message() {
    for (from, to, message) in [
        ("checks =", "cheks =", "unknown field `cheks`"),
        ("place = \"nowhere\"", "", "missing field `place`"),
        ("known = \"formula\"", "", "missing field `known`"),
        ("known = \"formula\"", "known = \"hearsay\"", "unknown variant `hearsay`"),
        ("\"Volkersen lap\"", "\"Volkersen\"", "no method `Volkersen`; the register has activation energy"),
        ("within = \"1 %\"", "", "`mean_shear` has no tolerance"),
        ("within = \"1 %\"", "within = \"-1 %\"", "must be zero or positive"),
        ("within = \"1 %\"", "within = 0.01", "test.toml, case `lap`: `mean_shear`: "),
        ("why = \"invented for the test\"", "", "has no reason"),
        ("why = \"invented for the test\"", "why = \" \"", "has no reason"),
        ("mean_shear = \"8 MPa\"", "", "no value is expected"),
        ("mean_shear =", "mean_sheer =", "the method gives no `mean_sheer`, but bond_number, mean_shear"),
        ("\"8 MPa\"", "8", "`mean_shear`: "),
        ("\"8 MPa\"", "\"8 mm\"", "`mean_shear`: "),
        ("\"8 MPa\"", "{ value = \"8 MPa\", from = \"x\" }", "needs either `value` or `from`"),
        ("\"8 MPa\"", "{ within = \"1 %\" }", "needs either `value` or `from`"),
        ("\"8 MPa\"", "{ worth = \"8 MPa\" }", "unknown field `worth`"),
        ("overlap = \"30 mm\"", "", "`overlap` is missing: length"),
        ("overlap = \"30 mm\"", "overlap = 30", "`overlap`: "),
        ("overlap = \"30 mm\"", "overlap = true", "`overlap` must be length, found true"),
        ("overlap = \"30 mm\"", "overlap = \"0 mm\"", "overlap must be positive"),
        (
            "thickness = \"2 mm\"",
            "thickness = \"2 mm\", colour = 1",
            "does not read the input `adherend.colour`",
        ),
        ("load =", "width = \"1 mm\"\nload =", "does not read the input `width`"),
        ("[source]", "inputs = { width = \"1 mm\" }\n[source]", "no case reads the input `width`"),
        ("checks =", "vary = [\"load\"]\nchecks =", "`load` is to vary, but it is no list"),
        ("checks =", "each = \"joint\"\nchecks =", "`each` needs a `reference`"),
        ("id = \"lap\"", "id = \"lap\"\neach = \"joint\"", "`each` needs a `reference`"),
    ] {
        let found = refusal(from, to);
        assert!(found.contains(message), "{from} → {to}: {found}");
    }
}

#[test]
fn unit_references_are_asked_for_what_they_have() {
    for (each, message) in [
        ("each = \"joints\"", "the reference has no `joints`"),
        ("each = \"joint\"\nonly = { name = \"glass\" }", "no entry of `joint`"),
        ("each = \"joint\"\nnamed_by = [\"colour\"]", "the reference has no `colour`"),
    ] {
        let text = RIGHT
            .replace("[source]", "reference = \"lap_plane_strain.toml\"\n[source]")
            .replace("checks =", &format!("{each}\nchecks ="));
        let file = CaseFile::parse("test.toml", &text).unwrap();
        let found = file.run(&folder().join("reference")).unwrap_err().to_string();
        assert!(found.contains(message), "{each}: {found}");
    }
    let absent = RIGHT
        .replace("[source]", "reference = \"none.toml\"\n[source]")
        .replace("checks =", "each = \"joint\"\nchecks =");
    let found = CaseFile::parse("test.toml", &absent).unwrap().run(folder()).unwrap_err().to_string();
    assert!(found.contains("reference none.toml"), "{found}");
}

#[test]
fn unit_lists_must_be_as_long_as_the_runs() {
    let varied = RIGHT
        .replace("load = \"240 N/mm\"", "load = [\"240 N/mm\", \"480 N/mm\"]")
        .replace("checks =", "vary = [\"load\"]\nchecks =");
    let found = |expected: &str| {
        let text = varied.replace("\"8 MPa\"", expected);
        CaseFile::parse("test.toml", &text).unwrap().run(folder())
    };
    assert!(found("[\"8 MPa\", \"16 MPa\"]").unwrap()[0].holds());
    let worst = found("\"8 MPa\"").unwrap().remove(0);
    assert_eq!((worst.worst.label.as_str(), worst.runs, worst.holds()), ("load 480 N/mm", 2, false));
    let short = found("[\"8 MPa\"]").unwrap_err().to_string();
    assert!(short.contains("a list of 1 values has none for run 2"), "{short}");
}

#[test]
fn unit_an_id_stands_once() {
    let twice = format!("{RIGHT}\n{}", &RIGHT[RIGHT.find("[[case]]").unwrap()..]);
    let found = CaseFile::parse("test.toml", &twice).unwrap().run(folder()).unwrap_err().to_string();
    assert_eq!(found, "test.toml, case `lap`: another case bears this id");
}
