//! The lap of a data sheet turned into what strengths and toughnesses go together with it, by the strip to failure.
//!
//! One number names one combination. Between the least and the greatest values that such adhesives have, the
//! combinations that carry what the lap carried lie on a line:
//!
//! ```text
//! strengths ↑   ┌───╲───────┐      F(strengths, toughnesses) = what the lap carried
//!               │     ╲     │      one end: as strong, and as little tough, as may be
//!               └───────╲───┘      the other: as tough, and as little strong
//!                  toughnesses →
//! ```
//!
//! Both ends of the line go on into Join; each carries the lap of the data sheet.

use assessment::{Basis, Finding, Known, Lack, Stage, names};
use job::Needed;
use job::tables::{Adhesive, LapShear, Material, Tables};
use mechanics::closed::{self, goland_reissner};
use mechanics::strip;
use mechanics::strip::progressive::Walker;
use quantity::Kind;

use super::adhesive::{bondline_share, bondline_toughness_share};
use super::ends::{Ends, Filling, Range, range, range_of_any, wanting};
use super::lap::failed;
use crate::witness::{self, Coupon, Foretold, Form, Properties};
use crate::{Ask, Results};

/// From the overlap to the grips where nothing is said, mm: plates of 100 mm, 37.5 mm of which are gripped (ISO 4587,
/// from memory).
pub(crate) const FREE_LENGTH_MM: f64 = 50.0;

/// The bondline of a data sheet that names none, mm (ISO 4587 recommends it, from memory).
const BONDLINE_MM: f64 = 0.2;

/// Data sheets state means, ranges of classes are characteristic: means reach higher by this.
const MEANS: f64 = 1.2;

/// How near to the strength of the lap a combination must carry.
const NEAR: f64 = 2e-3;

/// Halvings of the line along which a combination is sought.
const HALVINGS: u32 = 12;

/// Finds what goes together with the lap of an adhesive's data sheet, and tells it.
pub(super) fn find(
    name: &str,
    adhesive: &Adhesive,
    tables: &Tables,
    ask: &Ask,
    results: &mut Results,
) -> Option<Ends> {
    let lap = adhesive.lap_shear.get().filter(|_| ask.to_failure)?;
    let keys = wanting(adhesive);
    if keys.is_empty() {
        return None;
    }
    let basis = Basis::YourData(
        "strength of a lap off the data sheet, turned by the strip to failure; what such adhesives may have by common practice, no source",
    );
    let finding = Finding {
        place: Some(lap.place.clone()),
        ..Finding::new(Stage::Join, format!("adhesives.{name}.lap_shear"), name, basis)
    };
    let inverted = Sheet::of(name, adhesive, lap, tables, results).and_then(|sheet| {
        let both = sheet.both()?;
        Ok((sheet, both))
    });
    put(name, &inverted, results);
    match inverted {
        Err(lack) => {
            let statement = format!("What the lap of its data sheet tells of {name} cannot be told.");
            results.findings.push(finding.unknown(statement, lack));
            None
        }
        Ok((sheet, both)) => {
            results.findings.push(told(finding, &sheet, &both, &keys, results));
            let adhesives = both.map(|end| end.values.into(adhesive, &lap.place));
            let mut keys = keys;
            if adhesive.scatter.get().is_none() {
                keys.push(adhesive.scatter.key.clone());
            }
            Some(Ends { adhesives, keys, by: "what the lap of its data sheet carried" })
        }
    }
}

/// One end of the line.
#[derive(Debug, Clone, Copy)]
struct End {
    values: Filling,
    foretold: Foretold,
}

/// The lap of a data sheet, ready to be loaded.
struct Sheet<'j> {
    adhesive: &'j Adhesive,
    material: &'j Material,
    range: Range,
    /// Its strips but for the layer, which differs between the ends.
    coupon: Coupon,
    measured_n_mm: f64,
    /// Strength and toughness at its bondline, as shares of those of the adhesive.
    shares: [f64; 2],
}

