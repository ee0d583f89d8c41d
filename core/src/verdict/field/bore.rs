use core::f64::consts::PI;
use std::sync::Arc;

use nalgebra::{Point3, Vector3};

use super::solved::Pressing;
use crate::mesh::Mesh;

/// A bore as a pin meets it: its facets, and bands of angle over which pressure changes linearly.
#[derive(Debug, Clone)]
pub(crate) struct PinnedBore {
    /// Whose it is, in words.
    pub(crate) words: &'static str,
    pub(crate) facets: Vec<usize>,
    pub(crate) center: Point3<f64>,
    pub(crate) axis: Vector3<f64>,
    /// Unit vector square to the axis from which angles count.
    pub(crate) outward: Vector3<f64>,
    pub(crate) radius: f64,
    /// Distances from the radius within which a surface is its wall, m.
    reach: f64,
}

/// Where along its axis a bore has a wall, m from its centre, with its radius and the error of its tessellation.
#[derive(Debug, Clone, Copy)]
pub(crate) struct BoreSeat {
    pub(crate) radius: f64,
    pub(crate) sagitta: f64,
    pub(crate) from: f64,
    pub(crate) to: f64,
}

/// Angles from the outward direction at which bands have their peaks, degrees; both sides at once.
///
/// Narrow where a loose pin touches little, wide beside that.
pub(crate) const BANDS: [f64; 15] =
    [0.0, 8.0, 17.0, 28.0, 42.0, 58.0, 74.0, 90.0, 106.0, 122.0, 138.0, 152.0, 163.0, 172.0, 180.0];

/// A facet of the bore has its middle within this share of the radius, beyond its own flatness, and faces the axis.
const NEAR: f64 = 0.01;

/// A point whose distance from the axis is within this share of the radius and that faces the axis lies on the wall.
const WALL: f64 = 0.05;

impl PinnedBore {
    /// Round a centre and an axis; angles count from `outward`.
    pub(crate) fn new(
        words: &'static str,
        mesh: &Mesh,
        (center, axis, outward): (Point3<f64>, Vector3<f64>, Vector3<f64>),
        seat: BoreSeat,
    ) -> Self {
        let axis = axis.try_normalize(0.0).unwrap_or(Vector3::z());
        let (radius, reach) = (seat.radius, NEAR * seat.radius + 1.5 * seat.sagitta);
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
        Self { words, facets, center, axis, outward, radius, reach: reach.max(WALL * radius) }
    }

    /// Unit vector from the axis to a point.
    pub(crate) fn radial(&self, point: &Point3<f64>) -> Vector3<f64> {
        let arm = point - self.center;
        (arm - self.axis * self.axis.dot(&arm)).try_normalize(0.0).unwrap_or_default()
    }

    /// Angle of a point from the outward direction, either side, rad.
    pub(crate) fn angle(&self, point: &Point3<f64>) -> f64 {
        libm::acos(self.radial(point).dot(&self.outward).clamp(-1.0, 1.0))
    }

    /// Share that a band has in the pressure at a point, 0 to 1; all bands together have 1.
    pub(crate) fn share(&self, band: usize, point: &Point3<f64>) -> f64 {
        share_at(band, self.angle(point) * 180.0 / PI)
    }

    /// The shares of all bands.
    pub(crate) fn shares(&self, point: &Point3<f64>) -> [f64; BANDS.len()] {
        let degrees = self.angle(point) * 180.0 / PI;
        std::array::from_fn(|band| share_at(band, degrees))
    }

    /// Whether a point lies on the wall that the pin presses.
    pub(crate) fn touches(&self, point: &Point3<f64>, normal: &Vector3<f64>) -> bool {
        let arm = point - self.center;
        let across = arm - self.axis * self.axis.dot(&arm);
        (across.norm() - self.radius).abs() <= self.reach && normal.dot(&across) < -0.8 * across.norm()
    }
}

/// Share of a band at an angle, degrees.
fn share_at(band: usize, degrees: f64) -> f64 {
    let at = BANDS[band];
    let side = if degrees < at { band.checked_sub(1) } else { (band + 1 < BANDS.len()).then_some(band + 1) };
    side.map_or(1.0, |next| (1.0 - (degrees - at).abs() / (BANDS[next] - at).abs()).max(0.0))
}

/// A pressure of 1 Pa on one band of a bore.
#[derive(Debug)]
pub(crate) struct BandPush(pub(crate) Arc<PinnedBore>, pub(crate) usize);

impl Pressing for BandPush {
    fn facets(&self) -> &[usize] {
        &self.0.facets
    }

    fn pressure(&self, point: &Point3<f64>, normal: &Vector3<f64>) -> f64 {
        if self.0.touches(point, normal) { self.0.share(self.1, point) } else { 0.0 }
    }
}

/// A push of 1 N along y on the wall of a bore, with the pressure straight along, Pa: spread as the sine of the angle from the
/// outward direction, a pull on the far side.
#[derive(Debug)]
pub(crate) struct SidePush(pub(crate) Arc<PinnedBore>, pub(crate) f64);

impl Pressing for SidePush {
    fn facets(&self) -> &[usize] {
        &self.0.facets
    }

    fn pressure(&self, point: &Point3<f64>, normal: &Vector3<f64>) -> f64 {
        if self.0.touches(point, normal) { self.0.radial(point).y * self.1 } else { 0.0 }
    }
}
