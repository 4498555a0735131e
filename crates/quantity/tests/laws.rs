//! Properties that hold for every quantity.

use proptest::prelude::*;
use proptest::sample::select;
use quantity::{Kind, Money, System, parse, print, print_exact, units};

fn kinds() -> impl Strategy<Value = Kind> {
    select(Kind::ALL.to_vec())
}

/// All but temperatures, whose unit has a zero of its own.
fn kinds_with_common_zero() -> impl Strategy<Value = Kind> {
    let kinds = Kind::ALL.into_iter().filter(|&kind| kind != Kind::Temperature);
    select(kinds.collect::<Vec<_>>())
}

/// Numbers of either sign over the magnitudes that occur, and zero.
fn numbers() -> impl Strategy<Value = f64> {
    let sized = (1.0..10.0_f64, -9..9_i32, any::<bool>()).prop_map(|(mantissa, ten, negative)| {
        let size = mantissa * 10.0_f64.powi(ten);
        if negative { -size } else { size }
    });
    prop_oneof![20 => sized, 1 => Just(0.0)]
}

/// Pieces of quantities, in any order: much nearer to the parser's edges than random letters.
fn rubble() -> impl Strategy<Value = String> {
    let pieces = [
        "1",
        "10",
        "0",
        "25.4",
        "1/4",
        "2 1/2",
        "½",
        "1e9",
        "1e999",
        "e-6",
        ".",
        ",",
        "/",
        "^",
        "-",
        "−",
        "+",
        "·",
        "*",
        "(",
        ")",
        "x 10^",
        "×10⁻⁶",
        "²",
        "⁻",
        " ",
        "\u{a0}",
        "mm",
        "in",
        "\"",
        "'",
        "ft",
        "°",
        "°C",
        "F",
        "K",
        "N",
        "kN",
        "MPa",
        "psi",
        "lb",
        "fl",
        "oz",
        "per",
        "h",
        "min",
        "mpa",
        "nan",
        "inf",
        "∞",
        "€",
        "漢",
        "\0",
    ];
    prop::collection::vec(select(pieces.to_vec()), 0..12).prop_map(|pieces| pieces.concat())
}

/// An error points into the text and explains itself.
fn check_error(text: &str, kind: Kind) -> Result<(), TestCaseError> {
    match parse(text, kind) {
        Ok(value) => prop_assert!(value.is_finite(), "{text:?} gives {value}"),
        Err(error) => {
            prop_assert!(text.get(error.span()).is_some(), "{text:?}: {:?} is no span", error.span());
            prop_assert!(!error.found().is_empty() && !error.expected().is_empty());
            prop_assert_eq!(error.kind(), kind);
        }
    }
    Ok(())
}

