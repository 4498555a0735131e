//! Data from instruments, in CSV files that the job file names.

mod coupons;
mod loads;
mod log;
mod sheet;

use std::collections::BTreeMap;
use std::path::Path;

use sha2::{Digest, Sha256};

use crate::entry::{Entry, Located};
use crate::place::Source;
use crate::problem::{Problem, shown};
use crate::tables::Tables;
use crate::text::{decode, too_large};

/// The largest data file that is read, in bytes.
pub const LARGEST_DATA_FILE: usize = 16 << 20;

/// Where data files come from.
pub trait Files {
    /// The bytes of a file named relative to the job file; no more of them than [`LARGEST_DATA_FILE`] and one
    /// are looked at.
    ///
    /// # Errors
    /// Why it cannot be had, in words.
    fn read(&self, name: &str) -> Result<Vec<u8>, String>;
}

/// One witness coupon.
#[derive(Debug, Clone, PartialEq)]
pub struct Specimen {
    /// Its name.
    pub specimen: String,
    /// The batch of adhesive.
    pub batch: String,
    /// Width of the overlap, mm.
    pub width_mm: f64,
    /// Length of the overlap, mm; of a cantilever, from the end of its crack.
    pub overlap_mm: f64,
    /// From the load to the end of the crack, mm; a lap has none.
    pub crack_mm: Option<f64>,
    /// Load at failure, N.
    pub load_n: f64,
    /// Failure pattern, such as `CF` or `60CF/40AF`; empty where it was not looked at.
    pub pattern: Located<String>,
}

/// One sample of a temperature log.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sample {
    /// Time since the first sample, s.
    pub time_s: f64,
    /// Temperature, °C.
    pub temperature_c: f64,
}

/// A temperature log.
#[derive(Debug, Clone, PartialEq)]
pub struct TemperatureLog {
    /// Its samples, at rising times.
    pub samples: Vec<Sample>,
    /// Whether its times are those of a local clock, without an offset: such a clock may have been put forward or
    /// back. Where the steps between the samples show it, the log is refused; where they do not, nobody can tell.
    pub local_times: bool,
}

/// All data of a job.
#[derive(Debug, Default)]
pub(crate) struct Data {
    pub(crate) specimens: BTreeMap<String, Vec<Specimen>>,
    pub(crate) temperature_log: Option<TemperatureLog>,
    pub(crate) load_logs: BTreeMap<String, Vec<f64>>,
}

/// Reads every data file that a job names; its own name tells in which folder they lie.
pub(crate) fn load(
    job: &str,
    tables: &Tables,
    files: &dyn Files,
    hash: &mut Sha256,
    problems: &mut Vec<Problem>,
) -> Data {
    let mut data = Data::default();
    for (name, coupons) in tables.coupons.iter() {
        if let Some((file, text)) = open(job, &coupons.data, files, hash, problems) {
            data.specimens
                .insert(name.to_owned(), coupons::read(&file, &text, coupons.is_cracked(), problems));
        }
    }
    if let Some(day) = tables.bond_day.get()
        && let Some((file, text)) = open(job, &day.log, files, hash, problems)
    {
        let unit = day.temperature_unit.get().copied();
        data.temperature_log = Some(log::read(&file, &text, unit, problems));
    }
    for spectrum in tables.spectra() {
        if let Some((file, text)) = open(job, &spectrum.log, files, hash, problems) {
            data.load_logs.insert(spectrum.key.clone(), loads::read(&file, &text, problems));
        }
    }
    data
}

/// The name, as the user would call it from where the job file is called, and the text of the file that an
/// entry names, if it names one that can be read.
fn open(
    job: &str,
    entry: &Entry<String>,
    files: &dyn Files,
    hash: &mut Sha256,
    problems: &mut Vec<Problem>,
) -> Option<(String, String)> {
    let Located { value: name, place } = entry.located.as_ref()?;
    if name.chars().any(char::is_control) {
        problems.push(Problem {
            place: place.clone(),
            key: entry.key.clone(),
            what: format!("the file name \"{}\" has a sign that cannot be seen", shown(name)),
            expected: "a file named relative to the job file".to_owned(),
            mend: Some(
                "write / instead of \\, which begins such a sign in double quotation marks".to_owned(),
            ),
        });
        return None;
    }
    let file = Path::new(job).with_file_name(name).to_string_lossy().into_owned();
    let bytes = match files.read(name) {
        Ok(bytes) => bytes,
        Err(reason) => {
            problems.push(Problem {
                place: place.clone(),
                key: entry.key.clone(),
                what: format!("the file \"{}\" cannot be read: {reason}", shown(name)),
                expected: "a file named relative to the job file".to_owned(),
                mend: None,
            });
            return None;
        }
    };
    hash.update(&bytes);
    let text = if bytes.len() > LARGEST_DATA_FILE {
        problems.push(Problem {
            place: place.clone(),
            key: entry.key.clone(),
            what: format!("the file \"{}\" is larger than any log or set of coupons", shown(name)),
            expected: format!("at most {LARGEST_DATA_FILE} bytes"),
            mend: None,
        });
        return None;
    } else {
        decode(&file, &bytes)
    };
    let text = match text {
        Ok(text) => text,
        Err(found) => {
            problems.extend(found);
            return None;
        }
    };
    if let Some(problem) = too_large(&Source::new(&file, &text), &text, LARGEST_DATA_FILE) {
        problems.push(problem);
        return None;
    }
    Some((file, text))
}

#[cfg(test)]
mod tests;
