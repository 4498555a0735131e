//! A strip made ready: its nodes, the points of its layer, its rivets, supports and loads.

use super::super::element::THREE_POINTS;
use super::super::mesh;
use super::super::model::{Ends, Geometry, Section, Strip, Supports};
use super::beam::Yielding;
use super::law::Point;
use super::model::Joint;
use super::rivets::Held;
use super::system::{BUBBLES, Gauss, Placed, Span, System};

impl<const N: usize, const M: usize> System<N, M> {
    /// Builds mesh, points, supports and loads of a checked joint, at rest.
    pub(super) fn prepare(&mut self, joint: &Joint) {
        let strip = &joint.strip;
        self.law = joint.law;
        let adherends = [&strip.upper, &strip.lower];
        self.sections =
            adherends.map(|adherend| Section::of(adherend, strip.plane, strip.temperature_change_k));
        self.yielding = std::array::from_fn(|i| {
            joint.hardening[i].map(|hardening| Yielding::new(adherends[i], &self.sections[i], hardening))
        });
        self.second_order =
            strip.geometry == Geometry::SecondOrder && !strip.hold_transverse && Self::LAYOUT.w.is_some();
        self.divide(joint);
        self.whole.clear();
        self.whole.extend(self.gauss.iter().map(|points| {
            let mut stiffness = [[0.0; M]; M];
            let tangents = points.map(|gauss| {
                let k = gauss.stiffness;
                [[k.shear, 0.0, 0.0], [0.0, k.shear, 0.0], [0.0, 0.0, k.opening]]
            });
            Self::add_layer(points, &tangents, &mut stiffness);
            stiffness
        }));
        self.place_rows(joint);
        self.support_and_load(joint);
        let nodes = self.x_mm.len();
        let layers = if self.yielding.iter().any(Option::is_some) { self.spans.len() } else { 0 };
        self.last.motion.clear();
        self.last.motion.resize(nodes, [0.0; N]);
        self.last.bubbles.clear();
        self.last.bubbles.resize(self.spans.len(), [0.0; BUBBLES]);
        self.last.points.clear();
        self.last.points.resize(self.gauss.len(), [Point::default(); 3]);
        self.last.held.clear();
        self.last.held.resize(self.rows.len(), Held::default());
        self.last.layers.clear();
        self.last.layers.resize(layers, Default::default());
        self.last.factor = 0.0;
        self.now.take(&self.last);
        self.before.clone_from(&self.last.motion);
        self.bubbles_before.clone_from(&self.last.bubbles);
        self.factor_before = 0.0;
        self.right.clear();
        self.right.resize(nodes, [[0.0; 2]; N]);
        self.residual.clear();
        self.residual.resize(nodes, [0.0; N]);
        self.bubble_right.clear();
        self.bubble_right.resize(self.spans.len(), [[0.0; 2]; BUBBLES]);
        self.bubble_rows.clear();
        self.bubble_rows.resize(self.spans.len(), [[0.0; M]; BUBBLES]);
    }

    fn divide(&mut self, joint: &Joint) {
        let strip = &joint.strip;
        let [left_mm, right_mm] = if joint.left_edges.is_some() { [0.0; 2] } else { strip.arms_mm() };
        let mut overlap = Vec::new();
        mesh::overlap_nodes(&mut overlap, strip.overlap_mm, &strip.mesh);
        let stations =
            joint.unbonded_mm.iter().flatten().copied().chain(joint.rows.iter().map(|row| row.x_mm));
        for station in stations {
            mesh::move_to(&mut overlap, station);
        }
        let mut arm = Vec::new();
        mesh::arm_nodes(&mut arm, left_mm, &strip.mesh);
        self.x_mm.clear();
        self.x_mm.extend(arm.iter().skip(1).rev().map(|x| -x));
        self.first = self.x_mm.len();
        self.x_mm.extend(&overlap);
        mesh::arm_nodes(&mut arm, right_mm, &strip.mesh);
        self.x_mm.extend(arm.iter().skip(1).map(|x| strip.overlap_mm + x));

        let end = self.first + overlap.len() - 1;
        self.spans.clear();
        self.gauss.clear();
        for (j, ends) in self.x_mm.windows(2).enumerate() {
            let length = ends[1] - ends[0];
            let has = [j < end, j >= self.first];
            let bond = (has == [true; 2]).then_some(self.gauss.len());
            if bond.is_some() {
                self.gauss.push(THREE_POINTS.map(|(s, weight)| {
                    let x_mm = ends[0] + s * length;
                    let h = strip.bondline.thickness_mm(x_mm);
                    Gauss {
                        x_mm,
                        rows: Self::LAYOUT.slips::<N, M>(s, length, arms(strip, h)),
                        stiffness: joint.stiffness(h),
                        length_mm: weight * length,
                        bonded: joint.bonded_at(x_mm),
                    }
                }));
            }
            self.spans.push(Span { length, has, bond });
        }
    }

