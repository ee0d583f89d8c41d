use nalgebra::{Point3, Vector3};

use super::axes::{BoreDirections, bore_directions};
use super::bore::Bore;
use super::view::AxisView;
use crate::mesh::Mesh;
use crate::numeric::map_blocks;

/// How coarsely a round wall may be drawn to count as one.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Sight {
    /// Nine walls all round or more: fewer are a prism, not a bore, and the two faces of a slot would fill half a circle
    /// each.
    Round,
    /// Six or more: a bore in very few facets, or a pocket for a nut. Only to be asked about.
    Coarse,
}

impl Sight {
    /// Walls all round, at least.
    fn least_walls(self) -> f64 {
        match self {
            Self::Round => 9.0,
            Self::Coarse => 6.0,
        }
    }

    /// Widest angle of a single wall seen from the axis, radians; a degree is left for corners that miss their circle.
    pub(super) fn widest_wall(self) -> f64 {
        core::f64::consts::TAU / self.least_walls() + 1.0 / 180.0 * core::f64::consts::PI
    }
}

/// The bores of a body, looked for one direction after another, the most likely direction first.
///
/// For each direction with hollow round walls, the facet normals square to it vote for the points they meet in; each
/// meeting point becomes a least-squares circle over the facet corners, split by radius.
pub struct BoreSearch<'mesh> {
    mesh: &'mesh Mesh,
    normals: Vec<Vector3<f64>>,
    directions: BoreDirections,
    sight: Sight,
    found: Vec<Bore>,
}

impl<'mesh> BoreSearch<'mesh> {
    /// Prepares the search.
    pub fn new(mesh: &'mesh Mesh) -> Self {
        Self::with(mesh, Sight::Round)
    }

    /// Prepares the search of bores drawn more or less coarsely.
    pub(super) fn with(mesh: &'mesh Mesh, sight: Sight) -> Self {
        let normals = unit_normals(mesh);
        let directions = bore_directions(mesh, &normals, sight);
        Self { mesh, normals, directions, sight, found: Vec::new() }
    }

    /// Every bore there is.
    pub(super) fn all(mut self) -> Vec<Bore> {
        while self.advance() {}
        self.found
    }

    /// The bore of about this radius round an axis through a point, whatever else there is.
    pub(super) fn round_axis(&self, point: &Point3<f64>, axis: Vector3<f64>, radius: f64) -> Option<Bore> {
        AxisView::along(self.mesh, &self.normals, axis, self.sight).bore_round(point, radius)
    }

    /// Looks along the next direction; `false` when there is none left.
    pub fn advance(&mut self) -> bool {
        let Some(direction) = self.directions.next() else { return false };
        for bore in AxisView::along(self.mesh, &self.normals, direction, self.sight).bores() {
            if !self.found.iter().any(|known| same(known, &bore)) {
                self.found.push(bore);
            }
        }
        true
    }

    /// What was found so far.
    pub fn found(&self) -> &[Bore] {
        &self.found
    }
}

/// The round outsides of a body, as bores turned inside out: with every normal reversed a bulging wall is a hollow one.
pub(super) fn round_outsides(mesh: &Mesh) -> Vec<Bore> {
    let inward: Vec<Vector3<f64>> = unit_normals(mesh).iter().map(|normal| -normal).collect();
    let mut found: Vec<Bore> = Vec::new();
    for direction in bore_directions(mesh, &inward, Sight::Round) {
        for outside in AxisView::along(mesh, &inward, direction, Sight::Round).bores() {
            if !found.iter().any(|known| same(known, &outside)) {
                found.push(outside);
            }
        }
    }
    found
}

fn unit_normals(mesh: &Mesh) -> Vec<Vector3<f64>> {
    map_blocks(mesh.facets().len(), 65_536, |range| {
        range.map(|f| mesh.area_vector(f).try_normalize(0.0).unwrap_or_default()).collect::<Vec<_>>()
    })
    .concat()
}

fn same(a: &Bore, b: &Bore) -> bool {
    let apart = b.center - a.center;
    let beside = apart - a.axis * a.axis.dot(&apart);
    a.axis.dot(&b.axis).abs() > 0.999 && beside.norm() < 0.1 * a.main().radius
}
