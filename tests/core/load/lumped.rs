//! The two-mass rod differs from the rigid one by what its wrong inertia does, and by that alone.

use layload_core::engine::SliderCrank;
use layload_core::load::{TwoMass, two_mass_pin_forces};

use super::{THROW, bar, loaded, sliced};

/// Two masses a and b from the centre of mass have the inertia m a b instead of I. The missing couple
/// (I - m a b) x spin is carried by a pair of forces across the rod, couple / L each (Heywood; Taylor).
///
/// The formula is exact, so only rounding separates the two: 1e-9 of the peak force.
#[test]
fn error_of_lumping_is_the_inertia_it_gets_wrong() {
    const LENGTH: f64 = 0.09;
    const ANGLES: usize = 720;
    const SPEED: f64 = 800.0;
    let mesh = bar(-0.01, LENGTH + 0.02, 0.012, 0.014);
    let crank = SliderCrank::new(THROW, LENGTH, 0.0).expect("turns");
    let mass = sliced(&mesh, &[0.045], 1100.0, LENGTH);
    let basis = loaded(&mass, &crank, ANGLES);
    let two = TwoMass::of(&mass);
    let from_small = mass.center_of_mass();
    let missing = mass.inertia() - mass.mass() * from_small * (LENGTH - from_small);
    let step = 4.0 * core::f64::consts::PI / ANGLES as f64;
    let peak = (0..ANGLES).map(|i| basis.small_end(i, SPEED).along.abs()).fold(0.0, f64::max);
    let mut greatest_error = 0.0_f64;
    for i in 0..ANGLES {
        let angle = i as f64 * step;
        let gas = 3000.0 * libm::exp(-angle * 2.0) - 40.0;
        let state = crank.at(angle, SPEED);
        let (small, big) = two_mass_pin_forces(&two, &crank, 0.09, gas, angle, SPEED);
        let pair = missing * -state.rod_angular_acceleration_rad_s2 / LENGTH;
        greatest_error = greatest_error.max(pair.abs());
        let rigid = (basis.small_end(i, SPEED), basis.big_end(i, SPEED));
        assert!((rigid.0.across - small.across + pair).abs() < 1e-9 * peak, "angle {i}");
        assert!((rigid.1.across - big.across - pair).abs() < 1e-9 * peak, "angle {i}");
        // Across forces at the piston pin lean on the cylinder wall and so change the force along the rod.
        let along = pair * libm::tan(state.rod_angle_rad);
        assert!((rigid.0.along - small.along).abs() <= along.abs() + 1e-9 * peak, "angle {i}");
    }
    assert!(greatest_error > 1e-3 * peak, "the case must be able to tell the two models apart");
}
