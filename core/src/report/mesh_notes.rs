//! What a user should know of how the part lies in its file.

use crate::part::{Naming, Rod};

const MM: f64 = 1e3;

/// Steps of the coordinates from which they are coarser than what matters of a part: a tenth of a close fit's clearance, m.
const COARSE: f64 = 1e-6;

/// Said of a file whose coordinates are too far from its origin to be exact.
pub(crate) fn coarse(step: f64) -> Option<String> {
    (step > COARSE).then(|| {
        format!(
            "the part lies so far from the origin of its file that its coordinates are {:.3} mm apart, as 32-bit numbers \
             hold no finer ones there; all lengths are as coarse as that: move it to the origin and export it again",
            step * MM
        )
    })
}

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
