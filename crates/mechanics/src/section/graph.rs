//! Walls as a graph: what hangs together, and which walls enclose cells.

use super::wall::Wall;

/// A wall as seen from one of its nodes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct End {
    pub(super) wall: usize,
    /// The node at the wall's other end.
    pub(super) far: usize,
    /// +1 where the wall leaves the node, −1 where it arrives.
    pub(super) sign: f64,
}

/// A closed walk along walls: each with +1 where it is walked from start to end, −1 backwards.
pub(super) type Cycle = Vec<(usize, f64)>;

/// The walls at each node and a spanning tree from the first wall's first node.
#[derive(Debug, Clone)]
pub(super) struct Graph {
    ends: Vec<Vec<End>>,
    /// Per node: how the tree reaches it, seen from the node; none at the root.
    parents: Vec<Option<End>>,
    /// The nodes that the tree reaches, root first, each after its parent.
    order: Vec<usize>,
    reached: Vec<bool>,
}

impl Graph {
    /// The graph of walls whose nodes exist.
    pub(super) fn new(nodes: usize, walls: &[Wall]) -> Self {
        let mut ends = vec![Vec::new(); nodes];
        for (wall, w) in walls.iter().enumerate() {
            ends[w.from].push(End { wall, far: w.to, sign: 1.0 });
            ends[w.to].push(End { wall, far: w.from, sign: -1.0 });
        }
        let mut graph =
            Self { ends, parents: vec![None; nodes], order: Vec::new(), reached: vec![false; nodes] };
        if let Some(first) = walls.first() {
            graph.grow(first.from);
        }
        graph
    }

    /// Breadth first, so that cycles stay short.
    fn grow(&mut self, root: usize) {
        self.reached[root] = true;
        self.order.push(root);
        let mut next = 0;
        while let Some(&node) = self.order.get(next) {
            for end in &self.ends[node] {
                if !self.reached[end.far] {
                    self.reached[end.far] = true;
                    self.parents[end.far] = Some(End { wall: end.wall, far: node, sign: -end.sign });
                    self.order.push(end.far);
                }
            }
            next += 1;
        }
    }

    /// The walls at a node.
    pub(super) fn ends(&self, node: usize) -> &[End] {
        &self.ends[node]
    }

    /// Whether the tree reaches a node.
    pub(super) fn reaches(&self, node: usize) -> bool {
        self.reached[node]
    }

    /// The nodes, each after its parent.
    pub(super) fn order(&self) -> &[usize] {
        &self.order
    }

    /// The tree's wall that leads from `node` towards the root.
    pub(super) fn parent(&self, node: usize) -> Option<End> {
        self.parents[node]
    }

    /// One cycle for each wall outside the tree; it starts with that wall, walked forwards. Together
    /// they span all cycles, and contain every wall that encloses a cell.
    pub(super) fn cycles(&self, walls: &[Wall]) -> Vec<Cycle> {
        let mut in_tree = vec![false; walls.len()];
        for parent in self.parents.iter().flatten() {
            in_tree[parent.wall] = true;
        }
        let chords = walls.iter().enumerate().filter(|(wall, _)| !in_tree[*wall]);
        chords
            .map(|(wall, w)| {
                let (mut there, mut back) = (self.to_root(w.to), self.to_root(w.from));
                while let (Some(a), Some(b)) = (there.last(), back.last())
                    && a.wall == b.wall
                {
                    there.pop();
                    back.pop();
                }
                let there = there.into_iter().map(|end| (end.wall, end.sign));
                let back = back.into_iter().rev().map(|end| (end.wall, -end.sign));
                std::iter::once((wall, 1.0)).chain(there).chain(back).collect()
            })
            .collect()
    }

    /// The walls from a node to the root, each as walked.
    fn to_root(&self, node: usize) -> Vec<End> {
        let mut path = Vec::new();
        let mut at = node;
        while let Some(end) = self.parents[at] {
            path.push(end);
            at = end.far;
        }
        path
    }
}
