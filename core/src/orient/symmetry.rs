use nalgebra::{Point3, Vector3};

use super::shape::Shape;

/// Across which planes of its frame a part is its own mirror image.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Mirrors {
    /// Across the plane through the line of centres and the pins.
    pub side_to_side: bool,
    /// Across the plane of the engine.
    pub front_to_back: bool,
}

/// A mirrored point may miss the surface by this share of the part's size: below what a print shows.
const TOLERANCE: f64 = 1e-3;

/// Finds the mirror planes of a part in the frame of a rod; `middle_z` is half way through it along the pins, m.
pub fn mirrors(shape: &Shape, middle_z: f64) -> Mirrors {
    let limit = TOLERANCE * shape.size();
    let fits = |mirrored: &dyn Fn(&Point3<f64>) -> Point3<f64>| {
        shape.points().all(|point| shape.distance(&mirrored(point), limit).is_some())
    };
    Mirrors {
        side_to_side: fits(&|p| Point3::new(p.x, -p.y, p.z)),
        front_to_back: fits(&|p| Point3::new(p.x, p.y, 2.0 * middle_z - p.z)),
    }
}

impl Mirrors {
    /// Of a direction and its mirror images the one that stands for all.
    pub fn representative(self, direction: &Vector3<f64>) -> Vector3<f64> {
        let mut kept = *direction;
        if self.side_to_side {
            kept.y = kept.y.abs();
        }
        if self.front_to_back {
            kept.z = kept.z.abs();
        }
        kept
    }

    /// Whether a direction is the one kept of its mirror images.
    pub fn keeps(self, direction: &Vector3<f64>) -> bool {
        self.representative(direction) == *direction
    }
}
