//! "Linear strip of 200 elements ≤ 0.2 ms in a bench." 200 elements lie in the overlap, 32 more in the arms.
//!
//! Beside it, as a peer in the same run, the textbook band Cholesky factorisation (Golub and Van
//! Loan, Matrix Computations, 4th edition, algorithm 4.3.5) with one solution, on a matrix of the
//! strip's size: no more than the strip needs at its core, without assembly, refinement and answer.

use std::hint::black_box;
use std::time::{Duration, Instant};

use mechanics::Adherend;
use mechanics::bondline::Bondline;
use mechanics::strip::{Adhesive, Ends, Geometry, Mesh, Plane, Solver, Strip, Supports};

#[expect(clippy::print_stdout, reason = "a bench prints its figures")]
fn main() {
    let strip = lap(Geometry::FirstOrder);
    let mut solver = Solver::new();
    let ours = fastest(|| {
        black_box(solver.solve(black_box(&strip)).is_ok());
    });
    let (matrix, load) = peer_equations();
    let theirs = fastest(|| {
        black_box(band_cholesky(black_box(matrix.clone()), load.clone()));
    });
    println!(
        "linear strip of 200 elements {:.1} µs, band Cholesky of its size alone {:.1} µs: ratio {:.2}",
        ours.as_secs_f64() * 1e6,
        theirs.as_secs_f64() * 1e6,
        ours.as_secs_f64() / theirs.as_secs_f64(),
    );
    divan::main();
}

fn fastest(mut work: impl FnMut()) -> Duration {
    let mut least = Duration::MAX;
    for _ in 0..200 {
        let start = Instant::now();
        work();
        least = least.min(start.elapsed());
    }
    least
}

fn lap(geometry: Geometry) -> Strip {
    let plate = Adherend {
        youngs_modulus_mpa: 70_000.0,
        poissons_ratio: 0.33,
        thickness_mm: 2.0,
        thermal_expansion_per_k: 23e-6,
    };
    Strip {
        upper: plate,
        lower: plate,
        adhesive: Adhesive { shear_modulus_mpa: 900.0, peel_modulus_mpa: 2500.0 },
        bondline: Bondline::Constant(0.2),
        overlap_mm: 25.0,
        supports: Supports::Gripped { ends: Ends::Clamped, left_arm_mm: 60.0, right_arm_mm: 60.0 },
        axial_n_mm: 200.0,
        shear_flow_n_mm: 0.0,
        temperature_change_k: 0.0,
        plane: Plane::Strain,
        hold_transverse: false,
        lever_arm_includes_bondline: true,
        geometry,
        mesh: Mesh { elements: 200, ..Mesh::default() },
    }
}

/// Half the band of the strip, and its unknowns: 4 a node of an arm, 8 of the overlap.
const HALF_BAND: usize = 13;
const UNKNOWNS: usize = 4 * 32 + 8 * 201 - 2;

/// A row of the lower band: row i from column i − 13 on.
type Row = [f64; HALF_BAND + 1];

/// A band matrix of the strip's size and a load.
fn peer_equations() -> (Vec<Row>, Vec<f64>) {
    let mut row = [-1.0; HALF_BAND + 1];
    row[HALF_BAND] = 2.0 * 13.0 + 1.0;
    (vec![row; UNKNOWNS], vec![1.0; UNKNOWNS])
}

fn band_cholesky(mut a: Vec<Row>, mut b: Vec<f64>) -> Vec<f64> {
    let n = b.len();
    let at = |i: usize, j: usize| HALF_BAND + j - i;
    for j in 0..n {
        for i in j..n.min(j + HALF_BAND + 1) {
            let mut sum = a[i][at(i, j)];
            for k in i.saturating_sub(HALF_BAND)..j {
                sum -= a[i][at(i, k)] * a[j][at(j, k)];
            }
            a[i][at(i, j)] = if i == j { sum.sqrt() } else { sum / a[j][HALF_BAND] };
        }
    }
    for i in 0..n {
        for k in i.saturating_sub(HALF_BAND)..i {
            b[i] -= a[i][at(i, k)] * b[k];
        }
        b[i] /= a[i][HALF_BAND];
    }
    for i in (0..n).rev() {
        for k in i + 1..n.min(i + HALF_BAND + 1) {
            b[i] -= a[k][at(k, i)] * b[k];
        }
        b[i] /= a[i][HALF_BAND];
    }
    b
}

#[divan::bench]
fn strip_linear_200(bencher: divan::Bencher) {
    let strip = lap(Geometry::FirstOrder);
    let mut solver = Solver::new();
    bencher.bench_local(|| solver.solve(black_box(&strip)).is_ok());
}

#[divan::bench]
fn strip_second_order_200(bencher: divan::Bencher) {
    let strip = lap(Geometry::SecondOrder);
    let mut solver = Solver::new();
    bencher.bench_local(|| solver.solve(black_box(&strip)).is_ok());
}

#[divan::bench]
fn peer_band_cholesky(bencher: divan::Bencher) {
    let (matrix, load) = peer_equations();
    bencher.bench_local(|| band_cholesky(black_box(matrix.clone()), load.clone()));
}
