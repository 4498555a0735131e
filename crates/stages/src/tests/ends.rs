//! Adhesives by their class, or by a lap of their data sheet, with bonds loaded until they give way.

use super::*;

fn to_failure(text: &str) -> Assessment {
    let job = job::read("job.toml", text, &Witness).expect("the job is well-formed");
    assess(&job, &Ask::default())
}

const FACTORS: &str = "\n[factors]\nadhesive = 1.5\nmetal = 1.1\n";

/// The coupon of the demo under a limit load, its adhesive as given.
fn coupon(adhesive: &str) -> String {
    let (before, rest) = COUPON.split_once("[adhesives.epoxy]\n").expect("the adhesive");
    let (_, after) = rest.split_once("\n[joints").expect("the joint");
    let text = format!("{before}[adhesives.epoxy]\n{adhesive}\n[joints{after}{FACTORS}");
    edited(&text, &[("joints.coupon.loads.pull", "{ kind = \"limit\", axial = \"1 kN\" }")])
}

/// "an adhesive may be given by class [...], with a lower and an upper set of class values; results are shown for both,
/// the verdict stays `unknown` and says which data would settle it": the capacities are those of jobs that give the
/// values of either end.
#[test]
fn unit_class_shows_both_capacities_and_judges_nothing() {
    let class = to_failure(&coupon("class = \"two-part toughened epoxy\"\nstandoff_beads = \"0.25 mm\"\n"));
    let bond = finding(&class, "join.coupon.pull.bond_to_failure");
    assert_eq!((bond.verdict, bond.reserve), (Verdict::Unknown, None));
    assert!(bond.statement.contains("between"), "{}", bond.statement);
    let Some(Lack::Missing { keys }) = &bond.lack else { panic!("{:?}", bond.lack) };
    for key in
        ["youngs_modulus", "shear_strength", "tensile_strength", "mode_1_toughness", "mode_2_toughness"]
    {
        assert!(keys.contains(&format!("adhesives.epoxy.{key}")), "{key}");
    }
    assert!(matches!(
        class.quantities.get("join.coupon.pull.capacity_factor"),
        Some(Err(Lack::Missing { .. }))
    ));
    let ends = [
        ("low", ["1.2 GPa", "13 MPa", "15 MPa", "0.8 kJ/m²", "1.6 kJ/m²"], 0.35),
        ("high", ["2.6 GPa", "25 MPa", "32 MPa", "3 kJ/m²", "8 kJ/m²"], 0.42),
    ];
    for (end, [modulus, shear, tensile, first, second], ratio) in ends {
        let own = to_failure(&coupon(&format!(
            "youngs_modulus = \"{modulus}\"\npoissons_ratio = {ratio}\nshear_strength = \"{shear}\"\ntensile_strength = \"{tensile}\"\nstrengths = \"characteristic\"\nmode_1_toughness = \"{first}\"\nmode_2_toughness = \"{second}\"\nstandoff_beads = \"0.25 mm\"\n"
        )));
        let theirs = number(&own, "join.coupon.pull.capacity_factor");
        close(number(&class, &format!("join.coupon.pull.capacity_factor_{end}")), theirs, 1e-12);
        let reserve = finding(&own, "join.coupon.pull.bond_to_failure").reserve.expect("a reserve");
        assert!(bond.statement.contains(&format!("{reserve:.2}")), "{reserve}: {}", bond.statement);
    }
}

/// What the adhesive gives beside its class counts, at both ends.
#[test]
fn unit_own_values_beside_the_class_narrow_the_answer() {
    let wide = "class = \"two-part toughened epoxy\"\nstandoff_beads = \"0.25 mm\"\n";
    let narrow = format!("{wide}shear_strength = \"20 MPa\"\ntensile_strength = \"25 MPa\"\nscatter = 0.1\n");
    let of = |text: &str| {
        let assessment = to_failure(&coupon(text));
        let end = |end: &str| number(&assessment, &format!("join.coupon.pull.capacity_factor_{end}"));
        (end("low"), end("high"))
    };
    let ((low, high), (own_low, own_high)) = (of(wide), of(&narrow));
    assert!(low < own_low && own_low < own_high && own_high < high, "{low} {own_low} {own_high} {high}");
}

/// The same around the perimeter of a sleeve.
#[test]
fn unit_class_shows_both_capacities_of_a_sleeve() {
    let (before, rest) = RAIL.split_once("youngs_modulus          = \"1.9 GPa\"").expect("the modulus");
    let (_, after) = rest.split_once("mode_2_toughness        = \"2.6 kJ/m²\"").expect("the toughness");
    let class = to_failure(&format!("{before}class = \"two-part toughened epoxy\"{after}"));
    let [low, high] =
        ["low", "high"].map(|end| number(&class, &format!("join.rail.recovery.capacity_factor_{end}")));
    let own = number(&to_failure(RAIL), "join.rail.recovery.capacity_factor");
    assert!(low < own && own < high, "{low} {own} {high}");
    assert_eq!(finding(&class, "join.rail.recovery.bond_to_failure").verdict, Verdict::Unknown);
}

