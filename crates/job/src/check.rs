//! What no single key shows: references that lead nowhere, values that contradict each other or physics.

use quantity::{Length, Quantity, System};

use crate::entry::{Entry, Named};
use crate::problem::{Problem, listed, nearest};
use crate::tables::{Adhesive, BondDay, CureRow, Joint, Lap, Material, Tables};

/// Names that a load case may not bear, because `join.J.<name>` means something else.
const RESERVED_CASES: [&str; 1] = ["member"];

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
        check_material(material, problems);
    }
    for (_, adhesive) in tables.adhesives.iter() {
        check_adhesive(adhesive, problems);
    }
    for (_, joint) in tables.joints.iter() {
        match joint {
            Joint::Lap(lap) => check_lap(lap, tables, problems),
        }
    }
    if let Some(day) = tables.bond_day.get() {
        check_bond_day(day, tables, problems);
    }
    for (_, coupons) in tables.coupons.iter() {
        refer(&coupons.adhesive, &tables.adhesives, problems);
        if coupons.data.get().is_some() {
            refuse(
                &coupons.strengths,
                "both \"data\" and \"strengths\" are given",
                "one of the two",
                problems,
            );
        }
        if coupons.strengths.get().is_some_and(Vec::is_empty) {
            refuse(&coupons.strengths, "the list is empty", "at least one strength", problems);
        }
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

/// Refuses a reference to something that the file does not have.
fn refer<T>(reference: &Entry<String>, to: &Named<T>, problems: &mut Vec<Problem>) {
    let (Some(name), Some(place)) = (reference.get(), reference.place()) else {
        return;
    };
    if to.get(name).is_some() {
        return;
    }
    let known = || to.iter().map(|(known, _)| known);
    let near = nearest(name, known());
    let expected = if to.items.is_empty() {
        format!("a table [{}.{name}]; the file has none under [{}]", to.key, to.key)
    } else {
        format!("one of those under [{}]: {}", to.key, listed(known()))
    };
    problems.push(Problem {
        place: place.clone(),
        key: reference.key.clone(),
        what: format!("\"{name}\" does not exist"),
        expected,
        mend: near.map(|near| format!("write \"{near}\"")),
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
                let expected = format!("at most {}: adhesive cures faster when it is warmer", print(*long));
                refuse(&hot.time, "the working time grows with the temperature", expected, problems);
            }
        }
    }
    if let Some(rows) = adhesive.cure.get() {
        check_cure(rows, problems);
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

/// More time at a temperature never gives less strength.
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
    }
}

fn check_lap(lap: &Lap, tables: &Tables, problems: &mut Vec<Problem>) {
    refer(&lap.adhesive, &tables.adhesives, problems);
    for plate in [&lap.upper, &lap.lower].into_iter().filter_map(Entry::get) {
        refer(&plate.material, &tables.materials, problems);
    }
    let adhesive = lap.adhesive.get().and_then(|name| tables.adhesives.get(name));
    if let (Some(bondline), Some(beads)) =
        (lap.bondline.get(), adhesive.and_then(|adhesive| adhesive.standoff_beads.get()))
        && bondline.mm() < beads.mm()
    {
        let name = lap.adhesive.get().map_or("", String::as_str);
        let expected = format!("at least {}, the standoff beads of \"{name}\"", print::<Length>(*beads));
        refuse(
            &lap.bondline,
            format!("the bondline of {} is thinner than the beads", print(*bondline)),
            expected,
            problems,
        );
    }
    for (name, _) in &lap.loads.items {
        let fixed = RESERVED_CASES.contains(&name.value.as_str());
        if fixed {
            problems.push(Problem {
                place: name.place.clone(),
                key: format!("{}.{}", lap.loads.key, name.value),
                what: format!("a load case cannot be called \"{}\"", name.value),
                expected: "a name that no result bears".to_owned(),
                mend: Some(format!("write \"{}_case\"", name.value)),
            });
        }
    }
}

fn check_bond_day(day: &BondDay, tables: &Tables, problems: &mut Vec<Problem>) {
    if day.log.get().is_some() {
        refuse(&day.temperature, "both \"temperature\" and \"log\" are given", "one of the two", problems);
    }
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
    if let (Some(names), Some(place)) = (day.joints.get(), day.joints.place()) {
        for (index, name) in names.iter().enumerate() {
            let key = format!("{}[{}]", day.joints.key, index + 1);
            let located = Some(crate::Located { value: name.clone(), place: place.clone() });
            refer(&Entry { key, located }, &tables.joints, problems);
        }
    }
}
