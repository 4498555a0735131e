//! Properties of an adhesive from the strengths of witness coupons, by inverting a model of the coupons.
//!
//! The model is a closure: from properties to the strength of each coupon. Both are taken by their logarithms, for
//! both scatter by shares of themselves.
//!
//! ```text
//! ln y_i = ln f_i(θ) + ε_i,  ε_i ~ N(0, σ²)          φ = ln θ,  J = ∂ ln f/∂φ
//! φ̂ minimises Σ (ln y_i − ln f_i)²                   s² = Σ r_i²/(n − k)
//! region: (φ − φ̂)ᵀ JᵀJ (φ − φ̂) ≤ k s² F_{0.95}(k, n − k)
//! ```
//!
//! Directions of φ to which no coupon answers stay where they started and are not in the region; k counts the others.
//! The region is that of the model made straight at φ̂, and takes the model for right. What no coupon tells is then moved
//! to a half and to the double, what they tell is found again, and the intervals reach over all of it.
//!
//! Source: textbook (nonlinear least squares; Seber and Wild 1989, from memory).

use crate::error::{finite, positive};
use crate::root::rising_root;
use crate::{EvidenceError, beta};

/// Iterations allowed.
const LIMIT: usize = 60;

/// Half the span of a difference quotient of the logarithms: wide enough for a model that is followed step by step and
/// whose answers are good to some tenths of a per cent.
const SPAN: f64 = 0.1;

/// The search has settled where a step would take less than this share off the sum of squares: it would move the
/// properties by a hundredth of their standard error, times the root of n − k.
const SETTLED: f64 = 1e-4;

/// Less than this share off is within what such a model is good to.
const ROUGH: f64 = 1e-2;

/// A sum of squares for each coupon that is nothing: strengths met to within 1e-5.
const NOTHING: f64 = 1e-10;

/// A direction is not seen where the coupons' strengths change by less than this share of the change of the
/// properties (root of the mean square): at a scatter of 5 % it would take some sixty coupons to know it to a factor of
/// two.
const LEAST_ANSWER: f64 = 0.03;

/// A property is not identified where the region reaches further than to its double and its half.
const WIDEST: f64 = core::f64::consts::LN_2;

/// What is known of one property.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Recovered {
    /// In the unit of the property.
    Identified {
        /// The most likely value.
        value: f64,
        /// Lower and upper end of the 95 % region along this property, wherever between a half and the double what no
        /// coupon tells lies.
        interval: [f64; 2],
    },
    /// The coupons do not tell it.
    NotIdentified,
}

impl Recovered {
    /// With the interval of another reckoning, too; not identified where it then reaches too far.
    fn reaching(self, other: Self) -> Self {
        let (
            Self::Identified { value, interval: [low, high] },
            Self::Identified { interval: [other_low, other_high], .. },
        ) = (self, other)
        else {
            return Self::NotIdentified;
        };
        let interval = [f64::min(low, other_low), f64::max(high, other_high)];
        let widest = libm::exp(WIDEST);
        if interval[0] * widest < value || interval[1] > value * widest {
            return Self::NotIdentified;
        }
        Self::Identified { value, interval }
    }
}

/// Properties with their region.
#[derive(Debug, Clone, PartialEq)]
pub struct Recovery {
    /// One of each property, in the order of the start.
    pub properties: Vec<Recovered>,
    /// Scatter s of the coupons about the model, as a share of the strength.
    pub scatter: f64,
    centre: Vec<f64>,
    seen: Vec<Direction>,
    unseen: Vec<Vec<f64>>,
    /// The greatest Σ λ a² in the region.
    reach: f64,
}

#[derive(Debug, Clone, PartialEq)]
struct Direction {
    eigenvalue: f64,
    vector: Vec<f64>,
}

impl Recovery {
    /// The most likely properties, each in its own unit; what no coupon tells stays where it was taken.
    #[must_use]
    pub fn most_likely(&self) -> Vec<f64> {
        self.centre.iter().map(|phi| libm::exp(*phi)).collect()
    }

    /// Whether properties (each in its own unit) lie in the 95 % region, what is not seen left aside.
    #[must_use]
    pub fn contains(&self, properties: &[f64]) -> bool {
        let away: Vec<f64> = properties.iter().zip(&self.centre).map(|(p, c)| libm::log(*p) - c).collect();
        let square = |direction: &Direction| direction.eigenvalue * dot(&direction.vector, &away).powi(2);
        self.seen.iter().map(square).sum::<f64>() <= self.reach
    }
}

