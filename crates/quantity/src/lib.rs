//! Quantities with units: reading them as the trade writes them, and printing them.
//!
//! A quantity is asked for by its [`Kind`]; the kind fixes which units are accepted and in which
//! unit the plain number is. [`parse`] and [`print()`] go between text and number, and each kind has
//! a type of its own ([`Length`], [`Force`], …) for typed data.
//!
//! Reading goes in three steps, each a module: `number` (decimals, fractions, powers of ten),
//! `unit` (symbols joined to a product, in `symbol` their definitions), and `parse`, which joins
//! them in exact arithmetic (`exact`) and rounds once. So decimal metric text gives the same `f64`
//! as the literal in the base unit, and a length in inches the nearest `f64` to its millimetres.
//!
//! What is not clear is refused, with the place and a way to mend it: a bare number, a comma in a
//! number, a unit of another kind.

mod cursor;
mod dimension;
mod error;
mod exact;
mod kind;
mod money;
mod nearest;
mod number;
mod parse;
mod print;
mod reference;
mod scale;
mod symbol;
mod typed;
mod unit;

pub use error::ParseQuantityError;
pub use kind::Kind;
pub use money::{Currency, Money, ParseMoneyError};
pub use parse::{is_unit, parse};
pub use print::{System, print, print_exact};
pub use reference::{AcceptedUnit, units};
pub use scale::Scale;
pub use typed::{
    Acceleration, ActivationEnergy, Angle, Area, Density, ElectricPotential, Energy, Factor, Force, Length,
    LineLoad, Mass, Moment, Quantity, Rate, SecondMoment, Speed, Stiffness, Stress, Temperature,
    TemperatureDifference, ThermalExpansion, Time, Toughness, Viscosity, Volume,
};
