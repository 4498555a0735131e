//! The adhesive as a joint sees it: the user's own data, or the two ends of a class.

use assessment::{Known, Lack};
use job::Entry;
use job::tables::{Adhesive, AtBondline, AtTemperature, Strengths};
use mechanics::closed::Layer;
use mechanics::strip;
use quantity::Stress;

use super::ends::Ends;
use super::lap::failed;

/// The share of specimens above a characteristic value lies at 1.645 standard deviations (EN 1990:2002, 5 %
/// fractile of the normal distribution with known scatter and many tests).
pub(crate) const CHARACTERISTIC_AT: f64 = 1.645;

/// One complete set of values of an adhesive.
pub(super) struct Values {
    /// Young's modulus, MPa.
    pub(super) youngs_modulus_mpa: Known<f64>,
    /// Poisson's ratio.
    pub(super) poissons_ratio: Known<f64>,
    /// Characteristic shear strength at 23 °C, dry, MPa.
    pub(super) characteristic_shear_mpa: Known<f64>,
    /// Shear strength as written at 23 °C, dry, MPa.
    pub(super) shear_strength_mpa: Known<f64>,
    /// Characteristic tensile strength at 23 °C, dry, MPa.
    pub(super) characteristic_tensile_mpa: Known<f64>,
    /// Engineering shear strain at failure.
    pub(super) shear_strain_at_failure: Known<f64>,
}

impl Values {
    /// The layer as the closed forms see it.
    pub(super) fn layer(&self, bondline_mm: f64) -> Known<Layer> {
        let modulus = self.youngs_modulus_mpa.clone()?;
        Ok(Layer {
            youngs_modulus_mpa: modulus,
            shear_modulus_mpa: modulus / (2.0 * (1.0 + self.poissons_ratio.clone()?)),
            thickness_mm: bondline_mm,
        })
    }

    /// Whether the layer is as stiff as another.
    pub(super) fn as_stiff_as(&self, other: &Self) -> bool {
        self.youngs_modulus_mpa == other.youngs_modulus_mpa && self.poissons_ratio == other.poissons_ratio
    }

    /// The layer as the strip sees it.
    pub(super) fn isotropic(&self) -> Known<strip::Adhesive> {
        let (modulus, ratio) = (self.youngs_modulus_mpa.clone()?, self.poissons_ratio.clone()?);
        strip::Adhesive::isotropic(modulus, ratio).map_err(|failure| failed(&failure))
    }
}

/// What is known of an adhesive.
pub(super) enum Data {
    /// The user's own data.
    Given(Box<Values>),
    /// Nothing but a class, or what a lap of a data sheet carried: the values lie somewhere between the two.
    Class {
        /// The lower values.
        lower: Box<Values>,
        /// The upper values.
        upper: Box<Values>,
        /// The keys that would settle it.
        keys: Vec<String>,
        /// By what they are known: "the adhesive's class".
        by: &'static str,
    },
}

impl Data {
    /// What the job tells of an adhesive; between its two ends where it gives no shear strength.
    pub(super) fn of(adhesive: &Adhesive, ends: Option<&Ends>) -> Self {
        match ends.filter(|_| adhesive.shear_strength.get().is_none()) {
            None => Self::Given(Box::new(given(adhesive))),
            Some(ends) => {
                let [lower, upper] = &ends.adhesives;
                let (lower, upper) = (Box::new(given(lower)), Box::new(given(upper)));
                Self::Class { lower, upper, keys: ends.keys.clone(), by: ends.by }
            }
        }
    }
}

fn given(adhesive: &Adhesive) -> Values {
    Values {
        youngs_modulus_mpa: adhesive.youngs_modulus.need().map(|modulus| modulus.mpa()).map_err(Lack::from),
        poissons_ratio: adhesive.poissons_ratio.need().copied().map_err(Lack::from),
        characteristic_shear_mpa: characteristic_mpa(adhesive, &adhesive.shear_strength),
        shear_strength_mpa: adhesive.shear_strength.need().map(|strength| strength.mpa()).map_err(Lack::from),
        characteristic_tensile_mpa: characteristic_mpa(adhesive, &adhesive.tensile_strength),
        shear_strain_at_failure: adhesive.shear_strain_at_failure.need().copied().map_err(Lack::from),
    }
}

/// A characteristic strength: as given, or the mean less 1.645 standard deviations.
///
/// ```text
/// f_k = f_m (1 − 1.645 V)
/// f_m  mean (MPa)   V  scatter, the coefficient of variation
/// ```
///
/// A mean without a scatter gives nothing.
fn characteristic_mpa(adhesive: &Adhesive, strength: &Entry<Stress>) -> Known<f64> {
    let strength = strength.need();
    if adhesive.strengths.get() == Some(&Strengths::Characteristic) {
        return Ok(strength?.mpa());
    }
    let (strength, scatter) = job::Needed::need_all((strength, adhesive.scatter.need()))?;
    Ok(strength.mpa() * (1.0 - CHARACTERISTIC_AT * scatter))
}

