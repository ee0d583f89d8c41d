//! Newton and Euler hold for the rod as a whole and for each piece cut from it, at every crank angle.

use layload_core::LengthUnit;
use layload_core::engine::SliderCrank;
use layload_core::mesh::{Mesh, bodies};
use layload_core::part::{GivenRod, Rod, find_rod};
use nalgebra::Vector2;

use super::{THROW, loaded, sliced};

const ANGLES: usize = 720;
const SPEED: f64 = 900.0;
const DENSITY: f64 = 1100.0;

fn sample() -> Rod {
    let bytes = include_bytes!("../../../samples/i_shank_rod.stl");
    let (mesh, _) = Mesh::from_stl(bytes, LengthUnit::Millimetre).expect("sample");
    find_rod(bodies(mesh).expect("one body"), &GivenRod::default()).expect("a rod")
}

/// The pin forces must give the mesh's own mass its acceleration and its own inertia its spin.
///
/// The mass properties come from signed tetrahedra, the loads from slabs: two routes. 1e-9 of the peak force is the
/// bound the job asks for; rounding of the sums is near 1e-12.
#[test]
fn pin_forces_move_the_whole_rod() {
    let rod = sample();
    let length = rod.center_distance;
    let crank = SliderCrank::new(THROW, length, 0.002).expect("turns");
    let (low, high) = rod.mesh.bounds();
    let planes: Vec<f64> = (1..80).map(|k| low.x + (high.x - low.x) * f64::from(k) / 80.0).collect();
    let mass = sliced(&rod.mesh, &planes, DENSITY, length);
    let basis = loaded(&mass, &crank, ANGLES);
    let whole = rod.mesh.mass_properties();
    let weight = whole.volume * DENSITY;
    let inertia = whole.inertia()[(2, 2)] * DENSITY;
    let peak = (0..ANGLES).map(|i| basis.small_end(i, SPEED).along.abs()).fold(0.0, f64::max);
    for i in 0..ANGLES {
        let state = crank.at(i as f64 * 4.0 * core::f64::consts::PI / ANGLES as f64, SPEED);
        let (x, y) = (Vector2::from(state.rod_direction()), Vector2::from(state.rod_side_direction()));
        let acceleration = Vector2::from(state.rod_point_acceleration_m_s2(whole.centroid.x, whole.centroid.y));
        let (small, big) = (basis.small_end(i, SPEED), basis.big_end(i, SPEED));
        let along = small.along + big.along - weight * acceleration.dot(&x);
        let across = small.across + big.across - weight * acceleration.dot(&y);
        let (cx, cy) = (whole.centroid.x, whole.centroid.y);
        let turning = -cx * small.across
            + cy * small.along
            + (length - cx) * big.across
            + cy * big.along
            + inertia * state.rod_angular_acceleration_rad_s2;
        assert!(along.abs() < 1e-9 * peak, "along, angle {i}: {along}");
        assert!(across.abs() < 1e-9 * peak, "across, angle {i}: {across}");
        assert!(turning.abs() < 1e-9 * peak * length, "turning, angle {i}: {turning}");
    }
}

/// Axial force, shear and moment jump by the pin force at each bore and by nothing else.
#[test]
fn section_forces_meet_the_pin_forces_at_the_bores() {
    let rod = sample();
    let length = rod.center_distance;
    let crank = SliderCrank::new(THROW, length, 0.0).expect("turns");
    let gap = 1e-7;
    let mass = sliced(&rod.mesh, &[-gap, 0.0, length, length + gap], DENSITY, length);
    let basis = loaded(&mass, &crank, ANGLES);
    let peak = (0..ANGLES).map(|i| basis.small_end(i, SPEED).along.abs()).fold(0.0, f64::max);
    // The slice of 0.1 micrometre between the planes has mass; its inertia bounds the tolerance.
    let slice = gap * 3e-4 * DENSITY * SPEED * SPEED * THROW * 2.0;
    let tolerance = 1e-9 * peak + slice;
    for i in 0..ANGLES {
        let at = |plane| basis.section(plane, i, SPEED);
        let (small, big) = (basis.small_end(i, SPEED), basis.big_end(i, SPEED));
        assert!((at(1).axial - at(0).axial + small.along).abs() < tolerance, "angle {i}");
        assert!((at(1).shear - at(0).shear + small.across).abs() < tolerance, "angle {i}");
        assert!((at(3).axial - at(2).axial + big.along).abs() < tolerance, "angle {i}");
        assert!((at(3).shear - at(2).shear + big.across).abs() < tolerance, "angle {i}");
        // A force does not make a moment at its own section, but for the centroids' distance from the axis.
        let arm = 1e-9;
        let small_jump = at(1).bending - at(0).bending;
        assert!(
            small_jump.abs() < 1e-4 * peak * length * 1e-3 + arm * peak + 2.0 * gap * peak,
            "angle {i}: {small_jump}"
        );
    }
}

/// Beyond the last material there is no force left: the far side balances too.
#[test]
fn the_free_ends_are_free() {
    let rod = sample();
    let length = rod.center_distance;
    let crank = SliderCrank::new(THROW, length, 0.0).expect("turns");
    let (low, high) = rod.mesh.bounds();
    let planes = [low.x + 1e-9, high.x - 1e-9];
    let mass = sliced(&rod.mesh, &planes, DENSITY, length);
    let basis = loaded(&mass, &crank, ANGLES);
    let peak = (0..ANGLES).map(|i| basis.small_end(i, SPEED).along.abs()).fold(0.0, f64::max);
    for i in 0..ANGLES {
        for plane in 0..2 {
            let force = basis.section(plane, i, SPEED);
            assert!(force.axial.abs() < 1e-9 * peak, "angle {i}, plane {plane}: {force:?}");
            assert!(force.shear.abs() < 1e-9 * peak, "angle {i}, plane {plane}: {force:?}");
            assert!(force.bending.abs() < 1e-9 * peak * length, "angle {i}, plane {plane}: {force:?}");
        }
    }
}
