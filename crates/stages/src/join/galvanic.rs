//! Galvanic pairs: metals that touch, by their difference of potential and by where they serve.

use assessment::{Basis, Finding, Known, Lack, Measure, Name, Next, Verdict, names};
use job::tables::{Exposure, Material, Restored, Rivet, Tables};
use job::{Edit, Entry, Needed};
use quantity::{ElectricPotential, Kind};

use super::subject::Subject;
use crate::Results;

/// Differences up to this are one group of metals, V: MIL-DTL-14072F, 3.13 (groups within 0.05 V).
const ONE_GROUP_V: f64 = 0.05;

/// Indices are written to hundredths; a difference of two of them is that of the decimals, not of their binary
/// neighbours, V.
const ROUNDING_V: f64 = 1e-9;

/// The greatest difference of anodic index, V. Common practice, no source: the limits go about with tables of
/// anodic indices, and no standard at hand has them.
fn allowed_v(exposure: Exposure) -> f64 {
    match exposure {
        Exposure::Harsh => 0.15,
        Exposure::Normal => 0.25,
        Exposure::Controlled => 0.50,
    }
}

/// What touches in a joint.
pub(super) struct Touching<'j> {
    /// The outer or upper part: its word and its material, as far as it is known.
    pub(super) outer: (&'static str, Option<&'j Material>),
    /// The inner or lower part.
    pub(super) inner: (&'static str, Option<&'j Material>),
    /// The kind of rivet, where there are rivets.
    pub(super) rivet: Option<&'j Entry<String>>,
    /// Whether the parts are slid into each other: a tight slide scrapes the paste off.
    pub(super) slid: bool,
}

/// A metal of a pair.
struct Metal<'j> {
    word: &'static str,
    index: &'j Entry<ElectricPotential>,
}

/// Two metals that may touch.
struct Pair<'m> {
    id: &'static str,
    name: &'static Name,
    metals: [&'m Metal<'m>; 2],
    /// Why no current flows from one to the other, where something keeps them apart.
    apart: Option<String>,
    /// Whether one of the two is a rivet: the small one.
    with_rivet: bool,
}

/// Judges every pair of metals that touch in a joint, where the job has an anodic index of one of them or says where
/// the part serves.
pub(super) fn find<'j>(subject: &Subject<'j>, touching: &Touching<'j>, results: &mut Results) {
    let tables = subject.tables;
    let part = |(word, material): (&'static str, Option<&'j Material>)| {
        material.map(|material| Metal { word, index: &material.anodic_index })
    };
    // What names no material its strength finding says.
    let (Some(outer), Some(inner)) = (part(touching.outer), part(touching.inner)) else { return };
    let rivet = touching.rivet.and_then(|kind| tables.rivets.referred(kind).ok());
    let of_rivet = rivet.map(rivet_index);
    let exposure = exposure(tables);
    let indices = [Some(outer.index), Some(inner.index), of_rivet.and_then(Result::ok)];
    if exposure.is_none() && !indices.into_iter().flatten().any(|index| index.get().is_some()) {
        return;
    }
    let keeps = kept_apart(subject, touching, results);
    let parts = Pair {
        id: "galvanic.parts",
        name: &names::GALVANIC_PARTS,
        metals: [&outer, &inner],
        apart: keeps,
        with_rivet: false,
    };
    judge(subject, &parts, exposure, results);
    let named = [
        ("galvanic.rivet_outer", &names::GALVANIC_RIVET_OUTER, &outer),
        ("galvanic.rivet_inner", &names::GALVANIC_RIVET_INNER, &inner),
    ];
    for (id, name, part) in named {
        match of_rivet {
            None => {}
            Some(Ok(index)) => {
                let metal = Metal { word: "rivets", index };
                let pair = Pair { id, name, metals: [&metal, part], apart: None, with_rivet: true };
                judge(subject, &pair, exposure, results);
            }
            Some(Err(key)) => {
                let lack = Lack::Missing { keys: vec![key.to_owned()] };
                results.quantities.put(name, &[subject.name], Err(lack.clone()));
                let statement = format!(
                    "Whether the rivets and the {} of {} may touch cannot be told.",
                    part.word, subject.name
                );
                results.findings.push(subject.finding(id, basis()).unknown(statement, lack));
            }
        }
    }
}

fn exposure(tables: &Tables) -> Option<Exposure> {
    tables.job.get()?.service.get()?.exposure.get().copied()
}

/// The anodic index of a rivet, or the key of the table that would hold it.
fn rivet_index(rivet: &Rivet) -> Result<&Entry<ElectricPotential>, &str> {
    rivet.material.get().map(|material| &material.anodic_index).ok_or(rivet.material.key.as_str())
}

fn basis() -> Basis {
    Basis::CommonPractice(
        "difference of anodic index of at most 0.15 V (harsh), 0.25 V (normal), 0.50 V (controlled); tables of indices disagree, most of all on stainless steel and titanium",
    )
}

