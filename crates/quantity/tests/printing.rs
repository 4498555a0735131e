//! What is printed, in both systems.

use quantity::{
    Force, Kind, Length, Quantity, Stress, System, Temperature, Time, Volume, print, print_exact,
};

#[test]
fn unit_metric_figures_read_as_in_the_shop() {
    let cases = [
        (Kind::Length, 6.4, "6.4 mm"),
        (Kind::Length, 0.25, "0.25 mm"),
        (Kind::Length, 310.0, "310 mm"),
        (Kind::Length, 1234.5, "1234 mm"),
        (Kind::Length, 96.35, "96.3 mm"),
        (Kind::Length, 12_340.0, "12.3 m"),
        (Kind::Length, 0.005, "5 µm"),
        (Kind::Length, 0.0, "0 mm"),
        (Kind::Length, -0.0, "0 mm"),
        (Kind::Length, -650.0, "-650 mm"),
        (Kind::Area, 645.16, "645 mm²"),
        (Kind::Volume, 200.0, "200 mL"),
        (Kind::Volume, 1500.0, "1.5 L"),
        (Kind::Force, 16_580.0, "16.6 kN"),
        (Kind::Force, 999.7, "1000 N"),
        (Kind::Force, 4.0, "4 N"),
        (Kind::Stress, 24.0, "24 MPa"),
        (Kind::Stress, 17.34, "17.3 MPa"),
        (Kind::Stress, 71_000.0, "71 GPa"),
        (Kind::Stress, 0.05, "50 kPa"),
        (Kind::Stress, 0.0, "0 MPa"),
        (Kind::Toughness, 1.4, "1.4 kJ/m²"),
        (Kind::Toughness, 0.05, "50 J/m²"),
        (Kind::Temperature, 23.0, "23 °C"),
        (Kind::Temperature, 22.849, "22.8 °C"),
        (Kind::Temperature, -0.04, "0 °C"),
        (Kind::Temperature, 152.34, "152.3 °C"),
        (Kind::TemperatureDifference, 18.0, "18 K"),
        (Kind::Time, 5400.0, "90 min"),
        (Kind::Time, 9000.0, "150 min"),
        (Kind::Time, 90.0, "90 s"),
        (Kind::Time, 135_000.0, "37.5 h"),
        (Kind::Time, 604_800.0, "7 d"),
        (Kind::Time, 28_800.0, "8 h"),
        (Kind::Time, 0.0, "0 s"),
        (Kind::Mass, 3500.0, "3500 kg"),
        (Kind::Mass, 0.25, "250 g"),
        (Kind::LineLoad, 187.4, "187 N/mm"),
        (Kind::Moment, 1.51e6, "1.51 kN·m"),
        (Kind::Moment, 4e5, "400 N·m"),
        (Kind::Angle, 15.0, "15°"),
        (Kind::Rate, 1e6, "1e6 /s"),
        (Kind::Rate, 2.5e-5, "2.5e-5 /s"),
        (Kind::ActivationEnergy, 65_000.0, "65 kJ/mol"),
        (Kind::ElectricPotential, 0.9, "0.9 V"),
        (Kind::Stiffness, 45_000.0, "45 kN/mm"),
        (Kind::Viscosity, 80.0, "80 Pa·s"),
        (Kind::Energy, 12_500.0, "12.5 kJ"),
        (Kind::Speed, 4.0, "14.4 km/h"),
        (Kind::Speed, 0.25, "250 mm/s"),
        (Kind::ThermalExpansion, 21e-6, "21e-6 /K"),
        (Kind::ThermalExpansion, 0.0, "0 /K"),
        (Kind::ThermalExpansion, 0.02, "0.02 /K"),
        (Kind::ThermalExpansion, 1e6, "1e6 /K"),
        (Kind::Acceleration, 9.806_65, "9.81 m/s²"),
        (Kind::Density, 2700.0, "2700 kg/m³"),
        (Kind::SecondMoment, 3_105_000.0, "310 cm⁴"),
        (Kind::Factor, 1.1049, "1.1"),
        (Kind::Factor, 0.0, "0"),
    ];
    for (kind, value, text) in cases {
        assert_eq!(print(value, kind, System::Metric), text, "{value} as {kind:?}");
    }
}

#[test]
fn unit_imperial_figures_read_as_in_the_shop() {
    let cases = [
        (Kind::Length, 6.35, "0.25 in"),
        (Kind::Length, 310.0, "12.2 in"),
        (Kind::Length, 0.0, "0 in"),
        (Kind::Area, 645.16, "1 in²"),
        (Kind::Volume, 200.0, "6.76 fl oz"),
        (Kind::Force, 16_580.0, "3727 lbf"),
        (Kind::Stress, 24.0, "3481 psi"),
        (Kind::Stress, 150.0, "21.8 ksi"),
        (Kind::Stress, 71_000.0, "10.3 Msi"),
        (Kind::Toughness, 1.4, "7.99 in·lbf/in²"),
        (Kind::Temperature, 23.0, "73.4 °F"),
        (Kind::Temperature, 0.0, "32 °F"),
        (Kind::TemperatureDifference, 10.0, "18 °F"),
        (Kind::Time, 5400.0, "90 min"),
        (Kind::Mass, 3500.0, "7716 lb"),
        (Kind::LineLoad, 200.0, "1142 lbf/in"),
        (Kind::Moment, 1.51e6, "1114 ft·lbf"),
        (Kind::Speed, 4.4704, "10 mph"),
        (Kind::ThermalExpansion, 21.06e-6, "11.7e-6 /°F"),
        (Kind::Viscosity, 80.0, "80000 cP"),
        (Kind::Factor, 0.4, "0.4"),
    ];
    for (kind, value, text) in cases {
        assert_eq!(print(value, kind, System::Imperial), text, "{value} as {kind:?}");
    }
}

#[test]
fn unit_what_is_no_number_says_so() {
    for kind in Kind::ALL {
        for value in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY] {
            assert_eq!(print(value, kind, System::Metric), "not a number");
            assert_eq!(print(value, kind, System::Imperial), "not a number");
            assert_eq!(print_exact(value, kind), "not a number");
        }
    }
}

#[test]
fn unit_typed_quantities_read_and_print() {
    let length: Length = "1/4 in".parse().expect("a length");
    assert_eq!(length, Length::from_base(6.35));
    assert_eq!(length.mm().to_bits(), 6.35_f64.to_bits());
    assert_eq!(length.to_string(), "6.35 mm");
    assert_eq!(format!("[{length:>10}]"), "[   6.35 mm]");
    assert_eq!("24 MPa".parse::<Stress>().map(|stress| stress.mpa().to_bits()), Ok(24.0_f64.to_bits()));
    assert!("24 MPa".parse::<Force>().is_err());
    let room: Temperature = "23 °C".parse().expect("a temperature");
    assert_eq!(room.kelvin().to_bits(), 296.15_f64.to_bits());
    assert_eq!(Volume::from_base(2.0).mm3().to_bits(), 2000.0_f64.to_bits());
    assert_eq!(Time::from_base(5400.0).to_string(), "90 min");
    assert_eq!(Time::KIND, Kind::Time);
}

#[test]
fn unit_exact_text_keeps_every_digit() {
    assert_eq!(print_exact(0.1 + 0.2, Kind::Length), "0.30000000000000004 mm");
    assert_eq!(print_exact(1e300, Kind::Stress), "1e300 MPa");
    assert_eq!(print_exact(0.5, Kind::Factor), "0.5");
    assert_eq!(print_exact(-20.0, Kind::Temperature), "-20 °C");
}
