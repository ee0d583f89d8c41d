//! The stress field finds the same margin in turned copies.

use layload_core::verdict::FieldRequest;
use layload_core::{CheckRequest, check_with};

use super::answer::Answer;
use super::corpus::{Sample, part_of, question, sample_of, samples};
use super::{Found, POSES, REACH, all_poses};
use crate::copies::poses;

/// Cells stand square to the part's own frame, so a turned part has the same ones but for rounding: 1 % covers cells whose
/// share of material rounding decides.
const SAME: f64 = 1e-2;

#[test]
fn the_same_margin_of_a_rod_and_a_piston() -> Found<()> {
    for (name, cells) in [("samples/plain_rod.stl", 6_000), ("tests/meshes/piston.stl", 16_000)] {
        let sample = sample_of(name)?;
        let mut job = sample.job()?;
        // So hot that layers bond in full: it is stress that is held equal here, the bond has a test of its own.
        (job.print.bed_c, job.print.chamber_c) = (Some(350.0), Some(350.0));
        let request = CheckRequest { facets: false, field: Some(FieldRequest { cells }) };
        let margin = |motion: Option<&nalgebra::Isometry3<f64>>| -> Found<(usize, Vec<f64>)> {
            let solid = motion.map_or(sample.solid.clone(), |motion| sample.solid.clone().moved(motion));
            let report = check_with(&part_of(&solid)?, &question(&job), &request, &mut ())?.report;
            let field = report.field.ok_or("no field")?;
            let worst = field.hot_spots.first().ok_or("no place")?.margin;
            Ok((field.cells, vec![report.verdict.margin, worst]))
        };
        let (cells, as_built) = margin(None)?;
        for motion in &poses(13, 1, REACH) {
            let (again, turned) = margin(Some(motion))?;
            let spread = as_built.iter().zip(&turned).map(|(a, b)| (a / b - 1.0).abs()).fold(0.0, f64::max);
            println!("{name}: {cells} and {again} cells, margins differ by {spread:.1e}");
            assert!(spread < SAME, "{name}: {as_built:?} and {turned:?}");
        }
    }
    Ok(())
}

/// Cells by which walls of the corpus are at least three thick.
const CELLS: usize = 20_000;

/// Every part of the corpus: the same verdict, mode and place, and the same margin within [`SAME`]. One of the small meshes at
/// one pose, and with `LAYLOAD_ALL_POSES` each of them at every pose.
#[test]
fn the_same_answer_of_every_part() -> Found<()> {
    let wide = all_poses();
    let (names, count) =
        if wide { (samples()?, POSES) } else { (vec![sample_of("tests/meshes/counterbored.stl")?], 1) };
    let request = CheckRequest { facets: false, field: Some(FieldRequest { cells: CELLS }) };
    let mut faults = Vec::new();
    for (number, sample) in names.iter().enumerate().filter(|(_, sample)| sample.is_part()) {
        let job = sample.job()?;
        let answer = |motion: Option<&nalgebra::Isometry3<f64>>| -> Found<Answer> {
            let solid = motion.map_or(sample.solid.clone(), |motion| sample.solid.clone().moved(motion));
            let part = part_of(&solid)?;
            Ok(Answer::of(&check_with(&part, &question(&job), &request, &mut ())?.report, &part))
        };
        let Ok(as_built) = answer(None) else { continue };
        let (spread, said) = against(sample, &as_built, number as u64, count, answer)?;
        println!("{:45} {spread:.1e} {}", sample.name, said.len());
        if spread > SAME {
            faults.push(format!("{}: margins differ by {spread:.1e}", sample.name));
        }
        faults.extend(said);
    }
    assert!(faults.is_empty(), "{} faults\n{}", faults.len(), faults.join("\n"));
    Ok(())
}

/// The greatest difference of the verdict's margin over some poses, and where else the verdict differs: holds, its mode, its
/// place.
fn against(
    sample: &Sample,
    as_built: &Answer,
    seed: u64,
    count: usize,
    answer: impl Fn(Option<&nalgebra::Isometry3<f64>>) -> Found<Answer>,
) -> Found<(f64, Vec<String>)> {
    let (mut spread, mut faults) = (0.0_f64, Vec::new());
    for (pose, motion) in poses(seed, count, REACH).iter().enumerate() {
        let turned = answer(Some(motion))?;
        let [a, b] = [as_built, &turned].map(|answer| &answer.modes[0]);
        spread = spread.max((a.margin / b.margin - 1.0).abs());
        if as_built.holds != turned.holds || (&a.name, &a.place) != (&b.name, &b.place) {
            let of = |answer: &Answer| {
                let mode = &answer.modes[0];
                format!("{:?} {} {} {:.4}", answer.holds, mode.name, mode.place, mode.margin)
            };
            faults.push(format!("{}, pose {pose}: {} and {}", sample.name, of(as_built), of(&turned)));
        }
    }
    Ok((spread, faults))
}
