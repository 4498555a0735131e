//! What lies on the bench: for each job its text on disk, the what-if text, and what is known of it.

use std::collections::BTreeMap;
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

use assessment::Assessment;
use job::{Edit, Problem};
use quantity::System;
use stages::Progress;
use stages::size::Sizing;
use tokio::sync::broadcast;

use super::folder::{Folder, NotSaved, Unreadable};
use super::work::{Found, Long, Task, Worker};

/// How many steps can be undone.
const MOST_UNDONE: usize = 200;
/// How many results that took long are remembered for each job.
const REMEMBERED: usize = 8;

/// An assessment, or the problems that stand before it.
pub(super) type Read = Result<Arc<Assessment>, Arc<Vec<Problem>>>;

/// How far the results that take long have come.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Whole {
    /// They are there.
    There,
    /// They are being computed, so far.
    Computing(Option<Progress>),
    /// They were called off.
    Stopped,
}

/// A change that was not taken.
#[derive(Debug, Clone)]
pub(super) struct Refused {
    /// The key.
    pub(super) key: String,
    /// What was typed.
    pub(super) typed: String,
    /// Why.
    pub(super) why: Vec<String>,
    /// Whether it is kept until the rest of its table is there.
    pub(super) kept: bool,
}

struct Draft {
    /// The file as it was read.
    base: String,
    /// The text with what was changed.
    text: String,
    before: Vec<String>,
    refused: Option<Refused>,
    system: Option<System>,
    /// Tables that are to be begun, by their dotted keys.
    begun: Vec<String>,
    /// What was typed into a table that lacks keys without which it is none, by its keys.
    pending: Vec<(String, String)>,
    /// Without what takes long.
    quick: Option<Read>,
    /// What is asked beside the whole assessment.
    asked: Vec<Long>,
    /// What took long, the last one last.
    known: Vec<(Task, Found)>,
    stopped: bool,
}

/// What a page shows of a job.
#[derive(Debug, Clone)]
pub(super) struct View {
    pub(super) name: String,
    pub(super) base: String,
    pub(super) text: String,
    pub(super) can_undo: bool,
    pub(super) begun: Vec<String>,
    pub(super) pending: Vec<(String, String)>,
    pub(super) refused: Option<Refused>,
    pub(super) system: System,
    pub(super) read: Read,
    pub(super) whole: Whole,
    /// What came of sizing joints, by their names.
    pub(super) sizings: Vec<(String, Arc<Result<Sizing, String>>)>,
    /// What the file says now, where it was changed by others while something here is not saved.
    pub(super) on_disk: Option<String>,
}

impl View {
    /// Whether anything differs from the file as it was read.
    pub(super) fn is_changed(&self) -> bool {
        self.base != self.text
    }
}

/// All jobs that were opened.
pub(super) struct Desk {
    pub(super) folder: Folder,
    drafts: Mutex<BTreeMap<String, Draft>>,
    worker: Worker,
    /// Rings with the name of a job of which something new is known.
    pub(super) bell: broadcast::Sender<String>,
}

impl Desk {
    pub(super) fn new(folder: Folder) -> Arc<Self> {
        let (bell, _) = broadcast::channel(64);
        let desk = Arc::new(Self { folder, drafts: Mutex::default(), worker: Worker::default(), bell });
        Worker::start(&desk);
        desk
    }

    pub(super) fn worker(&self) -> &Worker {
        &self.worker
    }

