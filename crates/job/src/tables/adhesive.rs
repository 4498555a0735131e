//! `[adhesives.X]`.

use quantity::{ActivationEnergy, Length, Rate, Stress, Temperature, Time, Toughness, Volume};

use super::StressCycles;
use crate::Date;
use crate::table::{choice, table};

table! {
    /// A structural adhesive, as its maker or your own tests describe it.
    Adhesive {
        /// The class of adhesive, where no data are at hand: results are then shown for the lower and the upper values of the class, and nothing is judged.
        class: AdhesiveClass,
        /// Young's modulus in bulk.
        youngs_modulus: Stress [Positive],
        /// Poisson's ratio in bulk.
        poissons_ratio: f64 [Below(0.0, 0.5)],
        /// Shear strength.
        shear_strength: Stress [Positive],
        /// Tensile strength.
        tensile_strength: Stress [Positive],
        /// Whether the strengths are means or characteristic values.
        strengths: Strengths,
        /// Coefficient of variation of the strengths.
        scatter: f64 [Between(0.0, 0.5)],
        /// Toughness in opening, G_Ic.
        mode_1_toughness: Toughness [Positive],
        /// Toughness in shear, G_IIc.
        mode_2_toughness: Toughness [Positive],
        /// Engineering shear strain at failure, elastic plus plastic.
        shear_strain_at_failure: f64 [Between(0.001, 10.0)],
        /// Diameter of the glass beads that set the least bondline.
        standoff_beads: Length [Between(0.01, 5.0)],
        /// What a single lap of the data sheet carried, where the strengths of the adhesive itself are not at hand: strip and lap give what strengths and toughnesses go together with it.
        lap_shear: LapShear,
        /// How strength and toughness change with the bondline, as shares of the values above.
        by_bondline: Vec<AtBondline>,
        /// How strength and toughness change with the temperature, as shares of the values above.
        by_temperature: Vec<AtTemperature>,
        /// Strength when wet, as a share of the dry strength.
        wet_strength: f64 [Share],
        /// Toughness when wet, as a share of the dry toughness; without it, that of the strength.
        wet_toughness: f64 [Between(0.01, 10.0)],
        /// Stress against cycles: the range of nominal shear, at the bondline of the strengths.
        fatigue: StressCycles,
        /// Greatest lasting load in the hottest service, as a share of the shear strength.
        sustained_share: f64 [Share],
        /// Glass transition by the temperature of the cure.
        glass_transition: Vec<GlassTransition>,
        /// Below this temperature the maker promises no cure.
        least_cure_temperature: Temperature,
        /// How long a mixing nozzle may stand idle, at the reference temperature.
        nozzle_time: Time [Positive],
        /// From spreading to closing, at the reference temperature.
        open_time: Time [Positive],
        /// From first mix to last closing, by temperature.
        working_time: Vec<WorkingTime>,
        /// Strength reached after a time at a temperature.
        cure: Vec<CureRow>,
        /// How fast the adhesive cures, as a law of its own; it gives the share of cure.
        kinetics: Kinetics,
        /// Ratio of the two components by volume.
        mix_ratio: String,
        /// Content of a cartridge, both components together.
        cartridge: Volume [Between(1.0, 20_000.0)],
        /// The batch, as it stands on the cartridge.
        batch: String,
        /// The last day on which the batch may be used.
        expires: Date,
        /// Where these values come from.
        source: String,
    }
}

table! {
    /// A single lap of a data sheet, pulled until it broke. Its strength is a load over an area and not the strength of the adhesive; its width goes out.
    LapShear {
        /// Mean load at failure over the bonded area.
        strength: Stress [Positive],
        /// The material of both plates, by its name under `[materials]`.
        adherend: String,
        /// Thickness of both plates.
        thickness: Length [Between(0.1, 50.0)],
        /// Length of the overlap.
        overlap: Length [Between(1.0, 1000.0)],
        /// From the end of the overlap to the grips.
        free_length: Length [Between(0.0, 1000.0)],
        /// Thickness of the adhesive; the standoff beads where it is absent.
        bondline: Length [Between(0.01, 10.0)],
    }
}

table! {
    /// Strength and toughness at one bondline.
    AtBondline {
        /// The bondline.
        @required bondline: Length [Between(0.01, 10.0)],
        /// Strength as a share of the strength given.
        @required strength: f64 [Between(0.01, 3.0)],
        /// Toughness as a share of the toughness given.
        @required toughness: f64 [Between(0.01, 10.0)],
    }
}

table! {
    /// Strength and toughness at one temperature.
    AtTemperature {
        /// The temperature.
        @required at: Temperature,
        /// Strength as a share of the strength given.
        @required strength: f64 [Between(0.01, 3.0)],
        /// Toughness as a share of the toughness given.
        @required toughness: f64 [Between(0.01, 10.0)],
    }
}

table! {
    /// Glass transition after a cure.
    GlassTransition {
        /// The temperature of the cure.
        @required cured_at: Temperature,
        /// The glass transition temperature then reached.
        @required value: Temperature,
    }
}

table! {
    /// Working time at one temperature.
    WorkingTime {
        /// The temperature.
        @required at: Temperature,
        /// From first mix to last closing.
        @required time: Time [Positive],
    }
}

table! {
    /// Strength after a time at a temperature.
    CureRow {
        /// The temperature.
        @required at: Temperature,
        /// The time since first mix.
        @required time: Time [Positive],
        /// Strength as a share of the full strength.
        @required strength: f64 [Between(0.001, 1.0)],
    }
}

table! {
    /// The kinetics of the cure, fitted to calorimetry; valid at the temperatures of the fit.
    Kinetics {
        /// The law.
        @required model: KineticsModel,
        /// Pre-exponential factor of the rate that needs no cure before it.
        rate_1: Rate [Positive],
        /// Its activation energy.
        activation_1: ActivationEnergy [NotNegative],
        /// Pre-exponential factor of the rate that grows with the cure.
        rate_2: Rate [NotNegative],
        /// Its activation energy.
        activation_2: ActivationEnergy [NotNegative],
        /// Exponent of what has cured.
        m: f64 [Between(0.0, 5.0)],
        /// Exponent of what is left to cure.
        n: f64 [Between(0.1, 5.0)],
        /// Glass transition of the fresh mix; with the next two, the cure stalls as it gets glassy.
        tg_uncured: Temperature,
        /// Glass transition of the fully cured adhesive.
        tg_cured: Temperature,
        /// Shape of the glass transition between the two, after DiBenedetto.
        lambda: f64 [Between(0.01, 1.0)],
    }
}

choice! {
    /// A law of cure.
    KineticsModel {
        /// dα/dt = (k₁ + k₂ α^m) (1 − α)^n, each k with its activation energy.
        KamalSourour = "Kamal-Sourour",
    }
}

choice! {
    /// The class of an adhesive whose data are not at hand.
    AdhesiveClass {
        /// Two components, cured at room temperature, toughened for crash loads.
        ToughenedEpoxy = "two-part toughened epoxy",
        /// Two components, cured at room temperature, stiff and less tough.
        PlainEpoxy = "two-part epoxy",
        /// Two components on a methacrylate base.
        Methacrylate = "two-part methacrylate",
    }
}

choice! {
    /// What the strengths given are.
    Strengths {
        /// Means of tests, to be taken with `scatter`.
        Mean = "mean",
        /// Values that 95 % of all specimens exceed.
        Characteristic = "characteristic",
    }
}
