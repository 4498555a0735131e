//! What the trade writes, and the number it must give.
#![expect(clippy::float_cmp, reason = "the promise is the same double, not a near one")]

use quantity::{Kind, parse};

#[track_caller]
fn reads(text: &str, kind: Kind, value: f64) {
    match parse(text, kind) {
        Ok(read) => assert!(read == value, "{text} as {kind:?}: {read:?} is not {value:?}"),
        Err(error) => panic!("{text} as {kind:?}: {error}"),
    }
}

/// Decimal metric text is the literal itself, to the last bit.
#[test]
fn unit_metric_text_is_the_literal_in_the_base_unit() {
    let cases = [
        ("0.25 mm", Kind::Length, 0.25),
        ("6.4mm", Kind::Length, 6.4),
        ("-650 mm", Kind::Length, -650.0),
        ("0.1 m", Kind::Length, 100.0),
        ("1.2345 m", Kind::Length, 1234.5),
        ("3.3 cm", Kind::Length, 33.0),
        ("250 µm", Kind::Length, 0.25),
        ("250 μm", Kind::Length, 0.25),
        ("250 um", Kind::Length, 0.25),
        ("12.5 cm²", Kind::Area, 1250.0),
        ("4.7 m²", Kind::Area, 4.7e6),
        ("2500 sq mm", Kind::Area, 2500.0),
        ("200 mL", Kind::Volume, 200.0),
        ("200 ml", Kind::Volume, 200.0),
        ("200 cm³", Kind::Volume, 200.0),
        ("200 cc", Kind::Volume, 200.0),
        ("0.2 L", Kind::Volume, 200.0),
        ("0.3 l", Kind::Volume, 300.0),
        ("16.58 kN", Kind::Force, 16_580.0),
        ("12 daN", Kind::Force, 120.0),
        ("24 MPa", Kind::Stress, 24.0),
        ("24 N/mm²", Kind::Stress, 24.0),
        ("24 N/mm2", Kind::Stress, 24.0),
        ("24 N/mm^2", Kind::Stress, 24.0),
        ("24 N mm⁻²", Kind::Stress, 24.0),
        ("24 N·mm^-2", Kind::Stress, 24.0),
        ("71 GPa", Kind::Stress, 71_000.0),
        ("350 kPa", Kind::Stress, 0.35),
        ("7 bar", Kind::Stress, 0.7),
        ("1.4 kJ/m²", Kind::Toughness, 1.4),
        ("260 J/m²", Kind::Toughness, 0.26),
        ("1.4 N/mm", Kind::Toughness, 1.4),
        ("23 °C", Kind::Temperature, 23.0),
        ("23°C", Kind::Temperature, 23.0),
        ("23 ℃", Kind::Temperature, 23.0),
        ("23 ° C", Kind::Temperature, 23.0),
        ("23 º C", Kind::Temperature, 23.0),
        ("23 deg C", Kind::Temperature, 23.0),
        ("23 degC", Kind::Temperature, 23.0),
        ("23 C", Kind::Temperature, 23.0),
        ("-20 °C", Kind::Temperature, -20.0),
        ("\u{2212}20 °C", Kind::Temperature, -20.0),
        ("\u{2013}20 °C", Kind::Temperature, -20.0),
        ("+20 °C", Kind::Temperature, 20.0),
        ("296.15 K", Kind::Temperature, 23.0),
        ("18 K", Kind::TemperatureDifference, 18.0),
        ("18 °C", Kind::TemperatureDifference, 18.0),
        ("-5 °C", Kind::TemperatureDifference, -5.0),
        ("90 min", Kind::Time, 5400.0),
        ("8 h", Kind::Time, 28_800.0),
        ("1.5 h", Kind::Time, 5400.0),
        ("7 d", Kind::Time, 604_800.0),
        ("7 days", Kind::Time, 604_800.0),
        ("2 weeks", Kind::Time, 1_209_600.0),
        ("30 s", Kind::Time, 30.0),
        ("3.5 t", Kind::Mass, 3500.0),
        ("250 g", Kind::Mass, 0.25),
        ("200 N/mm", Kind::LineLoad, 200.0),
        ("200 kN/m", Kind::LineLoad, 200.0),
        ("1.51 kN m", Kind::Moment, 1.51e6),
        ("1.51 kN·m", Kind::Moment, 1.51e6),
        ("1.51 kN*m", Kind::Moment, 1.51e6),
        ("1.51 kN-m", Kind::Moment, 1.51e6),
        ("1.51 kNm", Kind::Moment, 1.51e6),
        ("25 Nm", Kind::Moment, 25_000.0),
        ("25 N.m", Kind::Moment, 25_000.0),
        ("25 N mm", Kind::Moment, 25.0),
    ];
    for (text, kind, value) in cases {
        reads(text, kind, value);
    }
}

