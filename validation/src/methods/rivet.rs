//! Rivets and bolts, `mechanics::rivet`.

use mechanics::rivet::flexibility::{Fastened, Fastening, Plate, ShearPlanes, huth_mm_n, swift_mm_n};
use mechanics::rivet::layout::{self, Code, Limit, Riveting, Rule};
use mechanics::rivet::resistance::sheet::{self, Rule as SheetRule};
use mechanics::rivet::resistance::wall::{self, Place, Wall};
use mechanics::rivet::{practice, resistance};
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

/// `resistance::wall::bearing`, with the recommended partial factor.
pub(super) fn bearing(inputs: &Inputs<'_>) -> Result<Vec<Output>, MethodError> {
    let wall = Wall {
        thickness_mm: inputs.quantity("thickness", Kind::Length)?,
        tensile_strength_mpa: inputs.quantity("tensile_strength", Kind::Stress)?,
        diameter_mm: inputs.quantity("diameter", Kind::Length)?,
        hole_mm: inputs.quantity("hole", Kind::Length)?,
        fastener_strength_mpa: None,
    };
    let place = Place {
        end_mm: distance_mm(inputs, "end")?,
        edge_mm: distance_mm(inputs, "edge")?,
        along_mm: distance_mm(inputs, "along")?,
        across_mm: distance_mm(inputs, "across")?,
    };
    let factors = wall::bearing_factors(&wall, &place)?;
    Ok(vec![
        Output::number("alpha_b", factors.alpha_b),
        Output::number("k_1", factors.k_1),
        Output::new("design", Kind::Force, wall::bearing(&wall, &place, resistance::GAMMA_M2)?.design_n),
    ])
}

/// A distance of a fastener; none where the case gives none.
fn distance_mm(inputs: &Inputs<'_>, key: &str) -> Result<Option<f64>, InputError> {
    if inputs.has(key) { inputs.quantity(key, Kind::Length).map(Some) } else { Ok(None) }
}

/// `resistance::wall::solid_shear` and `solid_tension`, with the recommended partial factor.
pub(super) fn solid(inputs: &Inputs<'_>) -> Result<Vec<Output>, MethodError> {
    let strength_mpa = inputs.quantity("tensile_strength", Kind::Stress)?;
    let hole_mm = inputs.quantity("hole", Kind::Length)?;
    let gamma = resistance::GAMMA_M2;
    let shear = wall::solid_shear(strength_mpa, hole_mm, ShearPlanes::One, gamma)?;
    let tension = wall::solid_tension(strength_mpa, hole_mm, gamma)?;
    Ok(vec![
        Output::new("shear", Kind::Force, shear.design_n),
        Output::new("tension", Kind::Force, tension.design_n),
    ])
}

/// `resistance::sheet::bearing_factor` in steel sheet.
pub(super) fn bearing_factor_in_sheet(inputs: &Inputs<'_>) -> Result<Vec<Output>, MethodError> {
    let length = |key| inputs.quantity(key, Kind::Length);
    let (thinner, thicker, diameter) = (length("thinner")?, length("thicker")?, length("diameter")?);
    let alpha = sheet::bearing_factor(SheetRule::En1993, thinner, thicker, diameter)?;
    Ok(vec![Output::number("alpha", alpha)])
}

/// The least distances of `layout::distances`, for a rivet and a hole of 1 mm: as multiples.
pub(super) fn least_distances(inputs: &Inputs<'_>) -> Result<Vec<Output>, MethodError> {
    let code = inputs.word(
        "code",
        &[("minima", Code::Minima), ("regular", Code::Regular), ("aircraft", Code::Aircraft)],
    )?;
    let anywhere = Some(1.0);
    let riveting = Riveting {
        diameter_mm: 1.0,
        hole_mm: 1.0,
        thickest_mm: 1.0,
        end_mm: anywhere,
        edge_mm: anywhere,
        along_mm: anywhere,
        across_mm: anywhere,
    };
    let checks = layout::distances(code, &riveting)?;
    let least = |name, rule| {
        let check = checks.iter().find(|check| check.rule == rule);
        match check.map(|check| check.limit) {
            Some(Limit::Least(multiple)) => Ok(Output::number(name, multiple)),
            _ => Err(MethodError::NoAnswer { what: name }),
        }
    };
    Ok(vec![
        least("end", Rule::EndDistance)?,
        least("edge", Rule::EdgeDistance)?,
        least("along", Rule::SpacingAlong)?,
        least("across", Rule::SpacingAcross)?,
    ])
}

/// `practice::diameter_for_sheet_mm` and `splice_rivets`.
pub(super) fn splice(inputs: &Inputs<'_>) -> Result<Vec<Output>, MethodError> {
    // Rivets per inch times inches: a number without unit.
    let (width, per_width) = (inputs.number("width_in")?, inputs.number("rivets_per_in")?);
    let share = inputs.number("share")?;
    let rivets = |rows| -> Result<f64, MethodError> {
        Ok(f64::from(practice::splice_rivets(width, per_width, share, rows)?))
    };
    let thickness_mm = inputs.quantity("thickness", Kind::Length)?;
    Ok(vec![
        Output::new("diameter", Kind::Length, practice::diameter_for_sheet_mm(thickness_mm)?),
        Output::number("rivets", rivets(1)?),
        Output::number("rivets_in_two_rows", rivets(2)?),
    ])
}

/// `practice::solid_length_mm` and `usual_pitch_mm`.
pub(super) fn solid_practice(inputs: &Inputs<'_>) -> Result<Vec<Output>, MethodError> {
    let diameter_mm = inputs.quantity("diameter", Kind::Length)?;
    let length_mm = practice::solid_length_mm(inputs.quantity("grip", Kind::Length)?, diameter_mm)?;
    let [least, greatest] = practice::usual_pitch_mm(diameter_mm)?;
    Ok(vec![
        Output::new("length", Kind::Length, length_mm),
        Output::number("least_pitch_over_diameter", least / diameter_mm),
        Output::number("greatest_pitch_over_diameter", greatest / diameter_mm),
    ])
}
