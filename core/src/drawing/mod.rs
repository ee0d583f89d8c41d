//! A part as lines seen from three sides: outlines and sharp edges, what lies behind left out.
//!
//! A line is drawn where a facet turned toward the viewer meets one turned away (outline) or one at a sharp angle
//! (edge). What a nearer facet covers is found with a map of depths, one number a cell, of which the longer side of the
//! part has `CELLS`; places are exact, ends of covered lines to within a cell.

mod chain;
mod depth;
mod edges;
mod side;

use nalgebra::{Point3, Vector3};

use self::chain::{chained, fewest, simplified};
use self::depth::DepthMap;
use self::edges::{LineKind, Turned, drawn};
use crate::mesh::Mesh;
use crate::numeric::map_in_order;
use crate::part::Frame;

pub use side::{Side, Viewed};

/// Cells along the longer side of a view.
const CELLS: f64 = 1200.0;

/// Share of a cell by which a drawn line may leave the true one.
const TOLERANCE: f64 = 0.35;

/// Most points in one view; of a rougher mesh the shortest lines are left out.
const MOST_POINTS: usize = 12_000;

/// A part from three sides.
#[derive(Debug, Clone, PartialEq)]
pub struct Drawing {
    /// One for each [`Side`], in their order.
    pub views: Vec<View>,
}

/// A part seen from one side, mm.
///
/// A point of the file has its place in the view by [`View::place`].
#[derive(Debug, Clone, PartialEq)]
pub struct View {
    /// From where.
    pub side: Side,
    /// Unit vector to the right, coordinates of the file.
    pub right: [f64; 3],
    /// Unit vector upward.
    pub up: [f64; 3],
    /// Lower left corner of the box round the part.
    pub low: [f64; 2],
    /// Upper right corner.
    pub high: [f64; 2],
    /// Lines where the surface turns away.
    pub outlines: Vec<Vec<[f64; 2]>>,
    /// Lines along sharp edges.
    pub edges: Vec<Vec<[f64; 2]>>,
}

impl View {
    /// Place of a point of the file, both in mm.
    pub fn place(&self, point_mm: [f64; 3]) -> [f64; 2] {
        let along = |axis: [f64; 3]| axis.iter().zip(point_mm).map(|(a, p)| a * p).sum();
        [along(self.right), along(self.up)]
    }
}

/// Draws a part of a mesh in its frame from some sides.
pub fn draw(mesh: &Mesh, frame: &Frame, sides: [Viewed; 3]) -> Drawing {
    Drawing { views: map_in_order(sides.len(), |k| view(mesh, frame, sides[k])) }
}

fn view(mesh: &Mesh, frame: &Frame, (side, right, up): (Side, Vector3<f64>, Vector3<f64>)) -> View {
    let toward = right.cross(&up);
    let seen: Vec<Point3<f64>> = mesh
        .points()
        .iter()
        .map(|p| Point3::new(right.dot(&p.coords), up.dot(&p.coords), toward.dot(&p.coords)))
        .collect();
    let facing = Turned::new(mesh.facets(), &seen);
    let depth = DepthMap::new(mesh.facets(), &seen, &facing, CELLS);
    let lines = drawn(mesh, &seen, &facing, &depth);
    let of = |kind: LineKind| {
        let chains = chained(lines.iter().filter(|line| line.kind == kind));
        chains.iter().map(|chain| simplified(chain, TOLERANCE * depth.cell())).collect::<Vec<_>>()
    };
    let [outlines, edges] = fewest([of(LineKind::Outline), of(LineKind::Edge)], MOST_POINTS);
    // The frame's origin lies somewhere in the file.
    let [right, up] = [right, up].map(|axis| frame.direction_to_file(&axis));
    let origin = frame.to_file(&Point3::origin()).coords;
    let shift = [right.dot(&origin), up.dot(&origin)];
    let placed = |[u, v]: [f64; 2]| [(u + shift[0]) * 1e3, (v + shift[1]) * 1e3];
    let all = |lines: Vec<Vec<[f64; 2]>>| lines.into_iter().map(|l| l.into_iter().map(placed).collect()).collect();
    let (low, high) = depth.bounds();
    View {
        side,
        right: right.into(),
        up: up.into(),
        low: placed(low),
        high: placed(high),
        outlines: all(outlines),
        edges: all(edges),
    }
}
