//! Writes one page with every chart, pen, colour and verdict mark, to be looked at.
//!
//! `cargo run -p drawing --example gallery -- OUT.html`. All numbers are invented.

use std::error::Error;
use std::fmt::Write as _;

use drawing::chart::{
    Around, Axis, Band, ByOverlap, Coupon, Coupons, CureClock, Curve, Distribution, Growth, Ladder,
    Milestone, NamedStrength, Plot, Reserves, Round, Rung, Side, Ticks,
};
use drawing::figure::{Anchor, Figure, Pen, Shape, Text};
use drawing::fonts::{self, Cut};
use drawing::lettering::Lettering;
use drawing::look::{self, Colour, GRID_MM, Verdict};
use drawing::svg;
use quantity::{Kind, System};

fn main() -> Result<(), Box<dyn Error>> {
    let out = std::env::args().nth(1).ok_or("usage: gallery OUT.html")?;
    let mut page = format!(
        "<!doctype html><html lang=en><meta charset=utf-8><title>Gallery</title><style>{}{}\
         body{{background:var(--ground);color:var(--ink);font:var(--text)/var(--text-line) \
         var(--face);margin:32px}}svg.figure{{margin:0 0 32px}}\
         h1{{font:var(--stage)/var(--stage-line) var(--face);margin:0 0 16px}}\
         .verdict-mark{{margin-right:8px}}</style><h1>Gallery</h1><p>All numbers are invented.",
        fonts::face_css(&[Cut::Regular, Cut::Bold]),
        look::css()
    );
    for verdict in [Verdict::Met, Verdict::NotMet, Verdict::Unknown, Verdict::Note] {
        let word = verdict.word();
        let colour = verdict.colour().name();
        let mark = look::mark_svg(verdict);
        write!(page, "<p style=\"color:var(--{colour})\">{mark}{word}")?;
    }
    for figure in [
        overlap(),
        balanced(),
        around(),
        by_overlap(),
        clock(),
        slow_clock(),
        coupons(),
        many_coupons(),
        ladder(),
        bands(),
        empty(),
        swatches(),
    ] {
        page.push_str(&svg::in_page(&figure)?);
    }
    std::fs::write(out, page)?;
    Ok(())
}

fn along(length: f64) -> Vec<f64> {
    (0..=200).map(|k| f64::from(k) / 200.0 * length).collect()
}

fn overlap() -> Figure {
    let x = along(100.0);
    let shear: Vec<f64> =
        x.iter().map(|x| 1.4 + 15.9 * libm::exp(-x / 9.0) + 9.0 * libm::exp((x - 100.0) / 9.0)).collect();
    let peel: Vec<f64> = x
        .iter()
        .map(|x| {
            let wave = |d: f64| libm::exp(-d / 6.0) * libm::cos(d / 7.0);
            12.6 * wave(*x) + 7.4 * wave(100.0 - x)
        })
        .collect();
    Distribution {
        name: "overlap",
        title: "Shear and peel along the overlap, recovery case, governing strip",
        x_mm: &x,
        shear_mpa: &shear,
        peel_mpa: &peel,
        mean_shear_mpa: Some(3.71),
        left_end: "cut face",
        right_end: "end of the insert",
        system: System::Metric,
    }
    .figure()
}

fn balanced() -> Figure {
    let x = along(12.5);
    let shear: Vec<f64> =
        x.iter().map(|x| 9.0 + 24.0 * libm::cosh((x - 6.25) / 1.6) / libm::cosh(6.25 / 1.6)).collect();
    Distribution {
        name: "balanced",
        title: "Shear in a balanced lap",
        x_mm: &x,
        shear_mpa: &shear,
        peel_mpa: &[],
        mean_shear_mpa: Some(16.0),
        left_end: "left end",
        right_end: "right end",
        system: System::Metric,
    }
    .figure()
}

fn around() -> Figure {
    let side = |name, width_mm| Side { name, width_mm, bonded_mm: vec![[8.0, width_mm - 8.0]] };
    let open = Side { name: "right", width_mm: 112.0, bonded_mm: Vec::new() };
    let at = [0.0, 8.0, 8.0, 64.0, 64.0, 80.0, 80.0, 176.0, 176.0, 192.0, 192.0, 248.0, 248.0, 368.0];
    let axial = [0.0, 0.0, 400.0, 60.0, 0.0, 0.0, -30.0, -310.0, 0.0, 0.0, -290.0, 70.0, 0.0, 0.0];
    let flow = [0.0, 0.0, 77.0, 77.0, 0.0, 0.0, 25.0, 25.0, 0.0, 0.0, -4.0, -4.0, 0.0, 0.0];
    Around {
        name: "around",
        title: "Line loads around the perimeter, one face not bonded, in inches",
        sides: &[side("bottom", 72.0), side("left", 112.0), side("top", 72.0), open],
        curves: &[
            Round { words: "along the member", pen: Pen::Accent, at_mm: &at, values: &axial },
            Round { words: "along the wall", pen: Pen::AccentDashed, at_mm: &at, values: &flow },
        ],
        kind: Kind::LineLoad,
        remarks: &["Tension is positive."],
        system: System::Imperial,
    }
    .figure()
}

