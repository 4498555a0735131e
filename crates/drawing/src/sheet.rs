//! The sheet: the faying surfaces of a joint laid flat at full scale, with cut, folds, bonded stretches and rivet
//! holes, how the adhesive is laid and where it must show, and a field painted on them.
//!
//! Seen from outside, the member running to the right; the faces follow each other as they do around the section.
//! Layers: `sheet-outline`, `sheet-folds`, `sheet-cut`, `sheet-bond`, `sheet-beads`, `sheet-squeeze-out`,
//! `sheet-field`, `sheet-holes`, `sheet-text`. Beads and squeeze-out stand on the plain sheet only, that a field be
//! read without them.

mod lay;

use assessment::{Field, Patch, Sheet, SheetFace};
use quantity::{Kind, Scale, System};

use crate::chart::{count, rounded};
use crate::figure::{Anchor, Figure, Pen, Shape, Text};
use crate::lettering::{Lettering, width_mm};
use crate::look::{Colour, GRID_MM, SMEAR_STEPS};

/// Room around the pattern, mm.
const MARGIN: f64 = 4.0 * GRID_MM;
/// Height of one line of text, mm.
const LINE: f64 = 3.0 * GRID_MM;

/// Draws a sheet, plain or with a field of the same joint painted on its bonded stretches. The drawing is at full scale
/// in either system of units; its words are in the one asked for.
pub fn figure(sheet: &Sheet, field: Option<(&str, &Field)>, system: System) -> Figure {
    let names = sheet.faces.iter().map(|face| width_mm(face.name, Lettering::Text)).fold(0.0, f64::max);
    let across: f64 = sheet.faces.iter().map(|face| face.width_mm).sum();
    let length = sheet.x_mm[1] - sheet.x_mm[0];
    let title = title(sheet, field);
    let left = MARGIN + names + 2.0 * GRID_MM;
    let top = MARGIN + LINE + GRID_MM;
    // The words above and below may be longer than a short overlap.
    let below = left + width_mm(&along(sheet), Lettering::Text) + MARGIN;
    let above = 2.0 * MARGIN + width_mm(&title, Lettering::Strong);
    let lay_width = if field.is_none() { lay::LEAST_WIDTH + 2.0 * MARGIN } else { 0.0 };
    let width = (left + length + MARGIN).max(above).max(below).max(lay_width);
    let words = match field {
        None => lay::legend(sheet, system, width - 2.0 * MARGIN),
        Some(_) => Vec::new(),
    };
    let legend = if field.is_some() { 2.0 * LINE } else { count(words.len()) * LINE };
    let mut figure = Figure {
        name: match field {
            None => format!("sheet-{}", sheet.joint),
            Some((name, _)) => format!("sheet-{name}"),
        },
        title: title.clone(),
        desc: desc(sheet),
        size_mm: [width, top + across + 3.0 * LINE + legend + MARGIN],
        marks: Vec::new(),
    };
    write(
        &mut figure,
        [MARGIN, MARGIN + 2.0 * GRID_MM],
        Anchor::Start,
        Lettering::Strong,
        Colour::Ink,
        title,
    );
    let mut pattern = Pattern { figure, origin: [left - sheet.x_mm[0], top], sheet, system };
    pattern.fill(field.map(|(_, field)| field));
    pattern.outline();
    pattern.cut();
    if field.is_none() {
        pattern.squeeze_out();
        pattern.beads();
    }
    pattern.holes();
    pattern.words(left, across);
    let below = top + across + 3.0 * LINE;
    match field {
        Some((_, field)) => pattern.legend(left, below, field),
        None => lay::write_legend(&mut pattern.figure, &words, below + GRID_MM),
    }
    pattern.figure
}

fn title(sheet: &Sheet, field: Option<(&str, &Field)>) -> String {
    match field {
        None => format!("{}: the sheet, full scale", sheet.joint),
        Some((_, field)) => format!("{}: {}", sheet.joint, field.what),
    }
}

