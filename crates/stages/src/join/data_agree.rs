//! Whether the shear data of an adhesive agree with each other.

use assessment::{Basis, Finding, Measure, Verdict};
use quantity::Kind;

use super::subject::Subject;
use crate::Results;

/// How far the two may lie apart.
const TOLERANCE: f64 = 0.20;

/// Holds the work under the shear curve against the toughness in shear.
///
/// ```text
/// S h (γ_f − γ_e/2)  against  G_IIc          γ_e = S/G,  G = E/(2(1 + ν))
/// S  shear strength (MPa)   γ_f  shear strain at failure   h  standoff beads, or else the bondline (mm)
/// ```
///
/// An elastic-plastic curve of these data encloses that work; it is the toughness that the bond can show.
/// Where one of them is absent nothing contradicts and nothing is said.
pub(super) fn find(subject: &Subject<'_>, results: &mut Results) {
    let Ok(adhesive) = subject.adhesive() else { return };
    let (Some(strength), Some(strain), Some(toughness), Some(modulus), Some(ratio)) = (
        adhesive.shear_strength.get(),
        adhesive.shear_strain_at_failure.get(),
        adhesive.mode_2_toughness.get(),
        adhesive.youngs_modulus.get(),
        adhesive.poissons_ratio.get(),
    ) else {
        return;
    };
    let Some(thickness) =
        adhesive.standoff_beads.get().map(|beads| beads.mm()).or_else(|| subject.bondline_mm.clone().ok())
    else {
        return;
    };
    let elastic = strength.mpa() * 2.0 * (1.0 + ratio) / modulus.mpa();
    let work = strength.mpa() * thickness * (strain - elastic / 2.0);
    let agree = (work - toughness.n_per_mm()).abs() <= TOLERANCE * toughness.n_per_mm();
    let print = |value: f64| results.print(value, Kind::Toughness);
    results.findings.push(Finding {
        statement: format!(
            "The adhesive's shear curve encloses {}, its toughness in shear is {}.",
            print(work),
            print(toughness.n_per_mm())
        ),
        value: Some(Measure::of(work, Kind::Toughness)),
        limit: Some(Measure::of(toughness.n_per_mm(), Kind::Toughness)),
        verdict: if agree { Verdict::Note } else { Verdict::NotMet },
        because: format!(
            "Shear strength × {} × (strain at failure − half the elastic strain) should come within {:.0} % of the toughness.",
            results.print(thickness, Kind::Length),
            TOLERANCE * 100.0
        ),
        next: (!agree).then(|| format!("Check {}, {} and {} against their source.", adhesive.shear_strength.key, adhesive.shear_strain_at_failure.key, adhesive.mode_2_toughness.key).into()),
        place: adhesive.mode_2_toughness.place().cloned(),
        ..subject.finding("adhesive_data", Basis::CommonPractice("the work under the shear curve is the toughness in shear"))
    });
}
