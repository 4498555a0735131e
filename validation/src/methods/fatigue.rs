//! Cycles and lives, `mechanics::fatigue`.

use mechanics::fatigue::basquin::Line;
use mechanics::fatigue::rainflow::{Cycle, rainflow, rainflow_repeating};

use super::Output;
use crate::error::MethodError;
use crate::inputs::Inputs;

/// `rainflow::rainflow`, or `rainflow_repeating`: how many cycles of one range there are.
pub(super) fn count(inputs: &Inputs<'_>) -> Result<Vec<Output>, MethodError> {
    let history = inputs.numbers("history")?;
    let counted = inputs.word("counting", &[("once", false), ("repeating", true)])?;
    let cycles = if counted { rainflow_repeating(&history)? } else { rainflow(&history)? };
    let range = inputs.number("range")?;
    // Histories of examples are whole numbers: their ranges are exact.
    let of_range = |cycle: &&Cycle| cycle.range.total_cmp(&range).is_eq();
    Ok(vec![Output::number("count", cycles.iter().filter(of_range).map(|cycle| cycle.count).sum())])
}

/// `basquin::Line::damage`, as a life.
pub(super) fn life(inputs: &Inputs<'_>) -> Result<Vec<Output>, MethodError> {
    let line = Line {
        range: inputs.number("range_at")?,
        at_cycles: inputs.number("cycles_at")?,
        slope: inputs.number("slope")?,
        cut_off: None,
    };
    Ok(vec![Output::number("cycles", 1.0 / line.damage(inputs.number("range")?)?)])
}
