//! The style sheet of the look: custom properties, and the classes that figures use.

use std::collections::BTreeMap;
use std::fmt::Write as _;

use super::{Colour, Room, Verdict};
use crate::figure::Pen;
use crate::fonts::FAMILIES;

/// Custom properties for daylight, dark shop and paper, and one class for each pen and fill.
///
/// A page puts it into a `<style>` element or a file of its own; figures written for a page then
/// follow the light. It holds neither `<` nor `&`.
pub fn css() -> String {
    let mut css = String::from(":root{color-scheme:light dark;");
    let _ = writeln!(
        css,
        "--face:{FAMILIES};--grid:8px;--text:18px;--text-line:24px;--figure:24px;\
         --figure-line:32px;--stage:40px;--stage-line:48px;{}}}",
        properties(Room::Light)
    );
    let _ = writeln!(css, "@media (prefers-color-scheme:dark){{:root{{{}}}}}", properties(Room::Dark));
    let _ = writeln!(css, "@media print{{:root{{color-scheme:light;{}}}}}", properties(Room::Print));
    css.push_str(
        ".figure{display:block;max-width:100%;height:auto;print-color-adjust:exact;\
         -webkit-print-color-adjust:exact}\n\
         .verdict-mark{vertical-align:-2px}\n",
    );
    let pens: BTreeMap<&str, Pen> = Pen::ALL.iter().map(|pen| (pen.name(), *pen)).collect();
    for (name, pen) in pens {
        let _ = writeln!(css, ".pen-{name}{{stroke:var(--{})}}", pen.stroke().colour.name());
    }
    for colour in Colour::all() {
        let name = colour.name();
        let _ = writeln!(css, ".fill-{name}{{fill:var(--{name})}}");
    }
    // Words in the colour of what they say; a page with a strict policy has no style in its elements.
    for verdict in [Verdict::Met, Verdict::NotMet, Verdict::Unknown, Verdict::Note] {
        let name = verdict.colour().name();
        let _ = writeln!(css, ".ink-{name}{{color:var(--{name})}}");
    }
    css
}

fn properties(room: Room) -> String {
    let mut set = String::new();
    for colour in Colour::all() {
        let _ = write!(set, "--{}:{};", colour.name(), colour.hex(room));
    }
    set
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn unit_each_room_sets_each_colour_once() {
        let css = css();
        for colour in Colour::all() {
            let set = format!("--{}:#", colour.name());
            assert_eq!(css.matches(&set).count(), 3, "{set}");
        }
        assert!(css.contains("--ink:#1B2426;") && css.contains("--ink:#EDE8DA;"));
        assert!(!css.contains(['<', '&']));
    }
}
