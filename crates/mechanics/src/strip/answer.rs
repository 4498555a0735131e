//! What the strip answers.

use super::antiplane::Antiplane;
use super::element::{BEAM, OF_BEAM, PAIR, THREE_POINTS, TWO_POINTS, axial_force, slope_of};
use super::model::Strip;
use super::system::{System, tractions};
use crate::failure::{self, Failure};
use crate::peak::Peak;

/// How a solution was reached.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub enum Status {
    /// One linear solution: first order, or transverse freedoms held.
    #[default]
    Linear,
    /// The iteration of the second order met its tolerance.
    Converged {
        /// Linear solutions needed.
        iterations: u32,
        /// Error that is left, estimated from the last two corrections: energy norm over that of
        /// the first step.
        residual: f64,
    },
}

/// Forces and deflection of one adherend at the nodes of the overlap.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Resultants {
    /// Axial force N, N/mm, tension positive.
    pub axial_n_mm: Vec<f64>,
    /// Bending moment M = (E' t³/12) w'', N·mm/mm; zero where the transverse freedoms are held.
    pub moment_n: Vec<f64>,
    /// Transverse force on the positive face, along z (not turned with the beam), N/mm; zero where
    /// the transverse freedoms are held.
    pub shear_n_mm: Vec<f64>,
    /// Deflection w, mm, positive upward.
    pub deflection_mm: Vec<f64>,
}

/// The solution of a strip. The vectors run over the nodes of the overlap.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Answer {
    /// Nodes, mm from the left end of the overlap.
    pub x_mm: Vec<f64>,
    /// Shear τ of the adhesive along x, MPa; positive under tension.
    pub shear_mpa: Vec<f64>,
    /// Peel σ of the adhesive, MPa; opening positive.
    pub peel_mpa: Vec<f64>,
    /// Anti-plane shear of the adhesive, MPa.
    pub antiplane_shear_mpa: Vec<f64>,
    /// Bondline thickness h, mm.
    pub bondline_mm: Vec<f64>,
    /// Adherend 1.
    pub upper: Resultants,
    /// Adherend 2.
    pub lower: Resultants,
    /// Greatest magnitude of the shear.
    pub peak_shear: Peak,
    /// Greatest peel; the least compressive where the bond is only pressed.
    pub peak_peel: Peak,
    /// Greatest magnitude of the anti-plane shear.
    pub peak_antiplane_shear: Peak,
    /// M₁(0) and −M₂(L), N·mm/mm: positive where the moment opens the end of the bond.
    pub edge_moments_n: [f64; 2],
    /// Axial displacement of the right end less that of the left, mm, temperature included.
    pub end_displacement_mm: f64,
    /// Axial load per width over the displacement that it adds to the unloaded strip, N/mm per mm;
    /// none without an axial load.
    pub stiffness_n_mm2: Option<f64>,
    /// Anti-plane displacement of adherend 2's right end less that of adherend 1's left end, mm.
    pub antiplane_end_displacement_mm: f64,
    /// ∫ τ dx over the overlap, N/mm: the axial load that the bond carries.
    pub shear_integral_n_mm: f64,
    /// |∫ τ dx − P| over the greatest of |P|, ∫ |τ| dx and the forces E' t |ε_T| with which held
    /// adherends would answer the temperature; zero without any.
    pub equilibrium_error: f64,
    /// How the solution was reached.
    pub status: Status,
}

/// A greater share of the load out of balance than this is a solution lost to rounding: what a
/// healthy one leaves is of the order of 1e-10.
const MOST_OUT_OF_BALANCE: f64 = 1e-6;