#[test]
fn unit_metric_text_of_the_rarer_kinds_is_the_literal_as_well() {
    let cases = [
        ("15°", Kind::Angle, 15.0),
        ("15 deg", Kind::Angle, 15.0),
        ("-1.5 degrees", Kind::Angle, -1.5),
        ("1e6 /s", Kind::Rate, 1e6),
        ("1e6 1/s", Kind::Rate, 1e6),
        ("5 s⁻¹", Kind::Rate, 5.0),
        ("5 s^-1", Kind::Rate, 5.0),
        ("5 s-1", Kind::Rate, 5.0),
        ("3/s", Kind::Rate, 3.0),
        ("30 /min", Kind::Rate, 0.5),
        ("30 per minute", Kind::Rate, 0.5),
        ("50 Hz", Kind::Rate, 50.0),
        ("60 %/min", Kind::Rate, 0.01),
        ("65 kJ/mol", Kind::ActivationEnergy, 65_000.0),
        ("0.90 V", Kind::ElectricPotential, 0.9),
        ("250 mV", Kind::ElectricPotential, 0.25),
        ("45 kN/mm", Kind::Stiffness, 45_000.0),
        ("80 Pa·s", Kind::Viscosity, 80.0),
        ("80 Pa s", Kind::Viscosity, 80.0),
        ("850 mPa·s", Kind::Viscosity, 0.85),
        ("850 cP", Kind::Viscosity, 0.85),
        ("12.5 kJ", Kind::Energy, 12_500.0),
        ("12 N·m", Kind::Energy, 12.0),
        ("36 km/h", Kind::Speed, 10.0),
        ("250 mm/s", Kind::Speed, 0.25),
        ("21e-6 /K", Kind::ThermalExpansion, 21e-6),
        ("21e-6 1/K", Kind::ThermalExpansion, 21e-6),
        ("21E-6/K", Kind::ThermalExpansion, 21e-6),
        ("21e-6 per K", Kind::ThermalExpansion, 21e-6),
        ("21e-6 K⁻¹", Kind::ThermalExpansion, 21e-6),
        ("21e-6 /°C", Kind::ThermalExpansion, 21e-6),
        ("21×10⁻⁶ /K", Kind::ThermalExpansion, 21e-6),
        ("21 x 10^-6 /K", Kind::ThermalExpansion, 21e-6),
        ("21·10⁻⁶/K", Kind::ThermalExpansion, 21e-6),
        ("21 * 10^\u{2212}6 / K", Kind::ThermalExpansion, 21e-6),
        ("10^-5 /K", Kind::ThermalExpansion, 1e-5),
        ("21 ppm/K", Kind::ThermalExpansion, 21e-6),
        ("21 µm/(m·K)", Kind::ThermalExpansion, 21e-6),
        ("21 µm/m·K", Kind::ThermalExpansion, 21e-6),
        ("21 µm/m/K", Kind::ThermalExpansion, 21e-6),
        ("9.81 m/s²", Kind::Acceleration, 9.81),
        ("2 g", Kind::Acceleration, 19.6133),
        ("2700 kg/m³", Kind::Density, 2700.0),
        ("1.2 g/cm³", Kind::Density, 1200.0),
        ("1.2 kg/L", Kind::Density, 1200.0),
        ("310.5 cm⁴", Kind::SecondMoment, 3_105_000.0),
        ("310.5 cm^4", Kind::SecondMoment, 3_105_000.0),
        ("0.33", Kind::Factor, 0.33),
        ("40 %", Kind::Factor, 0.4),
        ("45%", Kind::Factor, 0.45),
        ("2 mm/m", Kind::Factor, 0.002),
    ];
    for (text, kind, value) in cases {
        reads(text, kind, value);
    }
}

