//! Whatever the data, a chart is a figure that can be written, inside its frame, with every text
//! readable: none cut, none over another, none struck by a line.

use drawing::chart::{
    Around, Axis, Band, ByOverlap, Coupon, Coupons, CureClock, Curve, Distribution, Flag, Growth, Ladder,
    Level, Milestone, NamedStrength, Plot, Reserves, Round, Rung, Side, Ticks,
};
use drawing::figure::{Figure, Pen, Point, Shape, Text};
use drawing::look::Verdict;
use drawing::svg;
use proptest::prelude::*;
use quantity::{Kind, System};

/// Rounding of sums of places of some 200 mm, far below the thousandth that is written.
const SLACK_MM: f64 = 1e-6;

fn texts(figure: &Figure) -> Vec<&Text> {
    figure
        .marks
        .iter()
        .filter_map(|mark| match &mark.shape {
            Shape::Text(text) => Some(text),
            _ => None,
        })
        .collect()
}

fn points(shape: &Shape) -> Vec<Point> {
    match shape {
        Shape::Line { from, to, .. } => vec![*from, *to],
        Shape::Polyline { points, .. } => points.clone(),
        Shape::Area { rings, .. } => rings.concat(),
        Shape::Circle { centre, radius, .. } => {
            vec![[centre[0] - radius, centre[1] - radius], [centre[0] + radius, centre[1] + radius]]
        }
        Shape::Text(text) => {
            let [left, top, right, bottom] = text.bounds_mm();
            vec![[left, top], [right, bottom]]
        }
    }
}

/// Whether a straight line passes through the inside of a frame: the stretch of the line that lies
/// between the frame's left and right, and that between its top and bottom, have a part in common.
fn meets(from: Point, to: Point, [left, top, right, bottom]: [f64; 4]) -> bool {
    let (mut start, mut end) = (0.0_f64, 1.0_f64);
    for (axis, lo, hi) in [(0, left, right), (1, top, bottom)] {
        let (lo, hi) = (lo + SLACK_MM, hi - SLACK_MM);
        let run = to[axis] - from[axis];
        if run.abs() < SLACK_MM {
            if from[axis] <= lo || from[axis] >= hi {
                return false;
            }
            continue;
        }
        let (a, b) = ((lo - from[axis]) / run, (hi - from[axis]) / run);
        start = start.max(a.min(b));
        end = end.min(a.max(b));
    }
    start < end
}

fn is_sane(figure: &Figure) -> Result<(), TestCaseError> {
    let written = svg::in_page(figure);
    prop_assert!(written.is_ok(), "{:?}", written.err());
    for mark in &figure.marks {
        for [x, y] in points(&mark.shape) {
            let inside = x >= -SLACK_MM
                && y >= -SLACK_MM
                && x <= figure.size_mm[0] + SLACK_MM
                && y <= figure.size_mm[1] + SLACK_MM;
            prop_assert!(inside, "({x}, {y}) of {mark:?} in {:?}", figure.size_mm);
        }
    }
    let texts = texts(figure);
    for (k, a) in texts.iter().enumerate() {
        for b in texts.iter().skip(k + 1) {
            let (p, q) = (a.bounds_mm(), b.bounds_mm());
            let over = p[0] < q[2] - SLACK_MM
                && q[0] < p[2] - SLACK_MM
                && p[1] < q[3] - SLACK_MM
                && q[1] < p[3] - SLACK_MM;
            prop_assert!(!over, "{:?} over {:?}", a.words, b.words);
        }
        for mark in &figure.marks {
            let chain = match &mark.shape {
                Shape::Line { .. } | Shape::Polyline { .. } => points(&mark.shape),
                _ => continue,
            };
            for ends in chain.windows(2) {
                let struck = meets(ends[0], ends[1], a.bounds_mm());
                prop_assert!(!struck, "{:?} is struck by {mark:?}", a.words);
            }
        }
    }
    Ok(())
}

