//! C19: hysteresis heat.

use approx::assert_relative_eq;
use layload_core::engine::{Cylinder, DEFAULT_SAMPLES, GasCycle, SliderCrank};
use layload_core::heat::{Harmonics, SectionLoop, hysteresis_heat, loop_strength, loss_compliance};
use std::f64::consts::{PI, TAU};

use super::Tested;

#[test]
fn given_stress_is_the_same_as_given_strain() {
    let (storage, factor, frequency, strain) = (1.8e9_f64, 0.1, 40.0, 0.005);
    let loss = storage * factor;
    let stress = strain * (storage * storage + loss * loss).sqrt();
    let by_stress = PI * frequency * loss_compliance(storage, factor) * stress * stress;
    assert_relative_eq!(by_stress, hysteresis_heat(frequency, loss, strain), max_relative = 1e-12);
}

#[test]
fn harmonics_of_known_histories() -> Tested {
    for samples in [720, 361, 90] {
        let table = Harmonics::new(samples, 20)?;
        let history: Vec<f64> = (0..samples)
            .map(|i| TAU * i as f64 / samples as f64)
            .map(|x| 5.0 + 3.0 * libm::cos(x) - 2.0 * libm::sin(3.0 * x) + 0.5 * libm::cos(7.0 * x))
            .collect();
        let found = table.of(&history).ok_or("length")?;
        for (index, harmonic) in found.iter().enumerate() {
            let (cosine, sine) = match index + 1 {
                1 => (3.0, 0.0),
                3 => (0.0, -2.0),
                7 => (0.5, 0.0),
                _ => (0.0, 0.0),
            };
            assert_relative_eq!(harmonic.cosine, cosine, epsilon = 1e-12);
            assert_relative_eq!(harmonic.sine, sine, epsilon = 1e-12);
        }
        // Each harmonic turns its own number of times a cycle: pi (9 + 3 x 4 + 7 x 0.25).
        assert_relative_eq!(loop_strength(&found, &found), PI * 22.75, max_relative = 1e-12);
        assert_eq!(table.of(&history[1..]), None);
    }
    Ok(())
}

#[test]
fn strength_is_the_integral_over_the_cycle() -> Tested {
    // pi sum n s_n² is the integral of the history times the derivative of its quarter-turn-shifted self; for a square
    // wave of amplitude 1, pi sum over odd n of n (4 / (pi n))² grows as 16/pi times the sum of 1/n.
    let samples = 20_000;
    let square: Vec<f64> = (0..samples).map(|i| if i < samples / 2 { 1.0 } else { -1.0 }).collect();
    let found = Harmonics::new(samples, 31)?.of(&square).ok_or("length")?;
    let expected: f64 = (0..16).map(|k| 16.0 / PI / f64::from(2 * k + 1)).sum();
    // 1e-4: the edge of the wave lies between samples, off by (n / samples)² and less.
    assert_relative_eq!(loop_strength(&found, &found), expected, max_relative = 1e-4);
    Ok(())
}

#[test]
fn section_at_any_speed() -> Tested {
    let samples = 360;
    let angle = |i: usize| TAU * i as f64 / samples as f64;
    let gas: Vec<f64> = (0..samples).map(|i| -2000.0 * libm::exp(-4.0 * angle(i))).collect();
    let inertia: Vec<f64> = (0..samples).map(|i| 0.004 * libm::cos(angle(i))).collect();
    let table = Harmonics::new(samples, 36)?;
    let (g, n) = (table.of(&gas).ok_or("length")?, table.of(&inertia).ok_or("length")?);
    let (area, second_moment) = (2e-4, 4e-9);
    let section = SectionLoop::default().with(&g, &n, area).with(&g, &n, second_moment);
    for speed in [0.0, 100.0, 500.0, 900.0] {
        let sum: Vec<f64> = gas.iter().zip(&inertia).map(|(a, b)| a + speed * speed * b).collect();
        let all = table.of(&sum).ok_or("length")?;
        let expected = loop_strength(&all, &all) * (1.0 / area + 1.0 / second_moment);
        assert_relative_eq!(section.at(speed), expected, max_relative = 1e-10);
        assert_relative_eq!(section.heat_per_length(speed, 50.0, 1e-11), 50.0 * 1e-11 * expected, max_relative = 1e-10);
    }
    Ok(())
}

#[test]
fn bending_over_a_cut_by_integration() -> Tested {
    // A 10 x 20 mm cut in bending: integral of s² dA = M²/I.
    let (breadth, depth, moment) = (0.01, 0.02, 3.0);
    let second_moment = breadth * depth * depth * depth / 12.0;
    let strips = 2000;
    let mut integral = 0.0;
    for i in 0..strips {
        let y = depth * ((f64::from(i) + 0.5) / f64::from(strips) - 0.5);
        integral += (moment * y / second_moment) * (moment * y / second_moment) * breadth * depth / f64::from(strips);
    }
    let samples = 64;
    let history: Vec<f64> = (0..samples).map(|i| moment * libm::cos(TAU * i as f64 / samples as f64)).collect();
    let table = Harmonics::new(samples, 4)?;
    let found = table.of(&history).ok_or("length")?;
    let section = SectionLoop::default().with(&found, &[], second_moment);
    // 1e-6: mid-strip sum over 2000 strips.
    assert_relative_eq!(section.at(0.0), PI * integral, max_relative = 1e-6);
    Ok(())
}

#[test]
fn three_dozen_harmonics_hold_a_pressure_cycle() -> Tested {
    // A four-stroke of our own, 98 cm³, at open throttle; against 300 harmonics. What is left out is heat left out.
    let crank = SliderCrank::new(0.023, 0.092, 0.0)?;
    let cylinder = Cylinder::new(crank, 0.052, 7.5)?;
    let trace = GasCycle::four_stroke().run(&cylinder, 1.0, DEFAULT_SAMPLES)?.trace;
    let strength = |count| -> Result<f64, Box<dyn std::error::Error>> {
        let found = Harmonics::new(DEFAULT_SAMPLES, count)?.of(trace.samples_pa()).ok_or("length")?;
        Ok(loop_strength(&found, &found))
    };
    let share = strength(36)? / strength(300)?;
    println!("36 harmonics hold {share:.5} of the loop strength");
    assert!(share > 0.99 && share <= 1.0, "{share}");
    Ok(())
}
