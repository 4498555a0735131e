//! The reader of quantities, of every kind, and of amounts of money.

#![no_main]

use quantity::{Kind, Money, System, parse, print, print_exact};

libfuzzer_sys::fuzz_target!(|text: &str| {
    for kind in Kind::ALL {
        match parse(text, kind) {
            Ok(value) => read_back(value, kind),
            Err(error) => {
                assert!(text.get(error.span()).is_some(), "{error:?}");
                assert!(!error.found().is_empty() && !error.expected().is_empty(), "{error:?}");
            }
        }
    }
    match text.parse::<Money>() {
        Ok(money) => assert!(money.amount.is_finite()),
        Err(error) => assert!(text.get(error.span()).is_some(), "{error:?}"),
    }
});

/// A printed quantity reads back: exactly, or within half a unit of its third figure.
fn read_back(value: f64, kind: Kind) {
    assert!(value.is_finite());
    let exact = print_exact(value, kind);
    assert_eq!(parse(&exact, kind), Ok(value), "{exact}");
    for system in [System::Metric, System::Imperial] {
        let short = print(value, kind, system);
        match parse(&short, kind) {
            Ok(back) => {
                // Temperatures have a tenth of a degree.
                let digit = if kind == Kind::Temperature { 0.051 } else { 0.0 };
                let within = 0.005_001 * value.abs() + digit;
                assert!(
                    (back - value).abs() <= within,
                    "{value:?} {kind:?} prints as {short}, which is {back:?}"
                );
            }
            // Rounded away at the ends of the range: to absolute zero, or beyond the greatest number.
            Err(error) => assert!(
                (kind == Kind::Temperature && value < -273.0) || value.abs() > 1e300,
                "{value:?} {kind:?} prints as {short}: {error:?}"
            ),
        }
    }
}
