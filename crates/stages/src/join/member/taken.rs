//! What joints of whole sections and the cases of their members take for granted where the file is silent.

use assessment::Basis;
use job::Job;
use job::tables::{BondedStretch, Case, Method, Rivets, SectionLoad, Sleeve, Socket, TrailerKind};
use job::{Entry, Named};
use mechanics::rivet::resistance::GAMMA_M2;
use quantity::{Kind, Length};

use super::super::plates::GAMMA_M1;
use super::super::subject::{Subject, method};
use super::super::taken::{bond_lost, no_stress_free};
use super::cut_error::TOLERANCE_MM;
use super::loads::{FRICTION, GRAVITY_M_S2, KERB_FACTOR, STEEL_SPRINGS_M_S2, WITH_V_VALUE_KG};
use crate::Results;
use crate::taken::factor_of_method;

/// What a sleeve takes for granted.
pub(super) fn of_sleeve(job: &Job, subject: &Subject<'_>, sleeve: &Sleeve, results: &mut Results) {
    let name = subject.name;
    let basis = Basis::CommonPractice("an insert goes inside");
    results.assume_silent(&sleeve.side, basis, |_| format!("The insert of {name} lies inside the member."));
    let basis = Basis::CommonPractice("cut faces that touch");
    results.assume_silent(&sleeve.cut_gap, basis, |results| {
        format!("The cut faces of {name} touch: a gap of {}.", results.print(0.0, Kind::Length))
    });
    let basis = Basis::CommonPractice("a cut line has about 3 mm of tolerance");
    results.assume_silent(&sleeve.cut_tolerance, basis, |results| {
        format!("A cut of {name} may lie off by {}.", results.print(TOLERANCE_MM, Kind::Length))
    });
    bonds(name, &sleeve.bonds, results);
    rivets(subject, &sleeve.rivets, results);
    let arms = "half a width of their flat beyond the overlap, those of the insert at the middle of the gap";
    loaded(job, subject, &sleeve.member, &sleeve.loads, arms, results);
}

/// What a socket takes for granted.
pub(super) fn of_socket(job: &Job, subject: &Subject<'_>, socket: &Socket, results: &mut Results) {
    bonds(subject.name, &socket.bonds, results);
    rivets(subject, &socket.rivets, results);
    let arms = "half a width of their flat beyond the overlap";
    loaded(job, subject, &socket.member, &socket.loads, arms, results);
}

fn bonds(name: &str, bonds: &Entry<Vec<BondedStretch>>, results: &mut Results) {
    let basis = Basis::CommonPractice("flats are bonded, corners are left open");
    results.assume_silent(bonds, basis.clone(), |_| {
        format!("All four flats of {name} are bonded over their whole width, the corners open.")
    });
    for stretch in bonds.get().map_or(&[][..], Vec::as_slice) {
        let mut to_the_end = |end: &Entry<Length>, word: &str| {
            results.assume_silent(end, basis.clone(), |_| {
                format!("A bonded stretch of {name} reaches {word} its flat.")
            });
        };
        to_the_end(&stretch.from, "from the beginning of");
        to_the_end(&stretch.to, "to the end of");
    }
}

fn rivets(subject: &Subject<'_>, rivets: &Entry<Rivets>, results: &mut Results) {
    let Some(rivets) = rivets.get() else { return };
    let name = subject.name;
    if let Some(on) = rivets.on.get() {
        let basis = || Basis::CommonPractice("no rivet where no place is given");
        results.assume_silent(&on.width_faces, basis(), |_| {
            format!("No rivets sit on the top and bottom faces of {name}.")
        });
        results.assume_silent(&on.height_faces, basis(), |_| {
            format!("No rivets sit on the left and right faces of {name}.")
        });
    }
    let Ok(kind) = subject.tables.rivets.referred(&rivets.kind) else { return };
    let word = rivets.kind.get().map_or("", String::as_str);
    let basis = Basis::CommonPractice("a closed section is riveted from one side");
    results.assume_silent(&kind.kind, basis, |_| format!("The rivets {word} are taken for blind ones."));
    let unchecked = || Basis::CommonPractice("what the data sheet of the rivet is silent on is not checked");
    results.assume_silent(&kind.grip, unchecked(), |_| {
        format!("The rivets {word} are taken to grip the stack of {name}; that is not checked.")
    });
    results.assume_silent(&kind.head_diameter, unchecked(), |_| {
        format!("The heads of the rivets {word} are taken to have room on {name}; that is not checked.")
    });
}

