//! Pressing a bead down to its bondline.
//!
//! Rigid faces, slow flow, gap small against width: lubrication theory. Viscosities are in
//! N s/mm², that is MPa s: 1 Pa s is 1e-6 of it.

use crate::ProcessError;
use crate::error::{finite, not_negative, positive};

/// The line force that closes a strip of a Newtonian adhesive at a given speed, N/mm.
///
/// ```text
/// F' = μ V w³ / h³
/// μ  viscosity (N s/mm²)   V  closing speed (mm/s)   w  width of the strip (mm)   h  gap (mm)
/// ```
///
/// Valid: full width, flow to both sides, length much greater than width. Doubling the width takes
/// eight times the force. Source: Reynolds 1886, lubrication theory (derived).
///
/// # Errors
///
/// Values that are not positive; a result that overflows.
pub fn strip_force_n_mm(
    viscosity_n_s_mm2: f64,
    speed_mm_s: f64,
    width_mm: f64,
    gap_mm: f64,
) -> Result<f64, ProcessError> {
    let mu = positive("viscosity", viscosity_n_s_mm2)?;
    let speed = not_negative("closing speed", speed_mm_s)?;
    let w = positive("strip width", width_mm)?;
    let h = positive("gap", gap_mm)?;
    finite("line force", mu * speed * (w / h).powi(3))
}

/// The time in which a constant line force closes a strip of a Newtonian adhesive, s.
///
/// ```text
/// t = μ w³/(2 F') · (1/h² − 1/h₀²)
/// F'  line force (N/mm)   h₀, h  gap before and after (mm)   others as in [`strip_force_n_mm`]
/// ```
///
/// Source: integrated from [`strip_force_n_mm`] (formula).
///
/// # Errors
///
/// Values that are not positive, a final gap not below the first.
pub fn strip_time_s(
    viscosity_n_s_mm2: f64,
    line_force_n_mm: f64,
    width_mm: f64,
    from_mm: f64,
    to_mm: f64,
) -> Result<f64, ProcessError> {
    let mu = positive("viscosity", viscosity_n_s_mm2)?;
    let force = positive("line force", line_force_n_mm)?;
    let w = positive("strip width", width_mm)?;
    let closing = closing(from_mm, to_mm, 2)?;
    finite("closing time", mu * w.powi(3) / (2.0 * force) * closing)
}

/// The least line force that moves a strip of a paste with a yield stress at all, N/mm.
///
/// ```text
/// F' = τ_y w² / (2 h)
/// τ_y  yield stress (MPa)   w  width (mm)   h  gap (mm)
/// ```
///
/// Valid: the paste slips nowhere and yields at both faces; a lower limit at any speed. Source:
/// equilibrium of the strip, dp/dx = 2 τ_y/h (derived).
///
/// # Errors
///
/// Values that are not positive.
pub fn yield_force_n_mm(yield_stress_mpa: f64, width_mm: f64, gap_mm: f64) -> Result<f64, ProcessError> {
    let tau = positive("yield stress", yield_stress_mpa)?;
    let w = positive("strip width", width_mm)?;
    let h = positive("gap", gap_mm)?;
    finite("line force", tau * w * w / (2.0 * h))
}

/// The gap at which a line force no longer moves a paste with a yield stress, mm: no clamp of that
/// force closes it further, whatever the time.
///
/// ```text
/// h = τ_y w² / (2 F')
/// ```
///
/// # Errors
///
/// Values that are not positive.
pub fn yield_gap_mm(yield_stress_mpa: f64, width_mm: f64, line_force_n_mm: f64) -> Result<f64, ProcessError> {
    let tau = positive("yield stress", yield_stress_mpa)?;
    let w = positive("strip width", width_mm)?;
    let force = positive("line force", line_force_n_mm)?;
    finite("gap", tau * w * w / (2.0 * force))
}

/// The speed at which a force closes a disc that is full to its edge, mm/s.
///
/// ```text
/// −dh/dt = 2 F h³ / (3 π μ R⁴)
/// F  force (N)   R  radius (mm)   μ  viscosity (N s/mm²)   h  gap (mm)
/// ```
///
/// Source: Stefan 1874 (read; a stored encyclopaedia copy prints R² for R⁴).
///
/// # Errors
///
/// Values that are not positive.
pub fn disc_speed_mm_s(
    viscosity_n_s_mm2: f64,
    force_n: f64,
    radius_mm: f64,
    gap_mm: f64,
) -> Result<f64, ProcessError> {
    let mu = positive("viscosity", viscosity_n_s_mm2)?;
    let force = positive("force", force_n)?;
    let r = positive("radius", radius_mm)?;
    let h = positive("gap", gap_mm)?;
    let speed = 2.0 * force * h.powi(3) / (3.0 * core::f64::consts::PI * mu * r.powi(4));
    finite("closing speed", speed)
}

/// The time in which a force closes a disc that is full to its edge, s.
///
/// ```text
/// t = 3 π μ R⁴/(4 F) · (1/h² − 1/h₀²)
/// ```
///
/// Symbols and source as in [`disc_speed_mm_s`].
///
/// # Errors
///
/// Values that are not positive, a final gap not below the first.
pub fn disc_time_s(
    viscosity_n_s_mm2: f64,
    force_n: f64,
    radius_mm: f64,
    from_mm: f64,
    to_mm: f64,
) -> Result<f64, ProcessError> {
    let mu = positive("viscosity", viscosity_n_s_mm2)?;
    let force = positive("force", force_n)?;
    let r = positive("radius", radius_mm)?;
    let closing = closing(from_mm, to_mm, 2)?;
    let time = 0.75 * core::f64::consts::PI * mu * r.powi(4) / force * closing;
    finite("closing time", time)
}

