//! The strip to failure, `mechanics::strip::progressive`.

use mechanics::Adherend;
use mechanics::bondline::Bondline;
use mechanics::strip::progressive::{Cohesive, Control, Joint, Law, Mixing, Plastic, run};
use mechanics::strip::{Adhesive, Ends, Geometry, Mesh, Plane, Strip, Supports};
use quantity::Kind;

use super::Output;
use super::closed::adherend;
use crate::error::{InputError, MethodError};
use crate::inputs::Inputs;

/// A thin strip bonded to a base that hardly stretches, both held flat, pulled along the bond.
///
/// The base is a metre of steel. The layer gives way in shear alone: either softening linearly from its
/// strength, or level at its strength up to the strain at which the same toughness is spent.
pub(super) fn on_a_base(inputs: &Inputs<'_>) -> Result<Vec<Output>, MethodError> {
    let steel = Adherend {
        youngs_modulus_mpa: 210e3,
        poissons_ratio: 0.3,
        thickness_mm: 1e3,
        thermal_expansion_per_k: 0.0,
    };
    let strip = Strip {
        upper: adherend(&inputs.table("strip")?)?,
        lower: steel,
        adhesive: Adhesive::isotropic(
            inputs.quantity("adhesive_modulus", Kind::Stress)?,
            inputs.number("adhesive_poissons_ratio")?,
        )?,
        bondline: Bondline::Constant(inputs.quantity("bondline", Kind::Length)?),
        overlap_mm: inputs.quantity("overlap", Kind::Length)?,
        supports: Supports::Gripped { ends: Ends::Clamped, left_arm_mm: 0.0, right_arm_mm: 0.0 },
        axial_n_mm: 1.0,
        shear_flow_n_mm: 0.0,
        temperature_change_k: 0.0,
        plane: Plane::Stress,
        hold_transverse: true,
        lever_arm_includes_bondline: true,
        geometry: Geometry::FirstOrder,
        mesh: Mesh { elements: 200, arm_elements: 1, grading: 1.0 },
    };
    let law = law(inputs, &strip)?;
    // In a long bond the damage runs a long way at one load before that load falls.
    let control = Control { most_steps: 20_000, ..Control::default() };
    let outcome = run(&Joint::new(strip, law), &control)?;
    let capacity = outcome.capacity.ok_or(MethodError::NoAnswer { what: "capacity" })?;
    let width_mm = inputs.quantity("width", Kind::Length)?;
    Ok(vec![Output::new("capacity", Kind::Force, capacity.factor * width_mm)])
}

fn law(inputs: &Inputs<'_>, strip: &Strip) -> Result<Law, InputError> {
    let strength_mpa =
        inputs.quantity("shear_strength", Kind::Stress)? * inputs.number_or("share_of_strength", 1.0)?;
    let toughness_n_mm = inputs.quantity("mode_2_toughness", Kind::LineLoad)?;
    let layer_mm = strip.bondline.thickness_mm(0.0);
    let softening = Law::Cohesive(Cohesive {
        // Pure shear: the layer never opens.
        tensile_strength_mpa: strength_mpa,
        shear_strength_mpa: strength_mpa,
        mode_1_toughness_n_mm: toughness_n_mm,
        mode_2_toughness_n_mm: toughness_n_mm,
        mixing: Mixing::Power(1.0),
    });
    let level = Law::Plastic(Plastic {
        shear_strength_mpa: strength_mpa,
        // The toughness is S h (γ_f − S/2G).
        strain_at_failure: toughness_n_mm / (strength_mpa * layer_mm)
            + 0.5 * strength_mpa / strip.adhesive.shear_modulus_mpa,
    });
    inputs.word("law", &[("softening", softening), ("level", level)])
}
