use nalgebra::Vector3;

use crate::material::Lay;
use crate::print::PrintSettings;

/// Under an upright surface lie walls, under a level one the crossing lines of a skin.
pub(crate) fn lay_under(normal: &Vector3<f64>, print: &PrintSettings) -> Lay {
    let up = normal.dot(&print.build).abs();
    if up < core::f64::consts::FRAC_1_SQRT_2 { wall_lay(print) } else { Lay::Lines }
}

/// Beads side by side that carry as a wall (common practice): one alone has its seam in every layer, and the crossing
/// lines behind it carry instead.
const SOUND_WALLS: u32 = 2;

/// How beads lie where an outline is followed.
pub(crate) fn wall_lay(print: &PrintSettings) -> Lay {
    if print.walls >= SOUND_WALLS { Lay::Wall } else { Lay::Lines }
}
