//! What the joints take for granted where the file is silent.

use assessment::Basis;
use job::tables::{Disc, DiscLoad, Lap, Load, LoadKind, Method, PlateRivets, Tube, TubeLoad};
use job::{Entry, Named};
use mechanics::rivet::resistance::GAMMA_M2;
use quantity::{Kind, Length, TemperatureDifference};

use super::condition::service;
use super::ends::{Ends, range};
use super::lap::temperature_change_k;
use super::nominal::GAMMA_MA;
use super::plates::GAMMA_M1;
use super::subject::{Case, Subject, method};
use crate::Results;
use crate::taken::factor_of_method;

const NOTHING_GIVEN: &str = "what is not given does not act";

/// What every form takes for granted: of its cases, its adhesive, its service.
pub(super) fn of_subject(subject: &Subject<'_>, cases: &[&Case<'_>], results: &mut Results) {
    for case in cases {
        of_case(subject, case, results);
    }
    if cases.is_empty() {
        return;
    }
    if method(subject.tables) == Ok(Method::En1999) {
        factor_of_method("a bond", GAMMA_MA, Some("factors.adhesive"), subject.tables, results);
    }
    of_adhesive(subject, results);
    let service = subject.tables.job.get().and_then(|head| head.service.get());
    if let Some(service) = service.filter(|_| cases.iter().any(|case| case.is_required())) {
        let basis = Basis::CommonPractice("a bond is judged wet only where the job says that it gets wet");
        results.assume_silent(&service.humid, basis, |_| {
            "The part is taken to serve dry; its bonds are not judged wet.".to_owned()
        });
    }
}

fn of_case(subject: &Subject<'_>, case: &Case<'_>, results: &mut Results) {
    if case.kind.is_none() {
        let key = case.factor.key.strip_suffix("factor").unwrap_or_default();
        let statement = format!("The case {} is taken for a limit load, the severer reading.", case.name);
        results.assume(
            &format!("{key}kind"),
            statement,
            Basis::CommonPractice("a load of unknown standing takes the factor"),
        );
    }
    if case.factor.get().is_none()
        && let Ok((factor, why)) = case.load_factor(subject.tables)
    {
        let statement = format!("The loads of the case {} are multiplied by {factor:.2}: {why}.", case.name);
        let basis = match case.kind {
            Some(LoadKind::Ultimate | LoadKind::Test) => Basis::YourData("kind of the case"),
            Some(LoadKind::Limit) | None => Basis::Memory("EN 1990:2002, A1.3: 1.5 on one variable action"),
        };
        results.assume(&case.factor.key, statement, basis);
    }
}

/// A spectrum: its loads, what its cycles fall back to, the damage that is allowed.
pub(super) fn of_spectrum(subject: &Subject<'_>, case: &Case<'_>, results: &mut Results) {
    let Some(spectrum) = case.service.spectrum else { return };
    let basis =
        Basis::CommonPractice("fatigue is judged under the loads as they come, without a load factor");
    let statement =
        format!("The spectrum of the case {} is taken as it is, without a load factor.", case.name);
    results.assume(&spectrum.key, statement, basis);
    let blocks = spectrum.blocks.get().map_or(&[][..], Vec::as_slice);
    if blocks.iter().any(|block| block.least.get().is_none()) {
        let statement =
            format!("In blocks of the case {} that give no least load, it falls back to nothing.", case.name);
        results.assume(&spectrum.blocks.key, statement, Basis::CommonPractice(NOTHING_GIVEN));
    }
    if subject.tables.factors.get().is_none_or(|factors| factors.damage.get().is_none()) {
        let statement = "The whole life, a sum of damage of 1.00, may be used.".to_owned();
        results.assume(
            "factors.damage",
            statement,
            Basis::Memory("Miner 1945: failure is expected at a sum of 1"),
        );
    }
}

/// The mean of fatigue tests.
pub(super) fn of_tests(ratio: &Entry<f64>, results: &mut Results) {
    let basis =
        Basis::CommonPractice("lines of tests are mostly made with a load that falls back to nothing");
    results.assume_silent(ratio, basis, |_| {
        let line = ratio.key.trim_end_matches(".stress_ratio");
        format!("In the tests of {line} the load is taken to fall back to nothing: a stress ratio of 0.00.")
    });
}

