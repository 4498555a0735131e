//! The demo jobs, as files inside the program.

/// A file of the demo.
pub(crate) struct DemoFile {
    /// Its name.
    pub(crate) name: &'static str,
    /// Its content.
    pub(crate) content: &'static str,
}

/// The demo jobs, in the order in which they are shown.
pub(crate) const JOBS: [DemoFile; 4] = [
    DemoFile { name: "longitudinal.toml", content: include_str!("../../../examples/longitudinal.toml") },
    DemoFile { name: "coupon.toml", content: include_str!("../../../examples/coupon.toml") },
    DemoFile { name: "pull_stud.toml", content: include_str!("../../../examples/pull_stud.toml") },
    DemoFile { name: "double_lap.toml", content: include_str!("../../../examples/double_lap.toml") },
];

/// The data files that they name.
pub(crate) const DATA: [DemoFile; 1] =
    [DemoFile { name: "witness.csv", content: include_str!("../../../examples/witness.csv") }];
