//! A sleeve whose part ends short of the cut.

use super::*;

/// The recovery case as a straight pull on the axis: the same line load all around, whatever the overlap.
fn straight(kilonewtons: f64) -> String {
    let force = format!(r#"["-{kilonewtons} kN", "0 kN", "0 kN"]"#);
    let forces = format!(r#"[{{ at = ["-650 mm", "0 mm", "0 mm"], force = {force} }}]"#);
    edited(RAIL, &[("cases.recovery.forces", forces.as_str())])
}

/// "reserve against overlap lost and gap gained for cut errors up to the tolerance and beyond; where the tolerance stops
/// being harmless".
#[test]
fn unit_cut_error_takes_overlap_and_reserve_alike_under_a_straight_pull() {
    let straight = assessed(&straight(60.0));
    let reserve = number(&straight, "join.rail.recovery.reserve");
    assert!(reserve > 1.0, "{reserve}");
    let series = straight.series.get("join.rail.recovery.reserve_by_cut_error").expect("a curve");
    // Without a moment the shear is the line load over what is left of the overlap.
    for (error, found) in series.x.values.iter().zip(&series.y.values) {
        close(*found, reserve * (100.0 - error) / 100.0, 1e-9);
    }
    // Common practice, no source: 3 mm; the curve goes to twice that.
    close(*series.x.values.last().expect("a point"), 6.0, 1e-12);
    close(number(&straight, "join.rail.cut_tolerance"), 3.0, 1e-12);
    // To a millionth of the overlap, by twenty halvings.
    close(number(&straight, "join.rail.recovery.cut_error_allowed"), 100.0 * (1.0 - 1.0 / reserve), 1e-5);
}

#[test]
fn unit_cut_error_says_where_the_tolerance_stops_being_harmless() {
    let rail = assessed(RAIL);
    let note = finding(&rail, "join.rail.recovery.cut_error");
    assert_eq!(note.verdict, Verdict::Note);
    let allowed = number(&rail, "join.rail.recovery.cut_error_allowed");
    assert!((0.0..3.0).contains(&allowed), "{allowed}");
    assert!(note.statement.contains("below 1.00"), "{}", note.statement);
    // 30 mm to the first row, of which 1.5 × 6.4 mm must stay.
    assert!(note.because.contains("up to an error of 20.4 mm"), "{}", note.because);
    let series = rail.series.get("join.rail.recovery.reserve_by_cut_error").expect("a curve");
    assert!(series.y.values.windows(2).all(|pair| pair[1] < pair[0]), "{:?}", series.y.values);

    // A wider tolerance changes how far the curve goes, not where the reserve is used up.
    let wide = assessed(&edited(RAIL, &[("joints.rail.cut_tolerance", "\"5 mm\"")]));
    close(number(&wide, "join.rail.recovery.cut_error_allowed"), allowed, 1e-12);
    let series = wide.series.get("join.rail.recovery.reserve_by_cut_error").expect("a curve");
    close(*series.x.values.last().expect("a point"), 10.0, 1e-12);

    // Where the bond falls short without any error there is no error that it could bear.
    let heavy = assessed(&straight(200.0));
    assert!(heavy.quantities.get("join.rail.recovery.cut_error_allowed").is_none());
    let note = finding(&heavy, "join.rail.recovery.cut_error");
    assert!(note.statement.contains("however exact the cut"), "{}", note.statement);
}
