//! What the published tests of laps show of all their rows together.

use std::cell::RefCell;

use toml::{Table, Value};
use validation::inputs::Inputs;
use validation::{folder, methods};

type Failure = Box<dyn std::error::Error>;

fn reference(name: &str) -> Result<Table, Failure> {
    Ok(std::fs::read_to_string(folder().join("reference").join(name))?.parse()?)
}

fn list<'t>(table: &'t Table, key: &str) -> Result<&'t [Value], Failure> {
    Ok(table.get(key).and_then(Value::as_array).ok_or_else(|| format!("no list {key}"))?)
}

fn number(value: Option<&Value>) -> Result<f64, Failure> {
    let float = value.and_then(|value| value.as_float().or_else(|| value.to_string().parse().ok()));
    float.ok_or_else(|| format!("{value:?} is no number").into())
}

/// "Long joints with toughness at the same bondline, mean error within 5 % and each within 15 %": the mean
/// of all 62, those outside 15 % with them; which they are stands in the table of `docs/validation.md`.
///
/// The mean of the magnitudes is that of the tests' own scatter, 6.5 % of load, for a row foretold by a few.
#[test]
fn val_mean_error_of_long_bonds() -> Result<(), Failure> {
    let tests = reference("carbon_on_steel.toml")?;
    let method = methods::named("strip on a base to failure")?;
    let mut errors = Vec::new();
    for test in list(&tests, "test")? {
        let mut inputs = test.as_table().ok_or("a test is a table")?.clone();
        if inputs.get("use").and_then(Value::as_str) != Some("long") {
            continue;
        }
        inputs.extend([
            ("law".to_owned(), "softening".into()),
            ("adhesive_poissons_ratio".to_owned(), 0.35.into()),
        ]);
        let read = RefCell::default();
        let outputs = method(&Inputs::new(&inputs, &read))?;
        errors.push(outputs[0].value / number(inputs.get("capacity_n"))? - 1.0);
    }
    assert_eq!(errors.len(), 62);
    let mean = errors.iter().sum::<f64>() / 62.0;
    let magnitude = errors.iter().map(|error| error.abs()).sum::<f64>() / 62.0;
    assert!(mean.abs() <= 0.05, "mean error {mean}");
    assert!(magnitude <= 0.075, "mean magnitude of the error {magnitude}");
    let beyond = errors.iter().filter(|error| error.abs() > 0.15).count();
    assert_eq!(beyond, 6, "the table names six rows beyond 15 %");
    Ok(())
}

/// "The rule for a bonded and fastened lap is at least not above bond plus fastener": in the tests, the
/// means of five. Of the strip it is a property in `mechanics`, on a base that does not stretch.
#[test]
fn val_bonded_and_bolted_laps_hold_no_more_than_the_sum() -> Result<(), Failure> {
    let laps = reference("composite_laps.toml")?;
    let rows = list(&laps, "row")?;
    let mean = |pair: &Value, joint: &str| -> Result<f64, Failure> {
        let row = rows.iter().find(|row| {
            row.get("pair") == Some(pair) && row.get("joint").and_then(Value::as_str) == Some(joint)
        });
        let loads = list(row.and_then(Value::as_table).ok_or("no such row")?, "F_n")?;
        assert_eq!(loads.len(), 5);
        Ok(loads.iter().map(|load| number(Some(load))).sum::<Result<f64, _>>()? / 5.0)
    };
    let pairs: Vec<&Value> = rows.iter().filter_map(|row| row.get("pair")).take(6).collect();
    for pair in pairs {
        let (bond, bolt, both) = (mean(pair, "bond")?, mean(pair, "bolt")?, mean(pair, "hybrid")?);
        assert!(both <= bond + bolt, "{pair}: {both} N of {bond} and {bolt} N");
        // As the page says: next to the bond alone, the bolt took away a quarter or added an eighth.
        assert!((0.75..1.14).contains(&(both / bond)), "{pair}: {}", both / bond);
    }
    Ok(())
}
