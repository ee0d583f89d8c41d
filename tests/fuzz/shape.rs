//! Meshes bent out of shape: closed surfaces that no drawing program would make.

use std::sync::OnceLock;

use arbitrary::Arbitrary;
use layload_core::LengthUnit;
use layload_core::mesh::Mesh;
use nalgebra::Point3;

/// A way to spoil a mesh that stays closed.
#[derive(Debug, Clone, Copy, Arbitrary)]
pub enum Bend {
    /// A point moved by so many hundredths of a millimetre.
    Push { point: u16, by: [i16; 3] },
    /// A point put on another.
    Collapse { point: u16, onto: u16 },
    /// All points beyond a plane of an axis moved along another, in hundredths of a millimetre.
    Shift { axis: u8, from: i16, along: u8, by: i16 },
    /// All points flattened or stretched along an axis, in 256ths.
    Stretch { axis: u8, factor: i16 },
    /// All points turned about an axis by so many hundredths of a degree.
    Turn { axis: u8, angle: i16 },
    /// All points mirrored: the surface is then inside out.
    Mirror { axis: u8 },
}

const STARTS: [&[u8]; 4] = [
    include_bytes!("../meshes/solid_header.stl"),
    include_bytes!("../meshes/one_bore.stl"),
    include_bytes!("../meshes/non_manifold.stl"),
    include_bytes!("../meshes/pin.stl"),
];

fn starts() -> &'static [Mesh] {
    static MESHES: OnceLock<Vec<Mesh>> = OnceLock::new();
    MESHES.get_or_init(|| {
        STARTS
            .iter()
            .filter_map(|bytes| Mesh::from_stl(bytes, LengthUnit::Millimetre).ok())
            .map(|read| read.0)
            .collect()
    })
}

/// One of the test meshes, bent; `None` where nothing closed is left.
pub fn bent(start: u8, bends: &[Bend]) -> Option<Mesh> {
    let mesh = &starts()[start as usize % starts().len()];
    let mut points: Vec<Point3<f64>> = mesh.points().to_vec();
    let count = points.len();
    for bend in bends.iter().take(40) {
        match *bend {
            Bend::Push { point, by } => {
                let point = &mut points[point as usize % count];
                for k in 0..3 {
                    point[k] += f64::from(by[k]) * 1e-5;
                }
            }
            Bend::Collapse { point, onto } => points[point as usize % count] = points[onto as usize % count],
            Bend::Shift { axis, from, along, by } => {
                let (axis, along) = (axis as usize % 3, along as usize % 3);
                for point in points.iter_mut().filter(|point| point[axis] > f64::from(from) * 1e-5) {
                    point[along] += f64::from(by) * 1e-5;
                }
            }
            Bend::Stretch { axis, factor } => {
                points.iter_mut().for_each(|point| point[axis as usize % 3] *= f64::from(factor) / 256.0);
            }
            Bend::Turn { axis, angle } => {
                let (a, b) = ((axis as usize + 1) % 3, (axis as usize + 2) % 3);
                let (sine, cosine) = (f64::from(angle) / 100.0).to_radians().sin_cos();
                for point in &mut points {
                    (point[a], point[b]) = (cosine * point[a] - sine * point[b], sine * point[a] + cosine * point[b]);
                }
            }
            Bend::Mirror { axis } => points.iter_mut().for_each(|point| point[axis as usize % 3] *= -1.0),
        }
    }
    // No file holds a part this large, m; unions of outlines that no print can have take minutes.
    let read = |point: &Point3<f64>| point.iter().all(|c| c.abs() <= 1e7);
    if !points.iter().all(read) {
        return None;
    }
    Mesh::from_facets(points, mesh.facets().to_vec()).ok()
}
