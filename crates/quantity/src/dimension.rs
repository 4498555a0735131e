//! Dimensions of units: powers of the base quantities.

/// Powers of length, mass, time, temperature, electric current, amount of substance and angle.
///
/// ISO 80000-1 counts an angle as dimensionless. Here it has a dimension of its own, so that an
/// angle is not taken for a plain number.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Dimension([i32; 7]);

impl Dimension {
    pub(crate) const NONE: Self = Self([0, 0, 0, 0, 0, 0, 0]);
    pub(crate) const LENGTH: Self = Self([1, 0, 0, 0, 0, 0, 0]);
    pub(crate) const AREA: Self = Self([2, 0, 0, 0, 0, 0, 0]);
    pub(crate) const VOLUME: Self = Self([3, 0, 0, 0, 0, 0, 0]);
    pub(crate) const SECOND_MOMENT: Self = Self([4, 0, 0, 0, 0, 0, 0]);
    pub(crate) const MASS: Self = Self([0, 1, 0, 0, 0, 0, 0]);
    pub(crate) const TIME: Self = Self([0, 0, 1, 0, 0, 0, 0]);
    pub(crate) const RATE: Self = Self([0, 0, -1, 0, 0, 0, 0]);
    pub(crate) const TEMPERATURE: Self = Self([0, 0, 0, 1, 0, 0, 0]);
    pub(crate) const PER_TEMPERATURE: Self = Self([0, 0, 0, -1, 0, 0, 0]);
    pub(crate) const AMOUNT: Self = Self([0, 0, 0, 0, 0, 1, 0]);
    pub(crate) const ANGLE: Self = Self([0, 0, 0, 0, 0, 0, 1]);
    pub(crate) const SPEED: Self = Self([1, 0, -1, 0, 0, 0, 0]);
    pub(crate) const ACCELERATION: Self = Self([1, 0, -2, 0, 0, 0, 0]);
    pub(crate) const DENSITY: Self = Self([-3, 1, 0, 0, 0, 0, 0]);
    pub(crate) const FORCE: Self = Self([1, 1, -2, 0, 0, 0, 0]);
    pub(crate) const STRESS: Self = Self([-1, 1, -2, 0, 0, 0, 0]);
    pub(crate) const LINE_LOAD: Self = Self([0, 1, -2, 0, 0, 0, 0]);
    /// Of a moment as well.
    pub(crate) const ENERGY: Self = Self([2, 1, -2, 0, 0, 0, 0]);
    pub(crate) const MOLAR_ENERGY: Self = Self([2, 1, -2, 0, 0, -1, 0]);
    pub(crate) const VISCOSITY: Self = Self([-1, 1, -1, 0, 0, 0, 0]);
    pub(crate) const ELECTRIC_POTENTIAL: Self = Self([2, 1, -3, 0, -1, 0, 0]);

    /// The dimension of `self` times `other` to the `power`.
    pub(crate) fn times(self, other: Self, power: i32) -> Self {
        let mut product = self;
        for (sum, exponent) in product.0.iter_mut().zip(other.0) {
            *sum += exponent * power;
        }
        product
    }
}