/// The time in which a force spreads a drop of constant volume between two discs, s.
///
/// ```text
/// t = 3 μ V²/(8 π F) · (1/h⁴ − 1/h₀⁴)
/// V  volume of the drop (mm³)   others as in [`disc_speed_mm_s`]
/// ```
///
/// Valid until the drop reaches the edge. Source: integrated from Stefan 1874 with R⁴ = (V/πh)²
/// (formula).
///
/// # Errors
///
/// Values that are not positive, a final gap not below the first.
pub fn drop_time_s(
    viscosity_n_s_mm2: f64,
    force_n: f64,
    volume_mm3: f64,
    from_mm: f64,
    to_mm: f64,
) -> Result<f64, ProcessError> {
    let mu = positive("viscosity", viscosity_n_s_mm2)?;
    let force = positive("force", force_n)?;
    let volume = positive("volume of the drop", volume_mm3)?;
    let closing = closing(from_mm, to_mm, 4)?;
    let time = 3.0 * mu * volume * volume / (8.0 * core::f64::consts::PI * force) * closing;
    finite("closing time", time)
}

/// 1/h^power − 1/h₀^power for a gap that closes from h₀ to h.
fn closing(from_mm: f64, to_mm: f64, power: i32) -> Result<f64, ProcessError> {
    positive("gap before closing", from_mm)?;
    positive("gap after closing", to_mm)?;
    positive("reduction of the gap", from_mm - to_mm)?;
    Ok(to_mm.powi(-power) - from_mm.powi(-power))
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    /// 100 Pa s.
    const MU: f64 = 1e-4;

    fn close(found: f64, expected: f64) -> bool {
        // The expected numbers are stored to at least ten digits.
        (found / expected - 1.0).abs() < 1e-10
    }

    /// SQZ-STEFAN: Stefan 1874 (read; numbers by formula).
    #[test]
    fn val_stefan_disc() -> Result<(), ProcessError> {
        let time = disc_time_s(MU, 100.0, 12.5, 1.0, 0.25)?;
        assert!(close(time, 0.862_864_193_185_673_3), "{time}");
        let speed = disc_speed_mm_s(MU, 100.0, 12.5, 0.25)?;
        assert!(close(speed, 0.135_812_218_105_084), "{speed}");
        Ok(())
    }

    /// SQZ-DROP: integrated from Stefan 1874 (numbers by formula). The volume is stored to six
    /// digits, the time follows its square.
    #[test]
    fn val_drop() -> Result<(), ProcessError> {
        let time = drop_time_s(MU, 100.0, 122.718, 1.0, 0.25)?;
        assert!((time / 0.458_396_602_63 - 1.0).abs() < 1e-5, "{time}");
        Ok(())
    }

    /// SQZ-STRIP: lubrication theory (numbers by formula); 100 N on 100 mm.
    #[test]
    fn val_strip() -> Result<(), ProcessError> {
        let time = strip_time_s(MU, 1.0, 25.0, 1.0, 0.25)?;
        assert!(close(time, 11.718_75), "{time}");
        Ok(())
    }

    #[test]
    fn unit_refusals() {
        assert!(strip_time_s(MU, 1.0, 25.0, 0.25, 0.25).is_err());
        assert!(strip_time_s(MU, 0.0, 25.0, 1.0, 0.25).is_err());
        assert!(disc_time_s(MU, f64::NAN, 12.5, 1.0, 0.25).is_err());
        assert!(strip_force_n_mm(MU, 1.0, 1e200, 1e-200).is_err());
    }

    proptest! {
        /// The closing time is the integral of the gap over its speed, summed here step by step.
        #[test]
        fn cross_strip_time_integrates_its_force(
            force in 0.1..10.0_f64, width in 5.0..60.0_f64, from in 0.5..2.0_f64, ratio in 0.2..0.9_f64,
        ) {
            let to = from * ratio;
            let steps = 2000_u32;
            let dh = (from - to) / f64::from(steps);
            let mut sum = 0.0;
            for i in 0..steps {
                let h = to + (f64::from(i) + 0.5) * dh;
                // Force at unit speed over force is the time per mm.
                sum += strip_force_n_mm(MU, 1.0, width, h)? / force * dh;
            }
            let time = strip_time_s(MU, force, width, from, to)?;
            // Midpoint rule: (dh/h)² of relative error, at most (2.4/2000)².
            prop_assert!((sum / time - 1.0).abs() < 1e-5, "{sum} {time}");
        }

        /// The force that the yield stress needs at a gap stops at that gap.
        #[test]
        fn law_yield_gap_inverts_yield_force(tau in 1e-5..1e-2_f64, width in 5.0..60.0_f64, gap in 0.1..2.0_f64) {
            let force = yield_force_n_mm(tau, width, gap)?;
            let back = yield_gap_mm(tau, width, force)?;
            prop_assert!((back / gap - 1.0).abs() < 1e-12);
        }
    }
}
