//! A rod that grows into the head fails by that, in every question.

use layload_core::job::Job;
use layload_core::report::Report;
use layload_core::verdict::Mode;
use layload_core::{Question, SpeedRange, State, quick_look, sweep};

use super::Found;
use crate::mesh::files;

fn job(gap_mm: Option<f64>) -> Found<Job> {
    let mut job = Job::from_toml(&String::from_utf8(files::bytes("samples/bench_single.toml")?)?)?;
    job.engine.piston_to_head_mm = gap_mm;
    job.model.stations = Some(60);
    // One step, so that its speed is the whole duty's; so slow that nothing but the head is in doubt.
    let steps = job.duty.steps.as_mut().ok_or("no steps")?;
    steps.remove(0);
    steps[0].rpm = 4000.0;
    Ok(job)
}

fn question(job: &Job) -> Question<'_> {
    Question { job, card_text: None, pressure_text: None }
}

fn checked(gap_mm: Option<f64>) -> Found<Report> {
    let job = job(gap_mm)?;
    Ok(quick_look(&files::bytes("samples/plain_rod.stl")?, &question(&job), &mut ())?)
}

/// Margin of striking the head.
fn of_head(report: &Report) -> Option<f64> {
    report.modes.iter().find(|mode| mode.mode == Mode::HeadContact).map(|mode| mode.margin)
}

#[test]
fn the_margin_is_the_gap_over_the_growth() -> Found<()> {
    assert_eq!(of_head(&checked(None)?), None);
    let wide = checked(Some(1.0))?;
    let clearance = wide.clearance.ok_or("no clearance")?;
    let growth = clearance.elastic_mm + clearance.thermal_mm + clearance.creep_mm.max(0.0);
    let left = clearance.remaining_mm.ok_or("no gap left")?;
    // The same sums.
    assert!((left - (1.0 - growth)).abs() < 1e-12, "{left} of {growth}");
    assert!((of_head(&wide).ok_or("no mode")? * growth - 1.0).abs() < 1e-12);
    assert!(wide.verdict.state == State::NoFaultFound);
    // A little too little and a little enough.
    let (tight, enough) = (checked(Some(0.999 * growth))?, checked(Some(1.001 * growth))?);
    assert!(
        tight.verdict.state == State::Fails && tight.verdict.governing_mode == Mode::HeadContact,
        "{:?}",
        tight.verdict
    );
    assert!(tight.clearance.and_then(|clearance| clearance.remaining_mm).is_some_and(|left| left < 0.0));
    assert!(enough.verdict.state == State::NoFaultFound, "{:?}", enough.verdict);
    Ok(())
}

#[test]
fn it_limits_the_speed_and_shows_in_a_sweep() -> Found<()> {
    let free = checked(None)?.verdict.max_rpm.ok_or("no speed")?;
    let growth = {
        let clearance = checked(None)?.clearance.ok_or("no clearance")?;
        clearance.elastic_mm + clearance.thermal_mm + clearance.creep_mm.max(0.0)
    };
    let tight = job(Some(1.02 * growth))?;
    let bytes = files::bytes("samples/plain_rod.stl")?;
    let limited = quick_look(&bytes, &question(&tight), &mut ())?;
    let rpm = limited.verdict.max_rpm.ok_or("no speed")?;
    assert!(rpm < free && rpm > limited.verdict.duty_rpm, "{rpm} beside {free}");
    let swept = sweep(&bytes, &question(&tight), &SpeedRange::new(rpm * 0.998, rpm * 1.002, 2)?, None, &mut ())?;
    assert!(swept.sweep[0].margin > 1.0 && swept.sweep[1].margin < 1.0, "{:?}", swept.sweep);
    assert_eq!(swept.sweep[1].governing_mode, Mode::HeadContact);
    Ok(())
}
