//! A section with holes in its walls.

use super::{Point, Section};
use crate::failure::{self, Failure};
use crate::statics::Resultants;

/// A hole in a wall, as the area that it takes away.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Hole {
    /// Its middle, in the section's coordinates, mm.
    pub at_mm: Point,
    /// Diameter times thickness of the wall, mm².
    pub area_mm2: f64,
}

impl Section {
    /// Greatest magnitude of the fibre stress of N, M_y and M_z on the section less its holes, MPa.
    ///
    /// ```text
    /// A' = A − Σ A_h     c' = (A c − Σ A_h r)/A'     I'_y = I_y + A (c_z − c'_z)² − Σ A_h (z − c'_z)²
    /// M'_y = M_y + N (c_z − c'_z)                    M'_z = M_z − N (c_y − c'_y)
    /// σ = N/A' + (M'_y I'_z + M'_z I'_yz)/D z − (M'_z I'_y + M'_y I'_yz)/D y     D = I'_y I'_z − I'_yz²
    /// ```
    ///
    /// A_h, r area and place of a hole; c, c' centroid without and with holes (mm); I second moments (mm⁴);
    /// y, z from c'. A hole counts as a point: its own second moment is left out, which is small for holes
    /// small beside the section. Mean over the net section, without the stress concentration at the hole.
    /// One material. Textbook (formula).
    ///
    /// # Errors
    ///
    /// [`Failure::NotPositive`] for a hole, or where nothing is left of the section; [`Failure::NotFinite`],
    /// [`Failure::NoNumber`].
    pub fn net_stress_mpa(&self, resultants: &Resultants, holes: &[Hole]) -> Result<f64, Failure> {
        resultants.check()?;
        let gross = self.properties();
        let mut area = gross.area_mm2;
        let mut first = gross.centroid_mm.map(|c| gross.area_mm2 * c);
        for hole in holes {
            area -= failure::positive("area of a hole", hole.area_mm2)?;
            for (sum, place) in first.iter_mut().zip(hole.at_mm) {
                *sum -= hole.area_mm2 * failure::finite("place of a hole", place)?;
            }
        }
        failure::positive("net area", area)?;
        let centre = first.map(|sum| sum / area);
        let shift = [0, 1].map(|k| gross.centroid_mm[k] - centre[k]);
        let second = |i: usize, j: usize, own: f64| {
            let lost: f64 = holes
                .iter()
                .map(|hole| hole.area_mm2 * (hole.at_mm[i] - centre[i]) * (hole.at_mm[j] - centre[j]))
                .sum();
            own + gross.area_mm2 * shift[i] * shift[j] - lost
        };
        let (i_y, i_z, i_yz) =
            (second(1, 1, gross.i_y_mm4), second(0, 0, gross.i_z_mm4), second(0, 1, gross.i_yz_mm4));
        let determinant = failure::positive("net second moments", i_y * i_z - i_yz * i_yz)?;
        let moment_y = resultants.moment_y_nmm + resultants.axial_n * shift[1];
        let moment_z = resultants.moment_z_nmm - resultants.axial_n * shift[0];
        let per_z = (moment_y * i_z + moment_z * i_yz) / determinant;
        let per_y = -(moment_z * i_y + moment_y * i_yz) / determinant;
        let stress = |at: &Point| {
            (resultants.axial_n / area + per_y * (at[0] - centre[0]) + per_z * (at[1] - centre[1])).abs()
        };
        let greatest = self.tiles.iter().flatten().map(stress).fold(0.0, f64::max);
        failure::number("net fibre stress", greatest)
    }
}

#[cfg(test)]
mod tests {
    use super::super::{Isotropic, shapes};
    use super::*;

    fn rail() -> Section {
        let shape =
            shapes::HollowBox { width_mm: 80.0, height_mm: 120.0, wall_mm: 4.0, inner_radius_mm: 8.0 };
        shape.section(Isotropic { youngs_modulus_mpa: 71_000.0, poissons_ratio: 0.33 }).expect("a section")
    }

    #[test]
    fn unit_without_holes_it_is_the_gross_stress() {
        let loads = Resultants {
            axial_n: 16_580.0,
            moment_y_nmm: -1.49e6,
            moment_z_nmm: 1.51e6,
            ..Resultants::default()
        };
        let extremes = rail().extremes(&loads).expect("stresses");
        let gross = extremes.greatest.stress_mpa.abs().max(extremes.least.stress_mpa.abs());
        let net = rail().net_stress_mpa(&loads, &[]).expect("stress");
        assert!((net - gross).abs() < 1e-9 * gross, "{net} {gross}");
    }

    #[test]
    fn unit_two_opposite_holes_by_hand() {
        let hole = |z| Hole { at_mm: [0.0, z], area_mm2: 6.6 * 4.0 };
        let loads = Resultants { axial_n: 10_000.0, moment_y_nmm: 1e6, ..Resultants::default() };
        let gross = *rail().properties();
        let area = gross.area_mm2 - 2.0 * 26.4;
        let i_y = gross.i_y_mm4 - 2.0 * 26.4 * 58.0 * 58.0;
        let by_hand = 10_000.0 / area + 1e6 * 60.0 / i_y;
        let net = rail().net_stress_mpa(&loads, &[hole(58.0), hole(-58.0)]).expect("stress");
        assert!((net - by_hand).abs() < 1e-9 * by_hand, "{net} {by_hand}");
    }

    #[test]
    fn unit_more_holes_than_section_is_refused() {
        let all = Hole { at_mm: [0.0, 58.0], area_mm2: 1e4 };
        assert!(matches!(
            rail().net_stress_mpa(&Resultants::default(), &[all]),
            Err(Failure::NotPositive { .. })
        ));
    }
}
