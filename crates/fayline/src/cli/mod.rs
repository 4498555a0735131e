//! The command line: one file a command.

mod check;
mod demo;
mod draw;
mod new;
mod quantities;
mod report;
mod serve;
mod size;
mod wait;

use std::num::NonZeroUsize;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

use assessment::{Assessment, Stage, Verdict};
use clap::{Parser, Subcommand, ValueEnum};
use drawing::template::Paper;
use job::Problem;

use crate::files::{Beside, in_words};
use crate::{json, problems};

/// Plans, sizes, schedules, proves and documents bonded and riveted sectioning repairs.
#[derive(Debug, Parser)]
#[command(version, max_term_width = 80, after_help = STATUS)]
struct Arguments {
    #[command(subcommand)]
    command: Option<Command>,
}

const STATUS: &str = "Exit status: 0 all met; 1 something not met or unknown; 2 bad input or a failed solver.\n\
                      The tool says which requirement is met and by what margin. It does not replace the \
                      manufacturer's procedure, local rules or a qualified person.";

#[derive(Debug, Subcommand)]
enum Command {
    /// Write the demo jobs, assess them and leave reports to read and to print
    Demo {
        /// The folder to write to; files that you have changed there are kept
        #[arg(default_value = "fayline-demo")]
        folder: PathBuf,
    },
    /// Write a commented starter job
    New {
        /// The job file to write; one that is there is not touched
        file: PathBuf,
    },
    /// Assess a job: every stage, findings worst first
    Check {
        /// The job file
        job: PathBuf,
        /// Show one stage only
        #[arg(long)]
        stage: Option<StageName>,
        /// How to print the findings
        #[arg(long, default_value = "text")]
        format: Format,
        /// Print one quantity by its dotted name, and nothing else
        #[arg(long, value_name = "NAME", conflicts_with_all = ["stage", "format"])]
        get: Option<String>,
        /// Print what is taken for granted because the job does not say it, and nothing else
        #[arg(long, conflicts_with_all = ["stage", "format", "get"])]
        assumptions: bool,
        /// Find how likely bonds are to give way, too; it takes up to a minute, and Ctrl-C keeps what is known
        #[arg(long)]
        probability: bool,
        #[command(flatten)]
        sampling: SamplingAsked,
    },
    /// Size a joint: the least overlap, rows, bondline and insert wall for a reserve
    Size(size::Asked),
    /// Write a report of a job: one HTML page that needs nothing else, or a PDF for paper
    Report {
        /// The job file
        job: PathBuf,
        /// The paper of a PDF
        #[arg(long, default_value = "a4")]
        paper: PaperName,
        /// The report to write, ending in .html or .pdf
        #[arg(short, long)]
        output: PathBuf,
    },
    /// Draw a joint at full scale
    Draw {
        /// The job file
        job: PathBuf,
        /// What to draw
        #[arg(long)]
        what: draw::What,
        /// The joint, where the job has several
        #[arg(long)]
        joint: Option<String>,
        /// Paint a field on the sheet, by its dotted name
        #[arg(long, value_name = "NAME")]
        field: Option<String>,
        /// The paper of a template
        #[arg(long, default_value = "a4")]
        paper: PaperName,
        /// The drawing to write, ending in .svg, .pdf or .dxf
        #[arg(short, long)]
        output: PathBuf,
    },
    /// Open the jobs of a folder in a browser: a page for the bench, on this machine
    Serve(serve::Asked),
    /// Print the JSON Schema of the job file
    Schema,
    /// Print every dotted name with its unit and meaning
    Quantities,
}

/// How chances are found.
#[derive(Debug, clap::Args)]
struct SamplingAsked {
    /// What the random numbers of --probability are made from: same seed, same answer
    #[arg(long, value_name = "N", default_value_t = 1, requires = "probability")]
    seed: u64,
    /// Strips that --probability may load until they fail, shared among the loads of the job: more narrow the brackets
    #[arg(long, value_name = "N", default_value_t = stages::Sampling::default().strips, requires = "probability")]
    strips: u32,
    /// Threads for --probability, else as many as there are processors; the answer does not depend on it
    #[arg(long, value_name = "N", requires = "probability")]
    threads: Option<NonZeroUsize>,
}

#[derive(Debug, Clone, Copy, ValueEnum)]
enum Format {
    /// Text of 80 columns
    Text,
    /// JSON for programs
    Json,
}

/// A stage as the command line names it.
#[derive(Debug, Clone, Copy, ValueEnum)]
#[value(rename_all = "snake_case")]
enum StageName {
    Triage,
    Choose,
    Join,
    Fit,
    BondDay,
    Prove,
    HandOver,
}

impl From<StageName> for Stage {
    fn from(name: StageName) -> Self {
        match name {
            StageName::Triage => Self::Triage,
            StageName::Choose => Self::Choose,
            StageName::Join => Self::Join,
            StageName::Fit => Self::Fit,
            StageName::BondDay => Self::BondDay,
            StageName::Prove => Self::Prove,
            StageName::HandOver => Self::HandOver,
        }
    }
}

/// A paper as the command line names it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum PaperName {
    /// 210 × 297 mm
    A4,
    /// 8.5 × 11 in
    Letter,
}

