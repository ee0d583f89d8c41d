//! Peaks that differ from cycle to cycle, in a piston.

use approx::assert_relative_eq;
use layload_core::job::Job;
use layload_core::piston::PistonRegion;
use layload_core::verdict::Mode;

use super::{Tested, Worked, job, piston, worked};

fn found(change: impl FnOnce(&mut Job)) -> Result<Worked, Box<dyn std::error::Error>> {
    let job = job("samples/bench_piston.toml", |job| {
        job.material.temperature_c = Some(23.0);
        change(job);
    })?;
    worked(&piston("samples/thin_crown_piston.stl")?, &job)
}

fn knocking(every: f64, times: f64) -> Result<Worked, Box<dyn std::error::Error>> {
    found(|job| (job.engine.gas.knock_every, job.engine.gas.knock_times) = (Some(every), Some(times)))
}

fn margin(found: &Worked, mode: Mode) -> Result<f64, &'static str> {
    let modes = found.assessment.strength.modes.iter();
    modes
        .filter(|m| m.mode == mode && m.place.region() == PistonRegion::Crown)
        .map(|m| m.margin)
        .next()
        .ok_or("no mode")
}

/// Highest pressure of any cycle over that under the piston, Pa.
fn highest(found: &Worked) -> f64 {
    let loads = found.loading.throttles.iter();
    loads.flat_map(|load| (0..load.basis.angles()).map(|angle| load.basis.pressure(angle))).fold(0.0, f64::max)
}

#[test]
fn the_highest_peak_breaks_a_crown() -> Tested {
    let (even, knock) = (found(|_| {})?, knocking(400.0, 1.5)?);
    let under = even.prepared.scenario.engine.crankcase_pressure;
    assert_relative_eq!(highest(&knock) + under, 1.5 * (highest(&even) + under), max_relative = 1e-12);
    // One push breaks by its own size, however seldom; the crown's own inertia is some hundredths of it.
    let [before, after] = [&even, &knock].map(|found| margin(found, Mode::OverloadInLayerPlane));
    assert_relative_eq!(before? / after?, highest(&knock) / highest(&even), max_relative = 0.02);
    Ok(())
}

#[test]
fn cycles_that_are_alike_are_as_if_nothing_were_said() -> Tested {
    let (even, alike) = (found(|_| {})?, knocking(3.0, 1.0)?);
    for mode in [Mode::OverloadInLayerPlane, Mode::FatigueInLayerPlane] {
        assert_relative_eq!(margin(&even, mode)?, margin(&alike, mode)?, max_relative = 1e-9);
    }
    Ok(())
}

#[test]
fn wider_spread_and_more_knock_never_help() -> Tested {
    let fatigue = |found: &Worked| margin(found, Mode::FatigueInLayerPlane);
    let spread = |percent: f64| found(|job| job.engine.gas.peak_spread_percent = Some(percent));
    let margins =
        [fatigue(&found(|_| {})?)?, fatigue(&spread(5.0)?)?, fatigue(&spread(10.0)?)?, fatigue(&spread(20.0)?)?];
    assert!(margins.windows(2).all(|pair| pair[1] < pair[0]), "{margins:?}");
    let margins = [fatigue(&knocking(1e6, 1.5)?)?, fatigue(&knocking(100.0, 1.5)?)?, fatigue(&knocking(10.0, 1.5)?)?];
    assert!(margins.windows(2).all(|pair| pair[1] < pair[0]), "{margins:?}");
    Ok(())
}

#[test]
fn heat_is_that_of_the_mean_cycle() -> Tested {
    let hot = |change: fn(&mut Job)| -> Result<Worked, Box<dyn std::error::Error>> {
        worked(&piston("samples/thin_crown_piston.stl")?, &job("samples/bench_piston.toml", change)?)
    };
    let (even, spread) = (hot(|_| {})?, hot(|job| job.engine.gas.peak_spread_percent = Some(15.0))?);
    // One step in parts is followed by other steps of time.
    assert_relative_eq!(even.warm.surface, spread.warm.surface, max_relative = 1e-5);
    Ok(())
}
