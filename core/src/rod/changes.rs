//! What changes of the input do to life and margin.

use std::sync::Arc;

use super::assess::assess_again;
use super::assessment::Assessment;
use super::change::Change;
use super::loaded::LoadedRod;
use super::model::RodModel;
use super::place::{RodMargin, RodStrength};
use super::prepared::PreparedRod;
use super::printed::Printed;
use super::stressing::Stressing;
use super::warmth::{self_heating, settles_beyond};
use crate::Error;
use crate::kind::{ChangeOutcome, Changes, Resized, changes_of, further};
use crate::part::ThicknessFactors;
use crate::report::FurtherChange;

/// The rod at its duty, against which changes are held.
#[derive(Clone, Copy)]
pub(crate) struct AtDuty<'a> {
    pub(crate) loaded: &'a LoadedRod,
    pub(crate) stressing: &'a Stressing<'a>,
    pub(crate) assessment: &'a Assessment,
    /// What heat leaves of the margin, where that governs.
    pub(crate) heat: Option<RodMargin>,
    /// Margin that the answer tells.
    pub(crate) told: f64,
}

impl AtDuty<'_> {
    /// The outcome with a change made, and the rod's mass, kg. The pieces that governed at the duty are looked at again, and all of them where the
    /// change is one of shape, infill or direction, which may move what governs.
    fn with(&self, change: Change, changed: &PreparedRod) -> Result<(ChangeOutcome, f64), Error> {
        let slower;
        let mut changed = changed;
        let printed = match change {
            Change::Thickness(factor) => {
                let thicker =
                    self.loaded.cuts.with_thickness(&self.loaded.prepared.rod, ThicknessFactors::even(factor));
                Some(Printed::new(changed, &thicker)?)
            }
            Change::EyeWall(end, factor) => {
                let as_cut = self.printed(changed)?;
                let density = changed.scenario.material().density;
                let Some(model) = as_cut.with_eye_wall(&changed.rod, end, factor, density) else {
                    return Ok((outcome(&self.assessment.strength), self.mass()));
                };
                slower = changed.with_longer_layers(model.mass.mass() / as_cut.mass.mass());
                changed = &slower;
                Some(Printed::loaded(Arc::new(model), changed)?)
            }
            Change::Lean | Change::Infill => Some(Printed::new(changed, &self.loaded.cuts)?),
            Change::PistonMass | Change::PeakPressure => {
                Some(Printed::loaded(self.loaded.printed.model.clone(), changed)?)
            }
            Change::Speed => {
                let loading = self.loaded.printed.loading.at(changed.scenario.duty_by_peaks());
                Some(Printed { model: self.loaded.printed.model.clone(), loading })
            }
            // The forces stay as they are.
            Change::Surroundings | Change::Clearance | Change::Drying | Change::Print(_) | Change::Preload => None,
        };
        let mut assessment = if let Some(printed) = &printed {
            let reshaped = matches!(change, Change::Thickness(_) | Change::EyeWall(..) | Change::Lean | Change::Infill);
            printed.assessed(changed, (!reshaped).then_some(self.assessment))?
        } else {
            let temperatures = self.loaded.printed.warm(changed)?.at(1.0)?.temperatures;
            let stressing = self.stressing.under(&changed.scenario, &temperatures);
            assess_again(&stressing, &changed.scenario, &temperatures, self.assessment)
        };
        let warm = printed.as_ref().unwrap_or(&self.loaded.printed).warm(changed)?;
        if !settles_beyond(&warm, 1.0, assessment.governing().margin)? {
            assessment.add(self_heating(&warm, 1.0)?);
        }
        let mass = printed.as_ref().unwrap_or(&self.loaded.printed).model.mass.mass();
        Ok((outcome(&assessment.strength), mass))
    }

    /// The rod as it is, printed as another job asks.
    fn printed(&self, changed: &PreparedRod) -> Result<Arc<RodModel>, Error> {
        let known = &self.loaded.printed.model;
        Ok(if changed.print == known.print { known.clone() } else { Printed::new(changed, &self.loaded.cuts)?.model })
    }

    fn mass(&self) -> f64 {
        self.loaded.printed.model.mass.mass()
    }

    /// The rod with a size so many times, where it can be made.
    fn resized(&self, change: Change, from: &PreparedRod) -> Option<Resized> {
        let changed = change.made(from).ok()?;
        let (outcome, mass) = self.with(change, &changed).ok()?;
        let moves = change.values(self.loaded, &changed);
        Some(Resized { outcome, moves, mass_change: Some(mass - self.mass()) })
    }

    /// A size taken as far as the wanted life asks, of a rod prepared otherwise or not.
    fn further(&self, now: ChangeOutcome, change: Change, from: &PreparedRod) -> Option<FurtherChange> {
        let size = change.size(self.loaded)?;
        further(now, now.margin / self.told, size, &|factor| self.resized(change.by(factor), from))
    }
}

fn outcome(strength: &RodStrength) -> ChangeOutcome {
    ChangeOutcome { life: strength.life_at(0.1), margin: strength.margin(), soft: None }
}

/// Every change that makes sense and can be made, largest effect first; where the rod fails with how far each size must go.
pub(crate) fn changes(duty: &AtDuty<'_>) -> Changes {
    let prepared = &duty.loaded.prepared;
    let mut at_duty = duty.assessment.clone();
    duty.heat.into_iter().for_each(|heat| at_duty.add(heat));
    let now = outcome(&at_duty.strength);
    let entry = |change: Change| {
        let changed = change.made(prepared).ok()?;
        let (then, _) = duty.with(change, &changed).ok()?;
        Some(now.changed(change.words(), change.values(duty.loaded, &changed), then))
    };
    let further = |size: Change, other: Option<Change>| match other {
        None => duty.further(now, size, prepared),
        Some(other) => duty.further(now, size, &other.made(prepared).ok()?),
    };
    changes_of(&Change::all(duty.loaded), (now, duty.told), |change| change.words().0, entry, further)
}
