//! A coupon as the strip sees it: what it carries with given strengths and toughnesses of its adhesive.

use assessment::{Known, Lack};
use job::Needed;
use job::tables::Material;
use mechanics::bondline::Bondline;
use mechanics::strip::progressive::{
    Cohesive, Control, Edge, Hardening, Joint, Law, Mixing, Outcome, Walker, What,
};
use mechanics::strip::{self, Ends, Mesh, Plane, Strip, Supports};

use crate::join::{ARM_ELEMENTS, ELEMENTS, hardening, peak};
use crate::sections::failed;

/// Elements from the end of a crack to the end of a cantilever, of which damage sees the first few centimetres.
const CANTILEVER_ELEMENTS: u32 = 100;

/// Elements there are longer in the middle than at the crack by this.
const CANTILEVER_GRADING: f64 = 10.0;

/// The strip of a cantilever is at least this many cracks long beyond its crack: damage must run until the load has
/// fallen, and what lies beyond the damage does not matter.
const CANTILEVER_CRACKS: f64 = 3.0;

/// How a coupon is cut and loaded.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Form {
    /// A single lap, from whose overlap it is this far to the grips, mm.
    Lap { arm_mm: f64 },
    /// Arms pulled apart this far from the end of the crack, mm.
    DoubleCantilever { crack_mm: f64 },
    /// Arms bent as one this far from the end of the crack, mm, held at the other end.
    EndLoadedSplit { crack_mm: f64 },
}

/// Strengths (MPa) and toughnesses (N/mm) of an adhesive in the layer of a coupon.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Properties {
    pub(crate) shear_mpa: f64,
    pub(crate) tensile_mpa: f64,
    pub(crate) second_n_mm: f64,
    pub(crate) first_n_mm: f64,
}

/// A coupon of two equal plates.
#[derive(Debug, Clone)]
pub(crate) struct Coupon {
    pub(crate) form: Form,
    pub(crate) plate: mechanics::Adherend,
    /// Beyond the proof strength of the plates, where the job gives it.
    pub(crate) hardening: Option<Hardening>,
    pub(crate) layer: strip::Adhesive,
    pub(crate) bondline_mm: f64,
    pub(crate) overlap_mm: f64,
}

/// What a coupon is foretold to carry.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Foretold {
    /// Greatest load over the width, N/mm.
    pub(crate) load_n_mm: f64,
    /// Whether a plate yields before.
    pub(crate) yields: bool,
    /// Length of the bond that has begun to give by then, mm.
    pub(crate) damaged_mm: f64,
}

/// A plate for a coupon, and what it does beyond its proof strength where the job gives that.
pub(crate) fn plate(
    material: &Material,
    thickness_mm: f64,
) -> Known<(mechanics::Adherend, Option<Hardening>)> {
    let (modulus, ratio) = (material.youngs_modulus.need(), material.poissons_ratio.need()).need_all()?;
    let plate = mechanics::Adherend {
        youngs_modulus_mpa: modulus.mpa(),
        poissons_ratio: *ratio,
        thickness_mm,
        thermal_expansion_per_k: 0.0,
    };
    match hardening(material) {
        Ok(hardening) => Ok((plate, Some(hardening))),
        Err(Lack::Missing { .. }) => Ok((plate, None)),
        Err(lack) => Err(lack),
    }
}

impl Coupon {
    /// What it carries with these properties.
    pub(crate) fn foretell(&self, properties: &Properties, walker: &mut Walker) -> Known<Foretold> {
        let guess_n_mm = self.guess_n_mm(properties);
        let joint = self.joint(properties, guess_n_mm);
        let way = walker.run(&joint, &Control::default()).map_err(|failure| failed(&failure))?;
        let damaged_mm = way.steps.get(way.peak_step).map_or(0.0, |step| step.damaged_mm);
        Ok(Foretold { load_n_mm: peak(way)?.factor * guess_n_mm, yields: yields(way), damaged_mm })
    }

