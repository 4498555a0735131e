//! Resultants along a member.

use super::load::PointForce;
use super::member::Member;
use super::resultants::{Resultants, SectionPoints, localise, summed};
use crate::failure::Failure;

/// The resultants at a station.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Station {
    /// Distance from the member's start, mm.
    pub station_mm: f64,
    /// The resultants.
    pub resultants: Resultants,
}

/// Resultants along a member of one section: all are linear between the stations given.
///
/// Where forces stand there are two entries at one station: just before them, where they still count as
/// beyond, and just after. The first entry is at the member's start and counts all forces ahead of it, the
/// last at its end.
///
/// # Errors
///
/// Those of [`resultants_at`](super::resultants_at).
pub fn diagram(
    member: &Member,
    forces: &[PointForce],
    points: &SectionPoints,
) -> Result<Vec<Station>, Failure> {
    points.check()?;
    let loads = localise(member, forces)?;
    let length = member.length_mm();
    let mut jumps: Vec<f64> = loads.iter().map(|(at, _)| at[0]).filter(|&x| x > 0.0 && x <= length).collect();
    jumps.sort_by(f64::total_cmp);
    jumps.dedup();
    let before = |x: f64| {
        let ahead = loads.iter().copied().filter(move |(at, _)| at[0] >= x);
        summed(ahead, x, points).map(|resultants| Station { station_mm: x, resultants })
    };
    let after = |x: f64| {
        let ahead = loads.iter().copied().filter(move |(at, _)| at[0] > x);
        summed(ahead, x, points).map(|resultants| Station { station_mm: x, resultants })
    };
    let mut stations = vec![after(0.0)?];
    for &x in &jumps {
        stations.push(before(x)?);
        stations.push(after(x)?);
    }
    if jumps.last().is_none_or(|&x| x < length) {
        stations.push(after(length)?);
    }
    Ok(stations)
}
