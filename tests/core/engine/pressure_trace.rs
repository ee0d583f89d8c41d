//! Samples, interpolation, peak and work of a pressure trace.

use std::f64::consts::PI;

use approx::assert_relative_eq;
use layload_core::engine::{Cylinder, PressureError, PressureTrace, SliderCrank, Strokes};
use proptest::prelude::*;

use super::Tested;

fn ramp(strokes: Strokes) -> Result<PressureTrace, PressureError> {
    PressureTrace::new(strokes, (1..=36).map(|i| f64::from(i) * 1e5).collect())
}

#[test]
fn linear_between_samples_and_round_the_end() -> Tested {
    let trace = ramp(Strokes::Two)?;
    let at = |degree: f64| trace.pressure_at_pa(degree.to_radians());
    // 1e-9: rounding of the angle in steps of ten degrees.
    assert_relative_eq!(at(0.0), 1e5, max_relative = 1e-9);
    assert_relative_eq!(at(25.0), 3.5e5, max_relative = 1e-9);
    assert_relative_eq!(at(352.5), 0.75 * 36e5 + 0.25 * 1e5, max_relative = 1e-9);
    assert_relative_eq!(at(-7.5), at(352.5), max_relative = 1e-9);
    assert_relative_eq!(at(3600.0 + 25.0), at(25.0), max_relative = 1e-9);
    assert!(trace.pressure_at_pa(f64::NAN).is_nan());
    Ok(())
}

#[test]
fn peak_angle_is_signed() -> Tested {
    let trace = ramp(Strokes::Four)?;
    assert_relative_eq!(trace.peak().pressure_pa, 36e5);
    assert_relative_eq!(trace.peak().angle_rad.to_degrees(), -20.0, max_relative = 1e-12);
    Ok(())
}

#[test]
fn work_of_a_rectangle() -> Tested {
    // 5 bar down, 1 bar up: (5 - 1) bar times displacement, less the two slanted ends of the samples.
    let cylinder = Cylinder::new(SliderCrank::new(0.020, 0.090, 0.0)?, 0.040, 8.0)?;
    let samples = (0..7200).map(|i| if i <= 3600 { 5e5 } else { 1e5 }).collect();
    let trace = PressureTrace::new(Strokes::Two, samples)?;
    // 1e-5: near the dead centres a twentieth of a degree of slant encloses next to no volume.
    assert_relative_eq!(trace.indicated_work_j(&cylinder), 4e5 * cylinder.displacement_m3(), max_relative = 1e-5);
    assert_relative_eq!(trace.mean_effective_pressure_pa(&cylinder), 4e5, max_relative = 1e-5);
    Ok(())
}

#[test]
fn bad_samples_are_refused() {
    for bad in [0.0, -1.0, f64::NAN, f64::INFINITY] {
        let mut samples = vec![1e5; 36];
        samples[7] = bad;
        let got = PressureTrace::new(Strokes::Two, samples);
        assert!(matches!(got, Err(PressureError::BadSample { index: 7, .. })), "{got:?}");
    }
    for count in [0, 35, 72_001] {
        let got = PressureTrace::new(Strokes::Two, vec![1e5; count]);
        assert!(matches!(got, Err(PressureError::SampleCount { .. })), "{got:?}");
    }
}

proptest! {
    #[test]
    fn interpolation_stays_between_the_samples(
        samples in prop::collection::vec(1e4_f64..1e7, 36..80),
        angle in -100.0_f64..100.0,
    ) {
        let lowest = samples.iter().copied().fold(f64::INFINITY, f64::min);
        let Ok(trace) = PressureTrace::new(Strokes::Four, samples) else { return Err(TestCaseError::fail("refused")) };
        let got = trace.pressure_at_pa(angle);
        let rounding = 1e-9 * trace.peak().pressure_pa;
        prop_assert!(got >= lowest - rounding && got <= trace.peak().pressure_pa + rounding);
        prop_assert!((got - trace.pressure_at_pa(angle + 4.0 * PI)).abs() < 1e-6 * trace.peak().pressure_pa);
    }
}
