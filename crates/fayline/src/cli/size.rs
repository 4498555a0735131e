//! `fayline size`.

use std::fmt::Write;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use drawing::figure::Figure;
use drawing::page::Page;
use drawing::pdf::{Meta, pdf};
use drawing::svg;
use quantity::{Kind, System};
use stages::Watch;
use stages::size::{Bounds, Governs, Refusal, Request, Sizing, Trial, size};

use super::wait::watched;
use super::{Exit, Format, Stop, say, text_of};
use crate::files::{Beside, in_words, write_new, write_whole};
use crate::json;
use crate::sizing::{figure, one};
use crate::text::{fill, rule};

/// What is asked of `fayline size`.
#[derive(Debug, clap::Args)]
pub(super) struct Asked {
    /// The job file
    job: PathBuf,
    /// The joint, by its name
    #[arg(long)]
    joint: String,
    /// The reserve factor to reach
    #[arg(long, default_value = "1.2", value_parser = target)]
    target: f64,
    /// The shortest overlap, such as "40 mm"; else a quarter of the planned one
    #[arg(long, value_name = "LENGTH", value_parser = length)]
    overlap_least: Option<f64>,
    /// The longest overlap; else three times the planned one
    #[arg(long, value_name = "LENGTH", value_parser = length)]
    overlap_most: Option<f64>,
    /// Most rows of rivets on each side; else 4
    #[arg(long, value_name = "NUMBER", value_parser = clap::value_parser!(u32).range(1..=20))]
    rows_most: Option<u32>,
    /// The thickest bondline, where it is free; else 1 mm
    #[arg(long, value_name = "LENGTH", value_parser = length)]
    bondline_most: Option<f64>,
    /// The thickest wall of an insert; else 2 mm more than planned
    #[arg(long, value_name = "LENGTH", value_parser = length)]
    wall_most: Option<f64>,
    /// How to print what came of it
    #[arg(long, default_value = "text")]
    format: Format,
    /// Write the job with the edits to a new file; one that is there is not touched
    #[arg(long, value_name = "NEWFILE")]
    apply: Option<PathBuf>,
    /// Draw the reserve against the overlap, to a file ending in .svg or .pdf
    #[arg(short, long)]
    output: Option<PathBuf>,
}

/// A reserve factor that can be asked for.
fn target(text: &str) -> Result<f64, String> {
    let factor = text.parse::<f64>().ok().filter(|factor| (0.1..=10.0).contains(factor));
    factor.ok_or_else(|| "a reserve factor from 0.1 to 10 is expected".to_owned())
}

/// A length with its unit, mm.
fn length(text: &str) -> Result<f64, String> {
    let mm = quantity::parse(text, Kind::Length).map_err(|error| error.to_string())?;
    if mm > 0.0 { Ok(mm) } else { Err("a length above zero is expected".to_owned()) }
}

/// Sizes a joint, says what came of it, and writes what is asked for.
pub(super) fn run(asked: &Asked) -> Result<Exit, Stop> {
    match (sized(asked), asked.format) {
        (Err(stop), Format::Json) => {
            say(&stop.in_json());
            Ok(Exit::Bad)
        }
        (done, _) => done,
    }
}

fn sized(asked: &Asked) -> Result<Exit, Stop> {
    let form = asked.output.as_deref().map(Form::of).transpose()?;
    let text = text_of(&asked.job)?;
    let bounds = Bounds {
        overlap_least_mm: asked.overlap_least,
        overlap_most_mm: asked.overlap_most,
        rows_most: asked.rows_most,
        bondline_most_mm: asked.bondline_most,
        wall_most_mm: asked.wall_most,
    };
    let request = Request { joint: &asked.joint, target: asked.target, bounds };
    let name = asked.job.to_string_lossy();
    let watch = Arc::new(Watch::default());
    let work = || size(&name, &text, &Beside::job(&asked.job), &request, &watch);
    let sizing = watched(&watch, work).map_err(|refusal| match refusal {
        Refusal::Problems(problems) => Stop::Problems(problems),
        Refusal::Cannot(why) => Stop::Cannot(why),
    })?;
    let mut told = told(&asked.joint, &sizing, watch.is_stopped());
    if let Some(path) = &asked.apply {
        let shown = path.display();
        write_new(path, sizing.text.as_bytes())
            .map_err(|error| Stop::Cannot(format!("{shown} cannot be written: {}", in_words(&error))))?;
        let _ = writeln!(told, "\n{}", fill(&format!("{shown} is the job with these edits."), "", ""));
    }
    if let (Some(path), Some(form)) = (&asked.output, form) {
        form.write(path, &figure(&asked.joint, &sizing))?;
        let _ = writeln!(told, "\n{}", fill(&format!("{} is written.", path.display()), "", ""));
    }
    match asked.format {
        Format::Text => say(&told),
        Format::Json => say(&format!("{:#}\n", json::sizing(&asked.joint, &sizing))),
    }
    Ok(if sizing.reached { Exit::Met } else { Exit::Open })
}

