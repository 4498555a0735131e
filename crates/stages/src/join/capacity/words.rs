//! What happened on the way, in words.

use mechanics::strip::progressive::{Event, Outcome, Side, What};

/// The words for the two plates, upper and lower of the strip.
#[derive(Debug, Clone, Copy)]
pub(in super::super) struct Plates(pub(in super::super) [&'static str; 2]);

/// The sequence of events in one sentence, each with its share of the greatest load; nothing where nothing gave.
pub(in super::super) fn sequence(outcome: &Outcome, plates: &Plates, overlap_mm: f64) -> String {
    /// More than these no one reads.
    const MOST: usize = 6;
    let Some(capacity) = outcome.capacity else { return String::new() };
    let mut parts: Vec<String> = Vec::new();
    for event in both_ends(&outcome.events) {
        let share = 100.0 * event.0.at.factor / capacity.factor;
        let passed = event.0.step > outcome.peak_step;
        let when = if passed {
            format!("{share:.0} % of peak, on the way down")
        } else {
            format!("{share:.0} % of peak")
        };
        parts.push(format!("{} at {when}", clause(&event.0.what, event.1, plates, overlap_mm)));
    }
    parts.truncate(MOST);
    let mut sentence = parts.join("; ");
    if let Some(first) = sentence.get(..1).map(str::to_uppercase) {
        sentence.replace_range(..1, &first);
        sentence.push('.');
    }
    sentence
}

/// A reserve factor in words, with as many digits as it takes not to show as 1.00 what falls short of it.
pub(super) fn reserve_factor(reserve: f64) -> String {
    let digits = (2..6).find(|digits| reserve >= 1.0 || !format!("{reserve:.digits$}").starts_with('1'));
    digits.map_or_else(|| "just under 1.00".to_owned(), |digits| format!("{reserve:.digits$}"))
}

/// Events with whether they happen at both ends at the same load.
fn both_ends(events: &[Event]) -> Vec<(Event, bool)> {
    let same_kind = |a: &What, b: &What| {
        matches!(
            (a, b),
            (What::BondGives { .. }, What::BondGives { .. })
                | (What::BondSpent { .. }, What::BondSpent { .. })
        )
    };
    let mut told: Vec<(Event, bool)> = Vec::new();
    for event in events {
        match told.last_mut() {
            Some((last, both)) if same_kind(&last.what, &event.what) && last.at == event.at => *both = true,
            _ => told.push((*event, false)),
        }
    }
    told
}

fn clause(what: &What, both: bool, plates: &Plates, overlap_mm: f64) -> String {
    let side = |side: &Side| plates.0[usize::from(*side == Side::Lower)];
    let place = |x_mm: f64| match x_mm / overlap_mm {
        _ if both => "at both ends".to_owned(),
        share if share < 0.1 => "at the left end".to_owned(),
        share if share > 0.9 => "at the right end".to_owned(),
        share => format!("at {:.0} % of the overlap", 100.0 * share),
    };
    match what {
        What::BondGives { x_mm } => format!("the bond begins to give {}", place(*x_mm)),
        What::BondSpent { x_mm } => format!("it holds no more {}", place(*x_mm)),
        What::BondGone => "the bond is gone".to_owned(),
        What::RowYields { row } => format!("rivet row {} yields", row + 1),
        What::RowBreaks { row } => format!("rivet row {} lets go", row + 1),
        What::AdherendYields(which) => format!("the {} plate yields", side(which)),
        What::AdherendBreaks(which) => format!("the {} plate reaches its elongation", side(which)),
    }
}

#[cfg(test)]
mod tests {
    use mechanics::strip::progressive::{End, Moment};

    use super::*;

    #[test]
    fn unit_what_falls_short_of_one_is_not_shown_as_one() {
        let shown = [0.95, 0.995_15, 0.999_96, 0.999_999_9, 1.0, 1.004].map(reserve_factor);
        assert_eq!(shown, ["0.95", "0.995", "0.99996", "just under 1.00", "1.00", "1.00"]);
    }

    #[test]
    fn unit_tells_the_sequence_with_shares_of_the_peak() {
        let at = |factor, displacement_mm| Moment { factor, displacement_mm };
        let events = vec![
            Event { what: What::BondGives { x_mm: 0.01 }, at: at(0.62, 0.1), step: 2 },
            Event { what: What::BondGives { x_mm: 12.4 }, at: at(0.62, 0.1), step: 2 },
            Event { what: What::RowYields { row: 1 }, at: at(1.86, 0.4), step: 7 },
            Event { what: What::BondSpent { x_mm: 0.01 }, at: at(1.0, 0.6), step: 12 },
        ];
        let capacity = Some(at(2.0, 0.5));
        let outcome = Outcome { end: End::PastPeak, capacity, peak_step: 8, events, ..Outcome::default() };
        assert_eq!(
            sequence(&outcome, &Plates(["upper", "lower"]), 12.5),
            "The bond begins to give at both ends at 31 % of peak; rivet row 2 yields at 93 % of peak; it holds \
             no more at the left end at 50 % of peak, on the way down."
        );
    }
}
