//! Ratios of hyperbolic functions that neither overflow nor cancel.

/// cosh(a)/sinh(b), |a| ≤ b, b > 0.
pub(super) fn cosh_by_sinh(a: f64, b: f64) -> f64 {
    (libm::exp(a - b) + libm::exp(-a - b)) / -libm::expm1(-2.0 * b)
}

/// sinh(a)/cosh(b), |a| ≤ b.
pub(super) fn sinh_by_cosh(a: f64, b: f64) -> f64 {
    let size = -libm::exp(a.abs() - b) * libm::expm1(-2.0 * a.abs()) / (1.0 + libm::exp(-2.0 * b));
    size.copysign(a)
}

/// The peel that a moment and a shear at both ends of a layer cause, for a unit of each:
///
/// ```text
/// [(R₂ cosh a cos a + R₁ sinh a sin a)/Δ,  (cosh b cos b cosh a cos a + sinh b sin b sinh a sin a)/Δ]
///
/// Δ = (sinh 2b + sin 2b)/2    R₁ = cosh b sin b + sinh b cos b    R₂ = sinh b cos b − cosh b sin b
/// ```
///
/// |a| ≤ b, b > 0. All hyperbolic functions are scaled by exp(−b), Δ by its square.
pub(super) fn damped_waves(a: f64, b: f64) -> [f64; 2] {
    let (up, down) = (libm::exp(a - b), libm::exp(-a - b));
    let (cosh_a, sinh_a) = (0.5 * (up + down), 0.5 * (up - down));
    let (cosh_b, sinh_b) = (0.5 * (1.0 + libm::exp(-2.0 * b)), -0.5 * libm::expm1(-2.0 * b));
    let (cos_a, sin_a) = (libm::cos(a), libm::sin(a));
    let (cos_b, sin_b) = (libm::cos(b), libm::sin(b));
    let delta = sinh_b * cosh_b + libm::exp(-2.0 * b) * sin_b * cos_b;
    let (even, odd) = (cosh_a * cos_a, sinh_a * sin_a);
    let (r1, r2) = (cosh_b * sin_b + sinh_b * cos_b, sinh_b * cos_b - cosh_b * sin_b);
    [(r2 * even + r1 * odd) / delta, (cosh_b * cos_b * even + sinh_b * sin_b * odd) / delta]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn unit_ratios_agree_with_the_plain_ones_and_survive_where_those_overflow() {
        for (a, b) in [(0.0, 0.3), (-0.2, 0.3), (0.3, 0.3), (4.0, 9.0), (-1e-9, 2.0)] {
            let plain = libm::cosh(a) / libm::sinh(b);
            assert!((cosh_by_sinh(a, b) / plain - 1.0).abs() < 1e-14, "{a} {b}");
            let plain = libm::sinh(a) / libm::cosh(b);
            assert!((sinh_by_cosh(a, b) - plain).abs() <= 1e-14 * plain.abs(), "{a} {b}");
        }
        assert!((cosh_by_sinh(-900.0, 900.0) - 1.0).abs() < 1e-15);
        assert!((sinh_by_cosh(-900.0, 900.0) + 1.0).abs() < 1e-15);
    }
}
