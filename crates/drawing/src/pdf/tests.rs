use proptest::prelude::*;

use super::*;
use crate::figure::Figure;
use crate::lettering::Lettering;
use crate::template::{Paper, tiled};

fn figure() -> Figure {
    Figure {
        name: "plate".into(),
        title: "Plate".into(),
        desc: String::new(),
        size_mm: [120.0, 80.0],
        marks: Vec::new(),
    }
}

fn words(words: &str, turn_deg: f64) -> Shape {
    Shape::Text(Text {
        at: [10.0, 10.0],
        anchor: Anchor::Middle,
        turn_deg,
        lettering: Lettering::Strong,
        colour: Colour::Ink,
        words: words.into(),
    })
}

fn whole(figure: &Figure) -> Vec<Page<'_>> {
    vec![Page::with([210.0, 297.0], figure, [20.0, 30.0])]
}

/// The uncompressed file, as far as it is text.
fn source(pages: &[Page]) -> String {
    String::from_utf8_lossy(&write(pages, &Meta::default(), false).unwrap()).into_owned()
}

/// Ends of the single lines in the content streams: `x y m x y l S`, pt.
fn lines(source: &str) -> Vec<[f64; 4]> {
    let signs: Vec<&str> = source.split_ascii_whitespace().collect();
    let number = |sign: &str| sign.parse::<f64>().ok();
    signs
        .windows(7)
        .filter(|w| w[2] == "m" && w[5] == "l" && w[6] == "S")
        .filter_map(|w| Some([number(w[0])?, number(w[1])?, number(w[3])?, number(w[4])?]))
        .collect()
}

#[test]
fn unit_a_line_is_as_long_in_the_file_as_in_the_figure() {
    let mut figure = figure();
    figure.line("edges", Pen::Cut, [5.0, 7.0], [105.0, 7.0]);
    let source = source(&whole(&figure));
    let found = lines(&source);
    assert_eq!(found.len(), 1);
    let [ax, ay, bx, by] = found[0].map(|pt| pt / 72.0 * 25.4);
    // The numbers of the file are single precision: at 360 pt they are 3e-5 pt apart, 1e-5 mm.
    let close = |found: f64, wanted: f64| (found - wanted).abs() < 5e-5;
    assert!(close(ax, 25.0) && close(bx, 125.0), "{ax} {bx}");
    // The stream has y down: it is turned once, about the page's height of 841.89 pt.
    assert!(source.contains("1 0 0 -1 0 841.8898 cm"), "{source}");
    assert!(close(ay, 37.0) && close(by, 37.0), "{ay} {by}");
    assert!(source.contains("/MediaBox[0 0 595.2756 841.8898]"), "{source}");
    // Dashes and width of the pen: 2 px, and 20-4-3-4 px, of 0.75 pt.
    assert!(source.contains("1.5 w 4 M[15 3 2.25 3]0 d"), "{source}");
}

/// The check rule of a template as it stands in the file: one line of 100 mm on every page.
#[test]
fn unit_the_rule_of_a_template_is_a_hundred_millimetres_in_the_file() {
    let figure = Figure { size_mm: [500.0, 600.0], ..figure() };
    for paper in [Paper::A4, Paper::Letter] {
        let pages = tiled(&figure, paper, "Plate").unwrap();
        // Single precision numbers of some 800 pt are 6e-5 pt apart, 2e-5 mm.
        let hundred = |[ax, ay, bx, by]: [f64; 4]| {
            ((bx - ax) / 72.0 * 25.4 - 100.0).abs() < 5e-5 && (by - ay).abs() < 5e-5
        };
        let rules = lines(&source(&pages)).into_iter().filter(|line| hundred(*line)).count();
        assert_eq!(rules, pages.len(), "{paper:?}");
    }
}

#[test]
fn unit_the_same_pages_give_the_same_file() {
    let mut figure = figure();
    figure.add("text", words("τ ≤ 20 MPa", 0.0));
    figure.add("text", words("second", 90.0));
    figure.add(
        "holes",
        Shape::Circle { centre: [50.0, 40.0], radius: 2.4, fill: Some(Colour::Band), pen: Some(Pen::Edge) },
    );
    let meta = Meta { title: "Plate".into(), authors: vec!["A. Author".into()], ..Meta::default() };
    let first = pdf(&whole(&figure), &meta).unwrap();
    assert_eq!(first, pdf(&whole(&figure), &meta).unwrap());
    assert!(first.starts_with(b"%PDF-1.7"));
    let text = String::from_utf8_lossy(&first);
    assert!(!text.contains("CreationDate"));
    // Only the cut that is used, and only the glyphs that are used: the whole cut has 42 kB.
    assert!(text.contains("B612-Bold") && !text.contains("B612-Regular"));
    assert!(first.len() < 12_000, "{}", first.len());
    let moment = Moment { year: 2026, month: 3, day: 4, hour: 5, minute: 6, second: 7 };
    let dated = pdf(&whole(&figure), &Meta { made: Some(moment), ..meta }).unwrap();
    assert!(String::from_utf8_lossy(&dated).contains("D:20260304050607"));
}

#[test]
fn unit_a_sign_that_the_font_lacks_breaks_nothing() {
    let (mut lacking, mut said) = (figure(), figure());
    lacking.add("text", words("ρ = 2.7 \u{0}漢", 0.0));
    said.add("text", words("rho = 2.7 ??", 0.0));
    assert_eq!(
        pdf(&whole(&lacking), &Meta::default()).unwrap(),
        pdf(&whole(&said), &Meta::default()).unwrap()
    );
}

