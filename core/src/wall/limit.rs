use nalgebra::Vector3;

use crate::print::PrintSettings;

/// Why a wall counts as too thin, the gravest first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum ThinReason {
    /// Fewer than two beads side by side: it cannot be printed sound.
    FewBeads,
    /// Thinner than was asked for.
    BelowGiven,
    /// Its stress is more than nine prints in ten bear for the wanted life.
    Overstressed,
    /// The solid bands of both sides meet: there is no lighter inside, though one was ordered.
    NoCore,
}

/// Thicknesses below which a wall is flagged.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WallLimits {
    few_beads: f64,
    given: f64,
    print: Option<PrintSettings>,
    /// Smaller regions are not reported, m², as seen from one side.
    pub least_area: f64,
}

/// Beads that a sound wall has at least. (Common practice, no source.)
pub const SOUND_BEADS: f64 = 2.0;

/// Side of the square that a region must fill, in beads: smaller ones are one dab of the nozzle.
const REGION_BEADS: f64 = 3.0;

/// A wall may fall short of its limit by this much, m: rounding of 32-bit coordinates, far below what a printer resolves.
const ALLOWANCE: f64 = 1e-6;

impl WallLimits {
    /// Limits that follow from how the part is printed.
    ///
    /// The bead limit holds in any direction. The core limit is twice the solid depth under the wall's face, which is
    /// walls times bead width for an upright wall and skin layers times layer height for one that lies in the layers;
    /// it does not apply to solid prints.
    pub fn of_print(print: &PrintSettings) -> Self {
        let side = REGION_BEADS * print.bead_width;
        Self {
            few_beads: SOUND_BEADS * print.bead_width,
            given: 0.0,
            print: (print.infill < 1.0).then_some(*print),
            least_area: side * side,
        }
    }

    /// One limit for all walls, m. Regions smaller than its square are not reported.
    pub fn given(thickness: f64) -> Self {
        Self { few_beads: 0.0, given: thickness, print: None, least_area: thickness * thickness }
    }

    /// The same limits with one more that holds for all walls, m.
    #[must_use]
    pub fn and_given(self, thickness: f64) -> Self {
        Self { given: thickness, ..self }
    }

    /// The gravest reason why a wall is too thin, with the thickness that would do, m. `normal` is the unit normal of
    /// its face, `demand` its stress over what is borne there, 0 where that is not asked: stress falls at least as
    /// thickness grows, so that demand times thickness is enough.
    pub fn reason(&self, thickness: f64, normal: &Vector3<f64>, demand: f64) -> Option<(ThinReason, f64)> {
        let core = self.print.map_or(0.0, |print| 2.0 * print.solid_depth(normal));
        let borne = if demand > 1.0 { demand * thickness } else { 0.0 };
        [
            (ThinReason::FewBeads, self.few_beads),
            (ThinReason::BelowGiven, self.given),
            (ThinReason::Overstressed, borne),
            (ThinReason::NoCore, core),
        ]
        .into_iter()
        .find(|(_, limit)| thickness < limit - ALLOWANCE)
    }
}