impl Answer {
    /// Reads the answer off the displacements.
    pub(super) fn read(
        &mut self,
        strip: &Strip,
        system: &System,
        antiplane: &Antiplane,
        unloaded_mm: f64,
        status: Status,
    ) -> Result<(), Failure> {
        self.status = status;
        self.x_mm.clone_from(&system.x);
        self.read_nodes(system, antiplane);
        self.integrate(strip, system);

        self.end_displacement_mm = system.end_displacement_mm();
        let load = strip.axial_n_mm;
        self.stiffness_n_mm2 = if load == 0.0 {
            None
        } else {
            let added = self.end_displacement_mm - unloaded_mm;
            Some(failure::number("stiffness", load / added)?)
        };
        self.antiplane_end_displacement_mm = antiplane.overlap_displacement();
        for (arm, section) in strip.arms_mm().iter().zip(&system.sections) {
            self.antiplane_end_displacement_mm += strip.shear_flow_n_mm * arm / section.antiplane;
        }
        self.peak_shear = greatest(&self.x_mm, &self.shear_mpa, f64::abs);
        self.peak_peel = greatest(&self.x_mm, &self.peel_mpa, |peel| peel);
        self.peak_antiplane_shear = greatest(&self.x_mm, &self.antiplane_shear_mpa, f64::abs);
        self.edge_moments_n = [
            self.upper.moment_n.first().copied().unwrap_or(f64::NAN),
            -self.lower.moment_n.last().copied().unwrap_or(f64::NAN),
        ];
        self.check()
    }

    /// Stresses and deflections at the nodes, where the displacements and slopes of the elements
    /// converge faster than between them.
    fn read_nodes(&mut self, system: &System, antiplane: &Antiplane) {
        for values in [
            &mut self.shear_mpa,
            &mut self.peel_mpa,
            &mut self.antiplane_shear_mpa,
            &mut self.bondline_mm,
            &mut self.upper.deflection_mm,
            &mut self.lower.deflection_mm,
        ] {
            values.clear();
        }
        for (j, (point, h)) in system.nodes.iter().enumerate() {
            let first = system.node(j);
            let [u1, w1, turn1, u2, w2, turn2] = std::array::from_fn(|k| system.displacement[first + k]);
            let slip = (u2 - point.arms[1] * turn2) - (u1 + point.arms[0] * turn1);
            self.shear_mpa.push(point.shear * slip);
            self.peel_mpa.push(point.peel * (w1 - w2));
            self.antiplane_shear_mpa.push(point.shear * antiplane.slip(j));
            self.bondline_mm.push(*h);
            self.upper.deflection_mm.push(w1);
            self.lower.deflection_mm.push(w2);
        }
    }

    /// Forces in the adherends, from the free edge of each by equilibrium with the bond.
    ///
    /// The tractions are taken at the points at which the elements take them, so that the forces
    /// are those of the nodes exactly, without the digits that a stiff short beam would lose.
    fn integrate(&mut self, strip: &Strip, system: &System) {
        let nodes = system.x.len();
        for beam in [&mut self.upper, &mut self.lower] {
            for values in [&mut beam.axial_n_mm, &mut beam.moment_n, &mut beam.shear_n_mm] {
                values.clear();
                values.resize(nodes, 0.0);
            }
        }
        let mut magnitude = 0.0;
        let (mut axial, mut shear, mut moment) = (0.0, 0.0, 0.0);
        for j in 0..nodes - 1 {
            let sums = Sums::over(system, j);
            magnitude += sums.shear_magnitude;
            axial += sums.shear;
            shear -= sums.peel;
            moment += sums.axial_turn[1] - sums.shear_arm[1] - sums.peel_about_left;
            moment -= shear * sums.length;
            self.lower.axial_n_mm[j + 1] = axial;
            self.lower.shear_n_mm[j + 1] = shear;
            self.lower.moment_n[j + 1] = moment;
            // What this element hands over, to be summed from the other end.
            self.upper.axial_n_mm[j] = sums.shear;
            self.upper.shear_n_mm[j] = sums.peel;
            self.upper.moment_n[j] = sums.shear_arm[0] - sums.axial_turn[0] - sums.peel_about_left;
        }
        (axial, shear, moment) = (0.0, 0.0, 0.0);
        for j in (0..nodes - 1).rev() {
            axial += self.upper.axial_n_mm[j];
            moment += self.upper.moment_n[j] + shear * (system.x[j + 1] - system.x[j]);
            shear -= self.upper.shear_n_mm[j];
            self.upper.axial_n_mm[j] = axial;
            self.upper.shear_n_mm[j] = shear;
            self.upper.moment_n[j] = moment;
        }
        if strip.hold_transverse {
            // The wall takes all of it, point by point.
            for beam in [&mut self.upper, &mut self.lower] {
                beam.moment_n.fill(0.0);
                beam.shear_n_mm.fill(0.0);
            }
        }
        self.shear_integral_n_mm = axial;
        let scale = system
            .sections
            .iter()
            .map(|section| section.axial * section.thermal_strain.abs())
            .fold(f64::max(magnitude, strip.axial_n_mm.abs()), f64::max);
        self.equilibrium_error = if scale > 0.0 { (axial - strip.axial_n_mm).abs() / scale } else { 0.0 };
    }