#[test]
fn unit_what_cannot_be_placed_is_refused() {
    let mut figure = figure();
    assert_eq!(pdf(&[], &Meta::default()), Err(PdfError::NoPage));
    for side in [0.0, -1.0, f64::NAN, f64::INFINITY, 5080.1, 1e-300] {
        let page = Page::with([side, 100.0], &figure, [0.0; 2]);
        assert!(matches!(pdf(&[page], &Meta::default()), Err(PdfError::PageSize { page: 1, .. })), "{side}");
    }
    let page = Page::with([100.0; 2], &figure, [f64::NAN, 0.0]);
    assert!(matches!(pdf(&[page], &Meta::default()), Err(PdfError::NoPlace { .. })));
    for window in [[10.0, 10.0, 5.0, 20.0], [f64::NAN, 0.0, 5.0, 20.0]] {
        let mut page = Page::with([100.0; 2], &figure, [0.0; 2]);
        page.placed[0].window_mm = Some(window);
        assert!(matches!(pdf(&[page], &Meta::default()), Err(PdfError::NoPlace { .. })));
    }
    figure.add("holes", Shape::Circle { centre: [0.0; 2], radius: -1.0, fill: None, pen: Some(Pen::Edge) });
    let refused = pdf(&whole(&figure), &Meta::default());
    assert!(matches!(refused, Err(PdfError::OutOfReach { layer: "holes", index: 0, .. })));
}

/// A figure that is scaled keeps its corner, and its lengths go with the scale.
#[test]
fn unit_a_scaled_figure_stays_at_its_corner() {
    let mut figure = figure();
    figure.line("edges", Pen::Thin, [0.0, 0.0], [100.0, 0.0]);
    let mut pages = whole(&figure);
    pages[0].placed[0].scale = 0.5;
    let source = source(&pages);
    // 20 and 30 mm of offset, half of each left over by the scale: 28.3465 pt, and 42.5197 pt from the top.
    assert!(source.contains("0.5 0 0 -0.5 28.346457 799.3701 cm"), "{source}");
    assert_eq!(lines(&source).len(), 1);
    for scale in [0.0, -1.0, 1e-9, 1e300, f64::NAN, f64::INFINITY] {
        pages[0].placed[0].scale = scale;
        assert!(matches!(pdf(&pages, &Meta::default()), Err(PdfError::NoPlace { .. })), "{scale}");
    }
}

#[test]
fn unit_no_control_sign_reaches_the_metadata() {
    let figure = figure();
    let meta = Meta { title: "Sill\u{0}\u{1b}left".into(), ..Meta::default() };
    let file = pdf(&whole(&figure), &meta).unwrap();
    assert!(String::from_utf8_lossy(&file).contains("Sill  left</rdf:li>"));
}

#[test]
fn unit_a_window_leaves_out_what_lies_beyond_it() {
    let mut figure = figure();
    for x in [10.0, 60.0, 110.0] {
        figure.line("edges", Pen::Thin, [x, 5.0], [x, 75.0]);
    }
    let mut page = Page::with([100.0; 2], &figure, [0.0; 2]);
    page.placed[0].window_mm = Some([40.0, 0.0, 80.0, 80.0]);
    let source = source(&[page]);
    assert_eq!(lines(&source).len(), 1, "{source}");
    assert!(source.contains("\nW\n"), "{source}");
}

fn any_shape() -> impl Strategy<Value = Shape> {
    let size = prop_oneof![
        8 => -500.0..500.0_f64,
        1 => any::<f64>(),
        1 => Just(0.0),
    ];
    let point = [size.clone(), size.clone()];
    let pen = proptest::sample::select(Pen::ALL.to_vec());
    let points = proptest::collection::vec(point.clone(), 0..5);
    let fill = proptest::option::of(Just(Colour::Smear(3)));
    prop_oneof![
        (point.clone(), point.clone(), pen.clone()).prop_map(|(from, to, pen)| Shape::Line { from, to, pen }),
        (points.clone(), pen.clone()).prop_map(|(points, pen)| Shape::Polyline { points, pen }),
        (proptest::collection::vec(points, 0..3), fill.clone(), proptest::option::of(pen.clone()))
            .prop_map(|(rings, fill, pen)| Shape::Area { rings, fill, pen }),
        (point.clone(), size.clone(), fill, proptest::option::of(pen))
            .prop_map(|(centre, radius, fill, pen)| Shape::Circle { centre, radius, fill, pen }),
        (point, size, any::<String>()).prop_map(|(at, turn_deg, words)| Shape::Text(Text {
            at,
            anchor: Anchor::End,
            turn_deg,
            lettering: Lettering::Text,
            colour: Colour::Ink,
            words,
        })),
    ]
}

proptest! {
    /// Any marks at any place give a file or say why not; none breaks the writer.
    #[test]
    fn law_any_figure_is_a_file_or_a_reason(
        shapes in proptest::collection::vec(any_shape(), 0..8),
        window in proptest::option::of([-50.0..50.0_f64, -50.0..50.0, 60.0..200.0, 60.0..200.0]),
        title in any::<String>(),
    ) {
        let mut figure = figure();
        for shape in shapes {
            figure.add("any", shape);
        }
        let mut pages = whole(&figure);
        pages[0].placed[0].window_mm = window;
        let meta = Meta { title: title.clone(), description: title, ..Meta::default() };
        match pdf(&pages, &meta) {
            Ok(file) => prop_assert!(file.starts_with(b"%PDF") && file.trim_ascii_end().ends_with(b"%%EOF")),
            Err(error) => prop_assert!(matches!(error, PdfError::OutOfReach { .. }), "{}", error),
        }
    }
}