/// What x means.
fn along(sheet: &Sheet) -> String {
    format!("x {}", sheet.along)
}

fn desc(sheet: &Sheet) -> String {
    let holes: usize = sheet.faces.iter().map(|face| face.holes.len()).sum();
    let names: Vec<&str> = sheet.faces.iter().map(|face| face.name).collect();
    format!("Faying surfaces laid flat, seen from outside: {}. {holes} rivet holes.", names.join(", "))
}

fn write(
    figure: &mut Figure,
    at: [f64; 2],
    anchor: Anchor,
    lettering: Lettering,
    colour: Colour,
    words: impl Into<String>,
) {
    let text = Text { at, anchor, turn_deg: 0.0, lettering, colour, words: words.into() };
    figure.add("sheet-text", Shape::Text(text));
}

/// A sheet while it is being drawn.
struct Pattern<'s> {
    figure: Figure,
    /// Where x = 0 and the upper edge of the first face lie on the figure, mm.
    origin: [f64; 2],
    sheet: &'s Sheet,
    /// In which units its words are.
    system: System,
}

impl Pattern<'_> {
    /// Faces with the place of their upper edge, mm from the pattern's.
    fn faces(&self) -> Vec<(usize, &SheetFace, f64)> {
        let mut edge = 0.0;
        let mut faces = Vec::with_capacity(self.sheet.faces.len());
        for (index, face) in self.sheet.faces.iter().enumerate() {
            faces.push((index, face, edge));
            edge += face.width_mm;
        }
        faces
    }

    /// A point of a face on the figure.
    fn at(&self, face: &SheetFace, edge: f64, x: f64, s: f64) -> [f64; 2] {
        [self.origin[0] + x, self.origin[1] + edge + face.width_mm / 2.0 - face.up * s]
    }

    fn rectangle(&self, face: &SheetFace, edge: f64, patch: &Patch) -> Vec<[f64; 2]> {
        let [x0, x1] = patch.x_mm;
        let [s0, s1] = patch.s_mm;
        [(x0, s0), (x1, s0), (x1, s1), (x0, s1)].map(|(x, s)| self.at(face, edge, x, s)).to_vec()
    }

    /// The bonded stretches, or the field in their place.
    fn fill(&mut self, field: Option<&Field>) {
        let mut areas = Vec::new();
        for (index, face, edge) in self.faces() {
            match field {
                None => {
                    let bonded = face.bonded.iter();
                    areas.extend(bonded.map(|it| {
                        ("sheet-bond", None, self.area(face, edge, it, Some(Colour::Smear(1)), None))
                    }));
                }
                Some(field) => {
                    let greatest = field.greatest();
                    for (place, cell) in field.cells.iter().enumerate().filter(|(_, cell)| cell.face == index)
                    {
                        let fill = Some(Colour::Smear(step(cell.value, greatest)));
                        let shape = self.area(face, edge, &cell.patch, fill, None);
                        areas.push(("sheet-field", Some(format!("cell-{}", place + 1)), shape));
                    }
                }
            }
        }
        for (layer, name, shape) in areas {
            self.figure.add(layer, shape).name = name;
        }
    }

    fn outline(&mut self) {
        let [x0, x1] = self.sheet.x_mm.map(|x| self.origin[0] + x);
        let across: f64 = self.sheet.faces.iter().map(|face| face.width_mm).sum();
        let (top, bottom) = (self.origin[1], self.origin[1] + across);
        let folds: Vec<f64> = self.faces().iter().skip(1).map(|(_, _, edge)| top + edge).collect();
        for y in folds {
            self.figure.line("sheet-folds", Pen::Fold, [x0, y], [x1, y]);
        }
        let ring = vec![[x0, top], [x1, top], [x1, bottom], [x0, bottom]];
        self.figure.add("sheet-outline", Shape::Area { rings: vec![ring], fill: None, pen: Some(Pen::Edge) });
        let mut edges = Vec::new();
        for (_, face, edge) in self.faces() {
            edges.extend(face.bonded.iter().map(|it| self.area(face, edge, it, None, Some(Pen::Thin))));
        }
        for shape in edges {
            self.figure.add("sheet-bond", shape);
        }
    }

    fn cut(&mut self) {
        let Some(half_gap) = self.sheet.half_gap_mm else { return };
        let across: f64 = self.sheet.faces.iter().map(|face| face.width_mm).sum();
        let [x, top] = self.origin;
        // Neither into the title above nor into the word below.
        let reach = GRID_MM;
        self.figure.line("sheet-cut", Pen::Cut, [x, top - reach], [x, top + across + reach]);
        for side in [-half_gap, half_gap].into_iter().filter(|gap| *gap != 0.0) {
            self.figure.line("sheet-cut", Pen::Thin, [x + side, top], [x + side, top + across]);
        }
    }

    fn holes(&mut self) {
        let mut drawn = Vec::new();
        for (_, face, edge) in self.faces() {
            drawn.extend(face.holes.iter().map(|hole| (*hole, self.at(face, edge, hole.x_mm, hole.s_mm))));
        }
        for (hole, centre) in drawn {
            let radius = hole.diameter_mm / 2.0;
            let circle = Shape::Circle { centre, radius, fill: Some(Colour::Sheet), pen: Some(Pen::Edge) };
            self.figure.add("sheet-holes", circle).name = Some(format!("hole-{}", hole.number));
            // A small cross to set the punch on.
            for [dx, dy] in [[1.0, 0.0], [0.0, 1.0]] {
                let arm = radius + GRID_MM / 2.0;
                let (from, to) = (
                    [centre[0] - arm * dx, centre[1] - arm * dy],
                    [centre[0] + arm * dx, centre[1] + arm * dy],
                );
                self.figure.line("sheet-holes", Pen::Thin, from, to);
            }
            // The number stands on paper of its own, so that it reads on the darkest field.
            let number = Text {
                at: [centre[0] + radius + GRID_MM / 2.0, centre[1] - radius],
                anchor: Anchor::Start,
                turn_deg: 0.0,
                lettering: Lettering::Text,
                colour: Colour::Ink,
                words: hole.number.to_string(),
            };
            let [left, top, right, bottom] = number.bounds_mm();
            let ring = vec![[left, top], [right, top], [right, bottom], [left, bottom]];
            let paper = Shape::Area { rings: vec![ring], fill: Some(Colour::Sheet), pen: None };
            self.figure.add("sheet-text", paper);
            self.figure.add("sheet-text", Shape::Text(number));
        }
    }

    fn words(&mut self, left: f64, across: f64) {
        let names: Vec<(&str, f64)> =
            self.faces().iter().map(|(_, face, edge)| (face.name, edge + face.width_mm / 2.0)).collect();
        // A long name of a lone face stands under the sheet; short ones stand beside their faces.
        for (name, middle) in names {
            let at = [left - 2.0 * GRID_MM, self.origin[1] + middle + GRID_MM / 2.0];
            write(&mut self.figure, at, Anchor::End, Lettering::Text, Colour::Ink, name);
        }
        let below = self.origin[1] + across + LINE;
        let [x0, x1] = self.sheet.x_mm;
        let ends = [(x0, Anchor::Start), (x1, Anchor::End)];
        let length = Scale::of(x0.abs().max(x1.abs()), Kind::Length, self.system);
        let words = ends.map(|(x, _)| format!("{}\u{a0}{}", dimension(length.value(x)), length.unit()));
        let room = x1 - x0 - 2.0 * GRID_MM;
        if words.iter().map(|words| width_mm(words, Lettering::Text)).sum::<f64>() > room {
            // Both ends of a short overlap in one.
            let both = format!("{} to {}", dimension(length.value(x0)), words[1]);
            let at = [self.origin[0] + x0, below];
            write(&mut self.figure, at, Anchor::Start, Lettering::Text, Colour::Ink, both);
            return self.along(left, below + LINE);
        }
        for ((x, anchor), words) in ends.into_iter().zip(words) {
            write(&mut self.figure, [self.origin[0] + x, below], anchor, Lettering::Text, Colour::Ink, words);
        }
        if self.sheet.half_gap_mm.is_some() {
            write(
                &mut self.figure,
                [self.origin[0], below],
                Anchor::Middle,
                Lettering::Text,
                Colour::Ink,
                "cut",
            );
        }
        self.along(left, below + LINE);
    }

    /// What x means.
    fn along(&mut self, left: f64, baseline: f64) {
        let words = along(self.sheet);
        write(&mut self.figure, [left, baseline], Anchor::Start, Lettering::Text, Colour::Aside, words);
    }

    /// The steps of the smear with the values at which they begin.
    fn legend(&mut self, left: f64, top: f64, field: &Field) {
        let greatest = field.greatest();
        let width = 2.0 * GRID_MM;
        for index in 0..=SMEAR_STEPS {
            let x = left + width * f64::from(index);
            let ring = vec![[x, top], [x + width, top], [x + width, top + GRID_MM], [x, top + GRID_MM]];
            let area =
                Shape::Area { rings: vec![ring], fill: Some(Colour::Smear(index)), pen: Some(Pen::Thin) };
            self.figure.add("sheet-text", area);
        }
        let below = top + GRID_MM + 2.0 * GRID_MM;
        let end = left + width * f64::from(SMEAR_STEPS + 1);
        write(&mut self.figure, [left, below], Anchor::Start, Lettering::Text, Colour::Ink, "0");
        let most = match field.kind.map(|kind| Scale::of(greatest, kind, self.system)) {
            Some(scale) => format!("{}\u{a0}{}", rounded(scale.value(greatest), 3), scale.unit()),
            None => format!("{}\u{a0}{}", rounded(greatest, 3), field.unit),
        };
        write(
            &mut self.figure,
            [end + GRID_MM, top + GRID_MM],
            Anchor::Start,
            Lettering::Text,
            Colour::Ink,
            most,
        );
    }
}

