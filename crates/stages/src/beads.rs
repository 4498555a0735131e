//! How the adhesive is laid: straight beads side by side along the overlap, that fill the bondline when pressed flat.
//!
//! Common practice, no source: beads of about the thickness of a pencil stroke from a nozzle, parallel so that air
//! can leave between them, and along the overlap so that a part that slides in does not wipe them off.

use assessment::{Bead, Patch};

/// The thickest a bead is made, mm: common practice, no source.
const THICKEST_MM: f64 = 4.0;

/// The beads of one patch. Together they hold the volume of its bondline and the allowance to be pressed out.
///
/// ```text
/// n = ⌈w h (1 + a) / (π d² / 4)⌉      A = w l h (1 + a) / (n (l − 2 e))      e = least of w/2n and l/4
/// w, l  width and length of the patch   h  bondline   a  allowance   d  thickest bead   A  section of a bead
/// e  how far a bead stops short of either end: it flows there when it is pressed
/// ```
pub(crate) fn on_patch(face: usize, patch: &Patch, bondline_mm: f64, allowance: f64) -> Vec<Bead> {
    /// More beads than this on one patch are no plan for a hand; they are then thicker.
    const MOST: u32 = 60;
    let [width, length] = [patch.s_mm, patch.x_mm].map(|[from, to]| to - from);
    let thickness = bondline_mm * (1.0 + allowance);
    let thickest = std::f64::consts::FRAC_PI_4 * THICKEST_MM * THICKEST_MM;
    let count = (1..MOST).find(|count| f64::from(*count) * thickest >= width * thickness).unwrap_or(MOST);
    let spacing_mm = width / f64::from(count);
    let short = (spacing_mm / 2.0).min(length / 4.0);
    let x_mm = [patch.x_mm[0] + short, patch.x_mm[1] - short];
    let section_mm2 = spacing_mm * length * thickness / (length - 2.0 * short);
    let place = |index: u32| patch.s_mm[0] + spacing_mm * (f64::from(index) + 0.5);
    (0..count).map(|index| Bead { face, x_mm, s_mm: place(index), section_mm2, spacing_mm }).collect()
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    #[test]
    fn unit_a_narrow_coupon_takes_one_bead_in_its_middle() {
        let patch = Patch { x_mm: [0.0, 12.5], s_mm: [-12.5, 12.5] };
        let beads = on_patch(0, &patch, 0.25, 0.2);
        assert_eq!(beads.len(), 1);
        assert_eq!((beads[0].s_mm, beads[0].spacing_mm), (0.0, 25.0));
    }

    proptest! {
        /// The beads hold what the bondline takes and what is to be pressed out, stay inside the patch, and are no
        /// thicker than a bead is made, but for what they stop short.
        #[test]
        fn law_beads_fill_the_bondline(
            width in 5.0..200.0_f64,
            length in 10.0..300.0_f64,
            bondline in 0.1..2.0_f64,
            allowance in 0.0..1.0_f64,
        ) {
            let patch = Patch { x_mm: [3.0, 3.0 + length], s_mm: [-width / 2.0, width / 2.0] };
            let beads = on_patch(2, &patch, bondline, allowance);
            let volume: f64 = beads.iter().map(Bead::volume_mm3).sum();
            let wanted = width * length * bondline * (1.0 + allowance);
            // A sum of at most 60 terms: rounding alone.
            prop_assert!((volume - wanted).abs() <= 1e-12 * wanted);
            for bead in &beads {
                prop_assert!(bead.x_mm[0] > 3.0 && bead.x_mm[1] < 3.0 + length && bead.x_mm[0] < bead.x_mm[1]);
                prop_assert!(bead.s_mm.abs() < width / 2.0);
                // A bead stops short by a quarter of its length at most at each end: twice the section.
                let thickest = std::f64::consts::FRAC_PI_4 * THICKEST_MM * THICKEST_MM;
                prop_assert!(bead.section_mm2 <= 2.0 * thickest * (1.0 + 1e-12) || beads.len() == 60);
            }
        }
    }
}
