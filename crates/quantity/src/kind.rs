//! The kinds of quantity a job is made of.

use crate::dimension::Dimension;

/// What a quantity measures.
///
/// Some kinds share a dimension and are told apart all the same, because a mistake between them
/// matters: a temperature and a temperature difference, or a moment and an energy. A modulus of
/// elasticity is a [`Kind::Stress`].
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[expect(missing_docs, reason = "each variant is its own name, and `name` spells it out")]
pub enum Kind {
    Length,
    Area,
    Volume,
    Force,
    Stress,
    Toughness,
    Temperature,
    TemperatureDifference,
    Time,
    Mass,
    LineLoad,
    Moment,
    Angle,
    Rate,
    ActivationEnergy,
    ElectricPotential,
    Stiffness,
    Viscosity,
    Energy,
    Speed,
    ThermalExpansion,
    Acceleration,
    Density,
    /// Of an area, and the torsion constant of a section.
    SecondMoment,
    /// A number without a unit.
    Factor,
}

/// All that is fixed about a kind.
pub(crate) struct Facts {
    name: &'static str,
    /// The name with its article, as it stands in a sentence.
    pub(crate) phrase: &'static str,
    base_unit: &'static str,
    pub(crate) dimension: Dimension,
    /// The base unit is ten to this power of the coherent SI unit.
    pub(crate) ten: i32,
    examples: &'static [&'static str],
    /// Units that are put together from symbols, as they are usually written.
    pub(crate) composed: &'static [&'static str],
    /// The units most likely meant where one is missing.
    pub(crate) likely: [&'static str; 2],
}

impl Kind {
    /// Every kind, in the order of the reference page.
    pub const ALL: [Self; 25] = [
        Self::Length,
        Self::Area,
        Self::Volume,
        Self::Force,
        Self::Stress,
        Self::Toughness,
        Self::Temperature,
        Self::TemperatureDifference,
        Self::Time,
        Self::Mass,
        Self::LineLoad,
        Self::Moment,
        Self::Angle,
        Self::Rate,
        Self::ActivationEnergy,
        Self::ElectricPotential,
        Self::Stiffness,
        Self::Viscosity,
        Self::Energy,
        Self::Speed,
        Self::ThermalExpansion,
        Self::Acceleration,
        Self::Density,
        Self::SecondMoment,
        Self::Factor,
    ];