/// A dimension to four figures without idle zeros.
fn dimension(value: f64) -> String {
    let words = rounded(value, 4);
    if words.contains('.') { words.trim_end_matches('0').trim_end_matches('.').to_owned() } else { words }
}

/// The step of the smear for a value.
fn step(value: f64, greatest: f64) -> u8 {
    if greatest <= 0.0 {
        return 0;
    }
    let share = (value / greatest).clamp(0.0, 1.0) * f64::from(SMEAR_STEPS);
    (0..=SMEAR_STEPS).take_while(|index| f64::from(*index) <= share + 0.5).last().unwrap_or(0)
}

#[cfg(test)]
mod tests {
    use assessment::{Bead, Beads, Cell, SheetHole};

    use super::*;

    fn sheet() -> Sheet {
        let face = |name, up| SheetFace {
            name,
            width_mm: 60.0,
            up,
            bonded: vec![Patch { x_mm: [1.0, 101.0], s_mm: [-20.0, 20.0] }],
            holes: vec![SheetHole { number: 1, x_mm: 31.0, s_mm: 10.0, diameter_mm: 6.6 }],
        };
        Sheet {
            joint: "rail".to_owned(),
            along: "along the member from the middle of the cut",
            x_mm: [-101.0, 101.0],
            half_gap_mm: Some(1.0),
            round: false,
            faces: vec![face("left", -1.0), face("top", 1.0)],
            beads: None,
        }
    }

