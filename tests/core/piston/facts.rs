//! C26 and its kin through the whole path.

use crate::piston::crown_heat;
use layload_core::job::Job;
use layload_core::report::Report;
use layload_core::{Question, State, quick_look};

use super::{Tested, job};
use crate::mesh::files;

fn checked(mesh: &str, job: &Job) -> Result<Report, Box<dyn std::error::Error>> {
    let question = Question { job, card_text: None, pressure_text: None };
    Ok(quick_look(&files::bytes(mesh)?, &question, &mut ())?)
}

/// Time until a crown of a material is lost, in a long run at a throttle, s.
fn lost(material: &str, throttle: f64) -> Result<f64, Box<dyn std::error::Error>> {
    let job = job("samples/bench_piston.toml", |job| {
        job.material.name = Some(material.into());
        job.duty.run_s = Some(600.0);
        for step in job.duty.steps.iter_mut().flatten() {
            (step.throttle, step.seconds) = (throttle, 600.0);
        }
    })?;
    let report = checked("samples/flat_crown_piston.stl", &job)?;
    assert!(crown_heat(&report)?.surface_c.is_finite());
    Ok(crown_heat(&report)?.softening_time_s.unwrap_or(f64::INFINITY))
}

#[test]
fn pla_is_lost_within_about_ten_seconds_and_far_sooner_than_filled_nylon() -> Tested {
    // Common practice, no source: order of magnitude and ranking. A fifth of a crown of 5 mm counts as lost; up to three
    // times ten seconds is the same order, "far sooner" at a millimetre is a factor of two (see heat::crown_fact).
    for throttle in [0.3, 1.0] {
        let (pla, nylon) = (lost("PLA", throttle)?, lost("PA12-CF15", throttle)?);
        assert!(pla < 30.0 && pla > 0.5, "{pla} s at throttle {throttle}");
        assert!(nylon > 2.0 * pla, "{nylon} s against {pla} s at throttle {throttle}");
    }
    Ok(())
}

#[test]
fn a_lost_crown_is_the_answer() -> Tested {
    let job = job("samples/bench_piston.toml", |job| {
        job.material.name = Some("PLA".into());
        job.duty.run_s = Some(120.0);
    })?;
    let report = checked("samples/flat_crown_piston.stl", &job)?;
    let soft = crown_heat(&report)?.softening_time_s.ok_or("not soft")?;
    assert!(report.verdict.state == State::Fails);
    // No print outlives it, and the life said is that time, not nothing.
    assert!(report.verdict.life_s <= soft * (1.0 + 1e-9) && report.life.b1_s <= report.life.b50_s);
    // Whether it softens or creeps apart first is the card's matter; it does soften.
    let softening = report.modes.iter().find(|found| found.mode == layload_core::verdict::Mode::Softening);
    assert!(softening.is_some_and(|found| found.margin < 1.0), "{softening:?}");
    let table = &report.piston.as_ref().ok_or("no piston")?.crown_heat.table;
    assert!(table.windows(2).all(|pair| pair[1].seconds > pair[0].seconds));
    assert!(table.last().is_some_and(|row| row.soft_depth_mm > 0.0));
    Ok(())
}

#[test]
fn samples_answer_as_they_were_made_to() -> Tested {
    let bench = job("samples/bench_piston.toml", |_| {})?;
    let plate = job("samples/bench_piston_plate.toml", |_| {})?;
    assert!(checked("samples/flat_crown_piston.stl", &bench)?.verdict.state == State::NoFaultFound);
    let thin = checked("samples/thin_crown_piston.stl", &bench)?;
    assert!(
        thin.verdict.state == State::Fails && thin.verdict.governing_place.starts_with("crown"),
        "{:?}",
        thin.verdict
    );
    assert!(checked("samples/plate_crown_piston.stl", &plate)?.verdict.state == State::NoFaultFound);
    // Without its plate the same run softens the crown.
    let bare = job("samples/bench_piston_plate.toml", |job| job.piston.layers.clear())?;
    let bare = checked("samples/plate_crown_piston.stl", &bare)?;
    assert!(crown_heat(&bare)?.softening_time_s.is_some() && bare.verdict.state == State::Fails, "{:?}", bare.heat);
    Ok(())
}

#[test]
fn a_plate_on_the_crown_buys_time_by_its_heat_and_its_joint() -> Tested {
    let soft = |thickness: f64| -> Result<f64, Box<dyn std::error::Error>> {
        let job = job("samples/bench_piston_plate.toml", |job| {
            job.duty.run_s = Some(600.0);
            job.piston.layers[0].thickness_mm = thickness;
        })?;
        let report = checked("samples/plate_crown_piston.stl", &job)?;
        Ok(report.piston.and_then(|piston| piston.crown_heat.crown_soft_s).unwrap_or(f64::INFINITY))
    };
    let times = [soft(0.5)?, soft(1.0)?, soft(3.0)?];
    assert!(times[0] < times[1] && times[1] < times[2], "{times:?}");
    Ok(())
}
