//! Squeeze-out, `process::squeeze`.

use process::squeeze as flow;
use quantity::Kind;

use super::Output;
use crate::error::{InputError, MethodError};
use crate::inputs::Inputs;

/// 1 Pa s in N s/mm².
const PA_S: f64 = 1e-6;
/// 1 mL in mm³.
const ML: f64 = 1e3;
/// 1 mm/s in m/s.
const MM_S: f64 = 1e-3;

/// A disc that is full to its edge: time to close, and speed when closed.
pub(super) fn disc(inputs: &Inputs<'_>) -> Result<Vec<Output>, MethodError> {
    let (viscosity, force_n) = (viscosity(inputs)?, inputs.quantity("force", Kind::Force)?);
    let radius_mm = inputs.quantity("radius", Kind::Length)?;
    let (from_mm, to_mm) = gaps_mm(inputs)?;
    let speed = flow::disc_speed_mm_s(viscosity, force_n, radius_mm, to_mm)?;
    Ok(vec![
        Output::new("time", Kind::Time, flow::disc_time_s(viscosity, force_n, radius_mm, from_mm, to_mm)?),
        Output::new("speed", Kind::Speed, speed * MM_S),
    ])
}

/// A drop of constant volume.
pub(super) fn drop(inputs: &Inputs<'_>) -> Result<Vec<Output>, MethodError> {
    let volume_mm3 = inputs.quantity("volume", Kind::Volume)? * ML;
    let (from_mm, to_mm) = gaps_mm(inputs)?;
    let force_n = inputs.quantity("force", Kind::Force)?;
    let time_s = flow::drop_time_s(viscosity(inputs)?, force_n, volume_mm3, from_mm, to_mm)?;
    Ok(vec![Output::new("time", Kind::Time, time_s)])
}

/// A long strip.
pub(super) fn strip(inputs: &Inputs<'_>) -> Result<Vec<Output>, MethodError> {
    let force_n_mm = inputs.quantity("force", Kind::Force)? / inputs.quantity("length", Kind::Length)?;
    let width_mm = inputs.quantity("width", Kind::Length)?;
    let (from_mm, to_mm) = gaps_mm(inputs)?;
    let time_s = flow::strip_time_s(viscosity(inputs)?, force_n_mm, width_mm, from_mm, to_mm)?;
    Ok(vec![Output::new("time", Kind::Time, time_s)])
}

fn viscosity(inputs: &Inputs<'_>) -> Result<f64, InputError> {
    Ok(inputs.quantity("viscosity", Kind::Viscosity)? * PA_S)
}

fn gaps_mm(inputs: &Inputs<'_>) -> Result<(f64, f64), InputError> {
    Ok((inputs.quantity("from", Kind::Length)?, inputs.quantity("to", Kind::Length)?))
}
