//! Conditions of service as a bond feels them: hot, cold, wet.

use assessment::{Known, Lack};
use job::Needed;
use job::tables::{Adhesive, Material, Service, Tables};
use quantity::{Kind, Temperature};

use super::adhesive::{temperature_share, temperature_toughness_share};
use super::nominal::ROOM_C;
use super::subject::Subject;
use crate::Results;

/// What a condition makes of a bond.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Condition {
    /// Strength as a share of that at 23 °C, dry.
    pub(super) strength_share: f64,
    /// Toughness as a share of that at 23 °C, dry.
    pub(super) toughness_share: f64,
    /// Temperature less that at which the parts are free of stress, K.
    pub(super) change_k: f64,
}

impl Condition {
    /// 23 °C, dry, with a change of temperature (K) from that at which the parts are free of stress.
    pub(super) fn room(change_k: f64) -> Self {
        Self { strength_share: 1.0, toughness_share: 1.0, change_k }
    }

    /// Whether the data give the bond nothing that another condition does not. Where the parts strain each other by
    /// another amount that cannot be told: it may help one end.
    pub(super) fn gives_no_more_than(&self, other: &Self) -> bool {
        self.strength_share <= other.strength_share
            && self.toughness_share <= other.toughness_share
            && self.change_k.to_bits() == other.change_k.to_bits()
    }

    /// What tells it from another, to the last digit.
    pub(super) fn bits(&self) -> [u64; 3] {
        [self.strength_share, self.toughness_share, self.change_k].map(f64::to_bits)
    }
}

/// An end of service, or wet.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum End {
    Hot,
    Cold,
    Wet,
}

impl End {
    /// The end of a finding's name.
    pub(super) fn word(self) -> &'static str {
        match self {
            Self::Hot => "hot",
            Self::Cold => "cold",
            Self::Wet => "wet",
        }
    }

    /// When, in words, where no number is known.
    pub(super) fn when(self) -> &'static str {
        match self {
            Self::Hot => "at the hottest service",
            Self::Cold => "at the coldest service",
            Self::Wet => "wet",
        }
    }
}

/// A condition in which the part serves.
pub(super) struct Served {
    pub(super) end: End,
    /// When, in words, with the temperature where it is known.
    pub(super) when: String,
    pub(super) condition: Known<Condition>,
}

/// The service of the job.
pub(super) fn service(tables: &Tables) -> Option<&Service> {
    tables.job.get()?.service.get()
}

/// Temperature less the stress-free one of `[job] service`, K; where the job gives none, the change that the joint
/// itself gives for all of its service, or none.
pub(super) fn change_k(tables: &Tables, celsius: f64, own_k: Option<f64>) -> f64 {
    let free = service(tables).and_then(|service| service.stress_free.get());
    free.map_or_else(|| own_k.unwrap_or(0.0), |free| celsius - free.celsius())
}

/// How the parts of a joint feel a change of temperature.
#[derive(Debug, Clone, Copy)]
pub(super) struct Parts {
    /// The change that the joint itself gives, K.
    pub(super) own_k: Option<f64>,
    /// Whether they expand alike and do not strain each other.
    pub(super) alike: bool,
}

/// The conditions in which a bond serves besides 23 °C, dry; nothing where the job has no service.
pub(super) fn of_service(
    subject: &Subject<'_>,
    room: Condition,
    parts: &Parts,
    results: &Results,
) -> Option<Vec<Served>> {
    let service = service(subject.tables)?;
    let mut served = Vec::new();
    for (end, word, entry) in
        [(End::Hot, "hottest", &service.hottest), (End::Cold, "coldest", &service.coldest)]
    {
        let when = entry.get().map_or_else(
            || end.when().to_owned(),
            |at| format!("at {}, the {word} service", results.print(at.celsius(), Kind::Temperature)),
        );
        served.push(Served { end, when, condition: at(subject, entry, parts, results) });
    }
    if service.humid.get() == Some(&true) {
        let when = format!("wet at {}", results.print(ROOM_C, Kind::Temperature));
        let condition = subject.adhesive().and_then(|adhesive| wet(adhesive, room));
        served.push(Served { end: End::Wet, when, condition });
    }
    Some(served)
}

fn at(
    subject: &Subject<'_>,
    entry: &job::Entry<Temperature>,
    parts: &Parts,
    results: &Results,
) -> Known<Condition> {
    let celsius = entry.need()?.celsius();
    let adhesive = subject.adhesive()?;
    let print = |celsius| results.print(celsius, Kind::Temperature);
    Ok(Condition {
        strength_share: temperature_share(adhesive, celsius, print)?,
        toughness_share: temperature_toughness_share(adhesive, celsius, print)?,
        change_k: if parts.alike { 0.0 } else { change_k(subject.tables, celsius, parts.own_k) },
    })
}

/// Wet the toughness falls as the strength does, unless the job says otherwise.
fn wet(adhesive: &Adhesive, room: Condition) -> Known<Condition> {
    let strength_share = *adhesive.wet_strength.need()?;
    let toughness_share = adhesive.wet_toughness.get().copied().unwrap_or(strength_share);
    Ok(Condition { strength_share, toughness_share, ..room })
}

/// Coefficients of thermal expansion of two parts, 1/K; `None` where they expand alike, so that no temperature strains
/// one against the other.
///
/// ```text
/// α₁ (1 + ν₁) = α₂ (1 + ν₂)          in plane strain: the width keeps its length
/// ```
pub(super) fn expansions(parts: [&Material; 2]) -> Known<Option<[f64; 2]>> {
    let [first, second] = parts;
    if std::ptr::eq(first, second) {
        return Ok(None);
    }
    let (a, b, nu_a, nu_b) = (
        first.thermal_expansion.need(),
        second.thermal_expansion.need(),
        first.poissons_ratio.need(),
        second.poissons_ratio.need(),
    )
        .need_all()
        .map_err(Lack::from)?;
    let (a, b) = (a.per_kelvin(), b.per_kelvin());
    let alike = (a * (1.0 + nu_a)).to_bits() == (b * (1.0 + nu_b)).to_bits();
    Ok((!alike).then_some([a, b]))
}
