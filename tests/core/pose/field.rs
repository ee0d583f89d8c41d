//! The stress field finds the same margin in turned copies.

use layload_core::verdict::FieldRequest;
use layload_core::{CheckRequest, check_with};

use super::corpus::{part_of, question, sample_of};
use super::{Found, REACH};
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
