//! Local buckling of compressed panels.

use super::Section;
use super::panel::{Panel, Support};
use crate::failure::{self, Failure};
use crate::statics::Resultants;

/// What the elastic buckling stress says of a panel under the given stress.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Stability {
    /// No fibre of it is compressed.
    NoCompression,
    /// The stress stays below the elastic buckling stress.
    Stable {
        /// Buckling stress over greatest compression.
        reserve: f64,
    },
    /// It buckles first: the section's properties and the line loads no longer hold.
    Buckles {
        /// Buckling stress over greatest compression, below 1.
        reserve: f64,
    },
    /// It is compressed, but a plate without a held edge buckles as a column, which needs its length.
    Column,
}

/// A panel, its compression and its buckling stress.
#[derive(Debug, Clone, PartialEq)]
pub struct PanelBuckling {
    /// The panel.
    pub panel: Panel,
    /// Greatest compression at its nodes, MPa; zero where there is none.
    pub compression_mpa: f64,
    /// Stress ratio ψ: stress at the other edge over the greatest compression; 1 where the panel is not
    /// flat or not compressed.
    pub stress_ratio: f64,
    /// Width over thickness b/t.
    pub slenderness: f64,
    /// Elastic buckling stress σ_cr, MPa; none for a plate without a held edge.
    pub critical_mpa: Option<f64>,
    /// The verdict.
    pub stability: Stability,
}

impl Section {
    /// Elastic local buckling of every panel under N, M_y and M_z.
    ///
    /// ```text
    /// plate      σ_cr = k π² E/(12 (1 − ν²)) (t/b)²
    /// cylinder   σ_cr = γ E t/(r √(3 (1 − ν²))),   γ = 1 − 0.901 (1 − exp(−√(r/t)/16))
    /// ```
    ///
    /// k from [`buckling_factor`] for a long plate with simply supported edges. The greatest compression
    /// at the panel's nodes is compared. Walls of several thicknesses in one panel count with the
    /// thinnest and the least stiff. Shear does not enter. A rib or a corner is taken to hold the edge it
    /// joins, a lip only if it is wide enough; whether a rib is stiff enough is not checked.
    ///
    /// Source: Timoshenko and Gere, Theory of Elastic Stability, 1961, chapter 9 (plate) and 11
    /// (cylinder); γ from NASA SP-8007, 1968; all from memory.
    ///
    /// # Errors
    ///
    /// [`Failure::NotFinite`], [`Failure::NoNumber`].
    pub fn local_buckling(&self, resultants: &Resultants) -> Result<Vec<PanelBuckling>, Failure> {
        resultants.check()?;
        self.panels().into_iter().map(|panel| self.panel_buckling(resultants, panel)).collect()
    }

    fn panel_buckling(&self, resultants: &Resultants, panel: Panel) -> Result<PanelBuckling, Failure> {
        let edges: Vec<f64> = panel
            .walls
            .iter()
            .flat_map(|&w| [self.walls()[w].from, self.walls()[w].to].map(|node| (w, node)))
            .map(|(w, node)| self.stress(resultants, w, self.nodes()[node]))
            .collect();
        let least = edges.iter().copied().fold(f64::INFINITY, f64::min);
        let greatest = edges.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        // What rounding leaves of zero is no compression.
        let compression_mpa = if least < -1e-12 * greatest.abs().max(least.abs()) { -least } else { 0.0 };
        let stress_ratio = if panel.flat && compression_mpa > 0.0 { greatest / least } else { 1.0 };
        let critical_mpa = self.critical(&panel, stress_ratio)?;
        let stability = match critical_mpa {
            _ if compression_mpa <= 0.0 => Stability::NoCompression,
            None => Stability::Column,
            Some(critical) => {
                let reserve = critical / compression_mpa;
                if reserve < 1.0 { Stability::Buckles { reserve } } else { Stability::Stable { reserve } }
            }
        };
        Ok(PanelBuckling {
            slenderness: failure::number("slenderness", panel.width_mm / panel.thickness_mm)?,
            compression_mpa: failure::number("compression", compression_mpa)?,
            panel,
            stress_ratio,
            critical_mpa,
            stability,
        })
    }

