//! `fayline draw`.

use std::path::Path;

use assessment::{Assessment, Sheet};
use clap::ValueEnum;
use drawing::figure::Figure;
use drawing::sheet;
use drawing::template::Paper;

use super::{Exit, Stop, assessed, say};
use crate::drawn::{Form, written};
use crate::files::{in_words, write_whole};

/// What can be drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(super) enum What {
    /// The faying surfaces laid flat, with cut, folds, bonded stretches and numbered holes
    Sheet,
    /// The sheet tiled to paper at full scale, with match marks and a 100 mm rule on each page
    Template,
}

/// A request for a drawing.
#[derive(Debug)]
pub(super) struct Request<'a> {
    pub(super) job: &'a Path,
    pub(super) what: What,
    pub(super) joint: Option<&'a str>,
    pub(super) field: Option<&'a str>,
    pub(super) paper: Paper,
    pub(super) output: &'a Path,
}

/// Writes a drawing; the ending of the file says in which form.
pub(super) fn run(request: &Request<'_>) -> Result<Exit, Stop> {
    let form = form_of(request)?;
    let assessment = assessed(request.job)?;
    let laid = chosen(&assessment, request.joint)?;
    let figure = drawn(&assessment, laid, request.field)?;
    let shown = request.output.display();
    let bytes =
        written(&figure, form).map_err(|why| Stop::Cannot(format!("{shown} cannot be drawn: {why}")))?;
    write_whole(request.output, &bytes)
        .map_err(|error| Stop::Cannot(format!("{shown} cannot be written: {}", in_words(&error))))?;
    say(&format!("{shown} is written, one millimetre to the millimetre.\n"));
    Ok(Exit::Met)
}

/// The form that the ending of a file asks for.
fn form_of(request: &Request<'_>) -> Result<Form, Stop> {
    let ending = request.output.extension().map(|ending| ending.to_string_lossy().to_lowercase());
    match (ending.as_deref(), request.what) {
        (Some("svg"), _) => Ok(Form::Svg),
        (Some("pdf"), What::Sheet) => Ok(Form::Pdf),
        (Some("pdf"), What::Template) => Ok(Form::Template(request.paper)),
        (Some("dxf"), _) => Ok(Form::Dxf),
        _ => {
            let shown = request.output.display();
            Err(Stop::Cannot(format!(
                "{shown} does not end in .svg, .pdf or .dxf, the forms of drawings there are"
            )))
        }
    }
}

/// The template of a joint.
pub(super) fn template(assessment: &Assessment, laid: &Sheet, paper: Paper) -> Result<Vec<u8>, Stop> {
    let figure = drawn(assessment, laid, None)?;
    written(&figure, Form::Template(paper))
        .map_err(|why| Stop::Cannot(format!("the template of {} cannot be made: {why}", laid.joint)))
}

/// The sheet that is asked for; without a name the only one there is.
fn chosen<'a>(assessment: &'a Assessment, joint: Option<&str>) -> Result<&'a Sheet, Stop> {
    let names: Vec<&str> = assessment.sheets.iter().map(|sheet| sheet.joint.as_str()).collect();
    let known = if names.is_empty() { "none".to_owned() } else { names.join(", ") };
    match (joint, assessment.sheets.as_slice()) {
        (Some(name), sheets) => sheets.iter().find(|sheet| sheet.joint == name).ok_or_else(|| {
            Stop::Cannot(format!("the job has no sheet of a joint \"{name}\"; it has: {known}"))
        }),
        (None, [only]) => Ok(only),
        (None, []) => Err(Stop::Cannot("the job has no joint of which a sheet can be drawn".to_owned())),
        (None, _) => {
            Err(Stop::Cannot(format!("the job has several joints; say which with --joint: {known}")))
        }
    }
}

/// The sheet, with a field where one is asked for.
fn drawn(assessment: &Assessment, laid: &Sheet, field: Option<&str>) -> Result<Figure, Stop> {
    let Some(name) = field else { return Ok(sheet::figure(laid, None, assessment.system)) };
    let of_joint = |joint: &str| joint == laid.joint;
    match assessment.fields.get_key_value(name).filter(|(_, field)| of_joint(&field.joint)) {
        Some((name, field)) => Ok(sheet::figure(laid, Some((name.as_str(), field)), assessment.system)),
        None => {
            let known = assessment.fields.iter().filter(|(_, field)| of_joint(&field.joint));
            let known: Vec<&str> = known.map(|(name, _)| name.as_str()).collect();
            let known = if known.is_empty() { "none".to_owned() } else { known.join(", ") };
            Err(Stop::Cannot(format!("{} has no field \"{name}\"; it has: {known}", laid.joint)))
        }
    }
}
