//! Spectra and lines of stress against cycles.

use quantity::Quantity;

use super::{one_of, print, refuse};
use crate::entry::Entry;
use crate::problem::Problem;
use crate::tables::{ForceCycles, Spectrum, StressCycles};

pub(super) fn check_spectrum(spectrum: &Entry<Spectrum>, problems: &mut Vec<Problem>) {
    let Some(spectrum) = spectrum.get() else { return };
    one_of(&spectrum.blocks, &spectrum.log, problems);
    for block in spectrum.blocks.get().map_or(&[][..], Vec::as_slice) {
        let Some(share) = block.share.get() else { continue };
        let least = block.least.get().copied().unwrap_or(0.0);
        if (share - least).abs() <= f64::EPSILON {
            let what = "the load of this block does not change";
            let expected = format!("a share other than {least}, the least load");
            refuse(
                if block.least.get().is_some() { &block.least } else { &block.share },
                what,
                expected,
                problems,
            );
        }
    }
    if spectrum.log.get().is_none() {
        let what = "repeats are given without a log";
        refuse(&spectrum.repeats, what, "a log of loads that is repeated", problems);
    }
}

pub(super) fn check_stress_cycles(line: &Entry<StressCycles>, problems: &mut Vec<Problem>) {
    let Some(line) = line.get() else { return };
    below(&line.cut_off, &line.strength, problems);
}

pub(super) fn check_force_cycles(line: &Entry<ForceCycles>, problems: &mut Vec<Problem>) {
    let Some(line) = line.get() else { return };
    below(&line.cut_off, &line.strength, problems);
}

/// A range that is borne for so many cycles is none that does not count.
fn below<Q: Quantity>(cut_off: &Entry<Q>, strength: &Entry<Q>, problems: &mut Vec<Problem>) {
    if let (Some(low), Some(high)) = (cut_off.get(), strength.get())
        && low.base() > high.base()
    {
        let expected = format!("at most {}, the range of the line", print(*high));
        refuse(cut_off, "the cut-off lies above the line", expected, problems);
    }
}