impl<'j> Sheet<'j> {
    fn of(
        name: &str,
        adhesive: &'j Adhesive,
        lap: &LapShear,
        tables: &'j Tables,
        results: &mut Results,
    ) -> Known<Self> {
        let (strength, material, thickness, overlap) = (
            lap.strength.need(),
            tables.materials.referred(&lap.adherend),
            lap.thickness.need(),
            lap.overlap.need(),
        )
            .need_all()?;
        let (plate, hardening) = witness::plate(material, thickness.mm())?;
        let bondline_mm = bondline_mm(name, adhesive, lap, results);
        let basis = Basis::Memory("ISO 4587: plates of 100 mm, of which 37.5 mm are gripped");
        results.assume_silent(&lap.free_length, basis, |results| {
            let length = results.print(FREE_LENGTH_MM, Kind::Length);
            format!("The lap of the data sheet of {name} is taken to be gripped {length} from its overlap.")
        });
        let print = |mm| results.print(mm, Kind::Length);
        let shares = [
            bondline_share(adhesive, bondline_mm, print)?,
            bondline_toughness_share(adhesive, bondline_mm, print)?,
        ];
        let range = adhesive.class.get().map_or_else(range_of_any, |class| range(*class));
        let layer = strip::Adhesive::isotropic(range.youngs_modulus_mpa[0], range.poissons_ratio[0]);
        let coupon = Coupon {
            form: Form::Lap { arm_mm: lap.free_length.get().map_or(FREE_LENGTH_MM, |length| length.mm()) },
            plate,
            hardening,
            layer: layer.map_err(|failure| failed(&failure))?,
            bondline_mm,
            overlap_mm: overlap.mm(),
        };
        let measured_n_mm = strength.mpa() * overlap.mm();
        Ok(Self { adhesive, material, range, coupon, measured_n_mm, shares })
    }

    /// Both ends of the line: strong and little tough, then tough and little strong.
    fn both(&self) -> Known<[End; 2]> {
        Ok([
            self.end(|way| [way.min(1.0), (way - 1.0).max(0.0)], 1)?,
            self.end(|way| [(way - 1.0).max(0.0), way.min(1.0)], 0)?,
        ])
    }

    /// The combination on a way from the least of everything, at 0, to the greatest, at 2, that carries what the lap
    /// carried. Strengths and toughnesses grow along it, and the load with them. The layer is as stiff as that end of
    /// the range of moduli.
    fn end(&self, place: impl Fn(f64) -> [f64; 2], modulus: usize) -> Known<End> {
        let mut walker = Walker::new();
        let mut at = |way: f64| self.at(place(way), modulus, &mut walker);
        let (least, greatest) = (at(0.0)?, at(2.0)?);
        let ratio = |end: &End| end.foretold.load_n_mm / self.measured_n_mm;
        if ratio(&least) > 1.0 + NEAR || ratio(&greatest) < 1.0 - NEAR {
            return Err(self.beyond(&least, &greatest));
        }
        let (mut low, mut high) = (0.0, 2.0);
        let mut found = if (ratio(&least) - 1.0).abs() <= NEAR { least } else { greatest };
        for _ in 0..HALVINGS {
            if (ratio(&found) - 1.0).abs() <= NEAR {
                break;
            }
            let middle = 0.5 * (low + high);
            found = at(middle)?;
            if ratio(&found) < 1.0 { low = middle } else { high = middle }
        }
        Ok(found)
    }

