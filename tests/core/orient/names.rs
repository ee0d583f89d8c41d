//! The answer for the samples: poses by name, the recommended one, and its reason.

use layload_core::job::Job;
use layload_core::{DIRECTION_RANGE, Error, Question, directions};

use super::Tested;
use crate::mesh::files::bytes;

/// Layers across the shank are pulled apart at every turn; that filled nylon is weakest there is common practice, no
/// source, and in every card.
#[test]
fn upright_is_worse_than_flat_for_every_filled_nylon() -> Tested {
    let text = String::from_utf8(bytes("samples/bench_single.toml")?)?;
    for material in ["PA12-CF15", "PA6-CF20", "PA6-GF"] {
        for sample in ["plain_rod", "i_shank_rod"] {
            let job = Job::from_toml(&text.replace("PA12-CF15", material))?;
            let question = Question { job: &job, card_text: None, pressure_text: None };
            let report = directions(&bytes(&format!("samples/{sample}.stl"))?, &question, 40, None, &mut ())?;
            let (flat, upright) = (&report.named.flat, &report.named.upright);
            assert!(upright.margin < flat.margin, "{material} {sample}: {} {}", upright.margin, flat.margin);
            let reason = &report.recommended.reason;
            assert!(reason.contains("Upright is worse than flat"), "{reason}");
            // The recommended direction is as strong as any found, within the tenth that counts as equal.
            let best = report.directions.iter().map(|d| d.margin).fold(0.0, f64::max);
            assert!(report.recommended.direction.margin >= 0.88 * best, "{material} {sample}");
            assert!(report.directions.iter().any(|d| d.pareto));
        }
    }
    Ok(())
}

#[test]
fn odd_counts_are_refused() -> Tested {
    let job = Job::from_toml(&String::from_utf8(bytes("samples/bench_single.toml")?)?)?;
    let question = Question { job: &job, card_text: None, pressure_text: None };
    let stl = bytes("samples/plain_rod.stl")?;
    for count in [0, DIRECTION_RANGE.0 - 1, DIRECTION_RANGE.1 + 1] {
        let found = directions(&stl, &question, count, None, &mut ());
        assert!(matches!(found, Err(Error::DirectionCount { .. })), "{count}");
    }
    Ok(())
}
