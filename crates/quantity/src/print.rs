//! From a number in the base unit to text.

use crate::kind::Kind;

/// The system of units to print in. Both are always read.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum System {
    /// Millimetres, newtons, megapascals.
    #[default]
    Metric,
    /// Inches, pounds-force, pounds-force per square inch.
    Imperial,
}

/// Prints a quantity with three significant figures or all of its whole digits, in a unit that
/// makes it easy to read.
///
/// ```
/// use quantity::{Kind, System, print};
/// assert_eq!(print(16_580.0, Kind::Force, System::Metric), "16.6 kN");
/// assert_eq!(print(5400.0, Kind::Time, System::Metric), "90 min");
/// assert_eq!(print(24.0, Kind::Stress, System::Imperial), "3481 psi");
/// ```
///
/// Temperatures have one decimal, since they are points on a scale. Inches have four figures.
/// What is not finite prints as "not a number".
pub fn print(value: f64, kind: Kind, system: System) -> String {
    if !value.is_finite() {
        return NOT_A_NUMBER.to_owned();
    }
    let text = match (kind, system) {
        (Kind::Temperature, System::Metric) => tenths(value, "°C"),
        // 5 °C are 9 °F, and 0 °C is 32 °F.
        (Kind::Temperature, System::Imperial) => tenths(value * 1.8 + 32.0, "°F"),
        _ => on_ladder(value, kind, ladder(kind, system)),
    };
    // Only at the end of the range of numbers.
    text.unwrap_or_else(|| print_exact(value, kind))
}

/// Prints a quantity in the base unit so that reading it gives the same `f64` again.
pub fn print_exact(value: f64, kind: Kind) -> String {
    if !value.is_finite() {
        return NOT_A_NUMBER.to_owned();
    }
    let plain = value == 0.0 || (1e-6..1e15).contains(&value.abs());
    let number = if plain { format!("{value}") } else { format!("{value:e}") };
    format!("{number} {}", kind.base_unit()).trim_end().to_owned()
}

const NOT_A_NUMBER: &str = "not a number";

/// A unit with what stands before it, and how many of it are the least for which it is used.
type Rung = (&'static str, f64);

/// Prints in the greatest unit of which there are enough; zero in the unit that suits one base
/// unit. `None` beyond the range of numbers.
fn on_ladder(value: f64, kind: Kind, ladder: &[Rung]) -> Option<String> {
    let size = if value == 0.0 { 1.0 } else { value.abs() };
    ladder.iter().rev().find_map(|&(unit, least)| {
        let one = crate::parse(&format!("1{unit}"), kind).ok()?;
        let figures = if unit == " in" { 4 } else { 3 };
        let scaled = value / one;
        let enough = size / one >= least && scaled.is_finite();
        enough.then(|| format!("{}{unit}", significant(scaled, figures)))
    })
}

/// The units of a kind from the smallest to the greatest.
pub(crate) fn ladder(kind: Kind, system: System) -> &'static [Rung] {
    match system {
        System::Metric => metric(kind),
        System::Imperial => imperial(kind),
    }
}

fn metric(kind: Kind) -> &'static [Rung] {
    match kind {
        Kind::Length => &[(" nm", 0.0), (" µm", 0.1), (" mm", 0.01), (" m", 10.0), (" km", 10.0)],
        Kind::Area => &[(" mm²", 0.0), (" m²", 1.0)],
        Kind::Volume => &[(" mm³", 0.0), (" mL", 0.1), (" L", 1.0), (" m³", 10.0)],
        Kind::Force => &[(" N", 0.0), (" kN", 1.0), (" MN", 10.0)],
        Kind::Stress => &[(" Pa", 0.0), (" kPa", 0.1), (" MPa", 0.1), (" GPa", 1.0)],
        Kind::Toughness => &[(" J/m²", 0.0), (" kJ/m²", 0.1)],
        Kind::Temperature => &[(" °C", 0.0)],
        Kind::TemperatureDifference => &[(" K", 0.0)],
        Kind::Time => CLOCK,
        Kind::Mass => &[(" mg", 0.0), (" g", 0.1), (" kg", 1.0), (" t", 10.0)],
        Kind::LineLoad | Kind::Stiffness => &[(" N/mm", 0.0), (" kN/mm", 1.0)],
        Kind::Moment => &[(" N·mm", 0.0), (" N·m", 1.0), (" kN·m", 1.0)],
        Kind::Angle => &[("°", 0.0)],
        Kind::Rate => &[(" /s", 0.0)],
        Kind::ActivationEnergy => &[(" J/mol", 0.0), (" kJ/mol", 1.0)],
        Kind::ElectricPotential => &[(" µV", 0.0), (" mV", 0.1), (" V", 0.1), (" kV", 1.0)],
        Kind::Viscosity => &[(" mPa·s", 0.0), (" Pa·s", 1.0), (" kPa·s", 10.0)],
        Kind::Energy => &[(" mJ", 0.0), (" J", 0.1), (" kJ", 1.0), (" MJ", 10.0)],
        Kind::Speed => &[(" mm/s", 0.0), (" km/h", 1.0)],
        Kind::ThermalExpansion => &[(" /K", 0.0), ("e-6 /K", 1e-3), (" /K", 1e-3)],
        Kind::Acceleration => &[(" m/s²", 0.0)],
        Kind::Density => &[(" kg/m³", 0.0)],
        Kind::SecondMoment => &[(" mm⁴", 0.0), (" cm⁴", 1.0)],
        Kind::Factor => &[("", 0.0)],
    }
}

