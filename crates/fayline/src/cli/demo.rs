//! `fayline demo`.

use std::fmt::Write;
use std::fs;
use std::path::{Path, PathBuf};

use assessment::Assessment;
use drawing::template::Paper;

use super::{Exit, Stop, assessed, draw, say};
use crate::demo::{DATA, DemoFile, JOBS};
use crate::files::{in_words, write_whole};
use crate::{report, text};

/// Writes the demo jobs, assesses them, and leaves a report beside each, of the main one also on paper.
pub(super) fn run(folder: &Path) -> Result<Exit, Stop> {
    let cannot = |path: &Path, error: &std::io::Error| {
        Stop::Cannot(format!("{} cannot be written: {}", path.display(), in_words(error)))
    };
    fs::create_dir_all(folder).map_err(|error| cannot(folder, &error))?;
    let mut kept = String::new();
    for DemoFile { name, content } in DATA.iter().chain(&JOBS) {
        let path = folder.join(name);
        match fs::read(&path) {
            Ok(there) if there == content.as_bytes() => {}
            Ok(_) => {
                let _ = writeln!(kept, "  {} differs from the demo's and is kept as it is", path.display());
            }
            Err(_) => write_whole(&path, content.as_bytes()).map_err(|error| cannot(&path, &error))?,
        }
    }
    let mut left = String::new();
    for (index, DemoFile { name, .. }) in JOBS.iter().enumerate() {
        let job = folder.join(name);
        let assessment = assessed(&job)?;
        let page = job.with_extension("html");
        write_whole(&page, report::html(&assessment).as_bytes()).map_err(|error| cannot(&page, &error))?;
        let _ = writeln!(left, "  {}  {}", page.display(), assessment.verdict().word());
        // The main job in full, the others by their verdict: each has its report.
        if index == 0 {
            say(&text::findings(&assessment, None));
            for ForPaper { path, what, bytes } in on_paper(&job, &assessment)? {
                write_whole(&path, &bytes).map_err(|error| cannot(&path, &error))?;
                let _ = writeln!(left, "  {}  {what}", path.display());
            }
        }
    }
    let main = folder.join(JOBS[0].name);
    say(&format!(
        "\n\nEvery number of the demo is invented. The reports open in a browser:\n\n{left}{kept}\nNext: change an input in {}, then\n  fayline check {}\n",
        main.display(),
        main.display()
    ));
    Ok(Exit::Met)
}

/// A file to print.
struct ForPaper {
    path: PathBuf,
    /// What it is, in words.
    what: &'static str,
    bytes: Vec<u8>,
}

/// The report and the template of a job as PDF, each with its path and with what it is. A job that was changed may have
/// no joint of which there is a sheet, or several; then there is no template.
fn on_paper(job: &Path, assessment: &Assessment) -> Result<Vec<ForPaper>, Stop> {
    let path = job.with_extension("pdf");
    let bytes = report::pdf(assessment, Paper::A4)
        .map_err(|error| Stop::Cannot(format!("{} cannot be made: {error}", path.display())))?;
    let mut papers = vec![ForPaper { path, what: "the same on paper", bytes }];
    if let [laid] = assessment.sheets.as_slice() {
        let path = job.with_extension("template.pdf");
        let bytes = draw::template(assessment, laid, Paper::A4)?;
        papers.push(ForPaper { path, what: "to cut and drill by, at full scale", bytes });
    }
    Ok(papers)
}
