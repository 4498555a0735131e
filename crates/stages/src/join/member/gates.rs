//! What a sectioning must keep to before anything is computed: procedure, cracks, ribs, closing.

use assessment::{Basis, Finding, Lack, Measure, Stage, Verdict};
use job::Entry;
use job::tables::{Closing, Sectioning, Sleeve};
use quantity::Kind;

use super::Form;
use crate::Results;

/// Finds what the procedure says, and for a sleeve where its cut lies.
pub(super) fn find(form: &Form<'_>, sleeve: Option<&Sleeve>, results: &mut Results) {
    procedure(form, results);
    if let Some(sleeve) = sleeve {
        cracks(form, sleeve, results);
        ribs(form, sleeve, results);
    }
}

fn started(form: &Form<'_>, what: &str, basis: Basis) -> Finding {
    let name = form.subject.name;
    Finding {
        place: Some(form.subject.place.clone()),
        ..Finding::new(Stage::Choose, format!("choose.{name}.{what}"), name, basis)
    }
}

fn procedure(form: &Form<'_>, results: &mut Results) {
    let procedure = form.subject.tables.job.get().map(|head| &head.procedure);
    let basis = Basis::CommonPractice("the manufacturer's repair procedure holds before any calculation");
    let finding = started(form, "procedure", basis);
    let missing = |key: &str| Lack::Missing { keys: vec![key.to_owned()] };
    let said = match procedure.map(|entry| (entry, entry.get())) {
        Some((_, Some(procedure))) => match procedure.sectioning.get() {
            Some(word) => Ok((procedure, *word)),
            None => Err(missing(&procedure.sectioning.key)),
        },
        _ => Err(missing("job.procedure")),
    };
    let (procedure, word) = match said {
        Ok(said) => said,
        Err(lack) => {
            let statement = "Whether the manufacturer allows sectioning here is not stated.".to_owned();
            results.findings.push(finding.unknown(statement, lack));
            return;
        }
    };
    let document = procedure.document.get().map_or("the procedure", String::as_str);
    let page = procedure.page.get().map_or(String::new(), |page| format!(", page {page}"));
    let place = procedure.sectioning.place().cloned();
    let finding = Finding { place, ..finding };
    results.findings.push(match word {
        Sectioning::Allowed => Finding {
            statement: format!("Sectioning is allowed here by {document}{page}."),
            verdict: Verdict::Met,
            because: "Its cut line, rivets and adhesive hold where they differ from this job.".to_owned(),
            ..finding
        },
        Sectioning::Forbidden => Finding {
            statement: format!("Sectioning is forbidden here by {document}{page}."),
            verdict: Verdict::NotMet,
            because: "No calculation overrides a prohibition.".to_owned(),
            next: Some("Replace the whole part, or ask the manufacturer.".to_owned().into()),
            ..finding
        },
        Sectioning::Silent => finding.unknown(
            format!("{document}{page} says nothing of sectioning here."),
            Lack::OutOfData {
                what: "a procedure that is silent neither allows nor forbids".to_owned(),
                key: procedure.sectioning.key.clone(),
            },
        ),
    });
}

