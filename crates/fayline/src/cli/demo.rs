//! `fayline demo`.

use std::fmt::Write;
use std::fs;
use std::path::Path;

use super::{Exit, Stop, assessed, say};
use crate::demo::{DATA, DemoFile, JOBS};
use crate::files::{in_words, write_whole};
use crate::{report, text};

/// Writes the demo jobs, assesses them, and leaves a report beside each.
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
    let mut others = String::new();
    for (index, DemoFile { name, .. }) in JOBS.iter().enumerate() {
        let job = folder.join(name);
        let assessment = assessed(&job)?;
        let page = job.with_extension("html");
        write_whole(&page, report::html(&assessment).as_bytes()).map_err(|error| cannot(&page, &error))?;
        // The main job in full, the others by their verdict: each has its report.
        if index == 0 {
            say(&text::findings(&assessment, None));
        }
        let _ = writeln!(others, "  {}  {}", page.display(), assessment.verdict().word());
    }
    let main = folder.join(JOBS[0].name);
    say(&format!(
        "\n\nEvery number of the demo is invented. The reports open in a browser:\n\n{others}{kept}\nNext: change an input in {}, then\n  fayline check {}\n",
        main.display(),
        main.display()
    ));
    Ok(Exit::Met)
}
