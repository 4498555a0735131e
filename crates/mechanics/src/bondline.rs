//! The thickness of the adhesive layer along the overlap and around the perimeter.

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
                increasing(stations)?;
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

    /// `share` of the way from this layer to the other, exact at the stations of both.
    fn blended(&self, other: &Self, share: f64) -> Self {
        let between = |a: f64, b: f64| a + (b - a) * share;
        let mut places_mm: Vec<f64> = [self, other].into_iter().flat_map(Self::stations_mm).collect();
        if places_mm.is_empty() {
            return Self::Constant(between(self.thickness_mm(0.0), other.thickness_mm(0.0)));
        }
        places_mm.sort_by(f64::total_cmp);
        places_mm.dedup();
        let at = |x| (x, between(self.thickness_mm(x), other.thickness_mm(x)));
        Self::Along(places_mm.into_iter().map(at).collect())
    }

    fn stations_mm(&self) -> impl Iterator<Item = f64> {
        let stations = match self {
            Self::Constant(_) => &[][..],
            Self::Along(stations) => stations,
        };
        stations.iter().map(|station| station.0)
    }
}

/// Thickness h(s, x) of the adhesive layer around a perimeter: x along the overlap, s around it.
///
/// Linear in s between two lines and in x between the stations of each; beyond the outer lines that
/// of the nearest one. A strip stands at one s, so [`Around::at`] gives it the layer that it sees.
#[derive(Debug, Clone, PartialEq)]
pub struct Around {
    /// Lines (s in mm, layer along x there), s increasing.
    pub lines: Vec<(f64, Bondline)>,
}

impl Around {
    /// The layer along x at `s_mm`, on an overlap of `overlap_mm`.
    ///
    /// # Errors
    ///
    /// Those of [`Bondline::check`] for any line, [`Failure::NotFinite`] for an s,
    /// [`Failure::StationsNotIncreasing`], [`Failure::BondlineNotCovered`] without a line.
    pub fn at(&self, s_mm: f64, overlap_mm: f64) -> Result<Bondline, Failure> {
        failure::finite("place on the perimeter", s_mm)?;
        for (line_mm, layer) in &self.lines {
            failure::finite("bondline station", *line_mm)?;
            layer.check(overlap_mm)?;
        }
        increasing(&self.lines)?;
        let above = self.lines.partition_point(|line| line.0 <= s_mm);
        match (above.checked_sub(1).and_then(|i| self.lines.get(i)), self.lines.get(above)) {
            (Some((s0, low)), Some((s1, high))) => Ok(low.blended(high, (s_mm - s0) / (s1 - s0))),
            (Some((_, layer)), None) | (None, Some((_, layer))) => Ok(layer.clone()),
            (None, None) => {
                Err(Failure::BondlineNotCovered { from_mm: f64::NAN, to_mm: f64::NAN, overlap_mm })
            }
        }
    }
}

fn increasing<T>(stations: &[(f64, T)]) -> Result<(), Failure> {
    for pair in stations.windows(2) {
        if let [(station_mm, _), (next_mm, _)] = pair
            && next_mm <= station_mm
        {
            return Err(Failure::StationsNotIncreasing { station_mm: *station_mm, next_mm: *next_mm });
        }
    }
    Ok(())
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

    #[test]
    fn unit_over_s_and_x_is_bilinear_and_exact_at_its_lines() {
        let wedge = Bondline::Along(vec![(0.0, 0.2), (10.0, 0.4), (20.0, 1.0)]);
        let around = Around { lines: vec![(0.0, Bondline::Constant(0.2)), (40.0, wedge.clone())] };
        let seen = |s: f64, x: f64| around.at(s, 20.0).unwrap().thickness_mm(x);
        for (s, x, h) in [(20.0, 0.0, 0.2), (20.0, 10.0, 0.3), (20.0, 20.0, 0.6), (10.0, 5.0, 0.225)] {
            assert!((seen(s, x) - h).abs() < 1e-15, "h({s}, {x})");
        }
        assert_eq!(around.at(-1.0, 20.0), Ok(Bondline::Constant(0.2)));
        assert_eq!(around.at(40.0, 20.0), Ok(wedge));
    }

    #[test]
    fn unit_over_s_and_x_refuses_what_gives_no_layer() {
        let at = |lines: Vec<(f64, Bondline)>, s| Around { lines }.at(s, 20.0);
        let even = || Bondline::Constant(0.2);
        assert!(matches!(at(vec![], 0.0), Err(Failure::BondlineNotCovered { .. })));
        let back = vec![(5.0, even()), (5.0, even())];
        assert!(matches!(at(back, 0.0), Err(Failure::StationsNotIncreasing { .. })));
        assert!(matches!(at(vec![(0.0, even())], f64::NAN), Err(Failure::NotFinite { .. })));
        let hole = vec![(0.0, even()), (5.0, Bondline::Constant(0.0))];
        assert!(matches!(at(hole, 0.0), Err(Failure::NotPositive { .. })));
    }
}
