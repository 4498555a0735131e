//! Drawings as files: a figure in the form that is asked for, one millimetre to the millimetre.

use drawing::dxf::dxf;
use drawing::page::Page;
use drawing::pdf::{Meta, pdf};
use drawing::template::{Paper, tiled};
use drawing::{Figure, svg};

/// The form in which a drawing is written.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Form {
    /// One drawing for a browser or an editor.
    Svg,
    /// One page as large as the drawing.
    Pdf,
    /// Tiles on paper, with match marks and a rule.
    Template(Paper),
    /// For a machine that cuts.
    Dxf,
}

/// The bytes of the file. Only a template is tiled: SVG and DXF have no pages, and are at full scale as they are.
///
/// # Errors
/// Why the figure cannot be drawn, in words.
pub(crate) fn written(figure: &Figure, form: Form) -> Result<Vec<u8>, String> {
    let meta = Meta { title: figure.title.clone(), description: figure.desc.clone(), ..Meta::default() };
    let pages = match form {
        Form::Svg => return svg::alone(figure).map(String::into_bytes).map_err(|error| error.to_string()),
        Form::Dxf => return dxf(figure).map(String::into_bytes).map_err(|error| error.to_string()),
        Form::Pdf => vec![Page::with(figure.size_mm, figure, [0.0, 0.0])],
        Form::Template(paper) => tiled(figure, paper, &figure.title).map_err(|error| error.to_string())?,
    };
    pdf(&pages, &meta).map_err(|error| error.to_string())
}
