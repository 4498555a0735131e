//! Values along a line.

use std::collections::BTreeMap;

use crate::Name;

/// One column of a series.
#[derive(Debug, Clone, PartialEq)]
pub struct Column {
    /// What it is, in words.
    pub what: &'static str,
    /// Its unit.
    pub unit: &'static str,
    /// Its values; always finite.
    pub values: Vec<f64>,
}

/// What one value of a series is called, where its place on a line says nothing: a specimen.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PointName {
    /// Its name.
    pub name: String,
    /// How it broke, as the file says it.
    pub pattern: Option<String>,
    /// What is to be said of it, if anything.
    pub remark: Option<String>,
}

/// Values of one quantity along another.
#[derive(Debug, Clone, PartialEq)]
pub struct Series {
    /// Along what.
    pub x: Column,
    /// The values.
    pub y: Column,
    /// The names of the values, one each, where they have names.
    pub names: Vec<PointName>,
}

/// Series under dotted names.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct SeriesMap {
    map: BTreeMap<String, Series>,
}

impl SeriesMap {
    /// Puts a series under a registered name. Points that are not finite are left out, so that none leaves
    /// the core; the columns are cut to the shorter one.
    pub fn put(
        &mut self,
        name: &Name,
        fill: &[&str],
        along: (&'static str, &'static str),
        points: &[(f64, f64)],
    ) {
        let finite = points.iter().filter(|(x, y)| x.is_finite() && y.is_finite());
        let (x, y) = finite.copied().unzip();
        let series = Series {
            x: Column { what: along.0, unit: along.1, values: x },
            y: Column { what: name.meaning, unit: name.unit, values: y },
            names: Vec::new(),
        };
        self.map.insert(name.fill(fill), series);
    }

    /// Puts values that have names, numbered in their order.
    pub fn put_named(
        &mut self,
        name: &Name,
        fill: &[&str],
        along: (&'static str, &'static str),
        values: Vec<(PointName, f64)>,
    ) {
        let finite = values.into_iter().filter(|(_, value)| value.is_finite());
        let (names, values): (Vec<PointName>, Vec<f64>) = finite.unzip();
        let numbers = (1_u32..).map(f64::from).take(values.len()).collect();
        let series = Series {
            x: Column { what: along.0, unit: along.1, values: numbers },
            y: Column { what: name.meaning, unit: name.unit, values },
            names,
        };
        self.map.insert(name.fill(fill), series);
    }

    /// The series under a name.
    pub fn get(&self, name: &str) -> Option<&Series> {
        self.map.get(name)
    }

    /// All series, sorted by name.
    pub fn iter(&self) -> impl Iterator<Item = (&str, &Series)> {
        self.map.iter().map(|(name, series)| (name.as_str(), series))
    }
}