    /// Strengths and toughnesses at their places between least (0) and greatest (1), by their logarithms.
    fn at(&self, [strength, toughness]: [f64; 2], modulus: usize, walker: &mut Walker) -> Known<End> {
        let between = |[low, high]: [f64; 2], share: f64| low * libm::pow(MEANS * high / low, share);
        let given = |value: Option<f64>, otherwise: f64| value.unwrap_or(otherwise);
        let (adhesive, range) = (self.adhesive, &self.range);
        let values = Filling {
            youngs_modulus_mpa: given(
                adhesive.youngs_modulus.get().map(|it| it.mpa()),
                range.youngs_modulus_mpa[modulus],
            ),
            poissons_ratio: given(adhesive.poissons_ratio.get().copied(), range.poissons_ratio[modulus]),
            shear_mpa: given(
                adhesive.shear_strength.get().map(|it| it.mpa()),
                between(range.characteristic_shear_mpa, strength),
            ),
            tensile_mpa: given(
                adhesive.tensile_strength.get().map(|it| it.mpa()),
                between(range.characteristic_tensile_mpa, strength),
            ),
            first_n_mm: given(
                adhesive.mode_1_toughness.get().map(|it| it.n_per_mm()),
                between(range.mode_1_toughness_n_mm, toughness),
            ),
            second_n_mm: given(
                adhesive.mode_2_toughness.get().map(|it| it.n_per_mm()),
                between(range.mode_2_toughness_n_mm, toughness),
            ),
        };
        let layer = strip::Adhesive::isotropic(values.youngs_modulus_mpa, values.poissons_ratio)
            .map_err(|failure| failed(&failure))?;
        let [strong, tough] = self.shares;
        let properties = Properties {
            shear_mpa: strong * values.shear_mpa,
            tensile_mpa: strong * values.tensile_mpa,
            second_n_mm: tough * values.second_n_mm,
            first_n_mm: tough * values.first_n_mm,
        };
        let foretold = Coupon { layer, ..self.coupon.clone() }.foretell(&properties, walker)?;
        Ok(End { values, foretold })
    }

    /// No such adhesive carries what the lap carried.
    fn beyond(&self, least: &End, greatest: &End) -> Lack {
        let mean = |load_n_mm: f64| {
            quantity::print(load_n_mm / self.coupon.overlap_mm, Kind::Stress, quantity::System::Metric)
        };
        Lack::OutOfData {
            what: format!(
                "with all that such adhesives may have, and with what is given of this one, the lap would carry from {} to {}; the data sheet says {}",
                mean(least.foretold.load_n_mm),
                mean(greatest.foretold.load_n_mm),
                mean(self.measured_n_mm)
            ),
            key: self.adhesive.lap_shear.key.clone(),
        }
    }

    /// What is known of the plates at the strength of the lap.
    fn plates(&self, both: &[End; 2], results: &Results) -> String {
        if self.coupon.hardening.is_some() {
            return if both.iter().any(|end| end.foretold.yields) {
                "Its plates yield before its bond gives way; that is counted.".to_owned()
            } else {
                "Its plates stay elastic.".to_owned()
            };
        }
        let proof = match self.material.proof_strength.need() {
            Ok(proof) => proof.mpa(),
            Err(absent) => {
                return format!(
                    "Whether its plates yield cannot be told without {}.",
                    absent.keys.join(", ")
                );
            }
        };
        let Ok(stress) = self.bent_mpa(&both[0]) else { return String::new() };
        let print = |value| results.print(value, Kind::Stress);
        if stress <= proof {
            return "Its plates stay elastic.".to_owned();
        }
        format!(
            "Its plates yield: {} at the ends of the overlap by Goland and Reissner against {}. That is not counted, for {} and {} are not given, and the adhesive comes out weaker than it is.",
            print(stress),
            print(proof),
            self.material.tensile_strength.key,
            self.material.elongation.key
        )
    }

    /// Stress in a plate at the end of the overlap, pull and bending, MPa.
    ///
    /// ```text
    /// σ = P/t (1 + 3 k)        M = k P t/2
    /// ```
    fn bent_mpa(&self, end: &End) -> Result<f64, mechanics::Failure> {
        let modulus = end.values.youngs_modulus_mpa;
        let lap = closed::Lap {
            upper: self.coupon.plate,
            lower: self.coupon.plate,
            layer: closed::Layer {
                youngs_modulus_mpa: modulus,
                shear_modulus_mpa: modulus / (2.0 * (1.0 + end.values.poissons_ratio)),
                thickness_mm: self.coupon.bondline_mm,
            },
            overlap_mm: self.coupon.overlap_mm,
        };
        let k = goland_reissner::edge_factor(&lap, self.measured_n_mm)?;
        Ok(self.measured_n_mm / self.coupon.plate.thickness_mm * (1.0 + 3.0 * k))
    }
}

