//! The reserve of a sleeve's bond against the error of its cut, for the worst case of each sleeve.

use std::collections::BTreeMap;

use assessment::{Assessment, Series, names};
use drawing::chart::{Axis, Band, Curve, Flag, Growth, Level, Plot, Ticks};
use drawing::figure::{Figure, Pen};
use quantity::{Kind, Scale};

use super::{number, part};

/// A figure for each sleeve: of several cases the one with the least reserve.
pub(super) fn figures(assessment: &Assessment) -> Vec<Figure> {
    let mut worst: BTreeMap<&str, (&str, f64, &Series)> = BTreeMap::new();
    let curves = assessment.series.iter().filter(|(dotted, _)| names::RESERVE_BY_CUT_ERROR.matches(dotted));
    for (dotted, series) in curves {
        let parts: Vec<&str> = dotted.split('.').collect();
        let Some(reserve) = series.y.values.first() else { continue };
        let known = worst.entry(part(&parts, 1)).or_insert((part(&parts, 2), *reserve, series));
        if *reserve < known.1 {
            *known = (part(&parts, 2), *reserve, series);
        }
    }
    worst.into_iter().map(|(joint, (case, _, series))| drawn(assessment, joint, case, series)).collect()
}

fn drawn(assessment: &Assessment, joint: &str, case: &str, series: &Series) -> Figure {
    let most = series.x.values.iter().copied().fold(0.0, f64::max);
    let length = Scale::of(most, Kind::Length, assessment.system);
    let print = |mm: f64| quantity::print(mm, Kind::Length, assessment.system);
    let points = series.x.values.iter().zip(&series.y.values);
    let tolerance = number(assessment, &names::CUT_TOLERANCE, &[joint]);
    let allowed = number(assessment, &names::CUT_ERROR_ALLOWED, &[joint, case]);
    let flag =
        tolerance.map(|mm| Flag { x: length.value(mm), y: None, words: format!("tolerance {}", print(mm)) });
    let short = allowed.filter(|from| *from < most).map(|from| Band {
        from: length.value(from),
        to: length.value(most),
        words: format!("off by more than {}: below 1.00", print(from)),
    });
    let axis = |label: &str, include| Axis {
        label: label.to_owned(),
        include,
        ticks: Ticks::Tight,
        growth: Growth::Even,
    };
    Plot {
        name: format!("cut-error-{joint}-{case}"),
        title: format!(
            "{joint}, {case}: reserve factor of the bond against the error of the cut, nominal check"
        ),
        desc: "Reserve factor of the bond with a part that ends short: overlap lost and gap gained."
            .to_owned(),
        x: axis(&format!("{} off", length.unit()), vec![0.0]),
        y: axis("reserve factor", vec![1.0]),
        curves: vec![Curve {
            words: "23 °C, dry".to_owned(),
            pen: Pen::Accent,
            points: points.map(|(x, y)| [length.value(*x), *y]).collect(),
        }],
        dots: Vec::new(),
        levels: vec![Level { words: "1.00, exactly enough".to_owned(), y: 1.0, pen: Pen::Edge }],
        flags: flag.into_iter().collect(),
        bands: short.into_iter().collect(),
        folds: Vec::new(),
        ends: None,
        remarks: vec!["The scale of the reserve factor does not begin at zero.".to_owned()],
    }
    .figure()
}
