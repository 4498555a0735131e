//! One rivet or bolt, `mechanics::rivet`.

use mechanics::rivet::flexibility::{Fastened, Fastening, Plate, ShearPlanes, huth_mm_n, swift_mm_n};
use quantity::Kind;

use super::Output;
use crate::error::{InputError, MethodError};
use crate::inputs::Inputs;

/// `flexibility::huth_mm_n` in single shear, as a stiffness.
pub(super) fn huth(inputs: &Inputs<'_>) -> Result<Vec<Output>, MethodError> {
    let fastening = inputs.word(
        "fastening",
        &[
            ("riveted metal", Fastening::RivetedMetal),
            ("bolted metal", Fastening::BoltedMetal),
            ("bolted laminate", Fastening::BoltedLaminate),
        ],
    )?;
    Ok(stiffness(huth_mm_n(fastening, ShearPlanes::One, &fastened(inputs)?)?))
}

/// `flexibility::swift_mm_n`, as a stiffness.
pub(super) fn swift(inputs: &Inputs<'_>) -> Result<Vec<Output>, MethodError> {
    Ok(stiffness(swift_mm_n(&fastened(inputs)?)?))
}

fn stiffness(flexibility_mm_n: f64) -> Vec<Output> {
    vec![Output::new("stiffness", Kind::Stiffness, 1.0 / flexibility_mm_n)]
}

fn fastened(inputs: &Inputs<'_>) -> Result<Fastened, InputError> {
    Ok(Fastened {
        first: plate(&inputs.table("first")?)?,
        second: plate(&inputs.table("second")?)?,
        diameter_mm: inputs.quantity("diameter", Kind::Length)?,
        youngs_modulus_mpa: inputs.quantity("fastener_youngs_modulus", Kind::Stress)?,
    })
}

fn plate(inputs: &Inputs<'_>) -> Result<Plate, InputError> {
    Ok(Plate {
        thickness_mm: inputs.quantity("thickness", Kind::Length)?,
        youngs_modulus_mpa: inputs.quantity("youngs_modulus", Kind::Stress)?,
    })
}
