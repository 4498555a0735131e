//! The report as a tree of blocks: what both printers print, and nothing else.

use assessment::Verdict;
use drawing::Figure;

use super::held::held;

/// A whole report.
pub(super) struct Document {
    /// The job's title.
    pub(super) title: String,
    /// The verdict of the job.
    pub(super) verdict: Verdict,
    /// What stands before the first section.
    pub(super) opening: Vec<Block>,
    /// The sections in order.
    pub(super) sections: Vec<Section>,
    /// From what and by what the report was made.
    pub(super) closing: Vec<Vec<Run>>,
    /// The same in short, for the foot of each page.
    pub(super) mark: String,
}

/// A section under a heading of its own.
pub(super) struct Section {
    /// The heading.
    pub(super) title: String,
    /// What stands under it.
    pub(super) blocks: Vec<Block>,
}

/// One block.
pub(super) enum Block {
    /// A question, and the verdict on it.
    Question {
        /// The question.
        words: String,
        /// The worst of the findings that answer it.
        verdict: Verdict,
    },
    /// The one thing to do next.
    Step(Vec<Run>),
    /// A lesser heading.
    Heading(String),
    /// Running text.
    Paragraph(Vec<Run>),
    /// A finding.
    Finding(Item),
    /// A drawing.
    Drawing(Drawing),
    /// A table.
    Table(Table),
    /// A list.
    List(Vec<Vec<Run>>),
}

/// Words in one style.
#[derive(Debug, Clone)]
pub(super) struct Run {
    /// The style.
    pub(super) style: Style,
    /// The words.
    pub(super) words: String,
}

/// How words stand in running text.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Style {
    /// As running text.
    Plain,
    /// What is to be seen first.
    Strong,
    /// What stands back.
    Aside,
    /// A name of the job file or of a result.
    Name,
}

impl Run {
    /// Running text.
    pub(super) fn plain(words: &str) -> Self {
        Self { style: Style::Plain, words: held(words) }
    }

    /// What is to be seen first.
    pub(super) fn strong(words: &str) -> Self {
        Self { style: Style::Strong, words: held(words) }
    }

    /// What stands back.
    pub(super) fn aside(words: &str) -> Self {
        Self { style: Style::Aside, words: held(words) }
    }

    /// A name.
    pub(super) fn name(words: &str) -> Self {
        Self { style: Style::Name, words: words.to_owned() }
    }
}

/// A finding as it is printed.
pub(super) struct Item {
    /// Its dotted name.
    pub(super) id: String,
    /// Its verdict.
    pub(super) verdict: Verdict,
    /// Statement first, then because and next, each a paragraph.
    pub(super) paragraphs: Vec<Vec<Run>>,
    /// Basis, name and place.
    pub(super) aside: Vec<Run>,
}

/// A drawing with its claim.
pub(super) struct Drawing {
    /// What is drawn.
    pub(super) figure: Figure,
    /// Whether it is a thing at full scale, so that a printer that changes its size must say so.
    pub(super) full_scale: bool,
}

/// A table.
pub(super) struct Table {
    /// The head of each column, and whether its cells are ranged right as numbers are.
    pub(super) columns: Vec<(&'static str, Ranged)>,
    /// The rows, a cell for each column.
    pub(super) rows: Vec<Vec<Cell>>,
}

/// To which side the cells of a column are ranged.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Ranged {
    /// Words: to the left, wrapped.
    Left,
    /// Numbers: to the right, never wrapped.
    Right,
}

/// A cell of a table.
pub(super) enum Cell {
    /// Words.
    Words(String),
    /// A name of the job file or of a result.
    Name(String),
    /// A verdict.
    Verdict(Verdict),
}

impl Cell {
    /// Words, their figures held to their units.
    pub(super) fn words(words: &str) -> Self {
        Self::Words(held(words))
    }
}
