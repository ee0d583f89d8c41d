use std::collections::BTreeMap;

use nalgebra::{Point3, Vector3};

use super::points::SurfacePoints;
use crate::material::Lay;
use crate::numeric::map_in_order;
use crate::print::PrintSettings;
use crate::verdict::lay::lay_under;

/// Lay of the beads at every point: walls under upright surfaces, and in level ones too as far as the walls along their
/// edge reach; beyond, the crossing lines of a skin.
pub(crate) fn lays(points: &SurfacePoints, print: &PrintSettings) -> Vec<Lay> {
    let depth = f64::from(print.walls) * print.bead_width;
    let own: Vec<Lay> = points.points.iter().map(|(_, normal)| lay_under(normal, print)).collect();
    if depth <= 0.0 {
        return own;
    }
    // Points stand for the surface round them: the nearest may lie a little aside.
    let reach = libm::hypot(depth, 0.5 * points.spacing);
    let cell = |point: &Point3<f64>| -> [i64; 3] { [0, 1, 2].map(|axis| (point[axis] / reach).floor() as i64) };
    let mut walls: BTreeMap<[i64; 3], Vec<Point3<f64>>> = BTreeMap::new();
    for ((point, _), _) in points.points.iter().zip(&own).filter(|(_, lay)| **lay == Lay::Wall) {
        walls.entry(cell(point)).or_default().push(*point);
    }
    map_in_order(own.len(), |n| {
        if own[n] == Lay::Wall {
            return Lay::Wall;
        }
        let (point, _) = &points.points[n];
        let home = cell(point);
        let near = (0..27_i64).any(|k| {
            let at = [home[0] + k % 3 - 1, home[1] + k / 3 % 3 - 1, home[2] + k / 9 - 1];
            walls
                .get(&at)
                .is_some_and(|list| list.iter().any(|wall| within(&(wall - point), &print.build, depth, reach)))
        });
        if near { Lay::Wall } else { Lay::Lines }
    })
}

/// Whether a wall at `arm` is in the same layers, nearly, and no farther than the walls are deep.
fn within(arm: &Vector3<f64>, build: &Vector3<f64>, depth: f64, reach: f64) -> bool {
    let up = build.dot(arm);
    up.abs() <= reach && (arm - build * up).norm() <= depth
}
