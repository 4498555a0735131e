//! The way to failure of a lap: load against displacement, and the damage along the bond at the greatest load.

use assessment::{Assessment, names};
use drawing::chart::{Axis, Curve, Dot, DotKind, Growth, Level, Plot, Ticks, rounded};
use drawing::figure::{Figure, Pen};
use quantity::{Kind, Scale};

use super::{number, part};

/// Two figures for each case whose way is known.
pub(super) fn figures(assessment: &Assessment) -> Vec<Figure> {
    let ways = assessment.series.iter().filter(|(dotted, _)| names::LOAD_PATH.matches(dotted));
    ways.flat_map(|(dotted, _)| {
        let parts: Vec<&str> = dotted.split('.').collect();
        let fill = [part(&parts, 1), part(&parts, 2)];
        [way(assessment, fill), damage(assessment, fill)]
    })
    .flatten()
    .collect()
}

fn way(assessment: &Assessment, fill: [&str; 2]) -> Option<Figure> {
    let series = assessment.series.get(&names::LOAD_PATH.fill(&fill))?;
    let most = series.x.values.iter().fold(0.0_f64, |most, value| most.max(value.abs()));
    let length = Scale::of(most, Kind::Length, assessment.system);
    let points = series.x.values.iter().zip(&series.y.values);
    let curve = points.map(|(x, y)| [length.value(*x), *y]).collect();
    let at = |factor: f64, displacement: f64| [length.value(displacement), factor];
    let capacity = number(assessment, &names::CAPACITY_FACTOR, &fill);
    let displacement = number(assessment, &names::CAPACITY_DISPLACEMENT, &fill);
    let peak = capacity.zip(displacement).map(|(factor, displacement)| Dot {
        at: at(factor, displacement),
        kind: DotKind::Filled,
        pen: Pen::Accent,
    });
    let level = |value: Option<f64>, words: &str, pen| {
        value.map(|y| Level { words: format!("{words} {}", rounded(y, 3)), y, pen })
    };
    let levels = [
        level(capacity, "gives way at", Pen::Thin),
        level(number(assessment, &names::ONSET_FACTOR, &fill), "begins to give at", Pen::Dotted),
    ];
    let [joint, case] = fill;
    let plot = Plot {
        name: format!("way-{joint}-{case}"),
        title: format!("{joint}, {case}: load until the bond gives way, strengths as written"),
        desc: "Multiple of the case's load over the displacement between the gripped ends.".to_owned(),
        x: axis(length.unit(), Ticks::Tight),
        y: axis("times the load", Ticks::Rounded),
        curves: vec![Curve { words: String::new(), pen: Pen::Accent, points: curve }],
        dots: peak.into_iter().collect(),
        levels: levels.into_iter().flatten().collect(),
        flags: Vec::new(),
        bands: Vec::new(),
        folds: Vec::new(),
        ends: None,
        remarks: vec!["Where the curve goes back the plates spring back while the bond lets go.".to_owned()],
    };
    Some(plot.figure())
}

fn damage(assessment: &Assessment, fill: [&str; 2]) -> Option<Figure> {
    let series = assessment.series.get(&names::DAMAGE.fill(&fill))?;
    let most = series.x.values.iter().fold(0.0_f64, |most, value| most.max(value.abs()));
    let length = Scale::of(most, Kind::Length, assessment.system);
    let points = series.x.values.iter().zip(&series.y.values);
    let curve = points.map(|(x, y)| [length.value(*x), *y]).collect();
    let [joint, case] = fill;
    let mut y = axis("share gone", Ticks::Rounded);
    y.include.push(1.0);
    let plot = Plot {
        name: format!("damage-{joint}-{case}"),
        title: format!("{joint}, {case}: what is gone of the bond at its greatest load"),
        desc: "Share of the layer's stiffness that is gone, along the overlap.".to_owned(),
        x: axis(length.unit(), Ticks::Tight),
        y,
        curves: vec![Curve { words: String::new(), pen: Pen::Accent, points: curve }],
        dots: Vec::new(),
        levels: Vec::new(),
        flags: Vec::new(),
        bands: Vec::new(),
        folds: Vec::new(),
        ends: Some(["left end".to_owned(), "right end".to_owned()]),
        remarks: Vec::new(),
    };
    Some(plot.figure())
}

fn axis(label: &str, ticks: Ticks) -> Axis {
    Axis { label: label.to_owned(), include: vec![0.0], ticks, growth: Growth::Even }
}
