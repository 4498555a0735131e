//! Witness coupons: a row for each specimen.

use std::collections::BTreeSet;

use super::Specimen;
use super::sheet::{Column, Sheet};
use crate::Located;
use crate::problem::{Problem, shown};

const CRACKED: &[Column] = &[
    Column { name: "specimen", holds: "the specimen's name", needed: true },
    Column { name: "batch", holds: "the batch of adhesive", needed: false },
    Column { name: "width_mm", holds: "the width of the overlap in mm", needed: true },
    Column { name: "overlap_mm", holds: "the length of the overlap in mm", needed: true },
    Column { name: "load_n", holds: "the load at failure in N", needed: true },
    Column { name: "pattern", holds: "the failure pattern, such as CF or 60CF/40AF", needed: false },
    Column { name: "crack_mm", holds: "the length of the crack from the load in mm", needed: true },
];

/// Laps have no crack.
const UNCRACKED: &[Column] = CRACKED.split_at(CRACKED.len() - 1).0;

/// The most specimens of one set: far more than anybody breaks.
const MOST_SPECIMENS: usize = 10_000;

/// Lengths of a coupon's overlap: no coupon is finer than 0.1 mm or longer than 1 m.
const LENGTH_MM: std::ops::RangeInclusive<f64> = 0.1..=1000.0;

/// Loads at failure: from what a hand feels to the largest testing machines.
const LOAD_N: std::ops::RangeInclusive<f64> = 0.01..=1e8;

/// The specimens of a data file; a row with a problem is left out, and the problem stays.
pub(super) fn read(file: &str, text: &str, cracked: bool, problems: &mut Vec<Problem>) -> Vec<Specimen> {
    let columns = if cracked { CRACKED } else { UNCRACKED };
    let Some(sheet) = Sheet::read(file, text, columns, problems) else {
        return Vec::new();
    };
    if let Some(cell) = sheet.rows.get(MOST_SPECIMENS).and_then(|row| row.first()) {
        let what = format!("there are {} specimens", sheet.rows.len());
        sheet.refuse(cell.span.clone(), "", what, &format!("at most {MOST_SPECIMENS}"), problems);
        return Vec::new();
    }
    let mut found = Vec::new();
    let mut names = BTreeSet::new();
    for row in &sheet.rows {
        let length = |number: f64| LENGTH_MM.contains(&number);
        let width_mm = sheet.number(row, "width_mm", length, "a width from 0.1 to 1000, in mm", problems);
        let overlap_mm =
            sheet.number(row, "overlap_mm", length, "an overlap from 0.1 to 1000, in mm", problems);
        let load = |number: f64| LOAD_N.contains(&number);
        let load_n = sheet.number(row, "load_n", load, "a load from 0.01 to 1e8, in N", problems);
        let crack_mm = if cracked {
            sheet.number(row, "crack_mm", length, "a crack from 0.1 to 1000, in mm", problems)
        } else {
            None
        };
        let name = sheet.word(row, "specimen");
        let first = row.first().map_or(0..0, |cell| cell.span.clone());
        let place = sheet.cell(row, "specimen").map_or(first.clone(), |cell| cell.span.clone());
        let fault = if name.is_empty() {
            Some("the specimen has no name".to_owned())
        } else if names.insert(name.clone()) {
            None
        } else {
            Some(format!("the specimen \"{}\" stands here a second time", shown(&name)))
        };
        if let Some(what) = fault {
            sheet.refuse(place, "specimen", what, "a name that no other specimen has", problems);
            continue;
        }
        let at = sheet.cell(row, "pattern").map_or(first, |cell| cell.span.clone());
        if crack_mm.is_some() != cracked {
            continue;
        }
        if let (Some(width_mm), Some(overlap_mm), Some(load_n)) = (width_mm, overlap_mm, load_n) {
            let pattern = Located { value: sheet.word(row, "pattern"), place: sheet.source.place(at) };
            let batch = sheet.word(row, "batch");
            found.push(Specimen { specimen: name, batch, width_mm, overlap_mm, crack_mm, load_n, pattern });
        }
    }
    found
}
