use assessment::Assessment;
use job::Edit;

use crate::tests::{COUPON, RAIL, STRAP, STUD, Witness};
use crate::{Ask, assess};

const ALL_FORMS: &str = include_str!("../../tests/all_forms.toml");

fn assessed(text: &str) -> Assessment {
    let job = job::read("job.toml", text, &Witness).unwrap_or_else(|problems| panic!("{problems:?}"));
    // Loading a bond until it gives way takes long around a perimeter, and little between two plates.
    assess(&job, &Ask { to_failure: !text.contains("\"sleeve\""), ..Ask::default() })
}

fn said(text: &str, key: &str, value: &str) -> String {
    let edits = [Edit { key: key.to_owned(), value: value.to_owned() }];
    job::edit(text, &edits).unwrap_or_else(|problems| panic!("{key}: {problems:?}"))
}

/// An assumption tells the truth if saying it changes no number and takes the assumption away; and it is made only
/// where the file is silent, since it is there before.
fn law_of(text: &str, sayings: &[(&str, &str)]) {
    let silent = assessed(text);
    for (key, value) in sayings {
        assert!(silent.assumptions.iter().any(|it| it.key == *key), "{key} is not taken for granted");
        let spoken = assessed(&said(text, key, value));
        assert!(spoken.quantities == silent.quantities, "{key} = {value} changes a number");
        assert!(!spoken.assumptions.iter().any(|it| it.key == *key), "{key} is said and still assumed");
    }
}

/// "only when it was in fact taken for this job", for members, their cases, sleeves and the bond day.
#[test]
fn law_saying_what_is_assumed_changes_nothing_on_a_member() {
    law_of(
        RAIL,
        &[
            ("job.units", "\"metric\""),
            ("cases.recovery.share", "1.0"),
            ("cases.yard_move.factor", "1.5"),
            ("members.longitudinal.up", "[0, 0, 1]"),
            ("joints.rail.side", "\"inside\""),
            (
                "joints.rail.bonds",
                "[{ face = \"top\", from = \"-28 mm\", to = \"28 mm\" }, { face = \"right\", from = \"-48 mm\", to = \"48 mm\" }, { face = \"bottom\", from = \"-28 mm\", to = \"28 mm\" }, { face = \"left\", from = \"-48 mm\", to = \"48 mm\" }]",
            ),
            ("bond_day.joints", "[\"rail\"]"),
            ("bond_day.wetting_coat", "\"0.1 mm\""),
            ("bond_day.squeeze_out", "0.2"),
            ("bond_day.purge", "\"10 mL\""),
        ],
    );
}

#[test]
fn law_saying_what_is_assumed_changes_nothing_on_plates_and_discs() {
    law_of(
        COUPON,
        &[
            ("adhesives.epoxy.strengths", "\"mean\""),
            ("adhesives.epoxy.by_bondline", "[{ bondline = \"0.25 mm\", strength = 1.0, toughness = 1.0 }]"),
            ("joints.coupon.bondline", "\"0.25 mm\""),
            ("joints.coupon.ends", "\"clamped\""),
            (
                "joints.coupon.model",
                "{ law = \"bilinear\", mixed_mode = { law = \"power\", exponent = 1.0 }, geometry = \"second order\", adherends = \"elastic\" }",
            ),
            ("joints.coupon.temperature_change", "\"0 K\""),
            ("joints.coupon.loads.pull.factor", "1.0"),
            ("joints.coupon.loads.pull.shear", "\"0 N\""),
        ],
    );
    law_of(
        STRAP,
        &[
            ("joints.strap.temperature_change", "\"-43 K\""),
            ("joints.strap.bondline", "\"0.25 mm\""),
            ("joints.strap.outer.free_length", "\"0 mm\""),
            ("joints.strap.inner.free_length", "\"0 mm\""),
        ],
    );
    law_of(
        STUD,
        &[
            ("joints.stud.bondline", "\"0.25 mm\""),
            ("joints.stud.hole", "\"0 mm\""),
            ("joints.stud.loads.centred.eccentricity", "\"0 mm\""),
            ("joints.stud.loads.centred.shear", "\"0 N\""),
            ("joints.stud.loads.centred.factor", "1.5"),
        ],
    );
}

