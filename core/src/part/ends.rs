//! What the ends of a rod are called and which way its frame faces, by the part alone: however it lies in its file, the
//! answer is the same.

use core::f64::consts::TAU;

use nalgebra::Vector3;

use super::bore::Bore;
use super::frame::Frame;
use crate::mesh::Mesh;

/// By what the small end was told from the big end.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Naming {
    /// Its bore is smaller, or the bores were named by hand.
    Diameter,
    /// The bores are equal, and it is the end with less of the part: whole, lighter, shallower or shorter.
    Material,
    /// Nothing: the ends are alike, and either may be called the small one.
    Alike,
}

/// Lengths and diameters that differ by less than this share are equal: some steps of 32-bit coordinates of a part that
/// lies a few lengths from its origin, and no difference that a printer shows.
const EQUAL: f64 = 1e-4;

/// A centroid nearer to the middle than this share of the length is in the middle: rounding moves it by a hundredth of that.
const MIDDLE: f64 = 1e-5;

/// Means over facets below this are of a mesh that is even: rounding of coordinates leaves a thousandth of it.
const EVEN: f64 = 1e-7;

/// Two bores as small end and big end.
pub(super) fn named<'a>(mesh: &Mesh, a: &'a Bore, b: &'a Bore) -> (&'a Bore, &'a Bore, Naming) {
    let order = |first_is_small: bool, naming: Naming| if first_is_small { (a, b, naming) } else { (b, a, naming) };
    let equal = |a: f64, b: f64| (a - b).abs() <= EQUAL * a.max(b) + 4.0 * mesh.step();
    if !equal(a.diameter(), b.diameter()) {
        return order(a.diameter() < b.diameter(), Naming::Diameter);
    }
    let split = |bore: &Bore| bore.main().arc < 0.75 * TAU;
    if split(a) != split(b) {
        return order(split(b), Naming::Material);
    }
    let apart = b.center - a.center;
    let (length, along) = (apart.norm(), apart.normalize());
    let toward_b = (mesh.mass_properties().centroid - nalgebra::center(&a.center, &b.center)).dot(&along);
    if toward_b.abs() > MIDDLE * length {
        return order(toward_b > 0.0, Naming::Material);
    }
    if !equal(a.main().depth(), b.main().depth()) {
        return order(a.main().depth() < b.main().depth(), Naming::Material);
    }
    let beyond = |bore: &Bore, outward: Vector3<f64>| {
        mesh.points().iter().map(|p| (p - bore.center).dot(&outward)).fold(0.0, f64::max)
    };
    let (beyond_a, beyond_b) = (beyond(a, -along), beyond(b, along));
    if !equal(beyond_a, beyond_b) {
        return order(beyond_a < beyond_b, Naming::Material);
    }
    order(true, Naming::Alike)
}

/// The frame, or the one turned over about the line of centres: the one with the heavier side of the part below, toward
/// `-z`; of a part that is even so, with its heavier flank toward `y`, and so on to its products of inertia.
///
/// Of a part that is even in all of these the facets of its mesh decide: stress is looked at on facets, and these may lie
/// otherwise on both sides of an even part.
pub(super) fn faced(mesh: &Mesh, frame: Frame, length: f64) -> Frame {
    let mass = mesh.mass_properties();
    let center = frame.point(&mass.centroid) / length;
    let moments = frame.rows() * mass.second_moments * frame.rows().transpose() / (mass.volume * length * length);
    let signs = [-center.z, center.y, moments[(0, 2)], moments[(0, 1)]];
    let of_solid = signs.into_iter().find(|sign| sign.abs() > MIDDLE);
    let of_mesh = || facet_signs(mesh, &frame, length).into_iter().find(|sign| sign.abs() > EVEN);
    let over = of_solid.or_else(of_mesh).is_some_and(|sign| sign < 0.0);
    if over { frame.turned_over() } else { frame }
}

/// Means over the middles of facets by their area, over a length, that change sign as the frame is turned over. Of squares and
/// cubes they tell apart two meshes that share their corners and cut their quadrangles otherwise.
fn facet_signs(mesh: &Mesh, frame: &Frame, length: f64) -> [f64; 6] {
    let mut sums = [0.0; 6];
    let mut areas = 0.0;
    for facet in 0..mesh.facets().len() {
        let at = frame.point(&mesh.middle(facet)) / length;
        let area = mesh.area_vector(facet).norm();
        let odd = [at.y, at.z, at.y * at.y * at.y, at.z * at.z * at.z, at.x * at.y, at.x * at.z];
        sums.iter_mut().zip(odd).for_each(|(sum, odd)| *sum += area * odd);
        areas += area;
    }
    sums.map(|sum| sum / areas.max(f64::MIN_POSITIVE))
}

/// The same bore with its axis along that of a frame.
pub(super) fn along(frame: &Frame, mut bore: Bore) -> Bore {
    if frame.direction(&bore.axis).z < 0.0 {
        bore.axis = -bore.axis;
        for seat in &mut bore.seats {
            (seat.from, seat.to) = (-seat.to, -seat.from);
        }
    }
    bore
}
