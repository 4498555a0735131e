//! Statistics of `evidence`.

use evidence::anderson_darling;
use evidence::batches::{self, Summary};
use evidence::characteristic::{self, Scatter};
use evidence::coupons::{self, Distribution, Level};
use evidence::pattern::{Code, Pattern};
use evidence::sample::Sample;
use evidence::{nonparametric, outlier, student, tolerance};

use super::{Output, count};
use crate::error::{InputError, MethodError};
use crate::inputs::Inputs;

/// `evidence::tolerance::one_sided_factor`; with `mean` and `standard_deviation` also the bound above.
pub(super) fn tolerance_factor(inputs: &Inputs<'_>) -> Result<Vec<Output>, MethodError> {
    let level = level(inputs)?;
    let k = tolerance::one_sided_factor(inputs.count("n")?, level.proportion, level.confidence)?;
    let mut outputs = vec![Output::number("k", k)];
    if inputs.has("mean") {
        let bound = inputs.number("mean")? + k * inputs.number("standard_deviation")?;
        outputs.push(Output::number("upper_bound", bound));
    }
    Ok(outputs)
}

/// `evidence::student::noncentral_cdf`.
pub(super) fn noncentral_t(inputs: &Inputs<'_>) -> Result<Vec<Output>, MethodError> {
    let (t, degrees) = (inputs.number("t")?, inputs.number("degrees")?);
    let chance = student::noncentral_cdf(t, degrees, inputs.number("noncentrality")?)?;
    Ok(vec![Output::number("chance", chance)])
}

/// `evidence::characteristic::factor`.
pub(super) fn characteristic_factor(inputs: &Inputs<'_>) -> Result<Vec<Output>, MethodError> {
    // The factor does not depend on how great the known coefficient of variation is.
    let known = Scatter::Known { coefficient_of_variation: 0.1 };
    let scatter = inputs.word("scatter", &[("unknown", Scatter::Unknown), ("known", known)])?;
    Ok(vec![Output::number("k_n", characteristic::factor(inputs.count("n")?, scatter)?)])
}

/// `evidence::sample`.
pub(super) fn sample(inputs: &Inputs<'_>) -> Result<Vec<Output>, MethodError> {
    let sample = values(inputs)?;
    Ok(vec![
        Output::number("mean", sample.mean()?),
        Output::number("standard_deviation", sample.standard_deviation()?),
    ])
}

/// `evidence::coupons::lower_bound`.
pub(super) fn lower_bound(inputs: &Inputs<'_>) -> Result<Vec<Output>, MethodError> {
    let bound = coupons::lower_bound(&values(inputs)?, distribution(inputs)?, level(inputs)?)?;
    Ok(vec![Output::number("bound", bound)])
}

/// `evidence::anderson_darling::fit`.
pub(super) fn goodness_of_fit(inputs: &Inputs<'_>) -> Result<Vec<Output>, MethodError> {
    let fit = anderson_darling::fit(&values(inputs)?, distribution(inputs)?)?;
    Ok(vec![Output::number("statistic", fit.statistic), Output::number("significance", fit.significance)])
}

/// `evidence::outlier::normed_residual`.
pub(super) fn normed_residual(inputs: &Inputs<'_>) -> Result<Vec<Output>, MethodError> {
    let residual = outlier::normed_residual(&values(inputs)?, inputs.number("alpha")?)?;
    Ok(vec![
        Output::number("statistic", residual.statistic),
        Output::number("critical", residual.critical),
        count("outliers", usize::from(residual.is_outlier()))?,
    ])
}

/// `evidence::batches::k_sample`.
pub(super) fn k_sample(inputs: &Inputs<'_>) -> Result<Vec<Output>, MethodError> {
    let test = batches::k_sample(&samples(inputs)?)?;
    Ok(vec![
        Output::number("statistic", test.statistic),
        Output::number("statistic_over_k_minus_1", test.per_freedom),
        Output::number("sigma", test.sigma),
    ])
}

