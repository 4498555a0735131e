//! What no single key shows: references that lead nowhere, values that contradict each other or physics.

mod coupons;
mod day;
mod fatigue;
mod members;

use quantity::{Length, Quantity, System};

use crate::entry::{Entry, Located, Named};
use crate::problem::{Problem, listed, nearest, shown};
use crate::tables::{Adhesive, BondDay, CureRow, Joint, Lap, Material, PlateRivets, Tables};

/// Names that a load case may not bear: `join.J.member` holds other results, and the rest are names of results
/// themselves, beside which a case of that name could not be told. Resultants are no such names: `axial` and
/// `torque` are what people call their cases.
const RESERVED_CASES: &[&str] = &[
    "bond_damage",
    "bond_lost_factor",
    "bond_lost_plastic_factor",
    "capacity_displacement",
    "capacity_factor",
    "capacity_factor_free",
    "capacity_factor_held",
    "capacity_factor_high",
    "capacity_factor_low",
    "cut_error_allowed",
    "edge_moment_left",
    "edge_moment_right",
    "efficiency",
    "failure_probability",
    "failure_probability_high",
    "failure_probability_low",
    "galvanic",
    "goland_reissner_k",
    "goland_reissner_peak_peel",
    "goland_reissner_peak_shear",
    "hart_smith_capacity",
    "hole_damage",
    "intact_elastic_factor",
    "intact_plastic_factor",
    "line_load",
    "mean_peel",
    "mean_shear",
    "member",
    "onset_factor",
    "overlap_helps_to",
    "overlap_needed",
    "parts_reserve",
    "peak_peel",
    "peak_shear",
    "peak_shear_free",
    "peak_shear_held",
    "reserve",
    "rivet_damage",
    "rivet_share",
    "spent_opening",
    "spent_plates",
    "spent_rivets",
    "spent_shear",
    "stiffness",
    "sustained_reserve",
    "tsai_oplinger_morton_peak_shear",
    "volkersen_peak_shear",
];

/// Checks a whole job.
pub(crate) fn check(tables: &Tables, problems: &mut Vec<Problem>) {
    if let Some(service) = tables.job.get().and_then(|head| head.service.get())
        && let (Some(coldest), Some(hottest)) = (service.coldest.get(), service.hottest.get())
        && coldest.celsius() > hottest.celsius()
    {
        let what = "the hottest temperature lies below the coldest";
        refuse(&service.hottest, what, format!("at least {}, the coldest", print(*coldest)), problems);
    }
    for (_, material) in tables.materials.iter() {
        fatigue::check_stress_cycles(&material.fatigue_at_holes, problems);
        check_material(material, problems);
    }
    for spectrum in tables.spectrum_entries() {
        fatigue::check_spectrum(spectrum, problems);
    }
    for (_, adhesive) in tables.adhesives.iter() {
        fatigue::check_stress_cycles(&adhesive.fatigue, problems);
        check_adhesive(adhesive, problems);
        coupons::check_lap_shear(adhesive, tables, problems);
    }
    for (_, section) in tables.sections.iter() {
        members::check_section(section, tables, problems);
    }
    for (_, member) in tables.members.iter() {
        members::check_member(member, tables, problems);
    }
    for (name, case) in &tables.cases.items {
        case_name(name, &tables.cases.key, problems);
        members::check_case(case, problems);
    }
    for (_, rivet) in tables.rivets.iter() {
        fatigue::check_force_cycles(&rivet.fatigue, problems);
        members::check_rivet(rivet, problems);
    }
    for (_, joint) in tables.joints.iter() {
        match joint {
            Joint::Lap(lap) => check_lap(lap, tables, problems),
            Joint::DoubleLap(lap) => members::check_double_lap(lap, tables, problems),
            Joint::Socket(socket) => members::check_socket(socket, tables, problems),
            Joint::Sleeve(sleeve) => members::check_sleeve(sleeve, tables, problems),
            Joint::Tube(tube) => members::check_tube(tube, tables, problems),
            Joint::Disc(disc) => members::check_disc(disc, tables, problems),
        }
    }
    if let Some(day) = tables.bond_day.get() {
        check_bond_day(day, tables, problems);
    }
    for (_, set) in tables.coupons.iter() {
        coupons::check(set, tables, problems);
    }
}

/// Leaves a problem behind at an entry that has a value; an absent entry cannot be wrong.
fn refuse<T>(
    entry: &Entry<T>,
    what: impl Into<String>,
    expected: impl Into<String>,
    problems: &mut Vec<Problem>,
) {
    if let Some(place) = entry.place() {
        let (what, expected) = (what.into(), expected.into());
        problems.push(Problem { place: place.clone(), key: entry.key.clone(), what, expected, mend: None });
    }
}

