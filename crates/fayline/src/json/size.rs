//! What came of sizing, as JSON.

use serde_json::{Value, json};
use stages::size::{Governs, Sizing, Trial};

use super::finding;

/// A sizing of a joint.
pub(crate) fn sizing(joint: &str, sizing: &Sizing) -> Value {
    let edits = sizing.edits.iter().map(|edit| json!({ "key": edit.key, "value": edit.value }));
    json!({
        "fayline": 1,
        "job": { "title": sizing.assessment.title, "file": sizing.assessment.name },
        "joint": joint,
        "target": sizing.target,
        "reached": sizing.reached,
        "stopped": sizing.stopped,
        "planned": trial(&sizing.planned),
        "chosen": trial(&sizing.chosen),
        "edits": edits.collect::<Vec<_>>(),
        "searched": sizing.range,
        "tried": sizing.tried,
        "by_overlap": sizing.by_overlap.iter().map(trial).collect::<Vec<_>>(),
        "by_rows": sizing.by_rows.iter().map(trial).collect::<Vec<_>>(),
        "overlap_helps_to": sizing.helps_to_mm.map(length),
        "limits": sizing.limits.iter().map(finding).collect::<Vec<_>>(),
    })
}

fn trial(trial: &Trial) -> Value {
    let sizes = &trial.candidate;
    let unknown = trial.unknown.iter().map(|(id, because)| json!({ "id": id, "because": because }));
    json!({
        "overlap": length(sizes.overlap_mm),
        "rows": sizes.rows_mm.iter().copied().map(length).collect::<Vec<_>>(),
        "bondline": sizes.bondline_mm.map(length),
        "insert_wall": sizes.wall_mm.map(length),
        "least": trial.least.as_ref().map(governs),
        "bond": trial.bond.as_ref().map(governs),
        "bond_lost": trial.bond_lost.as_ref().map(governs),
        "parts": trial.parts.as_ref().map(governs),
        "unknown": unknown.collect::<Vec<_>>(),
        "broken": trial.broken,
    })
}

fn governs(governs: &Governs) -> Value {
    json!({ "reserve": governs.reserve, "id": governs.id })
}

fn length(mm: f64) -> Value {
    json!({ "value": mm, "unit": "mm" })
}
