//! `fayline`: plans, sizes, schedules, proves and documents bonded and riveted sectioning repairs.
//!
//! This program is a face: it reads a job file, has it assessed, and shows what was found.

mod cli;
mod demo;
mod drawn;
mod files;
mod json;
mod problems;
mod report;
mod sizing;
mod text;
mod web;

use std::process::ExitCode;

fn main() -> ExitCode {
    cli::main()
}