/// Refuses the second of two entries that exclude each other.
fn one_of<A, B>(one: &Entry<A>, other: &Entry<B>, problems: &mut Vec<Problem>) {
    let name = |key: &str| key.rsplit('.').next().unwrap_or(key).to_owned();
    if let (Some(before), Some(place)) = (one.place(), other.place()) {
        problems.push(Problem {
            place: place.clone(),
            key: other.key.clone(),
            what: format!("both \"{}\" and \"{}\" are given", name(&one.key), name(&other.key)),
            expected: "one of the two".to_owned(),
            mend: Some(format!(
                "take one of them out; \"{}\" stands in line {}",
                name(&one.key),
                before.line
            )),
        });
    }
}

/// How many names are listed where one of them was meant.
const MOST_LISTED: usize = 20;

/// Refuses a reference to something that the file does not have.
fn refer<T>(reference: &Entry<String>, to: &Named<T>, problems: &mut Vec<Problem>) {
    let (Some(name), Some(place)) = (reference.get(), reference.place()) else {
        return;
    };
    let known = || to.iter().map(|(known, _)| known).chain(to.refused.iter().map(String::as_str));
    if known().any(|known| known == name) {
        return;
    }
    let near = nearest(name, known());
    let expected = if known().next().is_none() {
        format!("a name under [{}], of which the file has none", to.key)
    } else {
        format!("one of those under [{}]: {}", to.key, listed(known().take(MOST_LISTED)))
    };
    let mend = match near {
        Some(near) => format!("write \"{near}\""),
        None => format!("add a table [{}.{}]", to.key, shown(name)),
    };
    problems.push(Problem {
        place: place.clone(),
        key: reference.key.clone(),
        what: format!("\"{}\" does not exist", shown(name)),
        expected,
        mend: Some(mend),
    });
}

fn check_material(material: &Material, problems: &mut Vec<Problem>) {
    if let (Some(proof), Some(tensile)) = (material.proof_strength.get(), material.tensile_strength.get())
        && proof.mpa() > tensile.mpa()
    {
        let expected = format!("at least the proof strength, {}", print(*proof));
        refuse(
            &material.tensile_strength,
            "the tensile strength lies below the proof strength",
            expected,
            problems,
        );
    }
}

fn print<Q: Quantity>(value: Q) -> String {
    quantity::print(value.base(), Q::KIND, System::Metric)
}

fn check_adhesive(adhesive: &Adhesive, problems: &mut Vec<Problem>) {
    if let Some(rows) = adhesive.by_bondline.get() {
        let at: Vec<_> = rows.iter().map(|row| &row.bondline).collect();
        rising(&at, "bondlines", problems);
        // A thicker bond never raises a reserve unless measured data say so; the table is where they say it.
    }
    if let Some(rows) = adhesive.by_temperature.get() {
        rising(&rows.iter().map(|row| &row.at).collect::<Vec<_>>(), "temperatures", problems);
    }
    if let Some(rows) = adhesive.glass_transition.get() {
        rising(&rows.iter().map(|row| &row.cured_at).collect::<Vec<_>>(), "temperatures", problems);
    }
    if let Some(rows) = adhesive.working_time.get() {
        rising(&rows.iter().map(|row| &row.at).collect::<Vec<_>>(), "temperatures", problems);
        for pair in rows.windows(2) {
            let [cold, hot] = pair else { continue };
            if let (Some(long), Some(short)) = (cold.time.get(), hot.time.get())
                && short.seconds() > long.seconds()
            {
                let expected = format!("at most {}: an adhesive is faster when it is warmer", print(*long));
                refuse(&hot.time, "the working time grows with the temperature", expected, problems);
            }
        }
    }
    if let Some(rows) = adhesive.cure.get() {
        check_cure(rows, problems);
    }
    if let Some(kinetics) = adhesive.kinetics.get() {
        day::check_kinetics(kinetics, problems);
    }
}

/// Refuses a table whose rows do not rise in their first column.
fn rising<Q: Quantity>(entries: &[&Entry<Q>], what: &str, problems: &mut Vec<Problem>) {
    for pair in entries.windows(2) {
        if let [before, after] = pair
            && let (Some(low), Some(high)) = (before.get(), after.get())
            && high.base() <= low.base()
        {
            refuse(
                after,
                format!("the {what} do not rise from row to row"),
                format!("more than {}, or another order of the rows", print(*low)),
                problems,
            );
        }
    }
}

/// More time at a temperature never gives less strength, and a time gives one strength.
fn check_cure(rows: &[CureRow], problems: &mut Vec<Problem>) {
    for (index, row) in rows.iter().enumerate() {
        for earlier in rows.iter().take(index).chain(rows.iter().skip(index + 1)) {
            if let (Some(at), Some(same), Some(long), Some(short), Some(more), Some(less)) = (
                row.at.get(),
                earlier.at.get(),
                row.time.get(),
                earlier.time.get(),
                row.strength.get(),
                earlier.strength.get(),
            ) && at == same
                && long.seconds() > short.seconds()
                && more < less
            {
                let expected = format!("at least {less}, which is reached after {}", print(*short));
                refuse(&row.strength, "the strength falls with time", expected, problems);
                break;
            }
        }
        let same =
            |earlier: &CureRow| earlier.at.get() == row.at.get() && earlier.time.get() == row.time.get();
        if row.at.get().is_some() && row.time.get().is_some() && rows.iter().take(index).any(same) {
            let what = "this time stands a second time at the same temperature";
            refuse(&row.time, what, "one strength for each time at a temperature", problems);
        }
    }
}

