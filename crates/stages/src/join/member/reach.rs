//! How far the strips around a perimeter reach before their bond gives way, by the direction of the line load.
//!
//! ```text
//! R(φ)   line load at the capacity, N/mm        tan φ = |q|/n        0° pulled, 90° sheared, 180° pressed
//! ```
//!
//! A strip is loaded until it fails at whole thirds of a right angle; between, 1/R² is linear in sin² φ, which an
//! ellipse is exactly. Each is found when it is first asked for and kept for all cases of the joint.

use std::collections::BTreeMap;

use assessment::{Known, Lack};
use mechanics::perimeter::LineLoad;
use mechanics::strip::progressive::{Joint, Outcome, Walker};

use super::super::adhesive::Values;
use super::super::capacity::{ARM_ELEMENTS, ELEMENTS, Level, Strengths, law_of, load, peak};
use super::Form;
use super::strips::strip_of;
use crate::faying::Geometry;
use crate::{Ask, Results};

/// Directions in a right angle.
const PER_RIGHT_ANGLE: u8 = 3;

/// The line load of a strip at the factor 1, N/mm.
const UNIT_N_MM: f64 = 100.0;

/// Walls free to bend, or held flat by the corners.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Walls {
    Free,
    Held,
}

/// What distinguishes one strip from another.
type Key = ([u64; 2], Walls, bool, u8);

/// The strips of one joint, loaded until they fail.
pub(super) struct Reach<'j> {
    form: &'j Form<'j>,
    geometry: &'j Geometry,
    values: &'j Values,
    walker: Walker,
    known: BTreeMap<Key, Known<f64>>,
}

impl<'j> Reach<'j> {
    pub(super) fn new(form: &'j Form<'j>, geometry: &'j Geometry, values: &'j Values) -> Self {
        Self { form, geometry, values, walker: Walker::new(), known: BTreeMap::new() }
    }

    /// Multiple of a line load at which the strip under it gives way.
    pub(super) fn factor(&mut self, line: &LineLoad, walls: Walls, level: Level, results: &Results) -> Known<f64> {
        let size = line.resultant_n_mm();
        let mut turn = line.flow_n_mm.abs().atan2(line.axial_n_mm);
        // A wall that is held flat is as strong pressed as pulled.
        if walls == Walls::Held {
            turn = turn.min(std::f64::consts::PI - turn);
        }
        let step = std::f64::consts::FRAC_PI_2 / f64::from(PER_RIGHT_ANGLE);
        let most = 2 * PER_RIGHT_ANGLE - 1;
        let below = (0..=most).rev().find(|node| f64::from(*node) * step <= turn).unwrap_or(0);
        let square = |turn: f64| {
            let sin = libm::sin(turn);
            sin * sin
        };
        let (from, to) = (square(f64::from(below) * step), square(f64::from(below + 1) * step));
        let share = (square(turn) - from) / (to - from);
        let low = self.at(line.stretch, walls, level, below, results)?;
        if share <= 1e-9 {
            return Ok(low / size);
        }
        let high = self.at(line.stretch, walls, level, below + 1, results)?;
        let flexibility = (1.0 - share) / (low * low) + share / (high * high);
        Ok(1.0 / (flexibility.sqrt() * size))
    }

    /// R at a direction that is strips' own, N/mm.
    fn at(&mut self, stretch: usize, walls: Walls, level: Level, node: u8, results: &Results) -> Known<f64> {
        let absent = || Lack::Missing { keys: vec!["bonds".to_owned()] };
        let flat = self.geometry.flats.get(stretch).ok_or_else(absent)?;
        let wall = [flat.to_mm - flat.from_mm, self.geometry.bondline_mm(flat.face)].map(f64::to_bits);
        let key = (wall, walls, level == Level::Characteristic, node);
        if let Some(known) = self.known.get(&key) {
            return known.clone();
        }
        let step = std::f64::consts::FRAC_PI_2 / f64::from(PER_RIGHT_ANGLE);
        let turn = f64::from(node) * step;
        // The cosine of a right angle is not quite nothing, and a strip under next to no pull is none.
        let clean = |part: f64| if part.abs() < 1e-9 { 0.0 } else { part * UNIT_N_MM };
        let line = LineLoad {
            stretch,
            at_mm: [0.0; 2],
            axial_n_mm: clean(libm::cos(turn)),
            flow_n_mm: clean(libm::sin(turn)),
        };
        let found = self.way(&line, walls, level, results).and_then(|way| Ok(peak(&way)?.factor * UNIT_N_MM));
        self.known.insert(key, found.clone());
        found
    }

    /// The way of the strip under a line load.
    ///
    /// A thicker bond looks stronger in such a model, and is not: a layer above the beads is also tried as thick as
    /// they are, and the lesser counts.
    pub(super) fn way(&mut self, line: &LineLoad, walls: Walls, level: Level, results: &Results) -> Known<Outcome> {
        let flat = self.geometry.flats.get(line.stretch).map(|flat| flat.face);
        let bondline_mm = flat.map_or(0.0, |face| self.geometry.bondline_mm(face));
        let adhesive = self.form.subject.adhesive()?;
        let beads_mm = adhesive.standoff_beads.get().map_or(bondline_mm, |beads| beads.mm());
        let own = self.through(line, walls, level, bondline_mm, bondline_mm, results)?;
        if bondline_mm <= beads_mm * (1.0 + 1e-9) {
            return Ok(own);
        }
        let thin = self.through(line, walls, level, bondline_mm, beads_mm, results)?;
        Ok(if peak(&thin)?.factor < peak(&own)?.factor { thin } else { own })
    }

    fn through(
        &mut self,
        line: &LineLoad,
        walls: Walls,
        level: Level,
        bondline_mm: f64,
        thickness_mm: f64,
        results: &Results,
    ) -> Known<Outcome> {
        let ask = Ask { strip_elements: ELEMENTS };
        let mut strip = strip_of(self.form, self.geometry, *line, self.values, &ask, walls == Walls::Held)?;
        strip.mesh.arm_elements = ARM_ELEMENTS;
        strip.bondline = mechanics::bondline::Bondline::Constant(thickness_mm);
        let strengths = Strengths {
            adhesive: self.form.subject.adhesive()?,
            asked: None,
            mixing: mechanics::strip::progressive::Mixing::Power(1.0),
            bondline_mm,
            moduli_mpa: [strip.adhesive.peel_modulus_mpa, strip.adhesive.shear_modulus_mpa],
            thickness_mm,
        };
        let law = law_of(&strengths, level, results)?;
        load(&mut self.walker, &Joint::new(strip, law))
    }
}
