//! A bond around a section: straight stretches of the perimeter that share its resultants.
//!
//! Both sections stay plane and keep their shape; the adhesive between them gives in shear, along the member
//! and along the wall. So every stretch takes its part by where it stands, whatever stretches there are:
//! all flats of a box, or a few patches. Pressure across the walls takes no part.

use crate::failure::{self, Failure};
use crate::statics::Resultants;

/// A straight bonded stretch of the perimeter in the plane of the section.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stretch {
    /// Where it begins: y and z, mm.
    pub from_mm: [f64; 2],
    /// Where it ends: y and z, mm.
    pub to_mm: [f64; 2],
    /// Stiffness of the layer in shear, G/h (N/mm³), or any number in proportion to it.
    pub stiffness: f64,
}

/// Resultants at a section farther along x by `d` (mm), with no load between the two.
///
/// ```text
/// M_y(x + d) = M_y(x) + V_z d        M_z(x + d) = M_z(x) − V_y d
/// ```
#[must_use]
pub fn moved_along(resultants: &Resultants, d_mm: f64) -> Resultants {
    Resultants {
        moment_y_nmm: resultants.moment_y_nmm + resultants.shear_z_n * d_mm,
        moment_z_nmm: resultants.moment_z_nmm - resultants.shear_y_n * d_mm,
        ..*resultants
    }
}

/// What the bond carries at a point of the perimeter, N/mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LineLoad {
    /// The stretch.
    pub stretch: usize,
    /// Where: y and z, mm.
    pub at_mm: [f64; 2],
    /// Along the member, tension positive.
    pub axial_n_mm: f64,
    /// Along the wall, in the direction of the stretch.
    pub flow_n_mm: f64,
}

impl LineLoad {
    /// The resultant of both, N/mm.
    pub fn resultant_n_mm(&self) -> f64 {
        self.axial_n_mm.hypot(self.flow_n_mm)
    }
}

/// How a bonded perimeter shares the resultants: the motion of one section against the other.
#[derive(Debug, Clone, PartialEq)]
pub struct Sharing {
    stretches: Vec<Stretch>,
    /// Axial motion and the turns about y and z.
    axial: [f64; 3],
    /// Motion along y and z, and the turn about x.
    transverse: [f64; 3],
}

/// Shares resultants over a bonded perimeter.
///
/// ```text
/// n = k (a + θ_y z − θ_z y)                     q = k (b t_y + c t_z + θ_x (y t_z − z t_y))
/// N = ∫n ds   M_y = ∫n z ds   M_z = −∫n y ds    V_y = ∫q t_y ds   V_z = ∫q t_z ds   T = ∫q (y t_z − z t_y) ds
/// n, q  line loads along the member and along the wall (N/mm)    t  direction of the stretch
/// k  stiffness of the layer   a, b, c, θ  motion of one section against the other
/// ```
///
/// Valid for sections that stay plane and keep their shape over a short overlap, a linear layer, and no
/// pressure across the walls. Moments and torque about the origin of the coordinates. Textbook statics of an
/// elastic group, as for fasteners (formula).
///
/// # Errors
///
/// [`Failure::NotPositive`] for a stretch without length or stiffness, [`Failure::NotFinite`] for coordinates
/// and resultants, [`Failure::CannotCarry`] where the stretches leave a motion free, which it names.
pub fn share(stretches: &[Stretch], resultants: &Resultants) -> Result<Sharing, Failure> {
    let mut axial = [[0.0; 3]; 3];
    let mut transverse = [[0.0; 3]; 3];
    for stretch in stretches {
        let part = Part::of(stretch)?;
        let k = stretch.stiffness;
        // n on the basis (1, z, −y), weighted with the same: symmetric.
        let products = [
            [part.length, part.first_z, -part.first_y],
            [part.first_z, part.second_zz, -part.second_yz],
            [-part.first_y, -part.second_yz, part.second_yy],
        ];
        let basis = [part.direction[0], part.direction[1], part.arm];
        for row in 0..3 {
            for column in 0..3 {
                axial[row][column] += k * products[row][column];
                transverse[row][column] += k * part.length * basis[row] * basis[column];
            }
        }
    }
    let [n, my, mz] = [resultants.axial_n, resultants.moment_y_nmm, resultants.moment_z_nmm];
    let [vy, vz, t] = [resultants.shear_y_n, resultants.shear_z_n, resultants.torque_nmm];
    resultants.check()?;
    Ok(Sharing {
        stretches: stretches.to_vec(),
        axial: solve(axial, [n, my, mz], ["axial force", "moment about y", "moment about z"])?,
        transverse: solve(transverse, [vy, vz, t], ["shear along y", "shear along z", "torque"])?,
    })
}