    fn drafts(&self) -> MutexGuard<'_, BTreeMap<String, Draft>> {
        // A thread that panicked left whole texts behind: each is replaced at once.
        self.drafts.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// A job as it lies on the bench; it is opened where it was not.
    pub(super) fn view(&self, name: &str) -> Result<View, Unreadable> {
        let on_disk = self.folder.read(name)?;
        let mut drafts = self.drafts();
        let draft = drafts.entry(name.to_owned()).or_insert_with(|| Draft::of(on_disk.clone()));
        if draft.base != on_disk && draft.base == draft.text {
            *draft = Draft { system: draft.system, ..Draft::of(on_disk.clone()) };
        }
        let text = draft.shown_text();
        let task = |long: &Long| Task { name: name.to_owned(), text: text.clone(), long: long.clone() };
        let known = |long: &Long| {
            draft.known.iter().rev().find(|(done, _)| *done == task(long)).map(|(_, found)| found)
        };
        let assessment = [Long::Chances, Long::Whole].iter().find_map(|long| match known(long)? {
            Found::Assessment(assessment) => Some(Ok(Arc::clone(assessment))),
            Found::Sizing(_) => None,
        });
        let sizings = draft.asked.iter().filter_map(|long| match (long, known(long)?) {
            (Long::Sizes { joint, .. }, Found::Sizing(sizing)) => Some((joint.clone(), Arc::clone(sizing))),
            _ => None,
        });
        let sizings = sizings.collect();
        let whole = if assessment.is_some() { None } else { Some(&Long::Whole) };
        let left: Vec<Task> = whole
            .into_iter()
            .chain(draft.asked.iter().filter(|long| known(long).is_none()))
            .map(task)
            .collect();
        let folder = &self.folder;
        let read = match assessment {
            Some(read) => read,
            None => {
                draft.quick.get_or_insert_with(|| super::work::assessed(name, &text, folder, false)).clone()
            }
        };
        let whole = match (&read, draft.stopped) {
            (Err(_), _) => Whole::There,
            _ if left.is_empty() => Whole::There,
            (_, true) => Whole::Stopped,
            _ => {
                self.worker.ask(left);
                Whole::Computing(self.worker.progress(name))
            }
        };
        let system =
            draft.system.or_else(|| read.as_ref().ok().map(|it| it.system)).unwrap_or(System::Metric);
        Ok(View {
            name: name.to_owned(),
            base: draft.base.clone(),
            text: draft.text.clone(),
            can_undo: !draft.before.is_empty(),
            begun: draft.begun.clone(),
            pending: draft.pending.clone(),
            refused: draft.refused.clone(),
            system,
            read,
            whole,
            sizings,
            on_disk: (on_disk != draft.base).then_some(on_disk),
        })
    }

    /// Takes what took long.
    pub(super) fn done(&self, task: &Task, found: Found) {
        if let Some(draft) = self.drafts().get_mut(&task.name) {
            draft.known.push((task.clone(), found));
            let old = draft.known.len().saturating_sub(REMEMBERED);
            draft.known.drain(..old);
        }
        // Nobody listening is no failure.
        let _ = self.bell.send(task.name.clone());
    }

    /// Asks for something that takes long, for the text as it is now.
    pub(super) fn ask(&self, name: &str, long: Long) {
        self.with(name, |draft| {
            draft.stopped = false;
            let same = |other: &Long| match (other, &long) {
                (Long::Sizes { joint, .. }, Long::Sizes { joint: other, .. }) => joint == other,
                (one, other) => one == other,
            };
            draft.asked.retain(|other| !same(other));
            draft.asked.push(long);
        });
    }

    fn with<T>(&self, name: &str, change: impl FnOnce(&mut Draft) -> T) -> Option<T> {
        self.drafts().get_mut(name).map(change)
    }

    /// Changes one key by what was typed.
    pub(super) fn change(&self, name: &str, key: &str, typed: &str) {
        let folder = &self.folder;
        self.with(name, |draft| {
            let groups = job::keys::groups(&draft.text, &draft.begun);
            let known = |key: &str| groups.iter().flat_map(|group| &group.keys).find(|it| it.key == key);
            if known(key).is_none() {
                return draft.refuse(key, typed, vec!["the job has no such key".to_owned()]);
            }
            if typed.trim().is_empty() {
                draft.pending.retain(|(pending, _)| pending != key);
                // One that was only kept for a table that is begun is not in the file.
                let in_file = job::keys::groups(&draft.text, &[]);
                let mut in_file = in_file.iter().flat_map(|group| &group.keys);
                if in_file.any(|it| it.key == key && it.given.is_some()) {
                    draft.take_out(name, folder, key);
                }
                return;
            }
            let edit = |key: &str, typed: &str| -> Option<Edit> {
                Some(Edit { key: key.to_owned(), value: job::keys::as_toml(&known(key)?.holds, typed) })
            };
            draft.pending.retain(|(pending, _)| pending != key);
            let mut edits: Vec<Edit> =
                draft.pending.iter().filter_map(|(key, typed)| edit(key, typed)).collect();
            edits.extend(edit(key, typed));
            draft.apply(name, folder, &edits, key, typed);
        });
    }

