use core::f64::consts::FRAC_PI_2;

use nalgebra::{Point3, Vector3};

use super::shape::LEVEL;
use super::sphere::ring;

/// What of a part the first layer lays on the bed.
#[derive(Debug, Default)]
pub(super) struct Footing {
    /// As seen from above, m².
    pub(super) area: f64,
    /// Corners of its pieces.
    corners: Vec<Point3<f64>>,
}

impl Footing {
    /// Adds a facet as far as it looks down and lies below the top of the first layer.
    pub(super) fn add(&mut self, facet: [Point3<f64>; 3], build: &Vector3<f64>, top: f64) {
        let [a, b, c] = facet;
        let twice = (b - a).cross(&(c - a));
        if -twice.dot(build) <= LEVEL * twice.norm() {
            return;
        }
        let start = self.corners.len();
        for k in 0..3 {
            let (from, to) = (facet[k], facet[(k + 1) % 3]);
            let [over, next] = [from, to].map(|at| build.dot(&at.coords) - top);
            if over <= 0.0 {
                self.corners.push(from);
            }
            if (over < 0.0 && next > 0.0) || (over > 0.0 && next < 0.0) {
                self.corners.push(from + (to - from) * (over / (over - next)));
            }
        }
        let piece = &self.corners[start..];
        if let [first, rest @ ..] = piece {
            let fan = rest.windows(2).map(|pair| (pair[0] - first).cross(&(pair[1] - first)));
            self.area -= fan.sum::<Vector3<f64>>().dot(build) / 2.0;
        }
    }

    /// Height of the centre of mass over its least distance from the edge of the footing; infinite where it does not lie
    /// over it.
    pub(super) fn tip_ratio(&self, build: &Vector3<f64>, center_of_mass: &Point3<f64>, bottom: f64) -> f64 {
        /// Directions in which the footing's edge is looked for.
        const SIDES: usize = 24;
        let height = build.dot(&center_of_mass.coords) - bottom;
        let reach = |side: &Vector3<f64>| {
            let along = self.corners.iter().map(|point| side.dot(&(point - center_of_mass)));
            along.fold(f64::NEG_INFINITY, f64::max)
        };
        let arm = ring(build, FRAC_PI_2, SIDES).iter().map(reach).fold(f64::INFINITY, f64::min);
        if arm > 0.0 { height / arm } else { f64::INFINITY }
    }
}
