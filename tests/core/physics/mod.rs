//! What a whole rod must obey whatever the numbers: rankings over random jobs, and limits with a closed form.

mod all_loads;
mod cap;
mod changes;
mod head;
mod headline;
mod less;
mod limits;
mod ranking;
mod same_rod;
mod speeds;
mod state;
mod walls;

use layload_core::job::{Job, Scenario};
use layload_core::rod::{Assessment, PreparedRod, RodCuts, RodModel, Stressing, Temperatures, WarmRod, assess};
use layload_core::stress::EyeFamily;
use layload_core::{Question, prepare};

pub(crate) use super::mesh::Tested;

type Found<T> = Result<T, Box<dyn std::error::Error>>;

/// A bench engine at 5000 rpm, with the temperatures of crankcase air, piston pin and crank pin, °C.
fn job([air, piston_pin, crank_pin]: [f64; 3]) -> String {
    format!(
        r#"
    [engine]
    strokes = "four"
    bore_mm = 34.0
    stroke_mm = 46.0
    reciprocating_mass_g = 42.0
    compression_ratio = 6.5
    [engine.gas]
    peak_pressure_bar = 20.0
    [part.small_end]
    runs = "bush"
    [part.big_end]
    runs = "bearing"
    [material]
    name = "PA12-CF15"
    [duty]
    wanted_life_h = 2.0
    steps = [{{ rpm = 5000.0, throttle = 1.0, seconds = 60.0 }}]
    [surroundings]
    crankcase_air_c = {air:?}
    piston_pin_c = {piston_pin:?}
    crank_pin_c = {crank_pin:?}
    [model]
    stations = 60
"#
    )
}

/// A sample rod, with a job of its own.
fn prepared(sample: &str, job: &str) -> Found<PreparedRod> {
    let path = format!("{}/../samples/{sample}", env!("CARGO_MANIFEST_DIR"));
    let job = Job::from_toml(job)?;
    let question = Question { job: &job, card_text: None, pressure_text: None };
    Ok(prepare(&std::fs::read(path)?, &question, &mut ())?)
}

/// The rod as printed.
fn model(prepared: &PreparedRod) -> RodModel {
    let cuts = RodCuts::new(&prepared.rod, prepared.scenario.stations);
    let density = prepared.scenario.material().density;
    RodModel::new(&prepared.rod, &cuts, prepared.print, density, EyeFamily::embedded().angles())
}

/// Whatever a check finds in a scenario, at the temperatures that the loads bring about.
fn assessed(prepared: &PreparedRod, model: &RodModel) -> Found<Assessment> {
    let loading = prepared.loading(model)?;
    let warm = WarmRod::new(model, &loading, &prepared.scenario, prepared.crank.throw_m())?;
    let temperatures = warm.at(1.0)?.temperatures;
    Ok(at(prepared, model, &prepared.scenario, &temperatures)?.0)
}

/// The same at given temperatures, with the greatest stress anywhere, Pa.
fn at(
    prepared: &PreparedRod,
    model: &RodModel,
    scenario: &Scenario,
    temperatures: &Temperatures,
) -> Found<(Assessment, f64)> {
    let changed = PreparedRod { scenario: scenario.clone(), ..prepared.clone() };
    let loading = changed.loading(model)?;
    let stressing = Stressing::new(model, &loading, scenario, temperatures);
    let found = assess(&stressing, scenario, temperatures);
    let greatest = found.eyes.iter().flatten().map(|extremes| extremes.1).fold(0.0, f64::max);
    Ok((found, greatest))
}