/// What came of it, in words.
fn told(joint: &str, sizing: &Sizing, stopped: bool) -> String {
    let system = sizing.assessment.system;
    let mut text = String::new();
    let verdict = if sizing.reached { "reached" } else { "not reached" };
    let _ = writeln!(text, "{}", rule(&format!("{joint}, reserve factor {:.2}", sizing.target), verdict));
    let mut say = |words: String| {
        let _ = writeln!(text, "{}", fill(&words, "", "  "));
    };
    say(format!("planned: {}", one(&sizing.planned, system)));
    let word = if sizing.reached { "sized" } else { "nearest" };
    say(format!("{word}: {}", one(&sizing.chosen, system)));
    say(format!("Searched: {}; {} candidates were assessed.", sizing.range, sizing.tried));
    match (sizing.stopped, sizing.reached) {
        (true, true) => say("It was stopped before all were tried: smaller sizes may do, too.".to_owned()),
        (true, false) => {
            say("It was stopped before all were tried: others may come nearer, or reach it.".to_owned());
        }
        (false, _) if stopped => say("It was stopped while the trade-off was computed.".to_owned()),
        (false, _) => {}
    }
    for (id, why) in &sizing.chosen.unknown {
        say(format!("Cannot be told: {id}. {why}"));
    }
    for id in &sizing.chosen.broken {
        say(format!("Broken by these sizes: {id}."));
    }
    edits(&mut text, sizing);
    table(&mut text, sizing, system);
    limits(&mut text, sizing, system);
    text
}

fn edits(text: &mut String, sizing: &Sizing) {
    if sizing.edits.is_empty() {
        let _ = writeln!(text, "\nNothing needs to change.");
        return;
    }
    let _ = writeln!(text, "\nEdits of the job file:");
    for edit in &sizing.edits {
        let _ = writeln!(text, "  {} = {}", edit.key, edit.value);
    }
}

/// The trade-off: reserves against overlap, and against rows.
fn table(text: &mut String, sizing: &Sizing, system: System) {
    let number = |known: &Option<Governs>| {
        known.as_ref().map_or_else(|| "-".to_owned(), |known| format!("{:.2}", known.reserve))
    };
    let line = |text: &mut String, first: &str, cells: [String; 3], mark: &str| {
        let [bond, lost, parts] = cells;
        let _ = writeln!(text, "{}", format!("  {first:<14}{bond:>8}{lost:>14}{parts:>8}{mark}").trim_end());
    };
    let head = || ["bond", "rivets alone", "parts"].map(str::to_owned);
    let cells = |trial: &Trial| [number(&trial.bond), number(&trial.bond_lost), number(&trial.parts)];
    if sizing.by_overlap.is_empty() {
        return;
    }
    text.push_str("\nLeast reserve factors, all else as above:\n");
    line(text, "overlap", head(), "");
    for trial in &sizing.by_overlap {
        let at = trial.candidate.overlap_mm;
        let chosen = trial.candidate == sizing.chosen.candidate;
        let mark = match (chosen, trial.broken.is_empty()) {
            (true, _) => "  <",
            (false, false) => "  breaks a rule",
            (false, true) => "",
        };
        line(text, &quantity::print(at, Kind::Length, system), cells(trial), mark);
    }
    if sizing.by_rows.is_empty() {
        return;
    }
    text.push('\n');
    line(text, "rows", head(), "");
    for trial in &sizing.by_rows {
        let count = trial.candidate.rows_mm.len();
        let chosen = count == sizing.chosen.candidate.rows_mm.len();
        let mark = if chosen { "  <" } else { "" };
        line(text, &count.to_string(), cells(trial), mark);
    }
}

/// Where more overlap stops helping, and what no overlap lifts.
fn limits(text: &mut String, sizing: &Sizing, system: System) {
    text.push('\n');
    let mut say = |words: &str| {
        let _ = writeln!(text, "{}", fill(words, "", "  "));
    };
    if let Some(mm) = sizing.helps_to_mm {
        let at = quantity::print(mm, Kind::Length, system);
        say(&format!(
            "Beyond an overlap of {at} the peak of the shear falls by less than 1 % more: what the nominal check still gains, which spreads the load evenly, the ends of the bond do not feel."
        ));
    }
    let (bond, parts) = (&sizing.chosen.bond, &sizing.chosen.parts);
    if let (Some(bond), Some(parts)) = (bond, parts)
        && parts.reserve < bond.reserve
    {
        say(&format!(
            "With these sizes a part beside the bond is the limit, at {:.2} ({}): more overlap makes the joint no stronger.",
            parts.reserve, parts.id
        ));
    }
    if sizing.limits.is_empty() {
        say("Nothing else of this joint falls short of the target.");
        return;
    }
    say("Not lifted by any of these sizes, and short of the target:");
    for finding in &sizing.limits {
        let next = finding.next.as_ref().map_or(String::new(), |next| format!(" Next: {}", next.text));
        say(&format!("  {}: {}{next}", finding.verdict.word(), finding.headline()));
    }
}

/// The form in which the chart is written.
enum Form {
    Svg,
    Pdf,
}

impl Form {
    fn of(path: &Path) -> Result<Self, Stop> {
        let ending = path.extension().map(|ending| ending.to_string_lossy().to_lowercase());
        match ending.as_deref() {
            Some("svg") => Ok(Self::Svg),
            Some("pdf") => Ok(Self::Pdf),
            _ => {
                let shown = path.display();
                Err(Stop::Cannot(format!(
                    "{shown} does not end in .svg or .pdf, the forms of charts there are"
                )))
            }
        }
    }

    fn write(&self, path: &Path, figure: &Figure) -> Result<(), Stop> {
        let shown = path.display();
        let cannot = |why: String| Stop::Cannot(format!("{shown} cannot be drawn: {why}"));
        let bytes = match self {
            Self::Svg => svg::alone(figure).map_err(|error| cannot(error.to_string()))?.into_bytes(),
            Self::Pdf => {
                let meta =
                    Meta { title: figure.title.clone(), description: figure.desc.clone(), ..Meta::default() };
                pdf(&[Page::with(figure.size_mm, figure, [0.0, 0.0])], &meta)
                    .map_err(|error| cannot(error.to_string()))?
            }
        };
        write_whole(path, &bytes)
            .map_err(|error| Stop::Cannot(format!("{shown} cannot be written: {}", in_words(&error))))
    }
}