/// The bondline of the lap, mm: as given, or the beads, or that of the standard.
fn bondline_mm(name: &str, adhesive: &Adhesive, lap: &LapShear, results: &mut Results) -> f64 {
    let (bondline_mm, basis) = match (lap.bondline.get(), adhesive.standoff_beads.get()) {
        (Some(bondline), _) => return bondline.mm(),
        (None, Some(beads)) => {
            (beads.mm(), Basis::CommonPractice("pressed plates come to rest on the standoff beads"))
        }
        (None, None) => (BONDLINE_MM, Basis::Memory("ISO 4587 recommends 0.2 mm")),
    };
    let bondline = results.print(bondline_mm, Kind::Length);
    let statement = format!("The bondline of the lap of the data sheet of {name} is taken for {bondline}.");
    results.assume(&lap.bondline.key, statement, basis);
    bondline_mm
}

fn put(name: &str, inverted: &Known<(Sheet<'_>, [End; 2])>, results: &mut Results) {
    type Of = fn(&Filling) -> f64;
    let all: [(&[assessment::Name; 2], Of); 4] = [
        (&[names::LAP_SHEAR_STRENGTH_LOW, names::LAP_SHEAR_STRENGTH_HIGH], |it| it.shear_mpa),
        (&[names::LAP_TENSILE_STRENGTH_LOW, names::LAP_TENSILE_STRENGTH_HIGH], |it| it.tensile_mpa),
        (&[names::LAP_MODE_1_TOUGHNESS_LOW, names::LAP_MODE_1_TOUGHNESS_HIGH], |it| it.first_n_mm),
        (&[names::LAP_MODE_2_TOUGHNESS_LOW, names::LAP_MODE_2_TOUGHNESS_HIGH], |it| it.second_n_mm),
    ];
    for ([low, high], of) in all {
        let both = inverted.as_ref().map(|(_, both)| both.map(|end| of(&end.values))).map_err(Lack::clone);
        results.quantities.put(low, &[name], both.clone().map(|[a, b]| f64::min(a, b)));
        results.quantities.put(high, &[name], both.map(|[a, b]| f64::max(a, b)));
    }
}

fn told(finding: Finding, sheet: &Sheet<'_>, both: &[End; 2], keys: &[String], results: &Results) -> Finding {
    let stress = |value| results.print(value, Kind::Stress);
    let tough = |value| results.print(value, Kind::Toughness);
    let set = |end: &End| {
        let values = &end.values;
        format!(
            "{} in shear and {} in tension with toughnesses of {} in shear and {} in opening",
            stress(values.shear_mpa),
            stress(values.tensile_mpa),
            tough(values.second_n_mm),
            tough(values.first_n_mm)
        )
    };
    let measured = stress(sheet.measured_n_mm / sheet.coupon.overlap_mm);
    Finding {
        statement: format!(
            "The lap that carried {measured} goes with strengths of {}, or of {}, or what lies between.",
            set(&both[0]),
            set(&both[1])
        ),
        because: format!(
            "One number names one combination, not {} each; {measured} is a load over an area and no strength of the adhesive. Join takes both ends and judges by neither. {}",
            listed(keys),
            sheet.plates(both, results)
        ),
        next: Some(
            "Break thick laps (ISO 11003-2), double cantilevers (ISO 25217) and end-loaded splits (ISO 15114), or ask the maker for what they gave."
                .to_owned()
                .into(),
        ),
        ..finding
    }
}

fn listed(keys: &[String]) -> String {
    let short = |key: &String| key.rsplit('.').next().unwrap_or(key).to_owned();
    keys.iter().map(short).collect::<Vec<_>>().join(", ")
}