/// The properties under which the strengths measured are most likely.
///
/// `start` holds positive values to begin with, each in its own unit; `measured` the strengths, positive, in the unit
/// of the model; `model` gives the strength of each coupon in the same order, or `None` where it cannot.
///
/// # Errors
///
/// [`EvidenceError::TooFew`] unless there are at least two coupons more than directions seen,
/// [`EvidenceError::OutOfRange`] for values that are not positive, [`EvidenceError::NotConverged`] where the model
/// gives no strengths or the search does not settle.
pub fn recover(
    start: &[f64],
    measured: &[f64],
    model: &impl Fn(&[f64]) -> Option<Vec<f64>>,
) -> Result<Recovery, EvidenceError> {
    for value in start.iter().chain(measured) {
        positive("a property or a strength", *value)?;
    }
    let search = Search { measured, model };
    let mut found = search.settle(start.iter().map(|x| libm::log(*x)).collect())?;
    let moved = found.unseen.iter().flat_map(|v| [-WIDEST, WIDEST].map(|by| (v, by)));
    let moved: Vec<Vec<f64>> =
        moved.map(|(v, by)| found.centre.iter().zip(v).map(|(phi, v)| phi + by * v).collect()).collect();
    for phi in moved {
        let other = search.settle(phi);
        for (p, property) in found.properties.iter_mut().enumerate() {
            *property =
                other.as_ref().map_or(Recovered::NotIdentified, |it| property.reaching(it.properties[p]));
        }
    }
    Ok(found)
}

struct Search<'a, M> {
    measured: &'a [f64],
    model: &'a M,
}

impl<M: Fn(&[f64]) -> Option<Vec<f64>>> Search<'_, M> {
    fn predicted(&self, phi: &[f64]) -> Option<Vec<f64>> {
        let properties: Vec<f64> = phi.iter().map(|x| libm::exp(*x)).collect();
        let strengths: Vec<f64> = (self.model)(&properties)?.into_iter().map(libm::log).collect();
        (strengths.len() == self.measured.len() && strengths.iter().all(|x| x.is_finite()))
            .then_some(strengths)
    }

    fn residuals(&self, phi: &[f64]) -> Option<Vec<f64>> {
        let predicted = self.predicted(phi)?;
        Some(self.measured.iter().zip(predicted).map(|(y, f)| libm::log(*y) - f).collect())
    }

    /// Steps of Gauss and Newton until they no longer help, and the region there.
    fn settle(&self, mut phi: Vec<f64>) -> Result<Recovery, EvidenceError> {
        let unsettled = || EvidenceError::NotConverged { what: "property recovery", limit: LIMIT };
        let mut left = self.residuals(&phi).ok_or_else(unsettled)?;
        for _ in 0..LIMIT {
            let columns = self.columns(&phi).ok_or_else(unsettled)?;
            let all = Directions::of(&columns, self.measured.len());
            let along = columns.iter().map(|column| dot(column, &left)).collect::<Vec<_>>();
            let (mut step, mut gain) = (vec![0.0; phi.len()], 0.0);
            for direction in &all.seen {
                let toward = dot(&direction.vector, &along);
                let by = toward / direction.eigenvalue;
                gain += toward * by;
                step.iter_mut().zip(&direction.vector).for_each(|(s, v)| *s += by * v);
            }
            let before = dot(&left, &left);
            if gain <= f64::max(SETTLED * before, NOTHING * as_number(left.len())) {
                return region(phi, &left, all);
            }
            // No property more than doubles or halves in a step, and no step makes the fit worse.
            let greatest = step.iter().fold(0.0_f64, |most, s| most.max(s.abs()));
            let mut share = (WIDEST / greatest).min(1.0);
            loop {
                let next: Vec<f64> = phi.iter().zip(&step).map(|(p, s)| p + share * s).collect();
                if let Some(after) = self.residuals(&next).filter(|after| dot(after, after) < before) {
                    (phi, left) = (next, after);
                    break;
                }
                share *= 0.5;
                if share * greatest < 1e-3 && gain <= ROUGH * before {
                    return region(phi, &left, all);
                }
                if share * greatest < 1e-9 {
                    return Err(unsettled());
                }
            }
        }
        Err(unsettled())
    }

    /// The columns of J by central differences.
    fn columns(&self, phi: &[f64]) -> Option<Vec<Vec<f64>>> {
        let moved = |i: usize, by: f64| {
            let mut phi = phi.to_vec();
            phi[i] += by;
            self.predicted(&phi)
        };
        let column = |i: usize| {
            let (low, high) = (moved(i, -SPAN)?, moved(i, SPAN)?);
            Some(high.iter().zip(low).map(|(high, low)| (high - low) / (2.0 * SPAN)).collect())
        };
        (0..phi.len()).map(column).collect()
    }
}

