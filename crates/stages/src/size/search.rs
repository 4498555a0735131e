//! The search: for each choice of rows, bondline and wall the least overlap by halving, each only below the best so far.

use std::collections::{BTreeMap, BTreeSet};

use assessment::{Assessment, Finding, Stage, Verdict};
use job::Files;

use super::Request;
use super::trial::{About, Planned, Trial, about, planned};
use super::variables::{Candidate, Variables, same};
use crate::{Ask, Watch, assess};

/// Elements of the linear strips while searching: no reserve depends on their peaks.
const ELEMENTS: u32 = 20;

/// Stretches between the points of the curve over the overlap.
const STRETCHES: u32 = 6;

/// How closely a candidate is looked at.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Look {
    /// Without the way to failure.
    Quick,
    /// All that `check` says.
    Whole,
}

/// The choices beside the overlap.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Choice {
    rows: u32,
    bondline_mm: Option<f64>,
    wall_mm: Option<f64>,
}

pub(super) struct Search<'a> {
    name: &'a str,
    text: &'a str,
    files: &'a dyn Files,
    request: &'a Request<'a>,
    variables: &'a Variables,
    watch: &'a Watch,
    /// The findings as planned: what was met there must stay so.
    before: Planned,
    planned: Trial,
    /// What cannot be told as planned: it does not hinder the search, and the result is not reached.
    untold: BTreeSet<String>,
    /// Candidates that were assessed, by their edits.
    known: BTreeMap<(Vec<(String, String)>, Look), Trial>,
}

impl<'a> Search<'a> {
    pub(super) fn new(
        name: &'a str,
        text: &'a str,
        files: &'a dyn Files,
        request: &'a Request<'a>,
        variables: &'a Variables,
        assessment: &Assessment,
        watch: &'a Watch,
    ) -> Self {
        let before = planned(assessment, request.joint);
        let candidate = variables.planned.clone();
        let planned = Trial::of(candidate, assessment, request.joint, variables.has_insert(), &before);
        let untold = planned.unknown.iter().map(|(id, _)| id.clone()).collect();
        Self { name, text, files, request, variables, watch, before, planned, untold, known: BTreeMap::new() }
    }

    /// The joint as planned.
    pub(super) fn planned(&self) -> &Trial {
        &self.planned
    }

    /// How many candidates were assessed.
    pub(super) fn tried(&self) -> usize {
        self.known.len()
    }

    /// Whether a candidate that was looked at whole reaches the target, and everything that its sizes could lift can
    /// be told.
    pub(super) fn reaches(&self, trial: &Trial) -> bool {
        trial.reserve() >= self.request.target && trial.broken.is_empty() && trial.unknown.is_empty()
    }

    /// Whether it was stopped.
    pub(super) fn is_stopped(&self) -> bool {
        self.watch.is_stopped()
    }

    /// The best sizes that reach the target, or those that come nearest to it; stopped, the best so far.
    pub(super) fn run(&mut self) -> Trial {
        let choices = self.choices();
        // Each halving is looked at twice; a choice that ends early is as good as done.
        let [least, most] = self.variables.overlap_mm;
        let each = 2 * (2 + u64::from((most - least).max(1).ilog2()));
        let after = self.variables.rows.len() as u64 + u64::from(STRETCHES) + 1;
        self.watch.begin(each * choices.len() as u64 + after);
        self.watch.doing(format!("sizing {}", self.request.joint));
        let mut best: Option<Candidate> = None;
        for (choice, done) in choices.into_iter().zip(1..) {
            let below = best.as_ref().map(|best| best.overlap_mm);
            if let Some(found) = self.least_overlap(choice, below) {
                best = Some(found);
            }
            if self.is_stopped() {
                break;
            }
            self.watch.reach(each * done);
        }
        match best {
            Some(best) => self.trial(&best, Look::Whole),
            None => self.nearest(),
        }
    }

