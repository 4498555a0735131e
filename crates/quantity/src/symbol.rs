//! The table of unit symbols with their exact definitions.

use crate::dimension::Dimension;
use crate::exact::Exact;
use crate::kind::Kind;

/// A unit with a symbol of its own.
#[derive(Debug)]
pub(crate) struct Symbol {
    /// All ways to write it, the usual one first.
    pub(crate) spellings: &'static [&'static str],
    pub(crate) name: &'static str,
    pub(crate) dimension: Dimension,
    /// One of it in the coherent SI unit (m, kg, s, K, A, mol), angles in degrees.
    pub(crate) scale: Exact,
    /// For the units of temperature: what is added in °C after scaling, when the temperature is
    /// a point and not a difference.
    pub(crate) zero: Option<Exact>,
    pub(crate) basis: Basis,
    asked: Asked,
}

/// In which kinds of quantity a symbol stands for this unit.
#[derive(Debug)]
enum Asked {
    Always,
    For(&'static [Kind]),
    NotFor(&'static [Kind]),
}

/// Where the size of a unit comes from; all of them are definitions.
///
/// How they are known: the standard acceleration was read in the International Bureau's list of
/// resolutions (3rd General Conference, 1901, Resolution 2: 980.665 cm/s²), the gallon in a copy of
/// NIST Handbook 44, Appendix C (231 cubic inches, exactly). The yard and the pound are quoted from
/// descriptions of the agreement of 1959, not from its text. The others are from memory.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Basis {
    Si,
    AcceptedWithSi,
    YardAndPound,
    StandardGravity,
    UsLiquid,
    Cgs,
    ThermochemicalCalorie,
    Fahrenheit,
    Ratio,
}

impl Basis {
    pub(crate) fn text(self) -> &'static str {
        match self {
            Self::Si => "SI (ISO 80000-1)",
            Self::AcceptedWithSi => "accepted for use with the SI (ISO 80000-1)",
            Self::YardAndPound => {
                "International Yard and Pound Agreement 1959: 1 yd = 0.9144 m, 1 lb = 0.45359237 kg exactly"
            }
            Self::StandardGravity => {
                "standard acceleration of free fall, 3rd General Conference on Weights and Measures 1901: \
                 9.80665 m/s² exactly"
            }
            Self::UsLiquid => "US customary: 1 gal = 231 in³ exactly, 1 fl oz = 1/128 gal",
            Self::Cgs => "CGS unit, 1 P = 0.1 Pa·s exactly",
            Self::ThermochemicalCalorie => "thermochemical calorie: 4.184 J exactly",
            Self::Fahrenheit => "1 °F = 5/9 K, 32 °F = 0 °C exactly",
            Self::Ratio => "ratio of like quantities (ISO 80000-1)",
        }
    }
}

impl Symbol {
    const fn new(
        spellings: &'static [&'static str],
        name: &'static str,
        dimension: Dimension,
        scale: Exact,
        basis: Basis,
    ) -> Self {
        Self { spellings, name, dimension, scale, zero: None, basis, asked: Asked::Always }
    }

    const fn not_for(self, kinds: &'static [Kind]) -> Self {
        Self { asked: Asked::NotFor(kinds), ..self }
    }

    const fn only_for(self, kinds: &'static [Kind]) -> Self {
        Self { asked: Asked::For(kinds), ..self }
    }

    const fn zeroed_at(self, zero: Exact) -> Self {
        Self { zero: Some(zero), ..self }
    }

    fn stands_in(&self, kind: Kind) -> bool {
        match self.asked {
            Asked::Always => true,
            Asked::For(kinds) => kinds.contains(&kind),
            Asked::NotFor(kinds) => !kinds.contains(&kind),
        }
    }
}

/// The unit that a spelling stands for where a quantity of this kind is asked for: `lb` is a
/// pound-force unless a mass is asked for.
pub(crate) fn find(spelling: &str, kind: Kind) -> Option<&'static Symbol> {
    SYMBOLS.iter().find(|symbol| symbol.spellings.contains(&spelling) && symbol.stands_in(kind))
}

/// Whether a spelling stands for any unit at all.
pub(crate) fn is_known(spelling: &str) -> bool {
    SYMBOLS.iter().any(|symbol| symbol.spellings.contains(&spelling))
}

