use nalgebra::{Point3, Vector3};

use super::edge::FACING;
use super::surface::Surface;

/// Edges at which two sides that close in by less than 28 degrees meet.
pub(super) struct Knife {
    /// Along all of them, m.
    pub(super) length: f64,
    /// Their middle, m.
    pub(super) middle: Point3<f64>,
    /// Area of one side over which two planes at these angles are nearer together than the limit, m².
    pub(super) area: f64,
}

/// Places along an edge that are looked at, to leave out what lies inside another shell.
const PLACES: u32 = 8;

impl Knife {
    /// The sharp edges between some facets, given in rising order; `None` where there are none.
    pub(super) fn of(surface: &Surface<'_>, facets: &[u32], limit: f64) -> Option<Self> {
        let (mut length, mut area, mut moment) = (0.0, 0.0, Vector3::zeros());
        for &number in facets {
            let facet = &surface.facets[number as usize];
            for k in 0..3 {
                let beside = surface.mesh.opposite(3 * number as usize + k) / 3;
                let other = &surface.facets[beside].normal;
                let (from, side) = (facet.corners[k], facet.corners[(k + 1) % 3] - facet.corners[k]);
                let between = facet.normal.dot(other);
                // Each edge once; hollow ones are slots.
                let sharp = (number as usize) < beside
                    && between < FACING
                    && facet.normal.cross(other).dot(&side) > 0.0
                    && facets.binary_search(&(beside as u32)).is_ok();
                if !sharp {
                    continue;
                }
                let places = (0..PLACES).map(|at| from + side * ((f64::from(at) + 0.5) / f64::from(PLACES)));
                let open: Vec<Point3<f64>> =
                    places.filter(|at| surface.is_open(number as usize, at) && surface.is_open(beside, at)).collect();
                let part = side.norm() / f64::from(PLACES);
                // Half the angle between the sides from that between their normals.
                let half = ((1.0 + between) / (1.0 - between)).max(0.0).sqrt();
                length += part * open.len() as f64;
                area += part * open.len() as f64 * limit / (2.0 * half.max(1e-3));
                moment += open.iter().map(|at| at.coords * part).sum::<Vector3<f64>>();
            }
        }
        (length > 0.0).then(|| Self { length, middle: Point3::from(moment / length), area })
    }
}
