//! Series, fields and beads that drawings show: they agree with the numbers beside them.

use assessment::Series;

use super::*;

fn series<'a>(assessment: &'a Assessment, name: &str) -> &'a Series {
    assessment.series.get(name).unwrap_or_else(|| panic!("no series {name}"))
}

fn greatest(series: &Series) -> f64 {
    series.y.values.iter().copied().fold(0.0, f64::max)
}

/// The demo's sleeve as a socket of the same sizes.
fn socket() -> String {
    let of_sleeves =
        |line: &&str| ["cut_gap", "cracks", "crack_margin"].iter().any(|key| line.starts_with(key));
    let lines = RAIL.lines().filter(|line| !of_sleeves(line));
    let text = lines.collect::<Vec<_>>().join("\n");
    text.replace("\"sleeve\"", "\"socket\"").replace("insert       = {", "inside       = {")
}

/// "Around the perimeter": the greatest of each curve is the number that the findings speak of.
#[test]
fn cross_the_perimeter_peaks_where_the_numbers_say() {
    for (text, case) in [
        (RAIL.to_owned(), "recovery"),
        (RAIL.to_owned(), "trailer"),
        (RAIL.to_owned(), "yard_move"),
        (socket(), "trailer"),
    ] {
        let rail = assessed(&text);
        let name = |what: &str| format!("join.rail.{case}.{what}");
        let of = |what: &str| series(&rail, &name(what));
        let (axial, flow) = (of("perimeter_axial"), of("perimeter_flow"));
        let both = axial.y.values.iter().zip(&flow.y.values).map(|(n, q)| n.hypot(*q)).fold(0.0, f64::max);
        // The same sums in another order.
        close(both, number(&rail, &name("line_load")), 1e-12);
        let held = number(&rail, &name("peak_shear_held"));
        close(rail.fields[&name("shear_field")].greatest(), held, 1e-9);
        // The same strips, read at the same ends of the stretches.
        close(greatest(of("perimeter_shear_free")), number(&rail, &name("peak_shear_free")), 1e-9);
        // The curves are those of the side where the shear is greatest; the peel may be greater on the other.
        let peel = number(&rail, &name("peak_peel"));
        assert!(greatest(of("perimeter_peel_free")) <= peel * (1.0 + 1e-9));
        close(rail.fields[&name("peel_field")].greatest(), peel, 1e-9);
        assert!(
            of("perimeter_peel_held").y.values.iter().all(|peel| *peel == 0.0),
            "a held wall does not open"
        );
    }
}

/// "Shear, peel, line load painted on it as fields": the cells cover what is bonded, once.
#[test]
fn unit_the_fields_cover_the_bond() {
    let rail = assessed(RAIL);
    for field in ["shear_field", "peel_field"] {
        let painted = &rail.fields[&format!("join.rail.recovery.{field}")];
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
    let socket = socket();
    for (text, joint, case) in [
        (socket.as_str(), "rail", "recovery"),
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
            let at = curve
                .x
                .values
                .iter()
                .position(|overlap| overlap.to_bits() == planned.to_bits())
                .expect("the planned overlap");
            let reserve = finding(&found, &format!("join.{joint}.{case}.{id}")).reserve.expect("a reserve");
            assert_eq!(curve.y.values[at].to_bits(), reserve.to_bits(), "{joint} {id}");
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
    assert_eq!(parts.to_bits(), weaker[0].min(weaker[1]).to_bits());
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
