//! What the rivets carry while the bond beside them holds, once and again and again.

use assessment::{Basis, Finding, Known, Lack, Measure, Verdict, names};
use job::Needed;
use mechanics::rivet::share::{Hold, Row, in_lap};

use super::super::adhesive::Data;
use super::super::fatigue::{self, Tested, What};
use super::super::subject::Case;
use super::Form;
use super::rivets::{resistance, set, stiffness_n_mm};
use super::strips::bars;
use crate::Results;
use crate::sections::failed;

/// What the rows of rivets carry beside the intact bond, at the worst point of the perimeter.
struct Beside {
    /// Share of the line load in each row.
    shares: Vec<f64>,
    /// Perimeter that each rivet of a row stands for, mm.
    pitch_mm: f64,
}

fn beside_bond(form: &Form<'_>, data: &Known<Data>) -> Known<Beside> {
    let (set, geometry) = (set(form)?, form.geometry.as_ref().map_err(Lack::clone)?);
    let values = match data {
        Ok(Data::Given(values)) => values,
        Ok(Data::Class { keys, .. }) => return Err(Lack::Missing { keys: keys.clone() }),
        Err(lack) => return Err(lack.clone()),
    };
    let lap = bars(form, geometry, values)?;
    let stiffness = stiffness_n_mm(form, geometry, &set)?;
    let strength_n = resistance(form, geometry, &set)?.characteristic_n;
    let flats: f64 = geometry.flats.iter().map(|flat| flat.to_mm - flat.from_mm).sum();
    let in_row = 2 * (set.on_width_mm.len() + set.on_height_mm.len());
    let pitch_mm = flats / f64::from(u32::try_from(in_row).unwrap_or(u32::MAX));
    let hold = Hold { stiffness_n_mm: stiffness, strength_n, break_mm: None };
    // The overlap is loaded by the outer wall at its left end; rows count from the cut, at its right.
    let rows: Vec<Row> = set
        .rows_mm
        .iter()
        .map(|row| Row { x_mm: geometry.overlap_mm - row, pitch_mm, shear: hold, opening: hold })
        .collect();
    Ok(Beside { shares: in_lap(&lap, &rows).map_err(|failure| failed(&failure))?, pitch_mm })
}

/// The most loaded rivet under a spectrum while the bond holds: its row's share of the greatest line load.
pub(super) fn fatigue(
    form: &Form<'_>,
    case: &Case<'_>,
    line_n_mm: &Known<f64>,
    data: &Known<Data>,
    results: &mut Results,
) {
    if form.rivets.get().is_none() {
        return;
    }
    let tested = || -> Known<Vec<Tested<'_>>> {
        let rivet = set(form)?.rivet;
        let (_, strength) = (rivet.fatigue.need(), rivet.shear_strength.need()).need_all()?;
        let beside = beside_bond(form, data)?;
        let share = beside.shares.iter().copied().fold(0.0, f64::max);
        let force_n = share * line_n_mm.clone()? * beside.pitch_mm;
        Ok(vec![Tested::by_force(&rivet.fatigue, strength.n(), force_n)?])
    };
    fatigue::find(form.subject, case, What::Rivets, tested(), results);
}

/// What share of the load the rivets carry beside the intact bond, at the worst point of the perimeter.
pub(super) fn share(form: &Form<'_>, case: &Case<'_>, data: &Known<Data>, results: &mut Results) {
    if form.rivets.get().is_none() {
        return;
    }
    let known = beside_bond(form, data).map(|beside| beside.shares.iter().sum::<f64>());
    results.quantities.put(&names::RIVET_SHARE, &[form.subject.name, case.name], known.clone());
    let basis = Basis::Memory("rivets as springs (Huth 1986) in Volkersen's lap");
    let finding = form.subject.under(case, "rivet_share", basis);
    results.findings.push(match known {
        Err(lack) => {
            finding.unknown("What the rivets carry beside the bond cannot be told.".to_owned(), lack)
        }
        Ok(share) => Finding {
            statement: format!(
                "While the bond holds the rivets of {} carry {:.1} % of the load.",
                form.subject.name,
                share * 100.0
            ),
            value: Some(Measure { value: share, unit: "-", kind: None }),
            verdict: Verdict::Note,
            because: "They clamp, stop peel, and stand by for a lost bond.".to_owned(),
            ..finding
        },
    });
}
