use nalgebra::Point3;

use super::frame::Frame;
use crate::mesh::Mesh;
use crate::numeric::map_blocks;

/// Width of a part across the line of centres, in slices along it.
pub(super) struct Profile {
    pub(super) low: f64,
    pub(super) high: f64,
    slice: f64,
    extent: Vec<(f64, f64)>,
}

impl Profile {
    pub(super) fn of(mesh: &Mesh, frame: &Frame, distance: f64) -> Self {
        let points: Vec<Point3<f64>> = mesh.points().iter().map(|p| frame.point(p)).collect();
        let (low, high) =
            points.iter().fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), p| (low.min(p.x), high.max(p.x)));
        let slice = distance / SLICES;
        let count = (((high - low) / slice) as usize + 1).min(4096);
        let partial = map_blocks(mesh.facets().len(), 65_536, |range| {
            let mut extent = vec![(f64::INFINITY, f64::NEG_INFINITY); count];
            for facet in &mesh.facets()[range] {
                for k in 0..3 {
                    let (a, b) = (points[facet[k] as usize], points[facet[(k + 1) % 3] as usize]);
                    // Each edge belongs to two facets; the one in which it rises looks at it.
                    if a.x < b.x {
                        cross(&a, &b, low, slice, &mut extent);
                    }
                }
            }
            extent
        });
        let mut extent = vec![(f64::INFINITY, f64::NEG_INFINITY); count];
        for block in partial {
            for (whole, part) in extent.iter_mut().zip(block) {
                *whole = (whole.0.min(part.0), whole.1.max(part.1));
            }
        }
        Self { low, high, slice, extent }
    }

    /// Greatest distance of the material's middle from the line of centres.
    pub(super) fn offset_between(&self, from: f64, to: f64) -> f64 {
        let middles = self.between(from, to).map(|(low, high)| f64::midpoint(low, high).abs());
        middles.fold(0.0, f64::max)
    }

    /// Greatest distance of material from the line of centres.
    pub(super) fn reach(&self) -> f64 {
        let reaches = self.extent.iter().filter(|e| e.0 < e.1).map(|e| (-e.0).max(e.1));
        reaches.fold(0.0, f64::max)
    }

    fn widths(&self, from: f64, to: f64) -> impl Iterator<Item = f64> {
        self.between(from, to).map(|(low, high)| high - low)
    }

    fn between(&self, from: f64, to: f64) -> impl Iterator<Item = (f64, f64)> {
        let inside = move |index: usize| {
            let plane = self.low + (index as f64 + 0.5) * self.slice;
            (from..=to).contains(&plane)
        };
        self.extent.iter().enumerate().filter(move |(i, e)| inside(*i) && e.0 < e.1).map(|(_, e)| *e)
    }

    pub(super) fn least_between(&self, from: f64, to: f64) -> f64 {
        self.widths(from, to).fold(f64::INFINITY, f64::min)
    }

    pub(super) fn greatest_between(&self, from: f64, to: f64) -> f64 {
        self.widths(from, to).fold(0.0, f64::max)
    }

    pub(super) fn width_near(&self, center: f64, radius: f64) -> f64 {
        self.greatest_between(center - radius, center + radius)
    }
}

/// Slices between the bore centres.
const SLICES: f64 = 48.0;

/// Widens each slice by where an edge crosses its middle plane.
fn cross(a: &Point3<f64>, b: &Point3<f64>, low: f64, slice: f64, extent: &mut [(f64, f64)]) {
    let first = ((a.x - low) / slice + 0.5) as usize;
    for (index, range) in extent.iter_mut().enumerate().skip(first) {
        let plane = low + (index as f64 + 0.5) * slice;
        if plane > b.x {
            break;
        }
        if plane >= a.x {
            let y = a.y + (b.y - a.y) * (plane - a.x) / (b.x - a.x);
            *range = (range.0.min(y), range.1.max(y));
        }
    }
}