/// The share of the strength that a table gives between its rows, linear; outside it there is nothing.
pub(super) fn share_at(
    at: f64,
    rows: &[(f64, f64)],
    key: &str,
    asked: &str,
    reach: impl Fn(f64) -> String,
) -> Known<f64> {
    let outside = || {
        let span = match (rows.first(), rows.last()) {
            (Some(first), Some(last)) => format!("reach from {} to {}", reach(first.0), reach(last.0)),
            _ => "are empty".to_owned(),
        };
        Lack::OutOfData { what: format!("{asked} is asked, the rows of {key} {span}"), key: key.to_owned() }
    };
    if let Some(row) = rows.iter().find(|row| (row.0 - at).abs() <= 1e-9 * at.abs().max(1.0)) {
        return Ok(row.1);
    }
    rows.windows(2)
        .find_map(|pair| match pair {
            [low, high] if (low.0..=high.0).contains(&at) => {
                Some(low.1 + (high.1 - low.1) * (at - low.0) / (high.0 - low.0))
            }
            _ => None,
        })
        .ok_or_else(outside)
}

/// Strength at a bondline as a share of the strength given; 1 where the adhesive has no table for it.
pub(crate) fn bondline_share(
    adhesive: &Adhesive,
    bondline_mm: f64,
    print: impl Fn(f64) -> String,
) -> Known<f64> {
    by_bondline(adhesive, bondline_mm, |row| row.strength.get().copied(), print)
}

/// Toughness at a bondline as a share of the toughness given.
pub(crate) fn bondline_toughness_share(
    adhesive: &Adhesive,
    bondline_mm: f64,
    print: impl Fn(f64) -> String,
) -> Known<f64> {
    by_bondline(adhesive, bondline_mm, |row| row.toughness.get().copied(), print)
}

/// A column of the table by bondline, linear between its rows; 1 where there is no table.
fn by_bondline(
    adhesive: &Adhesive,
    bondline_mm: f64,
    column: impl Fn(&AtBondline) -> Option<f64>,
    print: impl Fn(f64) -> String,
) -> Known<f64> {
    let Some(rows) = adhesive.by_bondline.get() else {
        return Ok(1.0);
    };
    let rows: Vec<(f64, f64)> =
        rows.iter().filter_map(|row| Some((row.bondline.get()?.mm(), column(row)?))).collect();
    share_at(
        bondline_mm,
        &rows,
        &adhesive.by_bondline.key,
        &format!("a bondline of {}", print(bondline_mm)),
        print,
    )
}

/// Strength at a temperature as a share of the strength given.
pub(super) fn temperature_share(
    adhesive: &Adhesive,
    celsius: f64,
    print: impl Fn(f64) -> String,
) -> Known<f64> {
    by_temperature(adhesive, celsius, |row| row.strength.get().copied(), print)
}

/// Toughness at a temperature as a share of the toughness given.
pub(super) fn temperature_toughness_share(
    adhesive: &Adhesive,
    celsius: f64,
    print: impl Fn(f64) -> String,
) -> Known<f64> {
    by_temperature(adhesive, celsius, |row| row.toughness.get().copied(), print)
}

/// A column of the table by temperature, linear between its rows.
fn by_temperature(
    adhesive: &Adhesive,
    celsius: f64,
    column: impl Fn(&AtTemperature) -> Option<f64>,
    print: impl Fn(f64) -> String,
) -> Known<f64> {
    let rows = adhesive.by_temperature.need()?;
    let rows: Vec<(f64, f64)> =
        rows.iter().filter_map(|row| Some((row.at.get()?.celsius(), column(row)?))).collect();
    share_at(celsius, &rows, &adhesive.by_temperature.key, &print(celsius), &print)
}

/// Glass transition after a cure at a temperature, °C.
pub(super) fn glass_transition_c(
    rows: &Entry<Vec<job::tables::GlassTransition>>,
    cured_at_c: f64,
    print: impl Fn(f64) -> String,
) -> Known<f64> {
    let given = rows.need()?;
    let pairs: Vec<(f64, f64)> = given
        .iter()
        .filter_map(|row| Some((row.cured_at.get()?.celsius(), row.value.get()?.celsius())))
        .collect();
    share_at(cured_at_c, &pairs, &rows.key, &format!("a cure at {}", print(cured_at_c)), &print)
}
