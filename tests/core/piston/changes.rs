//! What a change of the input does to a piston: told with the check, and the same when the changed job is asked.

use crate::piston::crown_heat;
use layload_core::engine::DutyStep;
use layload_core::job::{Job, LayerTable};
use layload_core::report::{ChangeMeasure, ChangedInput, Report, SensitivityReport};
use layload_core::{Question, quick_look};

use super::{Tested, job};
use crate::mesh::files;

const MESH: &str = "tests/meshes/piston.stl";

fn asked(job: &Job) -> Result<Report, Box<dyn std::error::Error>> {
    let question = Question { job, card_text: None, pressure_text: None };
    Ok(quick_look(&files::bytes(MESH)?, &question, &mut ())?)
}

fn entry<'a>(report: &'a Report, input: &str) -> Result<&'a SensitivityReport, String> {
    let found = report.sensitivities.iter().find(|entry| entry.input == input);
    found.ok_or_else(|| format!("no {input} among {:?}", report.sensitivities))
}

/// The same change made in the job must give the same factors; both go through the same sums.
fn same(report: &Report, input: &str, changed: &Job) -> Tested {
    let (told, then) = (entry(report, input)?, asked(changed)?);
    let margin = then.verdict.margin / report.verdict.margin;
    assert!((told.margin_factor / margin - 1.0).abs() < 1e-9, "{input}: {} told, {margin} asked", told.margin_factor);
    if let Some(life_factor) = told.life_factor {
        let life = then.verdict.life_s / report.verdict.life_s;
        assert!((life_factor / life - 1.0).abs() < 1e-9, "{input}: {life_factor} told, {life} asked");
    }
    Ok(())
}

#[test]
fn as_the_changed_job_answers() -> Tested {
    let bare = |change: &dyn Fn(&mut Job)| job("samples/bench_piston.toml", |job| change(job));
    let now = asked(&bare(&|_| {})?)?;
    let steps = |rpm: f64, throttle: f64| Some(vec![DutyStep { rpm, throttle, seconds: 5.0 }]);
    same(&now, "speed", &bare(&|job| job.duty.steps = steps(2850.0, 0.3))?)?;
    same(&now, "throttle", &bare(&|job| job.duty.steps = steps(3000.0, 0.27))?)?;
    same(&now, "peak cylinder pressure", &bare(&|job| job.engine.gas.peak_pressure_bar = Some(18.0))?)?;
    same(&now, "compression ratio", &bare(&|job| job.engine.compression_ratio = Some(5.85))?)?;
    same(&now, "length of one run", &bare(&|job| job.duty.run_s = Some(4.0))?)?;
    // Oil mist has 300 W/(m² K) unless said otherwise.
    same(&now, "cooling under the crown", &bare(&|job| job.piston.underside_film_w_m2_k = Some(600.0))?)?;
    same(&now, "radial clearance of the pin", &bare(&|job| job.piston.pin_clearance_mm = Some(0.01))?)?;
    let plate = LayerTable {
        name: "plate".into(),
        thickness_mm: 1.0,
        conductivity_w_m_k: 160.0,
        density_kg_m3: 2700.0,
        specific_heat_j_kg_k: 900.0,
        joint_w_m2_k: Some(1000.0),
    };
    same(&now, "aluminium plate on the crown", &bare(&|job| job.piston.layers = vec![plate.clone()])?)?;
    same(
        &now,
        "temperature of air, pin and cylinder",
        &bare(&|job| {
            job.surroundings.crankcase_air_c = Some(40.0);
            job.surroundings.piston_pin_c = Some(60.0);
            job.piston.cylinder_wall_c = Some(90.0);
        })?,
    )?;
    let dry = layload_core::material::MoistureState::Dry;
    same(&now, "water in the plastic", &bare(&|job| job.material.moisture = Some(dry))?)
}

