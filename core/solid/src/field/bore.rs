use core::f64::consts::PI;

use nalgebra::{Point3, Vector3};

use crate::mesh::Mesh;

/// A bore as a pin meets it: its facets, and bands of angle over which pressure changes linearly.
#[derive(Debug, Clone)]
pub struct PinnedBore {
    /// Whose it is, in words.
    pub words: &'static str,
    /// Facets of its wall.
    pub facets: Vec<usize>,
    /// A point of its axis, m.
    pub center: Point3<f64>,
    /// Unit vector along its axis.
    pub axis: Vector3<f64>,
    /// Unit vector square to the axis from which angles count.
    pub outward: Vector3<f64>,
    /// Radius of its wall, m.
    pub radius: f64,
    /// Distances from the radius within which a surface is its wall, m.
    reach: f64,
}

/// Where along its axis a bore has a wall, m from its centre, with its radius and the error of its tessellation.
#[derive(Debug, Clone, Copy)]
pub struct BoreSeat {
    /// Radius, m.
    pub radius: f64,
    /// How far the middle of a facet's side lies inside the round, m.
    pub sagitta: f64,
    /// Where it begins, m.
    pub from: f64,
    /// Where it ends, m.
    pub to: f64,
}

/// Angles from the outward direction at which bands have their peaks, degrees; both sides at once.
///
/// Narrow where a loose pin touches little, wide beside that.
pub const BANDS: [f64; 15] =
    [0.0, 8.0, 17.0, 28.0, 42.0, 58.0, 74.0, 90.0, 106.0, 122.0, 138.0, 152.0, 163.0, 172.0, 180.0];

/// A facet of the bore has its middle within this share of the radius, beyond its own flatness, and faces the axis.
const NEAR: f64 = 0.01;

/// A point whose distance from the axis is within this share of the radius and that faces the axis lies on the wall.
const WALL: f64 = 0.05;

impl PinnedBore {
    /// Round a centre and an axis; angles count from `outward`.
    pub fn new(
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
    pub fn radial(&self, point: &Point3<f64>) -> Vector3<f64> {
        let arm = point - self.center;
        (arm - self.axis * self.axis.dot(&arm)).try_normalize(0.0).unwrap_or_default()
    }

    /// Angle of a point from the outward direction, either side, rad.
    pub fn angle(&self, point: &Point3<f64>) -> f64 {
        libm::acos(self.radial(point).dot(&self.outward).clamp(-1.0, 1.0))
    }

    /// Share that a band has in the pressure at a point, 0 to 1; all bands together have 1.
    pub fn share(&self, band: usize, point: &Point3<f64>) -> f64 {
        share_at(band, self.angle(point) * 180.0 / PI)
    }

    /// The shares of all bands.
    pub fn shares(&self, point: &Point3<f64>) -> [f64; BANDS.len()] {
        let degrees = self.angle(point) * 180.0 / PI;
        std::array::from_fn(|band| share_at(band, degrees))
    }

    /// Pressure at a point of the surface with its outward unit normal where one band has a pressure of 1, Pa.
    pub fn band_pressure(&self, band: usize, point: &Point3<f64>, normal: &Vector3<f64>) -> f64 {
        if self.touches(point, normal) { self.share(band, point) } else { 0.0 }
    }

    /// The same where pressure is the sine of the angle from the outward direction, seen along y.
    pub fn side_pressure(&self, point: &Point3<f64>, normal: &Vector3<f64>) -> f64 {
        if self.touches(point, normal) { self.radial(point).y } else { 0.0 }
    }

    /// Whether a point lies on the wall that the pin presses.
    pub fn touches(&self, point: &Point3<f64>, normal: &Vector3<f64>) -> bool {
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
