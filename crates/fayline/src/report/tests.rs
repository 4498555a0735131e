use std::sync::LazyLock;

use assessment::Assessment;

use super::document::{Block, Cell, Document, Run};
use super::*;
use crate::demo::{DATA, JOBS};

struct Demo;

impl job::Files for Demo {
    fn read(&self, name: &str) -> Result<Vec<u8>, String> {
        let file = DATA.iter().find(|file| file.name == name).ok_or("there is no such file")?;
        Ok(file.content.as_bytes().to_vec())
    }
}

/// Every demo in both systems of units, and the starter, which has unknowns; assessed once for all tests.
pub(super) fn assessments() -> &'static [Assessment] {
    static ALL: LazyLock<Vec<Assessment>> = LazyLock::new(assessed);
    &ALL
}

fn assessed() -> Vec<Assessment> {
    let starter = include_str!("../../../../examples/starter.toml");
    let texts = JOBS.iter().map(|file| (file.name, file.content)).chain([("starter.toml", starter)]);
    texts
        .flat_map(|(name, text)| {
            let imperial = text.replacen("\ntitle", "\nunits = \"imperial\"\ntitle", 1);
            [text.to_owned(), imperial].map(|text| {
                let job = job::read(name, &text, &Demo).expect("a demo is well-formed");
                stages::assess(&job, &stages::Ask::default())
            })
        })
        .collect()
}

/// All words of a document, piece by piece in its order.
pub(super) fn said(document: &Document) -> Vec<String> {
    let mut all = vec![document.title.clone(), document.verdict.word().to_owned()];
    let runs = |runs: &[Run]| runs.iter().map(|run| run.words.as_str()).collect::<String>();
    let mut add = |block: &Block| match block {
        Block::Question { words, verdict } => all.extend([words.clone(), verdict.word().to_owned()]),
        Block::Step(words) | Block::Paragraph(words) => all.push(runs(words)),
        Block::Heading(words) => all.push(words.clone()),
        Block::Finding(item) => {
            all.push(item.verdict.word().to_owned());
            all.extend(item.paragraphs.iter().chain([&item.aside]).map(|paragraph| runs(paragraph)));
        }
        Block::Drawing(_) => {}
        Block::Table(table) => {
            all.extend(table.columns.iter().map(|(words, _)| (*words).to_owned()));
            all.extend(table.rows.iter().flatten().map(|cell| match cell {
                Cell::Words(words) | Cell::Name(words) => words.clone(),
                Cell::Verdict(verdict) => verdict.word().to_owned(),
            }));
        }
        Block::List(items) => all.extend(items.iter().map(|item| runs(item))),
    };
    document.opening.iter().for_each(&mut add);
    for section in &document.sections {
        add(&Block::Heading(section.title.clone()));
        section.blocks.iter().for_each(&mut add);
    }
    all.extend(document.closing.iter().map(|paragraph| runs(paragraph)));
    all
}

/// The text of a page as a reader sees it, without its whitespace; drawings left out.
fn visible(page: &str) -> String {
    let body = page.split_once("<body>").expect("a body").1;
    let mut text = String::new();
    let mut rest = body;
    while let Some(start) = rest.find('<') {
        text.push_str(&rest[..start]);
        rest = &rest[start..];
        let end = if rest.starts_with("<svg") { "</svg>" } else { ">" };
        rest = rest.find(end).map_or("", |at| &rest[at + end.len()..]);
    }
    let plain = text.replace("&lt;", "<").replace("&gt;", ">").replace("&quot;", "\"").replace("&amp;", "&");
    plain.split_whitespace().collect()
}

/// "Nothing that is in one is missing in the other": the page says every word of the document, in its order. What the
/// paper says is held against the same words in its own tests.
#[test]
fn unit_the_page_says_every_word_of_the_document() {
    for assessment in assessments() {
        let page = visible(&html(assessment));
        let mut rest = page.as_str();
        for words in said(&build::document(assessment)) {
            let words: String = words.split_whitespace().collect();
            let at = rest.find(&words).unwrap_or_else(|| panic!("{}: {words}", assessment.name));
            rest = &rest[at + words.len()..];
        }
    }
}

/// "Deterministic bytes": the same job gives the same files, in both forms and on both papers.
#[test]
fn law_the_same_job_gives_the_same_bytes() {
    for (first, again) in assessments().iter().zip(assessed()) {
        assert!(html(first) == html(&again), "{}", first.name);
        for paper in [Paper::A4, Paper::Letter] {
            assert!(pdf(first, paper) == pdf(&again, paper), "{}", first.name);
        }
    }
}

/// "The file's title metadata. Selectable text, embedded font. No date unless an input."
#[test]
fn unit_a_pdf_has_its_title_and_typeface_and_no_date() {
    let assessment = &assessments()[0];
    let bytes = pdf(assessment, Paper::Letter).expect("a report");
    let text = String::from_utf8_lossy(&bytes);
    assert!(text.contains("Left rear longitudinal, 3.5 t tipper"));
    assert!(text.contains("B612") && text.contains("/ToUnicode"));
    assert!(!text.contains("CreationDate") && !text.contains("ModDate"));
    assert!(text.contains("/MediaBox[0 0 612 792]"));
}

/// The report has what a person keeps: every section of the requirement, and the ids of its findings.
#[test]
fn unit_the_report_has_every_part() {
    let assessment = &assessments()[0];
    let page = html(assessment);
    for part in [
        "Assumptions",
        "All numbers",
        "Cautions",
        "Plan of the day for rail",
        "Coupons witness",
        "Holes of rail",
    ] {
        assert!(page.contains(&format!(">{part}</h")), "{part}");
    }
    for finding in &assessment.findings {
        assert!(page.contains(&format!("<article id=\"{}\"", finding.id)), "{}", finding.id);
    }
    assert!(page.contains(&assessment.hash) && page.contains(env!("CARGO_PKG_VERSION")));
    let starter = &assessments()[2 * JOBS.len()];
    assert!(html(starter).contains(">Unknowns</h2>"), "the starter lacks data");
}
