use std::collections::BTreeMap;

use drawing::lettering::covered;

use super::super::build;
use super::super::document::Block;
use super::super::tests::{assessments, said};
use super::*;

fn words(sheets: &[Sheet<'_>]) -> impl Iterator<Item = char> {
    let texts = sheets.iter().flat_map(|sheet| &sheet.shapes).filter_map(|shape| match shape {
        Shape::Text(text) => Some(text.words.clone()),
        _ => None,
    });
    let all: Vec<char> = texts.collect::<String>().chars().filter(|sign| !sign.is_whitespace()).collect();
    all.into_iter()
}

fn counted(signs: impl Iterator<Item = char>) -> BTreeMap<char, usize> {
    let mut counts = BTreeMap::new();
    for sign in signs {
        *counts.entry(sign).or_insert(0) += 1;
    }
    counts
}

/// "Nothing that is in one is missing in the other": on an endless sheet, where no head of a table is repeated, stand
/// the signs of the document, the dots of its lists and the scales of its sheets, and no others.
#[test]
fn unit_the_paper_says_every_word_of_the_document() {
    for assessment in assessments() {
        let document = build::document(assessment);
        let endless = Room { height: 1e6, ..room(Paper::A4) };
        let laid = flow::flow(chunk::of_document(&document, endless), endless);
        assert_eq!(laid.len(), 1);
        let mut asked: String = said(&document).concat();
        let blocks = || document.opening.iter().chain(document.sections.iter().flat_map(|it| &it.blocks));
        for block in blocks() {
            match block {
                Block::List(items) => asked.push_str(&"•".repeat(items.len())),
                Block::Drawing(drawing) if drawing.full_scale => {
                    let scale = (endless.width / drawing.figure.size_mm[0]).min(1.0) * SCALE;
                    asked.push_str(&chunk::scale_words(scale));
                }
                _ => {}
            }
        }
        let asked = counted(asked.chars().filter(|sign| !sign.is_whitespace()));
        assert_eq!(counted(words(&laid)), asked, "{}", assessment.name);
        let drawn = blocks().filter(|block| matches!(block, Block::Drawing(_))).count();
        assert_eq!(laid[0].drawings.len(), drawn);
    }
}

/// All signs of the reports are in the typeface: nothing is printed as a question mark.
#[test]
fn unit_the_typeface_has_every_sign() {
    for assessment in assessments() {
        for words in said(&build::document(assessment)) {
            assert_eq!(covered(&words), words);
        }
    }
    assert_eq!(covered("•"), "•");
}

/// Nothing runs out of its column, over the foot or over what stands next to it.
#[test]
fn law_everything_stands_in_its_column() {
    // Sums of some hundred heights.
    let slack = 1e-6;
    for assessment in assessments() {
        let document = build::document(assessment);
        for paper in [Paper::A4, Paper::Letter] {
            let room = room(paper);
            for sheet in laid(&document, paper) {
                for shape in &sheet.shapes {
                    let [left, top, right, bottom] = shape.bounds_mm();
                    assert!(left >= -slack && right <= room.width + slack, "{shape:?}");
                    assert!(top >= -slack && bottom <= room.height + slack, "{shape:?}");
                }
                let mut lowest = 0.0;
                for drawing in &sheet.drawings {
                    let [width, height] = drawing.figure.size_mm.map(|mm| mm * drawing.scale);
                    assert!(drawing.at[0] + width <= room.width + slack, "{}", drawing.figure.name);
                    assert!(drawing.at[1] >= lowest - slack, "{}", drawing.figure.name);
                    lowest = drawing.at[1] + height;
                    assert!(lowest <= room.height + slack, "{}", drawing.figure.name);
                }
            }
        }
    }
}

/// No text of a sheet lies on another.
#[test]
fn law_no_text_lies_on_another() {
    for assessment in assessments() {
        let document = build::document(assessment);
        for sheet in laid(&document, Paper::Letter) {
            let texts: Vec<[f64; 4]> = sheet
                .shapes
                .iter()
                .filter(|shape| matches!(shape, Shape::Text(_)))
                .map(Shape::bounds_mm)
                .collect();
            for (index, a) in texts.iter().enumerate() {
                // Boxes reach from the tallest to the lowest sign; lines touch by less than that.
                let over = |b: &&[f64; 4]| {
                    a[0] < b[2] - 0.01 && b[0] < a[2] - 0.01 && a[1] < b[3] - 1.0 && b[1] < a[3] - 1.0
                };
                let hit = texts[index + 1..].iter().find(over);
                assert!(hit.is_none(), "{}: {a:?} {hit:?}", assessment.name);
            }
        }
    }
}