    fn critical(&self, panel: &Panel, stress_ratio: f64) -> Result<Option<f64>, Failure> {
        let materials = || panel.walls.iter().map(|&wall| self.walls()[wall].material);
        let t = panel.thickness_mm;
        let critical = match panel.support {
            Support::Cylinder { radius_mm } => {
                let stiffness = |m: super::Isotropic| {
                    m.youngs_modulus_mpa / (3.0 * (1.0 - m.poissons_ratio * m.poissons_ratio)).sqrt()
                };
                let least = materials().map(stiffness).fold(f64::INFINITY, f64::min);
                let knock_down = 1.0 - 0.901 * (1.0 - libm::exp(-(radius_mm / t).sqrt() / 16.0));
                knock_down * least * t / radius_mm
            }
            support => {
                let Some(k) = buckling_factor(support, stress_ratio) else { return Ok(None) };
                let stiffness =
                    |m: super::Isotropic| m.youngs_modulus_mpa / (1.0 - m.poissons_ratio * m.poissons_ratio);
                let least = materials().map(stiffness).fold(f64::INFINITY, f64::min);
                let slimness = t / panel.width_mm;
                k * std::f64::consts::PI.powi(2) * least / 12.0 * slimness * slimness
            }
        };
        failure::number("buckling stress", critical).map(Some)
    }
}

/// Buckling factor k of a long plate, simply supported where it is held; none where it is not.
///
/// ```text
/// internal   8.2/(1.05 + ψ)                0 ≤ ψ ≤ 1      (4 at ψ = 1)
///            7.81 − 6.29 ψ + 9.78 ψ²      −1 ≤ ψ < 0
///            5.98 (1 − ψ)²                 ψ < −1, as far as ψ = −3
/// outstand   0.43                          whatever the ratio: on the safe side
/// ```
///
/// ψ stress at the other edge over the greatest compression, compression positive. Source: EN
/// 1993-1-5:2006, tables 4.1 and 4.2 (from memory); the uniform cases are Timoshenko and Gere's.
pub fn buckling_factor(support: Support, stress_ratio: f64) -> Option<f64> {
    let psi = stress_ratio.clamp(-3.0, 1.0);
    match support {
        Support::Internal if psi >= 0.0 => Some(8.2 / (1.05 + psi)),
        Support::Internal if psi >= -1.0 => Some(7.81 - 6.29 * psi + 9.78 * psi * psi),
        Support::Internal => Some(5.98 * (1.0 - psi) * (1.0 - psi)),
        Support::Outstand => Some(0.43),
        Support::Unsupported | Support::Cylinder { .. } => None,
    }
}

/// Cross-section class of a compressed part.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Class {
    /// Plastic hinge with rotation.
    One,
    /// Plastic moment.
    Two,
    /// Elastic up to the proof strength at the extreme fibre.
    Three,
    /// Local buckling before the proof strength.
    Four,
}

/// Buckling class of an aluminium alloy.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Alloy {
    /// Class A: most heat-treated wrought alloys.
    A,
    /// Class B: the others.
    B,
}

/// Class of a flat part of an aluminium section, not welded, by its slenderness.
///
/// ```text
/// β = η b/t      η = 0.70 + 0.30 ψ (ψ ≥ −1),  0.80/(1 − ψ) (ψ < −1), outstands 1      ε = √(250/f_o)
///             internal β/ε          outstand β/ε
/// class A     11   16   22          3    4.5   6
/// class B     13   16.5 18          3.5  4.5   5
/// ```
///
/// f_o proof strength (MPa). Source: EN 1999-1-1:2007, 6.1.4, table 6.2 (from memory). None for a
/// cylinder and for a plate without a held edge, which the clause treats otherwise.
///
/// # Errors
///
/// [`Failure::NotPositive`].
pub fn aluminium_class(
    buckling: &PanelBuckling,
    proof_strength_mpa: f64,
    alloy: Alloy,
) -> Result<Option<Class>, Failure> {
    let epsilon = (250.0 / failure::positive("proof strength", proof_strength_mpa)?).sqrt();
    let (psi, support) = (buckling.stress_ratio, buckling.panel.support);
    let (eta, limits) = match (support, alloy) {
        (Support::Internal, Alloy::A) => (gradient_factor(psi), [11.0, 16.0, 22.0]),
        (Support::Internal, Alloy::B) => (gradient_factor(psi), [13.0, 16.5, 18.0]),
        (Support::Outstand, Alloy::A) => (1.0, [3.0, 4.5, 6.0]),
        (Support::Outstand, Alloy::B) => (1.0, [3.5, 4.5, 5.0]),
        (Support::Unsupported | Support::Cylinder { .. }, _) => return Ok(None),
    };
    let beta = eta * buckling.slenderness / epsilon;
    let class =
        [Class::One, Class::Two, Class::Three].into_iter().zip(limits).find(|(_, limit)| beta <= *limit);
    Ok(Some(class.map_or(Class::Four, |(class, _)| class)))
}

/// η of a part under a stress gradient.
fn gradient_factor(psi: f64) -> f64 {
    if psi >= -1.0 { 0.70 + 0.30 * psi } else { 0.80 / (1.0 - psi) }
}
