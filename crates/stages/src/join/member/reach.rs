//! How far the strips around a perimeter reach before their bond gives way, by the direction of the line load.
//!
//! ```text
//! R(φ)   line load at the capacity, N/mm        tan φ = |q|/n        0° pulled, 90° sheared, 180° pressed
//! ```
//!
//! To find the place that governs, strips are loaded until they fail at halves of a right angle; between, 1/R² is
//! linear in sin² φ, which an ellipse is exactly. There a strip of its own direction is loaded, and it alone is told
//! of. Each strip is kept for all cases of the joint.

use std::collections::BTreeMap;
use std::f64::consts::{FRAC_PI_2, PI};

use assessment::{Known, Lack};
use mechanics::bondline::Bondline;
use mechanics::perimeter::LineLoad;
use mechanics::strip::progressive::{Joint, Mixing, Outcome, Walker};

use super::super::adhesive::Values;
use super::super::capacity::{ARM_ELEMENTS, ELEMENTS, Level, Strengths, law_of, load, peak};
use super::super::condition::Condition;
use super::Form;
use super::strips::{expand, room_change_k, strip_of};
use crate::faying::Geometry;
use crate::{Ask, Results};

/// Between the directions at which strips are loaded to find the place that governs.
const TURN: f64 = FRAC_PI_2 / 2.0;

/// The line load of a strip at the factor 1, N/mm.
const UNIT_N_MM: f64 = 100.0;

/// Walls that the temperature strains along the member, under a load across it alone, give no point that is nearer to
/// giving for a little more load: the load leans by this angle. It changes the line load by 2e-6 of itself, and its
/// capacity by less than a thousandth.
const LEAN: f64 = 2e-3;

/// Walls free to bend, or held flat by the corners.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Walls {
    Free,
    Held,
}

/// How closely a strip is looked at.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Look {
    /// To find the place that governs.
    About,
    /// To be told of.
    At(Level),
}

/// What distinguishes one strip from another: width and bondline, walls, look, direction, condition.
type Key = ([u64; 2], Walls, Look, i64, [u64; 3]);

/// The strips of one joint, loaded until they fail.
pub(super) struct Reach<'j> {
    form: &'j Form<'j>,
    geometry: &'j Geometry,
    values: &'j Values,
    walker: Walker,
    known: BTreeMap<Key, Known<Outcome>>,
    /// 23 °C, dry.
    room: Condition,
}

impl<'j> Reach<'j> {
    pub(super) fn new(form: &'j Form<'j>, geometry: &'j Geometry, values: &'j Values) -> Self {
        let room = Condition::room(room_change_k(form, geometry));
        Self { form, geometry, values, walker: Walker::new(), known: BTreeMap::new(), room }
    }

    /// 23 °C, dry.
    pub(super) fn room(&self) -> Condition {
        self.room
    }

    /// Whether the walls expand alike.
    pub(super) fn alike(&self) -> bool {
        expand(self.form, self.geometry) == Ok(None)
    }

    /// About the multiple of a line load, strengths as written at 23 °C, dry, at which the strip under it gives way: good
    /// enough to tell which place of the perimeter governs.
    pub(super) fn about(&mut self, line: &LineLoad, walls: Walls, results: &Results) -> Known<f64> {
        let room = self.room;
        let turn = turn(line, walls, &room);
        let below = (turn / TURN + 1e-9).floor().min(PI / TURN - 1.0) * TURN;
        let square = |turn: f64| libm::sin(turn) * libm::sin(turn);
        let share = (square(turn) - square(below)) / (square(below + TURN) - square(below));
        let mut at = |turn: f64| -> Known<f64> {
            let node = LineLoad { axial_n_mm: libm::cos(turn), flow_n_mm: libm::sin(turn), ..*line };
            Ok(UNIT_N_MM * peak(self.look(&node, (walls, Look::About), &room, results)?)?.factor)
        };
        let low = at(below)?;
        let flexibility = if share > 1e-9 {
            let high = at(below + TURN)?;
            (1.0 - share) / (low * low) + share / (high * high)
        } else {
            1.0 / (low * low)
        };
        Ok(1.0 / (flexibility.sqrt() * line.resultant_n_mm()))
    }

    /// The multiple of a line load at which the strip under it gives way.
    pub(super) fn factor(
        &mut self,
        line: &LineLoad,
        walls: Walls,
        level: Level,
        condition: &Condition,
        results: &Results,
    ) -> Known<f64> {
        let way = self.way(line, walls, level, condition, results)?;
        Ok(UNIT_N_MM * peak(way)?.factor / line.resultant_n_mm())
    }

