//! The batch of the adhesive, and whether it may still be used.

use assessment::{Basis, Finding, Stage, Verdict};
use job::Needed;
use job::tables::{Adhesive, BondDay};

use crate::Results;

/// Holds the day against the expiry of the batch, where batch, expiry or day are given.
pub(super) fn run(day: &BondDay, joint: &str, adhesive: &Adhesive, results: &mut Results) {
    let (batch, expires, date) = (&adhesive.batch, &adhesive.expires, &day.date);
    if batch.get().is_none() && expires.get().is_none() && date.get().is_none() {
        return;
    }
    let place = expires.place().or_else(|| batch.place()).or_else(|| date.place()).cloned();
    let finding = Finding {
        place,
        ..Finding::new(
            Stage::BondDay,
            format!("bond_day.{joint}.batch"),
            joint,
            Basis::YourData("batch and expiry on the cartridge"),
        )
    };
    let spent = expires.get().zip(date.get()).filter(|(expires, date)| date > expires);
    let named = batch.get().map_or_else(|| "The adhesive".to_owned(), |batch| format!("Batch {batch}"));
    // Spent is spent, whatever the batch is called.
    results.findings.push(if let Some((expires, date)) = spent {
        Finding {
            statement: format!("{named} expired on {expires}, before the bond day on {date}."),
            verdict: Verdict::NotMet,
            because: "Nothing of its data is promised after that day.".to_owned(),
            next: Some(
                "Take a batch that has not expired, and write down its number and day.".to_owned().into(),
            ),
            ..finding
        }
    } else {
        match (batch.need(), expires.need(), date.need()).need_all() {
            Err(absent) => finding.unknown(
                format!("Whether the adhesive of {joint} may still be used cannot be told."),
                absent.into(),
            ),
            Ok((batch, expires, date)) => Finding {
                statement: format!("Batch {batch} may be used until {expires}; the bond day is {date}."),
                verdict: Verdict::Met,
                because: "Stored as its maker says.".to_owned(),
                ..finding
            },
        }
    });
}
