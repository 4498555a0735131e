//! `fayline check`.

use std::path::Path;

use assessment::Stage;
use stages::Ask;

use super::{Exit, Format, Stop, assessed_as, say};
use crate::{json, text};

/// Prints the findings of a job.
pub(super) fn run(path: &Path, ask: &Ask, stage: Option<Stage>, format: Format) -> Result<Exit, Stop> {
    let assessment = match (assessed_as(path, ask), format) {
        (Ok(assessment), _) => assessment,
        (Err(stop), Format::Json) => {
            say(&stop.in_json());
            return Ok(Exit::Bad);
        }
        (Err(stop), Format::Text) => return Err(stop),
    };
    match format {
        Format::Text => say(&text::findings(&assessment, stage)),
        Format::Json => say(&format!("{:#}\n", json::assessment(&assessment, stage))),
    }
    let verdict = stage.map_or(Some(assessment.verdict()), |stage| assessment.verdict_of(stage));
    Ok(Exit::of(&assessment, verdict))
}

/// Prints what was taken for granted.
pub(super) fn assumptions(path: &Path, ask: &Ask) -> Result<Exit, Stop> {
    say(&text::assumptions(&assessed_as(path, ask)?));
    Ok(Exit::Met)
}

/// Prints one quantity, or says why there is none.
pub(super) fn get(path: &Path, ask: &Ask, name: &str) -> Result<Exit, Stop> {
    let assessment = assessed_as(path, ask)?;
    match assessment.quantities.get(name) {
        Some(Ok(measure)) => {
            let unit = if measure.unit == "-" { String::new() } else { format!(" {}", measure.unit) };
            say(&format!("{}{unit}\n", measure.value));
            Ok(Exit::Met)
        }
        Some(Err(lack)) => {
            eprintln!("fayline: {name} is unknown: {lack}; {}", lack.remedy());
            let failed = matches!(lack, assessment::Lack::Failed { .. });
            Ok(if failed { Exit::Bad } else { Exit::Open })
        }
        None => {
            let names: Vec<String> =
                assessment.quantities.names().map(|name| format!("  {name}\n")).collect();
            let names = if names.is_empty() { "  none\n".to_owned() } else { names.concat() };
            Err(Stop::Cannot(format!("the job has no quantity \"{name}\"; it has\n{}", names.trim_end())))
        }
    }
}
