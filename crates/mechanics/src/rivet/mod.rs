//! Rivets and bolts: how much they give, what they carry, and how a group shares its load.
//!
//! - [`flexibility`]: the slip of one fastener under its load, after Huth and after Swift.

pub mod flexibility;
