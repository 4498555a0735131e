//! One step up or down from a typed quantity: what − and + do.

/// The value one step further, with the same unit: a step is about a twentieth of the value, as 1, 2 or 5 in some
/// place. Nothing where no number stands at the beginning.
pub(super) fn stepped(typed: &str, up: bool, whole: bool) -> Option<String> {
    let typed = typed.trim();
    let digits =
        typed.find(|sign: char| !(sign.is_ascii_digit() || matches!(sign, '.' | '-' | '+' | 'e' | 'E')));
    let (number, unit) = typed.split_at(digits.unwrap_or(typed.len()));
    // The e of a unit that begins with it is none of the number's.
    let value: f64 = number.parse().ok()?;
    if !value.is_finite()
        || unit.trim_start().starts_with(['/', ' '])
        || unit.contains(|sign: char| sign.is_ascii_digit()) && unit.contains('/')
    {
        return None;
    }
    let step = if whole { 1.0 } else { nice(value.abs() / 20.0) };
    // The nearest mark in the direction asked for, that 33 goes to 34 and 36, not to 35.7.
    let marks = value / step;
    let next = if up { (marks + 1e-9).floor() + 1.0 } else { (marks - 1e-9).ceil() - 1.0 };
    let places = decimals(step);
    Some(format!("{:.places$}{unit}", next * step + 0.0))
}

/// The greatest of 1, 2 or 5 times a power of ten that is no more than a size; of nothing, 1.
fn nice(size: f64) -> f64 {
    if size < 1e-12 {
        return 1.0;
    }
    let power = libm::pow(10.0, libm::floor(libm::log10(size)));
    let lead = size / power;
    power
        * if lead >= 5.0 {
            5.0
        } else if lead >= 2.0 {
            2.0
        } else {
            1.0
        }
}

fn decimals(step: f64) -> usize {
    (0..12)
        .find(|places| {
            let scaled = step * libm::pow(10.0, f64::from(*places));
            (scaled - scaled.round()).abs() < 1e-6
        })
        .map_or(12, |places: i32| usize::try_from(places).unwrap_or(0))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn unit_steps_are_round_and_keep_the_unit() {
        let up = |typed: &str| stepped(typed, true, false);
        assert_eq!(up("100 mm").as_deref(), Some("105 mm"));
        assert_eq!(up("0.25 mm").as_deref(), Some("0.26 mm"));
        assert_eq!(stepped("100 mm", false, false).as_deref(), Some("95 mm"));
        assert_eq!(up("33").as_deref(), Some("34"));
        assert_eq!(up("-20 °C").as_deref(), Some("-19 °C"));
        assert_eq!(stepped("0 mm", false, false).as_deref(), Some("-1 mm"));
        assert_eq!(up("1.4 kJ/m²").as_deref(), Some("1.45 kJ/m²"));
        assert_eq!(stepped("2", true, true).as_deref(), Some("3"));
        assert_eq!(up("1/4 in"), None);
        assert_eq!(up("1 1/2 in"), None);
        assert_eq!(up("A7"), None);
    }

    proptest::proptest! {
        #[test]
        fn law_a_step_up_is_greater_and_one_down_is_less(value in -1e6_f64..1e6) {
            let typed = format!("{value:.4} mm");
            let read = |text: &str| text.trim_end_matches(" mm").parse::<f64>().unwrap();
            proptest::prop_assert!(read(&stepped(&typed, true, false).unwrap()) > read(&typed));
            proptest::prop_assert!(read(&stepped(&typed, false, false).unwrap()) < read(&typed));
        }
    }
}
