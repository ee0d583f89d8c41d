use nalgebra::Vector3;

use crate::verdict::NamedStrength;

/// Strength by build direction, with the stresses of one of them.
pub trait Facing: Send + Sync {
    /// Strength with layers stacked along a unit vector of the part's frame.
    fn along(&self, build: &Vector3<f64>) -> NamedStrength;

    /// Whether one more direction costs next to nothing, so that many all over the sphere can be asked. Else the named ones and
    /// those on a face of the part are.
    fn everywhere(&self) -> bool {
        true
    }
}
