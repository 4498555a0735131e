//! What can be taken along from a job.

use assessment::{Assessment, Sheet};
use drawing::template::Paper;

use crate::drawn::{Form, written};
use crate::{json, report};

/// A file to be taken along: its kind and its bytes; nothing where there is no such file.
pub(super) fn file(
    assessment: &Assessment,
    text: &str,
    what: &str,
    joint: Option<&str>,
) -> Option<Result<(&'static str, Vec<u8>), String>> {
    let sheet =
        || -> Option<&Sheet> { assessment.sheets.iter().find(|sheet| Some(sheet.joint.as_str()) == joint) };
    let drawn = |kind: &'static str, form: Form| {
        let figure = drawing::sheet::figure(sheet()?, None, assessment.system);
        Some(written(&figure, form).map(|bytes| (kind, bytes)))
    };
    let on_paper = |paper: Paper| {
        Some(report::pdf(assessment, paper).map(|bytes| (PDF, bytes)).map_err(|error| error.to_string()))
    };
    match what {
        "report.html" => Some(Ok((HTML, report::html(assessment).into_bytes()))),
        "report-a4.pdf" => on_paper(Paper::A4),
        "report-letter.pdf" => on_paper(Paper::Letter),
        "findings.json" => {
            Some(Ok(("application/json", format!("{:#}\n", json::assessment(assessment, None)).into_bytes())))
        }
        "job.toml" => Some(Ok(("application/toml", text.as_bytes().to_vec()))),
        "sheet.svg" => drawn("image/svg+xml", Form::Svg),
        "sheet.pdf" => drawn(PDF, Form::Pdf),
        "sheet.dxf" => drawn("image/vnd.dxf", Form::Dxf),
        "template-a4.pdf" => drawn(PDF, Form::Template(Paper::A4)),
        "template-letter.pdf" => drawn(PDF, Form::Template(Paper::Letter)),
        _ => None,
    }
}

const PDF: &str = "application/pdf";
const HTML: &str = "text/html; charset=utf-8";
