//! What a change of the input does to a rod: told with the check, and the same when the changed job is asked. The order of
//! the list, the bars and their signs follow one quantity.

use layload_core::job::{BuildDirection, Job};
use layload_core::material::MoistureState;
use layload_core::report::{ChangeMeasure, ChangedInput, Report, SensitivityReport};
use layload_core::verdict::FieldRequest;
use layload_core::{CheckRequest, Question, check_with, quick_look};
use nalgebra::Vector3;

use super::Found;
use crate::mesh::shapes::Solid;
use crate::mesh::{files, stl};
use crate::part::made::{BORES, OUTSIDES, rod_of_eyes};

const SAMPLES: [(&str, &str); 5] = [
    ("plain_rod", "bench_single"),
    ("i_shank_rod", "bench_single"),
    ("thin_web_rod", "bench_single"),
    ("split_rod", "bench_split"),
    ("bearing_rod", "bench_bearings"),
];

/// Mesh of a sample, and its job with all cuts that a check makes.
fn sample((mesh, job): (&str, &str)) -> Found<(Vec<u8>, Job)> {
    let text = String::from_utf8(files::bytes(&format!("samples/{job}.toml"))?)?;
    Ok((files::bytes(&format!("samples/{mesh}.stl"))?, Job::from_toml(&text)?))
}

fn asked(mesh: &[u8], job: &Job) -> Found<Report> {
    Ok(quick_look(&mesh.to_vec(), &Question { job, card_text: None, pressure_text: None }, &mut ())?)
}

/// The job with a change made, by the values that the answer tells; `None` for one that a job cannot say.
fn changed(entry: &SensitivityReport, report: &Report, job: &Job) -> Option<Job> {
    let mut job = job.clone();
    let to = |at: usize| entry.moves.get(at).map(|value| value.to);
    match entry.key {
        ChangedInput::Speed => {
            let value = entry.moves.first()?;
            job.duty.steps.iter_mut().flatten().for_each(|step| step.rpm *= value.to / value.from);
        }
        ChangedInput::ReciprocatingMass => job.engine.reciprocating_mass_g = Some(to(0)?),
        ChangedInput::PeakPressure => job.engine.gas.peak_pressure_bar = Some(to(0)?),
        ChangedInput::Temperature => {
            job.surroundings.crankcase_air_c = Some(to(0)?);
            job.surroundings.piston_pin_c = Some(to(1)?);
            job.surroundings.crank_pin_c = Some(to(2)?);
        }
        ChangedInput::PinClearance => {
            let mut told = entry.moves.iter();
            for eye in [&mut job.part.small_end, &mut job.part.big_end] {
                // Only eyes that have play are told.
                if eye.radial_clearance_mm.is_some_and(|mm| mm > 0.0) {
                    eye.radial_clearance_mm = Some(told.next()?.to);
                }
            }
        }
        ChangedInput::BuildDirection => {
            let [x, y, z] = report.print.build_direction;
            let build = Vector3::new(x, y, z);
            let [small, big] = [0, 1].map(|k| Vector3::from(report.part.bores[k].center_mm));
            let along = (big - small).normalize();
            let toward = (along - build * build.dot(&along)).normalize();
            let lean = 10.0_f64.to_radians();
            job.print.build_direction =
                Some(BuildDirection::Vector((build * libm::cos(lean) + toward * libm::sin(lean)).into()));
        }
        ChangedInput::Moisture => job.material.moisture = Some(MoistureState::Dry),
        ChangedInput::Preload => {
            let cap = job.part.big_end.cap.as_mut()?;
            (cap.preload_n, cap.torque_n_m) = (Some(to(0)?), None);
        }
        _ => return None,
    }
    Some(job)
}

