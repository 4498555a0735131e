use std::collections::BTreeSet;

use proptest::prelude::*;

use super::*;
use crate::lettering::Lettering;

fn figure() -> Figure {
    Figure {
        name: "plate".into(),
        title: "Plate".into(),
        desc: String::new(),
        size_mm: [120.0, 80.0],
        marks: Vec::new(),
    }
}

/// Group codes and values.
fn pairs(file: &str) -> Vec<(u16, &str)> {
    let lines: Vec<&str> = file.lines().collect();
    assert_eq!(lines.len() % 2, 0);
    lines.chunks(2).map(|pair| (pair[0].parse().unwrap(), pair[1])).collect()
}

/// The first object of a kind, without its beginning.
fn first<'a>(pairs: &[(u16, &'a str)], kind: &str) -> Vec<(u16, &'a str)> {
    pairs
        .iter()
        .skip_while(|pair| **pair != (0, kind))
        .skip(1)
        .take_while(|pair| pair.0 != 0)
        .copied()
        .collect()
}

fn value<'a>(object: &[(u16, &'a str)], code: u16) -> Option<&'a str> {
    object.iter().find(|pair| pair.0 == code).map(|pair| pair.1)
}

#[test]
fn unit_a_hole_keeps_its_place_with_y_up() {
    let mut figure = figure();
    figure.add(
        "sheet-holes",
        Shape::Circle { centre: [30.25, 20.5], radius: 2.4, fill: None, pen: Some(Pen::Edge) },
    );
    let file = dxf(&figure).unwrap();
    let pairs = pairs(&file);
    let hole = first(&pairs, "CIRCLE");
    assert_eq!(value(&hole, 8), Some("sheet-holes"));
    assert_eq!(
        (value(&hole, 10), value(&hole, 20), value(&hole, 40)),
        (Some("30.25"), Some("59.5"), Some("2.4"))
    );
    let unit = pairs.iter().position(|pair| *pair == (9, "$INSUNITS")).unwrap();
    assert_eq!(pairs[unit + 1], (70, "4"));
    assert!(pairs.contains(&(2, "sheet-holes")), "the layer is in the table");
}

#[test]
fn unit_pens_keep_their_dashes() {
    let mut figure = figure();
    figure.line("cut", Pen::Cut, [0.0; 2], [10.0, 0.0]);
    let file = dxf(&figure).unwrap();
    let pairs = pairs(&file);
    assert_eq!(value(&first(&pairs, "LINE"), 6), Some("CUT"));
    let names: Vec<String> = line_types().map(line_type).collect();
    assert_eq!(names, ["FOLD", "CUT", "DOTTED"]);
    assert_eq!(line_type(Pen::AccentDashed), "FOLD");
    let lengths: Vec<f64> =
        pairs.iter().filter(|pair| pair.0 == 49).map(|pair| pair.1.parse().unwrap()).collect();
    assert_eq!(lengths.len(), 2 + 4 + 2);
    assert!(lengths.iter().step_by(2).all(|length| *length > 0.0));
    assert!(lengths.iter().skip(1).step_by(2).all(|length| *length < 0.0));
}

#[test]
fn unit_text_is_printable_and_cannot_be_read_as_a_code() {
    assert_eq!(escaped("Ø 4.8"), "\\U+00D8 4.8");
    assert_eq!(escaped("%%d \\U ^J\n\u{1F600}"), "\\U+0025\\U+0025d \\U+005CU \\U+005EJ ?");
}

#[test]
fn unit_paint_alone_is_not_cut() {
    let mut figure = figure();
    let ring = vec![[0.0, 0.0], [1.0, 0.0], [1.0, 1.0]];
    figure.add("field", Shape::Area { rings: vec![ring.clone()], fill: Some(Colour::Smear(2)), pen: None });
    assert!(!dxf(&figure).unwrap().contains("LWPOLYLINE"));
    figure.add("cut", Shape::Area { rings: vec![ring.clone(), ring], fill: None, pen: Some(Pen::Edge) });
    let file = dxf(&figure).unwrap();
    assert_eq!(file.matches("LWPOLYLINE").count(), 2);
    assert_eq!(value(&first(&pairs(&file), "LWPOLYLINE"), 70), Some("1"));
}

#[test]
fn unit_what_is_no_number_is_refused() {
    let mut unsized_figure = figure();
    unsized_figure.size_mm[1] = f64::NAN;
    assert!(matches!(dxf(&unsized_figure), Err(DxfError::NoSize { .. })));
    let shapes = [
        Shape::Line { from: [f64::NAN, 0.0], to: [0.0; 2], pen: Pen::Thin },
        Shape::Line { from: [f64::MAX, 0.0], to: [0.0; 2], pen: Pen::Thin },
        Shape::Polyline { points: vec![[0.0, f64::INFINITY]], pen: Pen::Thin },
        Shape::Area { rings: vec![vec![[f64::NAN; 2]]], fill: None, pen: None },
        Shape::Circle { centre: [0.0; 2], radius: -1.0, fill: None, pen: None },
        Shape::Circle { centre: [0.0; 2], radius: f64::NAN, fill: None, pen: None },
    ];
    for shape in shapes {
        let mut figure = figure();
        figure.add("holes", shape.clone());
        let refused = dxf(&figure);
        assert!(matches!(refused, Err(DxfError::NotFinite { layer: "holes", index: 0, .. })), "{shape:?}");
    }
}

proptest! {
    /// The file is pairs of lines whatever the text and the name of the layer; every handle is used
    /// once and lies below the seed; every layer that is used is in the table.
    #[test]
    fn law_the_file_holds_together(
        words in any::<String>(),
        layers in proptest::collection::vec(
            proptest::sample::select(vec!["cut", "Cut", "", "a b", "0", "ρ\n", "sheet-holes"]), 1..6),
        x in -1e4..1e4_f64,
    ) {
        let mut figure = figure();
        for layer in &layers {
            figure.line(layer, Pen::Fold, [x, 0.0], [0.0, x]);
            figure.add(layer, Shape::Text(Text {
                at: [x, 1.0],
                anchor: Anchor::End,
                turn_deg: x,
                lettering: Lettering::Text,
                colour: Colour::Ink,
                words: words.clone(),
            }));
        }
        let file = dxf(&figure).unwrap();
        prop_assert!(file.is_ascii());
        let pairs = pairs(&file);
        let seed_at = pairs.iter().position(|pair| *pair == (9, "$HANDSEED")).unwrap() + 1;
        let number = |text: &str| u32::from_str_radix(text, 16).unwrap();
        let seed = number(pairs[seed_at].1);
        let handles: Vec<u32> = pairs[seed_at + 1..]
            .iter()
            .filter(|pair| pair.0 == 5 || pair.0 == 105)
            .map(|pair| number(pair.1))
            .collect();
        let different: BTreeSet<u32> = handles.iter().copied().collect();
        prop_assert_eq!(different.len(), handles.len());
        prop_assert!(handles.iter().all(|handle| *handle < seed));
        let named: BTreeSet<&str> = pairs.iter().filter(|pair| pair.0 == 2).map(|pair| pair.1).collect();
        for (_, layer) in pairs.iter().filter(|pair| pair.0 == 8) {
            prop_assert!(named.contains(layer), "{}", layer);
        }
    }
}
