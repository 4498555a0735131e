//! Metals that touch.

use assessment::{Assessment, Lack, Verdict};

use super::{COUPON, RAIL, assessed, close, edited, finding, number};

/// "every touching pair": the two sections, and the rivets with each; all of one group in the demo.
#[test]
fn unit_pairs_of_the_demo_lie_close_and_need_no_exposure() {
    let rail = assessed(RAIL);
    for pair in ["parts", "rivet_outer", "rivet_inner"] {
        let found = finding(&rail, &format!("join.rail.galvanic.{pair}"));
        assert_eq!(found.verdict, Verdict::Met, "{pair}");
        assert!(number(&rail, &format!("join.rail.galvanic.{pair}")).abs() < 1e-12);
    }
}

/// 18-8 stainless beside wrought aluminium, 0.50 and 0.90 V: the anodic table of the trade (memory).
fn stainless(edits: &[(&str, &str)]) -> Assessment {
    let mut all = vec![("rivets.structural.material.anodic_index", "\"0.50 V\"")];
    all.extend_from_slice(edits);
    assessed(&edited(RAIL, &all))
}

/// "potential difference and environment class": 0.15, 0.25 and 0.50 V.
#[test]
fn val_stainless_rivets_in_aluminium_by_class_of_exposure() {
    let bare = ("joints.rail.surface.restored", "\"bare\"");
    for (exposure, verdict) in
        [("\"harsh\"", Verdict::NotMet), ("\"normal\"", Verdict::NotMet), ("\"controlled\"", Verdict::Met)]
    {
        let rail = stainless(&[("job.service.exposure", exposure), bare]);
        close(number(&rail, "join.rail.galvanic.rivet_outer"), 0.4, 1e-9);
        for pair in ["rivet_outer", "rivet_inner"] {
            assert_eq!(finding(&rail, &format!("join.rail.galvanic.{pair}")).verdict, verdict, "{exposure}");
        }
    }
    // The limits themselves are met: what is given in hundredths is not lost in the last binary digit.
    for (index, exposure) in [("0.75", "harsh"), ("0.65", "normal"), ("0.40", "controlled")] {
        let rail = assessed(&edited(
            RAIL,
            &[
                ("rivets.structural.material.anodic_index", &format!("\"{index} V\"")),
                ("job.service.exposure", &format!("\"{exposure}\"")),
            ],
        ));
        assert_eq!(finding(&rail, "join.rail.galvanic.rivet_outer").verdict, Verdict::Met, "{exposure}");
    }
}

/// "what to restore".
#[test]
fn unit_restoring_what_is_advised_mends_the_pair() {
    let restored = |word: &str| {
        stainless(&[("job.service.exposure", "\"harsh\""), ("joints.rail.surface.restored", word)])
    };
    let id = "join.rail.galvanic.rivet_outer";
    for word in ["\"bare\"", "\"coated\""] {
        let next = finding(&restored(word), id).next.clone().expect("a next step");
        assert_eq!(next.edits[0].value, "\"sealed\"");
        assert_eq!(finding(&restored(&next.edits[0].value), id).verdict, Verdict::Met);
    }
}

#[test]
fn unit_what_is_missing_is_named() {
    let lack = |found: &Assessment, id: &str| finding(found, id).lack.clone();
    let missing = |key: &str| Some(Lack::Missing { keys: vec![key.to_owned()] });
    let id = "join.rail.galvanic.rivet_inner";
    assert_eq!(lack(&stainless(&[]), id), missing("job.service.exposure"));
    let sealed = stainless(&[("joints.rail.surface.restored", "\"sealed\"")]);
    assert_eq!(finding(&sealed, id).verdict, Verdict::Met);
    let exposed = stainless(&[("job.service.exposure", "\"normal\"")]);
    assert_eq!(lack(&exposed, id), missing("joints.rail.surface.restored"));
    let silent = RAIL.replace(
        "material         = { youngs_modulus = \"70 GPa\", anodic_index = \"0.90 V\" }",
        "material         = { youngs_modulus = \"70 GPa\" }",
    );
    assert_ne!(silent, RAIL);
    assert_eq!(lack(&assessed(&silent), id), missing("rivets.structural.material.anodic_index"));
}

/// A rivet that is the less noble of the two is small and soon gone: MIL-STD-1250A, 5.7a.
#[test]
fn unit_the_small_metal_should_be_the_nobler() {
    let because = |index: &str| {
        let rail = assessed(&edited(RAIL, &[("rivets.structural.material.anodic_index", index)]));
        finding(&rail, "join.rail.galvanic.rivet_outer").because.clone()
    };
    assert!(because("\"1.00 V\"").contains("eats the rivets, which are small"));
    assert!(because("\"0.80 V\"").contains("eats the outer section."));
    assert!(!because("\"0.88 V\"").contains("eats"));
}

/// "insulation by bondline": a lap without rivets, of steel and zinc, kept apart by the beads or not at all.
#[test]
fn unit_bondline_insulates_where_beads_hold_it_and_no_rivet_bridges_it() {
    assert!(assessed(COUPON).findings.iter().all(|finding| !finding.id.contains("galvanic")));
    let exposed = edited(COUPON, &[("job.service.exposure", "\"harsh\"")]);
    let asked = assessed(&exposed);
    assert_eq!(
        finding(&asked, "join.coupon.galvanic.parts").lack,
        Some(Lack::Missing { keys: vec!["materials.sheet.anodic_index".to_owned()] })
    );
    let two = format!("{exposed}\n[materials.other]\nanodic_index = \"0.35 V\"\n");
    let two = edited(
        &two,
        &[("materials.sheet.anodic_index", "\"0.90 V\""), ("joints.coupon.lower.material", "\"other\"")],
    );
    let id = "join.coupon.galvanic.parts";
    assert_eq!(finding(&assessed(&two), id).verdict, Verdict::Met);
    let without = edited(&two, &[("joints.coupon.bondline", "\"0.25 mm\"")]);
    let lines: Vec<&str> = without.lines().filter(|line| !line.starts_with("standoff_beads")).collect();
    let without = lines.join("\n");
    let found = assessed(&without);
    assert_eq!(finding(&found, id).verdict, Verdict::Unknown);
    let rivets = "{ kind = \"r\", rows = [\"6 mm\"], per_row = 2 }";
    let riveted = format!("{two}\n[rivets.r]\ndiameter = \"3.2 mm\"\nhole = \"3.3 mm\"\n");
    let riveted =
        edited(&riveted, &[("joints.coupon.rivets", rivets), ("joints.coupon.surface.restored", "\"bare\"")]);
    let found = assessed(&riveted);
    assert_eq!(finding(&found, id).verdict, Verdict::NotMet);
    let lack = Some(Lack::Missing { keys: vec!["rivets.r.material".to_owned()] });
    assert_eq!(finding(&found, "join.coupon.galvanic.rivet_outer").lack, lack);
}