fn imperial(kind: Kind) -> &'static [Rung] {
    match kind {
        Kind::Length => &[(" in", 0.0), (" ft", 100.0), (" mi", 1.0)],
        Kind::Area => &[(" in²", 0.0), (" ft²", 10.0)],
        Kind::Volume => &[(" in³", 0.0), (" fl oz", 0.1), (" US gal", 1.0)],
        Kind::Force => &[(" lbf", 0.0), (" kip", 100.0)],
        Kind::Stress => &[(" psi", 0.0), (" ksi", 10.0), (" Msi", 1.0)],
        Kind::Toughness => &[(" in·lbf/in²", 0.0)],
        Kind::Temperature | Kind::TemperatureDifference => &[(" °F", 0.0)],
        Kind::Time => CLOCK,
        Kind::Mass => &[(" oz", 0.0), (" lb", 1.0)],
        Kind::LineLoad | Kind::Stiffness => &[(" lbf/in", 0.0), (" kip/in", 100.0)],
        Kind::Moment => &[(" in·lbf", 0.0), (" ft·lbf", 100.0), (" kip·ft", 10.0)],
        Kind::ActivationEnergy => &[(" cal/mol", 0.0), (" kcal/mol", 1.0)],
        Kind::Viscosity => &[(" cP", 0.0)],
        Kind::Energy => &[(" in·lbf", 0.0), (" ft·lbf", 1.0)],
        Kind::Speed => &[(" in/s", 0.0), (" mph", 1.0)],
        Kind::ThermalExpansion => &[(" /°F", 0.0), ("e-6 /°F", 1e-3), (" /°F", 1e-3)],
        Kind::Acceleration => &[(" ft/s²", 0.0)],
        Kind::Density => &[(" lb/ft³", 0.0)],
        Kind::SecondMoment => &[(" in⁴", 0.0)],
        Kind::Angle | Kind::Rate | Kind::ElectricPotential | Kind::Factor => metric(kind),
    }
}

/// Minutes up to three hours and hours up to three days, as the shop speaks of working time and
/// cure.
const CLOCK: &[Rung] = &[(" ms", 0.0), (" s", 0.1), (" min", 2.0), (" h", 3.0), (" d", 3.0)];

/// A temperature to a tenth of a degree; `None` where it is beyond all sense.
fn tenths(degrees: f64, unit: &str) -> Option<String> {
    if !degrees.is_finite() {
        return None;
    }
    if degrees.abs() >= LARGEST_PLAIN {
        return Some(format!("{} {unit}", significant(degrees, 3)));
    }
    Some(format!("{} {unit}", without_idle_zeros(&format!("{degrees:.1}"))))
}

/// Smaller and greater numbers than these are written with a power of ten.
const SMALLEST_PLAIN: f64 = 1e-3;
const LARGEST_PLAIN: f64 = 1e6;

/// Rounds to a number of significant figures, whole digits all kept, idle zeros dropped.
fn significant(value: f64, figures: usize) -> String {
    if value == 0.0 {
        return "0".to_owned();
    }
    let scientific = format!("{value:.*e}", figures.saturating_sub(1));
    let Some((mantissa, exponent)) = scientific.split_once('e') else {
        return scientific;
    };
    if !(SMALLEST_PLAIN..LARGEST_PLAIN).contains(&value.abs()) {
        return format!("{}e{exponent}", without_idle_zeros(mantissa));
    }
    let exponent: i64 = exponent.parse().unwrap_or(0);
    let figures = i64::try_from(figures).unwrap_or(i64::MAX);
    let decimals = usize::try_from(figures - 1 - exponent).unwrap_or(0);
    without_idle_zeros(&format!("{value:.decimals$}"))
}

/// `24.0` → `24`, `0.50` → `0.5`, `-0.0` → `0`; digits before the point stay.
fn without_idle_zeros(number: &str) -> String {
    if !number.contains('.') {
        return number.to_owned();
    }
    match number.trim_end_matches('0').trim_end_matches('.') {
        "-0" => "0".to_owned(),
        trimmed => trimmed.to_owned(),
    }
}