fn cracks(form: &Form<'_>, sleeve: &Sleeve, results: &mut Results) {
    let basis =
        Basis::CommonPractice("cut beyond the last end of a crack found by dye penetrant, with a margin");
    let finding = started(form, "cracks", basis);
    let (cracks, station, margin) =
        match (sleeve.cracks.get(), sleeve.station.get(), sleeve.crack_margin.get()) {
            (Some(cracks), Some(station), Some(margin)) => (cracks, station.mm(), margin.mm()),
            (cracks, _, margin) => {
                let keys =
                    [(cracks.is_none(), &sleeve.cracks.key), (margin.is_none(), &sleeve.crack_margin.key)];
                let keys =
                    keys.into_iter().filter(|(absent, _)| *absent).map(|(_, key)| key.clone()).collect();
                let statement = "Whether the cut lies beyond all cracks cannot be told.".to_owned();
                results.findings.push(finding.unknown(statement, Lack::Missing { keys }));
                return;
            }
        };
    let place = sleeve.cracks.place().cloned();
    let Some(last) = cracks.iter().map(|end| end.mm()).reduce(f64::min) else {
        results.findings.push(Finding {
            statement: "No crack was found.".to_owned(),
            because: "The list of crack ends is empty.".to_owned(),
            place,
            ..finding
        });
        return;
    };
    // The part toward the beginning of the member stays; a crack must lie beyond the cut.
    let left = last - station;
    let print = |value: f64| results.print(value, Kind::Length);
    let met = left >= margin;
    results.findings.push(Finding {
        statement: format!(
            "The cut lies {} before the nearest end of a crack; {} are asked.",
            print(left),
            print(margin)
        ),
        value: Some(Measure::of(left, Kind::Length)),
        limit: Some(Measure::of(margin, Kind::Length)),
        verdict: if met { Verdict::Met } else { Verdict::NotMet },
        because: "A crack that is left in the part that stays goes on growing.".to_owned(),
        next: (!met).then(|| format!("Cut at station {} or less.", print(last - margin)).into()),
        place,
        ..finding
    });
}

fn ribs(form: &Form<'_>, sleeve: &Sleeve, results: &mut Results) {
    let Some(member) = sleeve.member.get().and_then(|name| form.subject.tables.members.get(name)) else {
        return;
    };
    let (Ok(geometry), Some(station)) = (form.geometry, sleeve.station.get()) else { return };
    if member.ribs.items.is_empty() {
        return;
    }
    let reach = geometry.half_gap_mm + geometry.overlap_mm;
    let blocked: Vec<&str> = member
        .ribs
        .iter()
        .filter(|(_, rib)| rib.station.get().is_some_and(|rib| (rib.mm() - station.mm()).abs() < reach))
        .map(|(name, _)| name)
        .collect();
    let met = blocked.is_empty();
    let statement = if met {
        "No rib stands where the insert goes.".to_owned()
    } else {
        format!("The insert meets a rib: {}.", blocked.join(", "))
    };
    results.findings.push(Finding {
        statement,
        limit: Some(Measure::of(reach, Kind::Length)),
        verdict: if met { Verdict::Met } else { Verdict::NotMet },
        because: format!("It reaches {} to both sides of the cut.", results.print(reach, Kind::Length)),
        next: (!met).then(|| "Move the cut between two ribs, or shorten the overlap.".to_owned().into()),
        ..started(form, "ribs", Basis::YourData("ribs of the member"))
    });
}

/// How the joint is closed: a tight slide scrapes the paste off.
pub(super) fn closing(form: &Form<'_>, closing: &Entry<Closing>, results: &mut Results) {
    let basis = Basis::CommonPractice("a tight slide scrapes the paste off the faces");
    let place = closing.place().cloned().or_else(|| Some(form.subject.place.clone()));
    let finding = Finding { place, ..form.subject.finding("closing", basis) };
    let name = form.subject.name;
    results.findings.push(match closing.get() {
        None => finding.unknown(
            format!("How {name} is closed is not stated."),
            Lack::Missing { keys: vec![closing.key.clone()] },
        ),
        Some(Closing::Slide) => finding.unknown(
            format!("{name} is closed by sliding: how much of the faces is wetted cannot be told."),
            Lack::OutOfData {
                what: "a part that slides in scrapes the paste off".to_owned(),
                key: closing.key.clone(),
            },
        ),
        Some(way) => Finding {
            statement: format!(
                "{name} is closed by {}.",
                if *way == Closing::Press { "pressing" } else { "injection" }
            ),
            because: "Squeeze-out all round is the evidence that it is filled.".to_owned(),
            ..finding
        },
    });
}
