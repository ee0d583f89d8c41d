use nalgebra::{Point3, Vector3};

use super::contact::{CONE, CONE_SINE, Contact, OPPOSED, facing_contact, farthest_touch};
use super::edge::Touching;
use super::sample::Sample;
use super::surface::Surface;
use super::tree::{Node, Plate};
use crate::numeric::map_blocks;

/// Samples measured in one go by one thread.
const BLOCK: usize = 256;

/// Local thickness at one point of the surface.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WallThickness {
    /// Diameter of the inscribed sphere, m; never more than the ray where that meets a wall that faces the sample.
    pub sphere: f64,
    /// Distance straight inward to where the material ends, m.
    pub ray: f64,
    /// Where the sphere touches the facing wall.
    pub across: Point3<f64>,
    /// Facet it touches there.
    pub facet_across: usize,
}

/// Thickness at a sample, or `None` where no wall faces it, as on a facet without area or within a convex edge.
///
/// The sphere is the smallest that touches, from inside and tangent at the sample, a wall that faces the sample and can
/// be seen from it through the material. Two sides that meet in a convex edge do not face each other, so that a block is
/// as thick next to its edge as in its middle, whatever the edge's angle; only where they close in by less than 28
/// degrees they do, and the diameter is 2 d tan(angle / 2) at the distance d from the edge. Beside an edge, walls that
/// close in by up to 64 degrees count, as over a groove or beside a hole.
/// (Spheres tangent inside a surface: Ma, Bae & Choi 2012, "3D medial axis point approximation using nearest neighbors
/// and the normal field"; angle between the radii as measure of a wall: Foskey, Lin & Manocha 2003.)
pub fn thickness_at(surface: &Surface<'_>, sample: &Sample) -> Option<WallThickness> {
    let (point, from) = (&sample.point, sample.facet);
    let normal = surface.facets[from].normal;
    let (opposite, ray) = surface.exit(point, &-normal, Some(from), f64::MAX)?;
    let bounded = straight_on(surface, sample, opposite, ray);
    let touched = surface.tree().least(
        if bounded { ray / 2.0 } else { surface.size() },
        |node, best| least_radius(node, point, &normal, best),
        |plates, best| {
            let mut found: Option<(f64, (Contact, usize))> = None;
            for plate in plates {
                let best = found.map_or(best, |(radius, _)| radius);
                if !may_touch(surface, plate, point, &normal, best) {
                    continue;
                }
                let index = plate.facet as usize;
                if let Some(contact) = seen_contact(surface, sample, index, best) {
                    found = Some((contact.radius, (contact, index)));
                }
            }
            found
        },
    );
    match touched {
        Some((radius, (contact, facet_across))) => {
            Some(WallThickness { sphere: 2.0 * radius, ray, across: point + contact.offset, facet_across })
        }
        None => {
            bounded.then(|| WallThickness { sphere: ray, ray, across: point - normal * ray, facet_across: opposite })
        }
    }
}

/// Whether the wall met straight inward faces the sample, so that no sphere there is wider than the way to it.
fn straight_on(surface: &Surface<'_>, sample: &Sample, opposite: usize, ray: f64) -> bool {
    let (normal, other) = (surface.facets[sample.facet].normal, surface.facets[opposite].normal);
    let between = normal.dot(&other);
    if between > OPPOSED {
        return false;
    }
    // The sphere that touches the other's plane.
    let radius = -between * ray / (1.0 - between);
    !Touching { center: sample.point - normal * radius, radius, to: [normal, other] }.in_edge(surface)
}

