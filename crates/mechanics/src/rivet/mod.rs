//! Rivets and bolts: how much they give, what they carry, and how a group shares its load.
//!
//! - [`flexibility`]: the slip of one fastener under its load, after Huth and after Swift;
//! - [`resistance`]: what one fastener, its walls and its section carry, mode by mode;
//! - [`layout`]: edge distances, spacings, grip and head room, rule by rule;
//! - [`practice`]: rules of thumb of riveters, to set beside the computed number;
//! - [`group`]: forces in a group of fasteners, elastic and plastic, in a plane and around a section;
//! - [`share`]: what rivets carry while the bond beside them holds, and a row of rivets in a strip.

pub mod flexibility;
pub mod group;
pub mod layout;
pub mod practice;
pub mod resistance;
pub mod share;
