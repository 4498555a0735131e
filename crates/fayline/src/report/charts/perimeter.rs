//! What the bond carries around the perimeter, for the worst case of each sleeve and socket.

use assessment::{Assessment, Name, Series, Sheet, SheetFace, names};
use drawing::chart::{Around, Round, Side};
use drawing::figure::{Figure, Pen};
use quantity::Kind;

use super::{number, part};

/// Line loads, then peaks of the strips, for the case with the greatest line load.
pub(super) fn figures(assessment: &Assessment) -> Vec<Figure> {
    let mut figures = Vec::new();
    for sheet in &assessment.sheets {
        let cases = assessment.series.iter().filter_map(|(dotted, _)| {
            let parts: Vec<&str> = dotted.split('.').collect();
            let of_joint = names::PERIMETER_AXIAL.matches(dotted) && part(&parts, 1) == sheet.joint;
            of_joint.then(|| part(&parts, 2))
        });
        let load = |case: &str| number(assessment, &names::LINE_LOAD, &[&sheet.joint, case]).unwrap_or(0.0);
        if let Some(case) = cases.max_by(|a, b| load(a).total_cmp(&load(b))) {
            figures.extend(loads(assessment, sheet, case));
            figures.extend(peaks(assessment, sheet, case));
        }
    }
    figures
}

fn loads(assessment: &Assessment, sheet: &Sheet, case: &str) -> Option<Figure> {
    let curves = [
        (&names::PERIMETER_AXIAL, "along the member", Pen::Accent),
        (&names::PERIMETER_FLOW, "along the wall", Pen::AccentDashed),
    ];
    let remark = "Along the member tension is positive; along the wall, the way the perimeter runs here.";
    let chart = Chart { figure: "perimeter-loads", what: "line loads", kind: Kind::LineLoad, remark };
    chart.drawn(assessment, sheet, case, &curves)
}

fn peaks(assessment: &Assessment, sheet: &Sheet, case: &str) -> Option<Figure> {
    let mut curves = vec![
        (&names::PERIMETER_SHEAR_FREE, "shear, walls free", Pen::Accent),
        (&names::PERIMETER_SHEAR_HELD, "shear, walls held", Pen::AccentDashed),
        (&names::PERIMETER_PEEL_FREE, "peel, walls free", Pen::Thin),
    ];
    let answered = assessment.series.get(&names::PERIMETER_SHEAR_FREE.fill(&[&sheet.joint, case])).is_some();
    let held = assessment.series.get(&names::PERIMETER_PEEL_HELD.fill(&[&sheet.joint, case]));
    let remark = if held.is_some_and(|held| held.y.values.iter().any(|peel| *peel != 0.0)) {
        curves.push((&names::PERIMETER_PEEL_HELD, "peel, walls held", Pen::Dotted));
        "Each point shows the greatest along the overlap there."
    } else if !answered {
        "Each point shows the greatest along the overlap there. Walls that are free to bend have no answer; the finding \
         on the stresses says why."
    } else {
        "Each point shows the greatest along the overlap there. Walls that are held flat have no peel."
    };
    let chart =
        Chart { figure: "perimeter-peaks", what: "peaks of shear and peel", kind: Kind::Stress, remark };
    chart.drawn(assessment, sheet, case, &curves)
}

/// One chart around the perimeter.
struct Chart {
    /// The start of the figure's name.
    figure: &'static str,
    what: &'static str,
    kind: Kind,
    remark: &'static str,
}

impl Chart {
    /// Draws the series that there are; none without any.
    fn drawn(
        &self,
        assessment: &Assessment,
        sheet: &Sheet,
        case: &str,
        curves: &[(&Name, &str, Pen)],
    ) -> Option<Figure> {
        let joint = sheet.joint.as_str();
        let known: Vec<(&Series, &str, Pen)> = curves
            .iter()
            .filter_map(|(name, words, pen)| {
                Some((assessment.series.get(&name.fill(&[joint, case]))?, *words, *pen))
            })
            .collect();
        let along = known.first().map(|(series, ..)| sentence(series.x.what))?;
        let curves: Vec<Round<'_>> = known
            .iter()
            .map(|(series, words, pen)| Round {
                words,
                pen: *pen,
                at_mm: &series.x.values,
                values: &series.y.values,
            })
            .collect();
        let sides: Vec<Side<'_>> = sheet.faces.iter().map(side).collect();
        let chart = Around {
            name: &format!("{}-{joint}-{case}", self.figure),
            title: &format!("{joint}, {case}: {} around the perimeter at the load as written", self.what),
            sides: &sides,
            curves: &curves,
            kind: self.kind,
            remarks: &[&along, self.remark],
            system: assessment.system,
        };
        Some(chart.figure())
    }
}

/// A face on the way around, which runs down the sheet: against the face's own coordinate where that grows upward.
/// A face of a sleeve has the same stretches on both sides of the cut, so each is taken once.
fn side(face: &SheetFace) -> Side<'_> {
    let along = |s: f64| face.width_mm / 2.0 - face.up * s;
    let mut bonded_mm: Vec<[f64; 2]> = Vec::new();
    for patch in &face.bonded {
        let [a, b] = patch.s_mm.map(along);
        let stretch = [a.min(b), a.max(b)];
        if !bonded_mm.contains(&stretch) {
            bonded_mm.push(stretch);
        }
    }
    Side { name: face.name, width_mm: face.width_mm, bonded_mm }
}

/// Words as a sentence.
fn sentence(words: &str) -> String {
    let mut letters = words.chars();
    let first = letters.next().map(|first| first.to_uppercase().to_string()).unwrap_or_default();
    format!("{first}{}.", letters.as_str())
}