/// Customary units are exact multiples of metric ones, and the result is the nearest double.
#[test]
fn unit_customary_text_is_the_nearest_double() {
    let cases = [
        ("1 in", Kind::Length, 25.4),
        ("1/4 in", Kind::Length, 6.35),
        ("1⁄4 in", Kind::Length, 6.35),
        ("¼ in", Kind::Length, 6.35),
        ("0.25\"", Kind::Length, 6.35),
        (".25\"", Kind::Length, 6.35),
        ("0.25″", Kind::Length, 6.35),
        ("0.25''", Kind::Length, 6.35),
        ("0.25 in.", Kind::Length, 6.35),
        ("2 1/2 in", Kind::Length, 63.5),
        ("2-1/2 in", Kind::Length, 63.5),
        ("2½ in", Kind::Length, 63.5),
        ("2 ½\"", Kind::Length, 63.5),
        ("-2 1/2 in", Kind::Length, -63.5),
        ("5/64 inch", Kind::Length, 1.984_375),
        ("10 thou", Kind::Length, 0.254),
        ("10 mils", Kind::Length, 0.254),
        ("6'", Kind::Length, 1828.8),
        ("6 ft", Kind::Length, 1828.8),
        ("6' 2\"", Kind::Length, 1879.6),
        ("6'2\"", Kind::Length, 1879.6),
        ("6'-2\"", Kind::Length, 1879.6),
        ("6'-2 1/2\"", Kind::Length, 1892.3),
        ("6ft2in", Kind::Length, 1879.6),
        ("6 ft 2 in", Kind::Length, 1879.6),
        ("6 ft-2 in", Kind::Length, 1879.6),
        ("-6' 2\"", Kind::Length, -1879.6),
        ("1 m 20 cm", Kind::Length, 1200.0),
        ("1 sq in", Kind::Area, 645.16),
        ("1 in²", Kind::Area, 645.16),
        ("1 in2", Kind::Area, 645.16),
        ("1 sq. ft", Kind::Area, 92_903.04),
        ("1 in³", Kind::Volume, 16.387_064),
        ("1 cu in", Kind::Volume, 16.387_064),
        ("1 fl oz", Kind::Volume, 29.573_529_562_5),
        ("1 fl. oz.", Kind::Volume, 29.573_529_562_5),
        ("1 US fl oz", Kind::Volume, 29.573_529_562_5),
        ("1 lbf", Kind::Force, 4.448_221_615_260_5),
        ("1 lb", Kind::Force, 4.448_221_615_260_5),
        ("2 lbs", Kind::Force, 8.896_443_230_521),
        ("7000 lb", Kind::Force, 31_137.551_306_823_5),
        ("7000 lb", Kind::Mass, 3_175.146_59),
        ("1 kip", Kind::Force, 4_448.221_615_260_5),
        ("1 kgf", Kind::Force, 9.806_65),
        ("1 kp", Kind::Force, 9.806_65),
        ("1 oz", Kind::Mass, 0.028_349_523_125),
        ("5 lb 3 oz", Kind::Mass, 2.353_010_419_375),
        ("70 °F", Kind::TemperatureDifference, 350.0 / 9.0),
        ("18 F", Kind::TemperatureDifference, 10.0),
        ("32 °F", Kind::Temperature, 0.0),
        ("50 F", Kind::Temperature, 10.0),
        ("50 degF", Kind::Temperature, 10.0),
        ("50 deg F", Kind::Temperature, 10.0),
        ("212 °F", Kind::Temperature, 100.0),
        ("-40 °F", Kind::Temperature, -40.0),
        ("1h 30min", Kind::Time, 5400.0),
        ("1 h 30 min", Kind::Time, 5400.0),
        ("1h30min", Kind::Time, 5400.0),
        ("1 d 2 h 3 min 4 s", Kind::Time, 93_784.0),
        ("1 ½ h", Kind::Time, 5400.0),
        ("11.7e-6 /°F", Kind::ThermalExpansion, 21.06e-6),
        ("11.7e-6 1/F", Kind::ThermalExpansion, 21.06e-6),
        ("11.7e-6 in/in/°F", Kind::ThermalExpansion, 21.06e-6),
        ("11.7 µin/in-°F", Kind::ThermalExpansion, 21.06e-6),
        ("60 mph", Kind::Speed, 26.8224),
        ("10 ft/s", Kind::Speed, 3.048),
        ("1 kcal/mol", Kind::ActivationEnergy, 4184.0),
        ("15 700 lbf", Kind::Force, 69_837.079_359_589_85),
        ("15\u{202f}700 lbf", Kind::Force, 69_837.079_359_589_85),
    ];
    for (text, kind, value) in cases {
        reads(text, kind, value);
    }
}

