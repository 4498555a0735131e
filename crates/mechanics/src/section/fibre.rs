//! Axial stress at the extreme fibres.

use super::Section;
use super::wall::Point;
use crate::failure::{self, Failure};
use crate::statics::Resultants;

/// A stress and where it acts.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FibreStress {
    /// Axial stress σ, MPa; tension positive.
    pub stress_mpa: f64,
    /// The wall.
    pub wall: usize,
    /// The point of its outline, mm.
    pub at_mm: Point,
}

/// The greatest and the least axial stress of a section.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Extremes {
    /// The greatest (most tensile).
    pub greatest: FibreStress,
    /// The least (most compressive).
    pub least: FibreStress,
}

/// Elastic section moduli: moment over the greatest fibre stress that it alone causes, mm³.
///
/// With unsymmetric sections a moment about y also bends about z: the stress of both is taken.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SectionModuli {
    /// M_y/σ, mm³.
    pub about_y_mm3: f64,
    /// M_z/σ, mm³.
    pub about_z_mm3: f64,
}

impl Section {
    /// Axial stress at a point of a wall by the solid section's area and second moments, MPa.
    ///
    /// ```text
    /// σ = (E/E_ref) (N/A + (M_y I_z + M_z I_yz)/D z − (M_z I_y + M_y I_yz)/D y)
    /// ```
    pub(super) fn stress(&self, resultants: &Resultants, wall: usize, at: Point) -> f64 {
        let gradient = self.solid.gradient(resultants.moment_y_nmm, resultants.moment_z_nmm);
        let bending: f64 = (0..2).map(|k| gradient[k] * (at[k] - self.solid.centroid[k])).sum();
        self.ratio(wall) * (resultants.axial_n / self.solid.area + bending)
    }

    /// The extreme fibre stresses of N, M_y and M_z over the outlines of all walls.
    ///
    /// # Errors
    ///
    /// [`Failure::NotFinite`], [`Failure::NoNumber`].
    pub fn extremes(&self, resultants: &Resultants) -> Result<Extremes, Failure> {
        resultants.check()?;
        let fibre = |wall: usize, at_mm: Point| FibreStress {
            stress_mpa: self.stress(resultants, wall, at_mm),
            wall,
            at_mm,
        };
        let mut all =
            self.tiles.iter().enumerate().flat_map(|(w, tile)| tile.iter().map(move |&p| fibre(w, p)));
        let Some(first) = all.next() else {
            return Err(Failure::NoNumber { what: "fibre stress", found: f64::NAN });
        };
        let extremes = all.fold(Extremes { greatest: first, least: first }, |so_far, next| Extremes {
            greatest: if next.stress_mpa > so_far.greatest.stress_mpa { next } else { so_far.greatest },
            least: if next.stress_mpa < so_far.least.stress_mpa { next } else { so_far.least },
        });
        failure::number("fibre stress", extremes.greatest.stress_mpa)?;
        failure::number("fibre stress", extremes.least.stress_mpa)?;
        Ok(extremes)
    }

    /// The elastic section moduli.
    ///
    /// # Errors
    ///
    /// [`Failure::NoNumber`].
    pub fn section_moduli(&self) -> Result<SectionModuli, Failure> {
        let modulus = |resultants: Resultants| {
            let Extremes { greatest, least } = self.extremes(&resultants)?;
            failure::number("section modulus", 1.0 / greatest.stress_mpa.abs().max(least.stress_mpa.abs()))
        };
        Ok(SectionModuli {
            about_y_mm3: modulus(Resultants { moment_y_nmm: 1.0, ..Resultants::default() })?,
            about_z_mm3: modulus(Resultants { moment_z_nmm: 1.0, ..Resultants::default() })?,
        })
    }
}
