//! Self-heating that finds no rest.

use approx::assert_relative_eq;
use layload_core::heat::{ChainEnd, Fin, FinCooling, FinMaterial, FinStation, HeatError, SteadyHeat, StepPace, onset};
use libm::exp;

use super::Tested;

const AREA: f64 = 2e-4;
const PERIMETER: f64 = 0.06;
const FILM: f64 = 30.0;
const AIR: f64 = 330.0;
/// Kelvin over which the heat grows e-fold.
const SCALE: f64 = 20.0;

fn bar() -> Result<Fin, HeatError> {
    let cuts = [0.0, 0.02, 0.04, 0.06, 0.08].map(|position| FinStation { position, area: AREA, perimeter: PERIMETER });
    Fin::new(&cuts, FinMaterial { conductivity: 0.45, volumetric_heat: 1.8e6 })
}

fn free() -> FinCooling {
    FinCooling { film_coefficient: FILM, air_temperature: AIR, ends: [ChainEnd::Insulated; 2] }
}

/// Heat at air temperature that is just too much: h P x = q exp(x / s) has its last root at x = s (Semenov's thermal
/// explosion: q e = h P s).
fn brink() -> f64 {
    FILM * PERIMETER * SCALE / exp(1.0)
}

fn steady(heat: f64) -> Result<SteadyHeat, HeatError> {
    bar()?.steady(&free(), |_, t| heat * exp((t - AIR) / SCALE), AIR + 200.0)
}

#[test]
fn brink_is_that_of_semenov() -> Tested {
    // 0.1 %: at this distance from the brink the passage through the bottleneck still shows.
    assert!(steady(brink() * 0.999)?.settles());
    assert!(matches!(steady(brink() * 1.001)?, SteadyHeat::Runaway { .. }));
    let found = onset(0.1 * brink(), 10.0 * brink(), 1e-5, |heat| steady(heat).map(|state| state.settles()))?;
    assert_relative_eq!(found.ok_or("no onset")?, brink(), max_relative = 1e-4);
    Ok(())
}

#[test]
fn the_lower_of_two_states_is_found() -> Tested {
    // At 0.8 of the brink: x = s y with y = 0.8/e exp(y); the lower root by fixed-point iteration from zero.
    let mut root = 0.0;
    for _ in 0..200 {
        root = 0.8 / exp(1.0) * exp(root);
    }
    let (_, peak) = steady(0.8 * brink())?.peak().ok_or("ran away")?;
    assert_relative_eq!(peak, AIR + SCALE * root, max_relative = 1e-8);
    Ok(())
}

#[test]
fn transient_takes_the_same_way() -> Tested {
    let fin = bar()?;
    for (share, rests) in [(0.95, true), (1.05, false)] {
        let mut run = fin.start(AIR)?;
        let heat = |_: usize, t: f64| share * brink() * exp((t - AIR) / SCALE);
        let to_the_end = fin.run(&mut run, &free(), heat, 20_000.0, StepPace::even(10.0), AIR + 100.0)?;
        assert_eq!(to_the_end, rests, "{share}: {} K", run.peak.1);
        assert_eq!(run.limit_reached.is_none(), rests);
    }
    Ok(())
}

#[test]
fn onset_at_the_ends_of_the_range() -> Tested {
    assert_eq!(onset(1.0, 2.0, 1e-3, |_| Ok::<_, HeatError>(true))?, None);
    assert_eq!(onset(1.0, 2.0, 1e-3, |_| Ok::<_, HeatError>(false))?, Some(1.0));
    Ok(())
}
