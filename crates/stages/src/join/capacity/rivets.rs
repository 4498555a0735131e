//! The rivet rows of plates beside the bond, as the strip takes them: strengths without partial factors.

use assessment::Known;
use job::tables::{Adherend, PlateRivets};
use job::{Entry, Needed};
use mechanics::rivet::flexibility::{Fastened, Fastening, Plate, ShearPlanes, huth_mm_n};
use mechanics::rivet::resistance::GAMMA_M2;
use mechanics::rivet::resistance::sheet::{self, RivetedSheet};
use mechanics::rivet::share::{Hold, Row};
use quantity::Length;

use super::super::lap::failed;
use super::super::subject::Subject;

/// The rivet rows beside the bond; none where there are none. In double shear half of each rivet belongs to half
/// of the joint: one of its planes.
pub(super) fn rows(
    subject: &Subject<'_>,
    rivets: &Entry<PlateRivets>,
    width: &Entry<Length>,
    plates: [&Entry<Adherend>; 2],
    planes: ShearPlanes,
    overlap_mm: f64,
) -> Known<Vec<Row>> {
    let Some(rivets) = rivets.get() else { return Ok(Vec::new()) };
    let (rivet, rows, per_row, width) = (
        subject.tables.rivets.referred(&rivets.kind),
        rivets.rows.need(),
        rivets.per_row.need(),
        width.need(),
    )
        .need_all()?;
    let (shear, tension, diameter, material) = (
        rivet.shear_strength.need(),
        rivet.tension_strength.need(),
        rivet.diameter.need(),
        rivet.material.need(),
    )
        .need_all()?;
    let modulus = material.youngs_modulus.need()?.mpa();
    let thickness = |entry: &Entry<Adherend>| -> Known<f64> { Ok(entry.need()?.thickness.need()?.mm()) };
    let thickest = f64::max(thickness(plates[0])?, thickness(plates[1])?);
    let end = rows.iter().map(|row| f64::min(row.mm(), overlap_mm - row.mm())).fold(f64::INFINITY, f64::min);
    // Strengths without a partial factor: the strip takes them as they are.
    let plate = |entry: &Entry<Adherend>| -> Known<(Plate, f64)> {
        let plate = entry.need()?;
        let (of, thickness) =
            (subject.tables.materials.referred(&plate.material), plate.thickness.need()).need_all()?;
        let (youngs_modulus, tensile) = (of.youngs_modulus.need(), of.tensile_strength.need()).need_all()?;
        let flat = Plate { thickness_mm: thickness.mm(), youngs_modulus_mpa: youngs_modulus.mpa() };
        let wall = RivetedSheet {
            thinner_mm: thickness.mm(),
            thicker_mm: thickest,
            tensile_strength_mpa: tensile.mpa(),
            diameter_mm: diameter.mm(),
            end_distance_mm: end,
        };
        let bearing =
            sheet::bearing(sheet::Rule::En1999, &wall, GAMMA_M2).map_err(|failure| failed(&failure))?;
        Ok((flat, bearing.characteristic_n))
    };
    let (first, second) = (plate(plates[0])?, plate(plates[1])?);
    let fastened = Fastened {
        first: first.0,
        second: second.0,
        diameter_mm: diameter.mm(),
        youngs_modulus_mpa: modulus,
    };
    let give = huth_mm_n(Fastening::RivetedMetal, planes, &fastened).map_err(|failure| failed(&failure))?;
    let bearing = match planes {
        ShearPlanes::One => f64::min(first.1, second.1),
        ShearPlanes::Two => f64::min(0.5 * first.1, second.1),
    };
    let of_plane = 1.0 / planes.count();
    let grip = first.0.thickness_mm + second.0.thickness_mm;
    let area = std::f64::consts::FRAC_PI_4 * diameter.mm() * diameter.mm();
    let hold =
        Hold { stiffness_n_mm: of_plane / give, strength_n: f64::min(shear.n(), bearing), break_mm: None };
    let opening = Hold { stiffness_n_mm: modulus * area / grip, strength_n: tension.n(), break_mm: None };
    let pitch_mm = width.mm() / f64::from(*per_row);
    Ok(rows.iter().map(|row| Row { x_mm: row.mm(), pitch_mm, shear: hold, opening }).collect())
}