    /// The same with its overlap, or its crack, longer by a factor.
    pub(crate) fn longer(&self, by: f64) -> Self {
        match self.form {
            Form::Lap { .. } => Self { overlap_mm: by * self.overlap_mm, ..self.clone() },
            Form::DoubleCantilever { crack_mm } => {
                Self { form: Form::DoubleCantilever { crack_mm: by * crack_mm }, ..self.clone() }
            }
            Form::EndLoadedSplit { crack_mm } => {
                Self { form: Form::EndLoadedSplit { crack_mm: by * crack_mm }, ..self.clone() }
            }
        }
    }

    /// About what it carries; nothing rests on it but the scale of the load.
    fn guess_n_mm(&self, properties: &Properties) -> f64 {
        let bending = self.plate.youngs_modulus_mpa * self.plate.thickness_mm.powi(3) / 12.0;
        match self.form {
            Form::Lap { .. } => properties.shear_mpa * self.overlap_mm,
            Form::DoubleCantilever { crack_mm } => (properties.first_n_mm * bending).sqrt() / crack_mm,
            Form::EndLoadedSplit { crack_mm } => (properties.second_n_mm * bending).sqrt() / crack_mm,
        }
    }

    fn joint(&self, properties: &Properties, load_n_mm: f64) -> Joint {
        let law = Law::Cohesive(Cohesive {
            tensile_strength_mpa: properties.tensile_mpa,
            shear_strength_mpa: properties.shear_mpa,
            mode_1_toughness_n_mm: properties.first_n_mm,
            mode_2_toughness_n_mm: properties.second_n_mm,
            mixing: Mixing::Power(1.0),
        });
        let (arm_mm, overlap_mm, geometry, mesh) = match self.form {
            Form::Lap { arm_mm } => {
                let mesh = Mesh { elements: ELEMENTS, arm_elements: ARM_ELEMENTS, ..Mesh::default() };
                (arm_mm, self.overlap_mm, strip::Geometry::SecondOrder, mesh)
            }
            Form::DoubleCantilever { crack_mm } | Form::EndLoadedSplit { crack_mm } => {
                let (elements, grading) = (CANTILEVER_ELEMENTS, CANTILEVER_GRADING);
                let overlap_mm = f64::max(self.overlap_mm, CANTILEVER_CRACKS * crack_mm);
                (0.0, overlap_mm, strip::Geometry::FirstOrder, Mesh { elements, arm_elements: 1, grading })
            }
        };
        let strip = Strip {
            upper: self.plate,
            lower: self.plate,
            adhesive: self.layer,
            bondline: Bondline::Constant(self.bondline_mm),
            overlap_mm,
            supports: Supports::Gripped { ends: Ends::Clamped, left_arm_mm: arm_mm, right_arm_mm: arm_mm },
            axial_n_mm: load_n_mm,
            shear_flow_n_mm: 0.0,
            temperature_change_k: 0.0,
            plane: Plane::Strain,
            hold_transverse: false,
            lever_arm_includes_bondline: true,
            geometry,
            mesh,
        };
        let left_edges = self.edges(load_n_mm);
        Joint { hardening: [self.hardening; 2], left_edges, ..Joint::new(strip, law) }
    }

    /// What acts on the arms of a cracked coupon at the end of its crack. The load of an end-loaded split is shared by
    /// both arms.
    fn edges(&self, load_n_mm: f64) -> Option<[Edge; 2]> {
        let (crack_mm, forces) = match self.form {
            Form::Lap { .. } => return None,
            Form::DoubleCantilever { crack_mm } => (crack_mm, [1.0, -1.0]),
            Form::EndLoadedSplit { crack_mm } => (crack_mm, [0.5, 0.5]),
        };
        Some(forces.map(|share| Edge {
            axial_n_mm: 0.0,
            moment_n: share * load_n_mm * crack_mm,
            across_n_mm: share * load_n_mm,
        }))
    }
}

/// Whether a plate yields on the way up.
fn yields(way: &Outcome) -> bool {
    way.events
        .iter()
        .any(|event| matches!(event.what, What::AdherendYields(_)) && event.step <= way.peak_step)
}
