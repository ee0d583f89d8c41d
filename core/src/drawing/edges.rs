use nalgebra::{Point3, Vector3};

use super::depth::DepthMap;
use crate::mesh::Mesh;

/// Facets less than this off edge-on (sine of the angle) count as turned away: the last digit of an STL tilts a wall by
/// as much.
const EDGE_ON: f64 = 1e-3;

/// Facets that meet at more than this angle (its cosine: 30°) have a sharp edge between them; facets of a round are
/// finer.
const SHARP: f64 = 0.866;

/// A facet lower than this share of the view has no direction worth knowing.
const SLIVER: f64 = 1e-5;

/// What a line is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum LineKind {
    /// The surface turns away from the viewer.
    Outline,
    /// The surface has a sharp edge.
    Edge,
}

/// A visible straight piece.
#[derive(Debug, Clone, Copy)]
pub(super) struct SeenLine {
    pub(super) kind: LineKind,
    pub(super) from: LineEnd,
    pub(super) to: LineEnd,
}

/// An end of a piece; `corner` where it ends in a corner of the mesh.
#[derive(Debug, Clone, Copy)]
pub(super) struct LineEnd {
    pub(super) at: [f64; 2],
    pub(super) corner: Option<u32>,
}

/// Unit normals of the facets as seen; zero for slivers.
pub(super) struct Turned {
    normals: Vec<Vector3<f64>>,
}

impl Turned {
    pub(super) fn new(facets: &[[u32; 3]], seen: &[Point3<f64>]) -> Self {
        let normals = facets
            .iter()
            .map(|facet| {
                let [a, b, c] = facet.map(|id| seen[id as usize]);
                let normal = (b - a).cross(&(c - a));
                let length = normal.norm();
                if length > 0.0 { normal / length } else { Vector3::zeros() }
            })
            .collect();
        Self { normals }
    }

    /// Whether a facet is turned toward the viewer.
    pub(super) fn toward(&self, facet: usize) -> bool {
        self.normals[facet].z > EDGE_ON
    }
}

/// Every visible piece of every outline and sharp edge.
pub(super) fn drawn(mesh: &Mesh, seen: &[Point3<f64>], facing: &Turned, depth: &DepthMap) -> Vec<SeenLine> {
    let facets = mesh.facets();
    let least = SLIVER * 1200.0 * depth.cell();
    let sliver = |facet: usize| {
        let [a, b, c] = facets[facet].map(|id| seen[id as usize]);
        let longest = (b - a).norm().max((c - b).norm()).max((a - c).norm());
        (b - a).cross(&(c - a)).norm() < least * longest
    };
    let mut lines = Vec::new();
    for half_edge in 0..3 * facets.len() {
        let across = mesh.opposite(half_edge);
        if across < half_edge {
            continue;
        }
        let (own, other) = (half_edge / 3, across / 3);
        let kind = match (facing.toward(own), facing.toward(other)) {
            (false, false) => continue,
            (true, true) => {
                let meet = facing.normals[own].dot(&facing.normals[other]);
                if meet > SHARP || sliver(own) || sliver(other) {
                    continue;
                }
                LineKind::Edge
            }
            _ => LineKind::Outline,
        };
        let (from, to) = (facets[own][half_edge % 3], facets[own][(half_edge % 3 + 1) % 3]);
        pieces(kind, [from, to], seen, depth, &mut lines);
    }
    lines
}

/// The visible pieces of one edge.
fn pieces(kind: LineKind, corners: [u32; 2], seen: &[Point3<f64>], depth: &DepthMap, lines: &mut Vec<SeenLine>) {
    let [a, b] = corners.map(|id| seen[id as usize]);
    let length = (b - a).xy().norm();
    if length <= 0.0 {
        return;
    }
    let steps = (length / depth.cell()).ceil().max(1.0) as usize;
    let at = |share: f64| a + (b - a) * share;
    let end = |step: usize| {
        let share = step as f64 / steps as f64;
        let point = at(share);
        let corner = if step == 0 { Some(corners[0]) } else { (step == steps).then_some(corners[1]) };
        LineEnd { at: [point.x, point.y], corner }
    };
    let mut begun = None;
    for step in 0..=steps {
        let shows = step < steps && depth.shows(&at((step as f64 + 0.5) / steps as f64));
        match (begun, shows) {
            (None, true) => begun = Some(step),
            (Some(first), false) => {
                lines.push(SeenLine { kind, from: end(first), to: end(step) });
                begun = None;
            }
            _ => {}
        }
    }
}
