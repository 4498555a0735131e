//! Fractions with a power of ten, so that conversions round once, at the end.

/// The number `numerator / denominator × 10^ten`.
///
/// Numbers as people write them and the defining factors of units are all of this form: an inch
/// is 254 × 10⁻⁴ m and a pound-force per square inch 45359237 × 980665 / 254² × 10⁻⁵ Pa.
/// Multiplying them as integers leaves one rounding, the last one, so that `71 GPa` is the same
/// `f64` as the literal `71000.0` and `1 in` the same as `25.4`.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Exact {
    numerator: i128,
    denominator: i128,
    ten: i32,
}

/// Above this, the long division in [`Exact::to_f64`] could overflow.
const LARGEST_DENOMINATOR: i128 = 10_i128.pow(37);

impl Exact {
    pub(crate) const ZERO: Self = Self::decimal(0, 0);
    pub(crate) const ONE: Self = Self::decimal(1, 0);

    /// `digits × 10^ten`
    pub(crate) const fn decimal(digits: i128, ten: i32) -> Self {
        Self { numerator: digits, denominator: 1, ten }
    }

    /// `numerator / denominator × 10^ten`; the denominator is positive.
    pub(crate) const fn ratio(numerator: i128, denominator: i128, ten: i32) -> Self {
        Self { numerator, denominator, ten }
    }

    pub(crate) fn is_zero(self) -> bool {
        self.numerator == 0
    }

    /// The product, or `None` where the integers do not hold it.
    pub(crate) fn times(self, other: Self) -> Option<Self> {
        // Cancelling crosswise first keeps the integers small.
        let left = divisor(self.numerator, other.denominator);
        let right = divisor(other.numerator, self.denominator);
        let numerator = (self.numerator / left).checked_mul(other.numerator / right)?;
        let denominator = (self.denominator / right).checked_mul(other.denominator / left)?;
        (denominator <= LARGEST_DENOMINATOR).then_some(Self {
            numerator,
            denominator,
            ten: self.ten.saturating_add(other.ten),
        })
    }

    /// The whole power, or `None` where the integers do not hold it or zero is inverted.
    pub(crate) fn power(self, exponent: i32) -> Option<Self> {
        let base = if exponent < 0 { self.inverse()? } else { self };
        (0..exponent.unsigned_abs()).try_fold(Self::ONE, |product, _| product.times(base))
    }

    fn inverse(self) -> Option<Self> {
        let denominator = self.numerator.checked_abs()?;
        let within = denominator > 0 && denominator <= LARGEST_DENOMINATOR;
        within.then_some(Self {
            numerator: self.denominator * self.numerator.signum(),
            denominator,
            ten: self.ten.checked_neg()?,
        })
    }

    /// The sum, or `None` where the integers do not hold it.
    pub(crate) fn plus(self, other: Self) -> Option<Self> {
        if self.is_zero() {
            return Some(other);
        }
        if other.is_zero() {
            return Some(self);
        }
        let ten = self.ten.min(other.ten);
        let left = self.raised_to(ten)?;
        let right = other.raised_to(ten)?;
        let common = divisor(left.denominator, right.denominator);
        let denominator = (left.denominator / common).checked_mul(right.denominator)?;
        let numerator = left
            .numerator
            .checked_mul(right.denominator / common)?
            .checked_add(right.numerator.checked_mul(left.denominator / common)?)?;
        (denominator <= LARGEST_DENOMINATOR).then_some(Self { numerator, denominator, ten })
    }

    /// The same number with the power of ten lowered to `ten`.
    fn raised_to(self, ten: i32) -> Option<Self> {
        let shift = u32::try_from(self.ten.checked_sub(ten)?).ok()?;
        let numerator = self.numerator.checked_mul(10_i128.checked_pow(shift)?)?;
        Some(Self { numerator, ten, ..self })
    }

    pub(crate) fn negated(self) -> Self {
        // No constructor makes the one integer that has no opposite: digits are below 10²⁰ and
        // products are checked, so that a wrap would need a numerator of exactly −2¹²⁷.
        Self { numerator: self.numerator.wrapping_neg(), ..self }
    }

