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
//! | [`coupons`] | one-sided bounds from coupons, and what they may be called |
//! | [`weibull`] | Weibull fit and exact bound |
//! | [`nonparametric`] | bounds that trust no distribution |
//! | [`anderson_darling`] | does a distribution fit |
//! | [`outlier`] | maximum normed residual |
//! | [`batches`] | pooling, equality of scatter, change of the mean |
//! | [`pattern`] | failure pattern codes of ISO 10365 |
//! | [`recovery`] | properties of an adhesive from coupons, by inverting a model of them |
//! | [`reliability`] | the chance of failure when strength and load scatter |

pub mod anderson_darling;
pub mod batches;
pub mod beta;
pub mod characteristic;
pub mod coupons;
mod error;
pub mod gamma;
pub mod nonparametric;
pub mod normal;
pub mod outlier;
pub mod pattern;
#[cfg(test)]
mod published;
mod quadrature;
pub mod recovery;
pub mod reliability;
mod root;
pub mod sample;
pub mod student;
pub mod tolerance;
pub mod weibull;

pub use error::EvidenceError;
pub use sample::Sample;
