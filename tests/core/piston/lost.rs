//! What is lost gets no hotter: no temperature of a report passes that of the moment of loss, and none leaves what surrounds
//! the part.

use crate::piston::crown_heat;
use layload_core::job::Job;
use layload_core::report::Report;
use layload_core::{Question, SpeedRange, quick_look, sweep};

use super::{Tested, job};
use crate::mesh::files;

const MESHES: [&str; 2] = ["samples/flat_crown_piston.stl", "samples/thin_crown_piston.stl"];
const MATERIALS: [&str; 4] = ["PLA", "PA12-CF15", "PEI", "PEEK"];

/// One run of the bench engine at a throttle; without a length it goes on until heat settles.
fn run(material: &str, throttle: f64, seconds: Option<f64>) -> Result<Job, Box<dyn std::error::Error>> {
    job("samples/bench_piston.toml", |job| {
        job.material.name = Some(material.into());
        job.duty.run_s = seconds;
        for step in job.duty.steps.iter_mut().flatten() {
            (step.throttle, step.seconds) = (throttle, seconds.unwrap_or(600.0));
        }
    })
}

fn checked(mesh: &str, job: &Job) -> Result<Report, Box<dyn std::error::Error>> {
    let question = Question { job, card_text: None, pressure_text: None };
    Ok(quick_look(&files::bytes(mesh)?, &question, &mut ())?)
}

/// Temperatures of plastic that a report names, °C.
fn named(report: &Report) -> Result<[f64; 5], Box<dyn std::error::Error>> {
    let heat = &report.piston.as_ref().ok_or("no piston")?.crown_heat;
    let surface = crown_heat(report)?.surface_c;
    Ok([surface, report.heat.taken_c, heat.plastic_face_c, heat.counting_depth_c, heat.top_land_c])
}

#[test]
fn a_longer_run_says_no_more_of_what_is_lost() -> Tested {
    let mut lost = 0;
    for mesh in MESHES {
        for material in MATERIALS {
            for throttle in [0.3, 1.0] {
                let long = checked(mesh, &run(material, throttle, None)?)?;
                // A run of less than a second is refused.
                let Some(seconds) = crown_heat(&long)?.softening_time_s.filter(|seconds| *seconds > 1.0) else {
                    continue;
                };
                lost += 1;
                let short = checked(mesh, &run(material, throttle, Some(seconds * 1.0001))?)?;
                for (a, b) in named(&long)?.iter().zip(named(&short)?) {
                    // Time steps grow with the length of the run: they follow heat within a hundredth of its rise.
                    assert!(
                        (a - b).abs() < 0.01 * (b - 23.0).max(100.0),
                        "{material}, {throttle}: {a} °C, {b} °C at {seconds} s"
                    );
                }
            }
        }
    }
    assert!(lost >= 4, "{lost}");
    Ok(())
}

#[test]
fn every_temperature_lies_between_its_neighbours() -> Tested {
    for mesh in MESHES {
        for material in MATERIALS {
            for (throttle, seconds) in [(0.3, Some(5.0)), (1.0, Some(40.0)), (1.0, None)] {
                let report = checked(mesh, &run(material, throttle, seconds)?)?;
                let heat = &report.piston.as_ref().ok_or("no piston")?.crown_heat;
                let mut all = Vec::new();
                celsius(&serde_json::to_value(&report)?, "", &mut all);
                assert!(all.len() > 40, "{}", all.len());
                for (key, found) in all {
                    // The coldest is the part before the run, the hottest the gas; a card's numbers are within that too.
                    assert!(
                        (22.99..=heat.film_temperature_c.max(500.0)).contains(&found),
                        "{material}: {key} {found} °C"
                    );
                }
                let last = heat.table.last().ok_or("no table")?;
                if let Some(lost) = crown_heat(&report)?.softening_time_s {
                    assert!((last.seconds - lost).abs() < 1e-9 * lost, "{} s, lost at {lost} s", last.seconds);
                    assert!(
                        heat.counting_depth_c < heat.softening_c + 1e-6 && heat.top_land_c < heat.softening_c + 1e-6
                    );
                    assert!(last.soft_depth_mm < 1.02 * heat.counting_depth_mm || heat.land_soft_s.is_some());
                }
                let surface = crown_heat(&report)?.surface_c;
                for row in &heat.table {
                    assert!(row.surface_c <= surface + 1e-9 && row.plastic_face_c <= heat.plastic_face_c + 1e-9);
                }
                // Strength is taken nowhere hotter than the face.
                let pin = 100.0;
                assert!(report.heat.taken_c <= heat.plastic_face_c.max(pin) + 1e-6, "{} °C", report.heat.taken_c);
            }
        }
    }
    Ok(())
}

/// Every number of a report whose key says °C.
fn celsius(value: &serde_json::Value, key: &str, found: &mut Vec<(String, f64)>) {
    match value {
        serde_json::Value::Object(map) => map.iter().for_each(|(key, value)| celsius(value, key, found)),
        serde_json::Value::Array(list) => list.iter().for_each(|value| celsius(value, key, found)),
        serde_json::Value::Number(number) if key.ends_with("_c") => {
            found.push((key.into(), number.as_f64().unwrap_or(f64::NAN)));
        }
        _ => {}
    }
}

#[test]
fn no_speed_is_cooler_than_a_lower_one() -> Tested {
    let range = SpeedRange::new(800.0, 9000.0, 42)?;
    for mesh in MESHES {
        let bytes = files::bytes(mesh)?;
        for material in MATERIALS {
            for (throttle, seconds) in [(0.3, Some(5.0)), (1.0, Some(40.0)), (1.0, None)] {
                let job = run(material, throttle, seconds)?;
                let question = Question { job: &job, card_text: None, pressure_text: None };
                let swept = sweep(&bytes[..], &question, &range, None, &mut ())?.sweep;
                for pair in swept.windows(2) {
                    let hottest = |k: usize| pair[k].peak_temperature_c.unwrap_or(f64::NAN);
                    // The moment of loss lies between two time steps and is found by a straight line: half a kelvin.
                    assert!(
                        hottest(1) > hottest(0) - 0.5,
                        "{mesh}, {material}, {throttle}, {seconds:?}: {} °C at {} rpm, {} °C at {} rpm",
                        hottest(0),
                        pair[0].rpm,
                        hottest(1),
                        pair[1].rpm
                    );
                }
            }
        }
    }
    Ok(())
}
