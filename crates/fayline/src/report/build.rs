//! The document of an assessment: which blocks a report has, and in which order.

use assessment::{Assessment, Finding, Lack, Stage, Unknown, Verdict};
use drawing::Figure;
use drawing::chart::rounded;
use drawing::figure::Shape;

use super::document::{Block, Cell, Document, Drawing, Item, Ranged, Run, Section, Table};
use super::{charts, tables};

/// The usual cautions of the work that a report may set off.
pub(super) const CAUTIONS: [&str; 5] = [
    "Follow the manufacturer's repair procedure and local rules. Where they differ from this report, they hold.",
    "High voltage: isolated, verified and locked by qualified people before anything is cut, drilled or heated.",
    "Two-part resins sensitise: gloves, eyes, ventilation. Read the safety data sheet of the batch at hand.",
    "Cutting and grinding aluminium: eyes, ears, lungs; its dust burns. No flame and no welding near a cured bond.",
    "A computed reserve is no proof. Witness coupons and a proof load show what this bond, on this day, holds.",
];

const VERSION: &str = env!("CARGO_PKG_VERSION");

/// How many signs of the hash stand at the foot of a page; the whole of it stands at the end.
const SHORT_HASH: usize = 12;

/// Builds the document.
pub(super) fn document(assessment: &Assessment) -> Document {
    let mut opening = Vec::from_iter(next_step(assessment));
    opening.push(tables::stages(assessment));
    let ladder = charts::reserves(assessment);
    opening.extend(ladder.map(|figure| Block::Drawing(Drawing { figure, full_scale: false })));
    let mut sections: Vec<Section> =
        Stage::ALL.into_iter().filter_map(|stage| of_stage(assessment, stage)).collect();
    sections.extend(assumptions(assessment));
    sections.extend(unknowns(assessment));
    sections.extend(not_asked(assessment));
    sections.push(Section { title: "All numbers".to_owned(), blocks: vec![numbers(assessment)] });
    let cautions = CAUTIONS.iter().map(|words| vec![Run::plain(words)]).collect();
    sections.push(Section { title: "Cautions".to_owned(), blocks: vec![Block::List(cautions)] });
    let short: String = assessment.hash.chars().take(SHORT_HASH).collect();
    Document {
        title: assessment.title.clone(),
        verdict: assessment.verdict(),
        opening,
        sections,
        closing: vec![
            vec![
                Run::aside(&format!("Job file {}, SHA-256 of the job and its data ", assessment.name)),
                Run::name(&assessment.hash),
                Run::aside("."),
            ],
            vec![Run::aside(&format!(
                "Fayline {VERSION}. It says which requirement is met, by what margin, and what it does not know."
            ))],
        ],
        mark: format!("job {short}, Fayline {VERSION}"),
    }
}

/// The charts of a stage. A sheet, bare or with a field on it, is a thing at full scale.
fn drawings(assessment: &Assessment, stage: Stage) -> impl Iterator<Item = Block> {
    let figures = charts::of(assessment, stage).into_iter();
    figures.map(|figure| {
        let full_scale = figure.name.strip_prefix("sheet-").is_some_and(|name| {
            assessment.fields.contains_key(name) || assessment.sheets.iter().any(|sheet| sheet.joint == name)
        });
        let figure = if full_scale { without_claim(figure) } else { figure };
        Block::Drawing(Drawing { figure, full_scale })
    })
}

/// A sheet that does not claim to be at full scale: neither a screen nor the column of a page keeps its size, and the
/// printer says at which scale it stands.
pub(super) fn without_claim(mut figure: Figure) -> Figure {
    const CLAIM: &str = ", full scale";
    let titles = figure.marks.iter_mut().filter_map(|mark| match &mut mark.shape {
        Shape::Text(text) => Some(&mut text.words),
        _ => None,
    });
    for words in titles.chain(std::iter::once(&mut figure.title)) {
        if let Some(kept) = words.strip_suffix(CLAIM) {
            *words = kept.to_owned();
        }
    }
    figure
}

/// The one thing to do next: what mends the worst finding, or fills the first gap.
fn next_step(assessment: &Assessment) -> Option<Block> {
    let open = [Verdict::NotMet, Verdict::Unknown];
    let (finding, next) = open.iter().find_map(|verdict| {
        let mut of_verdict = assessment.findings.iter().filter(|finding| finding.verdict == *verdict);
        of_verdict.find_map(|finding| Some((finding, finding.next.as_ref()?)))
    })?;
    Some(Block::Step(vec![
        Run::strong("Next: "),
        Run::plain(&format!("{} ", next.text)),
        Run::aside(&finding.headline()),
    ]))
}

fn of_stage(assessment: &Assessment, stage: Stage) -> Option<Section> {
    let verdict = assessment.verdict_of(stage)?;
    let mut blocks = vec![Block::Question { words: stage.question().to_owned(), verdict }];
    blocks.extend(assessment.of(stage).map(|finding| Block::Finding(item(finding))));
    blocks.extend(beside_findings(assessment, stage));
    Some(Section { title: stage.title().to_owned(), blocks })
}

