//! Prove: what the witness coupons say.

use assessment::{Basis, Finding, Known, Lack, Measure, Stage, names};
use evidence::characteristic::{Scatter, characteristic_value};
use evidence::coupons::{Distribution, Level, lower_bound};
use evidence::{EvidenceError, Sample};
use job::tables::Coupons;
use job::{Job, Specimen};
use quantity::Kind;

use crate::Results;

/// From how many specimens and batches on a one-sided 90/95 bound may be called B-basis (CMH-17-1G, from
/// memory).
const B_BASIS_NEEDS: (usize, usize) = (18, 3);

/// Evaluates every set of coupons.
pub(crate) fn run(job: &Job, results: &mut Results) {
    for (name, coupons) in job.tables.coupons.iter() {
        let specimens = job.specimens.get(name).map(Vec::as_slice);
        Set { name, coupons, specimens }.run(results);
    }
}

struct Set<'j> {
    name: &'j str,
    coupons: &'j Coupons,
    specimens: Option<&'j [Specimen]>,
}

impl Set<'_> {
    fn started(&self, what: &str, basis: Basis) -> Finding {
        let given = self.coupons.data.place().or_else(|| self.coupons.strengths.place());
        Finding {
            place: given.cloned().or_else(|| Some(self.coupons.place.clone())),
            ..Finding::new(Stage::Prove, format!("coupons.{}.{what}", self.name), self.name, basis)
        }
    }

    /// Strength of each specimen, MPa: load over bonded area.
    fn strengths_mpa(&self) -> Known<Vec<f64>> {
        if let Some(specimens) = self.specimens {
            return Ok(specimens.iter().map(|it| it.load_n / (it.width_mm * it.overlap_mm)).collect());
        }
        let strengths = self.coupons.strengths.need().map_err(|_| Lack::Missing {
            keys: vec![format!("{} or {}", self.coupons.data.key, self.coupons.strengths.key)],
        })?;
        Ok(strengths.iter().map(|strength| strength.mpa()).collect())
    }

    fn run(&self, results: &mut Results) {
        let strengths = self.strengths_mpa();
        if let Ok(strengths) = &strengths {
            let points: Vec<(f64, f64)> = (1_u32..).map(f64::from).zip(strengths.iter().copied()).collect();
            results.series.put(&names::COUPON_STRENGTHS, &[self.name], ("specimen", "-"), &points);
        }
        let sample =
            strengths.and_then(|strengths| Sample::new(strengths).map_err(|error| self.refused(&error)));
        self.spread(&sample, results);
        self.bound(&sample, results);
        self.characteristic(&sample, results);

        self.durability(results);
    }

    fn refused(&self, error: &EvidenceError) -> Lack {
        match error {
            EvidenceError::TooFew { .. } => {
                Lack::OutOfData { what: error.to_string(), key: format!("coupons.{}", self.name) }
            }
            _ => Lack::Failed {
                what: error.to_string(),
                advice: format!("check the values of coupons.{}", self.name),
            },
        }
    }

    fn put(
        &self,
        name: &assessment::Name,
        sample: &Known<Sample>,
        of: impl Fn(&Sample) -> Result<f64, EvidenceError>,
        results: &mut Results,
    ) -> Known<f64> {
        let value = sample
            .as_ref()
            .map_err(Lack::clone)
            .and_then(|sample| of(sample).map_err(|error| self.refused(&error)));
        results.quantities.put(name, &[self.name], value.clone());
        value
    }

    fn spread(&self, sample: &Known<Sample>, results: &mut Results) {
        let mean = self.put(&names::COUPON_MEAN, sample, Sample::mean, results);
        let cov = self.put(&names::COUPON_COV, sample, Sample::coefficient_of_variation, results);
        let finding = self.started("mean", Basis::YourData("load at failure over bonded area"));
        let number = sample.as_ref().map_or(0, Sample::size);
        results.findings.push(match (mean, cov) {
            (Ok(mean), Ok(cov)) => Finding {
                statement: format!("{number} coupons break at {} on average, with a scatter of {:.1} %.", results.print(mean, Kind::Stress), cov * 100.0),
                value: Some(Measure::of(mean, Kind::Stress)),
                because: "A lap coupon's mean shear compares batches and finds bad bonds; it is no strength to size a joint by.".to_owned(),
                ..finding
            },
            (Ok(mean), Err(lack)) => finding.unknown(format!("The scatter of {} about {} cannot be told.", self.name, results.print(mean, Kind::Stress)), lack),
            (Err(lack), _) => finding.unknown(format!("What the coupons {} hold cannot be told.", self.name), lack),
        });
    }

    fn bound(&self, sample: &Known<Sample>, results: &mut Results) {
        let (word, distribution) = match self.coupons.distribution.get() {
            Some(job::tables::Distribution::Lognormal) => ("lognormal", Distribution::Lognormal),
            Some(job::tables::Distribution::Normal) | None => ("normal", Distribution::Normal),
        };
        let bound =
            self.put(&names::B_BASIS, sample, |sample| lower_bound(sample, distribution, Level::B), results);
        // A sample with a 90/95 bound has a 99/95 bound, too; it is given, and not made a finding of its own.
        let _ =
            self.put(&names::A_BASIS, sample, |sample| lower_bound(sample, distribution, Level::A), results);
        let finding = self
            .started("bound", Basis::Memory("one-sided tolerance bound by the non-central t, CMH-17-1G 8.5"));
        results.findings.push(match (bound, sample) {
            (Ok(bound), Ok(sample)) => {
                let (count, batches) = (sample.size(), self.batches());
                let named = if count >= B_BASIS_NEEDS.0
                    && batches.is_some_and(|batches| batches >= B_BASIS_NEEDS.1)
                {
                    "B-basis, "
                } else {
                    ""
                };
                let batches = match batches {
                    None => "batches not stated".to_owned(),
                    Some(1) => "one batch".to_owned(),
                    Some(batches) => format!("{batches} batches"),
                };
                Finding {
                    statement: format!(
                        "The {named}90/95 {word} bound, n = {count}, {batches}, is {}.",
                        results.print(bound, Kind::Stress)
                    ),
                    value: Some(Measure::of(bound, Kind::Stress)),
                    because: "With 95 % confidence nine of ten such coupons hold more.".to_owned(),
                    ..finding
                }
            }
            (Err(lack), _) => finding.unknown("A lower bound cannot be told.".to_owned(), lack),
            (_, Err(lack)) => finding.unknown("A lower bound cannot be told.".to_owned(), lack.clone()),
        });
    }

    /// How many batches there are; `None` where a specimen does not say.
    fn batches(&self) -> Option<usize> {
        let mut names: Vec<&str> = self.specimens?.iter().map(|it| it.batch.as_str()).collect();
        names.sort_unstable();
        names.dedup();
        (!names.contains(&"")).then_some(names.len())
    }

    fn characteristic(&self, sample: &Known<Sample>, results: &mut Results) {
        let value = self.put(
            &names::CHARACTERISTIC,
            sample,
            |sample| characteristic_value(sample, Scatter::Unknown),
            results,
        );
        let finding = self.started(
            "characteristic",
            Basis::Memory("EN 1990:2002, Annex D, D7.2, coefficient of variation unknown"),
        );
        results.findings.push(match value {
            Ok(value) => Finding {
                statement: format!("The characteristic value is {}.", results.print(value, Kind::Stress)),
                value: Some(Measure::of(value, Kind::Stress)),
                because: "The next coupon of this kind holds more with a chance of 95 %.".to_owned(),
                ..finding
            },
            Err(lack) => finding.unknown("A characteristic value cannot be told.".to_owned(), lack),
        });
    }

    /// Lap shear is blind to the durability of the surface, and says so each time.
    fn durability(&self, results: &mut Results) {
        results.findings.push(Finding {
            statement: format!("The coupons {} say nothing of how long the surface lasts.", self.name),
            because: "Lap shear on fresh coupons is blind to it; wedge coupons kept warm and wet show it."
                .to_owned(),
            next: Some(
                "Make wedge coupons (ISO 10354) with the same surface on the same day.".to_owned().into(),
            ),
            ..self
                .started("durability", Basis::CommonPractice("wedge test for the durability of the surface"))
        });
    }
}
