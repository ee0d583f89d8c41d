//! The sample rods: the thin web is found at its place, the others have none there.

use std::error::Error;
use std::path::PathBuf;

use layload_core::LengthUnit;
use layload_core::mesh::{Mesh, bodies};
use layload_core::part::{GivenRod, Rod, find_rod};
use layload_core::print::PrintSettings;
use layload_core::rod::{RodPlaces, RodWall as RodPlace};
use layload_core::wall::{Shells, Surface, ThinReason, ThinRegion, WallLimits, WallMap, thin_regions};
use nalgebra::Vector3;

use super::Tested;

/// A sample, or a test mesh as `meshes/...`.
pub(crate) fn read(name: &str) -> Result<Rod, Box<dyn Error>> {
    let root = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("..");
    let path = match name.strip_prefix("meshes/") {
        Some(mesh) => root.join("tests/meshes").join(mesh),
        None => root.join("samples").join(name),
    };
    let (mesh, _) = Mesh::from_stl(&std::fs::read(path)?, LengthUnit::Millimetre)?;
    Ok(find_rod(bodies(mesh)?, &GivenRod::default())?)
}

/// Printed flat with a fine nozzle: 0.8 mm is two beads.
pub(crate) fn print() -> PrintSettings {
    PrintSettings {
        build: Vector3::z(),
        bead_width: 0.4e-3,
        layer_height: 0.2e-3,
        walls: 3,
        skin_layers: 4,
        infill: 0.4,
    }
}

fn regions(rod: &Rod, limits: &WallLimits) -> Vec<(ThinRegion, RodPlace)> {
    let places = RodPlaces::new(rod);
    let jointed = rod.overlapping && places.has_cap();
    let shells = if jointed { Shells::Jointed } else { Shells::united(rod.overlapping) };
    let surface = Surface::new(&rod.mesh, shells);
    thin_regions(&surface, &WallMap::of(&surface), limits, &[])
        .into_iter()
        .map(|region| {
            let place = places.of(&region.thinnest, &region.across, region.least_thickness);
            (region, place)
        })
        .collect()
}

#[test]
fn the_thin_web_is_flagged_at_its_place() -> Tested {
    let rod = read("thin_web_rod.stl")?;
    let found = regions(&rod, &WallLimits::of_print(&print()));
    let (region, place) = found.first().ok_or("nothing flagged")?;
    assert_eq!(region.reason, ThinReason::FewBeads);
    // The flaw was cut from 25 to 37 mm with round corners, and leaves 0.7 mm; the file holds 32-bit coordinates.
    assert!((region.least_thickness - 0.7e-3).abs() < 1e-7, "{}", region.least_thickness);
    assert!((region.thinnest.x - 0.031).abs() < 1e-3, "{}", region.thinnest);
    assert!(region.thinnest.z.abs() < 1e-6);
    assert_eq!(place.to_string(), "shank web, 31 mm from small end");
    assert!((region.limit - 0.8e-3).abs() < 1e-12);
    // No other place has fewer than two beads, and both faces of the web are one region.
    assert_eq!(found.iter().filter(|(region, _)| region.reason == ThinReason::FewBeads).count(), 1);
    let sides = |sign: f64| region.facets.iter().filter(|&&f| rod.mesh.area_vector(f as usize).z * sign > 0.0).count();
    assert!(sides(1.0) > 10 && sides(-1.0) > 10);
    // 12 mm along the rod and at most 12 mm across, less the fillets.
    assert!(region.area > 40e-6 && region.area < 144e-6, "{}", region.area);
    Ok(())
}

#[test]
fn the_other_samples_are_not_flagged_there() -> Tested {
    for name in ["plain_rod.stl", "i_shank_rod.stl", "bearing_rod.stl", "split_rod.stl"] {
        let rod = read(name)?;
        for (region, place) in regions(&rod, &WallLimits::of_print(&print())) {
            assert!(!matches!(place, RodPlace::ShankWeb { .. }), "{name}: {region:?}");
            assert!(!(0.025..0.037).contains(&region.thinnest.x), "{name}: {region:?}");
        }
    }
    Ok(())
}

#[test]
fn the_web_of_the_i_shank_is_3_5_mm_thick() -> Tested {
    let rod = read("i_shank_rod.stl")?;
    let found = regions(&rod, &WallLimits::given(4e-3));
    let (web, _) = found
        .iter()
        .find(|(_, place)| matches!(place, RodPlace::ShankWeb { .. }))
        .ok_or("the web is thinner than 4 mm but was not found")?;
    // Flat faces in a file of 32-bit coordinates of some 60 mm.
    assert!((web.least_thickness - 3.5e-3).abs() < 1e-7, "{}", web.least_thickness);
    let flanges: Vec<_> = found.iter().filter(|(_, place)| matches!(place, RodPlace::ShankFlange { .. })).collect();
    assert!(!flanges.is_empty());
    for (flange, _) in flanges {
        assert!((flange.least_thickness - 3.5e-3).abs() < 2e-5, "{}", flange.least_thickness);
    }
    Ok(())
}

/// The shoulder that a pressed bearing rests on is thin by design, and is named as what it is.
#[test]
fn a_bearing_shoulder_is_named_with_its_eye() -> Tested {
    let found = regions(&read("bearing_rod.stl")?, &WallLimits::given(2e-3));
    let places: Vec<RodPlace> = found.iter().map(|(_, place)| *place).collect();
    assert!(places.contains(&RodPlace::SmallEndEye) && places.contains(&RodPlace::BigEndEye), "{places:?}");
    for (region, _) in found {
        assert!((region.least_thickness - 1.5e-3).abs() < 1e-7, "{}", region.least_thickness);
    }
    Ok(())
}

/// Where rod and cap touch they are two parts, not one wall of no thickness; where shells overlap they are one.
#[test]
fn shells_that_touch_or_overlap_make_no_thin_walls() -> Tested {
    let split = read("split_rod.stl")?;
    assert!(split.overlapping);
    for (region, _) in regions(&split, &WallLimits::of_print(&print())) {
        assert!((region.thinnest.x - split.center_distance).abs() > 1e-3, "{region:?}");
    }
    let overlapping = read("meshes/overlapping_shells.stl")?;
    assert!(overlapping.overlapping);
    // The shank's ends stop 1 mm short of the bores and end inside the eyes; the eyes' own wall is 5.5 mm.
    let found = regions(&overlapping, &WallLimits::given(5e-3));
    assert!(found.is_empty(), "{found:?}");
    Ok(())
}
