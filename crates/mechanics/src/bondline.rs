//! The thickness of the adhesive layer along the overlap.

use crate::failure::{self, Failure};

/// Thickness h(x) of the adhesive layer, x from the left end of the overlap.
#[derive(Debug, Clone, PartialEq)]
pub enum Bondline {
    /// The same thickness everywhere, mm.
    Constant(f64),
    /// Stations (x, h), both in mm, x increasing; linear between them. They must cover the overlap.
    Along(Vec<(f64, f64)>),
}

impl Bondline {
    /// Refuses a layer that has no positive thickness somewhere on the overlap.
    ///
    /// # Errors
    ///
    /// [`Failure::NotPositive`] for a thickness, [`Failure::NotFinite`] for a station,
    /// [`Failure::StationsNotIncreasing`], [`Failure::BondlineNotCovered`].
    pub fn check(&self, overlap_mm: f64) -> Result<(), Failure> {
        match self {
            Self::Constant(h) => failure::positive("bondline", *h).map(|_| ()),
            Self::Along(stations) => {
                for (x, h) in stations {
                    failure::finite("bondline station", *x)?;
                    failure::positive("bondline", *h)?;
                }
                for pair in stations.windows(2) {
                    if let [(station_mm, _), (next_mm, _)] = *pair
                        && next_mm <= station_mm
                    {
                        return Err(Failure::StationsNotIncreasing { station_mm, next_mm });
                    }
                }
                let from_mm = stations.first().map_or(f64::NAN, |s| s.0);
                let to_mm = stations.last().map_or(f64::NAN, |s| s.0);
                if from_mm <= 0.0 && to_mm >= overlap_mm {
                    Ok(())
                } else {
                    Err(Failure::BondlineNotCovered { from_mm, to_mm, overlap_mm })
                }
            }
        }
    }

    /// Thickness at x, mm; beyond the outer stations that of the nearest one.
    ///
    /// Not a number where there is no station: [`Bondline::check`] first.
    #[must_use]
    pub fn thickness_mm(&self, x_mm: f64) -> f64 {
        match self {
            Self::Constant(h) => *h,
            Self::Along(stations) => {
                let above = stations.partition_point(|s| s.0 <= x_mm);
                match (above.checked_sub(1).and_then(|i| stations.get(i)), stations.get(above)) {
                    (Some((x0, h0)), Some((x1, h1))) => h0 + (h1 - h0) * (x_mm - x0) / (x1 - x0),
                    (Some((_, h)), None) | (None, Some((_, h))) => *h,
                    (None, None) => f64::NAN,
                }
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn unit_linear_between_stations_and_exact_at_them() {
        let wedge = Bondline::Along(vec![(0.0, 0.2), (10.0, 0.4), (20.0, 1.0)]);
        for (x, h) in [(0.0, 0.2), (5.0, 0.3), (10.0, 0.4), (15.0, 0.7), (20.0, 1.0)] {
            assert!((wedge.thickness_mm(x) - h).abs() < 1e-15, "h({x})");
        }
        assert_eq!(wedge.check(20.0), Ok(()));
    }

    #[test]
    fn unit_refuses_what_leaves_the_overlap_without_a_thickness() {
        let short = Bondline::Along(vec![(0.0, 0.2), (10.0, 0.4)]);
        assert!(matches!(short.check(12.0), Err(Failure::BondlineNotCovered { .. })));
        assert!(matches!(Bondline::Along(vec![]).check(12.0), Err(Failure::BondlineNotCovered { .. })));
        let back = Bondline::Along(vec![(0.0, 0.2), (10.0, 0.4), (10.0, 0.4), (20.0, 0.2)]);
        assert!(matches!(back.check(12.0), Err(Failure::StationsNotIncreasing { .. })));
        let hole = Bondline::Along(vec![(0.0, 0.2), (20.0, 0.0)]);
        assert!(matches!(hole.check(12.0), Err(Failure::NotPositive { .. })));
        assert!(matches!(Bondline::Constant(f64::NAN).check(1.0), Err(Failure::NotPositive { .. })));
    }
}
