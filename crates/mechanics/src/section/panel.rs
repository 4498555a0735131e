//! Plate panels: what lies between two supported edges of the perimeter.

use super::Section;
use super::graph::End;
use super::wall::{Form, Wall};

/// How a panel is held along its two long edges.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Support {
    /// Both edges join other walls.
    Internal,
    /// One edge is free.
    Outstand,
    /// Neither edge is held: a plain plate, which buckles as a column and not locally.
    Unsupported,
    /// Part of a circular cylinder.
    Cylinder {
        /// Radius of its centreline, mm.
        radius_mm: f64,
    },
}

/// A panel: one wall, or several in a row with no corner between them.
#[derive(Debug, Clone, PartialEq)]
pub struct Panel {
    /// The walls, in order along the panel.
    pub walls: Vec<usize>,
    /// How it is held.
    pub support: Support,
    /// Developed width b between the nodes at its edges, mm. That is more than the flat width between
    /// the faces of the walls that hold it, by about their thickness where corners are sharp.
    pub width_mm: f64,
    /// Least thickness t, mm.
    pub thickness_mm: f64,
    /// Whether it is flat from edge to edge.
    pub flat: bool,
}

/// Walls that meet at a smaller angle than this (30°) do not hold each other: the polygon that stands
/// for a slight curve is one panel. The angle is our own choice, on the safe side.
const HOLDING_COSINE: f64 = 0.866;

/// A lip narrower than this share of the wall that it is to hold does not hold it: the least edge fold
/// of EN 1993-1-3:2006, table 5.1 (from memory).
const LEAST_LIP: f64 = 0.2;

impl Section {
    /// The panels of the section, links left out.
    pub fn panels(&self) -> Vec<Panel> {
        let mut taken: Vec<bool> = self.walls().iter().map(Wall::is_link).collect();
        let mut chains = Vec::new();
        for wall in 0..self.walls().len() {
            if !taken[wall] {
                chains.push(self.chain(wall, &mut taken));
            }
        }
        let plain: Vec<Panel> = chains.iter().map(|chain| self.panel(chain)).collect();
        let mut owner = vec![0; self.walls().len()];
        for (index, chain) in chains.iter().enumerate() {
            for end in &chain.walls {
                owner[end.wall] = index;
            }
        }
        let mut panels = plain.clone();
        for (chain, panel) in chains.iter().zip(&mut panels) {
            if panel.support != Support::Internal {
                continue;
            }
            let lips =
                chain.edges.iter().filter(|&&node| self.only_a_lip(node, panel, &plain, &owner)).count();
            panel.support = match lips {
                0 => Support::Internal,
                1 => Support::Outstand,
                _ => Support::Unsupported,
            };
        }
        panels
    }

    /// Whether all that a panel's edge joins is a lip too narrow to hold it.
    fn only_a_lip(&self, node: usize, panel: &Panel, panels: &[Panel], owner: &[usize]) -> bool {
        let [a, b] = self.network.graph.ends(node) else { return false };
        let other = if panel.walls.contains(&a.wall) { b.wall } else { a.wall };
        if self.walls()[other].is_link() {
            return false;
        }
        let lip = &panels[owner[other]];
        lip.support == Support::Outstand && lip.width_mm < LEAST_LIP * panel.width_mm
    }

    /// Walks from a wall in both directions until the panel ends.
    fn chain(&self, wall: usize, taken: &mut [bool]) -> Chain {
        taken[wall] = true;
        let first = self.walls()[wall];
        let mut forwards = vec![End { wall, far: first.to, sign: 1.0 }];
        let last = self.walk(&mut forwards, taken);
        if last == first.from {
            // A ring without a corner.
            return Chain { walls: forwards, edges: Vec::new() };
        }
        let mut backwards = vec![End { wall, far: first.from, sign: -1.0 }];
        let start = self.walk(&mut backwards, taken);
        let mut walls: Vec<End> =
            backwards.into_iter().skip(1).rev().map(|e| End { sign: -e.sign, ..e }).collect();
        walls.append(&mut forwards);
        Chain { walls, edges: vec![start, last] }
    }

    /// Extends a chain at its end; gives the node where it stops.
    fn walk(&self, chain: &mut Vec<End>, taken: &mut [bool]) -> usize {
        loop {
            let Some(&here) = chain.last() else { return 0 };
            let [a, b] = self.network.graph.ends(here.far) else { return here.far };
            let next = if a.wall == here.wall { *b } else { *a };
            if taken[next.wall] || !self.runs_on(here, next) {
                return here.far;
            }
            taken[next.wall] = true;
            chain.push(next);
        }
    }

    /// Whether a panel runs on from one wall into the next.
    fn runs_on(&self, here: End, next: End) -> bool {
        match (self.walls()[here.wall].form, self.walls()[next.wall].form) {
            (Form::Flat, Form::Flat) => self.cosine(here, next) > HOLDING_COSINE,
            (Form::Arc { radius_mm: r }, Form::Arc { radius_mm: other }) => (r - other).abs() <= 1e-9 * r,
            _ => false,
        }
    }

    /// Cosine of the turn from one wall, as walked, to the next.
    fn cosine(&self, here: End, next: End) -> f64 {
        let [a, b] = [here, next].map(|end| self.network.lines[end.wall].along);
        here.sign * next.sign * (a[0] * b[0] + a[1] * b[1])
    }

    fn panel(&self, chain: &Chain) -> Panel {
        let walls: Vec<usize> = chain.walls.iter().map(|end| end.wall).collect();
        let free = chain.edges.iter().filter(|&&node| self.network.graph.ends(node).len() == 1).count();
        let form = walls.first().map(|&wall| self.walls()[wall].form);
        let support = match (form, free) {
            (Some(Form::Arc { radius_mm }), _) => Support::Cylinder { radius_mm },
            (_, 0) => Support::Internal,
            (_, 1) => Support::Outstand,
            _ => Support::Unsupported,
        };
        Panel {
            width_mm: walls.iter().map(|&wall| self.network.lines[wall].length).sum(),
            thickness_mm: walls
                .iter()
                .map(|&wall| self.walls()[wall].thickness_mm)
                .fold(f64::INFINITY, f64::min),
            flat: form == Some(Form::Flat)
                && chain.walls.windows(2).all(|pair| self.cosine(pair[0], pair[1]) > 1.0 - 1e-9),
            support,
            walls,
        }
    }
}

/// Walls in a row and the nodes at its two edges (none for a ring).
struct Chain {
    walls: Vec<End>,
    edges: Vec<usize>,
}