    fn circles(figure: &Figure) -> Vec<([f64; 2], f64)> {
        let circle = |mark: &crate::figure::Mark| match &mark.shape {
            Shape::Circle { centre, radius, .. } => Some((*centre, *radius)),
            _ => None,
        };
        figure.marks.iter().filter_map(circle).collect()
    }

    #[test]
    fn unit_holes_stand_at_their_coordinates_at_full_scale() {
        let figure = figure(&sheet(), None, System::Metric);
        let holes = circles(&figure);
        assert_eq!(holes.len(), 2);
        let ([left, top], radius) = holes[0];
        let ([same, below], _) = holes[1];
        assert!((radius - 3.3).abs() < 1e-12 && (left - same).abs() < 1e-12);
        // On the first face s grows downward, on the second upward: 30 + 10 and 60 + 30 − 10 mm from the top.
        assert!((below - top - (80.0 - 40.0)).abs() < 1e-9, "{below} {top}");
        let cut = figure.marks.iter().find(|mark| mark.layer == "sheet-cut").expect("a cut");
        let Shape::Line { from, .. } = &cut.shape else { panic!("the cut is no line") };
        assert!((left - from[0] - 31.0).abs() < 1e-9);
    }

    #[test]
    fn unit_everything_lies_inside_the_figure() {
        let field = Field {
            joint: "rail".to_owned(),
            what: "line load around the perimeter",
            unit: "N/mm",
            kind: Some(Kind::LineLoad),
            cells: vec![Cell {
                face: 0,
                patch: Patch { x_mm: [1.0, 101.0], s_mm: [-20.0, 20.0] },
                value: 400.0,
            }],
        };
        for figure in [
            figure(&sheet(), None, System::Metric),
            figure(&sheet(), Some(("join.rail.x.line_load_field", &field)), System::Metric),
        ] {
            for mark in &figure.marks {
                let [left, top, right, bottom] = mark.shape.bounds_mm();
                let [width, height] = figure.size_mm;
                assert!(left >= 0.0 && top >= 0.0 && right <= width && bottom <= height, "{mark:?}");
            }
        }
    }

