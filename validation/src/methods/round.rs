//! Round joints: tube and disc of `mechanics::closed`.

use mechanics::closed::disc as butt;
use mechanics::closed::tube::{self, Tube, TubularLap};
use quantity::Kind;

use super::Output;
use super::closed::shear_lag;
use crate::error::{InputError, MethodError};
use crate::inputs::Inputs;

/// `tube::torsion`; the inner tube is loaded at the left.
pub(super) fn torsion(inputs: &Inputs<'_>) -> Result<Vec<Output>, MethodError> {
    let lap = TubularLap {
        inner: tube_of(&inputs.table("inner")?)?,
        outer: tube_of(&inputs.table("outer")?)?,
        shear_modulus_mpa: inputs.quantity("adhesive_shear_modulus", Kind::Stress)?,
        overlap_mm: inputs.quantity("overlap", Kind::Length)?,
    };
    let mut outputs = shear_lag(&tube::torsion(&lap, inputs.quantity("torque", Kind::Moment)?)?);
    for (name, tube) in [("inner_polar_second_moment", lap.inner), ("outer_polar_second_moment", lap.outer)] {
        outputs.push(Output::new(name, Kind::SecondMoment, tube.polar_second_moment_mm4()));
    }
    Ok(outputs)
}

/// A tube of which torsion asks for the shear modulus only: that of E = 2 G, ν = 0.
fn tube_of(inputs: &Inputs<'_>) -> Result<Tube, InputError> {
    Ok(Tube {
        youngs_modulus_mpa: 2.0 * inputs.quantity("shear_modulus", Kind::Stress)?,
        poissons_ratio: 0.0,
        thermal_expansion_per_k: 0.0,
        outside_diameter_mm: inputs.quantity("outside_diameter", Kind::Length)?,
        wall_mm: inputs.quantity("wall", Kind::Length)?,
    })
}

/// `disc::eccentric_pull`.
pub(super) fn disc(inputs: &Inputs<'_>) -> Result<Vec<Output>, MethodError> {
    let length = |key| inputs.quantity(key, Kind::Length);
    let force_n = inputs.quantity("force", Kind::Force)?;
    let hole_mm = inputs.quantity_or("hole", Kind::Length, 0.0)?;
    let stress = butt::eccentric_pull(force_n, length("eccentricity")?, length("diameter")?, hole_mm)?;
    Ok(vec![
        Output::stress("mean", stress.mean_mpa),
        Output::stress("greatest", stress.greatest_mpa),
        Output::stress("least", stress.least_mpa),
        Output::new("kern", Kind::Length, stress.kern_mm),
    ])
}

/// `disc::constrained_modulus_mpa`.
pub(super) fn constrained_modulus(inputs: &Inputs<'_>) -> Result<Vec<Output>, MethodError> {
    let e_mpa = inputs.quantity("youngs_modulus", Kind::Stress)?;
    let modulus = butt::constrained_modulus_mpa(e_mpa, inputs.number("poissons_ratio")?)?;
    Ok(vec![Output::stress("constrained_modulus", modulus)])
}