fn check_lap(lap: &Lap, tables: &Tables, problems: &mut Vec<Problem>) {
    refer(&lap.adhesive, &tables.adhesives, problems);
    for plate in [&lap.upper, &lap.lower].into_iter().filter_map(Entry::get) {
        refer(&plate.material, &tables.materials, problems);
    }
    thinner_than_beads(&lap.bondline, &lap.adhesive, tables, problems);
    plate_rivets(&lap.rivets, &lap.overlap, tables, problems);
    check_voids(lap, problems);
    for (name, _) in &lap.loads.items {
        case_name(name, &lap.loads.key, problems);
    }
}

/// Refuses voids that do not follow each other from left to right within the overlap.
fn check_voids(lap: &Lap, problems: &mut Vec<Problem>) {
    let mut end_mm = 0.0;
    for void in lap.voids.get().map_or(&[][..], Vec::as_slice) {
        let (Some(from), Some(to)) = (void.from.get(), void.to.get()) else { continue };
        if from.mm() < end_mm {
            let expected = "voids one after another from the left end of the overlap";
            refuse(&void.from, "a void begins before the one before it ends", expected, problems);
        }
        if to.mm() <= from.mm() {
            refuse(
                &void.to,
                "a void ends where it begins, or before",
                "an end beyond its beginning",
                problems,
            );
        }
        if let Some(overlap) = lap.overlap.get().filter(|overlap| to.mm() > overlap.mm()) {
            let expected = format!("at most {} from the left end, the overlap", print(*overlap));
            refuse(&void.to, "a void reaches beyond the overlap", expected, problems);
        }
        end_mm = f64::max(end_mm, to.mm());
    }
}

/// Refuses rivets of a kind that does not exist, and rows beyond the overlap.
fn plate_rivets(
    rivets: &Entry<PlateRivets>,
    overlap: &Entry<Length>,
    tables: &Tables,
    problems: &mut Vec<Problem>,
) {
    let Some(rivets) = rivets.get() else { return };
    refer(&rivets.kind, &tables.rivets, problems);
    if let (Some(rows), Some(overlap)) = (rivets.rows.get(), overlap.get())
        && rows.iter().any(|row| row.mm() > overlap.mm())
    {
        let expected = format!("rows at most {} from the left end, the overlap", print(*overlap));
        refuse(&rivets.rows, "a row lies beyond the overlap", expected, problems);
    }
}

/// Refuses a bondline that the standoff beads do not let close.
fn thinner_than_beads(
    bondline: &Entry<Length>,
    adhesive: &Entry<String>,
    tables: &Tables,
    problems: &mut Vec<Problem>,
) {
    let Some(name) = adhesive.get() else { return };
    let beads = tables.adhesives.get(name).and_then(|adhesive| adhesive.standoff_beads.get());
    if let (Some(given), Some(beads)) = (bondline.get(), beads)
        && given.mm() < beads.mm()
    {
        let what = format!("the bondline of {} is thinner than the beads", print(*given));
        refuse(
            bondline,
            what,
            format!("at least {}, the standoff beads of \"{name}\"", print(*beads)),
            problems,
        );
    }
}

/// Refuses a load case whose name a result bears already.
fn case_name(name: &Located<String>, table: &str, problems: &mut Vec<Problem>) {
    if RESERVED_CASES.contains(&name.value.as_str()) {
        problems.push(Problem {
            place: name.place.clone(),
            key: format!("{table}.{}", name.value),
            what: format!("a load case cannot be called \"{}\"", name.value),
            expected: "a name that no result bears".to_owned(),
            mend: Some(format!("write \"{}_case\"", name.value)),
        });
    }
}

fn check_bond_day(day: &BondDay, tables: &Tables, problems: &mut Vec<Problem>) {
    one_of(&day.temperature, &day.log, problems);
    day::check_heating(day, problems);
    if let (Some(handling), Some(driving)) = (day.handling.get(), day.driving.get())
        && handling > driving
    {
        refuse(
            &day.handling,
            "the vehicle could be driven before it may be moved",
            format!("at most {driving}, the share for driving"),
            problems,
        );
    }
    if let Some(names) = day.joints.get() {
        for (index, name) in names.iter().enumerate() {
            let key = format!("{}[{}]", day.joints.key, index + 1);
            let entry = Entry { key, located: Some(name.clone()) };
            refer(&entry, &tables.joints, problems);
            if names.iter().take(index).any(|earlier| earlier.value == name.value) {
                let what = format!("\"{}\" stands in this list a second time", shown(&name.value));
                refuse(&entry, what, "each joint once: it is closed once", problems);
            }
        }
    }
}
