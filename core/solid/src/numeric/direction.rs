use nalgebra::Vector3;

/// Unit vector along `direction`, or `None` when it is zero or not finite.
///
/// Scaled by the largest component first, so that neither very large nor very small numbers lose the direction.
pub fn unit(direction: &Vector3<f64>) -> Option<Vector3<f64>> {
    let greatest = direction.amax();
    let usable = direction.iter().all(|c| c.is_finite()) && greatest > 0.0;
    usable.then(|| (direction / greatest).normalize())
}
