//! The nominal check: mean shear against the characteristic strength over a partial factor.

use assessment::{Basis, Finding, Known, Lack, Measure, Next, Verdict, names};
use job::Edit;
use job::tables::Method;
use quantity::Kind;

use super::adhesive::{Data, Values, bondline_share};
use super::subject::{Case, Subject, method, partial_factor};
use crate::Results;

/// Partial factor of EN 1999-1-1:2007, 8.6.3 for adhesive joints (from memory).
pub(super) const GAMMA_MA: f64 = 3.0;

/// The temperature at which an adhesive's strength is given, °C.
pub(super) const ROOM_C: f64 = 23.0;

/// The nominal shear of a case: as the joint is, and at another overlap.
pub(super) struct Shear<'a> {
    /// As the joint is, MPa.
    pub(super) now_mpa: Known<f64>,
    /// At another overlap (mm), MPa.
    pub(super) at_overlap: &'a dyn Fn(f64) -> Known<f64>,
}

/// The nominal check at 23 °C, dry.
#[derive(Clone)]
pub(super) struct Nominal {
    /// Nominal shear at the load as written, MPa.
    shear_mpa: f64,
    /// Factor on the load, and where it comes from.
    factor: (f64, &'static str),
    /// Characteristic strength at the bondline, MPa.
    strength_mpa: f64,
    /// Partial factor on the strength.
    gamma: f64,
}

impl Nominal {
    /// A check of another stress against another strength by the same factors.
    pub(super) fn of(stress_mpa: f64, factor: (f64, &'static str), strength_mpa: f64, gamma: f64) -> Self {
        Self { shear_mpa: stress_mpa, factor, strength_mpa, gamma }
    }

    /// Reserve factor = (f_vk/γ_M) / (τ γ_F).
    pub(super) fn reserve(&self) -> f64 {
        self.allowed_mpa() / self.demand_mpa()
    }

    pub(super) fn allowed_mpa(&self) -> f64 {
        self.strength_mpa / self.gamma
    }

    pub(super) fn demand_mpa(&self) -> f64 {
        self.shear_mpa * self.factor.0
    }

    /// The same check under another nominal shear (MPa).
    pub(super) fn with_shear(&self, shear_mpa: f64) -> Self {
        Self { shear_mpa, ..self.clone() }
    }

    /// The same check under a share of the load.
    pub(super) fn with_load_share(&self, share: f64) -> Self {
        self.with_shear(self.shear_mpa * share)
    }

    /// The same check with the strength changed by a share.
    pub(super) fn with_strength_share(&self, share: f64) -> Self {
        Self { strength_mpa: self.strength_mpa * share, ..self.clone() }
    }
}

fn basis(method: Option<Method>) -> Basis {
    match method {
        Some(Method::Own) => Basis::YourData("nominal shear with the factors of the job"),
        _ => Basis::Memory(
            "EN 1999-1-1:2007, 8.6.3 and Annex M, nominal shear with a partial factor of 3.0; load factor of EN 1990:2002",
        ),
    }
}

/// Makes the check, and gives it on to those that change the strength.
pub(super) fn find(
    subject: &Subject<'_>,
    case: &Case<'_>,
    shear: &Shear<'_>,
    data: &Known<Data>,
    results: &mut Results,
) -> Known<Nominal> {
    let shear_mpa = &shear.now_mpa;
    let fill = [subject.name, case.name];
    let finding = subject.under(case, "bond", basis(method(subject.tables).ok()));
    if shear_mpa.as_ref().is_ok_and(|shear| *shear <= 0.0) {
        let statement = format!("No load acts on the bond of {} in this case.", subject.name);
        results.findings.push(finding.unknown(statement, Lack::NoLoad));
        results.quantities.put(&names::RESERVE, &fill, Err(Lack::NoLoad));
        return Err(Lack::NoLoad);
    }
    let nominal = match data {
        Err(lack) => Err(lack.clone()),
        Ok(Data::Given(values)) => check(subject, case, shear_mpa, values, results),
        Ok(Data::Class { lower, upper, keys, by }) => {
            let lack = Lack::Missing { keys: keys.clone() };
            let range = [lower, upper].map(|values| check(subject, case, shear_mpa, values, results));
            if let [Ok(low), Ok(high)] = &range {
                let statement = format!(
                    "For {by} the bond of {} has a reserve factor between {:.2} and {:.2}; nothing is judged by that.",
                    subject.name,
                    f64::min(low.reserve(), high.reserve()),
                    f64::max(low.reserve(), high.reserve())
                );
                results.findings.push(finding.unknown(statement, lack.clone()));
                results.quantities.put(&names::RESERVE, &fill, Err(lack.clone()));
                return Err(lack);
            }
            Err(range.into_iter().find_map(Result::err).unwrap_or(lack))
        }
    };
    results.quantities.put(
        &names::RESERVE,
        &fill,
        nominal.as_ref().map(Nominal::reserve).map_err(Lack::clone),
    );
    results.findings.push(match &nominal {
        Err(lack) => {
            let statement = format!(
                "Whether the bond of {} carries the case {} cannot be told.",
                subject.name, case.name
            );
            finding.unknown(statement, lack.clone())
        }
        Ok(nominal) => judged(finding, subject, case, nominal, shear, results),
    });
    nominal
}

fn check(
    subject: &Subject<'_>,
    case: &Case<'_>,
    shear_mpa: &Known<f64>,
    values: &Values,
    results: &Results,
) -> Known<Nominal> {
    let adhesive = subject.adhesive()?;
    let gamma = partial_factor(subject.tables, GAMMA_MA, |factors| &factors.adhesive, "factors.adhesive")?;
    let factor = case.load_factor(subject.tables)?;
    let strength_mpa = values.characteristic_shear_mpa.clone()?;
    let share = bondline_share(adhesive, subject.bondline_mm.clone()?, |mm| results.print(mm, Kind::Length))?;
    Ok(Nominal { shear_mpa: shear_mpa.clone()?, factor, strength_mpa: strength_mpa * share, gamma })
}

fn judged(
    finding: Finding,
    subject: &Subject<'_>,
    case: &Case<'_>,
    nominal: &Nominal,
    shear: &Shear<'_>,
    results: &Results,
) -> Finding {
    let reserve = nominal.reserve();
    let print = |value: f64| results.print(value, Kind::Stress);
    let room = results.print(ROOM_C, Kind::Temperature);
    let required = case.is_required();
    let verdict = if required { Verdict::of_reserve(reserve) } else { Verdict::Note };
    let statement = if required {
        format!("The bond of {} has a reserve factor of {reserve:.2} at {room}, dry.", subject.name)
    } else {
        format!(
            "The bond of {} is tried at {:.2} of its design strength at {room}, dry.",
            subject.name,
            1.0 / reserve
        )
    };
    Finding {
        statement,
        value: Some(Measure::of(nominal.demand_mpa(), Kind::Stress)),
        limit: Some(Measure::of(nominal.allowed_mpa(), Kind::Stress)),
        reserve: Some(reserve),
        verdict,
        because: format!(
            "Nominal shear {} × {:.2} against {} / {:.2}; {}. Peel is outside the clause.",
            print(nominal.shear_mpa),
            nominal.factor.0,
            print(nominal.strength_mpa),
            nominal.gamma,
            nominal.factor.1
        ),
        next: if verdict == Verdict::NotMet {
            longer_overlap(subject, nominal, shear, results)
        } else {
            None
        },
        ..finding
    }
}

/// The least overlap in whole millimetres at which the nominal shear is carried.
///
/// Where the line load stays, shear falls in proportion to the overlap and the first guess is the answer. In a sleeve
/// the middle of the bond moves away from the cut as the overlap grows, and its moment with it: each guess is computed
/// anew until one is carried.
pub(super) fn longer_overlap(
    subject: &Subject<'_>,
    nominal: &Nominal,
    shear: &Shear<'_>,
    results: &Results,
) -> Option<Next> {
    /// An overlap of ten times what there is is no answer; some other part must change.
    const MOST: f64 = 10.0;
    let Some(entry) = subject.overlap else {
        return Some(Next::from(
            "Make the bonded area larger, or load it less in that condition.".to_owned(),
        ));
    };
    let overlap = entry.get()?.mm();
    let allowed = nominal.allowed_mpa() / nominal.factor.0;
    let mut needed = overlap;
    loop {
        let found = (shear.at_overlap)(needed).ok()?;
        if found <= allowed {
            break;
        }
        // A little more than needed, so that rounding in the last digit cannot spoil it.
        needed = (needed * found / allowed * (1.0 + 1e-9)).ceil().max(needed.floor() + 1.0);
        if needed > MOST * overlap {
            return Some(Next::from(
                "No longer overlap does; take a stronger adhesive, or load it less.".to_owned(),
            ));
        }
    }
    let value = format!("\"{}\"", quantity::print_exact(needed, Kind::Length));
    let text = format!(
        "Make the overlap {} instead of {}, if the parts carry it.",
        results.print(needed, Kind::Length),
        results.print(overlap, Kind::Length)
    );
    Some(Next { text, edits: vec![Edit { key: entry.key.clone(), value }] })
}
