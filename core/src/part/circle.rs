use nalgebra::{Matrix3, Vector2, Vector3};

/// A circle in the plane.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Circle {
    pub(super) center: Vector2<f64>,
    pub(super) radius: f64,
    /// Root mean square distance of the points.
    pub(super) residual: f64,
}

/// Least-squares circle through `points` by Gauss-Newton on the distances, from a nearby start.
///
/// `None` when the points do not determine a circle.
pub(super) fn fit(points: &[Vector2<f64>], start: Vector2<f64>) -> Option<Circle> {
    const STEPS: usize = 20;
    if points.len() < 4 {
        return None;
    }
    let count = points.len() as f64;
    let mut center = start;
    let mut radius = points.iter().map(|p| (p - center).norm()).sum::<f64>() / count;
    for _ in 0..STEPS {
        let mut normal = Matrix3::zeros();
        let mut right = Vector3::zeros();
        for point in points {
            let arm = point - center;
            let distance = arm.norm();
            if distance == 0.0 {
                return None;
            }
            let row = Vector3::new(-arm.x / distance, -arm.y / distance, -1.0);
            normal += row * row.transpose();
            right -= row * (distance - radius);
        }
        let step = normal.cholesky()?.solve(&right);
        center += step.xy();
        radius += step.z;
        if step.norm() <= 1e-13 * radius.abs() {
            break;
        }
    }
    let squares: f64 = points.iter().map(|p| (p - center).norm() - radius).map(|e| e * e).sum();
    (radius > 0.0 && radius.is_finite()).then(|| Circle { center, radius, residual: (squares / count).sqrt() })
}
