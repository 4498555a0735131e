//! The findings on what coupons tell of their adhesive.

use assessment::{Finding, Known, Lack, Measure, Name, Next, Verdict, names};
use evidence::recovery::Recovered;
use job::Edit;
use job::tables::{Adhesive, Coupons, Strengths};
use quantity::Kind;

use super::{Found, Property, SOUGHT, started};
use crate::Results;
use crate::join::CHARACTERISTIC_AT;

/// Scatter that a job file takes.
const MOST_SCATTER: f64 = 0.5;

impl Property {
    fn word(self) -> &'static str {
        match self {
            Self::Shear => "shear strength",
            Self::Second => "toughness in shear",
            Self::First => "toughness in opening",
        }
    }

    fn kind(self) -> Kind {
        match self {
            Self::Shear => Kind::Stress,
            Self::Second | Self::First => Kind::Toughness,
        }
    }

    /// Its key, and what the job says there.
    fn given(self, adhesive: &Adhesive) -> (&str, Option<f64>) {
        match self {
            Self::Shear => (&adhesive.shear_strength.key, adhesive.shear_strength.get().map(|it| it.mpa())),
            Self::Second => {
                (&adhesive.mode_2_toughness.key, adhesive.mode_2_toughness.get().map(|it| it.n_per_mm()))
            }
            Self::First => {
                (&adhesive.mode_1_toughness.key, adhesive.mode_1_toughness.get().map(|it| it.n_per_mm()))
            }
        }
    }

    fn id(self) -> &'static str {
        match self {
            Self::Shear => "shear_strength",
            Self::Second => "mode_2_toughness",
            Self::First => "mode_1_toughness",
        }
    }

    /// Its value and the two ends of its interval.
    fn names(self) -> [&'static Name; 3] {
        match self {
            Self::Shear => [
                &names::RECOVERED_SHEAR_STRENGTH,
                &names::RECOVERED_SHEAR_STRENGTH_LOW,
                &names::RECOVERED_SHEAR_STRENGTH_HIGH,
            ],
            Self::Second => [
                &names::RECOVERED_MODE_2_TOUGHNESS,
                &names::RECOVERED_MODE_2_TOUGHNESS_LOW,
                &names::RECOVERED_MODE_2_TOUGHNESS_HIGH,
            ],
            Self::First => [
                &names::RECOVERED_MODE_1_TOUGHNESS,
                &names::RECOVERED_MODE_1_TOUGHNESS_LOW,
                &names::RECOVERED_MODE_1_TOUGHNESS_HIGH,
            ],
        }
    }

    /// What would tell it.
    fn told_by(self) -> &'static str {
        match self {
            Self::Shear => "thick laps (ISO 11003-2) for the shear strength",
            Self::Second => "end-loaded splits (ISO 15114) for the toughness in shear",
            Self::First => "double cantilevers (ISO 25217) for the toughness in opening",
        }
    }
}

/// What is known of one property, in the order of [`SOUGHT`].
struct Told {
    property: Property,
    value: f64,
    interval: [f64; 2],
}

/// Tells what the coupons of an adhesive gave.
pub(super) fn tell(
    name: &str,
    adhesive: &Adhesive,
    sets: &[(&str, &Coupons)],
    found: &Known<Found>,
    results: &mut Results,
) {
    put(name, sets, found, results);
    let finding = started(name, "coupons", sets);
    let found = match found {
        Ok(found) => found,
        Err(lack) => {
            let statement = format!("What its coupons tell of {name} cannot be told.");
            results.findings.push(finding.unknown(statement, lack.clone()));
            return;
        }
    };
    let pairs = SOUGHT.into_iter().zip(&found.recovery.properties);
    let told: Vec<Told> = pairs.filter_map(|(property, recovered)| told(property, *recovered)).collect();
    let next = (!told.is_empty()).then(|| data(name, adhesive, found, &told, results));
    results.findings.push(whole(finding, adhesive, found, &told, next.clone(), results));
    for it in &told {
        results.findings.push(one(name, adhesive, sets, found, it, next.as_ref(), results));
    }
    let silent: Vec<(Property, f64)> = SOUGHT
        .into_iter()
        .zip(found.start)
        .filter(|(property, _)| told.iter().all(|it| it.property != *property))
        .collect();
    if !silent.is_empty() {
        results.findings.push(untold(started(name, "not_identified", sets), name, &silent, results));
    }
}