    /// All choices, the ones to be preferred first.
    fn choices(&self) -> Vec<Choice> {
        let mut choices = Vec::new();
        for rows in &self.variables.rows {
            for bondline_mm in &self.variables.bondlines_mm {
                for wall_mm in &self.variables.walls_mm {
                    choices.push(Choice { rows: *rows, bondline_mm: *bondline_mm, wall_mm: *wall_mm });
                }
            }
        }
        choices
    }

    fn candidate(&self, choice: Choice, overlap_mm: u32) -> Option<Candidate> {
        let overlap_mm = f64::from(overlap_mm);
        let rows_mm = self.variables.rows_at(choice.rows, overlap_mm)?;
        let Choice { bondline_mm, wall_mm, .. } = choice;
        Some(Candidate { overlap_mm, rows_mm, bondline_mm, wall_mm })
    }

    /// The least overlap of a choice, below the best so far.
    ///
    /// A longer overlap carries more, so halving finds it; where the longest does not do, for a rule or because the rows
    /// lie further from the cut, a few shorter ones are tried before the choice is given up.
    fn least_overlap(&mut self, choice: Choice, below_mm: Option<f64>) -> Option<Candidate> {
        let [least, most] = self.variables.overlap_mm;
        let mut to = most;
        // The best so far is a whole number of millimetres within the range.
        while below_mm.is_some_and(|below| f64::from(to) >= below) {
            to = to.checked_sub(1).filter(|to| *to >= least)?;
        }
        if self.is_stopped() {
            return None;
        }
        if !self.does(choice, to) {
            if below_mm.is_some() {
                return None;
            }
            let span = to - least;
            to = [3, 2, 1]
                .map(|part| least + span * part / 4)
                .into_iter()
                .find(|at| !self.is_stopped() && self.does(choice, *at))?;
        }
        let mut from = least;
        if !self.is_stopped() && self.does(choice, from) {
            return self.candidate(choice, from);
        }
        while to - from > 1 && !self.is_stopped() {
            let middle = u32::midpoint(from, to);
            if self.does(choice, middle) { to = middle } else { from = middle }
        }
        self.candidate(choice, to)
    }

    /// Whether a choice does at an overlap: first by what is told quickly, then by all.
    fn does(&mut self, choice: Choice, overlap_mm: u32) -> bool {
        let Some(candidate) = self.candidate(choice, overlap_mm) else { return false };
        [Look::Quick, Look::Whole].into_iter().all(|look| {
            let trial = self.trial(&candidate, look);
            let told = trial.unknown.iter().all(|(id, _)| self.untold.contains(id));
            trial.reserve() >= self.request.target && trial.broken.is_empty() && told
        })
    }

    /// The candidate with the greatest least reserve of those that were tried and keep the rules; the first of equals.
    fn nearest(&mut self) -> Trial {
        let allowed = |trial: &&Trial| trial.broken.is_empty();
        let quick = self.known.iter().filter(|((_, look), _)| *look == Look::Quick).map(|(_, trial)| trial);
        let mut quick: Vec<Trial> = quick.filter(allowed).cloned().collect();
        quick.sort_by(|a, b| {
            let first = |trial: &Trial| (trial.candidate.rows_mm.len(), trial.candidate.overlap_mm);
            let near = |trial: &Trial| {
                let planned = &self.variables.planned;
                let off = |a: Option<f64>, b: Option<f64>| a.zip(b).map_or(0.0, |(a, b)| (a - b).abs());
                off(trial.candidate.wall_mm, planned.wall_mm)
                    + off(trial.candidate.bondline_mm, planned.bondline_mm)
            };
            // What differs only in the last digits is equal.
            let rounded = |trial: &Trial| (trial.reserve() * 1e6).round();
            rounded(b)
                .total_cmp(&rounded(a))
                .then(first(a).0.cmp(&first(b).0))
                .then(first(a).1.total_cmp(&first(b).1))
                .then(near(a).total_cmp(&near(b)))
        });
        match quick.into_iter().next() {
            // Few may have been tried by then, and none as good as what is planned.
            Some(trial)
                if self.is_stopped()
                    && self.planned.broken.is_empty()
                    && self.planned.reserve() >= trial.reserve() =>
            {
                self.planned.clone()
            }
            Some(trial) => self.trial(&trial.candidate, Look::Whole),
            None => self.planned.clone(),
        }
    }