    /// The way of the strip in the direction of a line load, which is scaled to [`UNIT_N_MM`].
    ///
    /// A thicker bond looks stronger in such a model, and is not: a layer above the beads is also tried as thick as
    /// they are, and the lesser counts.
    pub(super) fn way(
        &mut self,
        line: &LineLoad,
        walls: Walls,
        level: Level,
        condition: &Condition,
        results: &Results,
    ) -> Known<&Outcome> {
        self.look(line, (walls, Look::At(level)), condition, results)
    }

    fn look(
        &mut self,
        line: &LineLoad,
        (walls, look): (Walls, Look),
        condition: &Condition,
        results: &Results,
    ) -> Known<&Outcome> {
        /// Directions nearer to each other are one.
        const PER_RADIAN: f64 = 1e7;
        let absent = || Lack::Missing { keys: vec!["bonds".to_owned()] };
        let flat = self.geometry.flats.get(line.stretch).ok_or_else(absent)?;
        let bondline_mm = self.geometry.bondline_mm(flat.face);
        let wall = [flat.to_mm - flat.from_mm, bondline_mm].map(f64::to_bits);
        let turn = turn(line, walls, condition);
        #[expect(clippy::cast_possible_truncation, reason = "no more than 3e7")]
        let key = (wall, walls, look, (turn * PER_RADIAN).round() as i64, condition.bits());
        if !self.known.contains_key(&key) {
            let found = self.lesser((line.stretch, turn), (walls, look), bondline_mm, condition, results);
            self.known.insert(key, found);
        }
        self.known.get(&key).ok_or_else(absent)?.as_ref().map_err(Lack::clone)
    }

    fn lesser(
        &mut self,
        (stretch, turn): (usize, f64),
        (walls, look): (Walls, Look),
        bondline_mm: f64,
        condition: &Condition,
        results: &Results,
    ) -> Known<Outcome> {
        // The cosine of a right angle is not quite nothing, and a strip under next to no pull is none.
        let clean = |part: f64| if part.abs() < 1e-9 { 0.0 } else { part * UNIT_N_MM };
        let (axial_n_mm, flow_n_mm) = (clean(libm::cos(turn)), clean(libm::sin(turn)));
        let line = LineLoad { stretch, at_mm: [0.0; 2], axial_n_mm, flow_n_mm };
        let Look::At(level) = look else {
            let strengths = self.strengths(bondline_mm, bondline_mm, condition)?;
            return self.through(&line, walls, Level::AsWritten, &strengths, results);
        };
        let strengths = self.strengths(bondline_mm, bondline_mm, condition)?;
        let own = self.through(&line, walls, level, &strengths, results)?;
        let adhesive = self.form.subject.adhesive()?;
        let beads_mm = adhesive.standoff_beads.get().map_or(bondline_mm, |beads| beads.mm());
        if bondline_mm <= beads_mm * (1.0 + 1e-9) {
            return Ok(own);
        }
        let thin = Strengths { thickness_mm: beads_mm, ..strengths };
        let thin = self.through(&line, walls, level, &thin, results)?;
        Ok(if peak(&thin)?.factor < peak(&own)?.factor { thin } else { own })
    }

    /// The strengths of the adhesive: data at one bondline (mm), a layer as stiff as another (mm), in a condition.
    pub(super) fn strengths(
        &self,
        bondline_mm: f64,
        thickness_mm: f64,
        condition: &Condition,
    ) -> Known<Strengths<'j>> {
        let layer = self.values.isotropic()?;
        Ok(Strengths {
            adhesive: self.form.subject.adhesive()?,
            asked: None,
            mixing: Mixing::Power(1.0),
            bondline_mm,
            moduli_mpa: [layer.peel_modulus_mpa, layer.shear_modulus_mpa],
            thickness_mm,
            condition: *condition,
        })
    }

    fn through(
        &mut self,
        line: &LineLoad,
        walls: Walls,
        level: Level,
        strengths: &Strengths<'_>,
        results: &Results,
    ) -> Known<Outcome> {
        let ask = Ask { strip_elements: ELEMENTS, ..Ask::default() };
        let (held, change_k) = (walls == Walls::Held, strengths.condition.change_k);
        let mut strip = strip_of(self.form, self.geometry, *line, self.values, &ask, held, change_k)?;
        strip.mesh.arm_elements = ARM_ELEMENTS;
        strip.bondline = Bondline::Constant(strengths.thickness_mm);
        load(&mut self.walker, &Joint::new(strip, law_of(strengths, level, results)?))
    }
}

/// Direction of a line load from pulled through sheared to pressed. A wall that is held flat is as strong pressed as
/// pulled, unless the temperature strains it.
fn turn(line: &LineLoad, walls: Walls, condition: &Condition) -> f64 {
    let turn = libm::atan2(line.flow_n_mm.abs(), line.axial_n_mm);
    if condition.change_k == 0.0 {
        return if walls == Walls::Held { turn.min(PI - turn) } else { turn };
    }
    if (turn - FRAC_PI_2).abs() < LEAN { FRAC_PI_2 - LEAN } else { turn }
}
