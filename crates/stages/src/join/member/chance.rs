//! How likely the bond of a sleeve or socket is to give way: the strips at the places that govern as written.

use assessment::{Known, Lack};
use mechanics::perimeter::LineLoad;
use mechanics::strip::progressive::Joint;

use super::super::adhesive::{Data, Values};
use super::super::capacity::{ARM_ELEMENTS, ELEMENTS, Level, Strengths, law_of};
use super::super::chance::{self, Bond, ELEMENTS as COARSE, Place};
use super::super::subject::Case;
use super::Form;
use super::around::Side;
use super::progressive::governing;
use super::reach::Reach;
use super::strips::strip_of;
use crate::{Ask, Results};

/// What is left out.
const BESIDE: &str = "It is the lesser of two strips, wall free to bend and wall held flat, each at the place of the perimeter that governs as written: that another place may govern when things scatter is left out, and so is how the overlap moves the middle of the bond, and what the rivets carry.";

/// Finds the chance.
pub(super) fn find(
    form: &Form<'_>,
    case: &Case<'_>,
    sides: &Known<&[Side]>,
    data: &Known<Data>,
    reach: &mut Known<Reach<'_>>,
    ask: &Ask,
    results: &mut Results,
) {
    if ask.probability.is_none() {
        return;
    }
    let bond = bond(form, sides, data, reach, results);
    chance::find(form.subject, case, bond, BESIDE, ask, results);
}

fn bond<'j>(
    form: &Form<'_>,
    sides: &Known<&[Side]>,
    data: &Known<Data>,
    reach: &mut Known<Reach<'j>>,
    results: &Results,
) -> Known<Bond<'j>> {
    let values = match data {
        Ok(Data::Given(values)) => values,
        Ok(Data::Class { keys, .. }) => return Err(Lack::Missing { keys: keys.clone() }),
        Err(lack) => return Err(lack.clone()),
    };
    let reach = reach.as_mut().map_err(|lack| lack.clone())?;
    let [free, held] = governing(form, sides.clone()?, reach, results)?;
    let strengths = reach.strengths(0.0, 0.0, &reach.room())?;
    let free = place(form, free, values, false, &strengths, results)?;
    let held = place(form, held, values, true, &strengths, results)?;
    Bond::new(strengths, &[free, held], COARSE, results)
}

/// The strip of a place under its line load.
fn place(
    form: &Form<'_>,
    line: LineLoad,
    values: &Values,
    held: bool,
    strengths: &Strengths<'_>,
    results: &Results,
) -> Known<Place> {
    let geometry = form.geometry.as_ref().map_err(Lack::clone)?;
    // A part of the load that is only rounding beside the rest is none.
    let clean = |part: f64| if part.abs() < 1e-9 * line.resultant_n_mm() { 0.0 } else { part };
    let line =
        LineLoad { axial_n_mm: clean(line.axial_n_mm), flow_n_mm: clean(line.flow_n_mm).abs(), ..line };
    let ask = Ask { strip_elements: ELEMENTS, ..Ask::default() };
    let mut strip = strip_of(form, geometry, line, values, &ask, held, strengths.condition.change_k)?;
    strip.mesh.arm_elements = ARM_ELEMENTS;
    let flat =
        geometry.flats.get(line.stretch).ok_or_else(|| Lack::Missing { keys: vec!["bonds".to_owned()] })?;
    let bondline_mm = geometry.bondline_mm(flat.face);
    let beads = form.subject.adhesive()?.standoff_beads.get().map_or(bondline_mm, |beads| beads.mm());
    let strengths = Strengths { bondline_mm, thickness_mm: bondline_mm, ..*strengths };
    let law = law_of(&strengths, Level::AsWritten, results)?;
    Ok(Place { joint: Joint::new(strip, law), bondline_mm, least_mm: f64::min(beads, bondline_mm) })
}
