//! "Cohesive to peak ≤ 40 ms at 200 elements, ≤ 12 ms at 80 graded; 10 000 runs with scatter on two cores
//! ≤ 90 s", beside the same problem in numpy and scipy, `peer_strip.py`, in the same run.
//!
//! `PYTHON` names the interpreter that has them, else `python3`; without them the peer is left out and said so.
//! `RUNS` sets how many of the 10 000 are run; the rest is taken in proportion. Wall time stands beside the
//! time of this process's processors, which others on the machine do not lengthen much.

use std::hint::black_box;
use std::num::NonZeroUsize;
use std::process::Command;
use std::time::Instant;

use mechanics::Adherend;
use mechanics::bondline::Bondline;
use mechanics::strip::progressive::{Cohesive, Control, Joint, Law, Mixing, Scatter, Walker, many};
use mechanics::strip::{Adhesive, Ends, Geometry, Mesh, Plane, Strip, Supports};

#[expect(clippy::print_stdout, reason = "a bench prints its figures")]
fn main() {
    for (elements, grading, target_ms) in [(200, 6.0, 40.0), (80, 6.0, 12.0)] {
        let joint = coupon(elements, grading);
        let mut walker = Walker::new();
        let (mut least, mut capacity, mut solutions, mut balances) = (f64::INFINITY, f64::NAN, 0, [0; 2]);
        for _ in 0..20 {
            let start = Instant::now();
            if let Ok(outcome) = walker.run(black_box(&joint), &Control::default()) {
                least = f64::min(least, start.elapsed().as_secs_f64());
                capacity = outcome.capacity.map_or(f64::NAN, |at| 100.0 * at.factor);
                solutions = outcome.effort.solutions;
                let up = outcome.steps.windows(2).take_while(|pair| pair[1].at.factor > pair[0].at.factor);
                balances = [up.count(), outcome.steps.len() - 1];
            }
        }
        println!(
            "cohesive to peak and past it, {elements} elements: {:.2} ms of at most {target_ms} ms, \
             {capacity:.2} N/mm, {solutions} solutions, the peak at balance {} of {}",
            1e3 * least,
            balances[0],
            balances[1],
        );
        match peer(elements, grading) {
            Some((seconds, theirs, steps)) => println!(
                "  numpy and scipy: {:.1} ms, {theirs:.2} N/mm, {steps} solutions: ratio {:.3}",
                1e3 * seconds,
                least / seconds
            ),
            None => println!("  no peer: PYTHON names no interpreter with numpy and scipy"),
        }
    }
    scattered();
    divan::main();
}

/// Best seconds of three, capacity, solutions.
fn peer(elements: u32, grading: f64) -> Option<(f64, f64, f64)> {
    let python = std::env::var("PYTHON").unwrap_or_else(|_| "python3".to_owned());
    let script = concat!(env!("CARGO_MANIFEST_DIR"), "/benches/peer_strip.py");
    let [elements, grading] = [elements.to_string(), grading.to_string()];
    // One thread: more do not help blocks this small.
    let output = Command::new(python)
        .env("OMP_NUM_THREADS", "1")
        .env("OPENBLAS_NUM_THREADS", "1")
        .args([script, &elements, &grading, "20", "3"])
        .output()
        .ok()?;
    let text = String::from_utf8(output.stdout).ok()?;
    let mut numbers = text.split_whitespace().filter_map(|number| number.parse().ok());
    Some((numbers.next()?, numbers.next()?, numbers.next()?))
}

