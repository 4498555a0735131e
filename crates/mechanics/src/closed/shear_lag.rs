//! Two members that exchange their load through a layer in shear: the equation under Volkersen's
//! lap, the double lap and the bonded tube.

use super::ratio::{cosh_by_sinh, sinh_by_cosh};
use crate::failure::{self, Failure};
use crate::peak::Peak;

/// What a shear-lag solution is made of, for one bondline and unit width.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Members {
    /// Stiffness S₁ of the member loaded at x = 0, N/mm.
    pub(super) first_n_mm: f64,
    /// Stiffness S₂ of the member loaded at x = L, N/mm.
    pub(super) second_n_mm: f64,
    /// Shear stiffness k of the layer, stress over slip, MPa/mm.
    pub(super) layer_mpa_mm: f64,
    /// Overlap L, mm.
    pub(super) overlap_mm: f64,
    /// Load P that passes from one to the other, N/mm.
    pub(super) load_n_mm: f64,
    /// Free strain of the second member less that of the first.
    pub(super) mismatch: f64,
}

/// Shear along a bond whose members only stretch.
///
/// ```text
/// τ'' = ω² τ        ω² = k (1/S₁ + 1/S₂)
///
/// τ(x) = A cosh(ω ξ)/sinh(ω L/2) + B sinh(ω ξ)/cosh(ω L/2)        ξ = x − L/2
///
/// A = P ω/2        B = (P ω/2) (S₁ − S₂)/(S₁ + S₂) + (ε₂ − ε₁) ω/(1/S₁ + 1/S₂)
/// ```
///
/// The member S₁ carries the whole load P at x = 0, S₂ at x = L; k shear stiffness of the layer, ε
/// free strain. B is negative when the first member is the less stiff: the peak then stands at
/// x = 0, where that member carries the full load.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ShearLag {
    rate_per_mm: f64,
    overlap_mm: f64,
    even_mpa: f64,
    odd_mpa: f64,
    mean_mpa: f64,
}

impl ShearLag {
    pub(super) fn new(members: &Members) -> Result<Self, Failure> {
        let Members { first_n_mm: s1, second_n_mm: s2, overlap_mm, load_n_mm, mismatch, .. } = *members;
        let flexibility = 1.0 / s1 + 1.0 / s2;
        let rate = libm::sqrt(members.layer_mpa_mm * flexibility);
        let rate_per_mm = failure::number("shear-lag rate", rate)?;
        let even_mpa = 0.5 * load_n_mm * rate_per_mm;
        let odd_mpa = even_mpa * (s1 - s2) / (s1 + s2) + mismatch * rate_per_mm / flexibility;
        let lag = Self { rate_per_mm, overlap_mm, even_mpa, odd_mpa, mean_mpa: load_n_mm / overlap_mm };
        failure::number("shear stress", lag.shear_mpa(0.0))?;
        failure::number("shear stress", lag.shear_mpa(overlap_mm))?;
        Ok(lag)
    }

    /// ω, 1/mm: over 1/ω from an end the load transfer falls to about a third.
    #[must_use]
    pub fn rate_per_mm(&self) -> f64 {
        self.rate_per_mm
    }

    /// ω L, the bond number: below about 1 the shear is even, above about 5 a longer overlap
    /// carries no more.
    #[must_use]
    pub fn bond_number(&self) -> f64 {
        self.rate_per_mm * self.overlap_mm
    }

    /// Mean shear, load over area, MPa.
    #[must_use]
    pub fn mean_mpa(&self) -> f64 {
        self.mean_mpa
    }

    /// Shear at x from the left end of the overlap, MPa.
    #[must_use]
    pub fn shear_mpa(&self, x_mm: f64) -> f64 {
        let half = 0.5 * self.rate_per_mm * self.overlap_mm;
        let from_middle = self.rate_per_mm * (x_mm - 0.5 * self.overlap_mm);
        self.even_mpa * cosh_by_sinh(from_middle, half) + self.odd_mpa * sinh_by_cosh(from_middle, half)
    }

    /// Shear at the two ends, x = 0 and x = L, MPa.
    #[must_use]
    pub fn ends_mpa(&self) -> [f64; 2] {
        [self.shear_mpa(0.0), self.shear_mpa(self.overlap_mm)]
    }

    /// Greatest magnitude of the shear; it stands at an end, since |τ| has no maximum inside.
    #[must_use]
    pub fn peak(&self) -> Peak {
        let [left, right] = self.ends_mpa();
        if right.abs() > left.abs() {
            Peak { value_mpa: right.abs(), x_mm: self.overlap_mm }
        } else {
            Peak { value_mpa: left.abs(), x_mm: 0.0 }
        }
    }
}