#[expect(clippy::cast_precision_loss, reason = "numbers of coupons are small")]
fn as_number(count: usize) -> f64 {
    count as f64
}

/// The directions to which the coupons answer, and the others.
struct Directions {
    seen: Vec<Direction>,
    unseen: Vec<Vec<f64>>,
}

impl Directions {
    fn of(columns: &[Vec<f64>], coupons: usize) -> Self {
        let matrix: Vec<Vec<f64>> =
            columns.iter().map(|a| columns.iter().map(|b| dot(a, b)).collect()).collect();
        let least = LEAST_ANSWER * LEAST_ANSWER * as_number(coupons);
        let (seen, unseen): (Vec<Direction>, Vec<Direction>) =
            directions(matrix).into_iter().partition(|direction| direction.eigenvalue > least);
        Self { seen, unseen: unseen.into_iter().map(|direction| direction.vector).collect() }
    }
}

fn region(phi: Vec<f64>, left: &[f64], all: Directions) -> Result<Recovery, EvidenceError> {
    let Directions { seen, unseen } = all;
    let (n, k) = (left.len(), seen.len());
    if n < k + 2 || k == 0 {
        return Err(EvidenceError::TooFew { what: "property recovery", needed: k.max(1) + 2, found: n });
    }
    let (free, count) = (as_number(n - k), as_number(k));
    let variance = dot(left, left) / free;
    let reach = finite("confidence region", count * variance * f_95(count, free)?)?;
    let properties = (0..phi.len())
        .map(|p| {
            let unseen: f64 = unseen.iter().map(|vector| vector[p] * vector[p]).sum();
            let square: f64 = seen.iter().map(|it| it.vector[p] * it.vector[p] / it.eigenvalue).sum();
            let half = (reach * square).sqrt();
            // A hundredth of the direction: a tenth of its length lies where nothing is known.
            if unseen > 0.01 || half > WIDEST {
                return Recovered::NotIdentified;
            }
            let at = |log: f64| libm::exp(log);
            Recovered::Identified { value: at(phi[p]), interval: [at(phi[p] - half), at(phi[p] + half)] }
        })
        .collect();
    Ok(Recovery { properties, scatter: variance.sqrt(), centre: phi, seen, unseen, reach })
}

/// The value that F with these degrees of freedom stays below with a chance of 95 %.
fn f_95(first: f64, second: f64) -> Result<f64, EvidenceError> {
    let log = rising_root("quantile of F", 0.0, 1.0, |log| {
        Ok(0.05 - beta::f_exceedance(libm::exp(log), first, second)?)
    })?;
    Ok(libm::exp(log))
}

/// Eigenvalues and eigenvectors of a symmetric matrix by Jacobi's rotations (textbook).
fn directions(mut a: Vec<Vec<f64>>) -> Vec<Direction> {
    let n = a.len();
    let mut vectors: Vec<Vec<f64>> =
        (0..n).map(|i| (0..n).map(|j| f64::from(u8::from(i == j))).collect()).collect();
    // Each sweep squares what is left beside the diagonal: far fewer are needed.
    for _ in 0..30 {
        for p in 0..n {
            for q in p + 1..n {
                if a[p][q].abs() <= f64::MIN_POSITIVE {
                    continue;
                }
                let theta = (a[q][q] - a[p][p]) / (2.0 * a[p][q]);
                let t = theta.signum() / (theta.abs() + (theta * theta + 1.0).sqrt());
                let c = 1.0 / (t * t + 1.0).sqrt();
                let s = t * c;
                for row in &mut a {
                    (row[p], row[q]) = (c * row[p] - s * row[q], s * row[p] + c * row[q]);
                }
                for k in 0..n {
                    (a[p][k], a[q][k]) = (c * a[p][k] - s * a[q][k], s * a[p][k] + c * a[q][k]);
                    (vectors[p][k], vectors[q][k]) =
                        (c * vectors[p][k] - s * vectors[q][k], s * vectors[p][k] + c * vectors[q][k]);
                }
            }
        }
    }
    vectors.into_iter().enumerate().map(|(i, vector)| Direction { eigenvalue: a[i][i], vector }).collect()
}

