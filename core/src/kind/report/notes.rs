use crate::verdict::field::FieldSpot;

/// Said of prints with fewer than two walls.
pub(crate) const SINGLE_BEAD: &str = "With fewer than two beads along the outlines no wall carries: strength is taken as that \
     of the crossing lines behind. Two or more go round a bore whole.";

/// Said where walls could not be told from infill.
pub(crate) const UNTOLD: &str = "Some sections have outlines too jagged to tell walls from infill: they are taken as infill \
     throughout, which errs on the weak side.";

/// Sharp inner corners among the field's worst places, each once: an elastic body has no bound on its stress there, so that
/// no number of cells settles whether one of them turns the answer.
pub(crate) fn at_corners<P: core::fmt::Display, A>(spots: &[FieldSpot<P, A>]) -> Vec<String> {
    let mut list: Vec<String> = Vec::new();
    for spot in spots.iter().filter(|spot| spot.sharp) {
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
