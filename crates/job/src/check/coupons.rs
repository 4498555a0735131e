//! Coupons, and the lap of a data sheet.

use quantity::{Quantity, Stress};

use super::{one_of, print, refer, refuse, thinner_than_beads};
use crate::problem::Problem;
use crate::tables::{Adhesive, Coupons, Tables};

/// Refuses coupons whose references lead nowhere, or that contradict themselves.
pub(super) fn check(coupons: &Coupons, tables: &Tables, problems: &mut Vec<Problem>) {
    refer(&coupons.adhesive, &tables.adhesives, problems);
    refer(&coupons.adherend, &tables.materials, problems);
    one_of(&coupons.data, &coupons.strengths, problems);
    thinner_than_beads(&coupons.bondline, &coupons.adhesive, tables, problems);
    if coupons.is_cracked() {
        let what = "cantilevers have no shear strength";
        refuse(&coupons.strengths, what, "a file of their loads and cracks under \"data\"", problems);
        let what = "cantilevers have no free length";
        refuse(&coupons.free_length, what, "no such key; the column crack_mm says it", problems);
    }
}

/// Refuses a lap of a data sheet that cannot have been measured.
pub(super) fn check_lap_shear(adhesive: &Adhesive, tables: &Tables, problems: &mut Vec<Problem>) {
    let Some(lap) = adhesive.lap_shear.get() else { return };
    refer(&lap.adherend, &tables.materials, problems);
    if let (Some(bondline), Some(beads)) = (lap.bondline.get(), adhesive.standoff_beads.get())
        && bondline.mm() < beads.mm()
    {
        let what = format!("the bondline of {} is thinner than the beads", print(*bondline));
        refuse(&lap.bondline, what, format!("at least {}, the standoff beads", print(*beads)), problems);
    }
    let material = lap.adherend.get().and_then(|name| tables.materials.get(name));
    if let (Some(strength), Some(thickness), Some(overlap), Some(tensile)) = (
        lap.strength.get(),
        lap.thickness.get(),
        lap.overlap.get(),
        material.and_then(|material| material.tensile_strength.get()),
    ) {
        let stretched = strength.mpa() * overlap.mm() / thickness.mm();
        if stretched > tensile.mpa() {
            let what = format!(
                "at this strength the plates of the lap would stand {} and tear",
                print(Stress::from_base(stretched))
            );
            let most = Stress::from_base(tensile.mpa() * thickness.mm() / overlap.mm());
            let expected = format!("at most {}, or the lap's own plates and overlap", print(most));
            refuse(&lap.strength, what, expected, problems);
        }
    }
}