#[test]
fn ordered_by_what_they_do_to_life() -> Tested {
    for material in ["PEI", "PLA"] {
        let report = asked(&job("samples/bench_piston.toml", |job| job.material.name = Some(material.into()))?)?;
        assert!(report.sensitivities.len() >= 15, "{}", report.sensitivities.len());
        let by = if report.verdict.life_s > 0.0 { ChangeMeasure::Life } else { ChangeMeasure::Margin };
        assert!(report.sensitivities.iter().all(|entry| entry.measured_by == by), "{material}");
        let effects: Vec<f64> = report.sensitivities.iter().map(|entry| entry.effect().abs()).collect();
        assert!(effects.windows(2).all(|pair| pair[0] >= pair[1]), "{effects:?}");
        assert!(effects[0] > 0.01, "nothing does anything: {effects:?}");
    }
    Ok(())
}

/// Signs on the samples, whose crowns are as thin as to break at the first load, cool, or under a plate.
#[test]
fn the_samples_answer_so_too() -> Tested {
    for (mesh, name) in [
        ("samples/flat_crown_piston.stl", "samples/bench_piston.toml"),
        ("samples/thin_crown_piston.stl", "samples/bench_piston.toml"),
        ("samples/plate_crown_piston.stl", "samples/bench_piston_plate.toml"),
    ] {
        let bytes = files::bytes(mesh)?;
        let of = |job: &Job| quick_look(&bytes, &Question { job, card_text: None, pressure_text: None }, &mut ());
        let bare = job(name, |_| {})?;
        let now = of(&bare)?;
        for entry in &now.sensitivities {
            let mut job = bare.clone();
            // Every value is asked for as the answer tells it.
            let to = entry.moves.first().map(|value| value.to);
            let factor = entry.moves.first().map_or(1.0, |value| value.to / value.from);
            match entry.key {
                ChangedInput::Speed => job.duty.steps.iter_mut().flatten().for_each(|step| step.rpm *= factor),
                ChangedInput::Throttle => job.duty.steps.iter_mut().flatten().for_each(|step| step.throttle *= factor),
                ChangedInput::PeakPressure => job.engine.gas.peak_pressure_bar = to,
                ChangedInput::CompressionRatio => job.engine.compression_ratio = to,
                ChangedInput::RunLength => job.duty.run_s = to,
                ChangedInput::PinClearance => job.piston.pin_clearance_mm = to,
                ChangedInput::Moisture => job.material.moisture = Some(layload_core::material::MoistureState::Dry),
                _ => continue,
            }
            let then = of(&job)?;
            let margin = then.verdict.margin / now.verdict.margin;
            assert!((entry.margin_factor / margin - 1.0).abs() < 1e-6, "{mesh}: {entry:?}, {margin} asked");
            if let Some(told) = entry.life_factor {
                let life = then.verdict.life_s / now.verdict.life_s;
                assert!((told - life).abs() <= 1e-6 * life, "{mesh}: {entry:?}, {life} asked");
            }
        }
    }
    Ok(())
}

#[test]
fn what_is_better_is_told_as_better() -> Tested {
    // A crown of PLA is lost to heat within seconds: what keeps heat away lengthens its run.
    let report = asked(&job("samples/bench_piston.toml", |job| job.material.name = Some("PLA".into()))?)?;
    assert!(crown_heat(&report)?.softening_time_s.is_some());
    for input in ["aluminium plate on the crown", "ceramic coating of the crown", "softening temperature"] {
        let entry = entry(&report, input)?;
        let softening = entry.softening.ok_or("it softens")?;
        assert_eq!(Some(softening.from_s), crown_heat(&report)?.softening_time_s);
        assert!(softening.factor().is_none_or(|factor| factor > 1.01), "{entry:?}");
    }
    Ok(())
}

#[test]
fn one_temperature_given_leaves_heat_out() -> Tested {
    let report = asked(&job("samples/bench_piston.toml", |job| job.material.temperature_c = Some(80.0))?)?;
    for input in ["cooling under the crown", "aluminium plate on the crown", "softening temperature"] {
        assert!(entry(&report, input).is_err(), "{input}");
    }
    assert!(entry(&report, "crown thickness").is_ok() && entry(&report, "wall around the pin bore").is_ok());
    Ok(())
}
