//! Series, fields and beads that drawings show: they agree with the numbers beside them.

use assessment::Series;

use super::*;

fn series<'a>(assessment: &'a Assessment, name: &str) -> &'a Series {
    assessment.series.get(name).unwrap_or_else(|| panic!("no series {name}"))
}

fn greatest(series: &Series) -> f64 {
    series.y.values.iter().copied().fold(0.0, f64::max)
}

/// "Around the perimeter": the greatest of each curve is the number that the findings speak of.
#[test]
fn cross_the_perimeter_peaks_where_the_numbers_say() {
    let rail = assessed(RAIL);
    for case in ["recovery", "trailer", "yard_move"] {
        let name = |what: &str| format!("join.rail.{case}.{what}");
        let of = |what: &str| series(&rail, &name(what));
        let (axial, flow) = (of("perimeter_axial"), of("perimeter_flow"));
        let both = axial.y.values.iter().zip(&flow.y.values).map(|(n, q)| n.hypot(*q)).fold(0.0, f64::max);
        // The same sums in another order.
        close(both, number(&rail, &name("line_load")), 1e-12);
        // The held strip is linear: a unit strip scaled, against the strip under the loads themselves.
        close(greatest(of("perimeter_shear_held")), number(&rail, &name("peak_shear_held")), 1e-9);
        // The bracket takes the worst pulled and the worst pressed point by line load; both are ends of stretches,
        // where the curve runs through strips of its own.
        close(greatest(of("perimeter_shear_free")), number(&rail, &name("peak_shear_free")), 1e-9);
        close(greatest(of("perimeter_peel_free")), number(&rail, &name("peak_peel")), 1e-9);
        assert!(
            of("perimeter_peel_held").y.values.iter().all(|peel| *peel == 0.0),
            "a held wall does not open"
        );
    }
}

/// "Shear, peel, line load painted on it as fields": no field shows less than the peak, and none more on both sides of
/// the cut than the worse side has.
#[test]
fn cross_the_fields_show_the_peaks() {
    let rail = assessed(RAIL);
    for (field, curve) in [("shear_field", "perimeter_shear_held"), ("peel_field", "perimeter_peel_free")] {
        let painted = &rail.fields[&format!("join.rail.recovery.{field}")];
        let of_curve = greatest(series(&rail, &format!("join.rail.recovery.{curve}")));
        close(painted.greatest(), of_curve, 1e-12);
        let area =
            |patch: &assessment::Patch| (patch.x_mm[1] - patch.x_mm[0]) * (patch.s_mm[1] - patch.s_mm[0]);
        let cells: f64 = painted.cells.iter().map(|cell| area(&cell.patch)).sum();
        let bonded: f64 = rail.sheets[0].faces.iter().flat_map(|face| &face.bonded).map(area).sum();
        close(cells, bonded, 1e-12);
    }
}

/// "Reserve against overlap": the curve is made by what made the finding, so it goes through it to the last digit.
#[test]
fn cross_the_curve_goes_through_the_finding() {
    for (text, joint, case) in [
        (RAIL, "rail", "recovery"),
        (FRAME, "doubler", "recovery"),
        (STRAP, "strap", "pull"),
        (COUPON, "coupon", "pull"),
    ] {
        let found = assessed(text);
        let planned = number(&found, &format!("join.{joint}.overlap"));
        for (curve, id) in [
            ("reserve_by_overlap", "bond"),
            ("reserve_by_overlap_hot", "bond_hot"),
            ("reserve_by_overlap_cold", "bond_cold"),
        ] {
            let Some(curve) = found.series.get(&format!("join.{joint}.{case}.{curve}")) else {
                assert_eq!((joint, id != "bond"), ("coupon", true), "a test load is only judged as it is");
                continue;
            };
            let at =
                curve.x.values.iter().position(|overlap| *overlap == planned).expect("the planned overlap");
            let reserve = finding(&found, &format!("join.{joint}.{case}.{id}")).reserve.expect("a reserve");
            assert_eq!(curve.y.values[at], reserve, "{joint} {id}");
            assert!(curve.y.values.is_sorted(), "a longer overlap carries more in these jobs");
            assert_eq!(curve.x.values.len(), 17);
        }
    }
}

#[test]
fn cross_another_overlap_gives_what_its_curve_says() {
    let planned = assessed(RAIL);
    let curve = series(&planned, "join.rail.recovery.reserve_by_overlap");
    let longer = assessed(&edited(RAIL, &[("joints.rail.overlap", "\"120 mm\"")]));
    let at = curve.x.values.iter().position(|overlap| (overlap - 120.0).abs() < 1e-9).expect("120 mm");
    // 100 × 1.2 against 120: one rounding.
    close(curve.y.values[at], number(&longer, "join.rail.recovery.reserve"), 1e-12);
}

#[test]
fn unit_more_overlap_stops_helping_where_the_parts_give_way() {
    let rail = assessed(RAIL);
    let parts = number(&rail, "join.rail.recovery.parts_reserve");
    let weaker = ["member", "insert"]
        .map(|part| finding(&rail, &format!("join.rail.recovery.{part}")).reserve.expect("a reserve"));
    assert_eq!(parts, weaker[0].min(weaker[1]));
    let helps_to = number(&rail, "join.rail.recovery.overlap_helps_to");
    assert!((40.0..100.0).contains(&helps_to), "{helps_to}");
}

/// The beads of the demo hold its bonded area times its bondline, and the fifth of it that is pressed out.
#[test]
fn unit_the_beads_fill_the_bond() {
    let rail = assessed(RAIL);
    let beads = rail.sheets[0].beads.as_ref().expect("beads");
    let volume: f64 = beads.lines.iter().map(assessment::Bead::volume_mm3).sum();
    // Flats of 56 and 96 mm, two each, 100 mm on either side of the cut, 0.5 mm thick.
    close(volume, 2.0 * 2.0 * (56.0 + 96.0) * 100.0 * 0.5 * 1.2, 1e-12);
    let dry = edited(RAIL, &[("bond_day.squeeze_out", "0.5")]);
    let dry = assessed(&dry);
    let more: f64 =
        dry.sheets[0].beads.iter().flat_map(|it| &it.lines).map(assessment::Bead::volume_mm3).sum();
    close(more / volume, 1.5 / 1.2, 1e-12);
    let stud = assessed(STUD);
    assert!(stud.sheets[0].beads.is_none() && stud.sheets[0].round);
}

#[test]
fn unit_units_change_words_and_no_number() {
    let metric = assessed(RAIL);
    let imperial = assessed(&edited(RAIL, &[("job.units", "\"imperial\"")]));
    assert_eq!(metric.series, imperial.series);
    assert_eq!(metric.fields, imperial.fields);
    assert_eq!(metric.sheets, imperial.sheets);
    let said = &finding(&imperial, "join.rail.recovery.bond").statement;
    assert!(said.contains("73.4 °F"), "{said}");
}
