//! The bilinear mixed-mode cohesive law, driven by the work that has been done on the layer.
//!
//! The usual scalar-damage laws mix the modes by the separation of the moment. Where the mix changes
//! while a point softens, and at the tip of a joint it does, they dissipate up to a fifth more or less
//! than the toughness that they were given, unless stiffnesses, strengths and toughnesses stand in one
//! ratio (after Turon 2010, from memory). Here the work itself is kept, opening and shear apart, and the
//! layer is spent when the works meet the propagation criterion, by whatever path. On a path of one
//! mix the law is the bilinear one.

use super::law::{Point, Respond, Response, Stiffness};
use crate::failure::{self, Failure};

/// How the toughnesses of opening and shear mix.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Mixing {
    /// (W_I/G_Ic)^a + (W_II/G_IIc)^a = 1.
    Power(f64),
    /// W = G_Ic + (G_IIc − G_Ic) (W_II/W)^η, after Benzeggagh and Kenane 1996.
    BenzeggaghKenane(f64),
}

/// A layer that softens.
///
/// ```text
/// t_i = r k_i δ_i         opening elastic under pressure, r ≥ 0 never grows
/// κ²  = (k_n δ_n/N)² + (k_s |δ_s|/S)²                  softening begins at κ = 1
/// r κ = √((1 − w)/(1 − w₀))                            then, while it is loaded on
/// W_I = ∫ t_n dδ_n     W_II = ∫ t_s · dδ_s             w = 1 where they meet the mixing rule
/// ```
///
/// k stiffness of the layer (MPa/mm), δ opening and slip (mm), N, S strengths (MPa), w the share of
/// the toughness of the present mix of works that has been put in, w₀ that share when softening begins,
/// r the share of the stiffness that is left. Linear softening on a path of one mix:
/// the work still to come is the triangle under it, which goes with the square of the stress.
///
/// Strains small against the layer, no friction where it is pressed, no healing.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cohesive {
    /// Tensile strength N, MPa.
    pub tensile_strength_mpa: f64,
    /// Shear strength S, MPa.
    pub shear_strength_mpa: f64,
    /// Toughness in opening G_Ic, N/mm (kJ/m²).
    pub mode_1_toughness_n_mm: f64,
    /// Toughness in shear G_IIc, N/mm (kJ/m²); the same for tearing.
    pub mode_2_toughness_n_mm: f64,
    /// How they mix.
    pub mixing: Mixing,
}

impl Cohesive {
    /// Refuses what is no such layer at the stiffness given.
    ///
    /// # Errors
    ///
    /// A [`Failure`] that names the first argument out of range; a toughness below the work that the
    /// layer takes up before it reaches its strength is one.
    pub(super) fn check(&self, stiffness: Stiffness) -> Result<(), Failure> {
        let n = failure::positive("tensile strength", self.tensile_strength_mpa)?;
        let s = failure::positive("shear strength", self.shear_strength_mpa)?;
        let least = |strength: f64, stiffness: f64| 0.5 * strength * strength / stiffness;
        let most = f64::MAX;
        let opening = least(n, stiffness.opening);
        failure::within("mode 1 toughness", self.mode_1_toughness_n_mm, opening, most)?;
        failure::within("mode 2 toughness", self.mode_2_toughness_n_mm, least(s, stiffness.shear), most)?;
        match self.mixing {
            Mixing::Power(exponent) => failure::within("exponent of the mixing rule", exponent, 0.5, 10.0),
            Mixing::BenzeggaghKenane(eta) => failure::within("exponent of the mixing rule", eta, 0.2, 10.0),
        }?;
        Ok(())
    }