/// Values of a trade, and values of a fault.
fn value() -> BoxedStrategy<f64> {
    prop_oneof![
        6 => -50.0..50.0_f64,
        2 => Just(0.0),
        1 => any::<f64>(),
        1 => prop_oneof![Just(f64::NAN), Just(f64::INFINITY), Just(f64::MAX), Just(1e-300)],
        2 => (-15.0..14.0_f64).prop_map(|power| libm::pow(10.0, power)),
        1 => (0.0..1e-12_f64).prop_map(|part| 20.0 * (1.0 + part)),
    ]
    .boxed()
}

fn values() -> impl Strategy<Value = Vec<f64>> {
    prop_oneof![
        proptest::collection::vec(value(), 0..12),
        (value(), 0_usize..6).prop_map(|(value, n)| vec![value; n]),
    ]
}

/// A small count as a number.
fn small(k: usize) -> f64 {
    u32::try_from(k).map_or(0.0, f64::from)
}

fn words() -> impl Strategy<Value = String> {
    prop_oneof!["[a-z]{0,9}( [a-zα-ω≤0-9]{1,9}){0,4}", "[A-Za-z]{0,70}", any::<String>(),]
}

fn verdict() -> impl Strategy<Value = Verdict> {
    prop_oneof![Just(Verdict::Met), Just(Verdict::NotMet), Just(Verdict::Unknown), Just(Verdict::Note),]
}

