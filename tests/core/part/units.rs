//! Files in inches or metres: asked about, and read right when told.

use layload_core::fitting_units;
use layload_core::job::{Job, MaterialTable, PartTable};
use layload_core::mesh::Mesh;
use layload_core::{Error, Help, LengthUnit, Question, prepare};

use super::Tested;
use super::truth::{Truth, unit};
use crate::copies;
use crate::mesh::files;
use crate::mesh::shapes::Solid;

fn job(unit: Option<LengthUnit>) -> Result<Job, layload_core::job::JobError> {
    let mut job = Job::from_toml(
        "[engine]\nbore_mm = 52.0\nstroke_mm = 46.0\nreciprocating_mass_g = 96.0\n\
         [duty]\nsteps = [{ rpm = 5000.0, throttle = 1.0, seconds = 60.0 }]\n",
    )?;
    job.material = MaterialTable { name: Some("PA12-CF15".into()), ..MaterialTable::default() };
    job.part = PartTable { mesh_unit: unit, ..PartTable::default() };
    Ok(job)
}

#[test]
fn asked_about() -> Tested {
    for (name, expected) in [("inch_rod", ["centimetre", "inch"].as_slice()), ("metre_rod", &["metre"])] {
        let job = job(None)?;
        let question = Question { job: &job, card_text: None, pressure_text: None };
        let error = prepare(&files::test_mesh(name)?, &question, &mut ()).err();
        let Some(asked @ Error::LikelyUnit { fitting, length_mm }) = &error else {
            return Err(format!("{name}: {error:?}").into());
        };
        let words: Vec<&str> = fitting.iter().map(|unit| unit.word()).collect();
        assert_eq!(words, expected);
        for unit in fitting {
            // Each with the length that the part would have.
            let said = format!("{} ({:.1} mm)", unit.plural(), length_mm * unit.metres() * 1e3);
            assert!(asked.to_string().contains(&said), "{asked}");
        }
        assert_eq!(asked.help(), Help::SayUnit { fitting: fitting.clone() });
    }
    Ok(())
}

/// The same rod in centimetres is asked about, read right when told, and its bores are those of the rod in millimetres.
#[test]
fn centimetres() -> Tested {
    let stl = copies::stl_of(&Solid::of_stl(&files::test_mesh("solid_header")?)?.scaled(0.1));
    let asked = job(None)?;
    let question = Question { job: &asked, card_text: None, pressure_text: None };
    let error = prepare(&stl, &question, &mut ()).err();
    let Some(Error::LikelyUnit { fitting, .. }) = error else { return Err(format!("{error:?}").into()) };
    assert_eq!(fitting, [LengthUnit::Centimetre, LengthUnit::Inch]);
    let told = job(Some(LengthUnit::Centimetre))?;
    let question = Question { job: &told, card_text: None, pressure_text: None };
    let prepared = prepare(&stl, &question, &mut ())?;
    let faults = Truth::of(&files::truths()?["tests/meshes/solid_header.stl"]).faults(&prepared.rod);
    assert!(faults.is_empty(), "{}", faults.join("\n"));
    Ok(())
}

/// Whichever way the part is turned in its file, the same units fit.
#[test]
fn asked_in_every_pose() -> Tested {
    let rod = Solid::of_stl(&files::test_mesh("inch_rod")?)?;
    for pose in copies::poses(41, 50, 4.0) {
        let (mesh, _) = Mesh::from_stl(&copies::stl_of(&rod.clone().moved(&pose)), LengthUnit::Millimetre)?;
        assert_eq!(fitting_units(mesh.length() * 1e3), [LengthUnit::Centimetre, LengthUnit::Inch]);
    }
    Ok(())
}

#[test]
fn read_right_when_told() -> Tested {
    for name in ["inch_rod", "metre_rod"] {
        let truth = &files::truths()?[format!("tests/meshes/{name}.stl")];
        let job = job(Some(unit(truth)))?;
        let question = Question { job: &job, card_text: None, pressure_text: None };
        let prepared = prepare(&files::test_mesh(name)?, &question, &mut ())?;
        let faults = Truth::of(truth).faults(&prepared.rod);
        assert!(faults.is_empty(), "{name}: {}", faults.join("\n"));
    }
    Ok(())
}

#[test]
fn a_rod_in_millimetres_is_not_asked_about() -> Tested {
    let job = job(None)?;
    let question = Question { job: &job, card_text: None, pressure_text: None };
    let prepared = prepare(&files::test_mesh("solid_header")?, &question, &mut ())?;
    assert_eq!(prepared.unit, LengthUnit::Millimetre);
    Ok(())
}
