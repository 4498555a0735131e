//! The non-central t and the tolerance factors against the stored reference.

use evidence::{student, tolerance};
use toml::Value;

type Failure = Box<dyn std::error::Error>;

fn reference() -> Result<toml::Table, Failure> {
    Ok(include_str!("../../../validation/reference/noncentral_t.toml").parse()?)
}

fn numbers(table: &Value, key: &str) -> Result<Vec<f64>, Failure> {
    let list = table.get(key).and_then(Value::as_array).ok_or(format!("no list {key}"))?;
    list.iter().map(|value| number(value).ok_or(format!("no number in {key}").into())).collect()
}

fn number(value: &Value) -> Option<f64> {
    value.as_float().or_else(|| i32::try_from(value.as_integer()?).ok().map(f64::from))
}

fn at<'a>(table: &'a toml::Table, key: &str) -> Result<&'a Value, Failure> {
    table.get(key).ok_or(format!("no {key}").into())
}

#[test]
fn val_distribution_function() -> Result<(), Failure> {
    let reference = reference()?;
    let cdf = at(&reference, "cdf")?;
    let (degrees, deltas) = (numbers(cdf, "degrees")?, numbers(cdf, "noncentrality")?);
    let (ts, values) = (numbers(cdf, "t")?, numbers(cdf, "value")?);
    assert_eq!(values.len(), 280);
    let mut worst = 0.0_f64;
    for (((&nu, &delta), &t), &value) in degrees.iter().zip(&deltas).zip(&ts).zip(&values) {
        let found = student::noncentral_cdf(t, nu, delta)?;
        worst = worst.max((found - value).abs());
        assert!((found - value).abs() < 1e-10, "ν {nu} δ {delta} t {t}: {found} against {value}");
    }
    // A comparison of nothing would pass the loop above.
    assert!(worst.is_finite());
    println!("greatest difference {worst:e}");
    Ok(())
}

#[test]
fn val_tolerance_factors() -> Result<(), Failure> {
    let reference = reference()?;
    let tables = at(&reference, "factor")?.as_array().ok_or("no factors")?;
    assert_eq!(tables.len(), 4);
    let mut worst = 0.0_f64;
    for table in tables {
        let level = |key: &str| table.get(key).and_then(number).ok_or(format!("no {key}"));
        let (proportion, confidence) = (level("proportion")?, level("confidence")?);
        let (sizes, factors) = (numbers(table, "n")?, numbers(table, "k")?);
        assert_eq!((sizes.len(), factors.len()), (98, 98));
        for (n, (&size, &k)) in (3..=100).zip(sizes.iter().zip(&factors)) {
            assert!((f64::from(n) - size).abs() < 0.5);
            let found = tolerance::one_sided_factor(usize::try_from(n)?, proportion, confidence)?;
            worst = worst.max((found - k).abs());
            assert!((found - k).abs() < 1e-8, "{proportion}/{confidence}, n {n}: {found} against {k}");
        }
    }
    println!("greatest difference {worst:e}");
    Ok(())
}