    /// Takes a table out of the job, or lets go of one that was only begun.
    pub(super) fn take_out(&self, name: &str, key: &str) {
        let folder = &self.folder;
        self.with(name, |draft| {
            let begun = draft.begun.len();
            draft.begun.retain(|other| other != key);
            draft.pending.retain(|(pending, _)| !pending.starts_with(&format!("{key}.")));
            let there =
                job::keys::groups(&draft.text, &[]).iter().any(|group| group.key == key && group.there);
            if there || draft.begun.len() == begun {
                draft.take_out(name, folder, key);
            }
        });
    }

    /// Begins a table under a name; one that has forms is begun with its form.
    pub(super) fn begin(&self, name: &str, kind: &str, called: &str) {
        let is_key = !called.is_empty()
            && called.chars().all(|sign| sign.is_ascii_alphanumeric() || matches!(sign, '_' | '-'));
        let folder = &self.folder;
        self.with(name, |draft| {
            let (kind, form) = kind.split_once(':').map_or((kind, None), |(kind, form)| (kind, Some(form)));
            let known = job::keys::named().into_iter().any(|(known, forms)| {
                known == kind && form.map_or(forms.is_empty(), |form| forms.contains(&form))
            });
            if !known || !is_key {
                let why = "a name of letters, digits, - and _ is wanted for what is added".to_owned();
                return draft.refuse("", called, vec![why]);
            }
            let key = format!("{kind}.{called}");
            match form {
                Some(form) => {
                    let value = format!("\"{form}\"");
                    draft.apply(name, folder, &[Edit { key: format!("{key}.form"), value }], "", called);
                }
                None => draft.begun.push(key),
            }
        });
    }

    /// Applies edits, such as those of a next step.
    pub(super) fn apply(&self, name: &str, edits: &[Edit]) {
        self.with(name, |draft| draft.apply(name, &self.folder, edits, "", ""));
    }

    /// Says why what was asked for cannot be done.
    pub(super) fn refuse(&self, name: &str, why: &str) {
        self.with(name, |draft| draft.refuse("", "", vec![why.to_owned()]));
    }

    /// Takes the last change back.
    pub(super) fn undo(&self, name: &str) {
        self.with(name, |draft| {
            draft.refused = None;
            if let Some(before) = draft.before.pop() {
                draft.set(before);
            }
        });
    }

    /// Puts everything back to what the file says, or said when it was read.
    pub(super) fn drop_changes(&self, name: &str) {
        self.with(name, |draft| {
            let base = draft.base.clone();
            draft.push(base);
        });
    }

    /// Takes the file as it is on disk and lets go of what was changed here.
    pub(super) fn take_disk(&self, name: &str) {
        if let Ok(on_disk) = self.folder.read(name) {
            self.with(name, |draft| {
                let system = draft.system;
                *draft = Draft { system, ..Draft::of(on_disk) };
            });
        }
    }

    /// Shows results in another system of units; the job stays as it is.
    pub(super) fn units(&self, name: &str, system: System) {
        self.with(name, |draft| {
            draft.system = Some(system);
            draft.quick = None;
        });
    }

    /// Calls off what takes long, or asks for it again.
    pub(super) fn stop(&self, name: &str, stopped: bool) {
        self.with(name, |draft| draft.stopped = stopped);
        if stopped {
            self.worker.stop(name);
        }
    }

    /// Saves a job.
    pub(super) fn save(&self, name: &str) -> Result<(), NotSaved> {
        let mut drafts = self.drafts();
        let draft = drafts.get_mut(name).ok_or_else(|| NotSaved::Cannot("the job is not open".to_owned()))?;
        self.folder.save(name, &draft.base, &draft.text)?;
        draft.base.clone_from(&draft.text);
        Ok(())
    }

