//! The data sheet's strength-against-time table, and what it promises between its rows.
//!
//! The rows at one temperature, the reference, make the curve: linear in log time between rows,
//! nothing beyond the last (its fraction holds), nothing before the first (only "less than"). Rows
//! at other temperatures give the activation energy where they carry a fraction of the curve.

use crate::ProcessError;
use crate::arrhenius::{
    Arrhenius, GAS_CONSTANT_J_MOL_K, TimeAt, activation_from_times_j_mol, doubling_activation_j_mol,
};
use crate::error::{finite, not_negative, within};

/// Standard room temperature, K: data sheets are given at 23 °C (ISO 291).
pub const STANDARD_K: f64 = 296.15;

/// Two rows carry the same fraction, or stand at the same temperature, when they agree to this:
/// far below the last printed digit of a data sheet, far above rounding of unit conversions.
const SAME: f64 = 1e-6;

/// A row of the table: after `time_s` at `temperature_k` the bond has `fraction` of its strength.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Row {
    /// Temperature, K.
    pub temperature_k: f64,
    /// Time from first mix, s.
    pub time_s: f64,
    /// Strength as a fraction of the full one, over 0 to 1.
    pub fraction: f64,
}

/// Where the activation energy comes from.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum ActivationBasis {
    /// The same fraction at two temperatures of the table: your data.
    TwoTemperatures {
        /// Pairs of rows used.
        pairs: usize,
        /// Least activation energy of a single pair, J/mol.
        least_j_mol: f64,
        /// Greatest activation energy of a single pair, J/mol.
        greatest_j_mol: f64,
    },
    /// Twice as fast for each 10 K near room temperature: common practice.
    DoublingRule,
    /// Given by the caller.
    Given,
}

/// What the table says about the strength at a moment.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Strength {
    /// Earlier than the first row: less than its fraction, how much is not known.
    LessThan {
        /// Fraction of the first row.
        fraction: f64,
    },
    /// Between two rows.
    Fraction {
        /// Fraction of the full strength.
        fraction: f64,
    },
    /// At or after the last row: its fraction holds, nothing more is promised.
    Last {
        /// Fraction of the last row.
        fraction: f64,
    },
}

impl Strength {
    /// The fraction that may be counted on: zero before the first row.
    pub fn at_least(&self) -> f64 {
        match *self {
            Self::LessThan { .. } => 0.0,
            Self::Fraction { fraction } | Self::Last { fraction } => fraction,
        }
    }
}

/// The time at the reference temperature at which a fraction is reached.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum NeededTime {
    /// Reached at this equivalent time.
    Exactly {
        /// Time at the reference temperature, s.
        equivalent_s: f64,
    },
    /// The fraction is below the first row: reached no later than that row.
    AtMost {
        /// Time of the first row, s.
        equivalent_s: f64,
    },
    /// The table ends below the fraction: it promises it at no time.
    BeyondTable {
        /// Greatest fraction of the table.
        last: f64,
    },
}

/// A strength table turned into one curve at its reference temperature, with an activation energy.
#[derive(Debug, Clone, PartialEq)]
pub struct StrengthTable {
    /// (time, fraction) at the reference temperature; times rise, fractions do not fall; not empty.
    curve: Vec<(f64, f64)>,
    law: Arrhenius,
    basis: ActivationBasis,
    unused: Vec<Row>,
    hottest_k: f64,
}

