use super::spots::PistonFieldFindings;
use crate::material::Card;
use crate::numeric::sort_few;
use crate::piston::assess::{PistonAssessment, PistonCase, assess_piston};
use crate::piston::place::{PistonPlace, PistonRegion};
use crate::stress::StressError;
use crate::verdict::field::{ROUNDS, SAME, by_stress};
use crate::verdict::{ModeMargin, PartStrength};

/// Factors on the stress of plates, rings and cuts that bring their margins down to those of a stress field where the field
/// has the lesser ones, region by region: so that speed, heat and changes of the input are answered for what it found.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PistonRaise {
    /// Crown, ring belt, walls, bosses.
    pub regions: [f64; 4],
}

impl Default for PistonRaise {
    fn default() -> Self {
        Self { regions: [1.0; 4] }
    }
}

impl PistonRaise {
    /// Whether it changes anything.
    pub fn any(&self) -> bool {
        self.regions.iter().any(|&factor| factor > 1.0)
    }

    /// The factor of a region.
    pub(crate) fn of(&self, region: PistonRegion) -> f64 {
        self.regions[region as usize]
    }
}

/// What gives way first in a region by the modes that stress at points makes.
pub(crate) fn least_by_stress(assessment: &PistonAssessment, region: PistonRegion) -> Option<ModeMargin<PistonPlace>> {
    let modes = assessment.strength.modes.iter().copied();
    let there = modes.filter(|mode| mode.place.region() == region && by_stress(mode.mode));
    there.min_by(|a, b| a.margin.total_cmp(&b.margin))
}

/// The factors that bring the margins of plates, rings and cuts down to those of the field's worst places.
pub(crate) fn raised(
    findings: &PistonFieldFindings,
    case: &PistonCase<'_>,
    card: &Card,
) -> Result<PistonRaise, StressError> {
    let mut raise = PistonRaise::default();
    for _ in 0..ROUNDS {
        let assessment = assess_piston(&PistonCase { raise, ..*case }, card)?;
        let mut changed = false;
        for region in PistonRegion::ALL {
            let spot = findings.spots.iter().find(|spot| spot.counts() && spot.place.region() == region);
            let Some((spot, least)) = spot.zip(least_by_stress(&assessment, region)) else { continue };
            let factor = least.margin / spot.mode.margin.max(1e-9);
            if factor.is_finite() && factor > 1.0 + SAME {
                raise.regions[region as usize] *= factor;
                changed = true;
            }
        }
        if !changed {
            break;
        }
    }
    Ok(raise)
}

/// Gives each mode the place where it truly is worst in its region: of what was not raised and of the field's own places
/// whichever has the lesser margin. What running does to each region stays that of `raised`.
pub(crate) fn named(
    raised: PistonAssessment,
    plain: PistonAssessment,
    findings: &PistonFieldFindings,
) -> PistonAssessment {
    let mut modes = plain.strength.modes;
    for found in findings.spots.iter().filter(|spot| spot.counts()).flat_map(|spot| &spot.modes) {
        let same = |known: &&mut ModeMargin<PistonPlace>| {
            known.mode == found.mode && known.place.region() == found.place.region()
        };
        match modes.iter_mut().find(same) {
            Some(known) if found.margin < known.margin => *known = *found,
            Some(_) => {}
            None => modes.push(*found),
        }
    }
    sort_few(&mut modes, |a, b| a.mode.cmp(&b.mode).then(a.place.region().cmp(&b.place.region())));
    let strength = PartStrength { modes, ..raised.strength };
    PistonAssessment { strength, crown: plain.crown, ..raised }
}