    /// Saves what was changed here as another job.
    pub(super) fn save_as(&self, name: &str, other: &str) -> Result<(), String> {
        let text = self.with(name, |draft| draft.text.clone()).ok_or("the job is not open")?;
        self.folder.begin(other, &text)
    }
}

impl Draft {
    fn of(text: String) -> Self {
        Self {
            base: text.clone(),
            text,
            before: Vec::new(),
            refused: None,
            system: None,
            begun: Vec::new(),
            pending: Vec::new(),
            quick: None,
            asked: Vec::new(),
            known: Vec::new(),
            stopped: false,
        }
    }

    /// The text with the system of units in which it is to be shown.
    fn shown_text(&self) -> String {
        let word = match self.system {
            None => return self.text.clone(),
            Some(System::Metric) => "\"metric\"",
            Some(System::Imperial) => "\"imperial\"",
        };
        let edit = Edit { key: "job.units".to_owned(), value: word.to_owned() };
        job::edit(&self.text, &[edit]).unwrap_or_else(|_| self.text.clone())
    }

    fn set(&mut self, text: String) {
        self.text = text;
        self.pending.clear();
        self.asked.clear();
        self.quick = None;
        self.stopped = false;
    }

    fn push(&mut self, text: String) {
        self.refused = None;
        if text == self.text {
            return;
        }
        let before = std::mem::take(&mut self.text);
        self.before.push(before);
        let old = self.before.len().saturating_sub(MOST_UNDONE);
        self.before.drain(..old);
        self.set(text);
    }

    fn refuse(&mut self, key: &str, typed: &str, why: Vec<String>) {
        self.refused = Some(Refused { key: key.to_owned(), typed: typed.to_owned(), why, kept: false });
    }

    /// Applies edits, unless the job would have problems then that it does not have now.
    fn apply(&mut self, name: &str, folder: &Folder, edits: &[Edit], key: &str, typed: &str) {
        match job::edit(&self.text, edits) {
            Ok(edited) => self.take(name, folder, edited, key, typed),
            Err(problems) => self.refuse(key, typed, problems.iter().map(in_words).collect()),
        }
    }

    /// Takes a key or a table out, likewise.
    fn take_out(&mut self, name: &str, folder: &Folder, key: &str) {
        match job::take_out(&self.text, key) {
            Some(edited) => self.take(name, folder, edited, key, ""),
            None => self.refuse(
                key,
                "",
                vec!["this cannot be taken out here: it stands in several places of the file".to_owned()],
            ),
        }
    }

    fn take(&mut self, name: &str, folder: &Folder, edited: String, key: &str, typed: &str) {
        let Err(problems) = job::read(name, &edited, folder) else { return self.push(edited) };
        // A job that had mistakes before may be mended one by one.
        let known = job::read(name, &self.text, folder).err().unwrap_or_default();
        let told =
            |problem: &Problem| known.iter().any(|it| (&it.key, &it.what) == (&problem.key, &problem.what));
        let new: Vec<Problem> = problems.into_iter().filter(|problem| !told(problem)).collect();
        if new.is_empty() {
            return self.push(edited);
        }
        // A table that is begun key by key is kept apart until it is one.
        let kept = !typed.is_empty() && new.iter().all(Problem::is_missing_key);
        if kept {
            self.pending.push((key.to_owned(), typed.to_owned()));
        }
        let why = new.iter().map(in_words).collect();
        self.refused = Some(Refused { key: key.to_owned(), typed: typed.to_owned(), why, kept });
    }
}

/// A problem as one paragraph.
pub(super) fn in_words(problem: &Problem) -> String {
    let mend = problem.mend.as_ref().map_or(String::new(), |mend| format!(" To mend: {mend}."));
    let key = if problem.key.is_empty() { String::new() } else { format!("{}: ", problem.key) };
    format!("{key}{}; allowed: {}.{mend}", problem.what, problem.expected)
}
