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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn unit_ratios_agree_with_the_plain_ones_and_survive_where_those_overflow() {
        for (a, b) in [
            (0.0, 0.3),
            (-0.2, 0.3),
            (0.3, 0.3),
            (4.0, 9.0),
            (-1e-9, 2.0),
        ] {
            let plain = libm::cosh(a) / libm::sinh(b);
            assert!((cosh_by_sinh(a, b) / plain - 1.0).abs() < 1e-14, "{a} {b}");
            let plain = libm::sinh(a) / libm::cosh(b);
            assert!(
                (sinh_by_cosh(a, b) - plain).abs() <= 1e-14 * plain.abs(),
                "{a} {b}"
            );
        }
        assert!((cosh_by_sinh(-900.0, 900.0) - 1.0).abs() < 1e-15);
        assert!((sinh_by_cosh(-900.0, 900.0) + 1.0).abs() < 1e-15);
    }
}
