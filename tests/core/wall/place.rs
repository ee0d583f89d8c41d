//! Names of places on a rod.

use layload_core::rod::{RodPlaces, RodWall as RodPlace};
use nalgebra::{Point3, Vector3};

use super::Tested;
use super::rods::read;

fn mm(x: f64, y: f64, z: f64) -> Point3<f64> {
    Point3::new(x * 1e-3, y * 1e-3, z * 1e-3)
}

#[test]
fn places_of_the_i_shank_rod() -> Tested {
    let rod = read("i_shank_rod.stl")?;
    let places = RodPlaces::new(&rod);
    let at = |point: Point3<f64>, across: Vector3<f64>, thickness_mm: f64| {
        places.of(&point, &across, thickness_mm * 1e-3).to_string()
    };
    assert_eq!(at(mm(-9.0, 0.0, 0.0), Vector3::x(), 5.5), "small-end eye");
    assert_eq!(at(mm(0.0, 9.0, 2.0), Vector3::y(), 5.5), "small-end eye");
    assert_eq!(at(mm(8.0, 2.0, 2.0), Vector3::x(), 5.5), "small-end eye");
    assert_eq!(at(mm(105.0, 3.0, 0.0), Vector3::x(), 7.0), "big-end eye");
    assert_eq!(at(mm(90.0, -15.0, 0.0), Vector3::y(), 7.0), "big-end eye");
    assert_eq!(at(mm(40.0, 0.0, 0.0), Vector3::z(), 3.5), "shank web, 40 mm from small end");
    assert_eq!(at(mm(40.0, 2.0, 0.0), -Vector3::z(), 3.5), "shank web, 40 mm from small end");
    assert_eq!(at(mm(40.0, 7.0, 4.0), Vector3::y(), 3.5), "shank flange, 40 mm from small end");
    assert_eq!(at(mm(40.0, -7.0, -4.0), -Vector3::y(), 3.5), "shank flange, 40 mm from small end");
    assert_eq!(at(mm(40.0, 7.0, 0.0), Vector3::z(), 12.0), "shank, 40 mm from small end");
    Ok(())
}

#[test]
fn a_cap_is_told_from_an_eye_in_one_piece() -> Tested {
    let split = read("split_rod.stl")?;
    let beyond = mm(105.0, 0.0, 0.0);
    assert_eq!(RodPlaces::new(&split).of(&beyond, &Vector3::x(), 7e-3), RodPlace::Cap);
    assert_eq!(RodPlaces::new(&split).of(&mm(76.0, 0.0, 0.0), &Vector3::x(), 7e-3), RodPlace::BigEndEye);
    // Three overlapping shells, none of them a cap.
    let overlapping = read("meshes/overlapping_shells.stl")?;
    assert_eq!(RodPlaces::new(&overlapping).of(&beyond, &Vector3::x(), 7e-3), RodPlace::BigEndEye);
    let half = read("meshes/half_bore_no_cap.stl")?;
    assert_eq!(RodPlaces::new(&half).of(&mm(76.0, 0.0, 0.0), &Vector3::x(), 7e-3), RodPlace::BigEndEye);
    Ok(())
}
