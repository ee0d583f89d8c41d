//! Solids with a known stress, through the field's whole path: cells, solver, stress at the surface.

use super::Rows;
use super::row::{Source, Word};
use crate::field::known_solids::{hole_factor, plate_stresses};

#[expect(clippy::unnecessary_wraps, reason = "all chapters have one form")]
pub(super) fn rows() -> Rows {
    let plate = plate_stresses();
    let roark = |id| Source { id, word: Word::ClosedForm, name: "Roark's Formulas, flat round plates" };
    let cells = "four cells in the thickness; thin-plate theory leaves out what shear adds, about (t/a)²";
    let (wide, narrow) = (0.1, 1.0 / 3.0);
    let heywood = |share: f64| 2.0 + (1.0 - share) * (1.0 - share) * (1.0 - share);
    // Over the stress far away instead of that of the net section.
    let kirsch = hole_factor(5e-3, 40e-3, 5e-3 / wide, 24.0) / (1.0 - wide);
    let net = hole_factor(5e-3, 32e-3, 5e-3 / narrow, 16.0);
    Ok(vec![
        roark("C5").row("clamped plate at 0.9 of its radius, MPa", plate.near_clamp.0, plate.near_clamp.1, 0.03, cells),
        roark("C5").row("middle of a clamped plate, MPa", plate.clamped.0, plate.clamped.1, 0.03, cells),
        roark("C6").row("middle of a supported plate, MPa", plate.supported.0, plate.supported.1, 0.03, cells),
        Source { id: "C14", word: Word::ClosedForm, name: "Kirsch 1898, hole in a wide plate" }.row(
            "stress at a hole of a tenth of the width over that far away",
            3.0,
            kirsch,
            0.03,
            "24 cells across the hole; the finite width alone adds 1.1 % by Heywood's fit",
        ),
        Source { id: "C15", word: Word::Memory, name: "Heywood's fit for a hole in a plate of finite width" }.row(
            "stress at a hole of a third of the width over that of the net section",
            heywood(narrow),
            net,
            0.03,
            "sixteen cells across the hole",
        ),
    ])
}
