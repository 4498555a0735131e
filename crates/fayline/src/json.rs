//! Findings, quantities and series as JSON.

mod size;

use assessment::{
    Assessment, Assumption, Column, Field, Finding, Measure, Plan, Series, Sheet, Stage, Step, When,
};
use job::{Place, Problem};
use serde_json::{Map, Value, json};

pub(crate) use self::size::sizing;

/// An assessment, or one stage of it.
pub(crate) fn assessment(assessment: &Assessment, only: Option<Stage>) -> Value {
    let verdict = only.map_or(Some(assessment.verdict()), |stage| assessment.verdict_of(stage));
    let findings =
        assessment.findings.iter().filter(|finding| only.is_none_or(|stage| finding.stage == stage));
    let quantities: Map<String, Value> =
        assessment.quantities.iter().map(|(name, measure)| (name.to_owned(), measured(measure))).collect();
    let unknown: Map<String, Value> = assessment
        .quantities
        .unknown()
        .map(|(name, lack)| (name.to_owned(), json!(lack.to_string())))
        .collect();
    let series: Map<String, Value> =
        assessment.series.iter().map(|(name, series)| (name.to_owned(), one_series(series))).collect();
    let fields: Map<String, Value> =
        assessment.fields.iter().map(|(name, one)| (name.clone(), field(one))).collect();
    json!({
        "fayline": 1,
        "job": { "title": assessment.title, "file": assessment.name, "sha256": assessment.hash },
        "verdict": verdict.map(assessment::Verdict::word),
        "findings": findings.map(finding).collect::<Vec<_>>(),
        "quantities": quantities,
        "unknown": unknown,
        "series": series,
        "sheets": assessment.sheets.iter().map(sheet).collect::<Vec<_>>(),
        "fields": fields,
        "assumptions": assessment.assumptions.iter().map(assumption).collect::<Vec<_>>(),
        "plans": assessment.plans.iter().map(plan).collect::<Vec<_>>(),
        "not_asked": assessment.not_asked.iter().map(|stage| stage.word()).collect::<Vec<_>>(),
    })
}

/// The problems of a file that was refused.
pub(crate) fn problems(problems: &[Problem]) -> Value {
    let listed: Vec<Value> = problems
        .iter()
        .map(|problem| {
            json!({
                "place": place(&problem.place),
                "key": problem.key,
                "what": problem.what,
                "allowed": problem.expected,
                "mend": problem.mend,
            })
        })
        .collect();
    json!({ "fayline": 1, "problems": listed })
}

fn assumption(it: &Assumption) -> Value {
    json!({ "key": it.key, "statement": it.statement, "basis": it.basis.to_string() })
}

fn plan(plan: &Plan) -> Value {
    let step = |step: &Step| {
        let (how, times) = match &step.when {
            Ok(When::At(at)) => ("at", vec![*at]),
            Ok(When::By(at)) => ("by", vec![*at]),
            Ok(When::For(time)) => ("for", vec![*time]),
            Ok(When::Between(from, until)) => ("between", vec![*from, *until]),
            Err(_) => ("unknown", Vec::new()),
        };
        json!({
            "what": step.what,
            "when": how,
            "times_s": times,
            "asked_s": step.asked_s,
            "verdict": step.verdict.word(),
            "remark": step.remark,
            "unknown": step.when.as_ref().err().map(ToString::to_string),
        })
    };
    json!({ "joint": plan.joint, "steps": plan.steps.iter().map(step).collect::<Vec<_>>() })
}

fn measured(measure: &Measure) -> Value {
    json!({ "value": measure.value, "unit": measure.unit })
}

fn one_series(series: &Series) -> Value {
    let mut value = json!({ "x": column(&series.x), "y": column(&series.y) });
    if !series.names.is_empty()
        && let Value::Object(map) = &mut value
    {
        let names = series
            .names
            .iter()
            .map(|point| json!({ "name": point.name, "pattern": point.pattern, "remark": point.remark }));
        map.insert("names".to_owned(), names.collect());
    }
    value
}

fn sheet(sheet: &Sheet) -> Value {
    let faces: Vec<Value> = sheet
        .faces
        .iter()
        .map(|face| {
            let holes = face.holes.iter().map(|hole| {
                json!({ "number": hole.number, "x_mm": hole.x_mm, "s_mm": hole.s_mm, "diameter_mm": hole.diameter_mm })
            });
            json!({
                "name": face.name,
                "width_mm": face.width_mm,
                "bonded": face.bonded.iter().map(|it| json!({ "x_mm": it.x_mm, "s_mm": it.s_mm })).collect::<Vec<_>>(),
                "holes": holes.collect::<Vec<_>>(),
            })
        })
        .collect();
    let beads = sheet.beads.as_ref().map(|beads| {
        let lines = beads.lines.iter().map(|bead| {
            json!({
                "face": bead.face,
                "x_mm": bead.x_mm,
                "s_mm": bead.s_mm,
                "section_mm2": bead.section_mm2,
                "spacing_mm": bead.spacing_mm,
            })
        });
        json!({ "lines": lines.collect::<Vec<_>>(), "allowance": beads.allowance })
    });
    json!({
        "joint": sheet.joint,
        "x_mm": sheet.x_mm,
        "half_gap_mm": sheet.half_gap_mm,
        "round": sheet.round,
        "faces": faces,
        "beads": beads,
    })
}

fn field(field: &Field) -> Value {
    let cells = field.cells.iter().map(
        |it| json!({ "face": it.face, "x_mm": it.patch.x_mm, "s_mm": it.patch.s_mm, "value": it.value }),
    );
    json!({ "joint": field.joint, "what": field.what, "unit": field.unit, "cells": cells.collect::<Vec<_>>() })
}

fn column(column: &Column) -> Value {
    json!({ "what": column.what, "unit": column.unit, "values": column.values })
}

fn place(place: &Place) -> Value {
    json!({ "file": place.file.as_ref(), "line": place.line, "column": place.column })
}

fn finding(finding: &Finding) -> Value {
    json!({
        "id": finding.id,
        "stage": finding.stage.word(),
        "about": finding.about,
        "case": finding.case,
        "statement": finding.statement,
        "value": finding.value.as_ref().map(measured),
        "limit": finding.limit.as_ref().map(measured),
        "reserve": finding.reserve,
        "verdict": finding.verdict.word(),
        "because": finding.because,
        "next": finding.next.as_ref().map(|next| {
            let edits: Vec<Value> = next.edits.iter().map(|edit| json!({ "key": edit.key, "value": edit.value })).collect();
            json!({ "text": next.text, "edits": edits })
        }),
        "basis": finding.basis.to_string(),
        "place": finding.place.as_ref().map(place),
    })
}
