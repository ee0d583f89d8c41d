//! Heat of crown and ring belt over a duty.

use layload_core::heat::{CrownStep, Film, SoftenedDepth, StepPace, Wall, WallLayer};

use super::{Tested, job, piston, worked};

#[test]
fn heat_is_kept_over_a_duty() -> Tested {
    // Issue: heat in = heat stored + heat out within a thousandth, over steps of throttle and speed.
    for (mesh, name) in [
        ("samples/flat_crown_piston.stl", "samples/bench_piston.toml"),
        ("samples/plate_crown_piston.stl", "samples/bench_piston_plate.toml"),
    ] {
        let job = job(name, |job| {
            job.duty.run_s = Some(30.0);
            let step = |rpm, throttle, seconds| layload_core::engine::DutyStep { rpm, throttle, seconds };
            job.duty.steps = Some(vec![step(2000.0, 0.2, 4.0), step(5000.0, 1.0, 2.0), step(1200.0, 0.0, 3.0)]);
        })?;
        let found = worked(&piston(mesh)?, &job)?;
        assert!(found.warm.imbalance.abs() < 1e-3, "{mesh}: {}", found.warm.imbalance);
        // Told until the end, or until the crown is lost.
        let end = found.warm.soft().unwrap_or(30.0);
        assert!((found.warm.moments.last().ok_or("no moments")?.seconds - end).abs() < 1e-9 * end);
    }
    Ok(())
}

#[test]
fn the_duty_is_followed() -> Tested {
    let step = |rpm, throttle, seconds| layload_core::engine::DutyStep { rpm, throttle, seconds };
    let job = job("samples/bench_piston.toml", |job| {
        job.duty.run_s = Some(20.0);
        job.duty.steps = Some(vec![step(4000.0, 1.0, 5.0), step(300.0, 0.0, 15.0)]);
    })?;
    let found = worked(&piston("tests/meshes/piston.stl")?, &job)?;
    let hottest = found.warm.moments.iter().max_by(|a, b| a.plastic_face.total_cmp(&b.plastic_face)).ok_or("none")?;
    let last = found.warm.moments.last().ok_or("none")?;
    // Hottest where it slows down to a crawl, cooler at the end: rows stand at ratios of time, so within a fifth.
    assert!((hottest.seconds - 5.0).abs() < 1.0, "{hottest:?}");
    assert!(last.plastic_face < hottest.plastic_face - 10.0, "{last:?}");
    Ok(())
}

#[test]
fn settled_is_the_steady_state() -> Tested {
    let job = job("samples/bench_piston.toml", |job| {
        job.duty.run_s = None;
        job.material.name = Some("PEI".into());
        // Lost when it is soft right through, which its cooled underside is not.
        job.piston.soft_share = Some(1.0);
    })?;

    let found = worked(&piston("tests/meshes/piston.stl")?, &job)?;
    let (given, model) = (&found.prepared.given, &found.model);
    assert_eq!(found.warm.soft(), None);
    let film = found.warm.films[0];
    let material = found.prepared.scenario.material();
    let conduct = material.conductivity_along(model.print.build.x) / model.crown_thickness;
    // Resistances in series (Incropera).
    let air = found.prepared.scenario.surroundings.air;
    let flux = (film.temperature - air) / (1.0 / film.coefficient + 1.0 / conduct + 1.0 / given.underside_film);
    let surface = film.temperature - flux / film.coefficient;
    // Five time constants leave less than a hundredth of the rise.
    let rise = surface - 296.15;
    assert!((found.warm.surface - surface).abs() < 0.01 * rise, "{} {surface}", found.warm.surface);
    Ok(())
}

/// Face of a crown after two steps of a duty, in a grid and with time steps, K.
fn face(cells: usize, step: f64) -> Result<f64, Box<dyn std::error::Error>> {
    let layer = WallLayer { thickness: 5e-3, conductivity: 0.25, volumetric_heat: 1.6e6, cells };
    let wall = Wall::new(&[layer], &[])?;
    let mut run = wall.start(296.15)?;
    let mut watch = SoftenedDepth::new(0, 5000.0, &[])?;
    let back = Film { coefficient: 80.0, temperature: 323.15 };
    for (coefficient, temperature) in [(150.0, 900.0), (350.0, 1100.0)] {
        let gas = Film { coefficient, temperature };
        wall.run(&mut run, &CrownStep { seconds: 8.0, gas, back }, StepPace::even(step), &mut watch, |_, _| {})?;
    }
    Ok(run.temperatures[0])
}

#[test]
fn grid_and_time_steps_converge_at_second_order() -> Tested {
    // Halving the step must quarter the error: ratios of differences near four, between 3 and 5 as the next order fades.
    let grid = [face(20, 0.02)?, face(40, 0.02)?, face(80, 0.02)?, face(160, 0.02)?];
    let time = [face(60, 0.4)?, face(60, 0.2)?, face(60, 0.1)?, face(60, 0.05)?];
    for (what, row) in [("grid", grid), ("time", time)] {
        let ratio = (row[2] - row[1]) / (row[3] - row[2]);
        assert!((3.0..5.0).contains(&ratio), "{what}: {ratio} of {row:?}");
    }
    Ok(())
}