fn by_overlap() -> Figure {
    let overlap: Vec<f64> = (4..=20).map(|k| 10.0 * f64::from(k)).collect();
    let at = |factor: f64| overlap.iter().map(|x| factor * x / 100.0).collect::<Vec<f64>>();
    let (dry, hot, cold) = (at(1.08), at(0.75), at(1.19));
    let curve = |words, pen, reserve| Reserves { words, pen, overlap_mm: &overlap, reserve };
    ByOverlap {
        name: "by-overlap",
        title: "Reserve factor against overlap",
        curves: &[
            curve("23 °C, dry", Pen::Accent, &dry),
            curve("hottest service", Pen::AccentDashed, &hot),
            curve("coldest service", Pen::Thin, &cold),
        ],
        planned: Some((100.0, 1.08)),
        parts: Some(1.62),
        flagged: "planned",
        target: None,
        helps_to_mm: Some(62.0),
        system: System::Metric,
    }
    .figure()
}

const HOUR: f64 = 3600.0;

fn cure(half_h: f64) -> (Vec<f64>, Vec<f64>) {
    let time: Vec<f64> =
        (0..=400).map(|k| libm::expm1(f64::from(k) / 400.0 * libm::log(12.0 * 24.0)) * HOUR).collect();
    let strength = time
        .iter()
        .map(|t| {
            let s = libm::pow(t / HOUR / half_h, 1.7);
            s / (1.0 + s)
        })
        .collect();
    (time, strength)
}

fn clock() -> Figure {
    let (time, strength) = cure(20.0);
    let milestone = |words, hours: f64, strength| Milestone { words, at_s: Some(hours * HOUR), strength };
    CureClock {
        name: "clock",
        title: "Cure at 16 °C",
        time_s: &time,
        strength: &strength,
        milestones: &[
            milestone("nozzle", 1.0 / 3.0, None),
            milestone("open", 1.0, None),
            milestone("working", 2.5, None),
            milestone("handling", 12.2, Some(0.3)),
            milestone("driving", 45.2, Some(0.8)),
            milestone("full", 268.0, None),
        ],
        bands: &[(0.0, 2.5 * HOUR, "spread and close"), (12.2 * HOUR, 45.2 * HOUR, "move, do not drive")],
    }
    .figure()
}

fn slow_clock() -> Figure {
    let (time, strength) = cure(20.0);
    CureClock {
        name: "slow-clock",
        title: "Cure where full strength is not on the data sheet",
        time_s: &time[..240],
        strength: &strength[..240],
        milestones: &[
            Milestone { words: "working time ends", at_s: Some(1.5 * HOUR), strength: None },
            Milestone { words: "full cure", at_s: None, strength: None },
        ],
        bands: &[],
    }
    .figure()
}

const STRENGTHS: [f64; 6] = [22.1, 23.4, 21.6, 24.0, 22.8, 20.9];

fn coupons() -> Figure {
    let names = ["W1", "W2", "W3", "W4", "W5", "W6"];
    let coupons: Vec<Coupon> = names
        .iter()
        .zip(STRENGTHS)
        .map(|(name, strength_mpa)| Coupon {
            name,
            strength_mpa,
            notable: (*name == "W6").then_some("40 % adhesion failure"),
        })
        .collect();
    Coupons {
        name: "coupons",
        title: "Witness coupons, batch 1",
        coupons: &coupons,
        mean: Some(NamedStrength { words: "mean", strength_mpa: 22.47 }),
        bound: Some(NamedStrength { words: "90/95 normal bound, n = 6, one batch", strength_mpa: 19.0 }),
        characteristic: Some(NamedStrength { words: "characteristic", strength_mpa: 20.0 }),
        system: System::Metric,
    }
    .figure()
}