    /// "Beads and squeeze-out edge": on layers of their own, told in words, and not on a painted field.
    #[test]
    fn unit_the_lay_has_layers_of_its_own() {
        let mut laid = sheet();
        let line = |face, x_mm| Bead { face, x_mm, s_mm: 5.0, section_mm2: 12.0, spacing_mm: 20.0 };
        laid.beads =
            Some(Beads { lines: vec![line(0, [11.0, 91.0]), line(1, [11.0, 91.0])], allowance: 0.2 });
        for (system, thick) in
            [(System::Metric, "3.9\u{a0}mm thick"), (System::Imperial, "0.15\u{a0}in thick")]
        {
            let figure = figure(&laid, None, system);
            let on = |layer: &str| figure.marks.iter().filter(|mark| mark.layer == layer).count();
            assert_eq!((on("sheet-beads"), on("sheet-squeeze-out")), (2, 2));
            let holes = figure.marks.iter().filter(|mark| mark.layer == "sheet-holes");
            assert!(holes.clone().all(|mark| mark.name.as_ref().is_none_or(|name| name.starts_with("hole"))));
            let said: Vec<&str> = figure
                .marks
                .iter()
                .filter_map(|mark| match &mark.shape {
                    Shape::Text(text) => Some(text.words.as_str()),
                    _ => None,
                })
                .collect();
            let said = said.join(" ");
            assert!(said.contains(thick) && said.contains("Squeeze-out"), "{said}");
            for mark in &figure.marks {
                let [left, top, right, bottom] = mark.shape.bounds_mm();
                let [width, height] = figure.size_mm;
                assert!(left >= 0.0 && top >= 0.0 && right <= width && bottom <= height, "{mark:?}");
            }
        }
    }

    #[test]
    fn unit_a_short_overlap_leaves_room_for_its_words() {
        let mut short = sheet();
        (short.x_mm, short.half_gap_mm, short.faces) = ([0.0, 12.5], None, Vec::new());
        let figure = figure(&short, None, System::Metric);
        for mark in &figure.marks {
            assert!(mark.shape.bounds_mm()[2] <= figure.size_mm[0], "{mark:?}");
        }
    }

    #[test]
    fn unit_steps_run_from_none_to_the_darkest() {
        assert_eq!([0.0, 0.4, 1.0].map(|value| step(value, 1.0)), [0, 3, SMEAR_STEPS]);
        assert_eq!(step(1.0, 0.0), 0);
    }
}
