//! What a user should know of how a rod lies in its file.

use crate::part::{Naming, Rod};
use crate::units::MM;

/// Said of a cap that was moved onto its rod.
pub(crate) fn cap_moved(rod: &Rod) -> Option<String> {
    let gap_mm = rod.cap_gap * MM;
    (gap_mm > 0.0).then(|| format!("the cap lies {gap_mm:.3} mm from the rod; it is taken as clamped onto it"))
}

/// How the ends of a rod with equal bores were told apart.
pub(crate) fn told_apart(rod: &Rod) -> Option<String> {
    let diameter = rod.big_end.bore.diameter() * MM;
    match rod.naming {
        Naming::Diameter => None,
        Naming::Material => Some(format!(
            "both bores are {diameter:.2} mm wide: the end with more material is taken as the big end; if it is not, name \
             both bores by hand"
        )),
        Naming::Alike => Some(format!(
            "both ends are alike, with bores of {diameter:.2} mm: which one is called the small end makes no difference"
        )),
    }
}