proptest! {
    #[test]
    fn law_distribution_is_sane(
        x in values(),
        shear in values(),
        peel in values(),
        mean in proptest::option::of(value()),
        texts in (words(), words(), words()),
    ) {
        is_sane(&Distribution {
            name: "d",
            title: &texts.0,
            x_mm: &x,
            shear_mpa: &shear,
            peel_mpa: &peel,
            mean_shear_mpa: mean,
            left_end: &texts.1,
            right_end: &texts.2,
            system: System::Metric,
        }.figure())?;
    }

    #[test]
    fn law_around_is_sane(
        sides in proptest::collection::vec((words(), 1.0..300.0_f64, any::<bool>()), 0..5),
        curves in proptest::collection::vec((words(), values(), values()), 0..4),
        texts in (words(), words()),
        imperial in any::<bool>(),
    ) {
        let sides: Vec<Side<'_>> = sides
            .iter()
            .map(|(name, width_mm, bonded)| Side {
                name,
                width_mm: *width_mm,
                bonded_mm: if *bonded { vec![[0.1 * width_mm, 0.9 * width_mm]] } else { Vec::new() },
            })
            .collect();
        let curves: Vec<Round<'_>> = curves
            .iter()
            .map(|(words, at_mm, values)| Round { words, pen: Pen::AccentDashed, at_mm, values })
            .collect();
        is_sane(&Around {
            name: "a",
            title: &texts.0,
            sides: &sides,
            curves: &curves,
            kind: Kind::Stress,
            remarks: &[&texts.1],
            system: if imperial { System::Imperial } else { System::Metric },
        }.figure())?;
    }

    #[test]
    fn law_by_overlap_is_sane(
        curves in proptest::collection::vec((words(), values(), values()), 0..4),
        planned in proptest::option::of((value(), value())),
        parts in proptest::option::of(value()),
        helps_to_mm in proptest::option::of(value()),
        title in words(),
    ) {
        let curves: Vec<Reserves<'_>> = curves
            .iter()
            .map(|(words, overlap_mm, reserve)| Reserves { words, pen: Pen::Thin, overlap_mm, reserve })
            .collect();
        is_sane(&ByOverlap {
            name: "o",
            title: &title,
            curves: &curves,
            planned,
            parts,
            flagged: "planned",
            target: None,
            helps_to_mm,
            system: System::Imperial,
        }.figure())?;
    }

    /// In inches and psi the same points stand at the same shares of the axes' own numbers.
    #[test]
    fn law_units_change_the_numbers_and_not_the_curve(
        shear in proptest::collection::vec(0.1..50.0_f64, 3..9),
        length in 5.0..500.0_f64,
    ) {
        let steps: Vec<f64> = shear.iter().enumerate().map(|(k, _)| length * (0.1 + 0.1 * small(k))).collect();
        let drawn = |system| {
            Distribution {
                name: "d",
                title: "Shear",
                x_mm: &steps,
                shear_mpa: &shear,
                peel_mpa: &[],
                mean_shear_mpa: None,
                left_end: "left",
                right_end: "right",
                system,
            }
            .figure()
        };
        let curve = |figure: &Figure| -> Vec<Point> {
            let found = figure.marks.iter().find_map(|mark| match &mark.shape {
                Shape::Polyline { points, .. } if mark.layer == "chart-curves" => Some(points.clone()),
                _ => None,
            });
            found.unwrap_or_default()
        };
        let (metric, imperial) = (curve(&drawn(System::Metric)), curve(&drawn(System::Imperial)));
        prop_assert_eq!(metric.len(), shear.len());
        // Each curve over its own extent: axes end at whole steps of their own unit, so only shares compare.
        let shares = |points: &[Point], axis: usize| -> Vec<f64> {
            let (lo, hi) = points.iter().fold((f64::INFINITY, f64::NEG_INFINITY), |(lo, hi), point| {
                (lo.min(point[axis]), hi.max(point[axis]))
            });
            points.iter().map(|point| (point[axis] - lo) / (hi - lo).max(1.0)).collect()
        };
        for axis in [0, 1] {
            let (ours, theirs) = (shares(&metric, axis), shares(&imperial, axis));
            let extent = |points: &[Point]| {
                let all = || points.iter().map(|point| point[axis]);
                all().fold(f64::NEG_INFINITY, f64::max) - all().fold(f64::INFINITY, f64::min)
            };
            prop_assume!(extent(&metric) > 1.0 && extent(&imperial) > 1.0);
            for (a, b) in ours.iter().zip(&theirs) {
                // Places of a hundred millimetres, rounded in double precision.
                prop_assert!((a - b).abs() < 1e-9, "{a} and {b} on axis {axis}");
            }
        }
    }

    #[test]
    fn law_clock_is_sane(
        time in values(),
        strength in values(),
        milestones in proptest::collection::vec(
            (words(), proptest::option::of(value()), proptest::option::of(0.0..1.0_f64)), 0..8),
        bands in proptest::collection::vec((value(), value(), words()), 0..4),
        hours in any::<bool>(),
    ) {
        // Half of the cases lie in the range of real adhesives.
        let unit = if hours { 3600.0 } else { 1.0 };
        let time: Vec<f64> = time.iter().map(|t| t * unit).collect();
        let milestones: Vec<Milestone> = milestones
            .iter()
            .map(|(words, at, strength)| Milestone {
                words,
                at_s: at.map(|at| at * unit),
                strength: *strength,
            })
            .collect();
        let bands: Vec<(f64, f64, &str)> =
            bands.iter().map(|(from, to, words)| (*from, *to, words.as_str())).collect();
        is_sane(&CureClock {
            name: "c",
            title: "Cure",
            time_s: &time,
            strength: &strength,
            milestones: &milestones,
            bands: &bands,
        }.figure())?;
    }

    #[test]
    fn law_coupons_are_sane(
        coupons in proptest::collection::vec(
            (words(), value(), proptest::option::weighted(0.2, words())), 0..40),
        lines in proptest::collection::vec((words(), value()), 3),
        shown in any::<[bool; 3]>(),
    ) {
        let coupons: Vec<Coupon> = coupons
            .iter()
            .map(|(name, strength_mpa, notable)| Coupon {
                name,
                strength_mpa: *strength_mpa,
                notable: notable.as_deref(),
            })
            .collect();
        let line = |k: usize| shown[k].then(|| NamedStrength {
            words: &lines[k].0,
            strength_mpa: lines[k].1,
        });
        is_sane(&Coupons {
            name: "c",
            title: "Coupons",
            coupons: &coupons,
            mean: line(0),
            bound: line(1),
            characteristic: line(2),
            system: System::Metric,
        }.figure())?;
    }

    #[test]
    fn law_ladder_is_sane(
        title in words(),
        rungs in proptest::collection::vec(
            (words(), proptest::option::of(value()), verdict(), proptest::option::of(words())),
            0..10),
    ) {
        let rungs: Vec<Rung> = rungs
            .iter()
            .map(|(words, reserve, verdict, remark)| Rung {
                words,
                reserve: *reserve,
                verdict: *verdict,
                remark: remark.as_deref(),
            })
            .collect();
        is_sane(&Ladder { name: "l", title: &title, rungs: &rungs }.figure())?;
    }

    #[test]
    fn law_plot_is_sane(
        curves in proptest::collection::vec((words(), values(), values()), 0..5),
        levels in proptest::collection::vec((words(), value()), 0..4),
        flags in proptest::collection::vec((words(), value(), proptest::option::of(value())), 0..5),
        bands in proptest::collection::vec((words(), value(), value()), 0..4),
        folds in values(),
        labels in (words(), words()),
        bend in proptest::option::of(value()),
        tight in any::<bool>(),
    ) {
        let axis = |label: &str, growth| Axis {
            label: label.into(),
            include: Vec::new(),
            ticks: if tight { Ticks::Tight } else { Ticks::Rounded },
            growth,
        };
        is_sane(&Plot {
            name: "p".into(),
            title: "Plot".into(),
            desc: String::new(),
            x: axis(&labels.0, bend.map_or(Growth::Even, |bend| Growth::Slowing { bend })),
            y: axis(&labels.1, Growth::Even),
            curves: curves
                .into_iter()
                .map(|(words, x, y)| Curve {
                    words,
                    pen: Pen::Accent,
                    points: x.into_iter().zip(y).map(|(x, y)| [x, y]).collect(),
                })
                .collect(),
            dots: Vec::new(),
            levels: levels
                .into_iter()
                .map(|(words, y)| Level { words, y, pen: Pen::Fold })
                .collect(),
            flags: flags.into_iter().map(|(words, x, y)| Flag { x, y, words }).collect(),
            bands: bands
                .into_iter()
                .map(|(words, from, to)| Band { from, to, words })
                .collect(),
            folds,
            ends: None,
            remarks: Vec::new(),
        }.figure())?;
    }
}

