//! Prove: what witness coupons tell of the adhesive itself, by turning the strip to failure.
//!
//! Coupons of several kinds and lengths, broken with one adhesive, are loaded in the strip with strengths and
//! toughnesses that are sought until the strip carries what they carried. What comes of it are the user's own data; the
//! next step of the finding puts them into the adhesive's table.

mod coupons;
mod told;

use std::cell::Cell;

use assessment::{Basis, Finding, Known, Lack, Stage};
use evidence::EvidenceError;
use evidence::recovery::{Recovery, recover};
use job::tables::{Adhesive, Coupons};
use job::{Entry, Job};
use mechanics::strip;
use quantity::Kind;

use self::coupons::Witnesses;
use crate::join::{Range, range, range_of_any};
use crate::sections::failed;
use crate::witness::Properties;
use crate::{Ask, Results};

/// The most strips that are loaded for one adhesive: some seconds' work, several times what a search needs.
const MOST_STRIPS: usize = 600;

/// What is sought, in this order.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Property {
    Shear,
    Second,
    First,
}

const SOUGHT: [Property; 3] = [Property::Shear, Property::Second, Property::First];

/// Finds the properties of every adhesive whose coupons name their plates.
pub(crate) fn run(job: &Job, ask: &Ask, results: &mut Results) {
    if !ask.to_failure {
        return;
    }
    for (name, adhesive) in job.tables.adhesives.iter() {
        let sets = coupons::sets(job, name);
        if sets.is_empty() {
            continue;
        }
        let found = find(job, name, adhesive, &sets, results);
        told::tell(name, adhesive, &sets, &found, results);
    }
}

/// What the coupons of an adhesive gave.
struct Found {
    witnesses: Witnesses,
    recovery: Recovery,
    /// Where the search began, in the order of [`SOUGHT`].
    start: [f64; 3],
    /// The tensile strength that was held, MPa.
    tensile_mpa: f64,
    /// Share of the cantilevers' bonds that gives at their greatest load.
    damaged_share: f64,
}

fn find(
    job: &Job,
    name: &str,
    adhesive: &Adhesive,
    sets: &[(&str, &Coupons)],
    results: &mut Results,
) -> Known<Found> {
    let range = adhesive.class.get().map_or_else(range_of_any, |class| range(*class));
    let layer = layer(name, adhesive, &range, results)?;
    let mut witnesses = Witnesses::of(job, adhesive, sets, layer, results)?;
    let tensile_mpa = tensile_mpa(name, adhesive, &range, results);
    let stress =
        |entry: &Entry<quantity::Stress>, range| entry.get().map_or_else(|| middle(range), |it| it.mpa());
    let tough = |entry: &Entry<quantity::Toughness>, range| {
        entry.get().map_or_else(|| middle(range), |it| it.n_per_mm())
    };
    let start = [
        stress(&adhesive.shear_strength, range.characteristic_shear_mpa),
        tough(&adhesive.mode_2_toughness, range.mode_2_toughness_n_mm),
        tough(&adhesive.mode_1_toughness, range.mode_1_toughness_n_mm),
    ];
    let properties = |sought: &[f64]| {
        let &[shear_mpa, second_n_mm, first_n_mm] = sought else { return None };
        Some(Properties { shear_mpa, tensile_mpa, second_n_mm, first_n_mm })
    };
    if let Some(first) = properties(&start) {
        witnesses.learn(&first)?;
    }
    let tries = Cell::new(MOST_STRIPS / witnesses.strips().max(1));
    let model = |sought: &[f64]| {
        tries.set(tries.get().checked_sub(1)?);
        witnesses.foretold_n_mm(&properties(sought)?)
    };
    let recovery =
        recover(&start, &witnesses.measured_n_mm(), &model).map_err(|error| refused(&error, sets))?;
    let best = properties(&recovery.most_likely());
    let damaged_share = best.map_or(0.0, |best| witnesses.damaged_share(&best));
    Ok(Found { witnesses, recovery, start, tensile_mpa, damaged_share })
}

/// The layer of the coupons: as given, or in the middle of the class.
fn layer(name: &str, adhesive: &Adhesive, range: &Range, results: &mut Results) -> Known<strip::Adhesive> {
    let by_class =
        |lack: job::Absent| if adhesive.class.get().is_some() { Ok(()) } else { Err(Lack::from(lack)) };
    let modulus = adhesive
        .youngs_modulus
        .need()
        .map(|it| it.mpa())
        .or_else(|lack| by_class(lack).map(|()| middle(range.youngs_modulus_mpa)))?;
    let ratio = adhesive
        .poissons_ratio
        .need()
        .copied()
        .or_else(|lack| by_class(lack).map(|()| middle(range.poissons_ratio)))?;
    if adhesive.youngs_modulus.get().is_none() || adhesive.poissons_ratio.get().is_none() {
        let statement = format!(
            "In the coupons of {name} the adhesive has a modulus of {} and a Poisson's ratio of {ratio:.2}, where they are not given.",
            results.print(modulus, Kind::Stress)
        );
        let basis = Basis::CommonPractice("the middle of the class");
        results.assume(&adhesive.class.key, statement, basis);
    }
    strip::Adhesive::isotropic(modulus, ratio).map_err(|failure| failed(&failure))
}

/// The tensile strength, to which these coupons hardly answer: as given, or in the middle of what such adhesives have.
fn tensile_mpa(name: &str, adhesive: &Adhesive, range: &Range, results: &mut Results) -> f64 {
    let tensile_mpa = adhesive
        .tensile_strength
        .get()
        .map_or_else(|| middle(range.characteristic_tensile_mpa), |it| it.mpa());
    let basis = Basis::CommonPractice("the middle of what such adhesives have");
    results.assume_silent(&adhesive.tensile_strength, basis, |results| {
        let tensile = results.print(tensile_mpa, Kind::Stress);
        format!("In the coupons of {name} the adhesive has a tensile strength of {tensile}; they hardly answer to it.")
    });
    tensile_mpa
}

/// The middle of a range, by ratios.
fn middle([low, high]: [f64; 2]) -> f64 {
    (low * high).sqrt()
}

fn refused(error: &EvidenceError, sets: &[(&str, &Coupons)]) -> Lack {
    match error {
        EvidenceError::TooFew { .. } => Lack::OutOfData {
            what: error.to_string(),
            key: sets.last().map_or_else(String::new, |(_, set)| set.data.key.clone()),
        },
        _ => Lack::Failed {
            what: format!("{error}: the strip and the coupons could not be brought together"),
            advice: "check loads, sizes, plates and moduli of the coupons for a slip".to_owned(),
        },
    }
}

/// A finding on an adhesive by its coupons.
fn started(name: &str, what: &str, sets: &[(&str, &Coupons)]) -> Finding {
    let basis = Basis::YourData(
        "loads of the coupons, turned by the strip to failure; 95 % region by nonlinear least squares (Seber and Wild 1989, from memory)",
    );
    let place = sets.first().map(|(_, set)| set.data.place().cloned().unwrap_or_else(|| set.place.clone()));
    Finding { place, ..Finding::new(Stage::Prove, format!("recovery.{name}.{what}"), name, basis) }
}

#[cfg(test)]
mod tests;
