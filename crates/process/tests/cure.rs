//! Cure kinetics against closed forms and against an independent integrator.
//!
//! "Kinetics against closed forms (Kamal with m = n = 1, n-th order) and a reference integrator (scipy script
//! and data stored) within 1e-5 for ramp, hold, two-step and a noisy log."
//! validation/reference/cure.toml holds the figures and says how they were made.

#![expect(clippy::unwrap_used, reason = "a reference file that cannot be read fails the test")]

use process::glass::{DiBenedetto, Stall};
use process::kamal::{KamalSourour, Parameters};
use process::temperature::{History, Sample, ZERO_CELSIUS_K};
use proptest::prelude::*;
use toml::Table;

const REFERENCE: &str =
    include_str!(concat!(env!("CARGO_MANIFEST_DIR"), "/../../validation/reference/cure.toml"));

/// The limit that is asked for.
const LIMIT: f64 = 1e-5;

fn numbers(table: &Table, key: &str) -> Vec<f64> {
    table[key].as_array().unwrap().iter().map(|value| value.as_float().unwrap()).collect()
}

fn adhesive(table: &Table) -> KamalSourour {
    let number = |key: &str| table[key].as_float().unwrap();
    let parameters = Parameters {
        rate_1_per_s: number("rate_1"),
        activation_1_j_mol: number("activation_1"),
        rate_2_per_s: number("rate_2"),
        activation_2_j_mol: number("activation_2"),
        m: number("m"),
        n: number("n"),
    };
    let stall = table.contains_key("tg_cured").then(|| {
        let [uncured, cured] = ["tg_uncured", "tg_cured"].map(|key| number(key) + ZERO_CELSIUS_K);
        let glass = DiBenedetto::new(uncured, cured, number("lambda")).unwrap();
        Stall::new(glass, number("steepness")).unwrap()
    });
    KamalSourour::new(parameters, stall).unwrap()
}

#[test]
fn val_reference_integrator() {
    let file: Table = toml::from_str(REFERENCE).unwrap();
    let cures = file["cure"].as_array().unwrap();
    let mut seen = Vec::new();
    for cure in cures {
        let cure = cure.as_table().unwrap();
        let [name, temperature] = ["adhesive", "temperature"].map(|key| cure[key].as_str().unwrap());
        let log = file["temperatures"][temperature].as_table().unwrap();
        let samples = numbers(log, "time_s").into_iter().zip(numbers(log, "celsius"));
        let history = History::sampled(samples.map(|(s, c)| Sample::celsius(s, c)).collect()).unwrap();
        let model = adhesive(file["adhesives"][name].as_table().unwrap());
        let times = numbers(cure, "time_s");
        let found = model.conversions(&history, 0.0, &times).unwrap();
        let expected = numbers(cure, "conversion");
        assert_eq!(found.len(), expected.len());
        for ((time_s, found), expected) in times.iter().zip(&found).zip(&expected) {
            assert!(
                (found - expected).abs() < LIMIT,
                "{name} on {temperature} at {time_s} s: {found} against {expected}"
            );
        }
        seen.push((name.to_owned(), temperature.to_owned()));
    }
    for temperature in ["ramp", "hold", "two_step", "noisy_log"] {
        for name in ["amine", "stalling", "order", "autocatalytic"] {
            assert!(seen.contains(&(name.to_owned(), temperature.to_owned())), "{name} on {temperature}");
        }
    }
}

fn isothermal(k1: f64, k2: f64, m: f64, n: f64) -> KamalSourour {
    let parameters = Parameters {
        rate_1_per_s: k1,
        activation_1_j_mol: 0.0,
        rate_2_per_s: k2,
        activation_2_j_mol: 0.0,
        m,
        n,
    };
    KamalSourour::new(parameters, None).unwrap()
}

proptest! {
    /// m = n = 1: α = (e^((k₁+k₂)t) − 1)/(e^((k₁+k₂)t) + k₂/k₁) (derived by partial fractions).
    #[test]
    fn val_kamal_closed_form(k1 in 1e-6..1e-3_f64, k2 in 0.0..1e-2_f64, times in 0.01..20.0_f64) {
        let t = times / (k1 + k2);
        let history = History::constant(296.15, None).unwrap();
        let found = isothermal(k1, k2, 1.0, 1.0).conversion_at(&history, 0.0, t).unwrap();
        let decay = libm::exp(-(k1 + k2) * t);
        let exact = (1.0 - decay) / (1.0 + k2 / k1 * decay);
        prop_assert!((found - exact).abs() < LIMIT, "{found} {exact}");
    }

    /// Order n: α = 1 − (1 + (n − 1) k t)^(−1/(n − 1)), and 1 − e^(−kt) at n = 1 (textbook kinetics).
    #[test]
    fn val_nth_order_closed_form(n in 1.05..3.0_f64, times in 0.01..50.0_f64, first: bool) {
        let (n, k) = (if first { 1.0 } else { n }, 1e-4);
        let history = History::constant(296.15, None).unwrap();
        let found = isothermal(k, 0.0, 0.0, n).conversion_at(&history, 0.0, times / k).unwrap();
        let exact = if first {
            -libm::expm1(-times)
        } else {
            1.0 - libm::pow(1.0 + (n - 1.0) * times, -1.0 / (n - 1.0))
        };
        prop_assert!((found - exact).abs() < LIMIT, "{found} {exact}");
    }
}
