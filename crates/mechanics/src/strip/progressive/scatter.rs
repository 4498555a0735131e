//! Joints whose bond differs from one to the next, by numbers drawn from a seed.

use std::f64::consts::TAU;

use super::{Joint, Law};
use crate::bondline::Bondline;

/// How much the bond scatters: standard deviation over mean, each lognormal about the joint's own value,
/// independent of the others and the same along the joint.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Scatter {
    /// Of the strengths, in shear and across the bondline together; the toughness stays.
    pub strength: f64,
    /// Of the toughnesses, both modes together; of a layer that yields, of its strain at failure.
    pub toughness: f64,
    /// Of the bondline's thickness, everywhere together.
    pub bondline: f64,
}

impl Scatter {
    /// The joint of a number: equal for equal seed and number, whatever was drawn before.
    #[must_use]
    pub fn draw(&self, joint: &Joint, seed: u64, number: u64) -> Joint {
        let mut state = mixed(seed ^ mixed(number));
        let [strength, toughness, bondline] =
            [self.strength, self.toughness, self.bondline].map(|deviation| factor(deviation, &mut state));
        let mut drawn = joint.clone();
        match &mut drawn.law {
            Law::Cohesive(law) => {
                law.tensile_strength_mpa *= strength;
                law.shear_strength_mpa *= strength;
                law.mode_1_toughness_n_mm *= toughness;
                law.mode_2_toughness_n_mm *= toughness;
            }
            Law::Plastic(law) => {
                law.shear_strength_mpa *= strength;
                law.strain_at_failure *= toughness;
            }
        }
        match &mut drawn.strip.bondline {
            Bondline::Constant(h) => *h *= bondline,
            Bondline::Along(stations) => stations.iter_mut().for_each(|station| station.1 *= bondline),
        }
        drawn
    }
}

/// exp(s z − s²/2) with the mean 1, s² = ln(1 + deviation²), z normal by Box and Muller 1958.
fn factor(deviation: f64, state: &mut u64) -> f64 {
    let variance = libm::log1p(deviation * deviation);
    let (radius, turn) = (libm::sqrt(-2.0 * libm::log(uniform(state))), TAU * uniform(state));
    libm::exp(libm::sqrt(variance) * radius * libm::cos(turn) - 0.5 * variance)
}

/// Evenly in (0, 1): the middles of 2⁵² intervals.
#[expect(clippy::cast_precision_loss, reason = "52 bits fit a double")]
fn uniform(state: &mut u64) -> f64 {
    *state = state.wrapping_add(0x9E37_79B9_7F4A_7C15);
    let bits = mixed(*state) >> 12;
    (bits as f64 + 0.5) / (1_u64 << 52) as f64
}

/// The mixing of splitmix64, after Steele, Lea and Flood, Fast splittable pseudorandom number generators,
/// OOPSLA 2014 (from memory).
fn mixed(state: u64) -> u64 {
    let z = (state ^ (state >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
    let z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
    z ^ (z >> 31)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Mean 1 and the deviation asked for: of 40 000 draws within five of their standard errors, 0.2/200 and
    /// 0.2/√80 000.
    #[test]
    fn unit_mean_and_deviation() {
        let mut state = 7;
        let draws: Vec<f64> = (0..40_000).map(|_| factor(0.2, &mut state)).collect();
        let mean = draws.iter().sum::<f64>() / 40_000.0;
        let square = draws.iter().map(|draw| (draw - mean) * (draw - mean)).sum::<f64>() / 40_000.0;
        assert!((mean - 1.0).abs() < 0.005, "{mean}");
        assert!((libm::sqrt(square) - 0.2).abs() < 0.0036, "{square}");
        assert!((factor(0.0, &mut state) - 1.0).abs() < 1e-15);
    }

    /// The first outputs of splitmix64 from the seed 1234567, as they stand in several public libraries'
    /// tests (memory).
    #[test]
    fn val_splitmix_outputs() {
        let mut state: u64 = 1_234_567;
        for expected in [6_457_827_717_110_365_317, 3_203_168_211_198_807_973, 9_817_491_932_198_370_423] {
            state = state.wrapping_add(0x9E37_79B9_7F4A_7C15);
            assert_eq!(mixed(state), expected);
        }
    }
}
