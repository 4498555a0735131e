//! Loads that come again and again: the bond, the rivets and the holes by their lines of stress against cycles.

use assessment::{Basis, Finding, Known, Lack, Measure, Name, Verdict, names};
use job::tables::{ForceCycles, StressCycles};
use job::{Entry, Needed};
use mechanics::fatigue::basquin::Line;
use mechanics::fatigue::miner::{self, Mean};
use mechanics::fatigue::rainflow::{Cycle, rainflow_repeating};
use quantity::Kind;

use super::adhesive::{Data, bondline_share};
use super::lap::failed;
use super::subject::{Case, InService, Subject};
use crate::Results;

/// Damage at which failure is expected (Miner 1945, from memory).
const WHOLE: f64 = 1.0;

/// What is loaded again and again.
#[derive(Clone, Copy)]
pub(super) enum What {
    /// The bond.
    Bond,
    /// The rivets.
    Rivets,
    /// The rivet holes.
    Holes,
}

impl What {
    fn name(self) -> (&'static str, &'static Name) {
        match self {
            Self::Bond => ("bond_fatigue", &names::BOND_DAMAGE),
            Self::Rivets => ("rivet_fatigue", &names::RIVET_DAMAGE),
            Self::Holes => ("hole_fatigue", &names::HOLE_DAMAGE),
        }
    }

    /// The words for it, and what would mend it.
    fn words(self) -> (&'static str, &'static str) {
        match self {
            Self::Bond => ("bond", "make the overlap longer"),
            Self::Rivets => {
                ("rivets", "set more rivets in a row, or move the rows away from the ends of the overlap")
            }
            Self::Holes => ("rivet holes", "use fewer or smaller rivets in the row, or a thicker part"),
        }
    }

    fn kind(self) -> Kind {
        if matches!(self, Self::Rivets) { Kind::Force } else { Kind::Stress }
    }
}

/// A line of tests with the load on it.
pub(super) struct Tested<'j> {
    line: Line,
    mean: Mean,
    /// Stress (MPa) or force (N) at the case's load.
    at_load: f64,
    /// Where the job would give the stress ratio of the tests.
    ratio: &'j Entry<f64>,
}

impl<'j> Tested<'j> {
    /// A line of stress (MPa).
    pub(super) fn by_stress(entry: &'j Entry<StressCycles>, strength: f64, at_load: f64) -> Known<Self> {
        let given = entry.need()?;
        let (range, at_cycles, slope) =
            (given.strength.need(), given.at_cycles.need(), given.slope.need()).need_all()?;
        let cut_off = given.cut_off.get().map(|range| range.mpa());
        let line = Line { range: range.mpa(), at_cycles: *at_cycles, slope: *slope, cut_off };
        let mean = Mean { strength, ratio: given.stress_ratio.get().copied().unwrap_or(0.0) };
        Ok(Self { line, mean, at_load, ratio: &given.stress_ratio })
    }

    /// A line of force on a rivet (N).
    pub(super) fn by_force(entry: &'j Entry<ForceCycles>, strength: f64, at_load: f64) -> Known<Self> {
        let given = entry.need()?;
        let (range, at_cycles, slope) =
            (given.strength.need(), given.at_cycles.need(), given.slope.need()).need_all()?;
        let cut_off = given.cut_off.get().map(|range| range.n());
        let line = Line { range: range.n(), at_cycles: *at_cycles, slope: *slope, cut_off };
        let mean = Mean { strength, ratio: given.stress_ratio.get().copied().unwrap_or(0.0) };
        Ok(Self { line, mean, at_load, ratio: &given.stress_ratio })
    }

    /// The same with the range of the line changed by a share.
    fn with_share(mut self, share: f64) -> Self {
        self.line.range *= share;
        self.line.cut_off = self.line.cut_off.map(|range| range * share);
        self
    }

    /// The sum of damage. A cycle that breaks the part at once is none of fatigue.
    fn damage(&self, cycles: &[Cycle], print: impl Fn(f64) -> String) -> Known<f64> {
        let at_load = self.at_load.abs();
        let peak = cycles.iter().map(|it| 0.5 * it.range + it.mean.abs()).fold(0.0, f64::max) * at_load;
        if peak > self.mean.strength {
            let what = format!(
                "a cycle peaks at {}, beyond the static strength of {}",
                print(peak),
                print(self.mean.strength)
            );
            return Err(Lack::OutOfData { what, key: "the loads, or what carries them".to_owned() });
        }
        // A rounding must not lift a peak at the strength above it.
        let mean = Mean { strength: self.mean.strength * (1.0 + 1e-12), ..self.mean };
        let there: Vec<Cycle> = cycles
            .iter()
            .map(|it| Cycle { range: it.range * at_load, mean: it.mean * at_load, count: it.count })
            .collect();
        miner::damage(&there, &self.line, &mean).map_err(|failure| failed(&failure))
    }
}

/// The cycles of a case as shares of its load, for the whole service life; nothing where the case has no spectrum.
fn cycles(service: &InService<'_>) -> Option<Known<Vec<Cycle>>> {
    let spectrum = service.spectrum?;
    let counted = || -> Known<Vec<Cycle>> {
        if spectrum.log.get().is_some() {
            let repeats = spectrum.repeats.need()?;
            let cycles = rainflow_repeating(service.log).map_err(|failure| failed(&failure))?;
            return Ok(cycles.into_iter().map(|it| Cycle { count: it.count * repeats, ..it }).collect());
        }
        let blocks = spectrum.blocks.need()?;
        blocks
            .iter()
            .map(|block| {
                let (share, count) = (block.share.need(), block.cycles.need()).need_all()?;
                let least = block.least.get().copied().unwrap_or(0.0);
                Ok(Cycle { range: (share - least).abs(), mean: 0.5 * (share + least), count: *count })
            })
            .collect()
    };
    Some(counted())
}

