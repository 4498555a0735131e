//! Why a computation has no number to give.

/// The reason for which a function of this crate gave no number.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum Failure {
    /// An argument that must be a positive, finite number is not.
    #[error("{argument} must be positive and finite, found {found}")]
    NotPositive {
        /// Name of the argument.
        argument: &'static str,
        /// What was given.
        found: f64,
    },
    /// An argument that must be zero or positive, and finite, is not.
    #[error("{argument} must be zero or positive, and finite, found {found}")]
    Negative {
        /// Name of the argument.
        argument: &'static str,
        /// What was given.
        found: f64,
    },
    /// An argument is infinite or not a number.
    #[error("{argument} must be finite, found {found}")]
    NotFinite {
        /// Name of the argument.
        argument: &'static str,
        /// What was given.
        found: f64,
    },
    /// An argument lies outside the range in which the formula or the model means something.
    #[error("{argument} must lie between {least} and {most}, found {found}")]
    OutOfRange {
        /// Name of the argument.
        argument: &'static str,
        /// What was given.
        found: f64,
        /// Lower end of the range.
        least: f64,
        /// Upper end of the range.
        most: f64,
    },
    /// A formula for equal adherends was asked about unequal ones.
    #[error("{formula} holds for equal adherends only: {property} is {upper} above and {lower} below")]
    UnequalAdherends {
        /// The formula.
        formula: &'static str,
        /// The property that differs.
        property: &'static str,
        /// Its value in the upper adherend.
        upper: f64,
        /// Its value in the lower adherend.
        lower: f64,
    },
    /// What shares a resultant leaves the motion free that it drives.
    #[error("nothing resists the {resultant}")]
    CannotCarry {
        /// The resultant.
        resultant: &'static str,
    },
    /// The stations of a bondline do not increase.
    #[error("the bondline's stations must increase, but {next_mm} mm follows {station_mm} mm")]
    StationsNotIncreasing {
        /// A station, mm.
        station_mm: f64,
        /// The one listed after it, mm.
        next_mm: f64,
    },
    /// The stations of a bondline leave part of the overlap without a thickness.
    #[error(
        "the bondline is known from {from_mm} to {to_mm} mm, the overlap reaches from 0 to {overlap_mm} mm"
    )]
    BondlineNotCovered {
        /// First station, mm (not a number where there is none).
        from_mm: f64,
        /// Last station, mm (not a number where there is none).
        to_mm: f64,
        /// Length of the overlap, mm.
        overlap_mm: f64,
    },
    /// The joint has no stable equilibrium under its compression: it has buckled.
    #[error(
        "the joint buckles under {axial_n_mm} N/mm: no stable equilibrium (pivot {pivot:e} near x = {x_mm} mm)"
    )]
    Buckled {
        /// Axial line load, N/mm.
        axial_n_mm: f64,
        /// Where the stiffness was lost, mm from the left end of the overlap.
        x_mm: f64,
        /// The pivot that was not positive.
        pivot: f64,
    },
    /// The stiffness matrix of a first-order model is not positive definite.
    #[error(
        "the stiffness is not positive definite (pivot {pivot:e} near x = {x_mm} mm): the numbers span too wide a range"
    )]
    NoStiffness {
        /// Where the stiffness was lost, mm from the left end of the overlap.
        x_mm: f64,
        /// The pivot that was not positive.
        pivot: f64,
    },
    /// A group of fasteners does not hold its parts together.
    #[error("the fasteners leave a motion free: {motion}")]
    FreeMotion {
        /// The motion that none of them hinders; of several, the one named first.
        motion: &'static str,
    },
    /// An iteration did not meet its tolerance.
    #[error(
        "{what} did not converge: after {iterations} iterations the residual is {residual:e}, not {tolerance:e}"
    )]
    NotConverged {
        /// The iteration.
        what: &'static str,
        /// Iterations done.
        iterations: u32,
        /// Relative residual reached.
        residual: f64,
        /// Relative residual asked for.
        tolerance: f64,
    },
    /// The walls given are no section.
    #[error(transparent)]
    Section(#[from] crate::section::Fault),
    /// Vectors or points from which a direction cannot be told.
    #[error("no direction can be told for {what}")]
    NoDirection {
        /// The direction wanted, and why there is none.
        what: &'static str,
    },
    /// A result is infinite or not a number although the arguments are in range.
    #[error("{what} came out as {found}: the arguments span too wide a range")]
    NoNumber {
        /// The result.
        what: &'static str,
        /// What came out.
        found: f64,
    },
}

/// `value` if it is positive and finite.
pub(crate) fn positive(argument: &'static str, value: f64) -> Result<f64, Failure> {
    if value.is_finite() && value > 0.0 {
        Ok(value)
    } else {
        Err(Failure::NotPositive { argument, found: value })
    }
}

/// `value` if it is zero or positive, and finite.
pub(crate) fn not_negative(argument: &'static str, value: f64) -> Result<f64, Failure> {
    if value.is_finite() && value >= 0.0 {
        Ok(value)
    } else {
        Err(Failure::Negative { argument, found: value })
    }
}

/// `value` if it is finite.
pub(crate) fn finite(argument: &'static str, value: f64) -> Result<f64, Failure> {
    if value.is_finite() { Ok(value) } else { Err(Failure::NotFinite { argument, found: value }) }
}

/// `value` if it lies in `least..=most`.
pub(crate) fn within(argument: &'static str, value: f64, least: f64, most: f64) -> Result<f64, Failure> {
    if value >= least && value <= most {
        Ok(value)
    } else {
        Err(Failure::OutOfRange { argument, found: value, least, most })
    }
}

/// `value` if it is a Poisson's ratio at which every isotropic modulus is finite and positive.
///
/// The open ends −1 and 0.5 are refused: there the bulk or the shear modulus is infinite.
pub(crate) fn poissons_ratio(argument: &'static str, value: f64) -> Result<f64, Failure> {
    if value > -1.0 && value < 0.5 {
        Ok(value)
    } else {
        Err(Failure::OutOfRange { argument, found: value, least: -1.0, most: 0.5 })
    }
}

/// A result, if it is finite.
pub(crate) fn number(what: &'static str, value: f64) -> Result<f64, Failure> {
    if value.is_finite() { Ok(value) } else { Err(Failure::NoNumber { what, found: value }) }
}
