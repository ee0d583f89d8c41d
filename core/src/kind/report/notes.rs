use crate::part::sides;
use crate::units::MM;
use crate::verdict::field::FieldSpot;

/// Said of prints with fewer than two walls.
pub(crate) const SINGLE_BEAD: &str = "With fewer than two beads along the outlines no wall carries: strength is taken as that \
     of the crossing lines behind. Two or more go round a bore whole.";

/// Said where walls could not be told from infill.
pub(crate) const UNTOLD: &str = "Some sections have outlines too jagged to tell walls from infill: they are taken as infill \
     throughout, which errs on the weak side.";

/// Cells below which a stress field is no answer: with 10 000 to 90 000 the margins of the samples differ by at most 7 %, with
/// 4000 or 6000 some were half of that (`tests/core/field/numbers_of_cells.rs`).
const FEW_CELLS: usize = 8000;

/// Said of a stress field of few cells.
pub(crate) fn few_cells(cells: usize) -> Option<String> {
    (cells < FEW_CELLS).then(|| format!("stress by only {cells} cells, which may be far off: use 10 000 or more"))
}

/// A bore whose facets lie this share of its radius within the circle through its corners is of doubtful size: as much as a
/// pressed ring's interference.
const COARSE: f64 = 0.01;

/// Said of a bore drawn with few sides; its radius is that of the corners, its sagitta how far within the sides lie, both m.
pub(crate) fn few_sides(bore: &str, radius: f64, sagitta: f64) -> Option<String> {
    let between = radius - sagitta;
    (sagitta > COARSE * radius).then(|| {
        format!(
            "the size of the {bore} bore, drawn with {:.0} sides: taken as {:.2} mm over the corners, it is {:.2} mm between the \
             sides, {:.0} % less",
            sides(radius, sagitta),
            2.0 * radius * MM,
            2.0 * between * MM,
            100.0 * sagitta / radius
        )
    })
}

/// Sharp inner corners among the field's worst places whose stress could not be taken below them, each once: an elastic body
/// has no bound on its stress there, so that no number of cells settles whether one of them turns the answer.
pub(crate) fn at_corners<P: core::fmt::Display, A>(spots: &[FieldSpot<P, A>]) -> Vec<String> {
    let mut list: Vec<String> = Vec::new();
    for spot in spots.iter().filter(|spot| !spot.counts()) {
        let told = format!(
            "a sharp inner corner ({}), where the stress field has no sure number and the true stress is higher: give it a \
             fillet",
            spot.place
        );
        if !list.contains(&told) {
            list.push(told);
        }
    }
    list
}
