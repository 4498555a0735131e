//! Plastic resistance of the walls.

use super::Section;
use super::moments::Sums;
use super::wall::Point;
use crate::failure::{self, Failure};

/// Plastic axial force and plastic moments of a section, each acting alone.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Plastic {
    /// N_pl = Σ f A, N.
    pub axial_n: f64,
    /// M_pl,y, N·mm: greatest moment about y with the neutral line parallel to y.
    pub moment_y_nmm: f64,
    /// z of that neutral line, mm.
    pub neutral_z_mm: f64,
    /// M_pl,z, N·mm: greatest moment about z with the neutral line parallel to z.
    pub moment_z_nmm: f64,
    /// y of that neutral line, mm.
    pub neutral_y_mm: f64,
}

impl Section {
    /// Plastic resistance with one strength (MPa) for each wall.
    ///
    /// ```text
    /// N_pl = Σ f A        M_pl,y = Σ ∫ f |z − z₀| dA,  z₀ halves N_pl
    /// ```
    ///
    /// Every fibre reaches its wall's strength, in tension or compression alike. The neutral line is held
    /// parallel to the axis: an unsymmetric section then carries a moment about the other axis with it.
    /// No wall may buckle first, see [`Section::local_buckling`].
    ///
    /// # Errors
    ///
    /// [`Fault::OnePerWall`](super::Fault::OnePerWall) through [`Failure::Section`],
    /// [`Failure::NotPositive`], [`Failure::NoNumber`].
    pub fn plastic(&self, strengths_mpa: &[f64]) -> Result<Plastic, Failure> {
        self.one_per_wall("strengths", strengths_mpa.len())?;
        for &strength in strengths_mpa {
            failure::positive("strength of a wall", strength)?;
        }
        let tiles: Vec<(&[Point], f64)> =
            self.tiles.iter().map(Vec::as_slice).zip(strengths_mpa.iter().copied()).collect();
        let axial_n = squash(&tiles, 1, f64::NEG_INFINITY).0;
        let [(moment_z_nmm, neutral_y_mm), (moment_y_nmm, neutral_z_mm)] =
            [0, 1].map(|k| moment(&tiles, k, axial_n));
        failure::number("plastic axial force", axial_n)?;
        failure::number("plastic moment about y", moment_y_nmm)?;
        failure::number("plastic moment about z", moment_z_nmm)?;
        Ok(Plastic { axial_n, moment_y_nmm, neutral_z_mm, moment_z_nmm, neutral_y_mm })
    }
}

/// Plastic moment and neutral line for bending along the coordinate `k`.
fn moment(tiles: &[(&[Point], f64)], k: usize, axial: f64) -> (f64, f64) {
    let coordinates = || tiles.iter().flat_map(|(tile, _)| tile.iter().map(move |p| p[k]));
    let mut low = coordinates().fold(f64::INFINITY, f64::min);
    let mut high = coordinates().fold(f64::NEG_INFINITY, f64::max);
    // The force above the line falls steadily; 60 halvings leave nothing of the section's height that
    // a double can hold, and the moment is stationary at the line.
    for _ in 0..60 {
        let middle = f64::midpoint(low, high);
        if squash(tiles, k, middle).0 > axial / 2.0 { low = middle } else { high = middle }
    }
    let line = f64::midpoint(low, high);
    let (above, moment_above) = squash(tiles, k, line);
    let (all, moment_all) = squash(tiles, k, f64::NEG_INFINITY);
    // ∫ f |z − z₀| = 2 ∫_above f (z − z₀) − ∫ f (z − z₀)
    (2.0 * (moment_above - line * above) - (moment_all - line * all), line)
}

/// ∫ f dA and ∫ f z dA over the part with z (coordinate `k`) above `level`.
fn squash(tiles: &[(&[Point], f64)], k: usize, level: f64) -> (f64, f64) {
    let mut sums = Sums::default();
    for (tile, strength) in tiles {
        sums.add_polygon(&above(tile, k, level), *strength);
    }
    sums.area_and_first(k)
}

/// The part of a polygon with coordinate `k` above a level.
fn above(polygon: &[Point], k: usize, level: f64) -> Vec<Point> {
    let mut kept = Vec::with_capacity(polygon.len() + 2);
    for (&a, &b) in polygon.iter().zip(polygon.iter().cycle().skip(1)) {
        if a[k] >= level {
            kept.push(a);
        }
        if (a[k] >= level) != (b[k] >= level) {
            let share = (level - a[k]) / (b[k] - a[k]);
            kept.push([0, 1].map(|j| a[j] + share * (b[j] - a[j])));
        }
    }
    kept
}
