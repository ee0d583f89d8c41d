//! A margin is the factor on all stress: it halves when all loads double, far below every tested life too.

use approx::assert_relative_eq;
use layload_core::engine::{DEFAULT_SAMPLES, PressureTrace, Strokes};
use layload_core::rod::Temperatures;

use super::{Found, Tested, at, job, model, prepared};

/// Far above any vacuum that the largest factor asks for, Pa: the gas acts by its excess over the crankcase alone.
const CRANKCASE: f64 = 2e6;

/// Margins of a rod whose gas and inertia forces are all `factor` times as great, clearances in proportion, so that the pin
/// bears in the same way.
fn margins(sample: &str, factor: f64) -> Found<Vec<f64>> {
    let mut prepared = prepared(sample, &job([50.0, 80.0, 65.0]))?;
    let engine = &mut prepared.scenario.engine;
    let peak = engine.peak_pressure.ok_or("no peak")?;
    let run = engine.cycle.scaled_to_peak(&prepared.cylinder, peak, DEFAULT_SAMPLES)?.run(
        &prepared.cylinder,
        1.0,
        DEFAULT_SAMPLES,
    )?;
    let excess = run.trace.samples_pa().iter().map(|p| CRANKCASE + factor * (p - engine.crankcase_pressure));
    engine.measured = Some(PressureTrace::new(Strokes::Four, excess.collect())?);
    engine.peak_pressure = None;
    engine.crankcase_pressure = CRANKCASE;
    engine.reciprocating_mass *= factor;
    prepared.scenario.card.density_kg_m3.value *= factor;
    prepared.scenario.fits.small_end *= factor;
    prepared.scenario.fits.big_end *= factor;
    let model = model(&prepared);
    let (found, _) = at(&prepared, &model, &prepared.scenario, &Temperatures::uniform(&model, 333.15))?;
    Ok([found.strength.margin()].into_iter().chain(found.strength.modes.iter().map(|mode| mode.margin)).collect())
}

#[test]
fn a_margin_times_the_loads_is_one_number() -> Tested {
    for sample in ["plain_rod.stl", "i_shank_rod.stl"] {
        let whole = margins(sample, 1.0)?[0];
        for factor in [0.05, 0.2, 0.4, 2.5, 5.0] {
            // Searches for margins end at a relative 1e-6; what rupture does without any stress, the only part that is not in
            // proportion, is below a thousandth of the damage here.
            assert_relative_eq!(margins(sample, factor)?[0] * factor, whole, max_relative = 0.01);
        }
    }
    Ok(())
}

#[test]
fn a_looser_pin_is_never_better() -> Tested {
    for sample in ["plain_rod.stl", "i_shank_rod.stl", "thin_web_rod.stl"] {
        looser(sample)?;
    }
    Ok(())
}

fn looser(sample: &str) -> Tested {
    let loose = prepared(sample, &job([50.0, 80.0, 65.0]))?;
    let model = model(&loose);
    let temperatures = Temperatures::uniform(&model, 333.15);
    let mut seen = Vec::new();
    for step in 0..40 {
        let clearance = 0.01e-3 * libm::pow(1.2, f64::from(step));
        let mut scenario = loose.scenario.clone();
        (scenario.fits.small_end, scenario.fits.big_end) = (clearance, clearance);
        let margin = at(&loose, &model, &scenario, &temperatures)?.0.strength.margin();
        seen.push((clearance * 1e3, margin));
    }
    for pair in seen.windows(2) {
        assert!(pair[1].1 <= pair[0].1 * (1.0 + 1e-9), "{seen:?}");
    }
    Ok(())
}