    /// The name in lower case, such as "temperature difference".
    pub fn name(self) -> &'static str {
        self.facts().name
    }

    /// The unit of the plain number in the interface and in JSON; empty for a factor.
    pub fn base_unit(self) -> &'static str {
        self.facts().base_unit
    }

    /// Ways in which a quantity of this kind is likely to be written.
    pub fn examples(self) -> &'static [&'static str] {
        self.facts().examples
    }

    /// One line a field, so that the table can be read as one.
    #[expect(clippy::too_many_lines, reason = "a table")]
    pub(crate) const fn facts(self) -> &'static Facts {
        match self {
            Self::Length => &Facts {
                name: "length",
                phrase: "a length",
                base_unit: "mm",
                dimension: Dimension::LENGTH,
                ten: -3,
                examples: &["6.5 mm", "1/4 in", "0.25\""],
                composed: &[],
                likely: ["mm", "in"],
            },
            Self::Area => &Facts {
                name: "area",
                phrase: "an area",
                base_unit: "mm²",
                dimension: Dimension::AREA,
                ten: -6,
                examples: &["2500 mm²", "4 in²"],
                composed: &["mm²", "cm²", "m²", "in²", "ft²"],
                likely: ["mm²", "in²"],
            },
            Self::Volume => &Facts {
                name: "volume",
                phrase: "a volume",
                base_unit: "mL",
                dimension: Dimension::VOLUME,
                ten: -6,
                examples: &["200 mL", "6.8 fl oz"],
                composed: &["mm³", "cm³", "dm³", "m³", "in³", "ft³"],
                likely: ["mL", "fl oz"],
            },
            Self::Force => &Facts {
                name: "force",
                phrase: "a force",
                base_unit: "N",
                dimension: Dimension::FORCE,
                ten: 0,
                examples: &["7.6 kN", "1700 lbf"],
                composed: &[],
                likely: ["N", "lbf"],
            },
            Self::Stress => &Facts {
                name: "stress",
                phrase: "a stress",
                base_unit: "MPa",
                dimension: Dimension::STRESS,
                ten: 6,
                examples: &["24 MPa", "3500 psi", "24 N/mm²"],
                composed: &[
                    "N/mm²", "N/cm²", "N/m²", "kN/mm²", "kN/cm²", "kN/m²", "kgf/mm²", "kgf/cm²", "lbf/in²",
                    "lbf/ft²",
                ],
                likely: ["MPa", "psi"],
            },
            Self::Toughness => &Facts {
                name: "toughness",
                phrase: "a toughness",
                base_unit: "N/mm",
                dimension: Dimension::LINE_LOAD,
                ten: 3,
                examples: &["1.4 kJ/m²", "8 lbf/in"],
                composed: &["kJ/m²", "J/m²", "mJ/mm²", "N/mm", "N/m", "lbf/in", "in·lbf/in²", "ft·lbf/ft²"],
                likely: ["kJ/m²", "lbf/in"],
            },
            Self::Temperature => &Facts {
                name: "temperature",
                phrase: "a temperature",
                base_unit: "°C",
                dimension: Dimension::TEMPERATURE,
                ten: 0,
                examples: &["23 °C", "73 °F"],
                composed: &[],
                likely: ["°C", "°F"],
            },
            Self::TemperatureDifference => &Facts {
                name: "temperature difference",
                phrase: "a temperature difference",
                base_unit: "K",
                dimension: Dimension::TEMPERATURE,
                ten: 0,
                examples: &["18 K", "-32 °F"],
                composed: &[],
                likely: ["K", "°F"],
            },
            Self::Time => &Facts {
                name: "time",
                phrase: "a time",
                base_unit: "s",
                dimension: Dimension::TIME,
                ten: 0,
                examples: &["90 min", "1 h 30 min", "7 d"],
                composed: &[],
                likely: ["min", "h"],
            },
            Self::Mass => &Facts {
                name: "mass",
                phrase: "a mass",
                base_unit: "kg",
                dimension: Dimension::MASS,
                ten: 0,
                examples: &["3500 kg", "7700 lb"],
                composed: &[],
                likely: ["kg", "lb"],
            },
            Self::LineLoad => &Facts {
                name: "line load",
                phrase: "a line load",
                base_unit: "N/mm",
                dimension: Dimension::LINE_LOAD,
                ten: 3,
                examples: &["200 N/mm", "1140 lbf/in"],
                composed: &["N/mm", "N/cm", "N/m", "kN/mm", "kN/m", "lbf/in", "lbf/ft"],
                likely: ["N/mm", "lbf/in"],
            },
            Self::Moment => &Facts {
                name: "moment",
                phrase: "a moment",
                base_unit: "N·mm",
                dimension: Dimension::ENERGY,
                ten: -3,
                examples: &["1.5 kN·m", "13 in·lbf"],
                composed: &["N·mm", "N·m", "kN·mm", "kN·m", "MN·m", "kgf·m", "in·lbf", "ft·lbf"],
                likely: ["N·m", "in·lbf"],
            },
            Self::Angle => &Facts {
                name: "angle",
                phrase: "an angle",
                base_unit: "deg",
                dimension: Dimension::ANGLE,
                ten: 0,
                examples: &["15°", "15 deg", "0.26 rad"],
                composed: &[],
                likely: ["deg", "rad"],
            },
            Self::Rate => &Facts {
                name: "rate",
                phrase: "a rate",
                base_unit: "1/s",
                dimension: Dimension::RATE,
                ten: 0,
                examples: &["1e6 /s", "0.5 /min"],
                composed: &[
                    "/s", "/min", "/h", "/d", "1/s", "1/min", "1/h", "s⁻¹", "min⁻¹", "h⁻¹", "%/min", "%/h",
                ],
                likely: ["/s", "/min"],
            },
            Self::ActivationEnergy => &Facts {
                name: "activation energy",
                phrase: "an activation energy",
                base_unit: "J/mol",
                dimension: Dimension::MOLAR_ENERGY,
                ten: 0,
                examples: &["65 kJ/mol", "15.5 kcal/mol"],
                composed: &["J/mol", "kJ/mol", "cal/mol", "kcal/mol"],
                likely: ["kJ/mol", "kcal/mol"],
            },
            Self::ElectricPotential => &Facts {
                name: "electric potential",
                phrase: "an electric potential",
                base_unit: "V",
                dimension: Dimension::ELECTRIC_POTENTIAL,
                ten: 0,
                examples: &["0.90 V", "250 mV"],
                composed: &[],
                likely: ["V", "mV"],
            },
            Self::Stiffness => &Facts {
                name: "stiffness",
                phrase: "a stiffness",
                base_unit: "N/mm",
                dimension: Dimension::LINE_LOAD,
                ten: 3,
                examples: &["45 kN/mm", "250000 lbf/in"],
                composed: &["N/mm", "N/m", "kN/mm", "kN/m", "MN/m", "lbf/in", "lbf/ft"],
                likely: ["kN/mm", "lbf/in"],
            },
            Self::Viscosity => &Facts {
                name: "viscosity",
                phrase: "a viscosity",
                base_unit: "Pa·s",
                dimension: Dimension::VISCOSITY,
                ten: 0,
                examples: &["80 Pa·s", "80000 cP"],
                composed: &["Pa·s", "mPa·s", "kPa·s", "lbf·s/in²", "lbf·s/ft²"],
                likely: ["Pa·s", "cP"],
            },
            Self::Energy => &Facts {
                name: "energy",
                phrase: "an energy",
                base_unit: "J",
                dimension: Dimension::ENERGY,
                ten: 0,
                examples: &["12 kJ", "9000 ft·lbf"],
                composed: &["N·m", "kN·m", "N·mm", "in·lbf", "ft·lbf"],
                likely: ["kJ", "ft·lbf"],
            },
            Self::Speed => &Facts {
                name: "speed",
                phrase: "a speed",
                base_unit: "m/s",
                dimension: Dimension::SPEED,
                ten: 0,
                examples: &["15 km/h", "10 mph", "4 m/s"],
                composed: &[
                    "m/s", "km/h", "mm/s", "mm/min", "m/min", "in/s", "in/min", "ft/s", "ft/min", "mi/h",
                ],
                likely: ["km/h", "mph"],
            },
            Self::ThermalExpansion => &Facts {
                name: "thermal expansion",
                phrase: "a coefficient of thermal expansion",
                base_unit: "1/K",
                dimension: Dimension::PER_TEMPERATURE,
                ten: 0,
                examples: &["21e-6 /K", "11.7e-6 /°F"],
                composed: &[
                    "/K",
                    "1/K",
                    "K⁻¹",
                    "/°C",
                    "1/°C",
                    "/°F",
                    "1/°F",
                    "ppm/K",
                    "ppm/°C",
                    "ppm/°F",
                    "µm/(m·K)",
                    "mm/(m·K)",
                    "in/(in·°F)",
                ],
                likely: ["/K", "/°F"],
            },
            Self::Acceleration => &Facts {
                name: "acceleration",
                phrase: "an acceleration",
                base_unit: "m/s²",
                dimension: Dimension::ACCELERATION,
                ten: 0,
                examples: &["9.81 m/s²", "3 g"],
                composed: &["m/s²", "mm/s²", "ft/s²", "in/s²"],
                likely: ["m/s²", "g"],
            },
            Self::Density => &Facts {
                name: "density",
                phrase: "a density",
                base_unit: "kg/m³",
                dimension: Dimension::DENSITY,
                ten: 0,
                examples: &["2700 kg/m³", "1.2 g/cm³"],
                composed: &["kg/m³", "kg/L", "g/cm³", "g/mL", "t/m³", "lb/in³", "lb/ft³"],
                likely: ["kg/m³", "g/cm³"],
            },
            Self::SecondMoment => &Facts {
                name: "second moment of area",
                phrase: "a second moment of area",
                base_unit: "mm⁴",
                dimension: Dimension::SECOND_MOMENT,
                ten: -12,
                examples: &["310 cm⁴", "7.4 in⁴"],
                composed: &["mm⁴", "cm⁴", "m⁴", "in⁴"],
                likely: ["mm⁴", "in⁴"],
            },
            Self::Factor => &Facts {
                name: "factor",
                phrase: "a plain number",
                base_unit: "",
                dimension: Dimension::NONE,
                ten: 0,
                examples: &["0.3", "30 %"],
                composed: &["mm/m", "µm/m", "in/in"],
                likely: ["", "%"],
            },
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn unit_every_example_and_likely_unit_can_be_read() {
        for kind in Kind::ALL {
            for example in kind.examples() {
                crate::parse(example, kind).unwrap_or_else(|e| panic!("{kind:?} {example}: {e}"));
            }
            for unit in kind.facts().likely.iter().chain(kind.facts().composed) {
                crate::parse(&format!("2 {unit}"), kind).unwrap_or_else(|e| panic!("{kind:?} {unit}: {e}"));
            }
        }
    }

    #[test]
    fn unit_one_base_unit_is_exactly_one() {
        for kind in Kind::ALL {
            let one = crate::parse(&format!("1 {}", kind.base_unit()), kind);
            assert_eq!(one.map(f64::to_bits), Ok(1.0_f64.to_bits()), "{kind:?}");
        }
    }

    #[test]
    fn unit_all_holds_every_kind_once() {
        for (index, kind) in Kind::ALL.into_iter().enumerate() {
            assert!(Kind::ALL[index + 1..].iter().all(|&other| other != kind), "{kind:?} twice");
        }
    }
}
