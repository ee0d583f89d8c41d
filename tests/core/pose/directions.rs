//! The named ways to lie and the recommended one score the same.

use layload_core::directions;
use layload_core::report::DirectionReport;

use super::corpus::{part_of, question, sample_of};
use super::{Found, REACH, looked_at};
use crate::copies::poses;
use crate::mesh::shapes::Solid;

fn scored(name: &str, solid: &Solid) -> Found<Vec<DirectionReport>> {
    let job = sample_of(name)?.job()?;
    let found = directions(&part_of(solid)?, &question(&job), 60, None, &mut ())?;
    let named = found.named;
    Ok(vec![named.flat, named.on_edge, named.upright, found.recommended.direction])
}

#[test]
fn the_same_scores_in_every_pose() -> Found<()> {
    // A rod that is not even along its pins: lying on its other face is another way to lie.
    for name in ["tests/meshes/unequal_depths.stl", "tests/meshes/counterbored.stl"] {
        let solid = sample_of(name)?.solid;
        let as_built = scored(name, &solid)?;
        for (_, motion) in poses(12, 50, REACH).iter().enumerate().filter(|(pose, _)| looked_at(*pose, 17)) {
            for (a, b) in as_built.iter().zip(&scored(name, &solid.clone().moved(motion))?) {
                approx::assert_relative_eq!(a.margin, b.margin, max_relative = 1e-6);
                assert_eq!(a.governing_mode, b.governing_mode, "{name}");
                // A rod that is even turned over may come out either way up, and its facets are not even: those that lean by
                // about the limit hang over or not. So do chamfers that lean by the limit to the last digit.
                approx::assert_relative_eq!(a.support_area_mm2, b.support_area_mm2, max_relative = 0.1, epsilon = 1.0);
                approx::assert_relative_eq!(a.height_mm, b.height_mm, max_relative = 1e-6);
            }
        }
    }
    Ok(())
}