#[expect(clippy::print_stdout, reason = "a bench prints its figures")]
#[expect(clippy::cast_precision_loss, reason = "counts of runs are small")]
fn scattered() {
    const ALL: usize = 10_000;
    let runs = std::env::var("RUNS").ok().and_then(|runs| runs.parse().ok()).unwrap_or(2000);
    let base = coupon(80, 6.0);
    let scatter = Scatter { strength: 0.1, toughness: 0.15, bondline: 0.1 };
    let threads = NonZeroUsize::MIN.saturating_add(1);
    let (start, before) = (Instant::now(), processor_seconds());
    let capacities = many(
        runs,
        threads,
        &Control::default(),
        |number| scatter.draw(&base, 1, number as u64),
        |outcome| outcome.capacity.map(|at| 100.0 * at.factor),
    );
    let wall = start.elapsed().as_secs_f64();
    let held: Vec<f64> = capacities.into_iter().filter_map(|answer| answer.ok().flatten()).collect();
    let mean = held.iter().sum::<f64>() / held.len() as f64;
    let square = held.iter().map(|load| (load / mean - 1.0) * (load / mean - 1.0)).sum::<f64>();
    let share = ALL as f64 / runs as f64;
    println!(
        "{ALL} runs with scatter on two threads: {:.1} s of at most 90 s, {:.1} s of processor time, \
         from {runs} runs; {} without a capacity, mean {mean:.1} N/mm, scatter {:.1} %",
        wall * share,
        (processor_seconds() - before) * share,
        runs - held.len(),
        100.0 * (square / held.len() as f64).sqrt(),
    );
}

/// User time of this process so far, where the system tells: the fourteenth field of /proc/self/stat, in hundredths.
fn processor_seconds() -> f64 {
    let stat = std::fs::read_to_string("/proc/self/stat").unwrap_or_default();
    let after_name = stat.rsplit(')').next().unwrap_or_default();
    let ticks = after_name.split_whitespace().nth(11).and_then(|ticks| ticks.parse::<f64>().ok());
    ticks.map_or(f64::NAN, |ticks| ticks / 100.0)
}

/// A lap of two plates of 1.6 mm over 12.5 mm, arms of 50 mm, on the bent joint; 100 N/mm at the factor 1.
fn coupon(elements: u32, grading: f64) -> Joint {
    let plate = Adherend {
        youngs_modulus_mpa: 70e3,
        poissons_ratio: 0.33,
        thickness_mm: 1.6,
        thermal_expansion_per_k: 23e-6,
    };
    let strip = Strip {
        upper: plate,
        lower: plate,
        adhesive: Adhesive {
            shear_modulus_mpa: 1900.0 / (2.0 * 1.38),
            peel_modulus_mpa: 1900.0 / (1.0 - 0.38 * 0.38),
        },
        bondline: Bondline::Constant(0.25),
        overlap_mm: 12.5,
        supports: Supports::Gripped { ends: Ends::Clamped, left_arm_mm: 50.0, right_arm_mm: 50.0 },
        axial_n_mm: 100.0,
        shear_flow_n_mm: 0.0,
        temperature_change_k: 0.0,
        plane: Plane::Strain,
        hold_transverse: false,
        lever_arm_includes_bondline: true,
        geometry: Geometry::SecondOrder,
        mesh: Mesh { elements, arm_elements: 8, grading },
    };
    let law = Cohesive {
        tensile_strength_mpa: 30.0,
        shear_strength_mpa: 24.0,
        mode_1_toughness_n_mm: 1.4,
        mode_2_toughness_n_mm: 2.6,
        mixing: Mixing::Power(1.0),
    };
    Joint::new(strip, Law::Cohesive(law))
}

#[divan::bench(args = [200, 80])]
fn cohesive_coupon(bencher: divan::Bencher, elements: u32) {
    let joint = coupon(elements, 6.0);
    let mut walker = Walker::new();
    bencher.bench_local(|| walker.run(black_box(&joint), &Control::default()).is_ok());
}

#[divan::bench(args = [200, 80])]
fn cohesive_held_flat(bencher: divan::Bencher, elements: u32) {
    let mut joint = coupon(elements, 6.0);
    joint.strip.hold_transverse = true;
    let mut walker = Walker::new();
    bencher.bench_local(|| walker.run(black_box(&joint), &Control::default()).is_ok());
}