impl From<PaperName> for Paper {
    fn from(name: PaperName) -> Self {
        match name {
            PaperName::A4 => Self::A4,
            PaperName::Letter => Self::Letter,
        }
    }
}

/// What a newcomer reads first.
const WELCOME: &str = "\
Fayline tells whether a bonded repair carries what the original carried, how
long you may work, and when the vehicle may be moved, driven and loaded.

  fayline demo              write four demo jobs, assess them, leave reports
  fayline new my-job.toml   begin a job of your own
  fayline check my-job.toml assess it
  fayline serve             open the jobs of this folder in a browser

fayline --help lists all commands.
";

/// Runs the command line.
pub(crate) fn main() -> ExitCode {
    let arguments = match Arguments::try_parse() {
        Ok(arguments) => arguments,
        Err(error) => {
            // Help and version are no errors, and clap prints each kind where it belongs.
            let _ = error.print();
            return if error.use_stderr() { Exit::Bad.into() } else { ExitCode::SUCCESS };
        }
    };
    let done = match arguments.command {
        None => {
            say(WELCOME);
            Ok(Exit::Met)
        }
        Some(Command::Demo { folder }) => demo::run(&folder),
        Some(Command::New { file }) => new::run(&file),
        Some(Command::Check { job, stage, format, get, assumptions, probability, sampling }) => {
            let SamplingAsked { seed, strips, threads } = sampling;
            let probability = probability.then_some(stages::Sampling { seed, strips, threads });
            let ask = stages::Ask { probability, ..stages::Ask::default() };
            match get {
                Some(name) => check::get(&job, &ask, &name),
                None if assumptions => check::assumptions(&job, &ask),
                None => check::run(&job, &ask, stage.map(Stage::from), format),
            }
        }
        Some(Command::Size(asked)) => size::run(&asked),
        Some(Command::Report { job, paper, output }) => report::run(&job, paper, &output),
        Some(Command::Draw { job, what, joint, field, paper, output }) => draw::run(&draw::Request {
            job: &job,
            what,
            joint: joint.as_deref(),
            field: field.as_deref(),
            paper: paper.into(),
            output: &output,
        }),
        Some(Command::Serve(asked)) => serve::run(&asked),
        Some(Command::Schema) => {
            say(&format!("{:#}\n", job::schema()));
            Ok(Exit::Met)
        }
        Some(Command::Quantities) => {
            say(&quantities::listed());
            Ok(Exit::Met)
        }
    };
    match done {
        Ok(exit) => exit.into(),
        Err(stop) => {
            eprint!("{}", stop.in_text());
            Exit::Bad.into()
        }
    }
}

/// How a command ended.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Exit {
    /// All met, or nothing was asked of the command but to do its work.
    Met,
    /// Something is not met or unknown.
    Open,
    /// Bad input or a failed solver.
    Bad,
}

impl Exit {
    fn of(assessment: &Assessment, verdict: Option<Verdict>) -> Self {
        match verdict {
            _ if assessment.failed() => Self::Bad,
            Some(Verdict::Met) => Self::Met,
            _ => Self::Open,
        }
    }
}

impl From<Exit> for ExitCode {
    fn from(exit: Exit) -> Self {
        Self::from(match exit {
            Exit::Met => 0,
            Exit::Open => 1,
            Exit::Bad => 2,
        })
    }
}

/// Why a command could not do its work.
#[derive(Debug)]
enum Stop {
    /// A file that cannot be read or written, or a request that cannot be met: what and why.
    Cannot(String),
    /// A job with problems.
    Problems(Vec<Problem>),
}

impl Stop {
    fn in_text(&self) -> String {
        match self {
            Self::Cannot(why) => format!("fayline: {why}\n"),
            Self::Problems(found) => problems::in_text(found),
        }
    }

    fn in_json(&self) -> String {
        match self {
            Self::Cannot(why) => format!("{:#}\n", serde_json::json!({ "fayline": 1, "cannot": why })),
            Self::Problems(found) => format!("{:#}\n", json::problems(found)),
        }
    }
}

/// The text of a job file.
fn text_of(path: &Path) -> Result<String, Stop> {
    let name = path.to_string_lossy();
    let bytes = std::fs::read(path)
        .map_err(|error| Stop::Cannot(format!("{name} cannot be read: {}", in_words(&error))))?;
    job::decode(&name, &bytes).map_err(Stop::Problems)
}

/// Reads a job file and assesses it.
fn assessed(path: &Path) -> Result<Assessment, Stop> {
    assessed_as(path, &stages::Ask::default())
}

/// The same, with what is asked beside the job.
fn assessed_as(path: &Path, ask: &stages::Ask) -> Result<Assessment, Stop> {
    let (name, text) = (path.to_string_lossy(), text_of(path)?);
    let job = job::read(&name, &text, &Beside::job(path)).map_err(Stop::Problems)?;
    if ask.probability.is_none() {
        return Ok(stages::assess(&job, ask));
    }
    Ok(wait::watched(&ask.watch, || stages::assess(&job, ask)))
}

/// Prints to standard output. A reader that has gone away, such as `head`, is no failure of ours.
fn say(text: &str) {
    use std::io::Write;
    let _ = std::io::stdout().lock().write_all(text.as_bytes());
}
