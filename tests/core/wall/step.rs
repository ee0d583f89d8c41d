//! Sudden steps of area and their stress concentration.

use approx::assert_relative_eq;
use layload_core::wall::{AreaStation, AreaStep, StepLimits, area_steps, shoulder_concentration};

use super::Tested;
use super::rods::read;

/// The fit of the same chart in Roark's Formulas for Stress and Strain, table of stress concentration factors, square
/// shoulder with fillet in a member of rectangular section, axial tension. Coefficients from memory.
fn roark(wide: f64, narrow: f64, radius: f64) -> f64 {
    let height = (wide - narrow) / 2.0;
    let (x, root, share) = (height / radius, (height / radius).sqrt(), 2.0 * height / wide);
    let c = if x <= 2.0 {
        [
            1.007 + 1.000 * root - 0.031 * x,
            -0.114 - 0.585 * root + 0.314 * x,
            0.241 - 0.992 * root - 0.271 * x,
            -0.134 + 0.577 * root - 0.012 * x,
        ]
    } else {
        [
            1.042 + 0.982 * root - 0.036 * x,
            -0.074 - 0.156 * root - 0.010 * x,
            -3.418 + 1.220 * root - 0.005 * x,
            3.450 - 2.046 * root + 0.051 * x,
        ]
    };
    c[0] + share * (c[1] + share * (c[2] + share * c[3]))
}

#[test]
fn two_published_fits_of_the_shoulder_agree() {
    for wide_over_narrow in [1.05, 1.1, 1.2, 1.5, 2.0, 3.0] {
        for sharpness in [0.15, 0.3, 0.7, 1.0, 1.9, 2.1, 4.0, 8.0, 15.0, 19.0] {
            let (wide, narrow) = (wide_over_narrow * 0.010, 0.010);
            let radius = (wide - narrow) / 2.0 / sharpness;
            let ours = shoulder_concentration(wide, narrow, radius);
            // Fits of one chart, each good to a few per cent.
            assert_relative_eq!(ours, roark(wide, narrow, radius), max_relative = 0.03);
        }
    }
}

#[test]
fn the_concentration_has_sound_limits() {
    assert_relative_eq!(shoulder_concentration(0.010, 0.010, 1e-3), 1.0);
    assert_relative_eq!(shoulder_concentration(0.020, 0.010, f64::INFINITY), 1.0);
    // Both halves of the fit meet where they change over, within their own error.
    for ratio in [1.1, 1.5, 2.0] {
        let (wide, narrow) = (ratio * 0.010, 0.010);
        let height = (wide - narrow) / 2.0;
        let (below, above) = (height / 1.999, height / 2.001);
        assert_relative_eq!(
            shoulder_concentration(wide, narrow, below),
            shoulder_concentration(wide, narrow, above),
            max_relative = 0.03
        );
    }
    // Sharper is worse, and the sharpest of the fit bounds it.
    let factor = |radius: f64| shoulder_concentration(0.020, 0.010, radius);
    assert!(factor(4e-3) < factor(1e-3) && factor(1e-3) < factor(0.3e-3));
    assert_relative_eq!(factor(1e-9), factor(0.005 / 20.0));
    assert!(shoulder_concentration(0.020, 0.010, 1.0) < 1.05);
}

/// Flat bar 10 mm thick that narrows from `wide` to `narrow` about 30 mm by quarter circles.
fn bar(wide: f64, narrow: f64, radius: f64) -> Vec<AreaStation> {
    let height = (wide - narrow) / 2.0;
    (0..600)
        .map(|k| {
            let position = 0.1e-3 * f64::from(k);
            // From the tangent point at 30 mm upward.
            let past = (position - 0.030).clamp(0.0, radius);
            let rise = radius - (radius * radius - past * past).sqrt();
            let width = if position >= 0.030 + radius { wide } else { narrow + 2.0 * rise.min(height) };
            AreaStation { position, area: width * 0.010, size: [width, 0.010] }
        })
        .collect()
}

