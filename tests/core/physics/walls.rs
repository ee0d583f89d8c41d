//! How many beads go round makes a wall or none.

use layload_core::print::PrintSettings;
use layload_core::verdict::Mode;

use super::{Found, assessed, job, model, prepared};

/// Printed solid, a rod has the same sections whatever its walls; one bead alone carries as the crossing lines behind it.
#[test]
fn one_bead_is_no_wall() -> Found<()> {
    let prepared = prepared("i_shank_rod.stl", &job([50.0, 80.0, 65.0]))?;
    let margin = |walls: u32| -> Found<f64> {
        let mut with = prepared.clone();
        with.print = PrintSettings { walls, ..prepared.print };
        let found = assessed(&with, &model(&with))?;
        let torn = found.strength.modes.iter().find(|mode| mode.mode == Mode::OverloadInLayerPlane);
        Ok(torn.ok_or("no overload")?.margin)
    };
    let [none, one, two, four] = [margin(0)?, margin(1)?, margin(2)?, margin(4)?];
    assert_eq!(two.to_bits(), four.to_bits(), "{two} {four}");
    assert_eq!(none.to_bits(), one.to_bits(), "{none} {one}");
    // Crossing lines have the mean of the strengths along and across beads.
    let card = prepared.scenario.material();
    let lines = f64::midpoint(card.bead_strength, card.across_strength) / card.bead_strength;
    assert!((one / two / lines - 1.0).abs() < 1e-9, "{} for {lines}", one / two);
    Ok(())
}