fn of_adhesive(subject: &Subject<'_>, results: &mut Results) {
    let Ok(adhesive) = subject.adhesive() else { return };
    let name = subject.adhesive.get().map_or("", String::as_str);
    let by_class = subject.ends.filter(|ends| ends.by == Ends::BY_CLASS);
    if let (Some(class), Some(_)) = (adhesive.class.get(), by_class) {
        let range = range(*class);
        let span = |[low, high]: [f64; 2], kind| {
            format!("{} to {}", results.print(low, kind), results.print(high, kind))
        };
        let statement = format!(
            "Of the adhesive {name} the class stands for what is not given: a modulus from {}, a Poisson's ratio from {:.2} to {:.2}, characteristic strengths from {} in shear and {} in tension, toughnesses from {} in opening and {} in shear.",
            span(range.youngs_modulus_mpa, Kind::Stress),
            range.poissons_ratio[0],
            range.poissons_ratio[1],
            span(range.characteristic_shear_mpa, Kind::Stress),
            span(range.characteristic_tensile_mpa, Kind::Stress),
            span(range.mode_1_toughness_n_mm, Kind::Toughness),
            span(range.mode_2_toughness_n_mm, Kind::Toughness),
        );
        let basis = Basis::CommonPractice("ranges of data sheets of the class");
        results.assume(&adhesive.class.key, statement, basis);
    } else if adhesive.shear_strength.get().is_some() || adhesive.tensile_strength.get().is_some() {
        let basis = Basis::CommonPractice("data sheets state means where they say nothing");
        results.assume_silent(&adhesive.strengths, basis, |_| {
            format!("The strengths of the adhesive {name} are taken for means of tests.")
        });
    }
    if let Ok(bondline) = &subject.bondline_mm {
        let basis = Basis::CommonPractice("no change of strength with the bondline where no table gives one");
        results.assume_silent(&adhesive.by_bondline, basis, |results| {
            format!(
                "The adhesive {name} is taken to have its whole strength at a bondline of {}.",
                results.print(*bondline, Kind::Length)
            )
        });
        if adhesive.mode_2_toughness.get().is_some() && adhesive.shear_strain_at_failure.get().is_some() {
            let basis =
                Basis::CommonPractice("data are compared at the thickness of the beads, or else of the bond");
            results.assume_silent(&adhesive.standoff_beads, basis, |results| {
                format!(
                    "The shear data of the adhesive {name} are compared at a bondline of {}.",
                    results.print(*bondline, Kind::Length)
                )
            });
        }
    }
}

/// The bondline of a joint of flat parts, where it is that of the beads.
fn bondline(subject: &Subject<'_>, given: &Entry<Length>, results: &mut Results) {
    if let Ok(bondline) = &subject.bondline_mm {
        let basis = Basis::CommonPractice("pressed parts come to rest on the standoff beads");
        results.assume_silent(given, basis, |results| {
            format!(
                "The bondline of {} is taken for {}, the diameter of the standoff beads.",
                subject.name,
                results.print(*bondline, Kind::Length)
            )
        });
    }
}

/// A direction or moment of a load that is not given.
fn no<T>(entry: &Entry<T>, what: &str, case: &str, value: &str, results: &mut Results) {
    results.assume_silent(entry, Basis::CommonPractice(NOTHING_GIVEN), |_| {
        format!("The case {case} has no {what}: {value}.")
    });
}

/// A joint of plates.
pub(super) struct Plates<'j> {
    pub(super) bondline: &'j Entry<Length>,
    pub(super) temperature_change: &'j Entry<TemperatureDifference>,
    pub(super) rivets: &'j Entry<PlateRivets>,
    pub(super) loads: &'j Named<Load>,
}

/// What joints of plates take for granted.
pub(super) fn of_plates(subject: &Subject<'_>, plates: &Plates<'_>, results: &mut Results) {
    bondline(subject, plates.bondline, results);
    let change = temperature_change_k(plates.temperature_change, subject.tables);
    results.assume_silent(
        plates.temperature_change,
        Basis::YourData("job.service, or no change where it is silent"),
        |results| {
            let change = results.print(change, Kind::TemperatureDifference);
            format!("Service minus stress-free temperature of {} is taken for {change}.", subject.name)
        },
    );
    own_change(subject, plates.temperature_change, results);
    for (case, load) in plates.loads.iter() {
        no(&load.axial, "force along the overlap", case, "0 N", results);
        no(&load.shear, "force along the width", case, "0 N", results);
    }
    if plates.loads.items.is_empty() {
        return;
    }
    if method(subject.tables) == Ok(Method::En1999) {
        factor_of_method("a plate or a section", GAMMA_M1, Some("factors.metal"), subject.tables, results);
    }
    let head = subject.tables.job.get();
    match (plates.rivets.get(), head) {
        (Some(rivets), head) => {
            factor_of_method("a rivet or a net section", GAMMA_M2, None, subject.tables, results);
            let basis = Basis::CommonPractice("rows of equal pitch, half of it from each edge");
            let statement = format!("The rivets of a row of {} are taken for evenly spaced.", subject.name);
            results.assume(&rivets.per_row.key, statement, basis);
            if let Some(head) = head {
                bond_lost(&head.bond_lost, results);
            }
        }
        (None, Some(head)) => {
            let basis =
                Basis::CommonPractice("a joint without rivets was never meant to hold without its bond");
            results.assume_silent(&head.bond_lost, basis, |_| {
                format!("Nothing is asked of {} with its bond lost: it has no rivets.", subject.name)
            });
        }
        (None, None) => {}
    }
}

