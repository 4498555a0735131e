//! One candidate, assessed: what its sizes bring, and what forbids it.

use std::collections::BTreeMap;

use assessment::{Assessment, Finding, Verdict};

use super::variables::Candidate;

/// The reserve that governs.
#[derive(Debug, Clone, PartialEq)]
pub struct Governs {
    /// The reserve factor.
    pub reserve: f64,
    /// The finding, by its dotted name.
    pub id: String,
}

/// A candidate and what an assessment says of it.
#[derive(Debug, Clone, PartialEq)]
pub struct Trial {
    /// The sizes.
    pub candidate: Candidate,
    /// The least reserve of all that the sizes can lift.
    pub least: Option<Governs>,
    /// The least of the bond.
    pub bond: Option<Governs>,
    /// The least of the rivets alone, the bond lost.
    pub bond_lost: Option<Governs>,
    /// The least of the parts beside the bond.
    pub parts: Option<Governs>,
    /// Findings that the sizes could lift and that cannot be told, with the reason.
    pub unknown: Vec<(String, String)>,
    /// Findings that forbid these sizes.
    pub broken: Vec<String>,
}

/// What a finding on a joint is about.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum About {
    Bond,
    BondLost,
    /// The insert of a sleeve.
    Insert,
    /// Another part beside the bond.
    Part,
    /// Rules that the sizes themselves must keep: ribs, distances of rivets.
    Rule,
    Other,
}

pub(super) fn about(finding: &Finding, joint: &str) -> About {
    let rest = |stage: &str| finding.id.strip_prefix(&format!("{stage}.{joint}."));
    if matches!((rest("join"), rest("choose")), (Some("rivets"), _) | (_, Some("ribs"))) {
        return About::Rule;
    }
    let Some(case) = &finding.case else { return About::Other };
    let Some(what) = rest("join").and_then(|rest| rest.strip_prefix(&format!("{case}."))) else {
        return About::Other;
    };
    match what {
        // More or better placed rivets lift both.
        "bond_lost" | "rivet_fatigue" => About::BondLost,
        _ if what == "bond" || what == "sustained" || what.starts_with("bond_") => About::Bond,
        _ if what.starts_with("insert") => About::Insert,
        _ if what.starts_with("member") || what.ends_with("_plate") => About::Part,
        _ => About::Other,
    }
}

/// What must not get worse: the findings on a joint as planned, by their names.
pub(super) type Planned = BTreeMap<String, Verdict>;

pub(super) fn planned(assessment: &Assessment, joint: &str) -> Planned {
    let of_joint = assessment.findings.iter().filter(|finding| finding.about == joint);
    of_joint.map(|finding| (finding.id.clone(), finding.verdict)).collect()
}

impl Trial {
    /// Reads an assessment of a candidate.
    pub(super) fn of(
        candidate: Candidate,
        assessment: &Assessment,
        joint: &str,
        insert_is_free: bool,
        planned: &Planned,
    ) -> Self {
        let mut trial = Self::none(candidate);
        for finding in &assessment.findings {
            let kind = about(finding, joint);
            let lifts = match kind {
                About::Bond | About::BondLost => true,
                About::Insert => insert_is_free,
                _ => false,
            };
            if kind == About::Rule && finding.verdict == Verdict::NotMet {
                trial.broken.push(finding.id.clone());
            } else if lifts && finding.verdict == Verdict::Unknown {
                trial.unknown.push((finding.id.clone(), finding.because.clone()));
            } else if !lifts
                && finding.about == joint
                && matches!(finding.verdict, Verdict::NotMet | Verdict::Unknown)
                && planned.get(&finding.id).is_none_or(|before| *before == Verdict::Met)
            {
                // What was met as planned stays met.
                trial.broken.push(finding.id.clone());
            }
            let Some(reserve) = finding.reserve.filter(|_| finding.verdict != Verdict::Note) else {
                continue;
            };
            let family = match kind {
                About::Bond => &mut trial.bond,
                About::BondLost => &mut trial.bond_lost,
                About::Insert | About::Part => &mut trial.parts,
                About::Rule | About::Other => continue,
            };
            lower(family, reserve, &finding.id);
            if lifts {
                lower(&mut trial.least, reserve, &finding.id);
            }
        }
        trial
    }

    /// A candidate of which nothing is known yet.
    pub(super) fn none(candidate: Candidate) -> Self {
        Self {
            candidate,
            least: None,
            bond: None,
            bond_lost: None,
            parts: None,
            unknown: Vec::new(),
            broken: Vec::new(),
        }
    }

    /// The least reserve that the sizes can lift; none counts as nothing.
    pub fn reserve(&self) -> f64 {
        self.least.as_ref().map_or(0.0, |least| least.reserve)
    }
}

fn lower(known: &mut Option<Governs>, reserve: f64, id: &str) {
    if known.as_ref().is_none_or(|known| reserve < known.reserve) {
        *known = Some(Governs { reserve, id: id.to_owned() });
    }
}
