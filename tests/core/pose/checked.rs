//! The same verdict, mode, place and margin.

use std::fmt::Write;

use layload_core::mesh::Mesh;
use layload_core::{LengthUnit, quick_look};

use super::answer::Answer;
use super::corpus::{Sample, part_of, question, recognised, samples};
use super::{Found, POSES, REACH, looked_at};
use crate::copies::{divided, mirrored, poses, stl_of};
use crate::mesh::shapes::Solid;

/// Margins of copies in double precision agree within this share: bores agree within some billionths of a metre, sections
/// and masses follow, and heat is settled to a thousandth of a kelvin.
const SAME: f64 = 1e-5;

/// The same of copies written as STL: single precision rounds corners to some ten-millionths of their distance from the
/// origin, a thin wall of a part by some millionths of itself, and fatigue and creep raise that to a power.
const SAME_AS_FILE: f64 = 1e-4;

/// The step of coordinates up to which that holds, m: that of parts within a quarter of a metre of the origin. Farther off
/// it grows with the step.
const STEP: f64 = 3.1e-8;

fn answer(solid: &Solid, sample: &Sample) -> Found<Answer> {
    let part = part_of(solid)?;
    let job = sample.job()?;
    Ok(Answer::of(&quick_look(&part, &question(&job), &mut ())?, &part))
}

/// The answer to a copy written as STL, and the share within which its margins agree.
fn answer_of_file(solid: &Solid, sample: &Sample) -> Found<(Answer, f64)> {
    // In millimetres, as files are.
    let (mesh, mended) = Mesh::from_stl(&stl_of(&solid.clone().scaled(1e3)), LengthUnit::Millimetre)?;
    let same = SAME_AS_FILE * (mesh.step().max(sample.step) / STEP).max(1.0);
    let part = recognised(mesh, mended)??;
    let job = sample.job()?;
    Ok((Answer::of(&quick_look(&part, &question(&job), &mut ())?, &part), same))
}

#[test]
fn every_part() -> Found<()> {
    let mut faults = Vec::new();
    let mut table = String::new();
    for (number, sample) in samples()?.iter().enumerate().filter(|(_, sample)| sample.is_part()) {
        let solid = &sample.solid;
        let length = solid.mesh()?.length();
        let as_built = answer(solid, sample).map_err(|error| format!("{}: {error}", sample.name))?;
        let mut worst = [0.0_f64; 2];
        let mut look = |copy: String, found: Found<(Answer, f64)>, file: bool| {
            let (found, same) = match found {
                Ok(found) => found,
                Err(error) => return faults.push(format!("{}, {copy}: {error}", sample.name)),
            };
            let (said, spread) = as_built.against(&found, length);
            faults.extend(said.into_iter().map(|fault| format!("{}, {copy}: {fault}", sample.name)));
            worst[usize::from(file)] = worst[usize::from(file)].max(spread);
            if spread > same {
                faults.push(format!("{}, {copy}: a margin differs by {spread:.1e}", sample.name));
            }
        };
        // A part that is even turned over may come out either way up, with the rounding of a far-off file on its other side.
        let own = if sample.step > STEP { SAME_AS_FILE * sample.step / STEP } else { SAME };
        // A crown is measured along lines: one that meets the edge of a facet may meet its neighbour in another pose. Of all poses
        // of all pistons one gave 2.7e-5 so far.
        let own = if sample.piston() { own.max(4e-5) } else { own };
        let exact = |solid: &Solid| answer(solid, sample).map(|answer| (answer, own));
        for (pose, motion) in poses(number as u64, POSES, REACH).iter().enumerate() {
            if looked_at(pose, 25) {
                look(format!("pose {pose}"), exact(&solid.clone().moved(motion)), false);
            }
            if looked_at(pose + 10, 25) {
                let file = answer_of_file(&solid.clone().shuffled(pose as u64).moved(motion), sample);
                // Walls of pistons are measured along lines, which meet a rounded facet elsewhere: up to 1.2e-4 was seen.
                let file = file.map(|(answer, same)| (answer, if sample.piston() { 2.0 * same } else { same }));
                look(format!("pose {pose} as a file"), file, true);
            }
        }
        look("reordered".into(), exact(&solid.clone().shuffled(7)), false);
        look("mirrored".into(), exact(&mirrored(solid)), false);
        // Four times the facets take four times as long.
        if looked_at(number, 4) {
            look("divided".into(), exact(&divided(solid)), false);
        }
        writeln!(table, "{:45} {:.1e} {:.1e}", sample.name, worst[0], worst[1])?;
    }
    println!("greatest difference of any margin: copies in double precision, copies as files\n{table}");
    assert!(faults.is_empty(), "{} faults\n{}\n{table}", faults.len(), faults.join("\n"));
    Ok(())
}
