//! The law of the layer from the adhesive's data.

use assessment::{Known, Lack};
use job::Needed;
use job::tables::{Adhesive, Law as Asked, Strengths as Given};
use mechanics::strip::progressive::{Cohesive, Law, Mixing, Plastic};
use quantity::Kind;

use super::super::adhesive::{CHARACTERISTIC_AT, bondline_share, bondline_toughness_share};
use super::super::condition::Condition;
use crate::Results;

/// Which values of the strengths are taken.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(in super::super) enum Level {
    /// As they stand in the job.
    AsWritten,
    /// Those that 95 % of all specimens exceed.
    Characteristic,
}

/// The strengths of an adhesive in a layer, and how they mix.
#[derive(Debug, Clone, Copy)]
pub(in super::super) struct Strengths<'j> {
    pub(in super::super) adhesive: &'j Adhesive,
    /// The law that the job asks for.
    pub(in super::super) asked: Option<Asked>,
    pub(in super::super) mixing: Mixing,
    /// The bondline at which the data are taken, mm.
    pub(in super::super) bondline_mm: f64,
    /// Peel modulus, and shear modulus, MPa.
    pub(in super::super) moduli_mpa: [f64; 2],
    /// Thickness that sets the stiffness of the layer, mm.
    pub(in super::super) thickness_mm: f64,
    /// What temperature and wetness make of them.
    pub(in super::super) condition: Condition,
}

/// The law of the layer at a level of the strengths.
///
/// Toughness goes with the strength: no scatter of its own is given, so the characteristic share holds for both.
pub(in super::super) fn law_of(strengths: &Strengths<'_>, level: Level, results: &Results) -> Known<Law> {
    let adhesive = strengths.adhesive;
    let share = match level {
        Level::AsWritten => 1.0,
        Level::Characteristic => characteristic_share(adhesive)?,
    };
    let print = |mm| results.print(mm, Kind::Length);
    let condition = &strengths.condition;
    let strength = share * condition.strength_share * bondline_share(adhesive, strengths.bondline_mm, print)?;
    let toughness =
        share * condition.toughness_share * bondline_toughness_share(adhesive, strengths.bondline_mm, print)?;
    match kind(strengths) {
        Asked::Linear => Err(Lack::OutOfData {
            what: "a layer that stays linear has no capacity".to_owned(),
            key: "model.law".to_owned(),
        }),
        Asked::ElasticPlastic => {
            let (shear, strain) =
                (adhesive.shear_strength.need(), adhesive.shear_strain_at_failure.need()).need_all()?;
            Ok(Law::Plastic(Plastic {
                shear_strength_mpa: strength * shear.mpa(),
                strain_at_failure: plastic_strain(strengths, strength * shear.mpa(), *strain, toughness)?,
            }))
        }
        Asked::Bilinear => cohesive(strengths, strength, toughness, results),
    }
}

/// The law asked for; without, the one for which there are data, and of both the one that knows peel.
pub(super) fn kind(strengths: &Strengths<'_>) -> Asked {
    let adhesive = strengths.adhesive;
    let tough = adhesive.mode_1_toughness.get().is_some() || adhesive.mode_2_toughness.get().is_some();
    match strengths.asked {
        Some(asked) => asked,
        None if !tough && adhesive.shear_strain_at_failure.get().is_some() => Asked::ElasticPlastic,
        None => Asked::Bilinear,
    }
}

/// The strain at failure, less where the data take toughness away at this bondline.
fn plastic_strain(strengths: &Strengths<'_>, shear_mpa: f64, strain: f64, share: f64) -> Known<f64> {
    let elastic = shear_mpa / strengths.moduli_mpa[1];
    if strain <= elastic {
        return Err(Lack::OutOfData {
            what: format!(
                "the shear strain at failure of {strain} lies below the {elastic:.3} at which the shear strength is reached"
            ),
            key: strengths.adhesive.shear_strain_at_failure.key.clone(),
        });
    }
    Ok(f64::max(elastic + (strain - elastic) * f64::min(share, 1.0), elastic * (1.0 + 1e-9)))
}

fn cohesive(strengths: &Strengths<'_>, strength: f64, toughness: f64, results: &Results) -> Known<Law> {
    let adhesive = strengths.adhesive;
    let (tensile, shear, first, second) = (
        adhesive.tensile_strength.need(),
        adhesive.shear_strength.need(),
        adhesive.mode_1_toughness.need(),
        adhesive.mode_2_toughness.need(),
    )
        .need_all()?;
    let law = Cohesive {
        tensile_strength_mpa: strength * tensile.mpa(),
        shear_strength_mpa: strength * shear.mpa(),
        mode_1_toughness_n_mm: toughness * first.n_per_mm(),
        mode_2_toughness_n_mm: toughness * second.n_per_mm(),
        mixing: strengths.mixing,
    };
    let modes = [
        (
            law.tensile_strength_mpa,
            law.mode_1_toughness_n_mm,
            strengths.moduli_mpa[0],
            &adhesive.mode_1_toughness,
        ),
        (
            law.shear_strength_mpa,
            law.mode_2_toughness_n_mm,
            strengths.moduli_mpa[1],
            &adhesive.mode_2_toughness,
        ),
    ];
    for (strength, toughness, modulus, entry) in modes {
        // The layer takes up this much before it reaches its strength: less toughness than that is no data.
        let least = 0.5 * strength * strength * strengths.thickness_mm / modulus;
        if toughness <= least {
            let print = |value| results.print(value, Kind::Toughness);
            return Err(Lack::OutOfData {
                what: format!(
                    "a toughness of {} is less than the {} that the layer takes up before it reaches its strength",
                    print(toughness),
                    print(least)
                ),
                key: entry.key.clone(),
            });
        }
    }
    Ok(Law::Cohesive(law))
}

/// (1 − 1.645 V), or 1 where the strengths are characteristic already.
fn characteristic_share(adhesive: &Adhesive) -> Known<f64> {
    if adhesive.strengths.get() == Some(&Given::Characteristic) {
        return Ok(1.0);
    }
    Ok(1.0 - CHARACTERISTIC_AT * adhesive.scatter.need()?)
}
