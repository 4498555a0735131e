//! How long the whole demo takes from job file to findings.
//!
//! "Whole demo `check` ≤ 60 ms" for the flat lap and the coupon; "Whole demo `check` ≤ 150 ms" for the rear
//! longitudinal with its members, rivets and three load cases. The peer in the same run is the reading alone.

use job::{Files, Job};
use stages::{Ask, assess};

const WITNESS: &[u8] = include_bytes!("../../../examples/witness.csv");
const DEMOS: [(&str, &str); 3] = [
    ("longitudinal", include_str!("../../../examples/longitudinal.toml")),
    ("frame", include_str!("../../../examples/frame.toml")),
    ("coupon", include_str!("../../../examples/coupon.toml")),
];

struct Witness;

impl Files for Witness {
    fn read(&self, name: &str) -> Result<Vec<u8>, String> {
        if name == "witness.csv" { Ok(WITNESS.to_vec()) } else { Err("there is no such file".to_owned()) }
    }
}

fn main() {
    divan::main();
}

fn read(name: &str) -> Option<Job> {
    let (_, text) = DEMOS.iter().find(|(known, _)| *known == name)?;
    job::read(name, text, &Witness).ok()
}

#[divan::bench(args = ["longitudinal", "frame", "coupon"])]
fn read_and_assess(bencher: divan::Bencher<'_, '_>, name: &str) {
    bencher.bench(|| read(name).map(|job| assess(&job, &Ask::default())));
}

#[divan::bench(args = ["longitudinal", "frame", "coupon"])]
fn read_alone(bencher: divan::Bencher<'_, '_>, name: &str) {
    bencher.bench(|| read(name));
}
