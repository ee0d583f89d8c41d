//! Shells that overlap or touch are one solid: what of them lies inside another is no surface.

use approx::assert_relative_eq;
use layload_core::mesh::Mesh;
use layload_core::wall::{Shells, Surface, ThinRegion, WallLimits, WallMap, thin_regions};
use nalgebra::Isometry3;

use super::Tested;
use crate::copies::poses;
use crate::mesh::shapes::Solid;

/// Two beads of 0.45 mm, m.
const LIMIT: f64 = 0.9e-3;

fn block(size: [f64; 3], at: [f64; 3]) -> Solid {
    Solid::block(size).moved(&Isometry3::translation(at[0], at[1], at[2]))
}

fn measured(mesh: &Mesh, shells: Shells) -> (Vec<ThinRegion>, f64) {
    let surface = Surface::new(mesh, shells);
    let map = WallMap::of(&surface);
    let least = map.by_area().map(|(thickness, _)| thickness).fold(f64::INFINITY, f64::min);
    (thin_regions(&surface, &map, &WallLimits::given(LIMIT), &[]), least)
}

/// Each as it lies, and turned twice.
fn turned(solid: &Solid) -> Result<Vec<Mesh>, layload_core::mesh::MeshError> {
    let copies =
        poses(5, 2, 0.05).iter().map(|pose| solid.clone().moved(pose).mesh()).collect::<Result<Vec<_>, _>>()?;
    Ok([vec![solid.mesh()?], copies].concat())
}

#[test]
fn where_two_blocks_overlap_is_no_wall() -> Tested {
    for overlap in [0.3e-3, 0.01e-3, 2e-3] {
        let two =
            block([0.020, 0.020, 0.010], [0.0; 3]).with(&block([0.016, 0.014, 0.010], [0.002, 0.003, 0.010 - overlap]));
        for mesh in turned(&two)? {
            let (regions, least) = measured(&mesh, Shells::United);
            assert!(regions.is_empty(), "{overlap}: {regions:?}");
            // Beside the upper block the lower one alone.
            assert_relative_eq!(least, 0.010, max_relative = 1e-9);
        }
    }
    Ok(())
}

/// Face to face, with the rounding of a file between them: a plate of half a millimetre on a block.
#[test]
fn where_two_blocks_touch_is_a_wall_only_between_parts_of_their_own() -> Tested {
    for gap in [0.0, 1e-6, -1e-6] {
        let two =
            block([0.020, 0.020, 0.010], [0.0; 3]).with(&block([0.016, 0.014, 0.5e-3], [0.002, 0.003, 0.010 + gap]));
        for mesh in turned(&two)? {
            let (regions, least) = measured(&mesh, Shells::United);
            assert!(regions.is_empty(), "{gap}: {regions:?}");
            assert!(least > 0.0099, "{gap}: {least}");
            let (regions, least) = measured(&mesh, Shells::Jointed);
            let [plate] = regions.as_slice() else { return Err(format!("{gap}: {regions:?}").into()) };
            assert_relative_eq!(plate.area, 0.016 * 0.014, max_relative = 0.02);
            assert_relative_eq!(least, 0.5e-3, max_relative = 1e-6);
        }
    }
    Ok(())
}

/// A thin rib whose foot is sunk into a plate is as large as what stands out of it.
#[test]
fn of_a_sunk_rib_only_what_stands_out_counts() -> Tested {
    let rib = block([0.030, 0.6e-3, 0.012], [0.005, 0.010, 0.003]);
    for mesh in turned(&block([0.040, 0.020, 0.005], [0.0; 3]).with(&rib))? {
        let (regions, _) = measured(&mesh, Shells::United);
        let [thin] = regions.as_slice() else { return Err(format!("{regions:?}").into()) };
        assert_relative_eq!(thin.least_thickness, 0.6e-3, max_relative = 1e-9);
        // 10 of 12 mm stand out; pieces of 0.9 mm.
        assert_relative_eq!(thin.area, 0.030 * 0.010, max_relative = 0.04);
        assert!(thin.edge.is_none());
    }
    Ok(())
}
