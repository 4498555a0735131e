//! The coarse strip against a fine one, and what each quantity does.

use mechanics::strip::progressive::{Cohesive, Mixing};
use mechanics::strip::{Adhesive, Ends, Geometry, Mesh, Plane, Strip, Supports};

use super::*;
use crate::join::condition::Condition;
use crate::tests::{COUPON, Witness};

const WRITTEN: Drawn = Drawn { strength: 1.0, toughness: 1.0, bondline: 1.0, overlap: 1.0 };

/// Thickness of both walls and their arms, overlap, load along and across, whether held.
type Form = (f64, f64, f64, [f64; 2], bool);

/// A lap that bends, a wide wall of a sleeve that is pulled and sheared, one that is pressed, one that is held.
const FORMS: [Form; 4] = [
    (1.6, 50.0, 12.5, [100.0, 0.0], false),
    (4.0, 28.0, 100.0, [100.0, 50.0], false),
    (4.0, 28.0, 100.0, [-100.0, 50.0], false),
    (4.0, 28.0, 60.0, [100.0, 50.0], true),
];

fn place(&(wall_mm, arm_mm, overlap_mm, [axial_n_mm, shear_flow_n_mm], held): &Form) -> Place {
    let wall = mechanics::Adherend {
        youngs_modulus_mpa: 70e3,
        poissons_ratio: 0.33,
        thickness_mm: wall_mm,
        thermal_expansion_per_k: 0.0,
    };
    let strip = Strip {
        upper: wall,
        lower: wall,
        adhesive: Adhesive { shear_modulus_mpa: 688.0, peel_modulus_mpa: 2221.0 },
        bondline: Bondline::Constant(0.25),
        overlap_mm,
        supports: Supports::Gripped { ends: Ends::Clamped, left_arm_mm: arm_mm, right_arm_mm: arm_mm },
        axial_n_mm,
        shear_flow_n_mm,
        temperature_change_k: 0.0,
        plane: Plane::Strain,
        hold_transverse: held,
        lever_arm_includes_bondline: true,
        geometry: Geometry::SecondOrder,
        mesh: Mesh { elements: 200, ..Mesh::default() },
    };
    let law = Law::Cohesive(Cohesive {
        tensile_strength_mpa: 30.0,
        shear_strength_mpa: 24.0,
        mode_1_toughness_n_mm: 1.4,
        mode_2_toughness_n_mm: 2.6,
        mixing: Mixing::Power(1.0),
    });
    Place { joint: Joint::new(strip, law), bondline_mm: 0.25, least_mm: 0.25 }
}

/// The bond of a form with the demo's adhesive, on elements of a number.
fn with_bond<T>(forms: &[Form], elements: u32, then: impl Fn(&Bond<'_>, &Results) -> T) -> T {
    let job = job::read("job.toml", COUPON, &Witness).expect("a job");
    let strengths = Strengths {
        adhesive: job.tables.adhesives.get("epoxy").expect("the demo's adhesive"),
        asked: None,
        mixing: Mixing::Power(1.0),
        bondline_mm: 0.25,
        moduli_mpa: [2221.0, 688.0],
        thickness_mm: 0.25,
        condition: Condition::room(0.0),
    };
    let results = Results::new(&job);
    let places: Vec<Place> = forms.iter().map(place).collect();
    let bond = Bond::new(strengths, &places, elements, &results).expect("a bond");
    then(&bond, &results)
}

/// "Elements for scatter strips may be the coarser": what a draw makes of the capacity, on 32 elements against 200. Both
/// find the peak to some 0.4 % by their steps, whatever the elements; 0.8 % of the capacity are a twentieth of the
/// standard deviation that strength, surface and toughness together make of it, and shift a chance of 1e-4 by an eighth where the load scatters, too.
#[test]
fn cross_coarse_strips_answer_draws_as_fine_ones() {
    let draws = [
        Drawn { strength: 0.6, toughness: 0.6, ..WRITTEN },
        Drawn { strength: 0.75, toughness: 1.1, ..WRITTEN },
        Drawn { strength: 1.1, toughness: 0.6, ..WRITTEN },
        Drawn { overlap: 0.8, ..WRITTEN },
    ];
    for form in FORMS {
        let answers = [ELEMENTS, 200].map(|elements| {
            with_bond(&[form], elements, |bond, results| {
                draws.map(|drawn| bond.factor(&drawn, results).expect("a capacity"))
            })
        });
        for (drawn, (coarse, fine)) in draws.iter().zip(answers[0].iter().zip(answers[1])) {
            assert!((coarse / fine - 1.0).abs() < 0.008, "{form:?} {drawn:?}: {coarse} {fine}");
        }
    }
}

/// As written the bond gives way where the fine strip does; less of anything is never better, a thicker bondline never
/// helps; a layer with little toughness has little capacity, and one with none has none.
#[test]
fn unit_less_carries_less() {
    with_bond(&FORMS[..1], ELEMENTS, |bond, results| {
        let of = |drawn: Drawn| bond.factor(&drawn, results).expect("a capacity");
        let written = of(WRITTEN);
        assert!((written / bond.places[0].written - 1.0).abs() < 1e-12);
        for less in [
            Drawn { strength: 0.8, ..WRITTEN },
            Drawn { toughness: 0.8, ..WRITTEN },
            Drawn { overlap: 0.8, ..WRITTEN },
        ] {
            assert!(of(less) < written, "{less:?}");
        }
        assert!(of(Drawn { bondline: 1.8, ..WRITTEN }) <= written);
        assert!((of(Drawn { bondline: 0.5, ..WRITTEN }) / written - 1.0).abs() < 1e-12, "beads hold it open");
        assert!(of(Drawn { toughness: 0.025, ..WRITTEN }) < 0.25 * written);
        assert!(of(Drawn { toughness: 0.01, ..WRITTEN }) < 0.13 * written);
        assert!(of(Drawn { toughness: 0.0, ..WRITTEN }).abs() < 1e-12);
        assert!(of(Drawn { strength: -0.1, ..WRITTEN }) < 0.0);
    });
}

/// The least of the places governs, and one that carries far more is not loaded again.
#[test]
fn unit_the_least_place_governs() {
    let of = |forms: &[Form]| {
        with_bond(forms, ELEMENTS, |bond, results| {
            (bond.factor(&WRITTEN, results).expect("a capacity"), bond.strips())
        })
    };
    let (pulled, pressed) = (of(&FORMS[1..2]), of(&FORMS[2..3]));
    let both = of(&FORMS[1..3]);
    assert_eq!(both.1, 2);
    assert!((both.0 - f64::min(pulled.0, pressed.0)).abs() < 1e-12);
    let far = of(&[FORMS[0], FORMS[1]]);
    assert_eq!(far, of(&FORMS[..1]));
}
