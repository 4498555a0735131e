//! How much adhesive, and how many cartridges.

use assessment::{Basis, Finding, Known, Lack, Measure, Stage, names};
use job::Job;
use job::tables::BondDay;
use process::volume::{Account, Allowances, Face, ItemKind, SqueezeOut, account};
use quantity::{Kind, Volume};

use super::history::refused;
use super::taken;
use crate::{Results, faying};

/// Accounts for the adhesive of all joints of the day, cartridges by adhesive.
pub(super) fn run(job: &Job, day: &BondDay, joints: &[&str], results: &mut Results) {
    let accounts = accounts(job, day, joints);
    if accounts.is_ok() {
        taken::of_account(day, results);
    }
    let volume = accounts
        .as_ref()
        .map(|accounts| accounts.iter().map(|it| it.volume_mm3).sum::<f64>() / MM3_PER_ML)
        .map_err(Lack::clone);
    let cartridges = accounts
        .as_ref()
        .map(|accounts| accounts.iter().map(|it| it.cartridges).sum::<u32>())
        .map_err(Lack::clone);
    results.quantities.put(&names::ADHESIVE_VOLUME, &[], volume.clone());
    results.quantities.put(&names::CARTRIDGES, &[], cartridges.clone().map(f64::from));
    let finding = Finding {
        place: Some(day.place.clone()),
        ..Finding::new(
            Stage::BondDay,
            "bond_day.adhesive".to_owned(),
            "adhesive",
            Basis::CommonPractice(
                "wet both faces first, let it press out all round, throw away the first of each nozzle, keep a cartridge to spare",
            ),
        )
    };
    results.findings.push(match (accounts, volume, cartridges) {
        (Ok(accounts), Ok(volume), Ok(cartridges)) => Finding {
            statement: format!(
                "Have {cartridges} cartridge{} at hand for {} of adhesive.",
                if cartridges == 1 { "" } else { "s" },
                results.print(volume, Kind::Volume)
            ),
            value: Some(Measure::of(volume, Kind::Volume)),
            because: itemised(&accounts, results),
            ..finding
        },
        (Err(lack), ..) | (_, Err(lack), _) | (.., Err(lack)) => {
            finding.unknown("How much adhesive is needed cannot be told.".to_owned(), lack)
        }
    });
}

pub(super) const MM3_PER_ML: f64 = 1000.0;

/// One account for each adhesive, in the order in which the joints first name them.
fn accounts(job: &Job, day: &BondDay, joints: &[&str]) -> Known<Vec<Account>> {
    let mut by_adhesive: Vec<(&str, Vec<Face>)> = Vec::new();
    for joint in joints.iter().filter_map(|name| job.tables.joints.get(name)) {
        let adhesive = joint.adhesive().need()?.as_str();
        let areas = faying::areas(joint, &job.tables)?.into_iter();
        let faces = areas.map(|it| Face { area_mm2: it.area_mm2, bondline_mm: it.bondline_mm });
        match by_adhesive.iter_mut().find(|(known, _)| *known == adhesive) {
            Some((_, known)) => known.extend(faces),
            None => by_adhesive.push((adhesive, faces.collect())),
        }
    }
    if by_adhesive.is_empty() {
        return Err(Lack::Missing { keys: vec![job.tables.joints.key.clone()] });
    }
    let allowances = Allowances {
        coat_mm: day.wetting_coat.get().map(|coat| coat.mm()),
        squeeze_out: day.squeeze_out.get().map(|share| SqueezeOut::Fraction(*share)),
        purge_mm3: day.purge.get().map(|purge| purge.mm3()),
        spare_cartridges: None,
    };
    by_adhesive
        .into_iter()
        .map(|(name, faces)| {
            let cartridge: Volume = *job.tables.adhesives.get(name).map_or_else(
                || Err(job::Absent { keys: vec![format!("adhesives.{name}")] }),
                |adhesive| adhesive.cartridge.need(),
            )?;
            account(&faces, &allowances, cartridge.mm3()).map_err(|error| refused(&error, "bond_day"))
        })
        .collect()
}

fn itemised(accounts: &[Account], results: &Results) -> String {
    let of = |kind: ItemKind| {
        let items = accounts.iter().flat_map(|account| &account.items).filter(|item| item.kind == kind);
        results.print(items.map(|item| item.volume_mm3).sum::<f64>() / MM3_PER_ML, Kind::Volume)
    };
    format!(
        "Bondline {}, coats on both faces {}, squeeze-out {}, nozzles {}; one cartridge to spare.",
        of(ItemKind::Bondline),
        of(ItemKind::Coat),
        of(ItemKind::SqueezeOut),
        of(ItemKind::Purge)
    )
}
