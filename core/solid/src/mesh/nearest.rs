use nalgebra::Point3;
use parry3d::math::Vector;
use parry3d::query::PointQuery;

use super::shells::winding;
use super::solid::Mesh;

impl Mesh {
    /// The point of the surface that is nearest to another.
    pub fn nearest(&self, point: &Point3<f64>) -> Option<Point3<f64>> {
        let from = Vector::new(point.x, point.y, point.z);
        let feet = (0..self.facets().len()).map(|facet| {
            let foot = self.triangle(facet).project_local_point(from, true).point;
            Point3::new(foot.x, foot.y, foot.z)
        });
        feet.min_by(|a, b| (a - point).norm_squared().total_cmp(&(b - point).norm_squared()))
    }

    /// Whether a point lies in its material.
    pub fn holds(&self, point: &Point3<f64>) -> bool {
        winding((0..self.facets().len()).map(|facet| self.corners(facet)), point) > 0.5
    }
}