    fn place_rows(&mut self, joint: &Joint) {
        self.rows.clear();
        self.rows.extend(joint.rows.iter().map(|row| {
            let node = (0..self.x_mm.len())
                .min_by(|a, b| {
                    let off = |j: usize| (self.x_mm[j] - row.x_mm).abs();
                    off(*a).total_cmp(&off(*b))
                })
                .unwrap_or(self.first);
            let h = joint.strip.bondline.thickness_mm(row.x_mm);
            Placed { row: *row, node, rows: Self::LAYOUT.slips_at_node(arms(&joint.strip, h)) }
        }));
    }

    fn support_and_load(&mut self, joint: &Joint) {
        let strip = &joint.strip;
        let layout = Self::LAYOUT;
        let (left, right) = (0, self.x_mm.len() - 1);
        self.held.clear();
        self.loads.clear();
        let end = self.right_overlap_node();
        for j in 0..self.x_mm.len() {
            // Where an adherend is not, none of its motions is.
            for (adherend, absent) in [j > end, j < self.first].into_iter().enumerate() {
                let flat = strip.hold_transverse || (adherend == 1 && joint.lower_held_flat);
                if absent {
                    self.held.push((j, layout.u[adherend]));
                    self.held.extend(layout.v.map(|v| (j, v[adherend])));
                }
                if (absent || flat)
                    && let Some(w) = layout.w
                {
                    self.held.extend([(j, w[adherend]), (j, w[adherend] + 1)]);
                }
            }
        }
        if let Some(edges) = joint.left_edges {
            for (adherend, edge) in edges.into_iter().enumerate() {
                self.held.push((right, layout.u[adherend]));
                self.held.extend(layout.v.map(|v| (right, v[adherend])));
                self.loads.push((left, layout.u[adherend], -edge.axial_n_mm));
                if let Some(w) = layout.w {
                    self.held.extend([(right, w[adherend]), (right, w[adherend] + 1)]);
                    self.loads.push((left, w[adherend] + 1, -edge.moment_n));
                    self.loads.push((left, w[adherend], edge.across_n_mm));
                }
            }
            return;
        }
        match strip.supports {
            Supports::Gripped { ends, .. } => {
                self.held.push((left, layout.u[0]));
                self.held.extend(layout.v.map(|v| (left, v[0])));
                if let Some(w) = layout.w {
                    self.held.extend([(left, w[0]), (right, w[1])]);
                    if ends == Ends::Clamped {
                        self.held.extend([(left, w[0] + 1), (right, w[1] + 1)]);
                    }
                }
                self.loads.push((right, layout.u[1], strip.axial_n_mm));
                self.loads.extend(layout.v.map(|v| (right, v[1], strip.shear_flow_n_mm)));
            }
            Supports::EdgeResultants { moment_n, shear_n_mm } => {
                self.held.push((right, layout.u[1]));
                self.held.extend(layout.v.map(|v| (right, v[1])));
                // On the left edge the section's positive face belongs to what was cut away.
                self.loads.push((left, layout.u[0], -strip.axial_n_mm));
                self.loads.extend(layout.v.map(|v| (left, v[0], -strip.shear_flow_n_mm)));
                if let Some(w) = layout.w {
                    self.held.extend([(right, w[1]), (right, w[1] + 1)]);
                    self.loads.extend([(left, w[0], -shear_n_mm), (left, w[0] + 1, -moment_n)]);
                }
            }
        }
    }
}

/// Distances of the midplanes from the plane on which the slip is taken.
fn arms(strip: &Strip, h: f64) -> [f64; 2] {
    let layer = if strip.lever_arm_includes_bondline { h } else { 0.0 };
    [0.5 * (strip.upper.thickness_mm + layer), 0.5 * (strip.lower.thickness_mm + layer)]
}
