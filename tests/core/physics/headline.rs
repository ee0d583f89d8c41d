//! What fails first is one thing: headline, first row of the table, mode, place and margin.

use layload_core::engine::DutyStep;
use layload_core::job::{BuildDirection, Job, NamedPose};
use layload_core::material::library;
use layload_core::report::Report;
use layload_core::report::words::Words;
use layload_core::{LoadedPart, Question, State, load, quick_look};
use proptest::prelude::*;

use super::Found;
use crate::mesh::files;

/// Every sample with the job that comes with it.
const SAMPLES: [(&str, &str); 10] = [
    ("plain_rod", "bench_single"),
    ("stout_rod", "bench_single"),
    ("bushed_rod", "bench_bushed"),
    ("i_shank_rod", "bench_single"),
    ("thin_web_rod", "bench_single"),
    ("split_rod", "bench_split"),
    ("bearing_rod", "bench_bearings"),
    ("flat_crown_piston", "bench_piston"),
    ("thin_crown_piston", "bench_piston"),
    ("plate_crown_piston", "bench_piston_plate"),
];

fn parts() -> &'static [(LoadedPart, Job)] {
    static LIST: std::sync::OnceLock<Vec<(LoadedPart, Job)>> = std::sync::OnceLock::new();
    LIST.get_or_init(|| {
        let of = |(mesh, job): &(&str, &str)| -> Found<(LoadedPart, Job)> {
            let text = String::from_utf8(files::bytes(&format!("samples/{job}.toml"))?)?;
            let mut job = Job::from_toml(&text)?;
            job.model.stations = Some(60);
            Ok((load(&files::bytes(&format!("samples/{mesh}.stl"))?, &job, &mut ())?, job))
        };
        SAMPLES.iter().map(|sample| of(sample).unwrap()).collect()
    })
}

fn one_thing(report: &Report) -> Result<(), String> {
    let (verdict, modes) = (&report.verdict, &report.modes);
    let first = modes.first().ok_or("no modes")?;
    let same = first.mode == verdict.governing_mode
        && first.place == verdict.governing_place
        && first.margin == verdict.governing_margin;
    if !same {
        return Err(format!("{first:?} beside {verdict:?}"));
    }
    if let Some(less) = modes.iter().find(|mode| mode.margin < verdict.governing_margin) {
        return Err(format!("{less:?} below {verdict:?}"));
    }
    // Several modes fail more often than one; the search for their margin ends within 1e-6 of its logarithm.
    if verdict.margin > verdict.governing_margin * (1.0 + 1e-5) {
        return Err(format!("together {} above {}", verdict.margin, verdict.governing_margin));
    }
    // What the first full load does is said of a mode that needs no time.
    let told = Words(report).verdict();
    if let Some((_, cause)) = told.split_once("at the first full load: ") {
        let at_once = modes.iter().filter(|mode| mode.life_b10_s.is_none() && mode.margin < 1.0);
        if !at_once.map(|mode| mode.mode.happens()).any(|happens| cause.starts_with(happens)) {
            return Err(told);
        }
    }
    // A mode below its limit is one of nine in ten that do not reach the life.
    if verdict.state != State::Fails && verdict.governing_margin < 1.0 {
        return Err(format!("holds below 1: {verdict:?}"));
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 32, ..ProptestConfig::default() })]

    #[test]
    fn the_first_row_is_the_headline(
        sample in 0..SAMPLES.len(),
        speed in 0.3..2.5_f64,
        throttle in 0.2..1.0_f64,
        plastic in 0..12_usize,
        pose in 0..3_usize,
        warmer in prop::option::of(-20.0..90.0_f64),
        gap in prop::option::of(0.0..2.0_f64),
        pressure in 0.5..2.5_f64,
    ) {
        let (part, job) = &parts()[sample];
        let mut job = job.clone();
        let step = job.duty.steps.clone().unwrap().pop().unwrap();
        job.duty.steps = Some(vec![DutyStep { rpm: step.rpm * speed, throttle, ..step }]);
        let names: Vec<&str> = library::names().collect();
        job.material.name = Some(names[plastic % names.len()].into());
        let pose = [NamedPose::Flat, NamedPose::OnEdge, NamedPose::Upright][pose];
        job.print.build_direction = Some(BuildDirection::Named(pose));
        job.material.temperature_c = warmer.map(|more| 60.0 + more);
        job.engine.piston_to_head_mm = gap;
        job.engine.gas.peak_pressure_bar = Some(20.0 * pressure);
        let question = Question { job: &job, card_text: None, pressure_text: None };
        let report = quick_look(part, &question, &mut ()).unwrap();
        prop_assert_eq!(one_thing(&report), Ok(()));
    }
}