fn demo_distribution(shear: &[f64]) -> Figure {
    Distribution {
        name: "d",
        title: "Shear",
        x_mm: &[0.0, 50.0, 100.0],
        shear_mpa: shear,
        peel_mpa: &[],
        mean_shear_mpa: Some(4.0),
        left_end: "cut face",
        right_end: "end of the insert",
        system: System::Metric,
    }
    .figure()
}

#[test]
fn unit_what_is_not_drawn_is_said() {
    let said = |figure: &Figure, words: &str| texts(figure).iter().any(|t| t.words.contains(words));
    let figure = demo_distribution(&[9.0, f64::NAN, 3.0]);
    assert!(said(&figure, "1 value is no number"));
    assert!(said(&figure, "peak shear 9.00\u{a0}MPa"));
    assert!(!said(&demo_distribution(&[9.0, 1.0, 3.0]), "no number"));
}

#[test]
fn unit_the_same_data_gives_the_same_bytes() {
    let write = || svg::alone(&demo_distribution(&[9.0, 1.0, 3.0])).unwrap();
    assert_eq!(write(), write());
}

#[test]
fn unit_milestones_without_a_time_are_named() {
    let milestone = Milestone { words: "driving", at_s: None, strength: None };
    let figure = CureClock {
        name: "c",
        title: "Cure",
        time_s: &[0.0, 3600.0],
        strength: &[0.0, 0.2],
        milestones: &[milestone],
        bands: &[],
    }
    .figure();
    assert!(texts(&figure).iter().any(|t| t.words == "Not known: driving."));
    assert!(figure.desc.contains("Not known: driving."));
}
