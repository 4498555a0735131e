//! Cuts that lie off: what the bond of a sleeve keeps of its reserve when one part ends short of where it should.

use assessment::{Basis, Finding, Known, Lack, Measure, Verdict, names};
use job::tables::Sleeve;
use quantity::Kind;

use super::super::nominal::Nominal;
use super::super::subject::Case;
use super::loads::Load;
use super::{Form, governing, rivets};
use crate::Results;
use crate::faying::Geometry;

/// How far a cut may lie off where the job does not say it, mm (common practice, no source).
pub(super) const TOLERANCE_MM: f64 = 3.0;

/// The curve ends at this multiple of the tolerance.
const BEYOND: f64 = 2.0;

/// Points of the curve between nothing and the tolerance; as many again lie beyond it.
const POINTS: u32 = 12;

/// How far the cut of a sleeve may lie off, mm.
pub(super) fn tolerance_mm(sleeve: &Sleeve) -> f64 {
    sleeve.cut_tolerance.get().map_or(TOLERANCE_MM, |tolerance| tolerance.mm())
}

/// A sleeve whose one part is cut short.
struct Short<'a> {
    geometry: &'a Geometry,
    load: &'a Load<'a>,
    nominal: &'a Nominal,
}

impl Short<'_> {
    /// Reserve of the nominal check with a part that ends short by an error (mm), on whichever side that is worse.
    ///
    /// The insert stays where it is. The short side loses the error of its overlap at the cut, and the middle of what
    /// is left moves away from the cut by half the error; the other side is as planned.
    fn reserve(&self, error_mm: f64) -> Known<f64> {
        let at_cut = self.load.resultants.as_ref().map_err(Lack::clone)?;
        let of = |geometry: &Geometry| -> Known<f64> {
            let line = governing(geometry, at_cut)?.line.resultant_n_mm();
            Ok(self.nominal.with_shear(line / geometry.overlap_mm).reserve())
        };
        let short = Geometry {
            overlap_mm: self.geometry.overlap_mm - error_mm,
            half_gap_mm: self.geometry.half_gap_mm + error_mm,
            ..self.geometry.clone()
        };
        Ok(of(self.geometry)?.min(of(&short)?))
    }

    /// The greatest error (mm) that leaves a reserve of 1.00, by halving; `None` where there is none without error.
    fn allowed_mm(&self) -> Known<Option<f64>> {
        /// To a thousandth of the overlap and closer.
        const HALVINGS: u32 = 20;
        if self.reserve(0.0)? < 1.0 {
            return Ok(None);
        }
        // With next to nothing left of the overlap no load is carried: the reserve crosses 1.00 before.
        let (mut good, mut bad) = (0.0, 0.999 * self.geometry.overlap_mm);
        for _ in 0..HALVINGS {
            let middle = f64::midpoint(good, bad);
            if self.reserve(middle)? >= 1.0 { good = middle } else { bad = middle }
        }
        Ok(Some(good))
    }
}

/// Puts the curve of a case, and tells where the tolerance stops being harmless.
pub(super) fn find(
    form: &Form<'_>,
    load: &Load<'_>,
    tolerance_mm: f64,
    nominal: &Known<Nominal>,
    results: &mut Results,
) {
    // Where the bond cannot be judged its own finding says why.
    let (Ok(nominal), Ok(geometry)) = (nominal, form.geometry) else { return };
    if !load.case.is_required() {
        return;
    }
    let short = Short { geometry, load, nominal };
    let fill = [form.subject.name, load.case.name];
    let basis = Basis::CommonPractice(
        "nominal check with a part that ends short: overlap lost and gap gained alike, on the worse side",
    );
    let finding = form.subject.under(&load.case, "cut_error", basis);
    let found = curve(&short, tolerance_mm).and_then(|points| {
        Ok((points, short.reserve(0.0)?, short.reserve(tolerance_mm)?, short.allowed_mm()?))
    });
    results.findings.push(match found {
        Err(lack) => finding.unknown(
            format!("What a cut that lies off takes from {} cannot be told.", form.subject.name),
            lack,
        ),
        Ok((points, exact, at_tolerance, allowed)) => {
            results.series.put(&names::RESERVE_BY_CUT_ERROR, &fill, ("cut error", "mm"), &points);
            results.quantities.put(&names::CUT_TOLERANCE, &fill[..1], Ok(tolerance_mm));
            if let Some(allowed) = allowed {
                results.quantities.put(&names::CUT_ERROR_ALLOWED, &fill, Ok(allowed));
            }
            let told = Told { tolerance_mm, exact, at_tolerance, allowed };
            told.finding(finding, form, geometry, &load.case, results)
        }
    });
}

/// Reserves against the error, from none to beyond the tolerance, as far as an overlap is left.
fn curve(short: &Short<'_>, tolerance_mm: f64) -> Known<Vec<(f64, f64)>> {
    let most = (BEYOND * tolerance_mm).min(0.5 * short.geometry.overlap_mm);
    let steps = 2 * POINTS;
    (0..=steps)
        .map(|step| {
            let error = most * f64::from(step) / f64::from(steps);
            Ok((error, short.reserve(error)?))
        })
        .collect()
}

/// What there is to say.
struct Told {
    tolerance_mm: f64,
    /// Reserve with an exact cut.
    exact: f64,
    /// Reserve with a cut that is off by the tolerance.
    at_tolerance: f64,
    /// Greatest error that leaves 1.00, mm.
    allowed: Option<f64>,
}

impl Told {
    fn finding(
        &self,
        finding: Finding,
        form: &Form<'_>,
        geometry: &Geometry,
        case: &Case<'_>,
        results: &Results,
    ) -> Finding {
        let length = |mm: f64| results.print(mm, Kind::Length);
        let tolerance = length(self.tolerance_mm);
        let statement = match self.allowed {
            None => format!(
                "The bond of {} falls short in the case {} however exact the cut; one that is off by {tolerance} leaves {:.2}.",
                form.subject.name, case.name, self.at_tolerance
            ),
            Some(allowed) if allowed < self.tolerance_mm => format!(
                "A cut that is off by more than {} takes the bond of {} below 1.00; within the tolerance of {tolerance} it may fall to {:.2}.",
                length(allowed),
                form.subject.name,
                self.at_tolerance
            ),
            Some(allowed) => format!(
                "A cut within its tolerance of {tolerance} leaves the bond of {} a reserve factor of {:.2}; 1.00 is left up to {}.",
                form.subject.name,
                self.at_tolerance,
                length(allowed)
            ),
        };
        let rivets = rivets::room_at_cut_mm(form, geometry).map_or(String::new(), |room| {
            if room > 0.0 {
                format!(
                    " The first row keeps its distance to the cut face up to an error of {}.",
                    length(room)
                )
            } else {
                " The first row has no distance to the cut face to spare.".to_owned()
            }
        });
        Finding {
            statement,
            value: self.allowed.map(|allowed| Measure::of(allowed, Kind::Length)),
            limit: Some(Measure::of(self.tolerance_mm, Kind::Length)),
            verdict: Verdict::Note,
            because: format!(
                "An exact cut has {:.2} in the nominal check at 23 °C, dry; a part that ends short loses the error of its overlap, and the gap gains it.{rivets}",
                self.exact
            ),
            next: self
                .allowed
                .is_some_and(|allowed| allowed < self.tolerance_mm)
                .then(|| "Cut closer, or allow for the error in the overlap.".to_owned().into()),
            ..finding
        }
    }
}