/// A spelling that differs from the written one in capitals only.
pub(crate) fn find_in_any_case(written: &str) -> Option<&'static str> {
    let lower = written.to_lowercase();
    let mut spellings = SYMBOLS.iter().flat_map(|symbol| symbol.spellings).copied();
    spellings.find(|spelling| spelling.to_lowercase() == lower)
}

/// The symbols that alone make a unit of this kind.
pub(crate) fn of_kind(kind: Kind) -> impl Iterator<Item = &'static Symbol> {
    SYMBOLS.iter().filter(move |symbol| {
        symbol.dimension == kind.facts().dimension
            && symbol.stands_in(kind)
            && (kind != Kind::Temperature || symbol.zero.is_some())
    })
}

/// Kinds in which a pound and an ounce are masses, not forces.
const OF_MASS: &[Kind] = &[Kind::Mass, Kind::Density];
/// Kinds that share their dimension with an energy, an energy per length or per area, but are none.
const NO_ENERGY: &[Kind] = &[Kind::Moment, Kind::LineLoad, Kind::Stiffness];

const INCH: Exact = Exact::decimal(254, -4);
const FOOT: Exact = Exact::decimal(3048, -4);
const POUND: Exact = Exact::decimal(45_359_237, -8);
const KILOGRAM_FORCE: Exact = Exact::decimal(980_665, -5);
/// 0.45359237 kg × 9.80665 m/s²
const POUND_FORCE_DIGITS: i128 = 45_359_237 * 980_665;
const POUND_FORCE: Exact = Exact::decimal(POUND_FORCE_DIGITS, -13);
/// Pound-force over (254 × 10⁻⁴ m)²
const PSI: Exact = Exact::ratio(POUND_FORCE_DIGITS, 254 * 254, -5);
const KSI: Exact = Exact::ratio(POUND_FORCE_DIGITS, 254 * 254, -2);
const MSI: Exact = Exact::ratio(POUND_FORCE_DIGITS, 254 * 254, 1);
/// 231 in³ = 231 × 254³ × 10⁻¹² m³
const GALLON_DIGITS: i128 = 231 * 254 * 254 * 254;
/// 180/π, so that one radian is right to 5 × 10⁻¹⁹ of its value; the integers of [`Exact`] leave
/// room for no more, and a double resolves 1.1 × 10⁻¹⁶.
const DEGREES_PER_RADIAN: i128 = 572_957_795_130_823_209;

const fn si(
    spellings: &'static [&'static str],
    name: &'static str,
    dimension: Dimension,
    ten: i32,
) -> Symbol {
    Symbol::new(spellings, name, dimension, Exact::decimal(1, ten), Basis::Si)
}

const fn imperial(
    spellings: &'static [&'static str],
    name: &'static str,
    dimension: Dimension,
    scale: Exact,
) -> Symbol {
    Symbol::new(spellings, name, dimension, scale, Basis::YardAndPound)
}