    /// Refuses numbers that are none, and a solution lost to rounding.
    fn check(&self) -> Result<(), Failure> {
        for (what, values) in [
            ("shear stress", &self.shear_mpa),
            ("peel stress", &self.peel_mpa),
            ("anti-plane shear stress", &self.antiplane_shear_mpa),
            ("axial force", &self.upper.axial_n_mm),
            ("axial force", &self.lower.axial_n_mm),
            ("bending moment", &self.upper.moment_n),
            ("bending moment", &self.lower.moment_n),
            ("transverse force", &self.upper.shear_n_mm),
            ("transverse force", &self.lower.shear_n_mm),
            ("deflection", &self.upper.deflection_mm),
            ("deflection", &self.lower.deflection_mm),
        ] {
            for &value in values {
                failure::number(what, value)?;
            }
        }
        failure::number("end displacement", self.end_displacement_mm)?;
        failure::number("anti-plane displacement", self.antiplane_end_displacement_mm)?;
        if self.equilibrium_error <= MOST_OUT_OF_BALANCE {
            Ok(())
        } else {
            Err(Failure::NotConverged {
                what: "equilibrium of the bond with the load",
                iterations: match self.status {
                    Status::Linear => 1,
                    Status::Converged { iterations, .. } => iterations,
                },
                residual: self.equilibrium_error,
                tolerance: MOST_OUT_OF_BALANCE,
            })
        }
    }
}

/// Integrals over a bonded element.
struct Sums {
    length: f64,
    /// ∫ τ dx, ∫ |τ| dx, ∫ σ dx, ∫ σ (x − x_L) dx.
    shear: f64,
    shear_magnitude: f64,
    peel: f64,
    peel_about_left: f64,
    /// ∫ c_i τ dx.
    shear_arm: [f64; 2],
    /// ∫ N_i w_i' dx; zero in first order.
    axial_turn: [f64; 2],
}

impl Sums {
    fn over(system: &System, j: usize) -> Self {
        let l = system.x[j + 1] - system.x[j];
        let first = system.node(j);
        let d = &system.displacement[first..first + PAIR];
        let mut sums = Self {
            length: l,
            shear: 0.0,
            shear_magnitude: 0.0,
            peel: 0.0,
            peel_about_left: 0.0,
            shear_arm: [0.0; 2],
            axial_turn: [0.0; 2],
        };
        for (point, (s, weight)) in system.gauss[j].iter().zip(THREE_POINTS) {
            let (shear, peel) = tractions(point, s, l, d);
            let area = weight * l;
            sums.shear += area * shear;
            sums.shear_magnitude += area * shear.abs();
            sums.peel += area * peel;
            sums.peel_about_left += area * peel * s * l;
            for (sum, arm) in sums.shear_arm.iter_mut().zip(point.arms) {
                *sum += area * shear * arm;
            }
        }
        if system.second_order() {
            for ((sum, map), section) in sums.axial_turn.iter_mut().zip(&OF_BEAM).zip(&system.sections) {
                let beam: [f64; BEAM] = map.map(|k| d[k]);
                for (s, weight) in TWO_POINTS {
                    let axial = axial_force(section, l, &beam, s);
                    *sum += weight * l * axial * slope_of(&beam, s, l);
                }
            }
        }
        sums
    }
}

/// The entry whose `size` is greatest, with its own sign; the first of equals.
fn greatest(x_mm: &[f64], values_mpa: &[f64], size: impl Fn(f64) -> f64) -> Peak {
    let mut pairs = x_mm.iter().zip(values_mpa).map(|(&x_mm, &v)| Peak { value_mpa: v, x_mm });
    let Some(mut peak) = pairs.next() else {
        return Peak::default();
    };
    for candidate in pairs {
        if size(candidate.value_mpa) > size(peak.value_mpa) {
            peak = candidate;
        }
    }
    Peak { value_mpa: size(peak.value_mpa), ..peak }
}
