//! What the job says, as fields that can be changed.

use job::keys::{Group, Holds, Key};
use maud::{Markup, html};

use super::frame::{hidden, in_path, not_taken};
use crate::web::desk::View;
use crate::web::words;

/// The fields of some tables.
pub(super) struct Inputs<'v> {
    pub(super) view: &'v View,
    pub(super) groups: &'v [Group],
    pub(super) back: &'v str,
    pub(super) token: &'v str,
}

impl Inputs<'_> {
    /// The tables whose keys begin with one of these words, the first one open.
    pub(super) fn tables(&self, kinds: &[&str]) -> Markup {
        let of_kind = |kind: &str| {
            let kind = kind.to_owned();
            self.groups.iter().filter(move |it| it.key == kind || it.key.starts_with(&format!("{kind}.")))
        };
        let tables: Vec<&Group> = kinds.iter().flat_map(|kind| of_kind(kind)).collect();
        html! {
            h2 { (words::INPUTS) }
            p.aside { (words::EMPTY) }
            @for (place, group) in tables.iter().enumerate() { (self.table(group, place == 0 || !group.there && self.view.begun.contains(&group.key))) }
            (self.another(kinds))
        }
    }

    /// The way to a further table: another joint, another material.
    fn another(&self, kinds: &[&str]) -> Markup {
        let named = job::keys::named();
        let named: Vec<_> = named.iter().filter(|(kind, _)| kinds.contains(kind)).collect();
        html! {
            @if !named.is_empty() {
                form.key method="post" action={ "/job/" (in_path(&self.view.name)) "/do/begin" } {
                    (hidden(self.back, self.token))
                    label for="begin-kind" { "Add another" }
                    div.field {
                        select id="begin-kind" name="kind" {
                            @for (kind, forms) in &named {
                                @if forms.is_empty() { option value=(kind) { (words::table(&format!("{kind}."))) } }
                                @for form in forms { option value={ (kind) ":" (form) } { (form) } }
                            }
                        }
                    }
                    label for="begin-called" { "called" }
                    div.field {
                        input id="begin-called" name="called" autocomplete="off" spellcheck="false";
                        button id="do-begin-table" { "Add" }
                    }
                }
            }
        }
    }

    fn table(&self, group: &Group, open: bool) -> Markup {
        let (given, absent): (Vec<&Key>, Vec<&Key>) = group.keys.iter().partition(|key| key.given.is_some());
        let refused = |key: &&&Key| self.view.refused.as_ref().is_some_and(|refused| refused.key == key.key);
        let open = open || group.keys.iter().any(|key| refused(&&key));
        let named = group.key.contains('.');
        html! {
            details id={ "table-" (group.key) } data-keep open[open] {
                summary { strong { (words::table(&group.key)) } " " span.aside { (group.doc) } }
                @for key in &given { (self.key("key", &group.key, key, false)) }
                @if !absent.is_empty() {
                    details id={ "more-" (group.key) } data-keep open[!group.there || absent.iter().any(|key| refused(&key))] {
                        summary { (absent.len()) " more that may be given" }
                        @for key in &absent { (self.key("key", &group.key, key, true)) }
                    }
                }
                @if named {
                    form method="post" action={ "/job/" (in_path(&self.view.name)) "/do/take-out" } {
                        (hidden(self.back, self.token))
                        input type="hidden" name="key" value=(group.key);
                        button id={ "take-out-" (group.key) } { "Take " (words::table(&group.key)) " out" }
                    }
                }
            }
        }
    }

    /// The field of a dotted name, or those of all that it holds where it is a table.
    pub(super) fn asked_for(&self, name: &str) -> Markup {
        let start = format!("{name}.");
        let asked = |key: &&Key| key.key == name || key.key.starts_with(&start);
        let keys = self.groups.iter().flat_map(|group| &group.keys).filter(asked);
        html! { @for key in keys { (self.key("settle", "", key, true)) } }
    }

    /// A field; `place` tells apart two fields of one key on a page.
    fn key(&self, place: &str, group: &str, key: &Key, with_doc: bool) -> Markup {
        let refused = self.view.refused.as_ref().filter(|refused| refused.key == key.key);
        let shown = refused.map_or(key.given.as_deref().unwrap_or_default(), |refused| &refused.typed);
        let id = format!("{place}-{}", key.key);
        let label = words::label(group, &key.key);
        let about = format!("{place}-about-{}", key.key);
        let steps = matches!(key.holds, Holds::Quantity(_) | Holds::Number | Holds::Whole);
        html! {
            form.key method="post" action={ "/job/" (in_path(&self.view.name)) "/do/change" } {
                (hidden(self.back, self.token))
                input type="hidden" name="key" value=(key.key);
                label for=(id) title=(key.doc) { (label) }
                div.field {
                    @match &key.holds {
                        Holds::Choice(options) => (choice(&id, &about, shown, options)),
                        Holds::Switch => (choice(&id, &about, switch(shown), &[("yes", ""), ("no", "")])),
                        holds => input id=(id) name="value" value=(shown) placeholder=[example(holds)]
                            aria-describedby=(about) aria-invalid=[refused.map(|_| "true")]
                            autocomplete="off" spellcheck="false";,
                    }
                    // The first button of a form is the one that Enter presses.
                    button.set id={ (place) "-set-" (key.key) } { "Set" }
                    @if steps && key.given.is_some() {
                        button.step id={ (place) "-less-" (key.key) } name="step" value="less" aria-label={ (label) ": less" } { "−" }
                        button.step id={ (place) "-more-" (key.key) } name="step" value="more" aria-label={ (label) ": more" } { "+" }
                    }
                }
                p.about id=(about) hidden[!with_doc] { (key.doc) }
                @if let Some(refused) = refused { (not_taken(refused)) }
            }
        }
    }
}

fn switch(shown: &str) -> &str {
    match shown {
        "true" => "yes",
        "false" => "no",
        other => other,
    }
}

fn choice(id: &str, about: &str, shown: &str, options: &[(&str, &str)]) -> Markup {
    html! {
        select id=(id) name="value" aria-describedby=(about) {
            @if !options.iter().any(|(word, _)| *word == shown) { option value="" selected { "not given" } }
            @for (word, doc) in options {
                option value=(word) selected[*word == shown] title=(doc) { (word) }
            }
        }
    }
}

/// What a value may look like.
fn example(holds: &Holds) -> Option<String> {
    match holds {
        Holds::Quantity(kind) => kind.examples().first().map(|example| (*example).to_owned()),
        Holds::Number => Some("0.5".to_owned()),
        Holds::Whole => Some("2".to_owned()),
        Holds::Date => Some("2031-11-07".to_owned()),
        Holds::List(item) => example(item).map(|one| format!("{one}, ..")),
        _ => None,
    }
}
