use nalgebra::Point3;

use super::surface::{Facet, Surface};

/// A point of the surface.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sample {
    /// The facet it lies on.
    pub facet: usize,
    /// Where, m.
    pub point: Point3<f64>,
}

/// `count` points spread evenly over the area of the walls, the same for the same mesh.
///
/// Facets are gone through in order and a sample is laid after every equal share of area, so a facet has as many samples
/// as its share of the area, give or take one. Within a facet they follow the additive sequence of the plastic number
/// (Roberts 2018, "R2"), folded into the triangle.
pub fn area_samples(surface: &Surface<'_>, count: usize) -> Vec<Sample> {
    let area = |index: usize| if surface.is_wall(index) { surface.facets[index].area } else { 0.0 };
    let total: f64 = (0..surface.facets.len()).map(area).sum();
    let share = total / count.max(1) as f64;
    let mut samples = Vec::with_capacity(count);
    if share <= 0.0 {
        return samples;
    }
    let mut passed = 0.0;
    for index in 0..surface.facets.len() {
        passed += area(index);
        let mut within = 0;
        while samples.len() < count && (samples.len() as f64 + 0.5) * share < passed {
            samples.push(Sample { facet: index, point: spread(&surface.facets[index], within) });
            within += 1;
        }
    }
    samples
}

/// Number `k` of a sequence of points that fills a facet evenly; number 0 is the centroid.
fn spread(facet: &Facet, k: u32) -> Point3<f64> {
    const STEP: [f64; 2] = [0.754_877_666_246_692_8, 0.569_840_290_998_053_2];
    let [mut u, mut v] = STEP.map(|step| (1.0 / 3.0 + step * f64::from(k)).fract());
    if u + v > 1.0 {
        (u, v) = (1.0 - u, 1.0 - v);
    }
    let [a, b, c] = facet.corners;
    a + (b - a) * u + (c - a) * v
}
