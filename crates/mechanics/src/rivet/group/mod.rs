//! Forces in a group of fasteners that joins two rigid parts.
//!
//! - [`plane`]: a group in a plane under a force and a moment in that plane;
//! - [`space`]: rows around a member's section under all six resultants, as in a sleeve whose bond
//!   is lost.
//!
//! *Elastic*: forces by stiffness, from the motion of one part against the other. The load factor
//! at which the first fastener reaches its strength needs no ductility. *Plastic*: the greatest load
//! factor at which forces in equilibrium exist within all strengths (static theorem of limit
//! analysis). It means something only where fasteners or walls yield before they break, and it comes
//! with a certificate: the forces on one side, a motion that bounds it on the other.
//!
//! The parts are rigid: a wall that stretches from row to row loads the outer rows more.

mod frame;
pub mod plane;
mod sliders;
pub mod space;
mod springs;
mod symmetric;

/// The fastener that reaches its strength first as the load grows.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct First {
    /// Its place in the list; of several alike the first.
    pub rivet: usize,
    /// Multiple of the load at which it does.
    pub factor: f64,
}

impl First {
    /// From each fastener's share of its strength at the load as given; none without load.
    fn of(utilisations: impl Iterator<Item = f64>) -> Option<Self> {
        let mut worst = (0, 0.0);
        for (rivet, utilisation) in utilisations.enumerate() {
            // Of rivets alike but for rounding, the first.
            if utilisation > worst.1 * (1.0 + 1e-9) {
                worst = (rivet, utilisation);
            }
        }
        let factor = 1.0 / worst.1;
        factor.is_finite().then_some(Self { rivet: worst.0, factor })
    }
}
