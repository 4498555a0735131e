//! What the fuzz targets share: data files in memory, and what must hold of every problem.

use job::{Files, Job, Problem};

/// Answers every name with the same bytes.
pub struct Memory<'d>(pub &'d [u8]);

impl Files for Memory<'_> {
    fn read(&self, _name: &str) -> Result<Vec<u8>, String> {
        Ok(self.0.to_vec())
    }
}

/// Reads a job whose data file holds `data`, and holds every problem against the text it points into.
pub fn read(text: &str, data: &[u8]) -> Option<Job> {
    match job::read("j.toml", text, &Memory(data)) {
        Ok(job) => Some(job),
        Err(problems) => {
            assert!(!problems.is_empty(), "refused without a problem");
            let data = String::from_utf8_lossy(data);
            for problem in &problems {
                let whole = if &*problem.place.file == "j.toml" { text } else { &*data };
                assert_located(problem, whole);
            }
            None
        }
    }
}

/// A problem says what it found and what is allowed, and stands on a line that the text has.
pub fn assert_located(problem: &Problem, whole: &str) {
    let place = &problem.place;
    assert!(!problem.what.is_empty() && !problem.expected.is_empty(), "{problem:?}");
    assert!(!problem.to_string().chars().any(|c| c.is_control() && c != '\t'), "{problem:?}");
    let before = place.text.get(..place.span.start);
    assert!(place.text.get(place.span.clone()).is_some(), "{problem:?}");
    assert_eq!(before.map(|text| text.chars().count() + 1), Some(place.column), "{problem:?}");
    // A text that ends with a line end has one more, empty line; only before a line feed is a carriage return
    // part of the end of a line.
    let line = whole.split_inclusive('\n').chain([""]).nth(place.line - 1);
    let line = line.map(|line| line.strip_suffix("\r\n").or(line.strip_suffix('\n')).unwrap_or(line));
    let line =
        line.map(|line| if place.line == 1 { line.strip_prefix('\u{feff}').unwrap_or(line) } else { line });
    assert_eq!(line, Some(&*place.text), "{problem:?}");
}
