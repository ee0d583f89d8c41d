//! A part turned, moved, divided or with its facets in another order has the same thin regions.

use layload_core::LengthUnit;
use layload_core::mesh::Mesh;
use layload_core::wall::{Shells, Surface, ThinRegion, WallLimits, WallMap, thin_regions};

use super::Tested;
use crate::copies::{divided, mirrored, poses, square_copies, stl_of};
use crate::mesh::files::bytes;
use crate::mesh::shapes::Solid;

/// Two beads of 0.45 mm, m.
const LIMIT: f64 = 0.9e-3;

fn regions(solid: &Solid, shells: Shells) -> Result<Vec<ThinRegion>, Box<dyn std::error::Error>> {
    let (mesh, _) = Mesh::from_stl(&stl_of(solid), LengthUnit::Millimetre)?;
    let surface = Surface::new(&mesh, shells);
    Ok(thin_regions(&surface, &WallMap::of(&surface), &WallLimits::given(LIMIT), &[]))
}

/// What may not depend on how a part lies: how many regions, and of each whether it is an edge, thickness, area, length of
/// the edge. Sorted, as regions alike come in any order.
fn told(regions: &[ThinRegion]) -> Vec<[f64; 4]> {
    let mut told: Vec<[f64; 4]> = regions
        .iter()
        .map(|r| [f64::from(u8::from(r.edge.is_some())), r.least_thickness, r.area, r.edge.map_or(0.0, |e| e.length)])
        .collect();
    told.sort_by(|a, b| a[0].total_cmp(&b[0]).then(a[2].total_cmp(&b[2])));
    told
}

fn same(name: &str, here: &[ThinRegion], there: &[ThinRegion]) {
    let (here, there) = (told(here), told(there));
    assert_eq!(here.len(), there.len(), "{name}: {here:?} {there:?}");
    for (a, b) in here.iter().zip(&there) {
        assert_eq!(a[0], b[0], "{name}");
        // Where the thickness changes along the wall, pieces elsewhere on it show another least.
        assert!((a[1] - b[1]).abs() < 0.05 * LIMIT, "{name}: {a:?} {b:?}");
        // Regions end within a piece: of some square millimetres a tenth, of narrow ones a piece's area.
        assert!((a[2] - b[2]).abs() < 0.1 * a[2] + 1e-6, "{name}: {a:?} {b:?}");
        // An edge is made of facets' sides; those at its ends may count or not.
        assert!((a[3] - b[3]).abs() <= 0.15 * a[3], "{name}: {a:?} {b:?}");
    }
}

/// Name, how its shells belong together, number of turned copies.
const PARTS: [(&str, Shells, usize); 9] = [
    ("samples/thin_web_rod.stl", Shells::Apart, 4),
    ("samples/flat_crown_piston.stl", Shells::Apart, 4),
    ("tests/meshes/piston.stl", Shells::Apart, 50),
    ("tests/meshes/piston_in_pieces.stl", Shells::United, 50),
    ("tests/meshes/half_bore_with_cap.stl", Shells::Jointed, 50),
    ("tests/meshes/slotted_small_end.stl", Shells::Apart, 50),
    ("tests/meshes/counterbored.stl", Shells::Apart, 50),
    ("tests/meshes/overlapping_shells.stl", Shells::United, 50),
    ("tests/meshes/crank_arm.stl", Shells::Apart, 50),
];

#[test]
fn turned_copies_have_the_same_thin_regions() -> Tested {
    for (name, shells, count) in PARTS {
        let solid = Solid::of_stl(&bytes(name)?)?;
        let here = regions(&solid, shells)?;
        for pose in poses(18, count, 40.0) {
            same(name, &here, &regions(&solid.clone().moved(&pose), shells)?);
        }
        for (_, copy) in square_copies(&solid).into_iter().take(count) {
            same(name, &here, &regions(&copy, shells)?);
        }
    }
    Ok(())
}

#[test]
fn divided_mirrored_and_shuffled_copies_have_the_same_thin_regions() -> Tested {
    for (name, shells, _) in PARTS {
        let solid = Solid::of_stl(&bytes(name)?)?;
        let here = regions(&solid, shells)?;
        for copy in [divided(&solid), mirrored(&solid), solid.clone().shuffled(3)] {
            let there = regions(&copy, shells)?;
            if shells == Shells::United {
                // Slivers of pieces that overlap nearly touch, and are told as one or as two by how facets are divided.
                let sums = |regions: &[ThinRegion]| {
                    told(regions).iter().fold((0.0, 0.0), |(area, edge), row| (area + row[2], edge + row[3]))
                };
                let ((area, edge), (other_area, other_edge)) = (sums(&here), sums(&there));
                assert!((area - other_area).abs() < 0.1 * area + 1e-6, "{name}: {area} {other_area}");
                assert!((edge - other_edge).abs() <= 0.15 * edge, "{name}: {edge} {other_edge}");
            } else {
                same(name, &here, &there);
            }
        }
    }
    Ok(())
}