const SHEET: &str = "youngs_modulus = \"1.9 GPa\"\npoissons_ratio = 0.38\nscatter = 0.1\nstandoff_beads = \"0.25 mm\"\nlap_shear = { strength = \"14 MPa\", adherend = \"sheet\", thickness = \"1.6 mm\", overlap = \"12.5 mm\" }\n";

/// "A lap-shear value off a data sheet [...] is inverted to cohesive properties by the strip, not taken for a bulk
/// strength": a job that gives the strengths and toughnesses of either end carries in such a lap what the data sheet
/// says, and neither end is the value itself.
#[test]
fn unit_both_ends_of_a_data_sheets_lap_carry_it() {
    let text = coupon(SHEET);
    let sheet = to_failure(&text);
    let of = |property: &str, end: &str| number(&sheet, &format!("lap_shear.epoxy.{property}_{end}"));
    assert!(of("shear_strength", "low") < 0.95 * of("shear_strength", "high"));
    assert!((of("shear_strength", "low") / 14.0 - 1.0).abs() > 0.02);
    for (strong, tough) in [("high", "low"), ("low", "high")] {
        let given = [
            ("shear_strength", of("shear_strength", strong), "MPa"),
            ("tensile_strength", of("tensile_strength", strong), "MPa"),
            ("mode_1_toughness", of("mode_1_toughness", tough), "N/mm"),
            ("mode_2_toughness", of("mode_2_toughness", tough), "N/mm"),
        ];
        let edits =
            given.map(|(key, value, unit)| (format!("adhesives.epoxy.{key}"), format!("\"{value} {unit}\"")));
        let edits: Vec<(&str, &str)> =
            edits.iter().map(|(key, value)| (key.as_str(), value.as_str())).collect();
        let own = to_failure(&edited(&text, &edits));
        let mean =
            number(&own, "join.coupon.pull.capacity_factor") * number(&own, "join.coupon.pull.mean_shear");
        // The search ends within 0.2 % of it.
        close(mean, 14.0, 3e-3);
    }
    // The joint is that lap: both answers are one, and it stays unjudged.
    let bond = finding(&sheet, "join.coupon.pull.bond_to_failure");
    assert_eq!(bond.verdict, Verdict::Unknown);
    let [low, high] =
        ["low", "high"].map(|end| number(&sheet, &format!("join.coupon.pull.capacity_factor_{end}")));
    close(low, high, 6e-3);
    let lap = finding(&sheet, "adhesives.epoxy.lap_shear");
    assert!(
        lap.because.contains("not shear_strength, tensile_strength, mode_1_toughness, mode_2_toughness each")
    );
    // A longer joint is another one, and the range opens.
    let longer = to_failure(&edited(&text, &[("joints.coupon.overlap", "\"60 mm\"")]));
    let [low, high] =
        ["low", "high"].map(|end| number(&longer, &format!("join.coupon.pull.capacity_factor_{end}")));
    assert!(high > 1.1 * low, "{low} {high}");
}

/// Where the plates of the lap yield, it says so, and what is missing to count it.
#[test]
fn unit_plates_of_a_data_sheets_lap_that_yield_are_told() {
    let because = |text: &str| finding(&to_failure(text), "adhesives.epoxy.lap_shear").because.clone();
    let text = coupon(SHEET);
    let soft = edited(&text, &[("materials.sheet.proof_strength", "\"110 MPa\"")]);
    assert!(because(&soft).contains("comes out weaker than it is"), "{}", because(&soft));
    let counted = edited(
        &soft,
        &[("materials.sheet.tensile_strength", "\"200 MPa\""), ("materials.sheet.elongation", "0.2")],
    );
    assert!(because(&counted).contains("that is counted"), "{}", because(&counted));
    let silent = text.replace("proof_strength = \"250 MPa\"\n", "");
    assert!(because(&silent).contains("materials.sheet.proof_strength"), "{}", because(&silent));
}

/// No adhesive that could be carries what the data sheet says: nothing is made of it.
#[test]
fn unit_a_lap_that_nothing_explains_is_unknown() {
    let text = edited(&coupon(SHEET), &[("adhesives.epoxy.lap_shear.strength", "\"2 MPa\"")]);
    let sheet = to_failure(&text);
    let lap = finding(&sheet, "adhesives.epoxy.lap_shear");
    assert_eq!(lap.verdict, Verdict::Unknown);
    assert!(matches!(lap.lack, Some(Lack::OutOfData { .. })), "{:?}", lap.lack);
    assert!(!sheet.failed());
    let without = edited(&coupon(SHEET), &[]).replace(", overlap = \"12.5 mm\" }", " }");
    let lack = finding(&to_failure(&without), "adhesives.epoxy.lap_shear").lack.clone();
    assert_eq!(lack, Some(Lack::Missing { keys: vec!["adhesives.epoxy.lap_shear.overlap".to_owned()] }));
}
