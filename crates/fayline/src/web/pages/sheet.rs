//! The sheet: the picture to think with, in the middle of Join.

use assessment::{Assessment, Field, Sheet};
use drawing::svg;
use job::keys::Group;
use maud::{Markup, PreEscaped, html};
use quantity::{Kind, System};

use super::frame::{At, hidden, in_path};
use crate::report;
use crate::web::desk::View;
use crate::web::step::stepped;
use crate::web::words;

/// The sheets of a job, with the field that is asked for painted on the one that it belongs to.
pub(super) fn show(
    view: &View,
    assessment: &Assessment,
    groups: &[Group],
    asked: Option<&str>,
    back: &str,
    at: At,
    token: &str,
) -> Markup {
    html! {
        @for sheet in &assessment.sheets {
            @let fields: Vec<(&String, &Field)> =
                assessment.fields.iter().filter(|(_, field)| field.joint == sheet.joint).collect();
            @let painted = fields.iter().find(|(name, _)| Some(name.as_str()) == asked).copied();
            section.sheet id={ "sheet-of-" (sheet.joint) } data-swap {
                h2 { "The sheet of " (sheet.joint) }
                (switch(view, at, sheet, &fields, painted.map(|(name, _)| name.as_str())))
                (drawn(sheet, painted, assessment.system))
                (rows(view, sheet, groups, back, token))
            }
        }
    }
}

/// Which field is painted.
fn switch(view: &View, at: At, sheet: &Sheet, fields: &[(&String, &Field)], now: Option<&str>) -> Markup {
    let id = format!("paint-{}", sheet.joint);
    html! {
        form.paint method="get" action=(at.path(&view.name)) {
            label for=(id) { "Painted on it" }
            select id=(id) name="field" {
                option value="" selected[now.is_none()] { "beads and squeeze-out" }
                @for (name, field) in fields {
                    option value=(name) selected[now == Some(name.as_str())] { (short(name, field)) }
                }
            }
            button.set { "Paint" }
        }
    }
}

/// What a field is, with the case that it belongs to.
fn short(name: &str, field: &Field) -> String {
    let start = format!("join.{}.", field.joint);
    let case = name.strip_prefix(&start).and_then(|rest| rest.split('.').next()).unwrap_or_default();
    format!("{case}: {}", field.what)
}

fn drawn(sheet: &Sheet, painted: Option<(&String, &Field)>, system: System) -> Markup {
    let painted = painted.map(|(name, field)| (name.as_str(), field));
    let figure = report::on_screen(drawing::sheet::figure(sheet, painted, system));
    let svg = match svg::in_page(&figure) {
        Ok(svg) => svg,
        Err(error) => return html! { p.aside { "The sheet cannot be drawn: " (error.to_string()) } },
    };
    html! {
        div.pan id={ "pan-" (sheet.joint) } tabindex="0" role="group"
            aria-label="The sheet. Arrow keys move it, plus and minus change its size, 0 shows all of it." {
            (PreEscaped(svg))
        }
        p.zoom {
            button type="button" data-zoom="in" { "Larger" } " "
            button type="button" data-zoom="out" { "Smaller" } " "
            button type="button" data-zoom="all" { "All of it" }
        }
        p.reading id={ "reading-" (sheet.joint) } role="status" aria-live="polite" { (words::TAP) }
        ul hidden {
            @for (name, words) in readings(sheet, painted.map(|(_, field)| field), system) {
                li data-for=(name) { (words) }
            }
        }
    }
}

/// What there is to read at each rivet and each patch.
fn readings(sheet: &Sheet, field: Option<&Field>, system: System) -> Vec<(String, String)> {
    let print = |mm: f64| quantity::print(mm, Kind::Length, system);
    let mut all = Vec::new();
    for face in &sheet.faces {
        for hole in &face.holes {
            let beside = field
                .map_or(String::new(), |field| at(field, sheet, face.name, hole.x_mm, hole.s_mm, system));
            all.push((
                format!("hole-{}", hole.number),
                format!(
                    "Rivet {} on the {} face: {} along, {} from its middle, hole {}.{beside}",
                    hole.number,
                    face.name,
                    print(hole.x_mm),
                    print(hole.s_mm),
                    print(hole.diameter_mm)
                ),
            ));
        }
    }
    for (place, cell) in field.iter().flat_map(|field| &field.cells).enumerate() {
        let face = sheet.faces.get(cell.face).map_or("", |face| face.name);
        let [x0, x1] = cell.patch.x_mm;
        let value = field.map_or(String::new(), |field| value(field, cell.value, system));
        all.push((
            format!("cell-{}", place + 1),
            format!("{face} face, {} to {} along: {value}.", print(x0), print(x1)),
        ));
    }
    all
}

