use std::sync::Arc;

use nalgebra::{Point3, Vector3};

use super::solved::Pressing;
use crate::field::PinnedBore;

/// A pressure of 1 Pa on one band of a bore.
#[derive(Debug)]
pub(crate) struct BandPush(pub(crate) Arc<PinnedBore>, pub(crate) usize);

impl Pressing for BandPush {
    fn facets(&self) -> &[usize] {
        &self.0.facets
    }

    fn pressure(&self, point: &Point3<f64>, normal: &Vector3<f64>) -> f64 {
        self.0.band_pressure(self.1, point, normal)
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
        self.0.side_pressure(point, normal) * self.1
    }
}