/// What the changed input is told to do and what it does; `within` is how well factors on the margin agree.
fn same(entry: &SensitivityReport, now: &Report, then: &Report, within: f64) -> Result<(), String> {
    let margin = then.verdict.margin / now.verdict.margin;
    let life = then.verdict.life_s / now.verdict.life_s;
    let again = SensitivityReport { margin_factor: margin, life_factor: Some(life), ..entry.clone() };
    // A change at the edge of what is resolved may fall on either side.
    let sign = |effect: f64| if effect.abs() < 2.0 * SensitivityReport::RESOLVED { 0.0 } else { effect.signum() };
    if sign(entry.effect()) != sign(again.effect()) {
        return Err(format!("{entry:?} has another sign than {again:?}"));
    }
    // Life follows stress to the tenth power.
    let close = |told: f64, asked: f64, within: f64| (told / asked - 1.0).abs() <= within;
    let lives = entry.life_factor.is_none_or(|told| close(told, life, 20.0 * within));
    if !close(entry.margin_factor, margin, within) || !lives {
        return Err(format!("{entry:?} beside {again:?}"));
    }
    Ok(())
}

#[test]
fn as_the_changed_job_answers() -> Found<()> {
    let mut compared = 0;
    for names in SAMPLES {
        let (mesh, job) = sample(names)?;
        let now = asked(&mesh, &job)?;
        for entry in &now.sensitivities {
            let Some(job) = changed(entry, &now, &job) else { continue };
            // Both go through the same sums, but for coordinates of the file that the build direction goes through.
            same(entry, &now, &asked(&mesh, &job)?, 1e-6).map_err(|fault| format!("{names:?}: {fault}"))?;
            compared += 1;
        }
    }
    assert!(compared > 5 * 6, "only {compared}");
    Ok(())
}

#[test]
fn as_a_thicker_mesh_answers() -> Found<()> {
    // Rods whose pins lie along z.
    for names in &SAMPLES[..3] {
        let (mesh, job) = sample(*names)?;
        let now = asked(&mesh, &job)?;
        let entry = now.sensitivities.iter().find(|entry| entry.key == ChangedInput::Thickness);
        let mut solid = Solid::of_stl(&mesh)?;
        solid.points.iter_mut().for_each(|point| point.z *= 1.1);
        let then = asked(&stl::binary(&solid), &job)?;
        // Cuts through a mesh that is thicker lie elsewhere, and heat flows anew: a thousandth of the margin.
        same(entry.ok_or("no thickness")?, &now, &then, 2e-3).map_err(|fault| format!("{names:?}: {fault}"))?;
    }
    Ok(())
}

/// A size taken further, as the mesh made so answers: by sections it is the least in tenths of a millimetre.
#[test]
fn a_size_taken_further_is_the_least_that_reaches_the_wanted_life() -> Found<()> {
    let mut reached = 0;
    for names in &SAMPLES[..3] {
        let (mesh, mut job) = sample(*names)?;
        // As much faster as it fails by little.
        let mut now = asked(&mesh, &job)?;
        while now.verdict.margin >= 1.0 {
            job.duty.steps.iter_mut().flatten().for_each(|step| step.rpm *= 1.03);
            now = asked(&mesh, &job)?;
        }
        let entry =
            now.sensitivities.iter().find(|entry| entry.key == ChangedInput::Thickness).ok_or("no thickness")?;
        let further = entry.further.as_ref().ok_or("taken no further")?;
        let told = further.moves.first().ok_or("no size")?;
        assert!((told.to * 10.0 - (told.to * 10.0).round()).abs() < 1e-5, "{told:?}");
        let made = |size: f64| -> Found<f64> {
            let mut solid = Solid::of_stl(&mesh)?;
            solid.points.iter_mut().for_each(|point| point.z *= size / told.from);
            Ok(asked(&stl::binary(&solid), &job)?.verdict.margin)
        };
        let promised = now.verdict.margin * further.margin_factor;
        // Cuts through a mesh that is thicker lie elsewhere, and heat flows anew.
        assert!((made(told.to)? / promised - 1.0).abs() < 5e-3, "{names:?}: {promised} of {told:?}");
        if promised >= 1.0 {
            reached += 1;
            assert!(made(told.to - 0.1)? < 1.0 + 5e-3, "{names:?}: less than {told:?} is enough");
        } else {
            assert!(made(1.1 * told.from)? <= promised * (1.0 + 5e-3), "{names:?}: {promised} of {told:?}");
        }
    }
    assert!(reached > 0);
    Ok(())
}