fn at(field: &Field, sheet: &Sheet, face: &str, x_mm: f64, s_mm: f64, system: System) -> String {
    let inside = |[from, to]: [f64; 2], at: f64| from <= at && at <= to;
    let cell = field.cells.iter().find(|cell| {
        sheet.faces.get(cell.face).is_some_and(|it| it.name == face)
            && inside(cell.patch.x_mm, x_mm)
            && inside(cell.patch.s_mm, s_mm)
    });
    cell.map_or(String::new(), |cell| format!(" There: {}.", value(field, cell.value, system)))
}

fn value(field: &Field, value: f64, system: System) -> String {
    match field.kind {
        Some(kind) => format!("{} {}", field.what, quantity::print(value, kind, system)),
        None => format!("{} {} {}", field.what, drawing::chart::rounded(value, 3), field.unit),
    }
}

/// The rows of rivets: move each, add one, take one away.
fn rows(view: &View, sheet: &Sheet, groups: &[Group], back: &str, token: &str) -> Markup {
    let key = format!("joints.{}.rivets.rows", sheet.joint);
    let given =
        groups.iter().flat_map(|group| &group.keys).find(|it| it.key == key).and_then(|it| it.given.clone());
    let Some(given) = given else { return html! {} };
    let rows: Vec<&str> = given.split(',').map(str::trim).collect();
    let set = |words: &str, id: &str, label: &str, rows: Option<Vec<String>>| {
        html! {
            @if let Some(rows) = rows {
                form method="post" action={ "/job/" (in_path(&view.name)) "/do/change" } {
                    (hidden(back, token))
                    input type="hidden" name="key" value=(key);
                    input type="hidden" name="value" value=(rows.join(", "));
                    button.step id=(id) aria-label=(label) { (words) }
                }
            }
        }
    };
    let moved = |place: usize, up: bool| -> Option<Vec<String>> {
        let new = stepped(rows.get(place)?, up, false)?;
        Some(
            rows.iter()
                .enumerate()
                .map(|(at, row)| if at == place { new.clone() } else { (*row).to_owned() })
                .collect(),
        )
    };
    let without = |place: usize| -> Option<Vec<String>> {
        let left = rows.iter().enumerate().filter(|(at, _)| *at != place).map(|(_, row)| (*row).to_owned());
        (rows.len() > 1).then(|| left.collect())
    };
    let added = || -> Option<Vec<String>> {
        let last = rows.last()?;
        let mm = quantity::parse(last, Kind::Length).ok()?;
        let before = rows.iter().rev().nth(1).and_then(|row| quantity::parse(row, Kind::Length).ok());
        let pitch = before.map_or(mm, |before| mm - before);
        let new = quantity::print_exact(mm + pitch, Kind::Length);
        Some(rows.iter().map(|row| (*row).to_owned()).chain([new]).collect())
    };
    html! {
        div.rows {
            h3 { "Rows of rivets, from the cut" }
            @for (place, row) in rows.iter().enumerate() {
                @let number = place + 1;
                p {
                    span.row { "Row " (number) ": " strong { (row) } }
                    (set("−", &format!("row-{}-{number}-less", sheet.joint), &format!("row {number} nearer to the cut"), moved(place, false)))
                    (set("+", &format!("row-{}-{number}-more", sheet.joint), &format!("row {number} further from the cut"), moved(place, true)))
                    (set("Take away", &format!("row-{}-{number}-away", sheet.joint), &format!("take row {number} away"), without(place)))
                }
            }
            (set("Add a row", &format!("row-{}-add", sheet.joint), "add a row of rivets", added()))
        }
    }
}
