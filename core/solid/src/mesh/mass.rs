use nalgebra::{Matrix3, Point3, Vector3};

/// Volume integrals of a closed surface.
///
/// By signed tetrahedra from a reference point inside the box (Mirtich, "Fast and accurate computation of polyhedral
/// mass properties", 1996); exact for the facets given, up to rounding.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MassProperties {
    /// Volume, m³; negative for an inward-facing surface.
    pub volume: f64,
    /// Centroid, m.
    pub centroid: Point3<f64>,
    /// Second moments of volume about the centroid, the integral of `r rᵀ`, m⁵.
    pub second_moments: Matrix3<f64>,
}

impl MassProperties {
    /// Sums over the facets given by their corner points.
    pub fn of(facets: impl Iterator<Item = [Point3<f64>; 3]>, reference: Point3<f64>) -> Self {
        let mut volume = 0.0;
        let mut first = Vector3::zeros();
        let mut second = Matrix3::zeros();
        for [a, b, c] in facets {
            let (a, b, c) = (a - reference, b - reference, c - reference);
            let sixfold = a.dot(&b.cross(&c));
            let sum = a + b + c;
            volume += sixfold;
            first += sum * sixfold;
            second += (a * a.transpose() + b * b.transpose() + c * c.transpose() + sum * sum.transpose()) * sixfold;
        }
        volume /= 6.0;
        first /= 24.0;
        second /= 120.0;
        if volume == 0.0 {
            return Self { volume, centroid: reference, second_moments: second };
        }
        let offset = first / volume;
        Self { volume, centroid: reference + offset, second_moments: second - offset * offset.transpose() * volume }
    }

    /// Inertia tensor about the centroid for unit density, m⁵.
    pub fn inertia(&self) -> Matrix3<f64> {
        Matrix3::identity() * self.second_moments.trace() - self.second_moments
    }
}