fn many_coupons() -> Figure {
    let names: Vec<String> = (1..=24).map(|k| k.to_string()).collect();
    let coupons: Vec<Coupon> = names
        .iter()
        .zip(STRENGTHS.iter().cycle())
        .map(|(name, strength)| Coupon { name, strength_mpa: *strength, notable: None })
        .collect();
    Coupons {
        name: "many-coupons",
        title: "Twenty-four coupons from three batches",
        coupons: &coupons,
        mean: Some(NamedStrength { words: "mean", strength_mpa: 22.47 }),
        bound: None,
        characteristic: None,
        system: System::Metric,
    }
    .figure()
}

fn ladder() -> Figure {
    let rung = |words, reserve, verdict, remark| Rung { words, reserve, verdict, remark };
    Ladder {
        name: "ladder",
        title: "Reserves of the joint",
        rungs: &[
            rung("bond lost, one row of rivets", Some(0.54), Verdict::NotMet, None),
            rung("bond at 55 °C", Some(0.75), Verdict::NotMet, None),
            rung("bond at 23 °C, dry, progressive", Some(1.08), Verdict::Met, None),
            rung("bond, wet", None, Verdict::Unknown, Some("no data for wet strength")),
            rung("casting at the first rivet row", Some(1.62), Verdict::Met, None),
            rung("yard move", Some(7.4), Verdict::Met, None),
            rung("trailer", None, Verdict::Note, Some("no load")),
        ],
    }
    .figure()
}

fn bands() -> Figure {
    let x = along(100.0);
    let curve = |words: &str, pen, f: &dyn Fn(f64) -> f64| Curve {
        words: words.into(),
        pen,
        points: x.iter().map(|x| [*x, f(*x)]).collect(),
    };
    Plot {
        name: "bands".into(),
        title: "Several curves and steps".into(),
        desc: String::new(),
        x: Axis { label: "mm".into(), include: Vec::new(), ticks: Ticks::Tight, growth: Growth::Even },
        y: Axis { label: "MPa".into(), include: Vec::new(), ticks: Ticks::Rounded, growth: Growth::Even },
        curves: vec![
            curve("wall free", Pen::Accent, &|x| 4e6 * libm::sin(x / 14.0)),
            curve("wall held", Pen::AccentDashed, &|x| 3.7e6 * libm::sin(x / 14.0)),
            curve("closed form", Pen::Thin, &|x| 4e4 * x),
            curve("nominal", Pen::Dotted, &|_| 2e6),
        ],
        dots: Vec::new(),
        levels: Vec::new(),
        flags: Vec::new(),
        folds: Vec::new(),
        bands: vec![
            Band { from: 0.0, to: 12.0, words: "no bond".into() },
            Band { from: 30.0, to: 38.0, words: "first row of rivets".into() },
            Band { from: 60.0, to: 90.0, words: "thick bondline".into() },
        ],
        ends: Some(["left".into(), "right".into()]),
        remarks: Vec::new(),
    }
    .figure()
}

fn empty() -> Figure {
    Distribution {
        name: "empty",
        title: "Without data",
        x_mm: &[],
        shear_mpa: &[],
        peel_mpa: &[],
        mean_shear_mpa: None,
        left_end: "left end",
        right_end: "right end",
        system: System::Metric,
    }
    .figure()
}

fn swatches() -> Figure {
    let mut figure = Figure {
        name: "swatches".into(),
        title: "Pens and colours".into(),
        desc: String::new(),
        size_mm: [96.0 * GRID_MM, 60.0 * GRID_MM],
        marks: Vec::new(),
    };
    let words = |at, words: String| {
        Shape::Text(Text {
            at,
            anchor: Anchor::Start,
            turn_deg: 0.0,
            lettering: Lettering::Text,
            colour: Colour::Ink,
            words,
        })
    };
    let mut y = 3.0 * GRID_MM;
    for pen in Pen::ALL {
        let from = [2.0 * GRID_MM, y];
        figure.line("swatch", pen, from, [26.0 * GRID_MM, y]);
        figure.add("swatch", words([28.0 * GRID_MM, y + 1.5], pen.name().into()));
        y += 4.0 * GRID_MM;
    }
    let mut x = 50.0 * GRID_MM;
    let mut y = 2.0 * GRID_MM;
    for colour in Colour::all() {
        let (right, low) = (x + 3.0 * GRID_MM, y + 3.0 * GRID_MM);
        figure.add(
            "swatch",
            Shape::Area {
                rings: vec![vec![[x, y], [right, y], [right, low], [x, low]]],
                fill: Some(colour),
                pen: None,
            },
        );
        let at = [right + GRID_MM, low - GRID_MM];
        figure.add("swatch", words(at, colour.name()));
        y += 3.5 * GRID_MM;
        if y > 54.0 * GRID_MM {
            y = 2.0 * GRID_MM;
            x = 72.0 * GRID_MM;
        }
    }
    figure
}
