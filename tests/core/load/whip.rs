//! The whip of a slender uniform rod against the beam formulas for uniform and triangular load.

use layload_core::engine::SliderCrank;

use super::{THROW, bar, loaded, sliced};

/// A bar carried at its ends under load `w0` at the start rising by `w1` to the end has the moment
/// `w0 x (L - x) / 2 + w1 x (L² - x²) / (6 L)` (Timoshenko, Strength of Materials; Shigley, beam tables).
///
/// The bar is 1 mm thick and 100 mm long: the mass off its axis, which the formula leaves out, is (1 / 100)² / 12 of the
/// whole; 0.5 % of the peak is the bound the job asks for.
#[test]
fn whip_of_a_uniform_bar() {
    const LENGTH: f64 = 0.1;
    const DENSITY: f64 = 1100.0;
    const ANGLES: usize = 360;
    const SPEED: f64 = 1000.0;
    let mesh = bar(0.0, LENGTH, 0.001, 0.001);
    let crank = SliderCrank::new(THROW, LENGTH, 0.0).expect("turns");
    let planes: Vec<f64> = (1..50).map(|k| LENGTH * f64::from(k) / 50.0).collect();
    let mass = sliced(&mesh, &planes, DENSITY, LENGTH);
    let basis = loaded(&mass, &crank, ANGLES);
    let per_length = 1e-6 * DENSITY;
    let formula = |i: usize, x: f64| {
        let state = crank.at(i as f64 * 4.0 * core::f64::consts::PI / ANGLES as f64, SPEED);
        let across_at = |along: f64| {
            let [u, w] = state.rod_point_acceleration_m_s2(along, 0.0);
            let [a, b] = state.rod_side_direction();
            u * a + w * b
        };
        let start = -per_length * across_at(0.0);
        let rise = -per_length * (across_at(LENGTH) - across_at(0.0));
        start * x * (LENGTH - x) / 2.0 + rise * x * (LENGTH * LENGTH - x * x) / (6.0 * LENGTH)
    };
    let mut peak = 0.0_f64;
    let mut worst = 0.0_f64;
    for i in 0..ANGLES {
        for (plane, &x) in planes.iter().enumerate() {
            let expected = formula(i, x);
            peak = peak.max(expected.abs());
            // Load to the side of positive y bends the bar so that the moment about z is its negative.
            worst = worst.max((basis.section(plane, i, SPEED).bending + expected).abs());
        }
    }
    assert!(peak > 0.0);
    assert!(worst < 0.005 * peak, "worst {worst}, peak {peak}");
}