    /// Assesses a candidate, once.
    fn trial(&mut self, candidate: &Candidate, look: Look) -> Trial {
        let edits = self.variables.edits(candidate);
        let key = (edits.iter().map(|edit| (edit.key.clone(), edit.value.clone())).collect(), look);
        if let Some(known) = self.known.get(&key) {
            return known.clone();
        }
        self.watch.advance(1);
        let ask = match look {
            Look::Quick => Ask { strip_elements: ELEMENTS, to_failure: false, ..Ask::default() },
            Look::Whole => Ask { strip_elements: ELEMENTS, ..Ask::default() },
        };
        let edited = job::edit(self.text, &edits);
        let read = edited.and_then(|text| job::read(self.name, &text, self.files));
        let trial = match read {
            Ok(job) => Trial::of(
                candidate.clone(),
                &assess(&job, &ask),
                self.request.joint,
                self.variables.has_insert(),
                &self.before,
            ),
            // Sizes that do not go together, such as rows beyond the overlap, are refused by the reader.
            Err(problems) => Trial {
                broken: problems.into_iter().map(|problem| problem.key).collect(),
                ..Trial::none(candidate.clone())
            },
        };
        self.known.insert(key, trial.clone());
        trial
    }

    /// Reserves against overlap, all else as in a candidate.
    pub(super) fn by_overlap(&mut self, chosen: &Candidate) -> Vec<Trial> {
        let [least, most] = self.variables.overlap_mm;
        let rows = u32::try_from(chosen.rows_mm.len()).unwrap_or(0);
        let choice = Choice { rows, bondline_mm: chosen.bondline_mm, wall_mm: chosen.wall_mm };
        let even = (0..=STRETCHES).map(|k| least + (most - least) * k / STRETCHES);
        let mut candidates: Vec<Candidate> = even.filter_map(|at| self.candidate(choice, at)).collect();
        candidates.push(chosen.clone());
        candidates.sort_by(|a, b| a.overlap_mm.total_cmp(&b.overlap_mm));
        candidates.dedup_by(|a, b| same(a.overlap_mm, b.overlap_mm));
        self.while_asked(&candidates, Look::Whole)
    }

    /// Reserves against rows at the chosen overlap, all else as in a candidate.
    pub(super) fn by_rows(&mut self, chosen: &Candidate) -> Vec<Trial> {
        let counts = self.variables.rows.clone();
        let rows = counts.into_iter().filter_map(|count| self.variables.rows_at(count, chosen.overlap_mm));
        let candidates: Vec<Candidate> = rows
            .filter(|rows| !rows.is_empty())
            .map(|rows_mm| Candidate { rows_mm, ..chosen.clone() })
            .collect();
        self.while_asked(&candidates, Look::Quick)
    }

    /// Candidates until it is stopped.
    fn while_asked(&mut self, candidates: &[Candidate], look: Look) -> Vec<Trial> {
        let mut trials = Vec::new();
        for candidate in candidates {
            if self.is_stopped() {
                break;
            }
            trials.push(self.trial(candidate, look));
        }
        trials
    }

    /// What none of the sizes lifts, where it falls short of the target or is not met.
    pub(super) fn limits(&self, assessment: &Assessment) -> Vec<Finding> {
        let of_joint = assessment.findings.iter().filter(|finding| {
            finding.about == self.request.joint && matches!(finding.stage, Stage::Choose | Stage::Join)
        });
        let fixed = of_joint.filter(|finding| match about(finding, self.request.joint) {
            About::Bond | About::BondLost | About::Rule => false,
            About::Insert => !self.variables.has_insert(),
            About::Part | About::Other => true,
        });
        let short = |finding: &&Finding| match finding.verdict {
            Verdict::NotMet | Verdict::Unknown => true,
            Verdict::Met => finding.reserve.is_some_and(|reserve| reserve < self.request.target),
            Verdict::Note => false,
        };
        fixed.filter(short).cloned().collect()
    }
}
