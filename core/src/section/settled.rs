use super::cut::{Section, sections};
use crate::mesh::Mesh;

/// Faces nearer to a plane than this lie on it, m: a little more than what shells may be apart and still touch, so that a
/// plane in the gap between them is cut in the shells beside it.
const HAIR: f64 = 2.6e-6;

/// Steps of a mesh's coordinates that rounding may put a face from where it was drawn.
const STEPS: f64 = 4.0;

/// Share by which the areas just beside a plane may differ where no face lies on it.
const EVEN: f64 = 1e-3;

/// Share by which the area on a plane may lie outside those just beside it: rounding, and the curve of the outline.
const BETWEEN: f64 = 1e-6;

/// Least cosine between the load path and the normal of a face across it: joints are flat, fillets and bores are not.
const ACROSS: f64 = 0.99;

/// Cuts `mesh` as [`sections`] does, with one answer where faces lie on a plane, whichever side rounding puts them on.
///
/// There the material ends at one side of the plane, or changes: of the cuts just below and just above it the one of less
/// area counts that has any. What is pulled through both breaks at the weaker.
pub fn settled_sections(mesh: &Mesh, planes: &[f64], unite: bool) -> Vec<Section> {
    let mut cuts = sections(mesh, planes, unite);
    let hair = hair(mesh);
    let unsure = with_faces(mesh, planes, hair);
    let beside = |side: f64| {
        let moved: Vec<f64> = unsure.iter().map(|&plane| planes[plane] + side * hair).collect();
        // Planes that lie closer to each other than a hair stay in order, as all of them move alike.
        sections(mesh, &moved, unite)
    };
    for ((&plane, below), above) in unsure.iter().zip(beside(-1.0)).zip(beside(1.0)) {
        if let Some(chosen) = weaker(&cuts[plane], below, above) {
            cuts[plane] = chosen;
        }
    }
    cuts
}

/// The cut to take in place of `cut`, where faces across the load path lie nearer to it than `reach`, m.
///
/// Two shells that end at faces so near to each other lie in one another on the plane between, which then has the material
/// of both. Beyond the outermost of those faces each is alone; of these two cuts the one of less area counts.
pub(crate) fn beyond_faces(mesh: &Mesh, cut: &Section, reach: f64, unite: bool) -> Option<Section> {
    let [low, high] = faces_near(mesh, cut.position, reach)?;
    let hair = hair(mesh);
    let mut beside = sections(mesh, &[low - hair, high + hair], unite).into_iter();
    weaker(cut, beside.next()?, beside.next()?)
}

/// Of the cuts below and above one the weaker, if they differ or it lies outside them.
fn weaker(cut: &Section, below: Section, above: Section) -> Option<Section> {
    let (less, more) = if above.properties.area < below.properties.area { (above, below) } else { (below, above) };
    let (least, most) = (less.properties.area, more.properties.area);
    let here = cut.properties.area;
    let within = here >= least * (1.0 - BETWEEN) && here <= most * (1.0 + BETWEEN);
    if within && most - least <= EVEN * most {
        return None;
    }
    let chosen = if least > 0.0 { less } else { more };
    Some(Section { position: cut.position, ..chosen })
}

/// How near to a plane a face lies on it, m.
pub(crate) fn hair(mesh: &Mesh) -> f64 {
    HAIR.max(STEPS * mesh.step())
}

/// From where to where a facet reaches along the load path.
fn reached(mesh: &Mesh, facet: [u32; 3]) -> (f64, f64) {
    let [a, b, c] = facet.map(|id| mesh.points()[id as usize].x);
    (a.min(b).min(c), a.max(b).max(c))
}

/// From where to where facets across the load path lie that are nearer to a plane than `reach`.
fn faces_near(mesh: &Mesh, plane: f64, reach: f64) -> Option<[f64; 2]> {
    let mut span: Option<[f64; 2]> = None;
    for (index, facet) in mesh.facets().iter().enumerate() {
        let (low, high) = reached(mesh, *facet);
        if low < plane - reach || high > plane + reach {
            continue;
        }
        let normal = mesh.area_vector(index);
        if normal.x.abs() > ACROSS * normal.norm() {
            span = Some(span.map_or([low, high], |[from, to]| [from.min(low), to.max(high)]));
        }
    }
    span
}

/// The planes nearer than a hair to all corners of some facet, in rising order.
fn with_faces(mesh: &Mesh, planes: &[f64], hair: f64) -> Vec<usize> {
    let mut found = vec![false; planes.len()];
    for facet in mesh.facets() {
        let (low, high) = reached(mesh, *facet);
        if high - low <= 2.0 * hair {
            let first = planes.partition_point(|&plane| plane < high - hair);
            let on = planes[first..].iter().zip(&mut found[first..]).take_while(|(plane, _)| **plane <= low + hair);
            on.for_each(|(_, found)| *found = true);
        }
    }
    (0..planes.len()).filter(|&plane| found[plane]).collect()
}
