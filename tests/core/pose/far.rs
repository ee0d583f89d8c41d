//! A part far from the origin of its file: what double precision keeps is kept, what the file has lost is said.

use std::fmt::Write;

use layload_core::mesh::Mesh;
use layload_core::{LengthUnit, quick_look};
use nalgebra::{Isometry3, Vector3};

use super::Found;
use super::answer::Answer;
use super::corpus::{part_of, question, recognised, sample_of};
use crate::copies::stl_of;

/// A kilometre off, in double precision: a step there is 1e-13 m, and nothing in recognition or sections is worked out from
/// the origin of the file.
#[test]
fn a_kilometre_off_nothing_is_lost() -> Found<()> {
    for name in ["samples/plain_rod.stl", "tests/meshes/half_bore_with_cap.stl", "samples/flat_crown_piston.stl"] {
        let sample = sample_of(name)?;
        let job = sample.job()?;
        let far = Isometry3::new(Vector3::new(700.0, -650.0, 300.0), Vector3::new(0.4, -0.9, 1.3));
        let [here, there] = [sample.solid.clone(), sample.solid.clone().moved(&far)].map(|solid| -> Found<Answer> {
            let part = part_of(&solid)?;
            Ok(Answer::of(&quick_look(&part, &question(&job), &mut ())?, &part))
        });
        let (faults, spread) = here?.against(&there?, 0.1);
        assert!(faults.is_empty(), "{name}: {}", faults.join("; "));
        // Heat is settled to a thousandth of a kelvin, and where its steps end hangs on the last digits.
        assert!(spread < 1e-5, "{name}: {spread:e}");
    }
    Ok(())
}

/// A file that holds its part 20 m from its origin has corners 0.002 mm apart: said, with the step.
#[test]
fn a_file_too_coarse_is_told() -> Found<()> {
    let sample = sample_of("samples/plain_rod.stl")?;
    let job = sample.job()?;
    for (off_mm, told) in [(100.0, None), (2500.0, None), (2.0e4, Some("0.002 mm")), (1.0e6, Some("0.119 mm"))] {
        let mut solid = sample.solid.clone().scaled(1e3);
        solid.points.iter_mut().for_each(|point| point.x += off_mm);
        let (mesh, mended) = Mesh::from_stl(&stl_of(&solid), LengthUnit::Millimetre)?;
        // A step of 32-bit numbers: 2⁻²³ of the power of two below.
        let step = mesh.step() * 1e3;
        let digit = f64::from(f32::EPSILON);
        assert!(step >= off_mm * digit / 2.0 && step <= (off_mm + 200.0) * digit, "{step}");
        let Ok(part) = recognised(mesh, mended)? else {
            // Steps of a tenth of a millimetre are too coarse to see a round bore in.
            assert!(off_mm > 1e5);
            continue;
        };
        let notes = quick_look(&part, &question(&job), &mut ())?.mesh.notes;
        let found = notes.iter().find(|note| note.contains("so far from the origin"));
        assert_eq!(found.is_some(), told.is_some(), "{off_mm} mm: {notes:?}");
        assert!(told.is_none_or(|told| found.is_some_and(|note| note.contains(told))), "{found:?}");
    }
    Ok(())
}

/// Text that holds a part a kilometre off with all its digits loses none of them.
#[test]
fn digits_of_a_text_are_kept() -> Found<()> {
    let sample = sample_of("tests/meshes/counterbored.stl")?;
    let job = sample.job()?;
    let off = Vector3::new(1.0e6, -4.0e5, 3.0e4);
    let answer = |off: Vector3<f64>| -> Found<(Answer, Vec<String>)> {
        let mut solid = sample.solid.clone().scaled(1e3);
        solid.points.iter_mut().for_each(|point| *point += off);
        let mut text = String::from("solid far\n");
        for facet in &solid.facets {
            text += "facet normal 0 0 0\nouter loop\n";
            for point in facet.map(|id| solid.points[id as usize]) {
                writeln!(text, "vertex {} {} {}", point.x, point.y, point.z)?;
            }
            text += "endloop\nendfacet\n";
        }
        text += "endsolid far\n";
        let (mesh, mended) = Mesh::from_stl(text.as_bytes(), LengthUnit::Millimetre)?;
        let part = recognised(mesh, mended)??;
        let report = quick_look(&part, &question(&job), &mut ())?;
        Ok((Answer::of(&report, &part), report.mesh.notes))
    };
    let ((here, _), (there, notes)) = (answer(Vector3::zeros())?, answer(off)?);
    let (faults, spread) = here.against(&there, 0.1);
    assert!(faults.is_empty(), "{}", faults.join("; "));
    assert!(spread < 1e-4 && !notes.iter().any(|note| note.contains("origin")), "{spread:e} {notes:?}");
    Ok(())
}
