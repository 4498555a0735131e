//! Saving: the difference first; and where the file was changed by others, both.

use maud::{Markup, html};
use similar::{ChangeTag, TextDiff};

use super::frame::{At, head, hidden, in_path, page, press};
use crate::web::desk::View;

/// The page before a save.
pub(in crate::web) fn show(view: &View, said: Option<&str>, token: &str) -> String {
    let back = At::Overview.path(&view.name);
    let here = At::Save.path(&view.name);
    let main = html! {
        section id="save" data-swap {
            @if let Some(said) = said { p.refused role="alert" { (said) } }
            @match &view.on_disk {
                Some(on_disk) => {
                    h2 { "The file was changed on disk meanwhile" }
                    p { "Nothing was overwritten. What the file says now differs from what was read here:" }
                    (difference(&view.base, on_disk))
                    h2 { "What was changed here" }
                    (difference(&view.base, &view.text))
                    p { "Keep the one or the other, or both:" }
                    div.bar {
                        (press(&view.name, "take-disk", "Take the file as it is now", &back, token))
                        (save_as(view, &here, token))
                    }
                },
                None if view.is_changed() => {
                    h2 { "What will be different in the file" }
                    (difference(&view.base, &view.text))
                    p.aside { "Remarks and order stay as they are. The version before is kept in .fayline/history." }
                    div.bar {
                        form method="post" action={ "/job/" (in_path(&view.name)) "/do/save" } {
                            (hidden(&back, token))
                            button.main id="do-save" { "Save" }
                        }
                        (press(&view.name, "drop", "Put all back", &back, token))
                        (save_as(view, &here, token))
                    }
                },
                None => {
                    h2 { "Nothing to save" }
                    p { "What is shown is what the file says." }
                },
            }
        }
    };
    page(&format!("Saving {}", view.name), Some(&view.name), &head(view, At::Save, token), &main)
}

fn save_as(view: &View, back: &str, token: &str) -> Markup {
    let other = view.name.strip_suffix(".toml").unwrap_or(&view.name);
    html! {
        form.save-as method="post" action={ "/job/" (in_path(&view.name)) "/do/save-as" } {
            (hidden(back, token))
            label for="other" { "Save as another job" }
            input id="other" name="other" value={ (other) "-2.toml" } autocomplete="off";
            button id="do-save-as" { "Save as" }
        }
    }
}

/// Two texts, line by line, with what stands around each change.
fn difference(before: &str, after: &str) -> Markup {
    const AROUND: usize = 2;
    let diff = TextDiff::from_lines(before, after);
    html! {
        div.difference role="group" aria-label="difference" {
            @for group in diff.grouped_ops(AROUND) {
                pre {
                    @for change in group.iter().flat_map(|operation| diff.iter_changes(operation)) {
                        @match change.tag() {
                            ChangeTag::Equal => { "  " (change.value()) },
                            ChangeTag::Delete => del { "− " (change.value()) },
                            ChangeTag::Insert => ins { "+ " (change.value()) },
                        }
                    }
                }
            }
        }
    }
}
