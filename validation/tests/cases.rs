//! Every case holds, and names what it must; the harness can fail; the page shows the table.

use std::collections::BTreeSet;
use std::path::Path;
use std::sync::Mutex;

use validation::case_file::CaseFile;
use validation::compare::{Comparison, Within};
use validation::{case_files, folder, run, table};

type Failure = Box<dyn std::error::Error>;

/// All comparisons, run once for all tests.
fn all() -> Result<Vec<Comparison>, Failure> {
    static ALL: Mutex<Option<Vec<Comparison>>> = Mutex::new(None);
    let mut all = ALL.lock().map_err(|_| "another test failed while it ran the cases")?;
    if all.is_none() {
        *all = Some(run(folder())?);
    }
    Ok(all.clone().unwrap_or_default())
}

/// The comparisons of one source.
fn of_source(author: &str) -> Result<Vec<Comparison>, Failure> {
    let found: Vec<_> = all()?.into_iter().filter(|one| one.source.author == author).collect();
    if found.is_empty() { Err(format!("no case of {author}").into()) } else { Ok(found) }
}

#[test]
fn val_every_case_holds() -> Result<(), Failure> {
    let comparisons = all()?;
    let failed: Vec<_> = comparisons.iter().filter(|one| !one.holds()).cloned().collect();
    assert!(failed.is_empty(), "\n{}", table::markdown(&failed));
    let cases: BTreeSet<_> = comparisons.iter().map(|one| (&one.source.title, &one.case)).collect();
    assert!(cases.len() >= 25, "only {} checks", cases.len());
    Ok(())
}

/// `known` and `why` cannot be absent: without them a file is not read, or a case not run.
#[test]
fn unit_every_case_names_source_and_reason() -> Result<(), Failure> {
    for file in case_files(folder())? {
        let source = &file.source;
        for text in [&source.author, &source.title, &source.place] {
            assert!(!text.trim().is_empty(), "{}: a source needs author, title and place", file.name);
        }
        for case in &file.cases {
            for text in [&case.id, &case.checks] {
                assert!(!text.trim().is_empty(), "{}: a case needs `id` and `checks`", file.name);
            }
        }
    }
    for one in all()? {
        assert!(one.why.split_whitespace().count() > 1, "{}, {}: why {}?", one.source, one.case, one.why);
    }
    Ok(())
}

const PAGE: &str = "../docs/validation.md";
const BEGIN: &str = "<!-- made by UPDATE=1 cargo test -p validation -->\n";
const END: &str = "<!-- end of what is made -->\n";

/// The page holds exactly the table that the program prints.
#[test]
fn golden_page_shows_the_table() -> Result<(), Failure> {
    let path = folder().join(PAGE);
    let page = std::fs::read_to_string(&path)?;
    let (before, rest) = page.split_once(BEGIN).ok_or("the page has no mark where the table begins")?;
    let (shown, after) = rest.split_once(END).ok_or("the page has no mark where the table ends")?;
    let table = format!("\n{}\n", table::markdown(&all()?));
    if std::env::var_os("UPDATE").is_some() {
        std::fs::write(&path, [before, BEGIN, &table, END, after].concat())?;
    } else {
        assert!(shown == table, "docs/validation.md is out of date: UPDATE=1 cargo test -p validation");
    }
    Ok(())
}

/// "A 2-D plane-strain finite-element lap made with a general-purpose library (script and data
/// stored under `validation/`): stiffness within 1 %, peak shear within 10 %, peak peel within 15 %,
/// for at least three joints (aluminium/aluminium, steel/aluminium, long overlap); differences
/// explained."
#[test]
fn val_strip_against_plane_strain_finite_elements() -> Result<(), Failure> {
    let found = of_source("Plane-strain finite elements")?;
    for joint in ["coupon", "steel aluminium", "long plate"] {
        for (quantity, share) in [("stiffness", 0.01), ("peak_shear", 0.10), ("peak_peel", 0.15)] {
            let one = found.iter().find(|one| one.case == joint && one.quantity == quantity);
            let one = one.ok_or_else(|| format!("{joint}: no {quantity}"))?;
            let (ours, theirs) = (one.worst.ours, one.worst.theirs);
            assert!((ours / theirs - 1.0).abs() <= share, "{joint}, {quantity}: {ours} for {theirs}");
            assert_eq!(one.within, Within::Relative(share));
        }
    }
    // Elsewhere the same limits hold, or the case says why not.
    for one in &found {
        let limit = match one.quantity {
            "stiffness" => 0.01,
            "peak_shear" => 0.10,
            "peak_peel" => 0.15,
            _ => continue,
        };
        assert_eq!(one.within, Within::Relative(limit), "{}, {}", one.case, one.quantity);
        assert!(one.is_inside() || one.outside.is_some(), "{}, {}", one.case, one.quantity);
    }
    Ok(())
}

