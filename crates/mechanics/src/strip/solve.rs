//! Solving the strip.

use super::answer::{Answer, Status};
use super::antiplane::Antiplane;
use super::model::{Strip, Supports};
use super::system::System;
use crate::failure::{self, Failure};

/// The error that may be left, in the energy norm and against the first step. The norm is a sum of
/// squares and keeps clear of the noise that single out-of-balance forces of short beams have.
const TOLERANCE: f64 = 1e-8;

/// The error below which no more steps are taken; between this and the tolerance they go on as long
/// as they help.
const GOAL: f64 = 1e-11;

/// More steps than a joint of moderate rotations ever took (3 to 6).
const MOST_ITERATIONS: u32 = 40;

/// Solves strips one after another in the same memory.
#[derive(Debug, Clone, Default)]
pub struct Solver {
    system: System,
    antiplane: Antiplane,
    answer: Answer,
}

impl Solver {
    /// A solver with no memory yet.
    #[must_use]
    pub fn new() -> Self {
        Self::default()
    }

    /// Solves the strip.
    ///
    /// ```text
    /// ∫ N_i δ(u_i' + w_i'²/2) + M_i δw_i'' dx + ∫ τ δδ_t + σ δδ_n dx = P δu_end
    ///
    /// δ_t = (u₂ − (t₂+h)/2 θ₂) − (u₁ + (t₁+h)/2 θ₁)        τ = (G/h) δ_t
    /// δ_n = w₁ − w₂                                        σ = (E_peel/h) δ_n
    /// N_i = E'_i t_i (u_i' + w_i'²/2 − ε_T)                M_i = (E'_i t_i³/12) w_i''
    /// ```
    ///
    /// u, w, θ = w' displacements and rotation of the midplanes (mm, –), t adherend thickness, h
    /// bondline thickness (mm), E' Young's modulus in plane strain or stress, G and E_peel moduli
    /// of the layer (MPa), ε_T free thermal strain, P axial load (N/mm). In first order the terms
    /// w'²/2 are absent. After Goland and Reissner 1944, with the lever arm and the unequal members
    /// of Delale, Erdogan and Aydinoglu 1981 (both from memory).
    ///
    /// Linear materials, moderate rotations, stresses constant through the layer: at the free face
    /// of a real bondline the shear falls to zero, so that the peaks here compare with those of the
    /// solid about half a bondline inside.
    ///
    /// # Errors
    ///
    /// A [`Failure`] that names an argument out of range; [`Failure::Buckled`] when the joint is
    /// not stable under compression; [`Failure::NotConverged`], [`Failure::NoStiffness`] and
    /// [`Failure::NoNumber`] when the numbers did not hold.
    pub fn solve(&mut self, strip: &Strip) -> Result<&Answer, Failure> {
        strip.check()?;
        self.system.prepare(strip);
        self.antiplane.solve(&self.system, strip.shear_flow_n_mm).map_err(|bad| Failure::NoStiffness {
            x_mm: self.system.position_mm(bad.row),
            pivot: bad.value,
        })?;
        // Where something else moves the ends too, the load's own part is wanted for the stiffness.
        let mut unloaded_mm = 0.0;
        let alone = strip.temperature_change_k == 0.0 && matches!(strip.supports, Supports::Gripped { .. });
        if !alone && strip.axial_n_mm != 0.0 {
            balance(&mut self.system, 0.0)?;
            unloaded_mm = self.system.end_displacement_mm();
            self.system.rest();
        }
        let status = balance(&mut self.system, strip.axial_n_mm)?;
        self.answer.read(strip, &self.system, &self.antiplane, unloaded_mm, status)?;
        Ok(&self.answer)
    }
}

/// Finds the displacements under the axial load; those of a system at rest are zero.
fn balance(system: &mut System, axial_n_mm: f64) -> Result<Status, Failure> {
    system
        .stiffen()
        .map_err(|bad| Failure::NoStiffness { x_mm: system.position_mm(bad.row), pivot: bad.value })?;
    system.weigh(axial_n_mm);
    let first = failure::number("strain energy", system.correct())?;
    let share = |energy: f64| if first > 0.0 { libm::sqrt(energy / first) } else { 0.0 };
    let mut correction = 1.0;
    let mut residual = 1.0;
    for iterations in 2..=MOST_ITERATIONS {
        // In first order the stiffness stays. Solving again for what is out of balance wins back
        // the digits that short beams between long ones cost the elimination: the forces on the
        // elements, taken from differences within each, still have them.
        if system.second_order() {
            system.stiffen().map_err(|bad| Failure::Buckled {
                axial_n_mm,
                x_mm: system.position_mm(bad.row),
                pivot: bad.value,
            })?;
        }
        system.weigh(axial_n_mm);
        // The next correction would be smaller in the measure in which this one is.
        let last = std::mem::replace(&mut correction, share(system.correct()));
        failure::number("strain energy", correction)?;
        residual = if correction > 0.0 { correction * f64::min(1.0, correction / last) } else { 0.0 };
        let stalled = correction > 0.5 * last;
        if residual <= GOAL || (stalled && residual <= TOLERANCE) {
            return Ok(if system.second_order() {
                Status::Converged { iterations, residual }
            } else {
                Status::Linear
            });
        }
    }
    Err(Failure::NotConverged {
        what: "the balance of the strip",
        iterations: MOST_ITERATIONS,
        residual,
        tolerance: TOLERANCE,
    })
}

/// Solves one strip in memory of its own; see [`Solver::solve`].
///
/// # Errors
///
/// As [`Solver::solve`].
pub fn solve(strip: &Strip) -> Result<Answer, Failure> {
    let mut solver = Solver::new();
    solver.solve(strip)?;
    Ok(solver.answer)
}
