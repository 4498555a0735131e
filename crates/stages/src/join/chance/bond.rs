//! A bond whose capacity is asked for again and again, with strengths, bondline and overlap that differ.

use assessment::Known;
use mechanics::bondline::Bondline;
use mechanics::strip::progressive::{Cohesive, Joint, Law, Plastic, Walker};

use super::super::capacity::{Level, Strengths, capped, law_of, peak};
use crate::Results;

/// Elements along the overlap of a strip with scatter. How the peak depends on what scatters changes by less than half a
/// per cent against 200, in layers that are not brittle over a long overlap; its size is taken from the finer strip.
pub(in super::super) const ELEMENTS: u32 = 32;

/// Below this share of what is written, strength, toughness and overlap are those of no strip; the capacity goes with
/// them in a straight line from there, through nothing where they are nothing: a normal tail reaches below zero.
const LEAST_SHARE: f64 = 0.02;

/// A place whose capacity as written is this many times the least is not looked at again: what scatters does so for all
/// places together.
const LEFT_OUT: f64 = 1.5;

/// A place of a bond, as the job has it.
pub(in super::super) struct Place {
    /// Its strip, loaded by the case at the factor 1.
    pub(in super::super) joint: Joint,
    /// Its bondline as written, mm.
    pub(in super::super) bondline_mm: f64,
    /// The least that beads leave, mm.
    pub(in super::super) least_mm: f64,
}

/// The bond of a joint under a case.
pub(in super::super) struct Bond<'j> {
    strengths: Strengths<'j>,
    places: Vec<Prepared>,
}

/// A place made ready for many strips.
struct Prepared {
    place: Place,
    /// The thickness that sets the stiffness of the layer, mm: of the written one and the least the one that carries
    /// less.
    thickness_mm: f64,
    /// Capacity factor as written.
    written: f64,
    /// Capacity of the finer strip over that of this one, as written.
    scale: f64,
}

/// Values that were drawn, each over what is written.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(in super::super) struct Drawn {
    pub(in super::super) strength: f64,
    pub(in super::super) toughness: f64,
    pub(in super::super) bondline: f64,
    pub(in super::super) overlap: f64,
}

impl<'j> Bond<'j> {
    pub(in super::super) fn new(
        strengths: Strengths<'j>,
        places: &[Place],
        elements: u32,
        results: &Results,
    ) -> Known<Self> {
        let prepared = places.iter().map(|place| Prepared::of(place, &strengths, elements, results));
        let mut places = prepared.collect::<Known<Vec<_>>>()?;
        let least = places.iter().map(|place| place.written).fold(f64::INFINITY, f64::min);
        places.retain(|place| place.written <= LEFT_OUT * least);
        Ok(Self { strengths, places })
    }

    /// Strips that one answer takes.
    pub(in super::super) fn strips(&self) -> usize {
        self.places.iter().map(|it| if it.place.joint.rows.is_empty() { 1 } else { 2 }).sum()
    }

    /// The multiple of the case's load at which the bond gives way: the least of its places.
    ///
    /// The layer stays as stiff as it is written: a thicker bond helps only by the user's own table of strengths by
    /// bondline. Beads keep it from being thinner.
    pub(in super::super) fn factor(&self, drawn: &Drawn, results: &Results) -> Known<f64> {
        let least = f64::min(drawn.strength, drawn.toughness).min(drawn.overlap);
        if least < LEAST_SHARE {
            let there = Drawn {
                strength: f64::max(drawn.strength, LEAST_SHARE),
                toughness: f64::max(drawn.toughness, LEAST_SHARE),
                overlap: f64::max(drawn.overlap, LEAST_SHARE),
                ..*drawn
            };
            return Ok(least / LEAST_SHARE * self.factor(&there, results)?);
        }
        let mut walker = Walker::new();
        let mut least = f64::INFINITY;
        for prepared in &self.places {
            let Prepared { place, thickness_mm, scale, .. } = prepared;
            let bondline_mm = f64::max(drawn.bondline * place.bondline_mm, place.least_mm);
            let strengths = Strengths { bondline_mm, thickness_mm: *thickness_mm, ..self.strengths };
            let law = scaled(law_of(&strengths, Level::AsWritten, results)?, drawn, &strengths);
            let mut joint = Joint { law, ..place.joint.clone() };
            joint.strip.overlap_mm *= drawn.overlap;
            joint.rows.iter_mut().for_each(|row| row.x_mm *= drawn.overlap);
            joint.unbonded_mm.iter_mut().flatten().for_each(|end| *end *= drawn.overlap);
            least = f64::min(least, scale * peak(&capped(&mut walker, &joint)?)?.factor);
        }
        Ok(least)
    }
}

impl Prepared {
    fn of(place: &Place, strengths: &Strengths<'_>, elements: u32, results: &Results) -> Known<Self> {
        let mut walker = Walker::new();
        let with = |thickness_mm: f64| -> Known<Joint> {
            let strengths = Strengths { bondline_mm: place.bondline_mm, thickness_mm, ..*strengths };
            let mut joint =
                Joint { law: law_of(&strengths, Level::AsWritten, results)?, ..place.joint.clone() };
            joint.strip.bondline = Bondline::Constant(thickness_mm);
            Ok(joint)
        };
        let (mut thickness_mm, mut joint) = (place.bondline_mm, with(place.bondline_mm)?);
        let mut written = peak(&capped(&mut walker, &joint)?)?.factor;
        if place.bondline_mm > place.least_mm * (1.0 + 1e-9) {
            let thin = with(place.least_mm)?;
            let factor = peak(&capped(&mut walker, &thin)?)?.factor;
            if factor < written {
                (thickness_mm, joint, written) = (place.least_mm, thin, factor);
            }
        }
        joint.strip.mesh.elements = elements;
        let scale = written / peak(&capped(&mut walker, &joint)?)?.factor;
        Ok(Self { place: Place { joint, ..*place }, thickness_mm, written, scale })
    }
}

/// The law with strength and toughness as drawn.
///
/// A layer that is less tough than what it takes up before its strength gives way when that much is taken up.
fn scaled(law: Law, drawn: &Drawn, strengths: &Strengths<'_>) -> Law {
    let (strong, tough) = (drawn.strength, drawn.toughness);
    let [opening, shear] = strengths.moduli_mpa.map(|modulus| modulus / strengths.thickness_mm);
    match law {
        Law::Cohesive(law) => {
            let (first, second) = (tough * law.mode_1_toughness_n_mm, tough * law.mode_2_toughness_n_mm);
            let most = |toughness: f64, stiffness: f64| 0.99 * (2.0 * toughness * stiffness).sqrt();
            Law::Cohesive(Cohesive {
                tensile_strength_mpa: f64::min(strong * law.tensile_strength_mpa, most(first, opening)),
                shear_strength_mpa: f64::min(strong * law.shear_strength_mpa, most(second, shear)),
                mode_1_toughness_n_mm: first,
                mode_2_toughness_n_mm: second,
                ..law
            })
        }
        Law::Plastic(law) => {
            let elastic = law.shear_strength_mpa / strengths.moduli_mpa[1];
            let plastic = law.strain_at_failure - elastic;
            Law::Plastic(Plastic {
                shear_strength_mpa: strong * law.shear_strength_mpa,
                strain_at_failure: strong * elastic + tough * plastic,
            })
        }
    }
}

#[cfg(test)]
mod tests;
