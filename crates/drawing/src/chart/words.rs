//! Numbers and times in words, as a drawing prints them.

/// A value with `digits` significant digits, in plain digits between 0.001 and 10⁶, otherwise with
/// a power of ten; "no number" if it is none. The sign is a true minus.
pub fn rounded(value: f64, digits: usize) -> String {
    if !value.is_finite() {
        return "no number".into();
    }
    if value == 0.0 {
        return "0".into();
    }
    let digits = digits.clamp(1, 15);
    // The formatter rounds, so that 99.96 has the exponent of 100.
    let scientific = format!("{value:.*e}", digits - 1);
    let (mantissa, exponent) = scientific.split_once('e').unwrap_or((&scientific, "0"));
    let exponent: i32 = exponent.parse().unwrap_or(0);
    let text = if (-3..6).contains(&exponent) {
        let before = usize::try_from(exponent + 1).unwrap_or(0);
        let zeros = usize::try_from(-exponent).unwrap_or(0);
        let decimals = if exponent < 0 { digits - 1 + zeros } else { digits.saturating_sub(before) };
        format!("{value:.decimals$}")
    } else {
        format!("{mantissa}×10{}", raised(exponent))
    };
    text.replace('-', "−")
}

/// A power in raised digits.
pub(crate) fn raised(power: i32) -> String {
    power
        .to_string()
        .chars()
        .map(|sign| match sign {
            '-' => '⁻',
            '1' => '¹',
            '2' => '²',
            '3' => '³',
            '4' => '⁴',
            '5' => '⁵',
            '6' => '⁶',
            '7' => '⁷',
            '8' => '⁸',
            '9' => '⁹',
            _ => '⁰',
        })
        .collect()
}

/// A time as a workshop says it: "45 s", "20 min", "2 h 30 min", "11 d 4 h"; no-break spaces within
/// a figure and its unit. Below 100 min in minutes, below three days in hours, then in days.
pub fn duration(seconds: f64) -> String {
    if !seconds.is_finite() {
        return "no number".into();
    }
    let sign = if seconds < 0.0 { "−" } else { "" };
    let seconds = seconds.abs();
    let minutes = (seconds / 60.0).round();
    let hours = (seconds / 3600.0).round();
    let pair = |much: f64, unit: &str, little: f64, small: &str| {
        if little > 0.0 {
            format!("{sign}{much}\u{a0}{unit} {little}\u{a0}{small}")
        } else {
            format!("{sign}{much}\u{a0}{unit}")
        }
    };
    if seconds == 0.0 {
        "0".into()
    } else if seconds < 59.5 {
        format!("{sign}{}\u{a0}s", rounded(seconds, 2))
    } else if minutes < 100.0 {
        format!("{sign}{minutes}\u{a0}min")
    } else if hours < 72.0 {
        pair((minutes / 60.0).floor(), "h", minutes % 60.0, "min")
    } else if hours < 24.0 * 1e4 {
        pair((hours / 24.0).floor(), "d", hours % 24.0, "h")
    } else {
        format!("{sign}{}\u{a0}d", rounded(hours / 24.0, 3))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn unit_figures_as_a_drawing_prints_them() {
        for (value, digits, text) in [
            (17.34, 3, "17.3"),
            (99.96, 3, "100"),
            (-0.5, 3, "−0.500"),
            (1234.6, 3, "1235"),
            (0.000_12, 3, "1.20×10⁻⁴"),
            (3.2e9, 2, "3.2×10⁹"),
            (0.0, 3, "0"),
            (0.009_996, 3, "0.0100"),
            (f64::NAN, 3, "no number"),
        ] {
            assert_eq!(rounded(value, digits), text);
        }
    }

    #[test]
    fn unit_times_as_a_workshop_says_them() {
        for (seconds, text) in [
            (0.0, "0"),
            (45.0, "45\u{a0}s"),
            (59.8, "1\u{a0}min"),
            (1200.0, "20\u{a0}min"),
            (5400.0, "90\u{a0}min"),
            (9000.0, "2\u{a0}h 30\u{a0}min"),
            (144_000.0, "40\u{a0}h"),
            (604_800.0, "7\u{a0}d"),
            (964_800.0, "11\u{a0}d 4\u{a0}h"),
            (f64::INFINITY, "no number"),
        ] {
            assert_eq!(duration(seconds), text);
        }
    }

    proptest! {
        /// Reading a printed figure back gives the value to the digits printed.
        #[test]
        fn law_a_figure_reads_back(value in -1e5..1e5_f64) {
            prop_assume!(value.abs() > 0.01);
            let read: f64 = rounded(value, 6).replace('−', "-").parse().unwrap();
            // Half of the sixth digit is 5·10⁻⁶ of the value at most.
            prop_assert!((read - value).abs() <= 5e-6 * value.abs());
        }

        #[test]
        fn law_any_value_has_words(value in any::<f64>(), digits in 0_usize..40) {
            prop_assert!(rounded(value, digits).chars().count() < 30);
            prop_assert!(duration(value).chars().count() < 30);
        }
    }
}
