//! Thin regions of plates.

use approx::assert_relative_eq;
use layload_core::mesh::{Mesh, MeshError};
use layload_core::print::PrintSettings;
use layload_core::wall::{Shells, Surface, ThinReason, ThinRegion, WallLimits, WallMap, thin_regions};
use nalgebra::{Point2, Vector3};

use super::Tested;
use super::rods::print;
use super::solids::{block, prism, tube};

fn regions(mesh: &Mesh, limits: &WallLimits) -> Vec<ThinRegion> {
    let surface = Surface::new(mesh, Shells::Apart);
    thin_regions(&surface, &WallMap::of(&surface), limits, &[])
}

/// Thin from 0 to 20 mm, thick beyond.
fn stepped(thin: f64, thick: f64) -> Result<Mesh, MeshError> {
    let outline = [[0.020, thin], [0.0, thin], [0.0, 0.0], [0.020, 0.0], [0.040, 0.0], [0.040, thick], [0.020, thick]];
    prism(&outline.map(Point2::from), 0.030)
}

#[test]
fn both_faces_of_a_plate_are_one_region() -> Tested {
    let found = regions(&block(0.040, 0.030, 0.002)?, &WallLimits::given(0.003));
    let [plate] = found.as_slice() else { return Err(format!("{} regions", found.len()).into()) };
    assert_eq!(plate.reason, ThinReason::BelowGiven);
    assert_eq!(plate.facets.len(), 4);
    assert_relative_eq!(plate.area, 0.040 * 0.030, max_relative = 1e-12);
    assert_relative_eq!(plate.least_thickness, 0.002, max_relative = 1e-12);
    assert_relative_eq!(plate.limit, 0.003);
    assert_relative_eq!(plate.centroid.coords, Vector3::new(0.020, 0.015, 0.001), max_relative = 1e-9);
    assert_relative_eq!(plate.thinnest.z, 0.001, max_relative = 1e-9);
    assert_relative_eq!(plate.across.z.abs(), 1.0);
    Ok(())
}

#[test]
fn a_plate_at_its_limit_is_not_thin() -> Tested {
    assert!(regions(&block(0.040, 0.030, 0.002)?, &WallLimits::given(0.002)).is_empty());
    // Short by half a micrometre, as 32-bit coordinates may be.
    assert!(regions(&block(0.040, 0.030, 0.001_999_5)?, &WallLimits::given(0.002)).is_empty());
    assert_eq!(regions(&block(0.040, 0.030, 0.001_99)?, &WallLimits::given(0.002)).len(), 1);
    Ok(())
}

#[test]
fn only_the_thin_part_of_a_stepped_plate_counts() -> Tested {
    let found = regions(&stepped(0.002, 0.005)?, &WallLimits::given(0.003));
    let [thin] = found.as_slice() else { return Err(format!("{} regions", found.len()).into()) };
    assert_relative_eq!(thin.least_thickness, 0.002, max_relative = 1e-9);
    assert!(thin.thinnest.x < 0.020 && thin.across.y.abs() > 0.99);
    Ok(())
}

/// The limits of a print: beads, core by skins where the wall lies, core by outlines where it stands.
#[test]
fn limits_follow_the_print() {
    let limits = WallLimits::of_print(&print());
    let lying = Vector3::z();
    let standing = Vector3::x();
    assert_eq!(limits.reason(0.79e-3, &lying, 0.0), Some((ThinReason::FewBeads, 0.8e-3)));
    // Four skins of 0.2 mm on either side.
    assert_eq!(limits.reason(1.5e-3, &lying, 0.0).map(|(reason, _)| reason), Some(ThinReason::NoCore));
    assert_relative_eq!(
        limits.reason(1.5e-3, &lying, 0.0).map_or(0.0, |(_, limit)| limit),
        1.6e-3,
        max_relative = 1e-12
    );
    assert_eq!(limits.reason(1.7e-3, &lying, 0.0), None);
    // Three outlines of 0.4 mm on either side.
    assert_relative_eq!(
        limits.reason(1.7e-3, &standing, 0.0).map_or(0.0, |(_, limit)| limit),
        2.4e-3,
        max_relative = 1e-12
    );
    assert_eq!(limits.reason(2.4e-3, &standing, 0.0), None);
    // Half as much stress again as it bears: half as thick again; the gravest reason is the one named.
    assert_eq!(limits.reason(2.0e-3, &standing, 1.5), Some((ThinReason::Overstressed, 3.0e-3)));
    assert_eq!(limits.reason(0.7e-3, &standing, 1.5), Some((ThinReason::FewBeads, 0.8e-3)));
    assert_eq!(limits.reason(2.4e-3, &standing, 0.99), None);
    let solid = PrintSettings { infill: 1.0, ..print() };
    assert_eq!(WallLimits::of_print(&solid).reason(1.5e-3, &lying, 0.0), None);
    assert_eq!(
        WallLimits::of_print(&solid).and_given(2e-3).reason(1.5e-3, &lying, 0.0),
        Some((ThinReason::BelowGiven, 2e-3))
    );
}

#[test]
fn dabs_of_a_few_beads_are_not_reported() -> Tested {
    // Solid, so that only the bead limit applies. 1 mm by 1 mm is less than three beads square.
    let limits = WallLimits::of_print(&PrintSettings { infill: 1.0, ..print() });
    assert!(regions(&block(1e-3, 1e-3, 0.5e-3)?, &limits).is_empty());
    assert_eq!(regions(&block(2e-3, 2e-3, 0.5e-3)?, &limits).len(), 1);
    Ok(())
}

/// Of a tube, the area seen from one side is that of the middle of its wall.
#[test]
fn a_thin_tube_is_one_region() -> Tested {
    let found = regions(&tube(0.010, 0.009, 0.030, 96, 30)?, &WallLimits::given(0.0015));
    let [wall] = found.as_slice() else { return Err(format!("{} regions", found.len()).into()) };
    let middle = std::f64::consts::TAU * 0.0095 * 0.030;
    // Polygons of 96 sides are shorter than their circles by 0.02 %, and the half that looks one way is a facet more or
    // less.
    assert_relative_eq!(wall.area, middle, max_relative = 0.025);
    Ok(())
}
