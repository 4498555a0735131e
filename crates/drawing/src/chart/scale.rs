//! From values to places on an axis, and the steps of an axis.

use super::count;

/// A stretch of an axis that holds all values.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Range {
    pub(crate) lo: f64,
    pub(crate) hi: f64,
}

impl Range {
    /// The range of the values; none without a value. The values are drawable, hence finite.
    pub(crate) fn of(values: impl IntoIterator<Item = f64>) -> Option<Self> {
        values.into_iter().fold(None, |range: Option<Self>, v| {
            Some(range.map_or(Self { lo: v, hi: v }, |r| Self { lo: r.lo.min(v), hi: r.hi.max(v) }))
        })
    }

    fn size(self) -> f64 {
        self.lo.abs().max(self.hi.abs())
    }

    /// Widens a range without width, so that a constant stands in the middle. Less than 10⁻⁹ of the
    /// values counts as none: it would need more digits than an axis can print.
    pub(crate) fn opened(self) -> Self {
        let size = self.size();
        if size < 1e-12 {
            return Self { lo: 0.0, hi: 1.0 };
        }
        if self.hi - self.lo > 1e-9 * size {
            return self;
        }
        Self { lo: self.lo - 0.1 * size, hi: self.hi + 0.1 * size }
    }

    /// Adds a part of the width at both ends.
    pub(crate) fn padded(self, part: f64) -> Self {
        let pad = part * (self.hi - self.lo);
        Self { lo: self.lo - pad, hi: self.hi + pad }
    }
}

/// The step 1, 2 or 5 times a power of ten that divides the range into at most `most` parts.
pub(crate) fn step(range: Range, most: usize) -> f64 {
    let least = (range.hi - range.lo) / count(most.max(1));
    let power = libm::pow(10.0, libm::log10(least).floor());
    [1.0, 2.0, 5.0]
        .into_iter()
        .map(|factor| factor * power)
        // The logarithm may be off by a last digit; a part in 10⁹ is below what is drawn.
        .find(|step| *step >= least * (1.0 - 1e-9))
        .unwrap_or(10.0 * power)
}

/// The range extended to whole steps.
pub(crate) fn extended(range: Range, step: f64) -> Range {
    Range { lo: (range.lo / step + 1e-9).floor() * step, hi: (range.hi / step - 1e-9).ceil() * step }
}

/// The multiples of the step within the range.
pub(crate) fn multiples(range: Range, step: f64) -> Vec<f64> {
    let first = (range.lo / step - 1e-9).ceil();
    let mut values = Vec::new();
    // At most `most` parts were asked of `step`; the bound only guards against a foreign step.
    for k in 0..100_u32 {
        let value = (first + f64::from(k)) * step;
        if value > range.hi + 1e-9 * step {
            break;
        }
        // Zero is exactly zero, and never minus zero.
        values.push(if value.abs() < 1e-9 * step { 0.0 } else { value });
    }
    values
}

/// How the steps of an axis are printed: decimals, and a power of ten taken out of them.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Print {
    decimals: usize,
    /// Power of ten that is said once, beside the unit; a multiple of three.
    pub(crate) power: i32,
}

impl Print {
    /// Plain digits between 0.01 and 10⁶, otherwise a power of a thousand is taken out.
    pub(crate) fn of(range: Range, step: f64) -> Self {
        let size = libm::log10(range.size().max(step)).floor();
        let power = if (-2.0..6.0).contains(&size) { 0 } else { whole((size / 3.0).floor()) * 3 };
        // 1, 2 and 5 times a power of ten need the decimals of that power.
        let place = whole((libm::log10(step) + 1e-9).floor()) - power;
        Self { decimals: usize::try_from(-place).unwrap_or(0).min(17), power }
    }

    pub(crate) fn words(self, value: f64) -> String {
        let scaled = value / libm::pow(10.0, f64::from(self.power));
        let text = format!("{scaled:.*}", self.decimals);
        text.replace('-', "−")
    }
}

