//! The bond loaded until it fails: capacity with the strengths as written, and the reserve with characteristic
//! values and the job's own factors.

pub(super) mod between;
mod lap;
mod law;
mod rivets;
pub(super) mod service;
pub(super) mod taken;
mod words;

pub(crate) use lap::hardening;
pub(super) use lap::{Ready, capped, double_lap, double_ready, ready as lap_ready, single_lap};
pub(super) use law::{Level, Strengths, law_of};
use words::reserve_factor;
pub(super) use words::{Plates, sequence};

use assessment::{Basis, Finding, Known, Lack, Measure, Next, Verdict, names};
use mechanics::strip::progressive::{Control, End, Joint, Law, Moment, Outcome, Step, Walker};

use super::subject::{Case, Subject};
use crate::Results;

/// Elements along the overlap of a strip that is loaded until it fails. Twice as many change the peak by far less
/// than half a per cent.
pub(crate) const ELEMENTS: u32 = 60;

/// What an overlap may have of length for each element, mm, and how many there may be. Sixty elements on 200 mm of a very
/// brittle layer leave its peak 4 % high; with these it meets many more within half a per cent.
const LONGEST_ELEMENT_MM: f64 = 5.0 / 3.0;
const MOST_ELEMENTS: f64 = 240.0;

/// Elements along each arm.
pub(crate) const ARM_ELEMENTS: u32 = 6;

/// By what the bond is judged.
#[derive(Clone, Copy)]
pub(super) struct Judged {
    /// Multiple of the case's load at the capacity, characteristic values.
    pub(super) characteristic: f64,
    /// Factor on the load, and where it comes from.
    pub(super) load_factor: (f64, &'static str),
    /// Partial factor on the strength.
    pub(super) gamma: f64,
}

impl Judged {
    /// Reserve factor = capacity factor at characteristic values/(γ_F γ_M).
    pub(super) fn reserve(&self) -> f64 {
        self.characteristic / (self.load_factor.0 * self.gamma)
    }
}

/// The factors of a case: on the load by the case or the method, on the strength by `[factors]`.
pub(super) fn factors(subject: &Subject<'_>, case: &Case<'_>) -> Known<((f64, &'static str), f64)> {
    let absent = || job::Absent { keys: vec!["factors.adhesive".to_owned()] };
    let gamma = subject.tables.factors.get().ok_or_else(absent).and_then(|factors| factors.adhesive.need());
    let load = case.load_factor(subject.tables);
    let gamma = gamma.copied().map_err(Lack::from);
    match (load, gamma) {
        (Ok(load), Ok(gamma)) => Ok((load, gamma)),
        (Err(Lack::Missing { keys: mut both }), Err(Lack::Missing { keys })) => {
            both.extend(keys);
            Err(Lack::Missing { keys: both })
        }
        (Err(lack), _) | (_, Err(lack)) => Err(lack),
    }
}

/// Loads a joint until it fails.
pub(super) fn load(walker: &mut Walker, joint: &Joint) -> Known<Outcome> {
    let finer = fine_enough(joint);
    let joint = finer.as_ref().unwrap_or(joint);
    let outcome = walker.run(joint, &Control::default()).map_err(|failure| super::lap::failed(&failure))?;
    let softens = matches!(joint.law, Law::Cohesive(_));
    if softens && joint.strip.temperature_change_k != 0.0 && turned_back(outcome) {
        return Err(Lack::Failed {
            what: "the temperature alone makes the bond give, and the way under load turned back at once"
                .to_owned(),
            advice: "check the coefficients of expansion and the stress-free temperature".to_owned(),
        });
    }
    Ok(outcome.clone())
}

/// The joint on more elements, where its overlap is long for those that it has.
fn fine_enough(joint: &Joint) -> Option<Joint> {
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "from 0 to 240")]
    let elements =
        (joint.strip.overlap_mm / LONGEST_ELEMENT_MM - 1e-9).ceil().clamp(0.0, MOST_ELEMENTS) as u32;
    (elements > joint.strip.mesh.elements).then(|| {
        let mut finer = joint.clone();
        finer.strip.mesh.elements = elements;
        finer
    })
}

/// Whether the load never grew, or fell without spending anything: the strip was unloaded, and its greatest load is no
/// capacity. It comes about where the temperature has made one end give and the load eases it. A bond that softens until
/// it fails spends as much again after its peak as before it; a hundredth tells the two apart.
fn turned_back(outcome: &Outcome) -> bool {
    let spent = |step: Option<&Step>| step.map_or(0.0, |step| step.spent.sum_n());
    let at_peak = spent(outcome.steps.get(outcome.peak_step));
    let backwards = outcome.capacity.is_some_and(|peak| peak.factor <= 0.0);
    backwards || outcome.end == End::PastPeak && spent(outcome.steps.last()) - at_peak <= 0.01 * at_peak
}

/// The greatest load of a way, or why there is none.
pub(crate) fn peak(outcome: &Outcome) -> Known<Moment> {
    outcome.capacity.ok_or_else(|| {
        let (what, advice) = match outcome.end {
            End::LimitReached { steps } => (
                format!("the load did not fall within the {steps} steps allowed"),
                "check the toughnesses and the geometry for extreme values",
            ),
            End::Stalled { factor, residual } => (
                format!("no balance was found beyond {factor:.3} of the load, {residual:.1e} of its work was left over"),
                "check stiffnesses, strengths and toughnesses for values that do not go together",
            ),
            _ => (
                "the load presses the bond together and nothing gives".to_owned(),
                "give the load a part that shears or opens the bond",
            ),
        };
        Lack::Failed { what: format!("{what} while the bond was loaded until it fails"), advice: advice.to_owned() }
    })
}

