/// Said of prints with fewer than two walls.
pub(crate) const SINGLE_BEAD: &str = "With fewer than two beads along the outlines no wall carries: strength is taken as that \
     of the crossing lines behind. Two or more go round a bore whole.";

/// Said where walls could not be told from infill.
pub(crate) const UNTOLD: &str = "Some sections have outlines too jagged to tell walls from infill: they are taken as infill \
     throughout, which errs on the weak side.";

/// A sharp inner corner that would govern if its number were sure.
pub(crate) fn at_corner(place: &impl core::fmt::Display) -> String {
    format!(
        "a sharp inner corner ({place}), where the stress field finds more harm than anywhere else, but no sure number: give it \
         a fillet"
    )
}