/// A small whole number; the exponents of drawable values lie within ±400.
#[expect(clippy::cast_possible_truncation, reason = "the value is clamped to the range of the type")]
fn whole(value: f64) -> i32 {
    value.clamp(-400.0, 400.0) as i32
}

/// Places values between two points of the figure.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Scale {
    pub(crate) range: Range,
    /// Places of the range's ends, mm.
    pub(crate) ends_mm: [f64; 2],
    /// Values up to this one have nearly equal steps, beyond it steps shrink as in a logarithm.
    pub(crate) bend: Option<f64>,
}

impl Scale {
    /// Place of a value, mm; values outside the range are held at its ends.
    pub(crate) fn at(self, value: f64) -> f64 {
        let value = value.clamp(self.range.lo, self.range.hi);
        let bent = |v: f64| self.bend.map_or(v, |bend| libm::log1p(((v - self.range.lo) / bend).max(0.0)));
        let (lo, hi) = (bent(self.range.lo), bent(self.range.hi));
        let part = (bent(value) - lo) / (hi - lo);
        self.ends_mm[0] + part * (self.ends_mm[1] - self.ends_mm[0])
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn unit_steps_are_one_two_five() {
        let step_of = |lo, hi| step(Range { lo, hi }, 6);
        assert!((step_of(0.0, 17.3) - 5.0).abs() < 1e-12);
        assert!((step_of(0.0, 6.0) - 1.0).abs() < 1e-12);
        assert!((step_of(-3.0, 8.0) - 2.0).abs() < 1e-12);
    }

    #[test]
    fn unit_printed_steps() {
        let print = |lo, hi| {
            let range = Range { lo, hi };
            let step = step(range, 6);
            let print = Print::of(range, step);
            let words: Vec<_> = multiples(range, step).into_iter().map(|v| print.words(v)).collect();
            (words.join(" "), print.power)
        };
        assert_eq!(print(0.0, 1.0), ("0.0 0.2 0.4 0.6 0.8 1.0".into(), 0));
        assert_eq!(print(-10.0, 10.0), ("−10 −5 0 5 10".into(), 0));
        assert_eq!(print(0.0, 4e7), ("0 10 20 30 40".into(), 6));
    }

    fn ranges() -> impl Strategy<Value = Range> {
        let ends = (-12.0..12.0_f64, any::<bool>(), -12.0..12.0_f64, any::<bool>());
        ends.prop_map(|(a, minus_a, b, minus_b)| {
            let value = |power, minus| libm::pow(10.0, power) * if minus { -1.0 } else { 1.0 };
            let (a, b) = (value(a, minus_a), value(b, minus_b));
            Range { lo: a.min(b), hi: a.max(b) }.opened()
        })
    }

    proptest! {
        /// An extended axis holds its range, has few steps, and each prints differently.
        #[test]
        fn law_steps_hold_the_range(range in ranges(), most in 1_usize..12) {
            let step = step(range, most);
            let axis = extended(range, step);
            let slack = 1e-8 * step;
            prop_assert!(axis.lo <= range.lo + slack && axis.hi >= range.hi - slack);
            let steps = multiples(axis, step);
            prop_assert!(steps.len() >= 2 && steps.len() <= most + 3, "{steps:?}");
            let print = Print::of(axis, step);
            let words: std::collections::BTreeSet<_> =
                steps.iter().map(|v| print.words(*v)).collect();
            prop_assert_eq!(words.len(), steps.len());
        }

        /// A greater value never stands before a smaller one, and none outside the axis.
        #[test]
        fn law_places_keep_their_order(
            range in ranges(),
            parts in (0.0..=1.0_f64, 0.0..=1.0_f64),
            bend in proptest::option::of(1e-3..1.0_f64),
        ) {
            let width = range.hi - range.lo;
            let scale = Scale { range, ends_mm: [10.0, 90.0], bend: bend.map(|b| b * width) };
            let a = scale.at(range.lo + parts.0.min(parts.1) * width);
            let b = scale.at(range.lo + parts.0.max(parts.1) * width);
            prop_assert!(10.0 - 1e-9 <= a && a <= b + 1e-9 && b <= 90.0 + 1e-9);
        }
    }
}