/// `evidence::batches::levene`.
pub(super) fn levene(inputs: &Inputs<'_>) -> Result<Vec<Output>, MethodError> {
    Ok(vec![Output::number("statistic", batches::levene(&samples(inputs)?)?.statistic)])
}

/// `evidence::batches::unchanged_mean`.
pub(super) fn change_of_mean(inputs: &Inputs<'_>) -> Result<Vec<Output>, MethodError> {
    let (qualified, later) = (inputs.table("qualified")?, inputs.table("later")?);
    let qualified = Summary {
        count: qualified.count("n")?,
        mean: qualified.number("mean")?,
        standard_deviation: qualified.number("standard_deviation")?,
    };
    let (n, s) = (later.count("n")?, later.number("standard_deviation")?);
    let (least, greatest) = batches::unchanged_mean(&qualified, n, s, inputs.number("alpha")?)?;
    Ok(vec![Output::number("least_mean", least), Output::number("greatest_mean", greatest)])
}

/// `evidence::nonparametric::lower_bound`.
pub(super) fn nonparametric_bound(inputs: &Inputs<'_>) -> Result<Vec<Output>, MethodError> {
    let bound = nonparametric::lower_bound(&values(inputs)?, level(inputs)?)?;
    Ok(vec![Output::number("bound", bound)])
}

/// `evidence::nonparametric::rank`; zero where not even the least value is a bound.
pub(super) fn nonparametric_rank(inputs: &Inputs<'_>) -> Result<Vec<Output>, MethodError> {
    let rank = nonparametric::rank(inputs.count("n")?, level(inputs)?)?;
    Ok(vec![count("rank", rank.unwrap_or(0))?])
}

/// The least sample in which the value of that rank is a bound, by `evidence::nonparametric::rank`.
pub(super) fn least_sample_for_rank(inputs: &Inputs<'_>) -> Result<Vec<Output>, MethodError> {
    let (rank, level) = (inputs.count("rank")?, level(inputs)?);
    // The rank never falls with n; ten thousand values are more than any table has.
    for n in rank..10_000 {
        if nonparametric::rank(n, level)?.is_some_and(|found| found >= rank) {
            return Ok(vec![count("n", n)?]);
        }
    }
    Err(MethodError::NoAnswer { what: "sample of fewer than 10 000 values" })
}

/// `evidence::pattern::Pattern`.
pub(super) fn failure_pattern(inputs: &Inputs<'_>) -> Result<Vec<Output>, MethodError> {
    let pattern = Pattern::parse(inputs.text("pattern")?)?;
    Ok(vec![
        Output::number("adhesion_share", pattern.adhesion_share()),
        Output::number("possible_adhesion_share", pattern.possible_adhesion_share()),
        count("codes", pattern.shares().len())?,
    ])
}

/// `evidence::pattern::Code::ALL`.
pub(super) fn failure_pattern_codes(_: &Inputs<'_>) -> Result<Vec<Output>, MethodError> {
    Ok(vec![count("codes", Code::ALL.len())?])
}

fn values(inputs: &Inputs<'_>) -> Result<Sample, MethodError> {
    Ok(Sample::new(inputs.numbers("values")?)?)
}

fn samples(inputs: &Inputs<'_>) -> Result<Vec<Sample>, MethodError> {
    inputs.lists("batches")?.into_iter().map(|values| Ok(Sample::new(values)?)).collect()
}

fn distribution(inputs: &Inputs<'_>) -> Result<Distribution, InputError> {
    inputs.word(
        "distribution",
        &[
            ("normal", Distribution::Normal),
            ("lognormal", Distribution::Lognormal),
            ("Weibull", Distribution::Weibull),
        ],
    )
}

fn level(inputs: &Inputs<'_>) -> Result<Level, InputError> {
    Ok(Level { proportion: inputs.number("proportion")?, confidence: inputs.number("confidence")? })
}
