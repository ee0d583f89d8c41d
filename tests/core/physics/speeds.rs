//! What more speed does to the heat of a rod: never less, and never more than a part can be.

use layload_core::job::Job;
use layload_core::report::SweepPoint;
use layload_core::{Question, SpeedRange, State, quick_look, sweep};

use super::{Found, Tested, job};
use crate::mesh::files;

const RODS: [&str; 3] = ["samples/plain_rod.stl", "samples/thin_web_rod.stl", "samples/i_shank_rod.stl"];

/// The bench engine with everything round the rod at one temperature, for a run of some length or until heat settles.
fn at(celsius: f64, run: Option<f64>, material: &str) -> Found<Job> {
    let mut job = Job::from_toml(&job([celsius; 3]))?;
    job.duty.run_s = run;
    job.material.name = Some(material.into());
    Ok(job)
}

fn swept(mesh: &str, job: &Job) -> Found<Vec<SweepPoint>> {
    let question = Question { job, card_text: None, pressure_text: None };
    let range = SpeedRange::new(1000.0, 15_000.0, 57)?;
    Ok(sweep(&files::bytes(mesh)?[..], &question, &range, None, &mut ())?.sweep)
}

#[test]
fn the_hottest_place_only_gets_hotter() -> Tested {
    let mut lost = 0;
    for mesh in RODS {
        for (material, softens) in [("PA12-CF15", 160.0), ("PETG", 77.0)] {
            for celsius in [20.0, 60.0] {
                for run in [None, Some(30.0), Some(600.0)] {
                    let points = swept(mesh, &at(celsius, run, material)?)?;
                    let mut before = f64::NEG_INFINITY;
                    for point in &points {
                        // Without bounds: hotter than any number.
                        let now = point.peak_temperature_c.unwrap_or(f64::INFINITY);
                        let told = format!("{mesh}, {material}, {celsius} °C, {run:?} s, {} rpm", point.rpm);
                        // Inertia takes load off the gas force, and with it heat, at middling speeds; a tenth of a kelvin there.
                        assert!(now >= before - 0.1, "{told}: {now} °C after {before} °C");
                        if run.is_some() && now.is_finite() {
                            assert!(now <= softens + 10.0, "{told}: {now} °C");
                        }
                        lost += usize::from(point.margin == 0.0);
                        before = now;
                    }
                }
            }
        }
    }
    assert!(lost > 20, "{lost}");
    Ok(())
}

#[test]
fn no_rod_is_asked_to_be_colder_than_its_surroundings() -> Tested {
    let mut none = 0;
    for rpm in [3000.0, 5000.0, 6000.0, 7000.0, 9000.0, 12_000.0] {
        for celsius in [-10.0, 20.0, 60.0] {
            let mut job = at(celsius, None, "PA12-CF15")?;
            job.duty.steps.iter_mut().flatten().for_each(|step| step.rpm = rpm);
            let question = Question { job: &job, card_text: None, pressure_text: None };
            let report = quick_look(&files::bytes(RODS[0])?, &question, &mut ())?;
            none += usize::from(report.rod.as_ref().is_none_or(|rod| rod.highest_c.is_none()));
            if let Some(highest) = report.rod.as_ref().and_then(|rod| rod.highest_c) {
                assert!(highest >= celsius.max(23.0) - 1e-9, "{highest} °C among {celsius} °C at {rpm} rpm");
            } else {
                assert!(report.verdict.state == State::Fails, "holds at {rpm} rpm and {celsius} °C, yet nowhere");
            }
        }
    }
    assert!(none > 3 && none < 18, "{none}");
    Ok(())
}
