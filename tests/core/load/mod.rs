mod balance;
mod lumped;
mod whip;

use layload_core::engine::SliderCrank;
use layload_core::load::{LoadBasis, RodMass};
use layload_core::mesh::Mesh;
use layload_core::section::{sections, slab_moments};
use nalgebra::Point3;

/// Crank throw, m.
pub(crate) const THROW: f64 = 0.023;

/// A bar of `breadth` x `height` from `low` to `high` along x, centred on it, m.
pub(crate) fn bar(low: f64, high: f64, breadth: f64, height: f64) -> Mesh {
    let corner = |i: usize| {
        let pick = |bit: usize, a: f64, b: f64| if i & bit == 0 { a } else { b };
        Point3::new(pick(1, low, high), pick(2, -breadth / 2.0, breadth / 2.0), pick(4, -height / 2.0, height / 2.0))
    };
    let facets = vec![
        [0, 2, 3],
        [0, 3, 1],
        [4, 5, 7],
        [4, 7, 6],
        [0, 1, 5],
        [0, 5, 4],
        [2, 6, 7],
        [2, 7, 3],
        [0, 4, 6],
        [0, 6, 2],
        [1, 3, 7],
        [1, 7, 5],
    ];
    Mesh::from_facets((0..8).map(corner).collect(), facets).expect("a box is closed")
}

/// Mass of a mesh in its own frame, cut at `planes`.
pub(crate) fn sliced(mesh: &Mesh, planes: &[f64], density: f64, length: f64) -> RodMass {
    let slabs = slab_moments(mesh, planes);
    let cuts = sections(mesh, planes, false);
    let centers = cuts.iter().map(|cut| [cut.properties.centroid.x, cut.properties.centroid.y]).collect();
    RodMass::new(&slabs, &vec![density; slabs.len()], planes.to_vec(), centers, length, 0.0)
}

/// Loads of a rod of length `length` under a made-up gas force with a sharp peak.
pub(crate) fn loaded(mass: &RodMass, crank: &SliderCrank, angles: usize) -> LoadBasis {
    let step = 4.0 * core::f64::consts::PI / angles as f64;
    let gas: Vec<f64> = (0..angles).map(|i| 3000.0 * libm::exp(-(i as f64 * step) * 2.0) - 40.0).collect();
    LoadBasis::new(mass, crank, 0.09, &gas, step)
}