/// Whether a sphere below `best` in radius could touch a facet that faces the sample: rough and quick.
fn may_touch(surface: &Surface<'_>, plate: &Plate, point: &Point3<f64>, normal: &Vector3<f64>, best: f64) -> bool {
    let toward = plate.normal.dot(normal);
    if toward > OPPOSED + plate.lean {
        return false;
    }
    let to_center = plate.center - point;
    let (ahead, against) = (plate.normal.dot(&to_center), 1.0 - toward);
    // Wide by more than rounding.
    if ahead >= best * against * (1.0 + 1e-9) {
        return false;
    }
    let radius = ahead / against;
    let reach = plate.reach + farthest_touch(plate.lean, radius, against);
    let mut from_center = (plate.normal - normal) * radius - to_center;
    if plate.long {
        let arm = surface.arm(plate.facet as usize);
        from_center -= arm * (from_center.dot(arm) / arm.norm_squared()).clamp(-1.0, 1.0);
    }
    from_center.norm_squared() <= square(reach * (1.0 + 1e-9))
}

/// The sphere below `best` in radius that touches a facet, if the way there stays in the material and the two sides are
/// not those of an edge.
fn seen_contact(surface: &Surface<'_>, sample: &Sample, index: usize, best: f64) -> Option<Contact> {
    let normal = &surface.facets[sample.facet].normal;
    let contact = facing_contact(surface, index, &sample.point, normal, best)?;
    let distance = contact.offset.norm();
    let touched = sample.point + contact.offset;
    if !surface.bounds(index, Some(sample.facet), distance) || !surface.is_open(index, &touched) {
        return None;
    }
    // Facets that meet at the touched point lie at its distance, give or take rounding.
    let reach = distance * (1.0 - 1e-9);
    let blocked = surface.exit(&sample.point, &(contact.offset / distance), Some(sample.facet), reach);
    if blocked.is_some_and(|(facet, _)| facet != index) {
        return None;
    }
    let center = sample.point - normal * contact.radius;
    let to = [*normal, (touched - center) / contact.radius];
    (!Touching { center, radius: contact.radius, to }.in_edge(surface)).then_some(contact)
}

/// Thickness at every sample, in their order.
pub fn thickness_all(surface: &Surface<'_>, samples: &[Sample]) -> Vec<Option<WallThickness>> {
    // Neighbours in space one after another find what they need in the processor's cache.
    let order = surface.in_space(samples);
    let blocks = map_blocks(samples.len(), BLOCK, |range| {
        order[range].iter().map(|&k| thickness_at(surface, &samples[k as usize])).collect::<Vec<_>>()
    });
    let mut thickness = vec![None; samples.len()];
    for (&k, found) in order.iter().zip(blocks.into_iter().flatten()) {
        thickness[k as usize] = found;
    }
    thickness
}

/// Bound from below on the radius of spheres that touch anything in a box, or the largest number if none of them is
/// smaller than `best` or faces the sample.
fn least_radius(node: &Node, point: &Point3<f64>, normal: &Vector3<f64>, best: f64) -> f64 {
    let (low, high) = (node.low - point, node.high - point);
    let gap = |at: f64, k: usize| greater(greater(low[k] - at, at - high[k]), 0.0);
    let from_center =
        square(gap(-normal.x * best, 0)) + square(gap(-normal.y * best, 1)) + square(gap(-normal.z * best, 2));
    if from_center >= best * best {
        return f64::MAX;
    }
    if node.most_against(normal) > OPPOSED + node.lean {
        return f64::MAX;
    }
    let (middle, half) = ((low + high) / 2.0, (high - low) / 2.0);
    let depth = -normal.dot(&middle);
    let deepest = depth + normal.abs().dot(&half);
    if deepest <= 0.0 {
        return f64::MAX;
    }
    // The sphere round the box lies outside the cone of touching points that face the sample.
    let aside = greater(middle.norm_squared() - depth * depth, 0.0).sqrt();
    let outside = aside * CONE - depth * CONE_SINE;
    if outside > 0.0 && square(outside) > half.norm_squared() {
        return f64::MAX;
    }
    (square(gap(0.0, 0)) + square(gap(0.0, 1)) + square(gap(0.0, 2))) / (2.0 * deepest)
}

fn square(x: f64) -> f64 {
    x * x
}

/// The greater of two numbers; plainer than `f64::max`, which minds numbers that are none.
fn greater(a: f64, b: f64) -> f64 {
    if a > b { a } else { b }
}
