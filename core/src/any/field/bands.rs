use core::f64::consts::TAU;
use std::sync::Arc;

use nalgebra::{Point3, Vector2, Vector3};

use crate::any::found::FoundBore;
use crate::any::patch::Patch;
use crate::verdict::field::Pressing;

/// Bands of angle round a bore over which pressure changes linearly: a pin that touches little still spans two.
pub(crate) const BANDS: usize = 45;

/// A bore as a pin from any side meets it.
#[derive(Debug, Clone)]
pub(crate) struct RoundBore {
    center: Point3<f64>,
    axis: Vector3<f64>,
    pub(crate) right: Vector3<f64>,
    pub(crate) up: Vector3<f64>,
    radius: f64,
    /// Distances from the radius within which a surface is its wall, m.
    reach: f64,
    facets: Vec<usize>,
    from: f64,
    to: f64,
}

impl RoundBore {
    pub(crate) fn new(bore: &FoundBore, patch: &Patch) -> Self {
        let axis = bore.axis;
        let right = axis.cross(&Vector3::ith(axis.iamin(), 1.0)).try_normalize(0.0).unwrap_or(Vector3::x());
        let up = axis.cross(&right);
        let radius = bore.seat.radius;
        let ends = 0.01 * radius;
        Self {
            center: bore.center,
            axis,
            right,
            up,
            radius,
            reach: bore.reach().max(0.05 * radius),
            facets: patch.facets.clone(),
            from: bore.seat.from - ends,
            to: bore.seat.to + ends,
        }
    }

    pub(crate) fn facets(&self) -> &[usize] {
        &self.facets
    }

    /// From its axis to a point, square to it.
    fn across(&self, point: &Point3<f64>) -> Vector3<f64> {
        let arm = point - self.center;
        arm - self.axis * self.axis.dot(&arm)
    }

    /// A force or a motion as the pin sees it: square to its axis.
    pub(crate) fn square(&self, vector: &Vector3<f64>) -> Vector2<f64> {
        Vector2::new(self.right.dot(vector), self.up.dot(vector))
    }

    /// Where its axis is.
    pub(crate) fn center(&self) -> &Point3<f64> {
        &self.center
    }

    /// Whether a point with its outward normal lies on the wall.
    pub(crate) fn touches(&self, point: &Point3<f64>, normal: &Vector3<f64>) -> bool {
        let across = self.across(point);
        let along = self.axis.dot(&(point - self.center));
        (across.norm() - self.radius).abs() <= self.reach
            && (self.from..=self.to).contains(&along)
            && normal.dot(&across) < -0.8 * across.norm()
    }

    /// The two bands that share the pressure at a point, each with its share.
    pub(crate) fn shares(&self, point: &Point3<f64>) -> [(usize, f64); 2] {
        let across = self.square(&self.across(point));
        let turn = libm::atan2(across.y, across.x) / TAU;
        let at = (turn - turn.floor()) * BANDS as f64;
        let below = at.floor();
        let band = (below as usize) % BANDS;
        [(band, 1.0 - (at - below)), ((band + 1) % BANDS, at - below)]
    }
}

/// A pressure of 1 Pa on one band of a bore.
#[derive(Debug)]
pub(crate) struct RoundPush(pub(crate) Arc<RoundBore>, pub(crate) usize);

impl Pressing for RoundPush {
    fn facets(&self) -> &[usize] {
        self.0.facets()
    }

    fn pressure(&self, point: &Point3<f64>, normal: &Vector3<f64>) -> f64 {
        if !self.0.touches(point, normal) {
            return 0.0;
        }
        self.0.shares(point).into_iter().filter(|(band, _)| *band == self.1).map(|(_, share)| share).sum()
    }
}
