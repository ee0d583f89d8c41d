//! Bores with shoulders, slots, holes through their walls, and halves.

use core::f64::consts::PI;

use layload_core::LengthUnit;
use layload_core::part::{Bore, Rod};

use super::{Tested, recognised};
use crate::mesh::files;

fn rod(name: &str) -> Result<Rod, Box<dyn std::error::Error>> {
    Ok(recognised(&files::bytes(name)?, LengthUnit::Millimetre)??)
}

/// Diameter and depth of each seat, mm.
fn seats(bore: &Bore) -> Vec<(f64, f64)> {
    bore.seats.iter().map(|seat| (2e3 * seat.radius, 1e3 * seat.depth())).collect()
}

/// Whether one of the seats has this diameter and depth: bore vertices lie on the diameter, in single precision.
fn has(bore: &Bore, diameter: f64, depth: f64) -> bool {
    seats(bore).iter().any(|&(d, h)| (d - diameter).abs() < 0.01 && (h - depth).abs() < 0.01)
}

#[test]
fn bearing_seats_and_their_shoulders() -> Tested {
    let rod = rod("samples/bearing_rod.stl")?;
    let (small, big) = (&rod.small_end.bore, &rod.big_end.bore);
    assert!(has(small, 26.0, 8.0) && has(small, 22.0, 1.5), "{:?}", seats(small));
    assert!(has(big, 47.0, 14.0) && has(big, 41.0, 1.5), "{:?}", seats(big));
    assert!((small.diameter() - 0.026).abs() < 1e-5 && (big.diameter() - 0.047).abs() < 1e-5);
    for bore in [small, big] {
        let (seat, shoulder) = (&bore.seats[0], &bore.seats[1]);
        // Seen from the middle of the seat: it is centred, and the shoulder joins one of its ends.
        assert!((seat.from + seat.to).abs() < 1e-6);
        assert!((seat.to - shoulder.from).abs() < 1e-5 || (seat.from - shoulder.to).abs() < 1e-5);
    }
    Ok(())
}

#[test]
fn counterbores_belong_to_their_bores() -> Tested {
    let rod = rod("tests/meshes/counterbored.stl")?;
    let (small, big) = (&rod.small_end.bore, &rod.big_end.bore);
    assert!(has(small, 13.0, 11.0) && has(small, 18.0, 3.0), "{:?}", seats(small));
    assert!(has(big, 24.0, 11.0) && has(big, 30.0, 3.0), "{:?}", seats(big));
    Ok(())
}

#[test]
fn unequal_depths() -> Tested {
    let rod = rod("tests/meshes/unequal_depths.stl")?;
    assert!(has(&rod.small_end.bore, 13.0, 12.0), "{:?}", seats(&rod.small_end.bore));
    assert!(has(&rod.big_end.bore, 24.0, 20.0), "{:?}", seats(&rod.big_end.bore));
    Ok(())
}

#[test]
fn arcs() -> Tested {
    // A wall facet more or less at each end of an arc: 360 degrees over 64 corners, twice.
    let reach = 2.0 * 360.0 / 64.0;
    let slot = 2.0 * libm::asin(1.5 / 6.5) * 180.0 / PI;
    for (name, small, big) in [
        ("samples/plain_rod.stl", 360.0, 360.0),
        ("samples/split_rod.stl", 360.0, 360.0),
        ("tests/meshes/half_bore_with_cap.stl", 360.0, 360.0),
        ("tests/meshes/half_bore_no_cap.stl", 360.0, 180.0),
        ("tests/meshes/slotted_small_end.stl", 360.0 - slot, 360.0),
    ] {
        let rod = rod(name)?;
        let arc = |bore: &Bore| bore.main().arc * 180.0 / PI;
        let (found_small, found_big) = (arc(&rod.small_end.bore), arc(&rod.big_end.bore));
        assert!((found_small - small).abs() < reach, "{name}: small end {found_small}°, built with {small}°");
        assert!((found_big - big).abs() < reach, "{name}: big end {found_big}°, built with {big}°");
        assert_eq!((rod.small_end.half, rod.big_end.half), (false, big < 200.0), "{name}");
    }
    Ok(())
}

#[test]
fn oil_holes_are_no_bores() -> Tested {
    let rod = rod("tests/meshes/oil_hole_rod.stl")?;
    for eye in [&rod.small_end, &rod.big_end] {
        assert!(eye.bore.seats.iter().all(|seat| seat.radius > 5e-3), "{:?}", seats(&eye.bore));
    }
    Ok(())
}

#[test]
fn shells_and_voids_are_said() -> Tested {
    for (name, overlapping, voids) in [
        ("samples/plain_rod.stl", false, 0),
        ("samples/split_rod.stl", true, 0),
        ("tests/meshes/overlapping_shells.stl", true, 0),
        ("tests/meshes/inner_void.stl", false, 1),
    ] {
        let rod = rod(name)?;
        assert_eq!((rod.overlapping, rod.voids), (overlapping, voids), "{name}");
    }
    Ok(())
}