/// Customary units of stress, moment and so on are quotients that no decimal holds; they are
/// checked against the defining figures in double arithmetic. Three roundings of 1.1e-16 each
/// stay well within 1e-15.
#[test]
fn cross_customary_quotients_agree_with_their_definition() {
    let pound_force = 0.453_592_37 * 9.806_65;
    let psi = pound_force / (25.4 * 25.4);
    let cases = [
        ("3190 psi", Kind::Stress, 3190.0 * psi),
        ("3190psi", Kind::Stress, 3190.0 * psi),
        ("3190 PSI", Kind::Stress, 3190.0 * psi),
        ("3190 lbf/in²", Kind::Stress, 3190.0 * psi),
        ("3190 lb/in²", Kind::Stress, 3190.0 * psi),
        ("3190 lb/sq in", Kind::Stress, 3190.0 * psi),
        ("3.5 ksi", Kind::Stress, 3500.0 * psi),
        ("10.3 Msi", Kind::Stress, 10.3e6 * psi),
        ("144 psf", Kind::Stress, psi),
        ("144 lb/ft²", Kind::Stress, psi),
        ("8 lbf/in", Kind::Toughness, 8.0 * pound_force / 25.4),
        ("8 in·lbf/in²", Kind::Toughness, 8.0 * pound_force / 25.4),
        ("8 in-lb/in2", Kind::Toughness, 8.0 * pound_force / 25.4),
        ("1140 lb/in", Kind::LineLoad, 1140.0 * pound_force / 25.4),
        ("1140 pli", Kind::LineLoad, 1140.0 * pound_force / 25.4),
        ("13 in·lbf", Kind::Moment, 13.0 * pound_force * 25.4),
        ("13 in·lb", Kind::Moment, 13.0 * pound_force * 25.4),
        ("13 in-lb", Kind::Moment, 13.0 * pound_force * 25.4),
        ("13 lbf in", Kind::Moment, 13.0 * pound_force * 25.4),
        ("13 in.-lb.", Kind::Moment, 13.0 * pound_force * 25.4),
        ("9000 ft·lbf", Kind::Energy, 9000.0 * pound_force * 0.3048),
        ("9000 ft-lb", Kind::Energy, 9000.0 * pound_force * 0.3048),
        ("250000 lbf/in", Kind::Stiffness, 250_000.0 * pound_force / 25.4),
        ("0.098 lb/in³", Kind::Density, 0.098 * 0.453_592_37 / (0.0254 * 0.0254 * 0.0254)),
        ("0.26 rad", Kind::Angle, 0.26_f64.to_degrees()),
        ("260 mrad", Kind::Angle, 0.26_f64.to_degrees()),
        ("70 °F", Kind::Temperature, (70.0 - 32.0) / 1.8),
        ("3 mil/ft", Kind::Factor, 0.003 / 12.0),
    ];
    for (text, kind, value) in cases {
        let read = parse(text, kind).unwrap_or_else(|error| panic!("{text}: {error}"));
        assert!((read / value - 1.0).abs() < 1e-15, "{text} as {kind:?}: {read:?} is not {value:?}");
    }
}