/// The basis of all of it.
pub(super) fn basis() -> Basis {
    Basis::Published(
        "strip of two beams on a layer that gives, loaded until it fails: bilinear law whose works of opening and shear meet the stated toughness, or elastic-plastic after Hart-Smith 1973; capacity at characteristic values over the factors of the job",
    )
}

/// Puts the reserve of the bond: the lower of the nominal and of this one.
pub(super) fn put_reserve(fill: &[&str], judged: &Known<Judged>, results: &mut Results) {
    let Ok(judged) = judged else { return };
    let dotted = names::RESERVE.fill(fill);
    let nominal = results.quantities.get(&dotted).and_then(|known| known.as_ref().ok()).map(|it| it.value);
    let lower = nominal.map_or(judged.reserve(), |nominal| f64::min(nominal, judged.reserve()));
    results.quantities.put(&names::RESERVE, fill, Ok(lower));
}

/// The finding of a bond whose capacity is known.
pub(super) fn told(
    finding: Finding,
    subject: &Subject<'_>,
    case: &Case<'_>,
    written: f64,
    judged: &Known<Judged>,
    because: String,
    next: impl FnOnce() -> Option<Next>,
) -> Finding {
    let gives = format!(
        "the bond of {} gives way at {written:.2} times the load, strengths as written",
        subject.name
    );
    let finding = Finding { because, ..finding };
    let value = Some(Measure { value: written, unit: "-", kind: None });
    match judged {
        _ if !case.is_required() => Finding {
            statement: format!("Loaded until it fails, {gives}."),
            value,
            verdict: Verdict::Note,
            ..finding
        },
        Err(lack) => {
            let because = finding.because.clone();
            let statement = format!("Loaded until it fails, {gives}; that cannot be judged.");
            let told = finding.unknown(statement, lack.clone());
            Finding { because: format!("{because} {}", told.because), value, ..told }
        }
        Ok(judged) => {
            let reserve = judged.reserve();
            let verdict = Verdict::of_reserve(reserve);
            Finding {
                statement: format!(
                    "Loaded until it fails, the bond of {} has a reserve factor of {} at 23 °C, dry.",
                    subject.name,
                    reserve_factor(reserve)
                ),
                value,
                limit: Some(Measure { value: judged.load_factor.0 * judged.gamma, unit: "-", kind: None }),
                reserve: Some(reserve),
                verdict,
                because: format!(
                    "It gives way at {written:.2} times the load with strengths as written, at {:.2} with characteristic ones; {:.2} × {:.2} is asked ({}, [factors]). {}",
                    judged.characteristic,
                    judged.load_factor.0,
                    judged.gamma,
                    judged.load_factor.1,
                    finding.because
                ),
                next: if verdict == Verdict::NotMet { next() } else { None },
                ..finding
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use mechanics::Adherend;
    use mechanics::bondline::Bondline;
    use mechanics::strip::progressive::{Cohesive, Law, Mixing};
    use mechanics::strip::{Adhesive, Ends, Geometry, Mesh, Plane, Strip, Supports};

    use super::*;

    /// "Mesh halving changes the peak by < 0.5 %", as strips are loaded here: a brittle layer over a long overlap has the
    /// shortest process zone for its length.
    #[test]
    fn cross_long_brittle_laps_have_elements_enough() {
        let plate = Adherend {
            youngs_modulus_mpa: 70e3,
            poissons_ratio: 0.33,
            thickness_mm: 3.0,
            thermal_expansion_per_k: 0.0,
        };
        let strip = |elements: u32| Strip {
            upper: plate,
            lower: plate,
            adhesive: Adhesive::isotropic(1900.0, 0.38).expect("a layer"),
            bondline: Bondline::Constant(0.25),
            overlap_mm: 200.0,
            supports: Supports::Gripped { ends: Ends::Clamped, left_arm_mm: 60.0, right_arm_mm: 60.0 },
            axial_n_mm: 100.0,
            shear_flow_n_mm: 0.0,
            temperature_change_k: 0.0,
            plane: Plane::Strain,
            hold_transverse: false,
            lever_arm_includes_bondline: true,
            geometry: Geometry::SecondOrder,
            mesh: Mesh { elements, arm_elements: ARM_ELEMENTS, ..Mesh::default() },
        };
        let law = Law::Cohesive(Cohesive {
            tensile_strength_mpa: 30.0,
            shear_strength_mpa: 24.0,
            mode_1_toughness_n_mm: 0.06,
            mode_2_toughness_n_mm: 0.12,
            mixing: Mixing::Power(1.0),
        });
        let mut walker = Walker::new();
        let mut capacity = |elements: u32| {
            let way = load(&mut walker, &Joint::new(strip(elements), law)).expect("a way");
            peak(&way).expect("a capacity").factor
        };
        let (ours, halved) = (capacity(ELEMENTS), capacity(240));
        assert!((ours / halved - 1.0).abs() < 5e-3, "{ours} against {halved}");
    }
}
