//! Closed forms of `mechanics::closed`.

use mechanics::Adherend;
use mechanics::closed::{
    Lap, Layer, ShearLag, bigwood_crocombe as peel, goland_reissner as goland, hart_smith,
    tsai_oplinger_morton as sheared, volkersen as plain,
};
use quantity::Kind;

use super::Output;
use crate::error::{InputError, MethodError};
use crate::inputs::Inputs;

/// `mechanics::closed::volkersen`.
pub(super) fn volkersen(inputs: &Inputs<'_>) -> Result<Vec<Output>, MethodError> {
    let lap = lap(inputs)?;
    let lag = plain::solve(&lap, load_n_mm(inputs)?, temperature_change_k(inputs)?)?;
    let mut outputs = shear_lag(&lag);
    outputs.push(Output::new("limit_overlap", Kind::Length, plain::limit_overlap_mm(&lap)?));
    Ok(outputs)
}

/// `mechanics::closed::tsai_oplinger_morton`, with its peak over Volkersen's.
pub(super) fn tsai_oplinger_morton(inputs: &Inputs<'_>) -> Result<Vec<Output>, MethodError> {
    let (lap, load_n_mm, change_k) = (lap(inputs)?, load_n_mm(inputs)?, temperature_change_k(inputs)?);
    let lag = sheared::solve(&lap, load_n_mm, change_k)?;
    let volkersen = plain::solve(&lap, load_n_mm, change_k)?;
    let mut outputs = shear_lag(&lag);
    outputs.push(Output::number("bond_number_over_volkersen", lag.bond_number() / volkersen.bond_number()));
    Ok(outputs)
}

/// What every shear-lag solution gives.
pub(super) fn shear_lag(lag: &ShearLag) -> Vec<Output> {
    let [left, right] = lag.ends_mpa();
    vec![
        Output::number("bond_number", lag.bond_number()),
        Output::stress("mean_shear", lag.mean_mpa()),
        Output::stress("peak_shear", lag.peak().value_mpa),
        Output::number("peak_over_mean_shear", lag.peak().value_mpa / lag.mean_mpa()),
        Output::new("place_of_peak", Kind::Length, lag.peak().x_mm),
        Output::stress("left_shear", left),
        Output::stress("right_shear", right),
    ]
}

/// `mechanics::closed::goland_reissner`; with `arm`, the edge factor for free lengths of that length.
pub(super) fn goland_reissner(inputs: &Inputs<'_>) -> Result<Vec<Output>, MethodError> {
    let (lap, load_n_mm) = (lap(inputs)?, load_n_mm(inputs)?);
    let arm_mm = inputs.quantity_or("arm", Kind::Length, f64::INFINITY)?;
    let edge = goland::edge_load(&lap, load_n_mm)?;
    let layer = goland::layer_stresses(&lap, load_n_mm, edge)?;
    let (half_mm, t_mm) = (0.5 * lap.overlap_mm, lap.upper.thickness_mm);
    Ok(vec![
        Output::number("k", goland::edge_factor_with_arm(&lap, load_n_mm, arm_mm)?),
        moment("edge_moment", edge.moment_n),
        Output::new("edge_shear", Kind::LineLoad, edge.shear_n_mm),
        Output::number("k_prime", edge.shear_n_mm * half_mm / (load_n_mm * t_mm)),
        Output::number("beta", layer.shear_rate_per_mm() * t_mm),
        Output::number("beta_c_over_t", layer.shear_rate_per_mm() * half_mm),
        Output::number("lambda", layer.peel_rate_per_mm() * half_mm),
        Output::stress("peak_shear", layer.end_shear().value_mpa),
        Output::number("peak_over_mean_shear", layer.end_shear().value_mpa * lap.overlap_mm / load_n_mm),
        Output::stress("peak_peel", layer.end_peel().value_mpa),
    ])
}

/// `mechanics::closed::hart_smith::edge_factor`.
pub(super) fn hart_smith_edge_moment(inputs: &Inputs<'_>) -> Result<Vec<Output>, MethodError> {
    let k = hart_smith::edge_factor(&lap(inputs)?, load_n_mm(inputs)?)?;
    Ok(vec![Output::number("k", k)])
}

/// `mechanics::closed::bigwood_crocombe`.
pub(super) fn bigwood_crocombe(inputs: &Inputs<'_>) -> Result<Vec<Output>, MethodError> {
    let moment_n = inputs.quantity("moment", Kind::Force)?;
    let shear_n_mm = inputs.quantity("shear", Kind::LineLoad)?;
    let end = peel::end_peel(&lap(inputs)?, moment_n, shear_n_mm)?;
    Ok(vec![
        Output::stress("peel_of_moment", end.of_moment_mpa),
        Output::stress("peel_of_shear", end.of_shear_mpa),
        Output::stress("peel", end.total_mpa()),
    ])
}

/// A moment per width, N·mm/mm.
pub(super) fn moment(name: &'static str, moment_n: f64) -> Output {
    Output::new(name, Kind::Force, moment_n).shown_in("N·mm/mm")
}

/// A lap of two `adherend`s, or of an `upper` and a `lower` one.
fn lap(inputs: &Inputs<'_>) -> Result<Lap, InputError> {
    let [upper, lower] = if inputs.has("adherend") { ["adherend"; 2] } else { ["upper", "lower"] };
    Ok(Lap {
        upper: adherend(&inputs.table(upper)?)?,
        lower: adherend(&inputs.table(lower)?)?,
        layer: layer(inputs)?,
        overlap_mm: inputs.quantity("overlap", Kind::Length)?,
    })
}

/// The adhesive layer. Formulas without the adhesive's Young's modulus are published with examples
/// that leave it out; it is then 2 G, which no such formula looks at.
pub(super) fn layer(inputs: &Inputs<'_>) -> Result<Layer, InputError> {
    let shear_modulus_mpa = inputs.quantity("adhesive_shear_modulus", Kind::Stress)?;
    let absent = 2.0 * shear_modulus_mpa;
    Ok(Layer {
        youngs_modulus_mpa: inputs.quantity_or("adhesive_youngs_modulus", Kind::Stress, absent)?,
        shear_modulus_mpa,
        thickness_mm: inputs.quantity("bondline", Kind::Length)?,
    })
}

/// An adherend; Poisson's ratio and thermal expansion are zero where the source has none.
pub(super) fn adherend(inputs: &Inputs<'_>) -> Result<Adherend, InputError> {
    Ok(Adherend {
        youngs_modulus_mpa: inputs.quantity("youngs_modulus", Kind::Stress)?,
        poissons_ratio: inputs.number_or("poissons_ratio", 0.0)?,
        thickness_mm: inputs.quantity("thickness", Kind::Length)?,
        thermal_expansion_per_k: inputs.quantity_or("thermal_expansion", Kind::ThermalExpansion, 0.0)?,
    })
}

/// The load per width: given as it is, or as a force on a width.
pub(super) fn load_n_mm(inputs: &Inputs<'_>) -> Result<f64, InputError> {
    if inputs.has("force") {
        Ok(inputs.quantity("force", Kind::Force)? / inputs.quantity("width", Kind::Length)?)
    } else {
        inputs.quantity("load", Kind::LineLoad)
    }
}

pub(super) fn temperature_change_k(inputs: &Inputs<'_>) -> Result<f64, InputError> {
    inputs.quantity_or("temperature_change", Kind::TemperatureDifference, 0.0)
}
