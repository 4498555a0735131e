//! How the adhesive is laid and where it must show: beads, the edge of the squeeze-out, and what they mean in words.

use assessment::{Bead, Beads, Patch, Sheet};
use quantity::{Kind, Scale, System};

use super::{LINE, MARGIN, Pattern};
use crate::chart::rounded;
use crate::figure::{Anchor, Figure, Pen, Point, Shape};
use crate::lettering::{Lettering, wrap};
use crate::look::{Colour, GRID_MM};

/// Layer of the beads.
const BEADS: &str = "sheet-beads";
/// Layer of the edge along which adhesive must show.
const SQUEEZE_OUT: &str = "sheet-squeeze-out";
/// How far outside the bonded patch that edge is drawn, mm: beside its outline, not on it.
const OUTSIDE: f64 = GRID_MM / 2.0;
/// Length of the sample of a pen before its words, mm.
const SAMPLE: f64 = 5.0 * GRID_MM;
/// The least width in which the words are set, mm.
pub(super) const LEAST_WIDTH: f64 = 56.0 * GRID_MM;

/// The lines of the legend of a sheet, each with the pen that it begins with.
pub(super) fn legend(sheet: &Sheet, system: System, width: f64) -> Vec<(Option<Pen>, String)> {
    let mut lines = Vec::new();
    let mut item = |pen, words: &str| {
        let set = wrap(words, width - SAMPLE - GRID_MM, Lettering::Text);
        lines.extend(set.into_iter().enumerate().map(|(row, words)| ((row == 0).then_some(pen), words)));
    };
    if let Some(beads) = &sheet.beads {
        item(Pen::AccentDashed, &in_words(beads, system));
    }
    if sheet.faces.iter().any(|face| !face.bonded.is_empty()) {
        let gap = if sheet.half_gap_mm.is_some() { ", in the gap at the cut too," } else { "" };
        item(
            Pen::Dotted,
            &format!(
                "Squeeze-out: adhesive must show all along this edge{gap} before it is wiped off (common practice, no \
                 source)."
            ),
        );
    }
    lines
}

fn in_words(beads: &Beads, system: System) -> String {
    let range = |values: &mut dyn Iterator<Item = f64>| {
        let (least, most) =
            values.fold((f64::INFINITY, 0.0_f64), |(least, most), it| (least.min(it), most.max(it)));
        let scale = Scale::of(most, Kind::Length, system);
        // Two figures: a hand lays no bead to a hundredth of a millimetre.
        let [from, to] = [least, most].map(|end| rounded(scale.value(end), 2));
        let range = if from == to { to } else { format!("{from} to {to}") };
        format!("{range}\u{a0}{}", scale.unit())
    };
    let thick = range(&mut beads.lines.iter().map(Bead::diameter_mm));
    let apart = range(&mut beads.lines.iter().map(|bead| bead.spacing_mm));
    format!(
        "Beads of adhesive {thick} thick, one to each {apart} of width, along the overlap: the bondline's volume and \
         {:.0} % of it to be pressed out (common practice, no source).",
        100.0 * beads.allowance
    )
}

/// Writes the legend below each other from `top`.
pub(super) fn write_legend(figure: &mut Figure, lines: &[(Option<Pen>, String)], top: f64) {
    let mut baseline = top;
    for (pen, words) in lines {
        if let Some(pen) = pen {
            let y = baseline - GRID_MM / 2.0;
            figure.line("sheet-text", *pen, [MARGIN, y], [MARGIN + SAMPLE, y]);
        }
        let at = [MARGIN + SAMPLE + GRID_MM, baseline];
        super::write(figure, at, Anchor::Start, Lettering::Text, Colour::Ink, words.clone());
        baseline += LINE;
    }
}

impl Pattern<'_> {
    /// The beads on their faces.
    pub(super) fn beads(&mut self) {
        let Some(beads) = &self.sheet.beads else { return };
        let mut drawn = Vec::new();
        for (index, face, edge) in self.faces() {
            let on = beads.lines.iter().filter(|bead| bead.face == index);
            drawn.extend(on.map(|bead| bead.x_mm.map(|x| self.at(face, edge, x, bead.s_mm))));
        }
        for (number, [from, to]) in (1..).zip(drawn) {
            self.figure.line(BEADS, Pen::AccentDashed, from, to).name = Some(format!("bead-{number}"));
        }
    }

    /// The edge along which adhesive must show, around each bonded patch; at a cut open toward its gap, which is too
    /// narrow for lines beside the cut's own.
    pub(super) fn squeeze_out(&mut self) {
        let mut drawn = Vec::new();
        for (_, face, edge) in self.faces() {
            for patch in &face.bonded {
                let [from, to] = patch.x_mm;
                let [s0, s1] = [patch.s_mm[0] - OUTSIDE, patch.s_mm[1] + OUTSIDE];
                if self.sheet.half_gap_mm.is_none() {
                    let around = Patch { x_mm: [from - OUTSIDE, to + OUTSIDE], s_mm: [s0, s1] };
                    drawn.push(self.area(face, edge, &around, None, Some(Pen::Dotted)));
                    continue;
                }
                let (cut, far) = if from < 0.0 { (to, from - OUTSIDE) } else { (from, to + OUTSIDE) };
                let corners = [(cut, s0), (far, s0), (far, s1), (cut, s1)];
                let points: Vec<Point> = corners.map(|(x, s)| self.at(face, edge, x, s)).to_vec();
                drawn.push(Shape::Polyline { points, pen: Pen::Dotted });
            }
        }
        for shape in drawn {
            self.figure.add(SQUEEZE_OUT, shape);
        }
    }

    /// A patch as a shape: the circle inside it where the sheet is round.
    pub(super) fn area(
        &self,
        face: &assessment::SheetFace,
        edge: f64,
        patch: &Patch,
        fill: Option<Colour>,
        pen: Option<Pen>,
    ) -> Shape {
        if self.sheet.round {
            let middle = [patch.x_mm, patch.s_mm].map(|[from, to]| f64::midpoint(from, to));
            let centre = self.at(face, edge, middle[0], middle[1]);
            return Shape::Circle { centre, radius: (patch.s_mm[1] - patch.s_mm[0]) / 2.0, fill, pen };
        }
        Shape::Area { rings: vec![self.rectangle(face, edge, patch)], fill, pen }
    }
}
