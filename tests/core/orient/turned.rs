//! Hot spots against a full assessment, and parts turned in their file.

use approx::assert_relative_eq;
use layload_core::job::Job;
use layload_core::mesh::Mesh;
use layload_core::rod::{HotSpots, Stressing, Temperatures, WarmRod, assess};
use layload_core::stress::EyeFamily;
use layload_core::{LengthUnit, Question, directions, prepare};
use nalgebra::Vector3;

use super::Tested;
use crate::mesh::files::bytes;
use crate::mesh::shapes::{Solid, motion};
use crate::mesh::stl::binary;

fn job(changes: &[(&str, &str)]) -> Result<Job, Box<dyn std::error::Error>> {
    let mut text = String::from_utf8(bytes("samples/bench_single.toml")?)?;
    for (from, to) in changes {
        assert!(text.contains(from), "{from}");
        text = text.replace(from, to);
    }
    Ok(Job::from_toml(&text)?)
}

/// In the direction the model was made for both look at the same places with the same stresses. The middle of a depth
/// is followed by turning points there, which may miss 2 % of its norm.
#[test]
fn hot_spots_agree_with_a_full_assessment() -> Tested {
    for pose in ["flat", "on-edge", "upright"] {
        for sample in ["plain_rod", "i_shank_rod", "thin_web_rod"] {
            let job = job(&[("\"flat\"", &format!("\"{pose}\"")), ("rpm = 5000.0", "rpm = 7000.0")])?;
            let question = Question { job: &job, card_text: None, pressure_text: None };
            let prepared = prepare(&bytes(&format!("samples/{sample}.stl"))?, &question, &mut ())?;
            let scenario = &prepared.scenario;
            let model = prepared.model(EyeFamily::embedded().angles());
            let loading = prepared.loading(&model)?;
            let warm_rod = WarmRod::new(&model, &loading, scenario, prepared.crank.throw_m())?;
            let temperatures: Temperatures = warm_rod.at(1.0)?.temperatures;
            let stressing = Stressing::new(&model, &loading, scenario, &temperatures);
            let full = assess(&stressing, scenario, &temperatures);
            let quick = HotSpots::new(&stressing, scenario, &temperatures).along(&prepared.print.build);
            for mode in &full.strength.modes {
                let same = quick.modes.iter().find(|other| other.mode == mode.mode).ok_or("a mode is missing")?;
                assert_relative_eq!(same.margin, mode.margin, max_relative = 0.02);
            }
            assert_eq!(quick.governing().mode, full.governing().mode, "{sample} {pose}");
        }
    }
    Ok(())
}

/// Margins of the named poses and the recommended direction do not depend on how the part lies in its file. STL rounds
/// corners to single precision, a few parts in 1e7 of the size; the margin follows within some hundred times that.
#[test]
fn how_the_part_lies_in_the_file_does_not_matter() -> Tested {
    let job = job(&[])?;
    let question = Question { job: &job, card_text: None, pressure_text: None };
    let stl = bytes("samples/plain_rod.stl")?;
    let turn = motion([0.4, -1.1, 2.0], [12.0, -7.0, 30.0]);
    let turned = binary(&Solid::of_stl(&stl)?.moved(&turn));
    let here = directions(&stl, &question, 60, None, &mut ())?;
    let there = directions(&turned, &question, 60, None, &mut ())?;
    for (a, b) in [
        (&here.named.flat, &there.named.flat),
        (&here.named.on_edge, &there.named.on_edge),
        (&here.named.upright, &there.named.upright),
        (&here.recommended.direction, &there.recommended.direction),
    ] {
        assert_relative_eq!(a.margin, b.margin, max_relative = 1e-4);
        assert_relative_eq!(a.height_mm, b.height_mm, max_relative = 1e-5);
        let build = turn.rotation * Vector3::from(a.build_direction);
        assert!((build - Vector3::from(b.build_direction)).norm() < 1e-4, "{build:?}");
    }
    Ok(())
}

/// In double precision, without a file between: 1e-9.
#[test]
fn turning_the_mesh_itself_changes_nothing() -> Tested {
    use layload_core::mesh::bodies;
    use layload_core::part::{GivenRod, find_rod};
    use layload_core::rod::{RodCuts, RodModel};
    let job = job(&[])?;
    let question = Question { job: &job, card_text: None, pressure_text: None };
    let stl = bytes("samples/plain_rod.stl")?;
    let prepared = prepare(&stl, &question, &mut ())?;
    let (mesh, _) = Mesh::from_stl(&stl, LengthUnit::Millimetre)?;
    let margins = |mesh: Mesh| -> Result<Vec<f64>, Box<dyn std::error::Error>> {
        let rod = find_rod(bodies(mesh)?, &GivenRod::default())?;
        let scenario = &prepared.scenario;
        let cuts = RodCuts::new(&rod, scenario.stations);
        let density = scenario.material().density;
        let model = RodModel::new(&rod, &cuts, prepared.print, density, EyeFamily::embedded().angles());
        let loading = prepared.loading(&model)?;
        let temperatures = Temperatures::uniform(&model, scenario.temperature);
        let stressing = Stressing::new(&model, &loading, scenario, &temperatures);
        let spots = HotSpots::new(&stressing, scenario, &temperatures);
        // Directions in the frame of the rod, so part and direction turn together.
        Ok(layload_core::orient::equal_area(30).iter().map(|build| spots.along(build).governing().margin).collect())
    };
    let here = margins(mesh.clone())?;
    let there = margins(mesh.moved(&motion([1.0, 0.3, -0.7], [0.02, 0.01, -0.03])))?;
    for (a, b) in here.iter().zip(&there) {
        assert_relative_eq!(*a, *b, max_relative = 1e-9);
    }
    Ok(())
}