#[test]
fn a_filleted_step_is_found_with_its_radius() -> Tested {
    let (wide, narrow, radius) = (0.020, 0.012, 0.004);
    let found = area_steps(&bar(wide, narrow, radius), &StepLimits { ratio: 1.3, within: 5e-3 });
    let [step] = found.as_slice() else { return Err(format!("{} steps", found.len()).into()) };
    assert!(step.from >= 0.030 - 1e-4 && step.to <= 0.034 + 1.1e-4, "{step:?}");
    assert_relative_eq!(step.area_to / step.area_from, wide / narrow, max_relative = 0.05);
    // The slow start of the arc counts as bar, so the step looks a little shorter and sharper than it is.
    assert!(step.fillet_radius > 0.6 * radius && step.fillet_radius <= radius * 1.05, "{step:?}");
    assert!(step.concentration >= shoulder_concentration(wide, narrow, radius), "{step:?}");
    assert!(step.concentration < 1.35 * shoulder_concentration(wide, narrow, radius), "{step:?}");
    Ok(())
}

#[test]
fn a_sharp_step_has_the_distance_of_its_stations_as_radius() -> Tested {
    let stations: Vec<AreaStation> = (0..60)
        .map(|k| {
            let width = if k < 30 { 0.020 } else { 0.010 };
            AreaStation { position: 1e-3 * f64::from(k), area: width * 0.010, size: [width, 0.010] }
        })
        .collect();
    let found = area_steps(&stations, &StepLimits { ratio: 1.3, within: 3e-3 });
    let [AreaStep { from, to, area_from, area_to, fillet_radius, concentration }] = found.as_slice() else {
        return Err(format!("{} steps", found.len()).into());
    };
    assert_relative_eq!(*from, 0.029);
    assert_relative_eq!(*to, 0.030);
    assert!(area_from > area_to);
    assert_relative_eq!(*fillet_radius, 1e-3, max_relative = 1e-9);
    assert_relative_eq!(*concentration, shoulder_concentration(0.020, 0.010, 1e-3), max_relative = 1e-9);
    Ok(())
}

#[test]
fn a_taper_is_not_a_step() {
    let stations: Vec<AreaStation> = (0..100)
        .map(|k| {
            let width = 0.010 + 0.000_1 * f64::from(k);
            AreaStation { position: 0.5e-3 * f64::from(k), area: width * 0.010, size: [width, 0.010] }
        })
        .collect();
    assert!(area_steps(&stations, &StepLimits { ratio: 1.3, within: 3e-3 }).is_empty());
    assert!(area_steps(&[], &StepLimits { ratio: 1.3, within: 3e-3 }).is_empty());
    assert!(area_steps(&stations[..1], &StepLimits { ratio: 1.3, within: 3e-3 }).is_empty());
}

/// Between the eyes, the plain rod has no step where the thin-web sample has one at each end of its flaw.
#[test]
fn the_flaw_of_the_thin_web_makes_steps() -> Tested {
    let steps = |name: &str| -> Result<Vec<AreaStep>, Box<dyn std::error::Error>> {
        let rod = read(name)?;
        let planes: Vec<f64> = (0..200).map(|k| 0.020 + 0.025 * f64::from(k) / 199.0).collect();
        let stations: Vec<AreaStation> =
            layload_core::section::sections(&rod.mesh, &planes, rod.overlapping).iter().map(AreaStation::of).collect();
        Ok(area_steps(&stations, &StepLimits { ratio: 1.15, within: 3e-3 }))
    };
    assert!(steps("i_shank_rod.stl")?.is_empty());
    let found = steps("thin_web_rod.stl")?;
    let [first, second] = found.as_slice() else { return Err(format!("{found:?}").into()) };
    // The flaw reaches from 25 to 37 mm.
    assert!(first.from > 0.0245 && first.to < 0.0285 && first.area_from > first.area_to, "{first:?}");
    assert!(second.from > 0.0335 && second.to < 0.0375 && second.area_from < second.area_to, "{second:?}");
    assert!(first.concentration > 1.0 && second.concentration > 1.0);
    Ok(())
}