/// Factors as printed in NIST Special Publication 811 (2008), Appendix B, to seven significant
/// figures. Known second-hand: quoted by others with the clause, or from memory; the appendix
/// itself was not at hand. The tolerance is half a unit of the last printed figure, which is at
/// most 5e-7 of the value.
#[test]
fn val_factors_of_nist_sp_811() {
    let cases = [
        ("1 psi", Kind::Stress, 6.894_757e-3),
        ("1 ksi", Kind::Stress, 6.894_757),
        ("1 lbf", Kind::Force, 4.448_222),
        ("1 kgf/cm²", Kind::Stress, 9.806_65e-2),
        ("1 lbf·in", Kind::Moment, 112.9848),
        ("1 lbf·ft", Kind::Moment, 1355.818),
        ("1 ft·lbf", Kind::Energy, 1.355_818),
        ("1 lbf/in", Kind::LineLoad, 0.175_126_8),
        ("1 psf", Kind::Stress, 4.788_026e-5),
        ("1 mph", Kind::Speed, 0.447_04),
        ("1 lb/in³", Kind::Density, 2.767_990e4),
        ("1 lb/ft³", Kind::Density, 16.018_46),
        ("1 fl oz", Kind::Volume, 29.573_53),
        ("1 US gal", Kind::Volume, 3785.412),
        ("1 oz", Kind::Mass, 2.834_952e-2),
        ("1 ozf", Kind::Force, 0.278_013_9),
    ];
    for (text, kind, printed) in cases {
        let read = parse(text, kind).unwrap_or_else(|error| panic!("{text}: {error}"));
        assert!((read / printed - 1.0).abs() < 5e-7, "{text} as {kind:?}: {read} is not {printed}");
    }
}

/// 1 psi = 6894.757 293 168 361 336 … Pa: the quotient 0.45359237 × 9.80665 / 0.0254² in exact
/// integers, done outside this program.
#[test]
fn val_pound_per_square_inch_to_the_last_figure() {
    for (text, exact) in [("1 psi", "6.894757293168361336e-3"), ("1e6 psi", "6894.757293168361336")] {
        reads(text, Kind::Stress, exact.parse().expect("a literal"));
    }
}

/// A disc of 2.5 in at 3190 psi holds about 15 700 lbf: common practice, no source; it shows that
/// the units hang together.
#[test]
fn cross_mean_stress_times_area_is_the_force() {
    let diameter = parse("2.5 in", Kind::Length).expect("a length");
    let strength = parse("3190 psi", Kind::Stress).expect("a stress");
    let force = strength * std::f64::consts::FRAC_PI_4 * diameter * diameter;
    let quoted = parse("15 700 lbf", Kind::Force).expect("a force");
    // The figure is quoted to three digits.
    assert!((force / quoted - 1.0).abs() < 5e-3, "{force} N and {quoted} N");
}

/// Numbers with more digits than a double holds are still the nearest double.
#[test]
fn unit_long_numbers_are_rounded_once() {
    let digits = "3.14159265358979323846264338327950288419716939937510";
    reads(&format!("{digits} mm"), Kind::Length, digits.parse().expect("a literal"));
    reads("100000000000000000000000 mm", Kind::Length, 1e23);
    reads("0.000000000000000000000000000000001 mm", Kind::Length, 1e-33);
}