/// Why the two parts are no pair, where the bond keeps them apart: beads hold the layer open, and nothing bridges it.
fn kept_apart(subject: &Subject<'_>, touching: &Touching<'_>, results: &Results) -> Option<String> {
    let beads = subject.adhesive().ok()?.standoff_beads.get()?;
    if touching.rivet.is_some() || touching.slid {
        return None;
    }
    Some(format!(
        "The beads of {} keep the bondline open, no rivet bridges it, and the adhesive does not conduct.",
        results.print(beads.mm(), Kind::Length)
    ))
}

fn judge(subject: &Subject<'_>, pair: &Pair<'_>, exposure: Option<Exposure>, results: &mut Results) {
    let [first, second] = pair.metals;
    let difference = || -> Known<f64> {
        let (a, b) = (first.index.need(), second.index.need()).need_all()?;
        Ok((a.volts() - b.volts()).abs())
    };
    let difference = difference();
    results.quantities.put(pair.name, &[subject.name], difference.clone());
    let finding = subject.finding(pair.id, basis());
    let both = format!("the {} and the {} of {}", first.word, second.word, subject.name);
    let told =
        difference.and_then(|difference| Ok((difference, verdict(subject, pair, difference, exposure)?)));
    results.findings.push(match told {
        Err(lack) => finding.unknown(format!("Whether {both} may touch cannot be told."), lack),
        Ok((difference, (verdict, limit, why))) => {
            let print = |volts: f64| results.print(volts, Kind::ElectricPotential);
            Finding {
                statement: format!(
                    "Between {both} lie {}; {} are allowed{}.",
                    print(difference),
                    print(limit),
                    exposure.map_or(" in the harshest service", |_| "")
                ),
                value: Some(Measure::of(difference, Kind::ElectricPotential)),
                limit: Some(Measure::of(limit, Kind::ElectricPotential)),
                verdict,
                because: format!("{why}{}", eaten(pair, difference)),
                next: (verdict == Verdict::NotMet).then(|| restore(subject, pair)),
                ..finding
            }
        }
    });
}

/// The verdict on a pair, the limit it is held against, and why.
fn verdict(
    subject: &Subject<'_>,
    pair: &Pair<'_>,
    difference: f64,
    exposure: Option<Exposure>,
) -> Known<(Verdict, f64, String)> {
    // What the harshest service allows, every service allows.
    let limit = allowed_v(exposure.unwrap_or(Exposure::Harsh));
    if difference <= limit + ROUNDING_V {
        return Ok((Verdict::Met, limit, "The two lie close enough together.".to_owned()));
    }
    if let Some(apart) = &pair.apart {
        return Ok((Verdict::Met, limit, apart.clone()));
    }
    let restored = subject.surface.get().and_then(|surface| surface.restored.get());
    let why = match (restored, exposure) {
        (Some(Restored::Sealed), _) => {
            let why = "Sealant and coat keep the wet from where they touch, as long as both are whole.";
            return Ok((Verdict::Met, limit, why.to_owned()));
        }
        (_, None) => return Err(Lack::Missing { keys: vec!["job.service.exposure".to_owned()] }),
        (None, _) => return Err(Lack::Missing { keys: vec![format!("{}.restored", subject.surface.key)] }),
        (Some(Restored::Coated), _) => {
            "A coat alone is scratched at one place, and all the current goes there."
        }
        (Some(Restored::Bare), _) => "They touch bare, and the wet closes the circuit.",
    };
    Ok((Verdict::NotMet, limit, why.to_owned()))
}

/// Which of the two is eaten: the one with the higher index; of a rivet it is the small one, and soon gone.
fn eaten(pair: &Pair<'_>, difference: f64) -> String {
    let [first, second] = pair.metals.map(|metal| metal.index.get().map_or(0.0, |index| index.volts()));
    if difference <= ONE_GROUP_V + ROUNDING_V {
        return String::new();
    }
    let word = if first > second { pair.metals[0].word } else { pair.metals[1].word };
    let small = pair.with_rivet && first > second;
    let soon = if small {
        ", which are small beside it and soon gone; a rivet should be the nobler of the two"
    } else {
        ""
    };
    format!(" Where they do touch wet, the current eats the {word}{soon}.")
}

/// What to restore, with the edit that says so.
fn restore(subject: &Subject<'_>, pair: &Pair<'_>) -> Next {
    let how = if pair.with_rivet {
        "Set the rivets in wet sealant, seal under and around their heads, then coat heads and hole edges"
    } else {
        "Seal the edges of the bond and the cut faces, set the rivets in wet sealant, then coat both parts over the joint"
    };
    let key = subject.surface.get().map(|surface| surface.restored.key.clone());
    let edits = key.map(|key| Edit { key, value: "\"sealed\"".to_owned() }).into_iter().collect();
    Next { text: format!("{how}, or take metals that lie closer together."), edits }
}
