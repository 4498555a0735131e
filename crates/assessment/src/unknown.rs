//! What is not known, gathered by what would settle it.

use crate::{Assessment, Lack, Verdict};

/// One reason for not knowing, and all that hangs on it.
#[derive(Debug, Clone, PartialEq)]
pub struct Unknown<'a> {
    /// The reason, which also says what would settle it.
    pub lack: &'a Lack,
    /// What the findings that hang on it say.
    pub statements: Vec<String>,
    /// The names of the quantities that hang on it.
    pub quantities: Vec<&'a str>,
}

impl Assessment {
    /// Everything that is not known, in the order in which it is found: by the findings first, then by the
    /// quantities. Of what nothing loads there is nothing to know.
    pub fn unknowns(&self) -> Vec<Unknown<'_>> {
        let mut all: Vec<Unknown<'_>> = Vec::new();
        let findings = self.findings.iter().filter(|finding| finding.verdict == Verdict::Unknown);
        for (lack, finding) in findings.filter_map(|finding| Some((finding.lack.as_ref()?, finding))) {
            entry(&mut all, lack).statements.push(finding.headline());
        }
        for (name, lack) in self.quantities.unknown().filter(|(_, lack)| **lack != Lack::NoLoad) {
            entry(&mut all, lack).quantities.push(name);
        }
        all
    }
}

fn entry<'u, 'a>(all: &'u mut Vec<Unknown<'a>>, lack: &'a Lack) -> &'u mut Unknown<'a> {
    let place = all.iter().position(|unknown| unknown.lack == lack).unwrap_or_else(|| {
        all.push(Unknown { lack, statements: Vec::new(), quantities: Vec::new() });
        all.len() - 1
    });
    &mut all[place]
}
