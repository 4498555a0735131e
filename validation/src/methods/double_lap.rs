//! The double lap, `mechanics::closed::double_lap` and `elastic_plastic`.

use mechanics::closed::double_lap::{self, DoubleLap};
use mechanics::closed::elastic_plastic::{self, Plastic};
use quantity::Kind;

use super::Output;
use super::closed::{adherend, layer, load_n_mm, shear_lag, temperature_change_k};
use crate::error::{InputError, MethodError};
use crate::inputs::Inputs;

/// `double_lap::elastic`; the inner plate is loaded at the left.
pub(super) fn elastic(inputs: &Inputs<'_>) -> Result<Vec<Output>, MethodError> {
    let (joint, change_k) = (joint(inputs)?, temperature_change_k(inputs)?);
    Ok(shear_lag(&double_lap::elastic(&joint, load_n_mm(inputs)?, change_k)?))
}

/// `elastic_plastic::long_overlap` and `any_overlap`.
pub(super) fn plastic(inputs: &Inputs<'_>) -> Result<Vec<Output>, MethodError> {
    let (joint, plastic, change_k) = (joint(inputs)?, adhesive(inputs)?, temperature_change_k(inputs)?);
    let long = elastic_plastic::long_overlap(&joint, &plastic, change_k)?;
    let any = elastic_plastic::any_overlap(&joint, &plastic, change_k)?;
    Ok(vec![
        Output::new("inner_end", Kind::LineLoad, long.inner_n_mm),
        Output::new("outer_end", Kind::LineLoad, long.outer_n_mm),
        Output::new("capacity", Kind::LineLoad, long.capacity_n_mm()),
        Output::new("capacity_of_this_overlap", Kind::LineLoad, any.capacity_n_mm()),
    ])
}

/// `elastic_plastic::overlap_needed`.
pub(super) fn overlap(inputs: &Inputs<'_>) -> Result<Vec<Output>, MethodError> {
    let (joint, plastic) = (joint(inputs)?, adhesive(inputs)?);
    let needed = elastic_plastic::overlap_needed(&joint, &plastic, load_n_mm(inputs)?)?;
    Ok(vec![
        Output::new("plastic_zones", Kind::Length, needed.plastic_mm),
        Output::new("trough", Kind::Length, needed.trough_mm),
        Output::new("overlap", Kind::Length, needed.total_mm()),
        Output::new("least_overlap", Kind::Length, needed.least_mm),
        Output::number("trough_shear_over_strength", needed.trough_shear_mpa / plastic.shear_strength_mpa),
    ])
}

/// `elastic_plastic::end_peel_mpa`.
pub(super) fn end_peel(inputs: &Inputs<'_>) -> Result<Vec<Output>, MethodError> {
    let peel = elastic_plastic::end_peel_mpa(&joint(inputs)?, &adhesive(inputs)?)?;
    Ok(vec![Output::stress("peel", peel)])
}

fn joint(inputs: &Inputs<'_>) -> Result<DoubleLap, InputError> {
    Ok(DoubleLap {
        inner: adherend(&inputs.table("inner")?)?,
        outer: adherend(&inputs.table("outer")?)?,
        layer: layer(inputs)?,
        overlap_mm: inputs.quantity("overlap", Kind::Length)?,
    })
}

fn adhesive(inputs: &Inputs<'_>) -> Result<Plastic, InputError> {
    Ok(Plastic {
        shear_strength_mpa: inputs.quantity("shear_strength", Kind::Stress)?,
        strain_at_failure: inputs.number("strain_at_failure")?,
    })
}