#[rustfmt::skip] // one line a unit
static SYMBOLS: &[Symbol] = &[
    // length
    si(&["mm", "millimetre", "millimetres", "millimeter", "millimeters"], "millimetre", Dimension::LENGTH, -3),
    si(&["µm", "μm", "um", "micron", "microns"], "micrometre", Dimension::LENGTH, -6),
    si(&["nm"], "nanometre", Dimension::LENGTH, -9),
    si(&["cm", "centimetre", "centimetres", "centimeter", "centimeters"], "centimetre", Dimension::LENGTH, -2),
    si(&["dm"], "decimetre", Dimension::LENGTH, -1),
    si(&["m", "metre", "metres", "meter", "meters"], "metre", Dimension::LENGTH, 0),
    si(&["km"], "kilometre", Dimension::LENGTH, 3),
    imperial(&["in", "\"", "″", "”", "''", "′′", "’’", "inch", "inches"], "inch", Dimension::LENGTH, INCH),
    imperial(&["ft", "'", "′", "’", "foot", "feet"], "foot", Dimension::LENGTH, FOOT),
    imperial(&["yd", "yard", "yards"], "yard", Dimension::LENGTH, Exact::decimal(9144, -4)),
    imperial(&["mi", "mile", "miles"], "mile", Dimension::LENGTH, Exact::decimal(1_609_344, -3)),
    imperial(&["thou", "mil", "mils"], "thousandth of an inch", Dimension::LENGTH, Exact::decimal(254, -7)),
    imperial(&["µin", "μin", "uin", "microinch"], "microinch", Dimension::LENGTH, Exact::decimal(254, -10)),
    // area
    si(&["sq mm"], "square millimetre", Dimension::AREA, -6),
    si(&["sq cm"], "square centimetre", Dimension::AREA, -4),
    si(&["sq m"], "square metre", Dimension::AREA, 0),
    imperial(&["sq in", "sqin"], "square inch", Dimension::AREA, Exact::decimal(254 * 254, -8)),
    imperial(&["sq ft", "sqft"], "square foot", Dimension::AREA, Exact::decimal(3048 * 3048, -8)),
    // volume
    si(&["mL", "ml", "millilitre", "millilitres", "milliliter", "milliliters", "cc", "ccm"], "millilitre", Dimension::VOLUME, -6),
    si(&["µL", "μL", "uL", "µl", "μl", "ul"], "microlitre", Dimension::VOLUME, -9),
    si(&["cL", "cl"], "centilitre", Dimension::VOLUME, -5),
    si(&["dL", "dl"], "decilitre", Dimension::VOLUME, -4),
    si(&["L", "l", "ℓ", "litre", "litres", "liter", "liters"], "litre", Dimension::VOLUME, -3),
    imperial(&["cu in"], "cubic inch", Dimension::VOLUME, Exact::decimal(254 * 254 * 254, -12)),
    imperial(&["cu ft"], "cubic foot", Dimension::VOLUME, Exact::decimal(3048 * 3048 * 3048, -12)),
    Symbol::new(&["fl oz", "floz", "US fl oz"], "US fluid ounce", Dimension::VOLUME, Exact::ratio(GALLON_DIGITS, 128, -12), Basis::UsLiquid),
    Symbol::new(&["US gal"], "US gallon", Dimension::VOLUME, Exact::decimal(GALLON_DIGITS, -12), Basis::UsLiquid),
    // mass
    si(&["kg", "kilogram", "kilograms", "kilo", "kilos"], "kilogram", Dimension::MASS, 0),
    si(&["g", "gram", "grams"], "gram", Dimension::MASS, -3).not_for(&[Kind::Acceleration]),
    si(&["mg"], "milligram", Dimension::MASS, -6),
    Symbol::new(&["t", "tonne", "tonnes"], "tonne", Dimension::MASS, Exact::decimal(1, 3), Basis::AcceptedWithSi),
    imperial(&["lb", "lbs", "pound", "pounds"], "pound", Dimension::MASS, POUND).only_for(OF_MASS),
    imperial(&["lbm"], "pound", Dimension::MASS, POUND),
    imperial(&["oz", "ounce", "ounces"], "ounce", Dimension::MASS, Exact::ratio(45_359_237, 16, -8)),
    // time
    si(&["s", "sec", "secs", "second", "seconds"], "second", Dimension::TIME, 0),
    si(&["ms"], "millisecond", Dimension::TIME, -3),
    si(&["µs", "μs", "us"], "microsecond", Dimension::TIME, -6),
    Symbol::new(&["min", "mins", "minute", "minutes"], "minute", Dimension::TIME, Exact::decimal(6, 1), Basis::AcceptedWithSi),
    Symbol::new(&["h", "hr", "hrs", "hour", "hours"], "hour", Dimension::TIME, Exact::decimal(36, 2), Basis::AcceptedWithSi),
    Symbol::new(&["d", "day", "days"], "day", Dimension::TIME, Exact::decimal(864, 2), Basis::AcceptedWithSi),
    Symbol::new(&["wk", "week", "weeks"], "week of 7 days", Dimension::TIME, Exact::decimal(6048, 2), Basis::AcceptedWithSi),
    // temperature
    si(&["K", "kelvin", "kelvins"], "kelvin", Dimension::TEMPERATURE, 0).zeroed_at(Exact::decimal(-27_315, -2)),
    si(&["mK"], "millikelvin", Dimension::TEMPERATURE, -3),
    si(&["°C", "℃", "ºC", "˚C", "degC", "C", "° C", "º C", "˚ C", "deg C", "Celsius", "celsius", "degrees C", "degrees Celsius"], "degree Celsius", Dimension::TEMPERATURE, 0)
        .zeroed_at(Exact::ZERO),
    Symbol::new(&["°F", "℉", "ºF", "˚F", "degF", "F", "° F", "º F", "˚ F", "deg F", "Fahrenheit", "fahrenheit", "degrees F", "degrees Fahrenheit"], "degree Fahrenheit", Dimension::TEMPERATURE, Exact::ratio(5, 9, 0), Basis::Fahrenheit)
        .zeroed_at(Exact::ratio(-160, 9, 0)),
    // force
    si(&["N", "newton", "newtons"], "newton", Dimension::FORCE, 0),
    si(&["daN"], "decanewton", Dimension::FORCE, 1),
    si(&["kN", "kilonewton", "kilonewtons"], "kilonewton", Dimension::FORCE, 3),
    si(&["MN"], "meganewton", Dimension::FORCE, 6),
    Symbol::new(&["kgf", "kp"], "kilogram-force", Dimension::FORCE, KILOGRAM_FORCE, Basis::StandardGravity),
    Symbol::new(&["tf"], "tonne-force", Dimension::FORCE, Exact::decimal(980_665, -2), Basis::StandardGravity),
    Symbol::new(&["lbf"], "pound-force", Dimension::FORCE, POUND_FORCE, Basis::StandardGravity),
    Symbol::new(&["lb", "lbs", "pound", "pounds"], "pound-force", Dimension::FORCE, POUND_FORCE, Basis::StandardGravity).not_for(OF_MASS),
    Symbol::new(&["ozf"], "ounce-force", Dimension::FORCE, Exact::ratio(POUND_FORCE_DIGITS, 16, -13), Basis::StandardGravity),
    Symbol::new(&["kip", "kips", "klbf"], "1000 pounds-force", Dimension::FORCE, Exact::decimal(POUND_FORCE_DIGITS, -10), Basis::StandardGravity),
    // stress
    si(&["MPa"], "megapascal", Dimension::STRESS, 6),
    si(&["GPa"], "gigapascal", Dimension::STRESS, 9),
    si(&["kPa"], "kilopascal", Dimension::STRESS, 3),
    si(&["Pa"], "pascal", Dimension::STRESS, 0),
    si(&["mPa"], "millipascal", Dimension::STRESS, -3).not_for(&[Kind::Stress]),
    Symbol::new(&["bar"], "bar", Dimension::STRESS, Exact::decimal(1, 5), Basis::AcceptedWithSi),
    Symbol::new(&["mbar"], "millibar", Dimension::STRESS, Exact::decimal(1, 2), Basis::AcceptedWithSi),
    Symbol::new(&["psi", "PSI"], "pound-force per square inch", Dimension::STRESS, PSI, Basis::StandardGravity),
    Symbol::new(&["ksi", "KSI", "kpsi"], "1000 psi", Dimension::STRESS, KSI, Basis::StandardGravity),
    Symbol::new(&["Msi", "Mpsi"], "1000000 psi", Dimension::STRESS, MSI, Basis::StandardGravity),
    Symbol::new(&["psf"], "pound-force per square foot", Dimension::STRESS, Exact::ratio(POUND_FORCE_DIGITS, 3048 * 3048, -5), Basis::StandardGravity),
    // line load
    Symbol::new(&["pli"], "pound-force per inch", Dimension::LINE_LOAD, Exact::ratio(POUND_FORCE_DIGITS, 254, -9), Basis::StandardGravity),
    // moment
    si(&["Nmm"], "newton millimetre", Dimension::ENERGY, -3),
    si(&["Nm"], "newton metre", Dimension::ENERGY, 0),
    si(&["kNmm"], "kilonewton millimetre", Dimension::ENERGY, 0),
    si(&["kNm"], "kilonewton metre", Dimension::ENERGY, 3),
    // energy
    si(&["J", "joule", "joules"], "joule", Dimension::ENERGY, 0).not_for(NO_ENERGY),
    si(&["mJ"], "millijoule", Dimension::ENERGY, -3).not_for(NO_ENERGY),
    si(&["kJ"], "kilojoule", Dimension::ENERGY, 3).not_for(NO_ENERGY),
    si(&["MJ"], "megajoule", Dimension::ENERGY, 6).not_for(NO_ENERGY),
    Symbol::new(&["Wh"], "watt hour", Dimension::ENERGY, Exact::decimal(36, 2), Basis::AcceptedWithSi).not_for(NO_ENERGY),
    Symbol::new(&["kWh"], "kilowatt hour", Dimension::ENERGY, Exact::decimal(36, 5), Basis::AcceptedWithSi).not_for(NO_ENERGY),
    Symbol::new(&["cal"], "calorie", Dimension::ENERGY, Exact::decimal(4184, -3), Basis::ThermochemicalCalorie).not_for(NO_ENERGY),
    Symbol::new(&["kcal"], "kilocalorie", Dimension::ENERGY, Exact::decimal(4184, 0), Basis::ThermochemicalCalorie).not_for(NO_ENERGY),
    // amount of substance
    si(&["mol"], "mole", Dimension::AMOUNT, 0),
    si(&["kmol"], "kilomole", Dimension::AMOUNT, 3),
    // angle
    Symbol::new(&["deg", "°", "º", "˚", "degree", "degrees"], "degree of arc", Dimension::ANGLE, Exact::ONE, Basis::AcceptedWithSi),
    Symbol::new(&["rad", "radian", "radians"], "radian", Dimension::ANGLE, Exact::decimal(DEGREES_PER_RADIAN, -16), Basis::Si),
    Symbol::new(&["mrad"], "milliradian", Dimension::ANGLE, Exact::decimal(DEGREES_PER_RADIAN, -19), Basis::Si),
    // rate
    si(&["Hz"], "hertz", Dimension::RATE, 0),
    si(&["kHz"], "kilohertz", Dimension::RATE, 3),
    // electric potential
    si(&["V", "volt", "volts"], "volt", Dimension::ELECTRIC_POTENTIAL, 0),
    si(&["mV"], "millivolt", Dimension::ELECTRIC_POTENTIAL, -3),
    si(&["µV", "μV", "uV"], "microvolt", Dimension::ELECTRIC_POTENTIAL, -6),
    si(&["kV"], "kilovolt", Dimension::ELECTRIC_POTENTIAL, 3),
    // viscosity
    Symbol::new(&["P", "poise"], "poise", Dimension::VISCOSITY, Exact::decimal(1, -1), Basis::Cgs),
    Symbol::new(&["cP", "cps", "centipoise"], "centipoise", Dimension::VISCOSITY, Exact::decimal(1, -3), Basis::Cgs),
    // speed
    imperial(&["mph"], "mile per hour", Dimension::SPEED, Exact::ratio(1_609_344, 36, -5)),
    Symbol::new(&["kph", "kmh"], "kilometre per hour", Dimension::SPEED, Exact::ratio(10, 36, 0), Basis::AcceptedWithSi),
    imperial(&["fps"], "foot per second", Dimension::SPEED, FOOT),
    // acceleration
    Symbol::new(&["g"], "standard gravity", Dimension::ACCELERATION, Exact::decimal(980_665, -5), Basis::StandardGravity)
        .only_for(&[Kind::Acceleration]),
    // plain numbers
    Symbol::new(&["%", "percent"], "per cent", Dimension::NONE, Exact::decimal(1, -2), Basis::Ratio),
    Symbol::new(&["‰"], "per mille", Dimension::NONE, Exact::decimal(1, -3), Basis::Ratio),
    Symbol::new(&["ppm"], "parts per million", Dimension::NONE, Exact::decimal(1, -6), Basis::Ratio),
];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn unit_a_spelling_stands_for_one_unit_in_each_kind() {
        for kind in Kind::ALL {
            for symbol in SYMBOLS {
                for spelling in symbol.spellings {
                    let readings = SYMBOLS
                        .iter()
                        .filter(|other| other.spellings.contains(spelling) && other.stands_in(kind))
                        .count();
                    assert!(readings <= 1, "{spelling} has {readings} readings as {kind:?}");
                }
            }
        }
    }
}
