use core::f64::consts::PI;

use nalgebra::{Point3, Vector3};

use crate::part::{Eye, Frame};
use crate::verdict::End;

/// A bore as a pin meets it: its facets, and bands of angle over which pressure changes linearly.
#[derive(Debug, Clone)]
pub(super) struct Bore {
    pub(super) end: End,
    pub(super) facets: Vec<usize>,
    pub(super) center: Point3<f64>,
    pub(super) axis: Vector3<f64>,
    pub(super) radius: f64,
    pub(super) half: bool,
}

/// Angles from the rod's end at which bands have their peaks, degrees; both sides of the rod at once.
///
/// Narrow where a loose pin touches little, wide beside the rod.
pub(super) const BANDS: [f64; 15] =
    [0.0, 8.0, 17.0, 28.0, 42.0, 58.0, 74.0, 90.0, 106.0, 122.0, 138.0, 152.0, 163.0, 172.0, 180.0];

/// A facet of the bore has its middle within this share of the radius, beyond its own flatness, and faces the axis.
const NEAR: f64 = 0.01;

impl Bore {
    pub(super) fn new(end: End, eye: &Eye, frame: &Frame, mesh: &crate::mesh::Mesh) -> Self {
        let seat = eye.bore.main();
        let axis = frame.direction(&eye.bore.axis).try_normalize(0.0).unwrap_or(Vector3::z());
        let center = eye.center;
        let (radius, reach) = (seat.radius, NEAR * seat.radius + 1.5 * seat.sagitta);
        // Seats are measured along the bore's own axis from its centre.
        let (from, to) = (seat.from - NEAR * radius, seat.to + NEAR * radius);
        let facets = (0..mesh.facets().len())
            .filter(|&facet| {
                let arm = mesh.middle(facet) - center;
                let along = axis.dot(&arm);
                let across = arm - axis * along;
                let distance = across.norm();
                let Some(normal) = mesh.area_vector(facet).try_normalize(0.0) else { return false };
                (distance - radius).abs() <= reach
                    && (from..=to).contains(&along)
                    && normal.dot(&across) < -0.8 * distance
            })
            .collect();
        Self { end, facets, center, axis, radius, half: eye.half }
    }

    /// Unit vector away from the shank.
    pub(super) fn outward(&self) -> Vector3<f64> {
        Vector3::x() * if self.end == End::Small { -1.0 } else { 1.0 }
    }

    /// Unit vector from the axis to a point.
    pub(super) fn radial(&self, point: &Point3<f64>) -> Vector3<f64> {
        let arm = point - self.center;
        (arm - self.axis * self.axis.dot(&arm)).try_normalize(0.0).unwrap_or_default()
    }

    /// Angle of a point from the rod's end, either side, rad.
    pub(super) fn angle(&self, point: &Point3<f64>) -> f64 {
        libm::acos(self.radial(point).dot(&self.outward()).clamp(-1.0, 1.0))
    }

    /// Share that a band has in the pressure at a point, 0 to 1; all bands together have 1.
    pub(super) fn share(&self, band: usize, point: &Point3<f64>) -> f64 {
        let degrees = self.angle(point) * 180.0 / PI;
        let at = BANDS[band];
        let side = if degrees < at { band.checked_sub(1) } else { (band + 1 < BANDS.len()).then_some(band + 1) };
        side.map_or(1.0, |next| (1.0 - (degrees - at).abs() / (BANDS[next] - at).abs()).max(0.0))
    }

    /// Whether a point lies on the wall that the pin presses.
    pub(super) fn touches(&self, point: &Point3<f64>, normal: &Vector3<f64>) -> bool {
        let arm = point - self.center;
        let across = arm - self.axis * self.axis.dot(&arm);
        (across.norm() - self.radius).abs() <= 0.05 * self.radius && normal.dot(&across) < -0.8 * across.norm()
    }
}
