//! Greatest stresses along a bond.

/// A greatest value and where it stands.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Peak {
    /// The value, MPa.
    pub value_mpa: f64,
    /// Its place, mm from the left end of the overlap.
    pub x_mm: f64,
}