/// The bond by the nominal shear at its worst point.
pub(super) fn bond(
    subject: &Subject<'_>,
    case: &Case<'_>,
    shear_mpa: &Known<f64>,
    data: &Known<Data>,
    results: &mut Results,
) {
    let tested = || -> Known<Vec<Tested<'_>>> {
        let adhesive = subject.adhesive()?;
        adhesive.fatigue.need()?;
        let values = match data {
            Ok(Data::Given(values)) => values,
            Ok(Data::Class { keys, .. }) => return Err(Lack::Missing { keys: keys.clone() }),
            Err(lack) => return Err(lack.clone()),
        };
        let share =
            bondline_share(adhesive, subject.bondline_mm.clone()?, |mm| results.print(mm, Kind::Length))?;
        let strength = values.characteristic_shear_mpa.clone()? * share;
        Ok(vec![Tested::by_stress(&adhesive.fatigue, strength, shear_mpa.clone()?)?.with_share(share)])
    };
    let tested = tested();
    find(subject, case, What::Bond, tested, results);
}

/// What a spectrum comes to.
struct Sum {
    damage: f64,
    allowed: f64,
    cycles: f64,
    /// Greatest range, MPa or N.
    greatest: f64,
    slope: f64,
}

/// Adds the damage up, of the worst of those tested, and judges it.
pub(super) fn find(
    subject: &Subject<'_>,
    case: &Case<'_>,
    what: What,
    tested: Known<Vec<Tested<'_>>>,
    results: &mut Results,
) {
    let Some(cycles) = cycles(&case.service) else { return };
    super::taken::of_spectrum(subject, case, results);
    for tested in tested.iter().flatten() {
        super::taken::of_tests(tested.ratio, results);
    }
    let known = || -> Known<Sum> {
        let (cycles, tested) = (cycles?, tested?);
        let allowed = subject.tables.factors.get().and_then(|factors| factors.damage.get().copied());
        let mut worst: Option<Sum> = None;
        for tested in &tested {
            let damage = tested.damage(&cycles, |value| results.print(value, what.kind()))?;
            if worst.as_ref().is_none_or(|worst| damage > worst.damage) {
                let widest = cycles.iter().map(|cycle| cycle.range).fold(0.0, f64::max);
                worst = Some(Sum {
                    damage,
                    allowed: WHOLE / allowed.unwrap_or(1.0),
                    cycles: cycles.iter().map(|cycle| cycle.count).sum(),
                    greatest: widest * tested.at_load.abs(),
                    slope: tested.line.slope,
                });
            }
        }
        worst.filter(|worst| worst.greatest > 0.0).ok_or(Lack::NoLoad)
    };
    let known = known();
    let (id, name) = what.name();
    let fill = [subject.name, case.name];
    results.quantities.put(name, &fill, known.as_ref().map(|sum| sum.damage).map_err(Lack::clone));
    let basis = Basis::Memory(
        "Palmgren 1924, Miner 1945: sum of damage; Basquin 1910 line of your tests; means by Goodman 1899; logs by ASTM E1049-85, 5.4.5",
    );
    let finding = subject.under(case, id, basis);
    let finding = match known {
        Err(lack) => {
            let statement = format!(
                "Whether the {} of {} bear the spectrum of the case cannot be told.",
                what.words().0,
                subject.name
            );
            finding.unknown(statement, lack)
        }
        Ok(sum) => sum.judged(finding, case, what, results),
    };
    results.findings.push(finding);
}

impl Sum {
    fn judged(&self, finding: Finding, case: &Case<'_>, what: What, results: &Results) -> Finding {
        let (word, mend) = what.words();
        let met = self.damage <= self.allowed;
        let verdict = match (case.is_required(), met) {
            (false, _) => Verdict::Note,
            (true, true) => Verdict::Met,
            (true, false) => Verdict::NotMet,
        };
        let percent = 100.0 * libm::pow(self.allowed / self.damage, 1.0 / self.slope);
        Finding {
            statement: format!(
                "The spectrum uses {} of the life of the {word} of {}; {:.2} is allowed.",
                share(self.damage),
                finding.about,
                self.allowed
            ),
            value: Some(Measure { value: self.damage, unit: "-", kind: None }),
            limit: Some(Measure { value: self.allowed, unit: "-", kind: None }),
            verdict,
            because: format!(
                "{:.3e} cycles, the widest over {}; the line of the tests holds as they were made, hot and wet are not in it.",
                self.cycles,
                results.print(self.greatest, what.kind())
            ),
            next: (verdict == Verdict::NotMet)
                .then(|| format!("Bring every range down to about {percent:.0} %: {mend}.").into()),
            ..finding
        }
    }
}

/// A share of a life, also where it is small.
fn share(damage: f64) -> String {
    if damage > 0.0 && !(0.01..1e4).contains(&damage) {
        format!("{damage:.1e}")
    } else {
        format!("{damage:.2}")
    }
}