    /// The share w of the toughness that works of opening and shear make up, and its slopes with them.
    fn share(&self, work: [f64; 2]) -> (f64, [f64; 2]) {
        let (g1, g2) = (self.mode_1_toughness_n_mm, self.mode_2_toughness_n_mm);
        // A step that turns the slip round may take back a hair more work than was done.
        let [w1, w2] = work.map(|work| f64::max(work, 0.0));
        let (share, slopes) = match self.mixing {
            Mixing::Power(exponent) if (exponent - 1.0).abs() < 1e-12 => {
                (w1 / g1 + w2 / g2, [1.0 / g1, 1.0 / g2])
            }
            Mixing::Power(exponent) => {
                let (a, b) = (libm::pow(w1 / g1, exponent), libm::pow(w2 / g2, exponent));
                let sum = a + b;
                if sum <= 0.0 {
                    return (0.0, [1.0 / g1, 1.0 / g2]);
                }
                let share = libm::pow(sum, 1.0 / exponent);
                let slope = |part: f64, work: f64, pure: f64| {
                    if work > 0.0 {
                        share / sum * part / work
                    } else {
                        f64::from(u8::from(exponent <= 1.0)) / pure
                    }
                };
                (share, [slope(a, w1, g1), slope(b, w2, g2)])
            }
            Mixing::BenzeggaghKenane(eta) => {
                let sum = w1 + w2;
                if sum <= 0.0 {
                    return (0.0, [1.0 / g1, 1.0 / g1]);
                }
                let mix = w2 / sum;
                let toughness = g1 + (g2 - g1) * libm::pow(mix, eta);
                // The slope of mix^η is infinite at no shear for η < 1; no shear has none.
                let bend = if mix > 0.0 { (g2 - g1) * eta * libm::pow(mix, eta) } else { 0.0 };
                let with = |mix_slope_times: f64| (1.0 - bend * mix_slope_times / toughness) / toughness;
                let shear = if mix > 0.0 { (1.0 - mix) / mix } else { 0.0 };
                (sum / toughness, [with(-1.0), with(shear)])
            }
        };
        (share, std::array::from_fn(|i| if work[i] < 0.0 { 0.0 } else { slopes[i] }))
    }
}

/// Opening counts only where it opens.
fn opened(slip: [f64; 3]) -> [f64; 3] {
    [slip[0], slip[1], f64::max(slip[2], 0.0)]
}

impl Respond for Cohesive {
    #[inline]
    fn respond(&self, stiffness: Stiffness, before: &Point, slip: [f64; 3]) -> Response {
        let k = [stiffness.shear, stiffness.shear, stiffness.opening];
        let open = opened(slip);
        let strength = [self.shear_strength_mpa, self.shear_strength_mpa, self.tensile_strength_mpa];
        let ratio: [f64; 3] = std::array::from_fn(|i| k[i] * open[i] / strength[i]);
        let kappa = libm::sqrt(ratio.iter().map(|ratio| ratio * ratio).sum());
        let elastic: [f64; 3] = std::array::from_fn(|i| k[i] * open[i]);
        // κ ∂κ/∂δ
        let kappa_slope: [f64; 3] = std::array::from_fn(|i| ratio[i] * k[i] / strength[i]);

        let (keep, keep_slope, after) = if before.onset_share > 0.0 {
            self.soften(k, before, open, elastic, kappa, kappa_slope)
        } else if kappa <= 1.0 {
            let work = [0.5 * elastic[2] * open[2], 0.5 * (elastic[0] * open[0] + elastic[1] * open[1])];
            (1.0, [0.0; 3], Point { work, ..*before })
        } else {
            self.first_softening(before, open, elastic, kappa, kappa_slope)
        };

        let mut traction = elastic.map(|elastic| keep * elastic);
        let mut tangent = [[0.0; 3]; 3];
        for i in 0..3 {
            tangent[i][i] = keep * k[i];
            for j in 0..3 {
                tangent[i][j] += elastic[i] * keep_slope[j];
            }
        }
        if slip[2] < 0.0 {
            // Pressed: the layer, or what is left of it between the plates, carries on elastically.
            traction[2] = k[2] * slip[2];
            tangent[2] = [0.0, 0.0, k[2]];
            tangent[0][2] = 0.0;
            tangent[1][2] = 0.0;
        }
        let gives = after.onset_share > 0.0 && keep < before.keep;
        let after = Point { slip, traction, keep, kappa, gives, ..after };
        Response { tangent, after }
    }
}

impl Cohesive {
    /// From no damage to beyond its beginning in one step: as on a path of one mix, the bilinear law.
    fn first_softening(
        &self,
        before: &Point,
        open: [f64; 3],
        elastic: [f64; 3],
        kappa: f64,
        kappa_slope: [f64; 3],
    ) -> (f64, [f64; 3], Point) {
        let square = kappa * kappa;
        let full = [0.5 * elastic[2] * open[2], 0.5 * (elastic[0] * open[0] + elastic[1] * open[1])];
        // w is homogeneous of degree one in the works: at the onset they are 1/κ² of the full ones.
        let (share, slopes) = self.share(full);
        let onset = share / square;
        let onset_slope: [f64; 3] = std::array::from_fn(|i| {
            let with = if i == 2 { slopes[0] } else { slopes[1] };
            with * elastic[i] / square - 2.0 * onset * kappa_slope[i] / square
        });
        let last = 1.0 / onset;
        if kappa >= last {
            let work = full.map(|work| work / share);
            return (0.0, [0.0; 3], Point { work, onset_share: onset, ..*before });
        }
        // r = (1/w₀ − κ)/(κ (1/w₀ − 1)) = (1/κ − w₀)/(1 − w₀)
        let room = 1.0 - onset;
        let keep = (1.0 / kappa - onset) / room;
        let keep_slope = std::array::from_fn(|i| {
            let by_kappa = -kappa_slope[i] / (kappa * square * room);
            let by_onset = (keep - 1.0) / room;
            by_kappa + by_onset * onset_slope[i]
        });
        // Work up to here, the same share of either: w = 1 − (1 − w₀) (r κ)².
        let stress = keep * kappa;
        let put_in = 1.0 - room * stress * stress;
        let work = full.map(|work| work * put_in / share);
        (keep, keep_slope, Point { work, onset_share: onset, ..*before })
    }

