use nalgebra::Vector3;

use crate::verdict::NamedStrength;

/// Strength by build direction, with the stresses of one of them.
pub trait Facing: Send + Sync {
    /// Strength with layers stacked along a unit vector of the part's frame.
    fn along(&self, build: &Vector3<f64>) -> NamedStrength;
}
