//! Thickness does not depend on where the solid lies or in what order its facets come.

use approx::assert_relative_eq;
use layload_core::mesh::Mesh;
use layload_core::wall::{Shells, Surface, WallMap, area_samples, thickness_at};
use nalgebra::{Isometry3, Point3, Vector3};
use proptest::prelude::*;

use super::Tested;
use super::rods::read;
use super::solids::{block, shuffled, tube};

fn turned() -> Isometry3<f64> {
    Isometry3::new(Vector3::new(0.3, -0.2, 0.1), Vector3::new(0.7, -1.1, 0.4))
}

/// Thickness per facet of the solid and of the solid turned, facet by facet.
fn same_when_turned(mesh: &Mesh) {
    let moved = mesh.clone().moved(&turned());
    let here = WallMap::of(&Surface::new(mesh, Shells::Apart)).of_facets();
    let there = WallMap::of(&Surface::new(&moved, Shells::Apart)).of_facets();
    assert_eq!(here.len(), there.len());
    for (a, b) in here.iter().zip(&there) {
        // A facet within a corner faces no wall, wherever the solid lies.
        assert_eq!(a.is_some(), b.is_some());
        let (Some(a), Some(b)) = (a, b) else { continue };
        assert_relative_eq!(a.thickness.sphere, b.thickness.sphere, max_relative = 1e-9);
        assert_relative_eq!(a.thickness.ray, b.thickness.ray, max_relative = 1e-9);
    }
}

#[test]
fn turning_changes_nothing() -> Tested {
    same_when_turned(&tube(0.010, 0.007, 0.030, 48, 12)?);
    same_when_turned(&read("thin_web_rod.stl")?.mesh);
    Ok(())
}

#[test]
fn the_order_of_facets_changes_nothing() -> Tested {
    let mesh = read("i_shank_rod.stl")?.mesh;
    // A stride without a common divisor visits every facet once.
    let count = mesh.facets().len();
    let stride = (7919..2 * count).find(|&s| gcd(s, count) == 1).ok_or("no stride")?;
    let other = shuffled(&mesh, stride)?;
    let here = WallMap::of(&Surface::new(&mesh, Shells::Apart)).of_facets();
    let there = WallMap::of(&Surface::new(&other, Shells::Apart)).of_facets();
    for (k, b) in there.iter().enumerate() {
        let a = &here[k * stride % count];
        assert_eq!(a.is_some(), b.is_some());
        let (Some(a), Some(b)) = (a, b) else { continue };
        assert_relative_eq!(a.thickness.sphere, b.thickness.sphere, max_relative = 1e-9);
    }
    Ok(())
}

fn gcd(a: usize, b: usize) -> usize {
    if b == 0 { a } else { gcd(b, a % b) }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    /// A sphere in a block is as wide as the block is thick under it, wherever the block lies.
    #[test]
    fn blocks_anywhere(
        size in prop::array::uniform3(0.001_f64..0.1),
        shift in prop::array::uniform3(-0.5_f64..0.5),
        turn in prop::array::uniform3(-3.0_f64..3.0),
    ) {
        let [x, y, z] = size;
        let motion = Isometry3::new(Vector3::from(shift), Vector3::from(turn));
        let mesh = block(x, y, z).map_err(|error| TestCaseError::fail(error.to_string()))?.moved(&motion);
        let surface = Surface::new(&mesh, Shells::Apart);
        for sample in area_samples(&surface, 200) {
            let normal = motion.inverse() * surface.normal(sample.facet);
            let expected = [x, y, z][normal.iamax()];
            let found = thickness_at(&surface, &sample).ok_or_else(|| TestCaseError::fail("no thickness"))?;
            // Coordinates half a metre from the origin carry 1e-16 m of rounding, a millimetre of wall 1e-3 m.
            prop_assert!((found.sphere - expected).abs() < 1e-9 * expected, "{} {}", found.sphere, expected);
            prop_assert!(found.sphere <= found.ray);
        }
    }

    /// The sphere found touches the surface at both ends and its diameter follows from them.
    #[test]
    fn the_sphere_passes_through_both_touches(turn in prop::array::uniform3(-3.0_f64..3.0)) {
        let motion = Isometry3::new(Vector3::zeros(), Vector3::from(turn));
        let mesh = tube(0.010, 0.006, 0.012, 24, 4).map_err(|error| TestCaseError::fail(error.to_string()))?;
        let mesh = mesh.moved(&motion);
        let surface = Surface::new(&mesh, Shells::Apart);
        for sample in area_samples(&surface, 300) {
            let found = thickness_at(&surface, &sample).ok_or_else(|| TestCaseError::fail("no thickness"))?;
            let center: Point3<f64> = sample.point - surface.normal(sample.facet) * (found.sphere / 2.0);
            let far = (found.across - center).norm();
            prop_assert!((far - found.sphere / 2.0).abs() < 1e-9 * found.sphere, "{far} {}", found.sphere);
        }
    }
}
