use nalgebra::{Point3, Vector3};

use crate::mesh::Mesh;
use crate::part::Piston;
use crate::piston::model::PistonModel;
use crate::verdict::field::Pressing;

/// A surface that leans less from straight up than this is part of the upper face.
const UP: f64 = 0.05;

/// A surface outside that leans less from straight out than this is part of land or skirt.
const OUT: f64 = 0.7;

/// Share of their radius from which on land and skirt begin.
const NEAR: f64 = 0.95;

fn outward(point: &Point3<f64>) -> (f64, Vector3<f64>) {
    let arm = Vector3::new(0.0, point.y, point.z);
    let radius = arm.norm();
    (radius, if radius > 0.0 { arm / radius } else { Vector3::zeros() })
}

fn facets(mesh: &Mesh, takes: impl Fn(&Point3<f64>, &Vector3<f64>) -> bool) -> Vec<usize> {
    let taken = |&facet: &usize| {
        let normal = mesh.area_vector(facet).try_normalize(0.0);
        normal.is_some_and(|normal| takes(&mesh.middle(facet), &normal))
    };
    (0..mesh.facets().len()).filter(taken).collect()
}

/// Where gas presses with 1 Pa: the upper face, and the outside down to the first ring.
#[derive(Debug)]
pub(crate) struct GasFace {
    facets: Vec<usize>,
    lower: f64,
    radius: f64,
}

impl GasFace {
    pub(crate) fn new(piston: &Piston, model: &PistonModel) -> Self {
        let lower = model.top_land_edge.unwrap_or(piston.compression_height - model.crown_thickness);
        let mut face = Self { facets: Vec::new(), lower, radius: NEAR * piston.land_radius() };
        face.facets = facets(&piston.mesh, |point, normal| face.takes(point, normal));
        face
    }

    fn takes(&self, point: &Point3<f64>, normal: &Vector3<f64>) -> bool {
        let (radius, out) = outward(point);
        point.x >= self.lower && (normal.x > UP || (normal.dot(&out) > OUT && radius >= self.radius))
    }
}

impl Pressing for GasFace {
    fn facets(&self) -> &[usize] {
        &self.facets
    }

    fn pressure(&self, point: &Point3<f64>, normal: &Vector3<f64>) -> f64 {
        if self.takes(point, normal) { 1.0 } else { 0.0 }
    }
}

/// One side of the skirt, pressed by the cylinder's wall with 1 N across: as the cosine of the angle round, and along the
/// skirt so that it does not tilt the piston about its pin where that can be.
#[derive(Debug)]
pub(crate) struct Flank {
    facets: Vec<usize>,
    from: f64,
    to: f64,
    radius: f64,
    /// 1 toward y, -1 away from it.
    side: f64,
    /// Pressure straight across in the middle, Pa, the middle's height, m, and its change with height, 1/m.
    pressure: f64,
    middle: f64,
    slope: f64,
}

impl Flank {
    /// `integral` is that of a function over facets of the model, times m². `None` where there is no skirt on that side.
    pub(crate) fn new(
        piston: &Piston,
        side: f64,
        integral: impl Fn(&[usize], &dyn Fn(&Point3<f64>) -> f64) -> f64,
    ) -> Option<Self> {
        let skirt = &piston.skirt;
        let mut flank = Self {
            facets: Vec::new(),
            from: skirt.from,
            to: skirt.to,
            radius: NEAR * skirt.radius,
            side,
            pressure: 1.0,
            middle: 0.0,
            slope: 0.0,
        };
        flank.facets = facets(&piston.mesh, |point, normal| flank.takes(point, normal));
        let across = |point: &Point3<f64>| outward(point).1.y;
        let area = integral(&flank.facets, &|point| across(point) * across(point));
        if area <= 0.0 {
            return None;
        }
        let middle = integral(&flank.facets, &|point| across(point) * across(point) * point.x) / area;
        let arm = |point: &Point3<f64>| across(point) * (point.x - middle);
        let spread = integral(&flank.facets, &|point| arm(point) * arm(point)) / area;
        // The pressure is nowhere below zero: a skirt that lies far off the pin keeps some tilt.
        let most = 1.0 / (skirt.to - middle).max(middle - skirt.from).max(f64::MIN_POSITIVE);
        flank.slope = if spread > 0.0 { (-middle / spread).clamp(-most, most) } else { 0.0 };
        (flank.middle, flank.pressure) = (middle, 1.0 / area);
        Some(flank)
    }

    fn takes(&self, point: &Point3<f64>, normal: &Vector3<f64>) -> bool {
        let (radius, out) = outward(point);
        (self.from..=self.to).contains(&point.x)
            && radius >= self.radius
            && normal.dot(&out) > OUT
            && self.side * out.y > 0.0
    }
}

impl Pressing for Flank {
    fn facets(&self) -> &[usize] {
        &self.facets
    }

    fn pressure(&self, point: &Point3<f64>, normal: &Vector3<f64>) -> f64 {
        if !self.takes(point, normal) {
            return 0.0;
        }
        self.pressure * outward(point).1.y.abs() * (1.0 + self.slope * (point.x - self.middle))
    }
}
