//! The face of the crown within one cycle.

use approx::assert_relative_eq;
use layload_core::heat::{CrownStep, Film, GasFilm, SoftenedDepth, StepPace, Wall, WallLayer, surface_swing};
use std::f64::consts::TAU;

use super::Tested;

#[test]
fn sine_of_the_gas() -> Tested {
    // Carslaw & Jaeger 2.6, radiation at the face into a medium at A cos(w t): the face swings by
    // A / sqrt(1 + 2 b + 2 b²) with b = e sqrt(w / 2) / h.
    let (film, amplitude, cycle, effusivity) = (600.0, 500.0, 0.024, 700.0);
    let samples = 720;
    let gas = GasFilm {
        coefficients: vec![film; samples],
        temperatures: (0..samples).map(|i| 400.0 + amplitude * libm::cos(TAU * i as f64 / 720.0)).collect(),
    };
    let b = effusivity * (TAU / cycle / 2.0_f64).sqrt() / film;
    let expected = amplitude / (1.0 + 2.0 * b + 2.0 * b * b).sqrt();
    let (least, greatest) = surface_swing(&gas, 400.0, cycle, effusivity)?;
    // 1e-3: rounds stop at a millikelvin in some twenty kelvin, and the peak lies between samples.
    assert_relative_eq!(greatest, expected, max_relative = 1e-3);
    assert_relative_eq!(least, -expected, max_relative = 1e-3);
    Ok(())
}

#[test]
fn pulse_against_the_wall_itself() -> Tested {
    // A pulse of heat for a tenth of the cycle, followed cycle by cycle by the wall with fine cells.
    let (cycle, h, hot, cold, mean_face) = (0.024, 1500.0, 1500.0, 400.0, 450.0);
    let samples = 720;
    let pulse = |i: usize| i < samples / 10;
    let gas = GasFilm {
        coefficients: (0..samples).map(|i| if pulse(i) { h } else { 50.0 }).collect(),
        temperatures: (0..samples).map(|i| if pulse(i) { hot } else { cold }).collect(),
    };
    let layer = WallLayer { thickness: 0.4e-3, conductivity: 0.25, volumetric_heat: 1.9e6, cells: 400 };
    let effusivity = (0.25_f64 * 1.9e6).sqrt();
    let wall = Wall::new(&[layer], &[])?;
    let mean = gas.mean();
    // The back film holds the mean of the face where it is wanted.
    let flux = mean.coefficient * (mean.temperature - mean_face);
    let back = Film { coefficient: 1e5, temperature: mean_face - flux * (0.4e-3 / 0.25 + 1e-5) };
    let mut run = wall.start(mean_face)?;
    run.temperatures.copy_from_slice(&wall.steady(Film { coefficient: 1e-3, temperature: flux / 1e-3 }, back)?);
    let mut watch = SoftenedDepth::new(0, 5000.0, &[])?;
    let (mut sum, mut count, mut highest) = (0.0, 0.0, 0.0_f64);
    for turn in 0..80 {
        for (seconds, coefficient, temperature) in [(cycle * 0.1, h, hot), (cycle * 0.9, 50.0, cold)] {
            let step = CrownStep { seconds, gas: Film { coefficient, temperature }, back };
            wall.run(&mut run, &step, StepPace::even(cycle * 0.0025), &mut watch, |run, _| {
                if turn >= 79 {
                    sum += run.temperatures[0];
                    count += 1.0;
                    highest = highest.max(run.temperatures[0]);
                }
            })?;
        }
    }
    let face = sum / count;
    let (_, greatest) = surface_swing(&gas, face, cycle, effusivity)?;
    // 3 %: 180 harmonics round the corner of the pulse off.
    assert_relative_eq!(greatest, highest - face, max_relative = 0.03);
    Ok(())
}
