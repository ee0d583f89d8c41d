//! C3 and C4: the exact slider-crank.

use std::f64::consts::PI;

use approx::assert_relative_eq;
use layload_core::engine::SliderCrank;
use libm::{cos, sin};
use proptest::prelude::*;

use super::Tested;

/// Eighth-order central differences: with the step below their error is under 1e-10 of the largest value.
const STEP_RAD: f64 = 0.02;

fn first_derivative(f: impl Fn(f64) -> f64, t: f64) -> f64 {
    let pair = |n: f64| f(t + n * STEP_RAD) - f(t - n * STEP_RAD);
    (4.0 / 5.0 * pair(1.0) - pair(2.0) / 5.0 + 4.0 / 105.0 * pair(3.0) - pair(4.0) / 280.0) / STEP_RAD
}

fn second_derivative(f: impl Fn(f64) -> f64, t: f64) -> f64 {
    let pair = |n: f64| f(t + n * STEP_RAD) + f(t - n * STEP_RAD);
    (8.0 / 5.0 * pair(1.0) - pair(2.0) / 5.0 + 8.0 / 315.0 * pair(3.0) - pair(4.0) / 560.0 - 205.0 / 72.0 * f(t))
        / (STEP_RAD * STEP_RAD)
}

/// Position of the piston pin by geometry: where the circle of the rod about the crank pin meets the pin's line.
fn position_m(r: f64, l: f64, e: f64, t: f64) -> f64 {
    let (pin_u, pin_w) = (r * cos(t), r * sin(t));
    pin_u + (l * l - (e - pin_w) * (e - pin_w)).sqrt()
}

#[test]
fn every_angle_against_numeric_derivatives() -> Tested {
    let omega = 900.0;
    for (r, l, e) in [(0.020, 0.090, 0.0), (0.020, 0.090, 0.003), (0.015, 0.045, -0.004), (0.030, 0.080, 0.035)] {
        let crank = SliderCrank::new(r, l, e)?;
        for degree in 0..720 {
            let t = f64::from(degree).to_radians();
            let state = crank.at(t, omega);
            let scale = r * omega * omega;
            assert_relative_eq!(state.piston_position_m, position_m(r, l, e, t), max_relative = 1e-14);
            let [pin_u, pin_w] = state.crank_pin_position_m;
            assert_relative_eq!(libm::hypot(pin_u, pin_w), r, max_relative = 1e-14);
            assert_relative_eq!(libm::hypot(state.piston_position_m - pin_u, e - pin_w), l, max_relative = 1e-14);
            // 1e-6 of the largest value, as the stencil's error is well below it for these engines.
            let limit = 1e-6;
            let velocity = omega * first_derivative(|t| position_m(r, l, e, t), t);
            let acceleration = omega * omega * second_derivative(|t| position_m(r, l, e, t), t);
            assert!((state.piston_velocity_m_s - velocity).abs() < limit * r * omega, "{degree} {e}");
            assert!((state.piston_acceleration_m_s2 - acceleration).abs() < limit * scale, "{degree} {e}");
            let angle = |t| libm::asin((r * sin(t) - e) / l);
            assert_relative_eq!(state.rod_angle_rad, angle(t), epsilon = 1e-15);
            let spin = omega * first_derivative(angle, t);
            let spin_rate = omega * omega * second_derivative(angle, t);
            assert!((state.rod_angular_velocity_rad_s - spin).abs() < limit * omega, "{degree} {e}");
            assert!((state.rod_angular_acceleration_rad_s2 - spin_rate).abs() < limit * omega * omega, "{degree} {e}");
        }
    }
    Ok(())
}

#[test]
fn rod_points_against_numeric_derivatives() -> Tested {
    let (r, l, e, omega) = (0.018, 0.070, 0.002, 700.0);
    let crank = SliderCrank::new(r, l, e)?;
    // A point 0.3 of the way to the big end and 5 mm to the side, placed by the two ends alone.
    let (along, side) = (0.3 * l, 0.005);
    let place = |t: f64| {
        let small = [position_m(r, l, e, t), e];
        let unit = [(r * cos(t) - small[0]) / l, (r * sin(t) - small[1]) / l];
        [small[0] + along * unit[0] - side * unit[1], small[1] + along * unit[1] + side * unit[0]]
    };
    for degree in (0..360).step_by(7) {
        let t = f64::from(degree).to_radians();
        let state = crank.at(t, omega);
        let got = state.rod_point_acceleration_m_s2(along, side);
        for (axis, got) in got.into_iter().enumerate() {
            let expected = omega * omega * second_derivative(|t| place(t)[axis], t);
            // 1e-8 of r w^2: what the stencil's rounding leaves.
            assert!((got - expected).abs() < 1e-8 * r * omega * omega, "{degree} axis {axis}");
        }
        // Both ends of the rod are points of it.
        let big = state.rod_point_acceleration_m_s2(l, 0.0);
        let small = state.rod_point_acceleration_m_s2(0.0, 0.0);
        for (got, pin) in big.into_iter().zip(state.crank_pin_acceleration_m_s2) {
            assert_relative_eq!(got, pin, epsilon = 1e-12 * r * omega * omega);
        }
        assert_relative_eq!(small[0], state.piston_acceleration_m_s2, max_relative = 1e-15);
        assert_relative_eq!(small[1], 0.0);
    }
    Ok(())
}

#[test]
fn crank_pin_turns_from_u_toward_w() -> Tested {
    let state = SliderCrank::new(0.02, 0.09, 0.0)?.at(PI / 2.0, 100.0);
    assert_relative_eq!(state.crank_pin_position_m[1], 0.02, max_relative = 1e-15);
    assert_relative_eq!(state.crank_pin_acceleration_m_s2[1], -0.02 * 1e4, max_relative = 1e-15);
    assert!(state.rod_angle_rad > 0.0);
    assert!(state.piston_velocity_m_s < 0.0);
    Ok(())
}

#[test]
fn stroke_without_offset_is_two_throws() -> Tested {
    let crank = SliderCrank::new(0.02, 0.09, 0.0)?;
    assert_relative_eq!(crank.stroke_m(), 0.04, max_relative = 1e-14);
    assert_relative_eq!(crank.top_angle_rad(), 0.0);
    assert_relative_eq!(crank.bottom_angle_rad(), PI);
    Ok(())
}

fn cranks() -> impl Strategy<Value = SliderCrank> {
    (0.001_f64..0.2, 1.05_f64..8.0, -0.95_f64..0.95)
        .prop_filter_map("turns", |(r, ratio, share)| SliderCrank::new(r, ratio * r, share * (ratio - 1.0) * r).ok())
}

proptest! {
    #[test]
    fn top_and_bottom_bound_the_piston(crank in cranks(), t in -10.0_f64..10.0) {
        let state = crank.at(t, 1.0);
        let rounding = 1e-14 * crank.rod_length_m();
        prop_assert!(state.piston_drop_m >= -rounding);
        prop_assert!(state.piston_drop_m <= crank.stroke_m() + rounding);
        // At the extremes the piston stands still; the tolerance is the rounding of the angle times the sharpest
        // acceleration of this family, where the rod all but jams.
        let jam = crank.rod_length_m() / (crank.rod_length_m() - crank.throw_m() - crank.pin_offset_m().abs());
        for extreme in [crank.top_angle_rad(), crank.bottom_angle_rad()] {
            prop_assert!(crank.at(extreme, 1.0).piston_velocity_m_s.abs() < 1e-13 * jam * crank.rod_length_m());
        }
    }
}