/// Integrals over a stretch.
struct Part {
    length: f64,
    direction: [f64; 2],
    /// y t_z − z t_y: the same all along a straight stretch.
    arm: f64,
    first_y: f64,
    first_z: f64,
    second_yy: f64,
    second_zz: f64,
    second_yz: f64,
}

impl Part {
    fn of(stretch: &Stretch) -> Result<Self, Failure> {
        let [y1, z1] = stretch.from_mm;
        let [y2, z2] = stretch.to_mm;
        let (dy, dz) = (y2 - y1, z2 - z1);
        let length = failure::positive("length of a bonded stretch", dy.hypot(dz))?;
        failure::positive("stiffness of a bonded stretch", stretch.stiffness)?;
        let (y, z) = (0.5 * (y1 + y2), 0.5 * (z1 + z2));
        let direction = [dy / length, dz / length];
        Ok(Self {
            length,
            direction,
            arm: y * direction[1] - z * direction[0],
            first_y: length * y,
            first_z: length * z,
            second_yy: length * (y * y + dy * dy / 12.0),
            second_zz: length * (z * z + dz * dz / 12.0),
            second_yz: length * (y * z + dy * dz / 12.0),
        })
    }
}

/// Solves a symmetric, positive semi-definite system of three; a resultant that meets no resistance is named.
fn solve(matrix: [[f64; 3]; 3], right: [f64; 3], names: [&'static str; 3]) -> Result<[f64; 3], Failure> {
    /// A pivot below this share of its diagonal is no resistance but rounding.
    const FREE: f64 = 1e-10;
    let mut a = matrix;
    let mut b = right;
    let mut held = [true; 3];
    let size = right.iter().fold(f64::MIN_POSITIVE, |size, it| size.max(it.abs()));
    for pivot in 0..3 {
        let resists = a[pivot][pivot] > FREE * matrix[pivot][pivot] && matrix[pivot][pivot] > 0.0;
        if !resists {
            held[pivot] = false;
            // Nothing resists this motion: fine as long as nothing drives it.
            if b[pivot].abs() > FREE * size {
                return Err(Failure::CannotCarry { resultant: names[pivot] });
            }
            continue;
        }
        let (upper, below) = a.split_at_mut(pivot + 1);
        let top = upper[pivot];
        for (row, index) in below.iter_mut().zip(pivot + 1..) {
            let factor = row[pivot] / top[pivot];
            for (ours, theirs) in row.iter_mut().zip(top) {
                *ours -= factor * theirs;
            }
            b[index] -= factor * b[pivot];
        }
    }
    let mut x = [0.0; 3];
    for row in (0..3).rev().filter(|row| held[*row]) {
        let known: f64 = (row + 1..3).map(|column| a[row][column] * x[column]).sum();
        x[row] = failure::finite("share of a bonded perimeter", (b[row] - known) / a[row][row])?;
    }
    Ok(x)
}

impl Sharing {
    /// What the bond carries at a point of a stretch, `along` running from 0 at its beginning to 1 at its end;
    /// `None` where there is no such stretch.
    pub fn at(&self, stretch: usize, along: f64) -> Option<LineLoad> {
        let of = self.stretches.get(stretch)?;
        let [y, z] = [0, 1].map(|i| of.from_mm[i] + along * (of.to_mm[i] - of.from_mm[i]));
        let length = (of.to_mm[0] - of.from_mm[0]).hypot(of.to_mm[1] - of.from_mm[1]);
        let [ty, tz] = [0, 1].map(|i| (of.to_mm[i] - of.from_mm[i]) / length);
        let [a, turn_y, turn_z] = self.axial;
        let [b, c, turn_x] = self.transverse;
        Some(LineLoad {
            stretch,
            at_mm: [y, z],
            axial_n_mm: of.stiffness * (a + turn_y * z - turn_z * y),
            flow_n_mm: of.stiffness * (b * ty + c * tz + turn_x * (y * tz - z * ty)),
        })
    }

    /// What the ends of all stretches carry. Along a straight stretch n is linear and q constant, so the greatest
    /// line load is among these.
    pub fn ends(&self) -> impl Iterator<Item = LineLoad> + '_ {
        (0..self.stretches.len()).flat_map(|stretch| [self.at(stretch, 0.0), self.at(stretch, 1.0)]).flatten()
    }

    /// Where the resultant line load is greatest.
    pub fn greatest(&self) -> Option<LineLoad> {
        self.ends().max_by(|a, b| a.resultant_n_mm().total_cmp(&b.resultant_n_mm()))
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn flats() -> Vec<Stretch> {
        let flat = |from_mm, to_mm| Stretch { from_mm, to_mm, stiffness: 2.0 };
        vec![
            flat([-28.0, 56.0], [28.0, 56.0]),
            flat([36.0, 48.0], [36.0, -48.0]),
            flat([28.0, -56.0], [-28.0, -56.0]),
            flat([-36.0, -48.0], [-36.0, 48.0]),
        ]
    }

    /// Integrates a sharing back to resultants; n linear and q constant, so Simpson's rule is exact.
    fn back(sharing: &Sharing, stretches: &[Stretch]) -> Resultants {
        let mut sum = Resultants::default();
        for (index, stretch) in stretches.iter().enumerate() {
            let length = (stretch.to_mm[0] - stretch.from_mm[0]).hypot(stretch.to_mm[1] - stretch.from_mm[1]);
            let [ty, tz] = [0, 1].map(|i| (stretch.to_mm[i] - stretch.from_mm[i]) / length);
            for (along, weight) in [(0.0, 1.0), (0.5, 4.0), (1.0, 1.0)] {
                let load = sharing.at(index, along).expect("a stretch");
                let ds = length * weight / 6.0;
                let [y, z] = load.at_mm;
                sum.axial_n += load.axial_n_mm * ds;
                sum.moment_y_nmm += load.axial_n_mm * z * ds;
                sum.moment_z_nmm -= load.axial_n_mm * y * ds;
                sum.shear_y_n += load.flow_n_mm * ty * ds;
                sum.shear_z_n += load.flow_n_mm * tz * ds;
                sum.torque_nmm += load.flow_n_mm * (y * tz - z * ty) * ds;
            }
        }
        sum
    }

    #[test]
    fn unit_flats_of_a_box_by_hand() {
        // Lines of width one: P = 304 mm, I_y = 2·56·56² + 2·96³/12, I_z = 2·96·36² + 2·56³/12.
        let resultants = Resultants {
            axial_n: 16_600.0,
            moment_y_nmm: -1.49e6,
            moment_z_nmm: 1.51e6,
            ..Resultants::default()
        };
        let sharing = share(&flats(), &resultants).expect("carried");
        let i_y = 2.0 * 56.0 * 56.0 * 56.0 + 2.0 * 96.0_f64.powi(3) / 12.0;
        let i_z = 2.0 * 96.0 * 36.0 * 36.0 + 2.0 * 56.0_f64.powi(3) / 12.0;
        let by_hand = 16_600.0 / 304.0 + 1.49e6 * 48.0 / i_y + 1.51e6 * 36.0 / i_z;
        let greatest = sharing.greatest().expect("a point");
        assert!((greatest.axial_n_mm - by_hand).abs() < 1e-9 * by_hand, "{} {by_hand}", greatest.axial_n_mm);
        assert!(greatest.at_mm[0] < 0.0 && greatest.at_mm[1] < 0.0, "{:?}", greatest.at_mm);
    }

    #[test]
    fn unit_torque_on_a_square_is_even() {
        let side = |from_mm, to_mm| Stretch { from_mm, to_mm, stiffness: 1.0 };
        let square = [
            side([-50.0, 50.0], [50.0, 50.0]),
            side([50.0, 50.0], [50.0, -50.0]),
            side([50.0, -50.0], [-50.0, -50.0]),
            side([-50.0, -50.0], [-50.0, 50.0]),
        ];
        let torque = Resultants { torque_nmm: 1e6, ..Resultants::default() };
        let sharing = share(&square, &torque).expect("carried");
        // Bredt: q = T/(2 A), and against the clockwise direction of the stretches.
        for stretch in 0..4 {
            let load = sharing.at(stretch, 0.3).expect("a stretch");
            assert!((load.flow_n_mm + 1e6 / 20_000.0).abs() < 1e-9);
        }
    }

    #[test]
    fn unit_two_faces_cannot_carry_shear_across_them() {
        let sides = [flats()[1], flats()[3]];
        let shear = Resultants { shear_y_n: 1000.0, ..Resultants::default() };
        assert_eq!(share(&sides, &shear), Err(Failure::CannotCarry { resultant: "shear along y" }));
        let along = Resultants { shear_z_n: 1000.0, ..Resultants::default() };
        assert!(share(&sides, &along).is_ok());
    }

    proptest! {
        /// "Equilibrium of every perimeter distribution to 1e-9 (it integrates back to N, V, M, T)".
        #[test]
        fn law_perimeter_integrates_back(
            n in -1e5..1e5, vy in -1e4..1e4, vz in -1e4..1e4, t in -1e6..1e6, my in -3e6..3e6, mz in -3e6..3e6,
            stiff in prop::array::uniform4(0.2..5.0), shift in prop::array::uniform2(-40.0..40.0),
        ) {
            let mut stretches = flats();
            for (stretch, k) in stretches.iter_mut().zip(stiff) {
                stretch.stiffness = k;
                for (index, by) in shift.iter().enumerate() {
                    stretch.from_mm[index] += by;
                    stretch.to_mm[index] += by;
                }
            }
            let given = Resultants { axial_n: n, shear_y_n: vy, shear_z_n: vz, torque_nmm: t, moment_y_nmm: my, moment_z_nmm: mz };
            let found = back(&share(&stretches, &given).expect("carried"), &stretches);
            // Relative to the size of the loads on the section: forces as such, moments at its half height.
            let forces = n.abs().max(vy.abs()).max(vz.abs()).max((my.abs().max(mz.abs()).max(t.abs())) / 60.0);
            for (ours, theirs, arm) in [
                (found.axial_n, n, 1.0), (found.shear_y_n, vy, 1.0), (found.shear_z_n, vz, 1.0),
                (found.torque_nmm, t, 60.0), (found.moment_y_nmm, my, 60.0), (found.moment_z_nmm, mz, 60.0),
            ] {
                prop_assert!((ours - theirs).abs() <= 1e-9 * forces * arm, "{ours} {theirs}");
            }
        }

        /// A section that is mirrored with its loads carries the mirrored line loads.
        #[test]
        fn law_mirrored_perimeters_mirror(n in -1e5..1e5, vy in -1e4..1e4, t in -1e6..1e6, mz in -3e6..3e6) {
            let stretches = flats();
            let mirrored: Vec<Stretch> = stretches.iter().map(|it| Stretch {
                from_mm: [-it.from_mm[0], it.from_mm[1]],
                to_mm: [-it.to_mm[0], it.to_mm[1]],
                ..*it
            }).collect();
            let loads = Resultants { axial_n: n, shear_y_n: vy, torque_nmm: t, moment_z_nmm: mz, ..Resultants::default() };
            let mirror = Resultants { shear_y_n: -vy, torque_nmm: -t, moment_z_nmm: -mz, ..loads };
            let (a, b) = (share(&stretches, &loads).expect("carried"), share(&mirrored, &mirror).expect("carried"));
            for stretch in 0..4 {
                let (a, b) = (a.at(stretch, 0.2).expect("a"), b.at(stretch, 0.2).expect("b"));
                prop_assert!((a.axial_n_mm - b.axial_n_mm).abs() <= 1e-9 * (1.0 + a.axial_n_mm.abs()));
                prop_assert!((a.flow_n_mm - b.flow_n_mm).abs() <= 1e-9 * (1.0 + a.flow_n_mm.abs()));
            }
        }
    }
}
