use nalgebra::{Point3, Vector3, Vector6};

use super::held::Solution;
use super::load::Load;
use super::model::FieldModel;
use super::recover::{Free, Samples};
use crate::numeric::{map_blocks, map_in_order};

/// Points of the surface at which the stress of many solutions is wanted: how it follows from the strains near them is
/// worked out once.
#[derive(Debug, Clone)]
pub struct Gauges<'a> {
    samples: Samples<'a>,
    gauges: Vec<Option<Gauge>>,
}

#[derive(Debug, Clone)]
struct Gauge {
    /// Numbers of samples, and factors on their strains.
    numbers: Vec<u32>,
    factors: Vec<f32>,
    free: Free,
    point: Point3<f64>,
    /// Stiffness that warmth leaves there.
    share: f64,
}

/// Points worked on together.
const BLOCK: usize = 256;

impl<'a> Gauges<'a> {
    /// At points with their outward unit normals. Each takes about a kilobyte.
    pub fn new(model: &'a FieldModel, points: &[(Point3<f64>, Vector3<f64>)]) -> Self {
        let samples = Samples::new(model);
        let gauges = map_in_order(points.len(), |n| {
            let (point, normal) = &points[n];
            let weights = samples.weights(point, normal)?;
            let free = Free::new(&model.element, normal)?;
            let (numbers, factors) = weights.into_iter().map(|(number, factor)| (number, factor as f32)).unzip();
            Some(Gauge { numbers, factors, free, point: *point, share: model.warm_share(point) })
        });
        Self { samples, gauges }
    }

    /// Stress at every point, Pa (xx, yy, zz, yz, zx, xy), where `traction(point)` is the force on the surface there, Pa;
    /// `None` where no material is near.
    pub fn stresses(
        &self,
        solution: &Solution,
        load: &Load,
        traction: impl Fn(usize) -> Vector3<f64> + Sync + Send,
    ) -> Vec<Option<Vector6<f64>>> {
        let known = self.samples.even(solution, load);
        let element = &self.samples.model.element;
        map_blocks(self.gauges.len(), BLOCK, |range| {
            let stresses = range.map(|n| {
                let Gauge { numbers, factors, free, point, share } = self.gauges[n].as_ref()?;
                let mut even = Vector6::zeros();
                for (&number, &factor) in numbers.iter().zip(factors) {
                    even += known[number as usize] * f64::from(factor);
                }
                let strain = self.samples.model.strain_of(&even, point);
                Some(free.with_traction(element, &element.stress(&strain), &(traction(n) / *share)) * *share)
            });
            stresses.collect::<Vec<_>>()
        })
        .concat()
    }
}