impl StrengthTable {
    /// Reads a table; without `activation_j_mol` the energy is estimated from the table itself, or
    /// taken from the doubling rule where the table has one temperature only.
    ///
    /// The reference temperature is the one with most rows; of equals the nearest to 23 °C. Each
    /// other row whose fraction also stands at the reference makes a pair; over the pairs
    ///
    /// ```text
    /// ln(t_ref/t) = (E/R) (1/T_ref − 1/T)
    /// ```
    ///
    /// is fitted by least squares through the origin: with one pair, its own energy. The full
    /// fraction is often a round figure for "no further rise"; an energy that hangs on it alone is
    /// no better than that figure.
    ///
    /// # Errors
    ///
    /// An empty table; a fraction outside 0 to 1; times that do not rise or a strength that falls
    /// at the reference temperature; a pair that is not faster when hotter.
    pub fn new(rows: &[Row], activation_j_mol: Option<f64>) -> Result<Self, ProcessError> {
        for row in rows {
            row.time().checked()?;
            within("strength fraction", row.fraction, f64::MIN_POSITIVE, 1.0)?;
        }
        let reference_k = reference_k(rows)?;
        let (at_reference, others): (Vec<Row>, Vec<Row>) =
            rows.iter().partition(|row| same(row.temperature_k, reference_k));
        let curve = curve(at_reference)?;
        let (pairs, unused): (Vec<_>, Vec<_>) = others
            .into_iter()
            .map(|row| (row, partner(&curve, row.fraction)))
            .partition(|(_, partner)| partner.is_some());
        let pairs: Vec<Pair> = pairs
            .into_iter()
            .filter_map(|(row, partner)| {
                partner.map(|time_s| Pair {
                    reference: TimeAt { temperature_k: reference_k, time_s },
                    other: row.time(),
                })
            })
            .collect();
        let (activation_j_mol, basis) = match activation_j_mol {
            Some(given) => (given, ActivationBasis::Given),
            None => {
                estimated(&pairs)?.unwrap_or((doubling_activation_j_mol(), ActivationBasis::DoublingRule))
            }
        };
        Ok(Self {
            curve,
            law: Arrhenius::new(reference_k, activation_j_mol)?,
            basis,
            unused: unused.into_iter().map(|(row, _)| row).collect(),
            hottest_k: rows.iter().map(|row| row.temperature_k).fold(reference_k, f64::max),
        })
    }

    /// Reference temperature and activation energy.
    pub fn law(&self) -> Arrhenius {
        self.law
    }

    /// Where the activation energy comes from.
    pub fn basis(&self) -> ActivationBasis {
        self.basis
    }

    /// The hottest temperature of which the table says something, K.
    pub fn hottest_k(&self) -> f64 {
        self.hottest_k
    }

    /// Rows at other temperatures that share no fraction with the curve and so say nothing here.
    pub fn unused_rows(&self) -> &[Row] {
        &self.unused
    }

    /// The strength after an equivalent time at the reference temperature.
    ///
    /// # Errors
    ///
    /// [`ProcessError::Negative`] for a time that is negative or not a number.
    pub fn strength_after(&self, equivalent_s: f64) -> Result<Strength, ProcessError> {
        not_negative("equivalent time", equivalent_s)?;
        let mut before: Option<(f64, f64)> = None;
        for &(time_s, fraction) in &self.curve {
            if equivalent_s < time_s {
                return Ok(match before {
                    None => Strength::LessThan { fraction },
                    Some((t, f)) => Strength::Fraction {
                        fraction: f + (fraction - f) * libm::log(equivalent_s / t) / libm::log(time_s / t),
                    },
                });
            }
            before = Some((time_s, fraction));
        }
        // The curve is never empty; zero promises nothing if it were.
        Ok(Strength::Last { fraction: before.map_or(0.0, |(_, fraction)| fraction) })
    }

    /// The equivalent time at which a fraction is reached first.
    ///
    /// # Errors
    ///
    /// [`ProcessError::OutOfRange`] for a fraction outside 0 to 1.
    pub fn time_for(&self, fraction: f64) -> Result<NeededTime, ProcessError> {
        within("strength fraction", fraction, 0.0, 1.0)?;
        let mut before: Option<(f64, f64)> = None;
        for &(time_s, reached) in &self.curve {
            // Written in per cent and converted, 0.3 and 30/100 need not agree in the last bit.
            if same(fraction, reached) {
                return Ok(NeededTime::Exactly { equivalent_s: time_s });
            }
            if fraction < reached {
                return Ok(match before {
                    None => NeededTime::AtMost { equivalent_s: time_s },
                    Some((t, f)) => NeededTime::Exactly {
                        equivalent_s: t * libm::exp((fraction - f) / (reached - f) * libm::log(time_s / t)),
                    },
                });
            }
            before = Some((time_s, reached));
        }
        Ok(NeededTime::BeyondTable { last: before.map_or(0.0, |(_, fraction)| fraction) })
    }
}

impl Row {
    fn time(&self) -> TimeAt {
        TimeAt { temperature_k: self.temperature_k, time_s: self.time_s }
    }
}