    /// A step of a point that has begun to soften.
    fn soften(
        &self,
        k: [f64; 3],
        before: &Point,
        open: [f64; 3],
        elastic: [f64; 3],
        kappa: f64,
        kappa_slope: [f64; 3],
    ) -> (f64, [f64; 3], Point) {
        let was = opened(before.slip);
        let had = [before.traction[0], before.traction[1], f64::max(before.traction[2], 0.0)];
        let step: [f64; 3] = std::array::from_fn(|i| open[i] - was[i]);
        // Works by the trapezium: exact where the stress is linear in the step. W(r) = base + r lift.
        let base_of = |i: usize| 0.5 * had[i] * step[i];
        let lift_of = |i: usize| 0.5 * elastic[i] * step[i];
        let base = [before.work[0] + base_of(2), before.work[1] + base_of(0) + base_of(1)];
        let lift = [lift_of(2), lift_of(0) + lift_of(1)];
        let works = |keep: f64| [base[0] + keep * lift[0], base[1] + keep * lift[1]];
        let room = 1.0 - before.onset_share;
        let square = kappa * kappa;
        // Positive where the point must give way.
        let excess = |keep: f64| {
            let (share, slopes) = self.share(works(keep));
            let slope = 2.0 * room * square * keep + slopes[0] * lift[0] + slopes[1] * lift[1];
            (keep * keep * square * room + share - 1.0, slope)
        };
        let after = |keep: f64| Point { work: works(keep), ..*before };
        if before.keep <= 0.0 {
            return (0.0, [0.0; 3], after(0.0));
        }
        if excess(before.keep).0 <= 1e-13 {
            return (before.keep, [0.0; 3], after(before.keep));
        }
        if excess(0.0).0 >= 0.0 {
            return (0.0, [0.0; 3], after(0.0));
        }
        let keep = self.by_formula(room * square, base, lift).unwrap_or_else(|| root(excess, before.keep));
        let (_, slopes) = self.share(works(keep));
        let (_, by_keep) = excess(keep);
        let keep_slope = std::array::from_fn(|i| {
            let with = if i == 2 { slopes[0] } else { slopes[1] };
            let work_slope = 0.5 * (had[i] + keep * elastic[i] + keep * k[i] * step[i]);
            -(2.0 * keep * keep * room * kappa_slope[i] + with * work_slope) / by_keep
        });
        (keep, keep_slope, after(keep))
    }
}

impl Cohesive {
    /// The root of a r² + w(base + r lift) − 1 where w is linear in the works: with the linear mixing rule, and no
    /// work below zero.
    fn by_formula(&self, a: f64, base: [f64; 2], lift: [f64; 2]) -> Option<f64> {
        let Mixing::Power(exponent) = self.mixing else { return None };
        let (g1, g2) = (self.mode_1_toughness_n_mm, self.mode_2_toughness_n_mm);
        let (b, c) = (lift[0] / g1 + lift[1] / g2, base[0] / g1 + base[1] / g2 - 1.0);
        let under = b * b - 4.0 * a * c;
        if (exponent - 1.0).abs() >= 1e-12 || c >= 0.0 || a <= 0.0 {
            return None;
        }
        let both = b.abs() + libm::sqrt(under);
        let keep = if b > 0.0 { -2.0 * c / both } else { both / (2.0 * a) };
        (0..2).all(|i| base[i] + keep * lift[i] >= 0.0).then_some(keep)
    }
}

/// The root of a function that is negative at zero and positive at `most`: Newton, kept in a bracket.
fn root(excess: impl Fn(f64) -> (f64, f64), most: f64) -> f64 {
    let (mut low, mut high) = (0.0, most);
    let mut keep = most;
    for _ in 0..60 {
        let (value, slope) = excess(keep);
        if value > 0.0 {
            high = keep;
        } else {
            low = keep;
        }
        let step = value / slope;
        // The sums that make up the value are of the order of 1: below this it is rounding.
        if step.abs() <= 1e-15 * most || value.abs() <= 1e-15 {
            break;
        }
        let next = keep - step;
        keep = if next > low && next < high { next } else { 0.5 * (low + high) };
    }
    keep
}