/// What a stage shows beside its findings: plans, tables, drawings.
pub(super) fn beside_findings(assessment: &Assessment, stage: Stage) -> Vec<Block> {
    let mut blocks = Vec::new();
    match stage {
        Stage::BondDay => {
            blocks.extend(assessment.plans.iter().flat_map(|plan| tables::plan(plan, assessment.system)));
        }
        Stage::Prove => blocks.extend(tables::coupons(assessment)),
        Stage::Triage | Stage::Choose | Stage::Join | Stage::Fit | Stage::HandOver => {}
    }
    blocks.extend(drawings(assessment, stage));
    if stage == Stage::Join {
        blocks.extend(assessment.sheets.iter().flat_map(|laid| tables::holes(laid, assessment.system)));
    }
    blocks
}

fn item(finding: &Finding) -> Item {
    let mut paragraphs = vec![vec![Run::strong(&finding.headline())]];
    if !finding.because.is_empty() {
        paragraphs.push(vec![Run::plain(&finding.because)]);
    }
    if let Some(next) = &finding.next {
        paragraphs.push(vec![Run::strong("Next: "), Run::plain(&next.text)]);
    }
    let mut aside = vec![Run::aside(&format!("{}. ", finding.basis)), Run::name(&finding.id)];
    if let Some(place) = &finding.place {
        aside.push(Run::aside(&format!(", line {} of {}", place.line, place.file)));
    }
    Item { id: finding.id.clone(), verdict: finding.verdict, paragraphs, aside }
}

fn assumptions(assessment: &Assessment) -> Option<Section> {
    let rows: Vec<Vec<Cell>> = assessment
        .assumptions
        .iter()
        .map(|it| {
            vec![Cell::words(&it.statement), Cell::Name(it.key.clone()), Cell::words(&it.basis.to_string())]
        })
        .collect();
    let columns = vec![("taken for granted", Ranged::Left), ("key", Ranged::Left), ("basis", Ranged::Left)];
    let lead =
        "What the job file does not say and the program took for granted, with the key that it hangs on.";
    (!rows.is_empty()).then(|| Section {
        title: "Assumptions".to_owned(),
        blocks: vec![Block::Paragraph(vec![Run::plain(lead)]), Block::Table(Table { columns, rows })],
    })
}

/// What is not known: what would settle it first, then what hangs on it.
fn unknowns(assessment: &Assessment) -> Option<Section> {
    let blocks: Vec<Block> = assessment.unknowns().into_iter().map(unknown).collect();
    (!blocks.is_empty()).then(|| Section { title: "Unknowns".to_owned(), blocks })
}

fn unknown(unknown: Unknown<'_>) -> Block {
    let mut sentences = match unknown.lack {
        // The keys that are missing stand in what would settle it.
        Lack::Missing { .. } => Vec::new(),
        lack => vec![sentence(&lack.to_string())],
    };
    sentences.extend(unknown.statements);
    let mut runs = vec![
        Run::strong(&format!("{} ", sentence(&unknown.lack.remedy()))),
        Run::plain(&format!("{} ", sentences.join(" "))),
    ];
    if !unknown.quantities.is_empty() {
        runs.push(Run::aside("Without a number: "));
        runs.push(Run::name(&unknown.quantities.join(", ")));
        runs.push(Run::aside("."));
    }
    Block::Paragraph(runs)
}

/// Words as a sentence.
fn sentence(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map_or(String::new(), |first| format!("{}{}.", first.to_uppercase(), letters.as_str()))
}

fn not_asked(assessment: &Assessment) -> Option<Section> {
    let stages: Vec<&str> = assessment.not_asked.iter().map(|stage| stage.title()).collect();
    let words = format!(
        "The job has no table for {}. Nothing is said of them, neither good nor bad.",
        stages.join(", ")
    );
    (!stages.is_empty()).then(|| Section {
        title: "Not asked".to_owned(),
        blocks: vec![Block::Paragraph(vec![Run::plain(&words)])],
    })
}

/// Every number with four significant digits, in base units, and every name that has none.
fn numbers(assessment: &Assessment) -> Block {
    let known = assessment.quantities.iter().map(|(name, measure)| {
        vec![Cell::Name(name.to_owned()), Cell::words(&rounded(measure.value, 4)), Cell::words(measure.unit)]
    });
    let unknown = assessment.quantities.unknown().map(|(name, lack)| {
        // The unknowns have a section of their own, with reasons; of what nothing loads there is nothing to know.
        let why = if *lack == Lack::NoLoad { lack.to_string() } else { "see Unknowns".to_owned() };
        vec![Cell::Name(name.to_owned()), Cell::words("unknown"), Cell::words(&why)]
    });
    let columns = vec![("name", Ranged::Left), ("value", Ranged::Right), ("unit", Ranged::Left)];
    Block::Table(Table { columns, rows: known.chain(unknown).collect() })
}