/// A fraction of the curve that another temperature reaches as well.
struct Pair {
    reference: TimeAt,
    other: TimeAt,
}

fn same(a: f64, b: f64) -> bool {
    (a - b).abs() <= SAME * a.abs().max(b.abs())
}

/// The temperature with most rows, of equals the nearest to standard room temperature.
fn reference_k(rows: &[Row]) -> Result<f64, ProcessError> {
    let mut best: Option<(usize, f64)> = None;
    for row in rows {
        let k = row.temperature_k;
        let count = rows.iter().filter(|r| same(r.temperature_k, k)).count();
        let better = best.is_none_or(|(most, at)| {
            count > most || (count == most && (k - STANDARD_K).abs() < (at - STANDARD_K).abs())
        });
        if better {
            best = Some((count, k));
        }
    }
    best.map(|(_, k)| k).ok_or(ProcessError::NoRows { what: "strength table" })
}

/// The rows at the reference temperature as a rising curve.
fn curve(mut rows: Vec<Row>) -> Result<Vec<(f64, f64)>, ProcessError> {
    rows.sort_by(|a, b| a.time_s.total_cmp(&b.time_s));
    for (index, pair) in rows.windows(2).enumerate() {
        let [a, b] = pair else { continue };
        if b.time_s <= a.time_s {
            return Err(ProcessError::TimesNotRising {
                index: index + 1,
                before_s: a.time_s,
                time_s: b.time_s,
            });
        }
        if b.fraction < a.fraction {
            return Err(ProcessError::StrengthFalls {
                time_s: b.time_s,
                before: a.fraction,
                fraction: b.fraction,
            });
        }
    }
    Ok(rows.iter().map(|row| (row.time_s, row.fraction)).collect())
}

/// The first time on the curve at which it carries exactly this fraction.
fn partner(curve: &[(f64, f64)], fraction: f64) -> Option<f64> {
    curve.iter().find(|(_, reached)| same(*reached, fraction)).map(|&(time_s, _)| time_s)
}

