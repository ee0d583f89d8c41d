use nalgebra::Point3;

use super::solid::Mesh;
use crate::numeric::map_blocks;

/// A connected closed surface within a mesh.
#[derive(Debug, Clone)]
pub(super) struct Shell {
    pub(super) facets: Vec<u32>,
    /// Signed volume, m³: negative for the wall of a void.
    pub(super) volume: f64,
    pub(super) low: Point3<f64>,
    pub(super) high: Point3<f64>,
}

/// Splits a mesh into its shells, in the order of their first facets, with the shell number of each facet.
pub(super) fn shells(mesh: &Mesh) -> (Vec<Shell>, Vec<u32>) {
    const UNSEEN: u32 = u32::MAX;
    let mut owner = vec![UNSEEN; mesh.facets().len()];
    let mut sizes = Vec::new();
    let mut stack = Vec::new();
    for seed in 0..owner.len() {
        if owner[seed] != UNSEEN {
            continue;
        }
        let number = sizes.len() as u32;
        let mut size = 0_usize;
        owner[seed] = number;
        stack.push(seed);
        while let Some(facet) = stack.pop() {
            size += 1;
            for k in 0..3 {
                let next = mesh.opposite(3 * facet + k) / 3;
                if owner[next] == UNSEEN {
                    owner[next] = number;
                    stack.push(next);
                }
            }
        }
        sizes.push(size);
    }
    let mut members: Vec<Vec<u32>> = sizes.into_iter().map(Vec::with_capacity).collect();
    for (facet, &number) in owner.iter().enumerate() {
        members[number as usize].push(facet as u32);
    }
    (members.into_iter().map(|facets| measured(mesh, facets)).collect(), owner)
}

fn measured(mesh: &Mesh, facets: Vec<u32>) -> Shell {
    const BLOCK: usize = 65_536;
    let whole = (Point3::from([f64::INFINITY; 3]), Point3::from([f64::NEG_INFINITY; 3]));
    let corners = |range: core::ops::Range<usize>| facets[range].iter().map(|&f| mesh.corners(f as usize));
    let boxes = map_blocks(facets.len(), BLOCK, |range| {
        corners(range).flatten().fold(whole, |(low, high), p| (low.inf(&p), high.sup(&p)))
    });
    let (low, high) = boxes.into_iter().fold(whole, |(low, high), b| (low.inf(&b.0), high.sup(&b.1)));
    let reference = nalgebra::center(&low, &high);
    let volumes = map_blocks(facets.len(), BLOCK, |range| {
        let sixfold = corners(range).map(|[a, b, c]| (a - reference).dot(&(b - reference).cross(&(c - reference))));
        sixfold.sum::<f64>() / 6.0
    });
    Shell { volume: volumes.into_iter().sum(), facets, low, high }
}

/// A shell of less than this share of the cube of its size is a sheet: its volume is the rounding of 32-bit coordinates.
const FLAT: f64 = 1e-6;

impl Shell {
    /// Whether it encloses nothing.
    pub(super) fn is_flat(&self) -> bool {
        let size = (self.high - self.low).norm();
        self.volume.abs() <= FLAT * size * size * size
    }

    pub(super) fn box_meets(&self, other: &Self, margin: f64) -> bool {
        (0..3).all(|k| self.low[k] - margin <= other.high[k] && other.low[k] - margin <= self.high[k])
    }

    /// Times the surface winds round `point`: 1 inside, 0 outside.
    pub(super) fn winding(&self, mesh: &Mesh, point: &Point3<f64>) -> f64 {
        winding(self.facets.iter().map(|&f| mesh.corners(f as usize)), point)
    }
}

/// Times a closed surface winds round a point, by the sum of solid angles (Van Oosterom & Strackee 1983).
pub(super) fn winding(facets: impl Iterator<Item = [Point3<f64>; 3]>, point: &Point3<f64>) -> f64 {
    let sum: f64 = facets
        .map(|corners| {
            let [a, b, c] = corners.map(|p| p - point);
            let (la, lb, lc) = (a.norm(), b.norm(), c.norm());
            let below = la * lb * lc + a.dot(&b) * lc + b.dot(&c) * la + c.dot(&a) * lb;
            libm::atan2(a.dot(&b.cross(&c)), below)
        })
        .sum();
    sum / core::f64::consts::TAU
}