    /// The nearest `f64`; infinite above its range, zero below.
    pub(crate) fn to_f64(self) -> f64 {
        let sign = if self.numerator < 0 { "-" } else { "" };
        let (digits, ten) =
            quotient(self.numerator.unsigned_abs(), self.denominator.unsigned_abs(), i64::from(self.ten));
        // The standard library rounds a decimal text to the nearest double. A text of this form
        // is always a number; should it not be, the caller refuses NaN.
        format!("{sign}{digits}e{ten}").parse().unwrap_or(f64::NAN)
    }
}

/// Long division to 40 significant digits: the digits and the power of ten of the last one.
///
/// 40 digits put a quotient on the right side of every tie between doubles but for one in about
/// 10²³; a digit 1 behind them stands for the remainder.
fn quotient(numerator: u128, denominator: u128, ten: i64) -> (String, i64) {
    let whole = numerator / denominator;
    let mut remainder = numerator % denominator;
    let mut digits = whole.to_string();
    let mut significant = if whole == 0 { 0 } else { digits.len() };
    let mut ten = ten;
    while remainder != 0 {
        ten -= 1;
        if significant >= 40 {
            digits.push('1');
            break;
        }
        remainder *= 10;
        let digit = remainder / denominator;
        remainder %= denominator;
        digits.push_str(&digit.to_string());
        if significant > 0 || digit != 0 {
            significant += 1;
        }
    }
    (digits, ten)
}

/// The greatest common divisor, at least 1.
fn divisor(a: i128, b: i128) -> i128 {
    let (mut a, mut b) = (a.unsigned_abs(), b.unsigned_abs());
    while b != 0 {
        (a, b) = (b, a % b);
    }
    i128::try_from(a).unwrap_or(1).max(1)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn unit_a_third_is_rounded_to_nearest() {
        assert_eq!(Exact::ratio(1, 3, 0).to_f64().to_bits(), (1.0_f64 / 3.0).to_bits());
        assert_eq!(Exact::ratio(-2, 3, 0).to_f64().to_bits(), (-2.0_f64 / 3.0).to_bits());
    }

    #[test]
    fn unit_overflow_is_told() {
        let large = Exact::decimal(i128::MAX, 0);
        assert!(large.times(Exact::decimal(2, 0)).is_none());
        assert!(large.plus(Exact::decimal(1, 0)).is_none());
        assert!(Exact::ratio(1, LARGEST_DENOMINATOR, 0).times(Exact::ratio(1, 3, 0)).is_none());
        assert!(Exact::ZERO.power(-1).is_none());
    }

    #[test]
    fn unit_zero_takes_part_in_sums_of_any_magnitude() {
        let tiny = Exact::decimal(1, -300);
        let sum = Exact::ZERO.plus(tiny).expect("a sum with zero");
        assert_eq!(sum.to_f64().to_bits(), 1e-300_f64.to_bits());
    }

    proptest! {
        /// The quotient of two integers below 2⁵³ is one correctly rounded operation in IEEE 754.
        #[test]
        fn law_division_agrees_with_ieee(a in -(1_i64 << 53)..(1_i64 << 53), b in 1_i64..(1 << 53)) {
            #[expect(clippy::cast_precision_loss, reason = "below 2^53 the cast is exact")]
            let ieee = a as f64 / b as f64;
            let exact = Exact::ratio(i128::from(a), i128::from(b), 0).to_f64();
            prop_assert_eq!(exact.to_bits(), ieee.to_bits(), "{} and {}", exact, ieee);
        }

        #[test]
        fn law_a_factor_and_its_inverse_cancel(a in 1_i128..1_000_000_000, b in 1_i128..1_000_000_000, ten in -30..30) {
            let x = Exact::ratio(a, b, ten);
            let one = x.times(x.power(-1).expect("not zero")).expect("small integers");
            prop_assert_eq!(one.to_f64().to_bits(), 1.0_f64.to_bits());
        }
    }
}
