//! A cap that lies beside its rod in the file, a little apart.

use core::f64::consts::TAU;

use nalgebra::{Isometry3, Point3, Vector3};

use super::assembly::has_wall;
use super::bore::Bore;
use super::frame::Frame;
use crate::mesh::{Body, Mesh, SKIN};

/// A cap this near to its rod is drawn on it, m: half a usual layer, nearer than printed faces come.
const NEAR: f64 = 0.1e-3;

/// A cap for the half bore of a rod among the bodies of its file.
pub(super) struct DrawnCap {
    /// Which body.
    index: usize,
    /// Which way it lies from the rod, in the file.
    outward: Vector3<f64>,
    /// How far from the rod, m.
    pub(super) gap: f64,
}

/// Looks for the other half of a bore of which the rod has half.
pub(super) fn beside(bodies: &[Body], rod: usize, bores: [&Bore; 2], frame: &Frame) -> Option<DrawnCap> {
    let x = frame.direction_to_file(&Vector3::x());
    bores.into_iter().zip([-x, x]).filter(|(bore, _)| bore.main().arc < 0.75 * TAU).find_map(|(bore, outward)| {
        let reach = |p: &Point3<f64>| (p - bore.center).dot(&outward);
        let joint = bodies[rod].mesh.points().iter().map(reach).fold(f64::NEG_INFINITY, f64::max);
        (0..bodies.len()).filter(|&index| index != rod).find_map(|index| {
            let mesh = &bodies[index].mesh;
            let gap = mesh.points().iter().map(reach).fold(f64::INFINITY, f64::min) - joint;
            let reach = NEAR + SKIN + 0.01 * bore.main().radius;
            let on_bore = || has_wall(mesh, bore, reach);
            (gap > 0.0 && gap <= NEAR && on_bore()).then_some(DrawnCap { index, outward, gap })
        })
    })
}

impl DrawnCap {
    /// The bodies with the cap moved onto the rod, both one body, and which of them.
    pub(super) fn clamped(&self, mut bodies: Vec<Body>, rod: usize) -> (Vec<Body>, usize) {
        let cap = bodies.remove(self.index);
        let rod = if self.index < rod { rod - 1 } else { rod };
        let onto =
            Isometry3::translation(-self.gap * self.outward.x, -self.gap * self.outward.y, -self.gap * self.outward.z);
        let body = &mut bodies[rod];
        body.mesh = Mesh::together(&[&body.mesh, &cap.mesh.moved(&onto)]);
        body.outer_shells += cap.outer_shells;
        body.voids += cap.voids;
        (bodies, rod)
    }
}
