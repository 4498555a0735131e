//! How one knows that this bond holds: statistics of witness coupons and what they are worth.
//!
//! Plain `f64`, in the unit of the values given. The crate knows neither job file nor finding;
//! every function returns a number or a typed [`EvidenceError`].
//!
//! The distribution functions are written here rather than taken from a crate: the non-central t
//! at the accuracy of the printed tables is not to be had in a small one, and results must not
//! differ between platforms (all transcendental functions come from `libm`).
//!
//! | module | subject |
//! |---|---|
//! | [`normal`], [`student`], [`gamma`], [`beta`] | distribution functions |
//! | [`sample`] | mean, standard deviation, coefficient of variation |
//! | [`tolerance`] | one-sided tolerance factors |
//! | [`characteristic`] | characteristic value after EN 1990 Annex D |
//! | [`coupons`] | one-sided bounds from coupons |

pub mod beta;
pub mod characteristic;
pub mod coupons;
mod error;
pub mod gamma;
pub mod normal;
mod quadrature;
mod root;
pub mod sample;
pub mod student;
pub mod tolerance;

pub use error::EvidenceError;
pub use sample::Sample;
