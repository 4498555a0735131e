use crate::failure::{self, Failure};

/// How shear and tension in one fastener add up.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Interaction {
    /// F_v/F_v,R + F_t/F_t,R ≤ 1: blind rivets in sheet (EN 1993-1-3, 8.3, and EN 1999-1-4, 8.2;
    /// from memory).
    Linear,
    /// F_v/F_v,R + F_t/(1.4 F_t,R) ≤ 1 with F_t ≤ F_t,R: bolts and solid rivets (EN 1993-1-8 Table
    /// 3.4, read; EN 1999-1-1 Table 8.5, from memory).
    Solid,
}

impl Interaction {
    /// Share of its resistance that a fastener is asked for: 1 is exactly enough.
    ///
    /// Takes the shear and the tension each over its resistance. A push between the plates passes
    /// beside the fastener: a negative tension counts as none. In proportion to the load, both
    /// forms are.
    ///
    /// # Errors
    ///
    /// A [`Failure`] that names a ratio out of range.
    pub fn utilisation(self, shear_ratio: f64, tension_ratio: f64) -> Result<f64, Failure> {
        let shear = failure::not_negative("shear over its resistance", shear_ratio)?;
        let tension = failure::finite("tension over its resistance", tension_ratio)?.max(0.0);
        let sum = match self {
            Self::Linear => shear + tension,
            Self::Solid => (shear + tension / 1.4).max(tension),
        };
        failure::number("utilisation", sum)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn unit_tension_is_free_up_to_its_share_and_never_above_its_strength() {
        let of = |kind: Interaction, v, t| kind.utilisation(v, t).unwrap();
        assert!((of(Interaction::Linear, 0.3, 0.5) - 0.8).abs() < 1e-15);
        assert!((of(Interaction::Solid, 0.3, 0.7) - 0.8).abs() < 1e-15);
        // At full tension 0.4/1.4 of the shear strength is left.
        assert!((of(Interaction::Solid, 0.4 / 1.4, 1.0) - 1.0).abs() < 1e-15);
        assert!((of(Interaction::Solid, 0.0, 1.1) - 1.1).abs() < 1e-15);
        // A push counts as no tension.
        assert!((of(Interaction::Linear, 0.3, -5.0) - 0.3).abs() < 1e-15);
        assert!(Interaction::Solid.utilisation(-0.1, 0.0).is_err());
        assert!(Interaction::Solid.utilisation(0.1, f64::NAN).is_err());
    }

    proptest! {
        /// The straight line lies inside; both grow in proportion with the load.
        #[test]
        fn law_linear_is_the_stricter_and_both_are_proportional(
            v in 0.0..2.0_f64, t in -1.0..2.0_f64, c in 0.0..5.0_f64,
        ) {
            let of = |kind: Interaction, c: f64| kind.utilisation(c * v, c * t).unwrap();
            prop_assert!(of(Interaction::Linear, 1.0) >= of(Interaction::Solid, 1.0));
            for kind in [Interaction::Linear, Interaction::Solid] {
                prop_assert!((of(kind, c) - c * of(kind, 1.0)).abs() < 1e-12);
            }
        }
    }
}
