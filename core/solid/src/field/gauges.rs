use nalgebra::{Point3, Vector3, Vector6};

use super::held::Solution;
use super::load::Load;
use super::model::FieldModel;
use super::number::{Many, Number, TOGETHER};
use super::recover::{Free, Samples};
use super::vectors::widest;
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
        let mut stresses = vec![None; self.gauges.len()];
        let solved = [(solution, load.free_strain.as_deref())];
        self.stresses_each(&solved, |_, point| traction(point), |_, point, stress| stresses[point] = Some(stress));
        stresses
    }

    /// The same of at most [`TOGETHER`] solutions, each with the strains of its load that come without stress:
    /// `traction(solution, point)` is asked for and `found(solution, point, stress)` told. Strains are summed in single
    /// precision, all solutions at a time: it leaves a few parts in ten million.
    pub fn stresses_each(
        &self,
        solved: &[(&Solution, Option<&[Vector6<f64>]>)],
        traction: impl Fn(usize, usize) -> Vector3<f64> + Sync + Send,
        mut found: impl FnMut(usize, usize, Vector6<f64>),
    ) {
        let known = self.samples.even_each(solved);
        let stresses = map_blocks(self.gauges.len(), BLOCK, |range| {
            let stresses = range.map(|point| {
                let gauge = self.gauges[point].as_ref()?;
                let even = widest(
                    #[inline(always)]
                    || gauge.even(&known),
                );
                let mut stresses = [Vector6::zeros(); TOGETHER];
                for (n, stress) in stresses.iter_mut().enumerate().take(solved.len()) {
                    let even = Vector6::from_fn(|component, _| f64::from(even[component].of(n)));
                    *stress = self.stress(gauge, &even, &traction(n, point));
                }
                Some(stresses)
            });
            stresses.collect::<Vec<_>>()
        });
        for (point, stresses) in stresses.into_iter().flatten().enumerate() {
            for (n, stress) in stresses.into_iter().flatten().enumerate().take(solved.len()) {
                found(n, point, stress);
            }
        }
    }

    /// The stress at a point from what changes evenly there.
    fn stress(&self, gauge: &Gauge, even: &Vector6<f64>, traction: &Vector3<f64>) -> Vector6<f64> {
        let Samples { model, .. } = &self.samples;
        let strain = model.strain_of(even, &gauge.point);
        let stress = model.element.stress(&strain);
        gauge.free.with_traction(&model.element, &stress, &(traction / gauge.share)) * gauge.share
    }
}

impl Gauge {
    /// What changes evenly at its point, from the samples.
    #[inline(always)]
    #[allow(clippy::inline_always)] // Or it is not compiled for the widest registers.
    fn even(&self, known: &[[Many<f32>; 6]]) -> [Many<f32>; 6] {
        let mut even = [Many::default(); 6];
        for (&number, &factor) in self.numbers.iter().zip(&self.factors) {
            for (sum, value) in even.iter_mut().zip(&known[number as usize]) {
                *sum += *value * factor;
            }
        }
        even
    }
}
