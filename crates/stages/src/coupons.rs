//! Prove: what the witness coupons say.

use assessment::{Basis, Finding, Known, Lack, Measure, PointName, Stage, Verdict, names};
use evidence::anderson_darling::best_distribution;
use evidence::characteristic::{Scatter, characteristic_value};
use evidence::coupons::{Distribution, Level, is_basis_value, lower_bound};
use evidence::pattern::{Pattern, PatternError};
use evidence::{EvidenceError, Sample, weibull};
use job::tables::Coupons;
use job::{Job, Specimen};
use quantity::Kind;

use crate::Results;

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
        let patterns = self.patterns();
        if self.coupons.is_cracked() {
            self.surface(&patterns, results);
            return;
        }
        results.assume_silent(
            &self.coupons.distribution,
            Basis::CommonPractice("the normal distribution where none is named"),
            |_| format!("The bounds of the coupons {} rest on the normal distribution.", self.name),
        );
        let strengths = self.strengths_mpa();
        if let Ok(strengths) = &strengths {
            let points = strengths
                .iter()
                .enumerate()
                .map(|(index, strength)| (self.point(index, &patterns), *strength));
            results.series.put_named(
                &names::COUPON_STRENGTHS,
                &[self.name],
                ("specimen", "-"),
                points.collect(),
            );
        }
        let sample =
            strengths.and_then(|strengths| Sample::new(strengths).map_err(|error| self.refused(&error)));
        self.spread(&sample, results);
        self.bound(&sample, results);
        self.characteristic(&sample, results);
        self.surface(&patterns, results);

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
        let distribution = sample.as_ref().map_err(Lack::clone).and_then(|sample| self.distribution(sample));
        let mut at = |name, level| {
            let of = |sample: &Sample| {
                let (_, distribution) = distribution.as_ref().map_err(Lack::clone)?;
                lower_bound(sample, *distribution, level).map_err(|error| self.refused(&error))
            };
            let value = sample.as_ref().map_err(Lack::clone).and_then(of);
            results.quantities.put(name, &[self.name], value.clone());
            value
        };
        let bound = at(&names::B_BASIS, Level::B);
        // The 99/95 bound is a quantity for whoever asks for it, and no finding of its own.
        let _ = at(&names::A_BASIS, Level::A);
        self.weibull(sample, results);
        let basis = Basis::Memory(
            "one-sided tolerance bound, CMH-17-1G 8.5, by the non-central t or the Weibull pivots",
        );
        let finding = self.started("bound", basis);
        let told = bound
            .and_then(|bound| Ok((bound, distribution.clone()?.0, sample.as_ref().map_err(Lack::clone)?)));
        results.findings.push(match told {
            Err(lack) => finding.unknown("A lower bound cannot be told.".to_owned(), lack),
            Ok((bound, word, sample)) => {
                let (count, batches) = (sample.size(), self.batches());
                let basis_value = batches.is_some_and(|batches| is_basis_value(count, batches));
                let named = if basis_value { "B-basis, " } else { "" };
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
        });
    }

    /// The distribution of the bounds, and its name.
    fn distribution(&self, sample: &Sample) -> Known<(&'static str, Distribution)> {
        use job::tables::Distribution as Asked;
        let chosen = match self.coupons.distribution.get() {
            Some(Asked::Normal) | None => Distribution::Normal,
            Some(Asked::Lognormal) => Distribution::Lognormal,
            Some(Asked::Weibull) => Distribution::Weibull,
            Some(Asked::Best) => best_distribution(sample).map_err(|error| self.refused(&error))?,
        };
        let word = match chosen {
            Distribution::Normal => "normal",
            Distribution::Lognormal => "lognormal",
            Distribution::Weibull => "Weibull",
        };
        Ok((word, chosen))
    }

    /// Shape and scale of the Weibull distribution nearest to the specimens, by maximum likelihood.
    fn weibull(&self, sample: &Known<Sample>, results: &mut Results) {
        let fitted = sample
            .as_ref()
            .map_err(Lack::clone)
            .and_then(|sample| weibull::fit(sample).map_err(|error| self.refused(&error)));
        let shape = fitted.as_ref().map(|fitted| fitted.shape).map_err(Lack::clone);
        results.quantities.put(&names::WEIBULL_SHAPE, &[self.name], shape);
        results.quantities.put(&names::WEIBULL_SCALE, &[self.name], fitted.map(|fitted| fitted.scale));
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

    /// The failure pattern of each specimen of a file, in its order; `None` where nobody looked.
    fn patterns(&self) -> Vec<Option<Result<Pattern, PatternError>>> {
        let specimens = self.specimens.unwrap_or_default();
        specimens
            .iter()
            .map(|it| Some(it.pattern.value.as_str()).filter(|text| !text.is_empty()).map(Pattern::parse))
            .collect()
    }

    /// What a specimen is called, and what its fracture says.
    fn point(&self, index: usize, patterns: &[Option<Result<Pattern, PatternError>>]) -> PointName {
        let specimen = self.specimens.and_then(|specimens| specimens.get(index));
        let name = specimen.map(|it| it.specimen.clone());
        let adhesive = patterns
            .get(index)
            .and_then(|pattern| pattern.as_ref()?.as_ref().ok())
            .map_or(0.0, Pattern::possible_adhesion_share);
        PointName {
            name: name.unwrap_or_else(|| format!("{}", index + 1)),
            pattern: specimen.map(|it| it.pattern.value.clone()).filter(|pattern| !pattern.is_empty()),
            remark: (adhesive > 0.0).then(|| format!("{:.0} % off the metal", adhesive * 100.0)),
        }
    }

    /// Whether the coupons broke in the adhesive. One that came off the metal tells of the surface, whatever
    /// its strength.
    fn surface(&self, patterns: &[Option<Result<Pattern, PatternError>>], results: &mut Results) {
        let finding = self.started(
            "surface",
            Basis::CommonPractice("a sound bond breaks in the adhesive; patterns by ISO 10365:1992"),
        );
        let specimens = self.specimens.unwrap_or_default();
        let unread = specimens.iter().zip(patterns).find_map(|(it, pattern)| match pattern {
            None => Some((it, format!("the pattern of specimen {} is not given", it.specimen))),
            Some(Err(error)) => {
                Some((it, format!("the pattern of specimen {} is not understood: {error}", it.specimen)))
            }
            Some(Ok(_)) => None,
        });
        let off: Vec<String> = (0..specimens.len())
            .map(|index| self.point(index, patterns))
            .filter_map(|point| point.remark.map(|remark| format!("{} ({remark})", point.name)))
            .collect();
        let statement = match off.len() {
            0 => format!("All coupons of {} broke in the adhesive.", self.name),
            1 => format!("One coupon of {} came off the metal: {}.", self.name, off.join(", ")),
            count => format!("{count} coupons of {} came off the metal: {}.", self.name, off.join(", ")),
        };
        results.findings.push(if !off.is_empty() {
            Finding {
                statement,
                verdict: Verdict::NotMet,
                because: "A bond that leaves the metal tells of its surface, whatever its strength.".to_owned(),
                next: Some("Find out what was different about that surface, prepare anew, and make the coupons again.".to_owned().into()),
                ..finding
            }
        } else if specimens.is_empty() {
            let lack = Lack::Missing { keys: vec![format!("{} with a column pattern", self.coupons.data.key)] };
            finding.unknown(format!("Whether the coupons {} broke in the adhesive cannot be told.", self.name), lack)
        } else if let Some((specimen, what)) = unread {
            let lack = Lack::OutOfData { what, key: self.coupons.data.key.clone() };
            let place = Some(specimen.pattern.place.clone());
            Finding { place, ..finding }.unknown(format!("Whether the coupons {} broke in the adhesive cannot be told.", self.name), lack)
        } else {
            Finding { statement, verdict: Verdict::Met, because: "The strengths are those of the adhesive.".to_owned(), ..finding }
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
