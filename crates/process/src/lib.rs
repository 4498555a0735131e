//! The bond day in numbers: cure on the real temperature, how long the adhesive may be worked,
//! how much of it is needed and how it is pressed out.
//!
//! Plain `f64` in N, mm, `MPa`, s and K throughout, time zero at first mix. The crate knows neither
//! job file nor finding; every function returns a number or a typed [`ProcessError`], and a clock
//! that cannot be read is an answer of its own ([`Clock`](clocks::Clock)), never a number.
//!
//! | module | subject |
//! |---|---|
//! | [`temperature`] | the temperature history from first mix on |
//! | [`gap`] | gaps of a log, and what they leave open |
//! | [`jump`] | jumps of a log that no part makes |
//! | [`heating`] | stages of heat on top of a history |
//! | [`dew`] | the dew point of the air |
//! | [`arrhenius`] | activation energy and equivalent time |
//! | [`strength`] | the data sheet's strength-against-time table |
//! | [`clocks`] | when a limit or a strength is reached |
//! | [`kinetics`] | any law of cure along a history |
//! | [`kamal`] | cure kinetics after Kamal and Sourour |
//! | [`lee_loos_springer`] | the law of Lee, Loos and Springer, to check by |
//! | [`glass`] | glass transition after DiBenedetto, and the stall it brings |
//! | [`volume`] | how much adhesive, how many cartridges |
//! | [`squeeze`] | pressing a bead down to its bondline |

pub mod arrhenius;
pub mod clocks;
pub mod dew;
mod error;
pub mod gap;
pub mod glass;
pub mod heating;
pub mod jump;
pub mod kamal;
pub mod kinetics;
pub mod lee_loos_springer;
mod runge_kutta;
pub mod squeeze;
pub mod strength;
pub mod temperature;
pub mod volume;

pub use error::ProcessError;