/// What sections raised to the stress field promise of a thicker rod is what the field of the thicker rod finds.
#[test]
fn a_size_taken_further_keeps_its_promise_by_the_field() -> Found<()> {
    let request = CheckRequest { facets: false, field: Some(FieldRequest { cells: 20_000 }) };
    for names in [SAMPLES[0], SAMPLES[1]] {
        let (mesh, job) = sample(names)?;
        let question = Question { job: &job, card_text: None, pressure_text: None };
        let now = check_with(&mesh, &question, &request, &mut ())?.report;
        let entry =
            now.sensitivities.iter().find(|entry| entry.key == ChangedInput::Thickness).ok_or("no thickness")?;
        let further = entry.further.as_ref().ok_or("taken no further")?;
        let told = further.moves.first().ok_or("no size")?;
        let mut solid = Solid::of_stl(&mesh)?;
        solid.points.iter_mut().for_each(|point| point.z *= told.to / told.from);
        let then = check_with(&stl::binary(&solid), &question, &request, &mut ())?.report;
        let promised = now.verdict.margin * further.margin_factor;
        println!("{names:?}: {told:?} {promised:.4} {:.4}", then.verdict.margin);
        // A place across the layers that sections do not have gains less by thickness than they say: 5 % by a fifth more of it.
        assert!((then.verdict.margin / promised - 1.0).abs() < 0.06, "{names:?}: {promised} {}", then.verdict.margin);
    }
    Ok(())
}

/// The wall of one eye, told and made.
#[test]
fn as_a_part_with_a_thicker_eye_answers() -> Found<()> {
    let (_, job) = sample(SAMPLES[0])?;
    let made_of = |outsides: [f64; 2]| stl::binary(&rod_of_eyes(outsides, [96, 96]));
    let now = asked(&made_of(OUTSIDES), &job)?;
    for (end, key) in [ChangedInput::SmallEndWall, ChangedInput::BigEndWall].into_iter().enumerate() {
        let entry = now.sensitivities.iter().find(|entry| entry.key == key).ok_or("no wall of an eye")?;
        let told = entry.moves.first().ok_or("no value")?;
        assert!((told.from - (OUTSIDES[end] - BORES[end])).abs() < 0.01, "{told:?}");
        let mut outsides = OUTSIDES;
        outsides[end] = BORES[end] + told.to;
        // The shank keeps its length, so the thicker ring takes a part of it: a hundredth of the margin.
        same(entry, &now, &asked(&made_of(outsides), &job)?, 1e-2)?;
    }
    Ok(())
}

#[test]
fn one_quantity_sorts_and_draws() -> Found<()> {
    for (names, weak) in SAMPLES.into_iter().flat_map(|names| [(names, false), (names, true)]) {
        let (mesh, mut job) = sample(names)?;
        if weak {
            // So weak that the first load breaks it: there is no life to sort by.
            job.material.temperature_c = Some(200.0);
            job.material.name = Some("PA6-CF20".into());
            job.engine.gas.peak_pressure_bar = Some(120.0);
        }
        let report = asked(&mesh, &job)?;
        let list = &report.sensitivities;
        let by = list.first().ok_or("no changes")?.measured_by;
        assert_eq!(
            by,
            if report.verdict.life_s > 0.0 { ChangeMeasure::Life } else { ChangeMeasure::Margin },
            "{names:?}"
        );
        assert!(list.iter().all(|entry| entry.measured_by == by));
        assert!(list.windows(2).all(|pair| pair[0].effect().abs() >= pair[1].effect().abs()), "{names:?}: {list:?}");
        for entry in list {
            let factor = entry.factor();
            let sign =
                if (factor - 1.0).abs() < SensitivityReport::RESOLVED { 0.0 } else { libm::log(factor).signum() };
            assert!(entry.effect() * sign >= 0.0 && (entry.effect() == 0.0) == (sign == 0.0), "{entry:?}");
        }
        assert!(weak || report.verdict.life_s > 0.0, "{names:?}");
    }
    Ok(())
}
