use nalgebra::{Point3, Vector3};

use super::surface::{Facet, Surface};

/// A sphere that touches the surface at a sample and again elsewhere.
#[derive(Debug, Clone, Copy)]
pub(super) struct Contact {
    /// Of the sphere, m.
    pub(super) radius: f64,
    /// The second touch, relative to the sample.
    pub(super) offset: Vector3<f64>,
}

/// Walls can only face each other when the two radii to the touching points are more than 116 degrees apart: what closes
/// in by more than 64 degrees is a corner. Regular parts have no such angle, so that rounding does not decide.
///
/// Cosine of that angle.
pub(super) const OPPOSED: f64 = -0.438_371_146_789_077;

/// Cosine of 32 degrees: half of what is left of the angle to a straight line is the greatest angle between the inward
/// normal and the line to the second touch.
pub(super) const CONE: f64 = 0.848_048_096_156_426;

/// Sine of the same angle.
pub(super) const CONE_SINE: f64 = 0.529_919_264_233_205;

/// Slope, radians, by which a sphere may cut into the surface beside the touched point and still count as touching. It
/// shifts a diameter by its square at most.
const SLACK: f64 = 1e-6;

/// The smallest sphere tangent at `point` from inside that touches the surface at facet `index` without cutting into it
/// there and on a wall that faces the point, if its radius is below `best`.
///
/// With d from the sample to a point of the surface, the sphere through both has radius d²/(2h), h the depth of the point
/// under the tangent plane. It touches inside a facet where the plane's own tangent sphere does, and at a hollow edge or
/// corner where its radius lies between the normals beside it.
pub(super) fn facing_contact(
    surface: &Surface<'_>,
    index: usize,
    point: &Point3<f64>,
    normal: &Vector3<f64>,
    best: f64,
) -> Option<Contact> {
    let facet = &surface.facets[index];
    // The facet's plane must lie ahead, and the sphere of radius `best` must reach through it.
    let ahead = facet.normal.dot(&(facet.corners[0] - point));
    let against = 1.0 - facet.normal.dot(normal);
    if ahead <= 0.0 || ahead >= best * against {
        return None;
    }
    let radius = ahead / against;
    let offset = (facet.normal - normal) * radius;
    let corners = facet.corners.map(|corner| corner - point);
    let beyond = farthest_touch(facet.lean, radius, against);
    let mut inside = true;
    let mut smallest: Option<Contact> = None;
    for k in 0..3 {
        let (from, to) = (corners[k], corners[(k + 1) % 3]);
        let edge = to - from;
        let within = edge.cross(&(offset - from)).dot(&facet.normal);
        if within >= 0.0 {
            continue;
        }
        let length = edge.norm();
        if within >= -SLACK * radius * length {
            continue;
        }
        if -within > beyond * length {
            return None;
        }
        inside = false;
        if facet.lean > 0.0
            && let Some(contact) = at_edge(surface, 3 * index + k, &corners, normal)
            && contact.radius < smallest.map_or(best, |s| s.radius)
        {
            smallest = Some(contact);
        }
    }
    let contact = if inside { Some(Contact { radius, offset }) } else { smallest };
    // Corners that do not face the sample are no walls.
    contact.filter(|c| -normal.dot(&c.offset) >= CONE * c.offset.norm())
}

/// How far from where a sphere touches a facet's plane a sphere can touch the facet's rim, m.
///
/// The radius to a touch on the rim differs from the facet's normal by `lean` at most, so it lies within that angle, and
/// the sphere is larger by no more than makes up for it.
pub(super) fn farthest_touch(lean: f64, radius: f64, against: f64) -> f64 {
    let left = against - lean * lean / 2.0;
    if left <= 0.0 {
        return f64::INFINITY;
    }
    let largest = radius * against / left;
    largest * lean + 2.0 * (largest - radius)
}

/// The sphere that touches the edge of a half-edge, or a corner at its ends.
fn at_edge(
    surface: &Surface<'_>,
    half_edge: usize,
    corners: &[Vector3<f64>; 3],
    normal: &Vector3<f64>,
) -> Option<Contact> {
    let k = half_edge % 3;
    let next = (k + 1) % 3;
    let depth = |at: &Vector3<f64>| -normal.dot(at);
    // From the deeper end, which lies under the tangent plane if anything of the edge does.
    let (start, end) = if depth(&corners[k]) >= depth(&corners[next]) { (k, next) } else { (next, k) };
    let (from, along) = (corners[start], corners[end] - corners[start]);
    let (h0, h1) = (depth(&from), depth(&along));
    if h0 <= 0.0 {
        return None;
    }
    let (a, b, c) = (from.norm_squared(), from.dot(&along), along.norm_squared());
    // d²/h is stationary where c h² = c h0² - h1 (2 b h0 - a h1).
    let slope = 2.0 * b * h0 - a * h1;
    let deep = (h0 * h0 - h1 * slope / c).max(0.0).sqrt();
    let share = (-slope / (c * (deep + h0))).clamp(0.0, 1.0);
    let offset = from + along * share;
    let h = h0 + h1 * share;
    if h <= 0.0 {
        return None;
    }
    let contact = Contact { radius: offset.norm_squared() / (2.0 * h), offset };
    let outward = offset / contact.radius + normal;
    let clear = |way: Vector3<f64>| way.try_normalize(0.0).is_none_or(|way| way.dot(&outward) >= -SLACK);
    let facet = half_edge / 3;
    let touches = if share <= 0.0 || share >= 1.0 {
        edges_round(surface, 3 * facet + if share <= 0.0 { start } else { end }).all(clear)
    } else {
        let beside = &surface.facets[surface.mesh.opposite(half_edge) / 3];
        let edge = corners[next] - corners[k];
        // Into either facet, square to the edge.
        clear(surface.facets[facet].normal.cross(&edge)) && clear(edge.cross(&beside.normal))
    };
    touches.then_some(contact)
}

/// Edges out of the corner from which `first` runs, once round it.
fn edges_round<'a>(surface: &'a Surface<'_>, first: usize) -> impl Iterator<Item = Vector3<f64>> + 'a {
    let mut at = Some(first);
    core::iter::from_fn(move || {
        let half_edge = at?;
        let (Facet { corners, .. }, k) = (&surface.facets[half_edge / 3], half_edge % 3);
        let next = surface.mesh.opposite(half_edge - k + (k + 2) % 3);
        at = (next != first).then_some(next);
        Some(corners[(k + 1) % 3] - corners[k])
    })
}
