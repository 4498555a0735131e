//! Prints the table of all cases: those of this package, or of the folder given.

use std::path::PathBuf;
use std::process::ExitCode;

/// 0: every case holds; 1: one is outside its tolerance; 2: the cases cannot be read or run.
#[expect(clippy::print_stdout, reason = "printing the table is what this program does")]
fn main() -> ExitCode {
    let folder = std::env::args_os().nth(1).map_or_else(|| validation::folder().to_owned(), PathBuf::from);
    match validation::run(&folder) {
        Ok(comparisons) => {
            print!("{}", validation::table::markdown(&comparisons));
            let outside = comparisons.iter().filter(|comparison| !comparison.holds()).count();
            if outside == 0 {
                ExitCode::SUCCESS
            } else {
                eprintln!("{outside} of {} quantities are not as their case says", comparisons.len());
                ExitCode::from(1)
            }
        }
        Err(error) => {
            eprintln!("{error}");
            ExitCode::from(2)
        }
    }
}