/// Least-squares activation energy over the pairs; `None` without a pair.
fn estimated(pairs: &[Pair]) -> Result<Option<(f64, ActivationBasis)>, ProcessError> {
    let mut least = f64::INFINITY;
    let mut greatest = 0.0_f64;
    let (mut xy, mut xx) = (0.0, 0.0);
    for pair in pairs {
        let single = activation_from_times_j_mol(pair.reference, pair.other)?;
        least = least.min(single);
        greatest = greatest.max(single);
        let x = 1.0 / pair.reference.temperature_k - 1.0 / pair.other.temperature_k;
        let y = libm::log(pair.reference.time_s / pair.other.time_s);
        xy += x * y;
        xx += x * x;
    }
    if pairs.is_empty() {
        return Ok(None);
    }
    let fitted = finite("activation energy", GAS_CONSTANT_J_MOL_K * xy / xx)?;
    Ok(Some((
        fitted,
        ActivationBasis::TwoTemperatures { pairs: pairs.len(), least_j_mol: least, greatest_j_mol: greatest },
    )))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::temperature::ZERO_CELSIUS_K;
    use proptest::prelude::*;

    const HOUR_S: f64 = 3600.0;

    fn row(c: f64, hours: f64, fraction: f64) -> Row {
        Row { temperature_k: c + ZERO_CELSIUS_K, time_s: hours * HOUR_S, fraction }
    }

    /// The demo's table (invented).
    fn demo() -> Vec<Row> {
        vec![row(23.0, 8.0, 0.3), row(23.0, 24.0, 0.8), row(23.0, 168.0, 1.0), row(60.0, 16.0, 1.0)]
    }

    #[test]
    fn unit_demo_table_gives_its_own_activation_energy() -> Result<(), ProcessError> {
        let table = StrengthTable::new(&demo(), None)?;
        // R ln(168/16) / (1/296.15 − 1/333.15), worked by hand.
        let by_hand = 8.314_462_618 * libm::log(10.5) / (1.0 / 296.15 - 1.0 / 333.15);
        let found = table.law().activation_j_mol();
        assert!((found - by_hand).abs() < 1e-3, "{found} {by_hand}");
        assert!((found - 52.1e3).abs() < 0.1e3, "{found}");
        assert!(matches!(table.basis(), ActivationBasis::TwoTemperatures { pairs: 1, .. }));
        assert!(table.unused_rows().is_empty());
        Ok(())
    }

    #[test]
    fn unit_one_temperature_falls_back_to_the_rule() -> Result<(), ProcessError> {
        let rows = demo();
        let table = StrengthTable::new(&rows[..3], None)?;
        assert_eq!(table.basis(), ActivationBasis::DoublingRule);
        // A hot row at a fraction the curve does not carry says nothing.
        let odd = [rows[0], rows[1], row(60.0, 2.0, 0.5)];
        let table = StrengthTable::new(&odd, None)?;
        assert_eq!(table.basis(), ActivationBasis::DoublingRule);
        assert_eq!(table.unused_rows(), &[row(60.0, 2.0, 0.5)]);
        Ok(())
    }

    #[test]
    fn unit_curve_promises_no_more_than_its_rows() -> Result<(), ProcessError> {
        let table = StrengthTable::new(&demo(), None)?;
        assert_eq!(table.strength_after(7.9 * HOUR_S)?, Strength::LessThan { fraction: 0.3 });
        assert_eq!(table.strength_after(8.0 * HOUR_S)?, Strength::Fraction { fraction: 0.3 });
        // Halfway in log time between 8 and 24 h.
        let middle = table.strength_after(192.0_f64.sqrt() * HOUR_S)?.at_least();
        assert!((middle - 0.55).abs() < 1e-12, "{middle}");
        assert_eq!(table.strength_after(1000.0 * HOUR_S)?, Strength::Last { fraction: 1.0 });
        assert_eq!(table.time_for(0.1)?, NeededTime::AtMost { equivalent_s: 8.0 * HOUR_S });
        assert_eq!(table.time_for(0.8)?, NeededTime::Exactly { equivalent_s: 24.0 * HOUR_S });
        assert!(table.strength_after(f64::NAN).is_err());
        let short = StrengthTable::new(&demo()[..2], None)?;
        assert_eq!(short.time_for(0.9)?, NeededTime::BeyondTable { last: 0.8 });
        assert!(table.time_for(1.1).is_err());
        assert!(table.time_for(f64::NAN).is_err());
        Ok(())
    }

    #[test]
    fn unit_refuses_tables_that_contradict_themselves() {
        let falls = [row(23.0, 8.0, 0.8), row(23.0, 24.0, 0.3)];
        assert!(matches!(StrengthTable::new(&falls, None), Err(ProcessError::StrengthFalls { .. })));
        let twice = [row(23.0, 8.0, 0.3), row(23.0, 8.0, 0.4)];
        assert!(matches!(StrengthTable::new(&twice, None), Err(ProcessError::TimesNotRising { .. })));
        let slow = [row(23.0, 8.0, 0.3), row(60.0, 9.0, 0.3)];
        assert!(matches!(StrengthTable::new(&slow, None), Err(ProcessError::HotterNotFaster { .. })));
        assert!(matches!(StrengthTable::new(&[], None), Err(ProcessError::NoRows { .. })));
        assert!(StrengthTable::new(&[row(23.0, 8.0, 1.2)], None).is_err());
        assert!(StrengthTable::new(&[row(23.0, 8.0, f64::NAN)], None).is_err());
    }

    proptest! {
        /// Strength never falls with time, and the time for a fraction gives that fraction back.
        #[test]
        fn law_time_and_strength_are_inverse(fraction in 0.3..0.999_f64, a in 0.1..200.0_f64, b in 0.1..200.0_f64) {
            let table = StrengthTable::new(&demo(), None)?;
            let (early, late) = (a.min(b) * HOUR_S, a.max(b) * HOUR_S);
            prop_assert!(table.strength_after(early)?.at_least() <= table.strength_after(late)?.at_least());
            let NeededTime::Exactly { equivalent_s } = table.time_for(fraction)? else {
                return Err(TestCaseError::fail("inside the table"));
            };
            // SAME lets a fraction within 1e-6 of a row count as the row.
            let back = table.strength_after(equivalent_s)?.at_least();
            prop_assert!((back - fraction).abs() < 2e-6, "{back} {fraction}");
        }
    }
}
