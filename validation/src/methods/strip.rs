//! The strip, `mechanics::strip`.

use mechanics::bondline::Bondline;
use mechanics::strip::{Adhesive, Ends, Geometry, Mesh, Plane, Strip, Supports, solve};
use quantity::Kind;

use super::Output;
use super::closed::{adherend, moment};
use crate::error::MethodError;
use crate::inputs::Inputs;

/// A single lap in plane strain between two grips.
///
/// The stresses at both ends of the overlap are the strip's greatest there: a layer of springs has
/// no free face at which the shear would have to vanish.
pub(super) fn lap(inputs: &Inputs<'_>) -> Result<Vec<Output>, MethodError> {
    let (upper, lower, adhesive) =
        (inputs.table("upper")?, inputs.table("lower")?, inputs.table("adhesive")?);
    let answer = solve(&Strip {
        upper: adherend(&upper)?,
        lower: adherend(&lower)?,
        adhesive: Adhesive::isotropic(
            adhesive.quantity("youngs_modulus", Kind::Stress)?,
            adhesive.number("poissons_ratio")?,
        )?,
        bondline: Bondline::Constant(inputs.quantity("bondline", Kind::Length)?),
        overlap_mm: inputs.quantity("overlap", Kind::Length)?,
        supports: Supports::Gripped {
            ends: inputs.word("ends", &[("clamped", Ends::Clamped), ("pinned", Ends::Pinned)])?,
            left_arm_mm: upper.quantity("arm", Kind::Length)?,
            right_arm_mm: lower.quantity("arm", Kind::Length)?,
        },
        axial_n_mm: inputs.quantity("load", Kind::LineLoad)?,
        shear_flow_n_mm: 0.0,
        temperature_change_k: 0.0,
        plane: Plane::Strain,
        hold_transverse: false,
        lever_arm_includes_bondline: true,
        geometry: inputs.word(
            "geometry",
            &[("first order", Geometry::FirstOrder), ("second order", Geometry::SecondOrder)],
        )?,
        mesh: Mesh::default(),
    })?;
    let end = |values: &[f64], right: bool| {
        let value = if right { values.last() } else { values.first() };
        value.copied().ok_or(MethodError::NoAnswer { what: "stress at the end of the overlap" })
    };
    let stiffness = answer.stiffness_n_mm2.ok_or(MethodError::NoAnswer { what: "stiffness" })?;
    let [moment_1, moment_2] = answer.edge_moments_n;
    Ok(vec![
        Output::stress("stiffness", stiffness).shown_in("N/mm²"),
        Output::new("end_displacement", Kind::Length, answer.end_displacement_mm),
        moment("edge_moment_1", moment_1),
        moment("edge_moment_2", -moment_2),
        Output::stress("peak_shear", answer.peak_shear.value_mpa),
        Output::stress("peak_peel", answer.peak_peel.value_mpa),
        Output::stress("left_shear", end(&answer.shear_mpa, false)?),
        Output::stress("right_shear", end(&answer.shear_mpa, true)?),
        Output::stress("left_peel", end(&answer.peel_mpa, false)?),
        Output::stress("right_peel", end(&answer.peel_mpa, true)?),
    ])
}