proptest! {
    #[test]
    fn law_no_text_panics_and_every_error_points_into_it(text in any::<String>(), kind in kinds()) {
        check_error(&text, kind)?;
        if let Err(error) = text.parse::<Money>() {
            prop_assert!(text.get(error.span()).is_some(), "{text:?}: {:?} is no span", error.span());
        }
    }

    #[test]
    fn law_no_rubble_panics_and_every_error_points_into_it(text in rubble(), kind in kinds()) {
        check_error(&text, kind)?;
        if let Err(error) = text.parse::<Money>() {
            prop_assert!(text.get(error.span()).is_some(), "{text:?}: {:?} is no span", error.span());
        }
    }

    /// Three figures are within half a unit of the third, at most 0.5 % of the value; temperatures
    /// are within half a tenth of a degree, and a temperature of more than a million degrees has
    /// three figures.
    #[test]
    fn law_printed_text_reads_back_within_its_precision(value in numbers(), kind in kinds(), imperial in any::<bool>()) {
        let system = if imperial { System::Imperial } else { System::Metric };
        let value = if kind == Kind::Temperature { value.max(-273.0) } else { value };
        let text = print(value, kind, system);
        let read = parse(&text, kind);
        let limit = match kind {
            Kind::Temperature => 0.05 + 1e-9 + if value.abs() > 5e5 { 5e-3 * value.abs() } else { 0.0 },
            _ => 5.01e-3 * value.abs(),
        };
        prop_assert!(read.as_ref().is_ok_and(|read| (read - value).abs() <= limit), "{value} as {kind:?} printed {text}, read {read:?}");
    }

    #[test]
    fn law_exact_text_reads_back_to_the_same_double(value in prop::num::f64::NORMAL | prop::num::f64::SUBNORMAL | prop::num::f64::ZERO, kind in kinds()) {
        let value = if kind == Kind::Temperature { value.max(-273.0) } else { value };
        let text = print_exact(value, kind);
        let read = parse(&text, kind);
        // A negative zero becomes zero.
        prop_assert_eq!(read.map(f64::to_bits), Ok((value + 0.0).to_bits()), "{} printed as {}", value, text);
    }

    #[test]
    fn law_decimal_metric_text_is_the_literal(digits in 0_u64..10_000_000, places in 0_i32..8) {
        let literal: f64 = format!("{digits}e-{places}").parse().expect("a literal");
        let number = print_exact(literal, Kind::Factor);
        for (unit, kind, ten) in [("mm", Kind::Length, 0), ("m", Kind::Length, 3), ("GPa", Kind::Stress, 3), ("kN", Kind::Force, 3), ("µm", Kind::Length, -3), ("J/m²", Kind::Toughness, -3), ("kN·m", Kind::Moment, 6)] {
            let shifted: f64 = format!("{digits}e{}", ten - places).parse().expect("a literal");
            let read = parse(&format!("{number} {unit}"), kind).map(f64::to_bits);
            prop_assert_eq!(read, Ok(shifted.to_bits()), "{} {}", number, unit);
        }
    }

    /// The same quantity in two units of its kind is the same number: the text is made with the
    /// size of each unit, so that two roundings of the number and two of the sizes are allowed.
    #[test]
    fn law_the_unit_does_not_matter(value in 0.001..1000.0_f64, kind in kinds_with_common_zero(), first in any::<prop::sample::Index>(), second in any::<prop::sample::Index>()) {
        let units = units(kind);
        let read = |index: prop::sample::Index| {
            let unit = index.get(&units);
            let number = value / unit.one;
            parse(&format!("{number:e} {}", unit.spellings[0]), kind)
        };
        let (a, b) = (read(first), read(second));
        let near = matches!((&a, &b), (Ok(a), Ok(b)) if (a / b - 1.0).abs() < 1e-12);
        prop_assert!(near, "{a:?} and {b:?}");
    }

    #[test]
    fn law_white_space_does_not_matter(value in numbers(), kind in kinds(), index in any::<prop::sample::Index>(), space in "[ \t\u{a0}\u{202f}]{0,3}") {
        let units = units(kind);
        let unit = index.get(&units);
        let spelling = unit.spellings[0];
        // "1" and "1/s" without a space between is eleven per second.
        prop_assume!(!spelling.starts_with('1'));
        let number = format!("{value:e}");
        let plain = parse(&format!("{number} {spelling}"), kind);
        let spaced = parse(&format!("{space}{number}{space}{spelling}{space}"), kind);
        prop_assert_eq!(plain.is_ok(), spaced.is_ok());
        if let (Ok(plain), Ok(spaced)) = (plain, spaced) {
            prop_assert_eq!(plain.to_bits(), spaced.to_bits());
        }
    }

    #[test]
    fn law_a_minus_turns_the_sign(value in 0.001..1000.0_f64, kind in kinds_with_common_zero(), index in any::<prop::sample::Index>()) {
        let units = units(kind);
        let unit = index.get(&units).spellings[0];
        let plus = parse(&format!("{value} {unit}"), kind).map(|value| (-value).to_bits());
        let minus = parse(&format!("-{value} {unit}"), kind).map(f64::to_bits);
        prop_assert_eq!(plus, minus);
    }

    #[test]
    fn law_feet_and_inches_add_up(feet in 0_u32..100, inches in 0_u32..12, sixteenths in 0_u32..16) {
        let sum = (f64::from(feet) * 12.0 + f64::from(inches) + f64::from(sixteenths) / 16.0) * 254.0 / 10.0;
        for text in [
            format!("{feet}' {inches} {sixteenths}/16\""),
            format!("{feet} ft {inches} {sixteenths}/16 in"),
            format!("{feet}'-{inches}-{sixteenths}/16\""),
        ] {
            let read = parse(&text, Kind::Length);
            // The sum is rounded twice here, the text once.
            prop_assert!(read.as_ref().is_ok_and(|read| (read - sum).abs() <= 1e-15 * sum), "{text}: {read:?} and {sum}");
        }
    }

    #[test]
    fn law_a_fahrenheit_point_and_difference_part_by_the_ice_point(degrees in -400.0..1000.0_f64) {
        let text = format!("{degrees} °F");
        let point = parse(&text, Kind::Temperature).expect("above absolute zero");
        let difference = parse(&text, Kind::TemperatureDifference).expect("a difference");
        // 32 °F is 0 °C; two roundings at up to 560.
        prop_assert!((difference - point - 160.0 / 9.0).abs() < 1e-12);
    }

    #[test]
    fn law_money_reads_back(cents in -1_000_000_000_i64..1_000_000_000, code in "[A-Z]{3}") {
        let text = format!("{}.{:02} {code}", cents.abs() / 100, cents.abs() % 100);
        let text = if cents < 0 { format!("-{text}") } else { text };
        let money: Money = text.parse().expect("an amount");
        prop_assert_eq!(money.to_string().parse::<Money>(), Ok(money));
        prop_assert_eq!(money.currency.code(), code);
    }
}