/// Presets of load cases and sections, one by one in place of what the demos have.
#[test]
fn law_saying_what_is_assumed_changes_nothing_of_presets() {
    let with = |case: &str| {
        let start = RAIL.find("[cases.yard_move]").expect("a case");
        let end = start + RAIL[start..].find("\n[").expect("a next table");
        format!("{}[cases.p]\n{case}\n{}", &RAIL[..start], &RAIL[end..])
    };
    let at = "at = [\"-650 mm\", \"0 mm\", \"-90 mm\"]";
    let kind = "kind = \"limit\"";
    law_of(
        &with(&format!("{kind}\npull = {{ {at}, force = \"6 kN\" }}")),
        &[("cases.p.pull.sideways", "\"0°\""), ("cases.p.pull.upwards", "\"0°\"")],
    );
    law_of(
        &with(&format!("{kind}\nmasses = [{{ {at}, mass = \"120 kg\" }}]")),
        &[("cases.p.acceleration", "[\"0 m/s²\", \"0 m/s²\", \"-9.80665 m/s²\"]")],
    );
    law_of(
        &with(&format!("{kind}\nbraking = {{ {at}, wheel_load = \"500 kg\" }}")),
        &[("cases.p.braking.friction", "0.8")],
    );
    law_of(
        &with(&format!("{kind}\nkerb = {{ {at}, wheel_load = \"500 kg\", from = \"left\" }}")),
        &[("cases.p.kerb.factor", "1.0")],
    );
    let towing = format!(
        "{kind}\ntowing = {{ {at}, trailer = \"centre axle\", vehicle = \"3500 kg\", trailer_mass = \"4000 kg\", nose_load = \"100 kg\", loading_length = \"5 m\", drawbar_length = \"4 m\" }}"
    );
    law_of(&with(&towing), &[("cases.p.towing.vertical_acceleration", "\"2.4 m/s²\"")]);
    // A drawbar trailer presses nothing down: nothing is taken for granted of it.
    let drawbar = assessed(&with(&towing.replace("centre axle", "drawbar")));
    assert!(drawbar.assumptions.iter().all(|it| it.key != "cases.p.towing.vertical_acceleration"));
    law_of(
        &with("forces = [{ at = [\"-650 mm\", \"0 mm\", \"0 mm\"], force = [\"-3 kN\", \"0 N\", \"0 N\"] }]"),
        &[("cases.p.kind", "\"limit\"")],
    );
}

/// Spectra: what cycles fall back to, the tests' own ratio, the damage that is allowed.
#[test]
fn law_saying_what_is_assumed_changes_nothing_of_fatigue() {
    let line = "{ strength = \"6 MPa\", at_cycles = 1e6, slope = 8 }";
    let text = said(RAIL, "cases.trailer.spectrum", "{ blocks = [{ share = 0.3, cycles = 2e4 }] }");
    let text = said(&text, "adhesives.epoxy.fatigue", line);
    let text = said(&text, "materials.casting.fatigue_at_holes", line);
    let text = said(&text, "materials.sheet.fatigue_at_holes", line);
    let text = said(&text, "rivets.structural.fatigue", &line.replace("MPa", "kN"));
    law_of(
        &text,
        &[
            ("cases.trailer.spectrum.blocks", "[{ share = 0.3, cycles = 2e4, least = 0.0 }]"),
            ("adhesives.epoxy.fatigue.stress_ratio", "0.0"),
            ("materials.casting.fatigue_at_holes.stress_ratio", "0.0"),
            ("materials.sheet.fatigue_at_holes.stress_ratio", "0.0"),
            ("rivets.structural.fatigue.stress_ratio", "0.0"),
            ("factors.damage", "1.0"),
        ],
    );
}

#[test]
fn law_saying_what_is_assumed_changes_nothing_of_other_forms() {
    law_of(
        ALL_FORMS,
        &[
            ("joints.sleeve.cut_gap", "\"0 mm\""),
            ("joints.sleeve.side", "\"inside\""),
            ("joints.class.bondline", "\"0.2 mm\""),
            ("job.bond_lost", "\"limit\""),
        ],
    );
    let sharp = ALL_FORMS.replace(", inner_radius = \"2 mm\"", "");
    law_of(&sharp, &[("sections.inner.box.inner_radius", "\"0 mm\"")]);
    let open = assessed(&ALL_FORMS.replace(", plate = \"1.2 mm\"", ""));
    assert!(open.assumptions.iter().any(|it| it.key == "sections.hat.hat.plate"));
    let unkind = ALL_FORMS.replace("[rivets.blind]\nkind = \"blind\"\n", "[rivets.blind]\n");
    law_of(&unkind, &[("rivets.blind.kind", "\"blind\"")]);
}

/// Heat, logs and kinetics, each where the day has it and only there.
#[test]
fn unit_days_say_what_they_take_for_granted() {
    let keys =
        |text: &str| -> Vec<String> { assessed(text).assumptions.into_iter().map(|it| it.key).collect() };
    let plain = keys(RAIL);
    assert!(plain.contains(&"bond_day.until".to_owned()) && plain.contains(&"bond_day.parts".to_owned()));
    let heat = "[{ from = \"2 h\", until = \"8 h\", temperature = \"40 °C\" }]";
    let heated = said(RAIL, "bond_day.heating", heat);
    assert!(keys(&heated).iter().any(|key| key.ends_with("ramp")), "{:?}", keys(&heated));
    assert!(!plain.iter().any(|key| key.ends_with("ramp")));
    let dry = said(RAIL, "bond_day.until", "\"48 h\"");
    assert!(!keys(&dry).contains(&"bond_day.until".to_owned()));
    let no_parts = RAIL.replace("parts         = \"4 °C\"", "");
    let taken = assessed(&no_parts);
    let parts =
        taken.assumptions.iter().find(|it| it.key == "bond_day.parts").expect("the metal's temperature");
    assert!(parts.statement.contains("temperature of the day"));
    let silent = RAIL.replace(", humid = false", "");
    assert!(
        keys(&silent).contains(&"job.service.humid".to_owned())
            && !plain.contains(&"job.service.humid".to_owned())
    );
}