/// What the rivets alone must carry, where the job does not say.
pub(super) fn bond_lost(entry: &Entry<job::tables::BondLost>, results: &mut Results) {
    let basis = Basis::CommonPractice("rivets alone carry each limit load once");
    results.assume_silent(entry, basis, |_| {
        "With the bond lost the rivets must carry 1.00 of each limit case.".to_owned()
    });
}

/// The change of temperature that the joint itself gives, where no stress-free temperature tells that of each condition.
fn own_change(subject: &Subject<'_>, given: &Entry<TemperatureDifference>, results: &mut Results) {
    let (Some(own), Some(service)) = (given.get(), service(subject.tables)) else { return };
    let basis = Basis::YourData("temperature_change, for want of a stress-free temperature");
    let change = results.print(own.kelvin(), Kind::TemperatureDifference);
    results.assume_silent(&service.stress_free, basis, |_| {
        format!("The temperature change of {} is taken for {change} hot and cold alike.", subject.name)
    });
}

/// What a lap takes for granted beside that.
pub(super) fn of_lap(subject: &Subject<'_>, lap: &Lap, results: &mut Results) {
    let plates = Plates {
        bondline: &lap.bondline,
        temperature_change: &lap.temperature_change,
        rivets: &lap.rivets,
        loads: &lap.loads,
    };
    of_plates(subject, &plates, results);
    let name = subject.name;
    let basis = Basis::CommonPractice("plates gripped in a machine or held by the structure");
    results.assume_silent(&lap.ends, basis, |_| {
        format!("The far ends of the plates of {name} are taken for clamped.")
    });
    let model = lap.model.get();
    if model.is_none_or(|model| model.geometry.get().is_none()) {
        let statement = format!("{name} is computed on its deformed shape (second order).");
        let key = model.map_or_else(|| lap.model.key.clone(), |model| model.geometry.key.clone());
        results.assume(&key, statement, Basis::Published("Goland and Reissner 1944"));
    }
}

/// The form whose parts the file gives no thermal strain for: none is counted.
pub(super) fn no_thermal_stress(subject: &Subject<'_>, results: &mut Results) {
    let basis =
        Basis::CommonPractice("parts of like expansion; a form of joint without a change of temperature");
    let statement = format!(
        "No thermal stress between the parts of {} is counted: a temperature change of {}.",
        subject.name,
        results.print(0.0, Kind::TemperatureDifference)
    );
    results.assume(&format!("joints.{}", subject.name), statement, basis);
}

/// Joints whose parts strain each other by the stress-free temperature of the service: none is counted where the job
/// gives none.
pub(super) fn no_stress_free(subject: &Subject<'_>, results: &mut Results) {
    let Some(head) = subject.tables.job.get() else { return };
    let given = head.service.get().map(|service| &service.stress_free);
    if given.is_some_and(|given| given.get().is_some()) {
        return;
    }
    let key = given.map_or_else(|| format!("{}.stress_free", head.service.key), |given| given.key.clone());
    let basis = Basis::CommonPractice("no thermal stress where no stress-free temperature is given");
    let statement = format!(
        "No thermal stress between the parts of {} is counted: a temperature change of {}.",
        subject.name,
        results.print(0.0, Kind::TemperatureDifference)
    );
    results.assume(&key, statement, basis);
}

/// What a tube takes for granted.
pub(super) fn of_tube(subject: &Subject<'_>, tube: &Tube, results: &mut Results) {
    let loads: Vec<(&str, &TubeLoad)> = tube.loads.iter().collect();
    if loads.is_empty() {
        return;
    }
    no_thermal_stress(subject, results);
    for (case, load) in loads {
        no(&load.axial, "axial force", case, "0 N", results);
        no(&load.torque, "torque", case, "0 N·m", results);
    }
}

/// What a disc takes for granted.
pub(super) fn of_disc(subject: &Subject<'_>, disc: &Disc, results: &mut Results) {
    bondline(subject, &disc.bondline, results);
    results.assume_silent(&disc.hole, Basis::CommonPractice("a disc as it is drawn"), |_| {
        format!("The disc {} has no hole: 0 mm.", subject.name)
    });
    let loads: Vec<(&str, &DiscLoad)> = disc.loads.iter().collect();
    if loads.is_empty() {
        return;
    }
    no_thermal_stress(subject, results);
    for (case, load) in loads {
        no(&load.eccentricity, "eccentricity", case, "the pull is centred, 0 mm", results);
        no(&load.shear, "shear", case, "0 N", results);
    }
}