fn told(property: Property, recovered: Recovered) -> Option<Told> {
    match recovered {
        Recovered::Identified { value, interval } => Some(Told { property, value, interval }),
        Recovered::NotIdentified => None,
    }
}

fn put(name: &str, sets: &[(&str, &Coupons)], found: &Known<Found>, results: &mut Results) {
    for (index, property) in SOUGHT.into_iter().enumerate() {
        let all = found.as_ref().map_err(Lack::clone).and_then(|found| {
            told(property, found.recovery.properties[index]).ok_or_else(|| Lack::OutOfData {
                what: format!("the coupons of {name} do not tell its {}", property.word()),
                key: sets.last().map_or_else(String::new, |(_, set)| set.data.key.clone()),
            })
        });
        let values = all.map(|it| [it.value, it.interval[0], it.interval[1]]);
        for (at, dotted) in property.names().into_iter().enumerate() {
            results.quantities.put(dotted, &[name], values.clone().map(|values| values[at]));
        }
    }
    let scatter = found.as_ref().map(|found| found.recovery.scatter).map_err(Lack::clone);
    results.quantities.put(&names::RECOVERED_SCATTER, &[name], scatter);
}

/// How coupons and strip go together, and what is told at all.
fn whole(
    finding: Finding,
    adhesive: &Adhesive,
    found: &Found,
    told: &[Told],
    next: Option<Next>,
    results: &Results,
) -> Finding {
    let witnesses = &found.witnesses;
    let names = listed(told.iter().map(|it| it.property.word()));
    let tells =
        if told.is_empty() { "none of its properties alone".to_owned() } else { format!("its {names}") };
    let (count, scatter) = (witnesses.measured_n_mm().len(), found.recovery.scatter);
    let mut because = vec![format!(
        "Taken are {}; the strip with its tensile strength held at {} misses them by {:.1} % (n − k).",
        listed(witnesses.sets.iter().map(String::as_str)),
        results.print(found.tensile_mpa, Kind::Stress),
        100.0 * scatter
    )];
    if !witnesses.left_out.is_empty() {
        because.push(format!("Left out: {}.", listed(witnesses.left_out.iter().map(String::as_str))));
    }
    if found.damaged_share > 1.0 {
        because.push(format!(
            "Cantilevers give over {:.1} times their bonded length before they carry their most: the end at which they are held takes part, and they tell less than is said.",
            found.damaged_share
        ));
    }
    because.push(
        "The region takes the strip for right, and moves what no coupon tells to a half and to the double."
            .to_owned(),
    );
    Finding {
        statement: format!("{count} coupons of {} tell {tells}.", finding.about),
        value: Some(Measure { value: scatter, unit: "-", kind: None }),
        because: because.join(" "),
        next: next.or_else(|| Some(more(adhesive, &SOUGHT).into())),
        ..finding
    }
}