fn dot(a: &[f64], b: &[f64]) -> f64 {
    a.iter().zip(b).map(|(a, b)| a * b).sum()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::reliability::generator::Draws;

    /// Shear strength (MPa), toughness in shear and in opening (N/mm) of the synthetic coupons.
    const TRUTH: [f64; 3] = [24.0, 2.6, 1.4];
    const START: [f64; 3] = [15.0, 1.0, 3.0];

    /// Coupons: laps of an overlap (mm), or double cantilevers of a crack length (mm).
    enum Coupon {
        Lap(f64),
        Cantilever(f64),
    }

    /// A stand-in for the strip, simple and in closed form, with its two limits: a short lap fails at its shear
    /// strength, a long one where its ends release the toughness of shear; a cantilever tells that of opening.
    /// N/mm of width; plates of E t = 112 kN/mm.
    fn strengths(coupons: &[Coupon], properties: &[f64]) -> Vec<f64> {
        let [shear, second, first] = [properties[0], properties[1], properties[2]];
        let one = |coupon: &Coupon| match coupon {
            Coupon::Lap(overlap) => {
                let long = (112_000.0 * second).sqrt();
                long * libm::tanh(shear * overlap / long)
            }
            Coupon::Cantilever(crack) => (112_000.0 * first).sqrt() / crack,
        };
        coupons.iter().map(one).collect()
    }

    /// Six of each with a scatter of 6 %.
    fn measured(coupons: &[Coupon], seed: u64) -> Result<Vec<f64>, EvidenceError> {
        let errors = Draws::new(seed, 99).normals(0, coupons.len())?;
        let pairs = strengths(coupons, &TRUTH).into_iter().zip(errors);
        Ok(pairs.map(|(strength, z)| strength * libm::exp(0.06 * z)).collect())
    }

    fn six(kinds: [fn() -> Coupon; 3]) -> Vec<Coupon> {
        (0..18).map(|i| kinds[i % 3]()).collect()
    }

    /// "Recovery on synthetic coupons: 88 to 99 of 100 seeded trials inside the 95 % region, median half-width ≤ 25 %
    /// for what is identified". The coupons come from a closed form, not from the strip.
    #[test]
    fn val_synthetic_coupons() -> Result<(), EvidenceError> {
        let coupons = six([|| Coupon::Lap(8.0), || Coupon::Lap(60.0), || Coupon::Cantilever(50.0)]);
        let (mut inside, mut halves) = (0, Vec::new());
        for seed in 0..100 {
            let found =
                recover(&START, &measured(&coupons, seed)?, &|p: &[f64]| Some(strengths(&coupons, p)))?;
            inside += u32::from(found.contains(&TRUTH));
            for property in &found.properties {
                let Recovered::Identified { value, interval } = property else { panic!("{found:?}") };
                halves.push(0.5 * (interval[1] - interval[0]) / value);
            }
        }
        halves.sort_by(f64::total_cmp);
        let median = halves[halves.len() / 2];
        println!("{inside} of 100 inside, median half-width {median:.3}");
        assert!((88..=99).contains(&inside), "{inside}");
        assert!(median <= 0.25, "{median}");
        Ok(())
    }

    /// "a lap alone reports mode-1 toughness as not identified"; one of one overlap tells no two properties apart.
    #[test]
    fn unit_what_laps_do_not_tell_is_not_identified() -> Result<(), EvidenceError> {
        let laps = six([|| Coupon::Lap(8.0), || Coupon::Lap(60.0), || Coupon::Lap(30.0)]);
        let found = recover(&START, &measured(&laps, 1)?, &|p: &[f64]| Some(strengths(&laps, p)))?;
        assert!(matches!(
            found.properties[..],
            [Recovered::Identified { .. }, Recovered::Identified { .. }, Recovered::NotIdentified]
        ));
        let same = six([|| Coupon::Lap(20.0), || Coupon::Lap(20.0), || Coupon::Lap(20.0)]);
        let found = recover(&START, &measured(&same, 1)?, &|p: &[f64]| Some(strengths(&same, p)))?;
        assert_eq!(found.properties, [Recovered::NotIdentified; 3]);
        Ok(())
    }

    #[test]
    fn unit_no_answer_is_no_number() {
        let model = |p: &[f64]| Some(vec![p[0]; 3]);
        assert!(matches!(recover(&[1.0], &[2.0; 2], &model), Err(EvidenceError::NotConverged { .. })));
        assert!(recover(&[1.0], &[2.0, 2.1, f64::NAN], &model).is_err());
        assert!(recover(&[-1.0], &[2.0, 2.1, 2.2], &model).is_err());
        assert!(recover(&[1.0], &[2.0, 2.1, 2.2], &|_: &[f64]| None).is_err());
        assert!(recover(&[1.0], &[2.0, 2.1], &|p: &[f64]| Some(vec![p[0]; 2])).is_err());
        assert!(recover(&[1.0], &[2.0, 2.1, 2.2], &model).is_ok());
    }
}