/// What holds for every joint of sections that is loaded.
fn loaded(
    job: &Job,
    subject: &Subject<'_>,
    member: &Entry<String>,
    own: &Named<SectionLoad>,
    arms: &str,
    results: &mut Results,
) {
    let on_member = member.get().is_some();
    let any = if on_member { !job.tables.cases.items.is_empty() } else { !own.items.is_empty() };
    if !any {
        return;
    }
    no_stress_free(subject, results);
    let basis = Basis::CommonPractice("the corners hold a wall over about its own width");
    let statement =
        format!("The walls of {} are taken for clamped {arms}; free lengths are not used.", subject.name);
    results.assume(&format!("joints.{}", subject.name), statement, basis);
    if method(subject.tables) == Ok(Method::En1999) {
        factor_of_method("a plate or a section", GAMMA_M1, Some("factors.metal"), subject.tables, results);
    }
    factor_of_method("a rivet or a net section", GAMMA_M2, None, subject.tables, results);
    if let Some(head) = subject.tables.job.get() {
        bond_lost(&head.bond_lost, results);
    }
    if on_member {
        for (name, case) in job.tables.cases.iter() {
            of_case(name, case, results);
        }
        if let Ok(table) = job.tables.members.referred(member) {
            let word = member.get().map_or("", String::as_str);
            let basis = Basis::CommonPractice("a member stands upright in the vehicle");
            results.assume_silent(&table.up, basis, |_| {
                format!("Local z of the member {word} is the vehicle's z, made normal to its axis.")
            });
        }
    } else {
        for (name, load) in own.iter() {
            let given = [
                (load.axial.get().is_none(), "axial force"),
                (load.shear_y.get().is_none(), "shear along y"),
                (load.shear_z.get().is_none(), "shear along z"),
                (load.moment_y.get().is_none(), "moment about y"),
                (load.moment_z.get().is_none(), "moment about z"),
                (load.torque.get().is_none(), "torque"),
            ];
            parts_not_given(&load.key, name, &given, results);
        }
    }
}

/// The parts of a load that are not given.
fn parts_not_given(key: &str, case: &str, parts: &[(bool, &str)], results: &mut Results) {
    let absent: Vec<&str> = parts.iter().filter(|(absent, _)| *absent).map(|(_, word)| *word).collect();
    if !absent.is_empty() {
        let statement = format!("The case {case} has no {}: each is zero.", absent.join(", "));
        results.assume(key, statement, Basis::CommonPractice("what is not given does not act"));
    }
}

/// What a case on a member takes for granted.
fn of_case(name: &str, case: &Case, results: &mut Results) {
    let basis = Basis::CommonPractice("no parallel path where none is given");
    results.assume_silent(&case.share, basis, |_| {
        format!("The member takes the whole of the case {name}: 1.00.")
    });
    if let Some(table) = case.resultants.get() {
        let given = [
            (table.axial.get().is_none(), "axial force"),
            (table.shear_y.get().is_none(), "shear along y"),
            (table.shear_z.get().is_none(), "shear along z"),
            (table.moment_y.get().is_none(), "moment about y"),
            (table.moment_z.get().is_none(), "moment about z"),
            (table.torque.get().is_none(), "torque"),
        ];
        // The resultants take the place of all forces of the case.
        parts_not_given(&table.key, name, &given, results);
        return;
    }
    if case.masses.get().is_some() {
        let basis =
            Basis::Published("standard gravity, 3rd General Conference on Weights and Measures, 1901");
        results.assume_silent(&case.acceleration, basis, |results| {
            let gravity = results.print(GRAVITY_M_S2, Kind::Acceleration);
            format!("The masses of the case {name} feel {gravity} downwards.")
        });
    }
    presets(name, case, results);
}

fn presets(name: &str, case: &Case, results: &mut Results) {
    if let Some(pull) = case.pull.get() {
        let straight = || Basis::CommonPractice("a pull straight back and level");
        for (angle, word) in [(&pull.sideways, "sideways"), (&pull.upwards, "upwards")] {
            results
                .assume_silent(angle, straight(), |_| format!("The pull of the case {name} is 0° {word}."));
        }
    }
    if let Some(towing) = case.towing.get()
        && towing.trailer.get() == Some(&TrailerKind::CentreAxle)
        && towing.trailer_mass.get().is_some_and(|mass| mass.kg() > WITH_V_VALUE_KG)
    {
        let basis = Basis::Memory("UN Regulation No. 55, 2.11.4, without air suspension");
        results.assume_silent(&towing.vertical_acceleration, basis, |results| {
            let value = results.print(STEEL_SPRINGS_M_S2, Kind::Acceleration);
            format!("The coupling of the case {name} is shaken with {value}.")
        });
    }
    if let Some(braking) = case.braking.get() {
        let basis = Basis::CommonPractice("a dry road, the tyre locked or nearly so");
        results.assume_silent(&braking.friction, basis, |_| {
            format!("The tyre of the case {name} has a friction of {FRICTION:.2}.")
        });
    }
    if let Some(kerb) = case.kerb.get() {
        let basis = Basis::CommonPractice("a wheel against a kerb is pushed by its own load");
        results.assume_silent(&kerb.factor, basis, |_| {
            format!("The kerb of the case {name} pushes with {KERB_FACTOR:.2} of the wheel load.")
        });
    }
}