/// One property and its region, held against what the job says.
fn one(
    name: &str,
    adhesive: &Adhesive,
    sets: &[(&str, &Coupons)],
    found: &Found,
    told: &Told,
    next: Option<&Next>,
    results: &Results,
) -> Finding {
    let Told { property, value, interval } = told;
    let print = |value: f64| results.print(value, property.kind());
    let (key, given) = property.given(adhesive);
    let share = share(adhesive, found);
    let finding = started(name, property.id(), sets);
    let statement = format!(
        "Its coupons tell a {} of {} of {name}; its 95 % region reaches from {} to {}.",
        property.word(),
        print(*value),
        print(interval[0]),
        print(interval[1])
    );
    let finding = Finding { statement, value: Some(Measure::of(*value, property.kind())), ..finding };
    let Some(given) = given else {
        return Finding { because: format!("The job gives no {key}."), ..finding };
    };
    let more = given > share * interval[1];
    let against =
        if share < 1.0 { format!("{} as a characteristic value", print(given)) } else { print(given) };
    Finding {
        limit: Some(Measure::of(given, property.kind())),
        verdict: if more { Verdict::NotMet } else { Verdict::Note },
        because: match (more, given < share * interval[0]) {
            (true, _) => format!("The job counts on {against} ({key}), more than the coupons show."),
            (false, true) => format!("The job counts on {against} ({key}), less than the coupons show."),
            (false, false) => format!("The job's {against} ({key}) lies in that."),
        },
        next: if more { next.cloned() } else { None },
        ..finding
    }
}

/// What the coupons leave open.
fn untold(finding: Finding, name: &str, silent: &[(Property, f64)], results: &Results) -> Finding {
    let at = silent.iter().map(|(property, start)| {
        format!("the {} at {}", property.word(), results.print(*start, property.kind()))
    });
    let at: Vec<String> = at.collect();
    let properties: Vec<Property> = silent.iter().map(|(property, _)| *property).collect();
    Finding {
        statement: format!(
            "Its coupons do not tell the {} of {name}.",
            listed(properties.iter().map(|property| property.word()))
        ),
        because: format!(
            "Their loads hardly answer to it, or answer to it as to something else. The search began with {}.",
            listed(at.iter().map(String::as_str))
        ),
        next: Some(format!("Break {} as well.", listed(properties.iter().map(|it| it.told_by()))).into()),
        ..finding
    }
}

fn more(adhesive: &Adhesive, properties: &[Property]) -> String {
    let by = listed(properties.iter().map(|it| it.told_by()));
    format!("Break {by} with {} under [coupons].", adhesive.key)
}

/// A characteristic value over the mean, where the job gives such.
fn share(adhesive: &Adhesive, found: &Found) -> f64 {
    match adhesive.strengths.get() {
        Some(Strengths::Characteristic) => 1.0 - CHARACTERISTIC_AT * found.recovery.scatter,
        _ => 1.0,
    }
}

/// The edits that put what was found into the adhesive's table.
fn data(name: &str, adhesive: &Adhesive, found: &Found, told: &[Told], results: &Results) -> Next {
    let scatter = found.recovery.scatter;
    let share = share(adhesive, found);
    let quoted = |value: f64, kind| format!("\"{}\"", quantity::print_exact(figures(value), kind));
    let mut edits: Vec<Edit> = told
        .iter()
        .filter(|_| share > 0.0)
        .map(|it| Edit {
            key: it.property.given(adhesive).0.to_owned(),
            value: quoted(share * it.value, it.property.kind()),
        })
        .collect();
    if share >= 1.0 && scatter <= MOST_SCATTER {
        edits.push(Edit { key: adhesive.scatter.key.clone(), value: format!("{}", figures(scatter)) });
    }
    let values = told
        .iter()
        .map(|it| format!("{} {}", it.property.word(), results.print(share * it.value, it.property.kind())));
    let values: Vec<String> = values.collect();
    let text = format!(
        "Put what they tell into adhesives.{name} as your own data: {}.",
        listed(values.iter().map(String::as_str))
    );
    Next { text, edits }
}

/// A number with four figures.
fn figures(value: f64) -> f64 {
    format!("{value:.3e}").parse().unwrap_or(value)
}

/// Words in a row.
fn listed<'w>(words: impl Iterator<Item = &'w str>) -> String {
    let words: Vec<&str> = words.collect();
    match words.split_last() {
        Some((last, rest)) if !rest.is_empty() => format!("{} and {last}", rest.join(", ")),
        _ => words.concat(),
    }
}
