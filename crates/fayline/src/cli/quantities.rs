//! `fayline quantities`.

use std::fmt::Write;

use assessment::{Name, names};

/// Every dotted name with its unit, its meaning and its source.
pub(super) fn listed() -> String {
    let mut text = String::from(
        "J is a joint, C a load case, M a member, S a section or a set of coupons, by their\nnames in the job file.\n",
    );
    section(&mut text, "Numbers", names::NUMBERS);
    section(&mut text, "Series", names::SERIES);
    section(&mut text, "Fields", names::FIELDS);
    text
}

fn section(text: &mut String, title: &str, names: &[Name]) {
    let _ = writeln!(text, "\n{title}");
    for name in names {
        let _ = writeln!(text, "  {} [{}]\n      {}; {}", name.pattern, name.unit, name.meaning, name.source);
    }
}