/// "Second-order edge moment against an independent beam-column solution within 1 %."
#[test]
fn val_second_order_edge_moment_against_beam_columns() -> Result<(), Failure> {
    let mut compared = 0;
    for one in of_source("Beam-column")? {
        if one.quantity.starts_with("edge_moment") && one.case != "first order" {
            // The worst of 30: three joints, clamped and pinned, five loads each.
            assert_eq!(one.runs, 30, "{}", one.case);
            let (ours, theirs) = (one.worst.ours, one.worst.theirs);
            assert!((ours / theirs - 1.0).abs() <= 0.01, "{}: {ours} for {theirs}", one.case);
            compared += 1;
        }
    }
    // Two ends against three models: beams that bend, beams that shear too, an overlap of one piece.
    assert_eq!(compared, 6);
    Ok(())
}

/// The text of a file of cases.
fn text(name: &str) -> Result<String, Failure> {
    Ok(std::fs::read_to_string(folder().join("cases").join(name))?)
}

fn outcome(name: &str, text: &str) -> Result<Vec<Comparison>, Failure> {
    Ok(CaseFile::parse(name, text)?.run(&folder().join("reference"))?)
}

#[test]
fn unit_a_wrong_expected_value_fails() -> Result<(), Failure> {
    let name = "volkersen-1938.toml";
    let right = text(name)?;
    assert!(outcome(name, &right)?.iter().all(Comparison::holds));
    // One unit of the last printed digit beside the tolerance.
    let wrong = right.replace("40.6 MPa", "40.7 MPa");
    assert_ne!(wrong, right);
    let failed: Vec<_> = outcome(name, &wrong)?.into_iter().filter(|one| !one.holds()).collect();
    assert_eq!(failed.len(), 1);
    assert_eq!((failed[0].case.as_str(), failed[0].quantity), ("worked example", "peak_shear"));
    assert!(table::markdown(&failed).contains("**outside**"));
    Ok(())
}

/// One wrong number in a list of many is found, and named.
#[test]
fn unit_a_wrong_value_in_a_list_fails() -> Result<(), Failure> {
    let name = "mil-hdbk-17-1f-2002.toml";
    let wrong = text(name)?.replace("3.007, 2.756", "3.017, 2.756");
    let failed: Vec<_> = outcome(name, &wrong)?.into_iter().filter(|one| !one.holds()).collect();
    assert_eq!(failed.len(), 1);
    assert_eq!(failed[0].worst.label, "n 6");
    Ok(())
}

/// A case that says it lies outside must do so: else what it says is out of date.
#[test]
fn unit_an_explanation_that_is_not_needed_fails() -> Result<(), Failure> {
    let name = "volkersen-1938.toml";
    let within = r#"peak_shear = { value = "40.6 MPa""#;
    let excused = text(name)?.replace(within, &format!(r#"{within}, outside = "no reason""#));
    let failed: Vec<_> = outcome(name, &excused)?.into_iter().filter(|one| !one.holds()).collect();
    assert_eq!(failed.len(), 1);
    Ok(())
}

#[test]
fn unit_exit_status_tells_failed_from_unreadable() -> Result<(), Failure> {
    let scratch = Path::new(env!("CARGO_TARGET_TMPDIR")).join("exit-status");
    let cases = scratch.join("cases");
    std::fs::create_dir_all(&cases)?;
    let right = text("volkersen-1938.toml")?;
    for (text, status) in [(&right, 0), (&right.replace("40.6", "40.7"), 1), (&String::from("none"), 2)] {
        std::fs::write(cases.join("volkersen-1938.toml"), text)?;
        let program = env!("CARGO_BIN_EXE_validation");
        let output = std::process::Command::new(program).arg(&scratch).output()?;
        assert_eq!(output.status.code(), Some(status), "{}", String::from_utf8_lossy(&output.stderr));
    }
    Ok(())
}
