//! Fatigue: cycles counted from a log, lives from a line of stress against cycles, damage added up.
//!
//! - [`rainflow`]: the cycles in a history of loads, after ASTM E1049;
//! - [`basquin`]: the life under one range, a straight line in logarithms;
//! - [`goodman`]: the range that does the same at the mean of the tests;
//! - [`miner`]: the sum of the damage of all cycles.

pub mod basquin;
pub mod goodman;
pub mod miner;
pub mod rainflow;
