//! What changes of the input do to life and margin of a piston.

use super::assess::{PistonAssessment, PistonCase, assess_piston};
use super::change::{Change, Changed};
use super::model::PistonModel;
use super::prepared::PreparedPiston;
use super::warm::WarmPiston;
use crate::Error;
use crate::kind::{ChangeOutcome, Changes, Resized, changes_of, further};
use crate::report::FurtherChange;

impl Changed<'_> {
    fn outcome(&self) -> Result<ChangeOutcome, Error> {
        let PreparedPiston { scenario, given, .. } = &self.prepared;
        let loading = self.prepared.loading(&self.model)?;
        let warm = WarmPiston::new(&self.model, &loading, scenario, given, &scenario.card, 1.0)?;
        let case = PistonCase { fits: self.fits, ..self.prepared.case(&self.model, &loading, &warm, 1.0) };
        Ok(outcome(&assess_piston(&case, &scenario.card)?, &warm))
    }
}

fn outcome(found: &PistonAssessment, warm: &WarmPiston) -> ChangeOutcome {
    let soft = if warm.counts { warm.soft() } else { None };
    ChangeOutcome { life: found.life_at(0.1), margin: found.strength.margin(), soft }
}

/// The piston at its duty, against which changes are held.
#[derive(Clone, Copy)]
pub(crate) struct AtDuty<'a> {
    pub(crate) prepared: &'a PreparedPiston,
    pub(crate) model: &'a PistonModel,
    pub(crate) assessment: &'a PistonAssessment,
    pub(crate) warm: &'a WarmPiston,
    /// Margin that the answer tells.
    pub(crate) told: f64,
}

impl AtDuty<'_> {
    /// The piston with a size so many times, where it can be made.
    fn resized(&self, change: Change, from: &PreparedPiston, model: &PistonModel) -> Option<Resized> {
        let changed = change.made(from, model).ok()?;
        let outcome = changed.outcome().ok()?;
        let gained = changed.model.mass.plastic() - self.model.mass.plastic();
        // Only a thicker crown is modelled with its mass.
        let mass_change = matches!(change, Change::Crown(_)).then_some(gained);
        Some(Resized { outcome, moves: change.values(from, model, &changed), mass_change })
    }

    /// A size taken as far as the wanted life asks, of a piston prepared otherwise or not.
    fn further(
        &self,
        now: ChangeOutcome,
        change: Change,
        (from, model): (&PreparedPiston, &PistonModel),
    ) -> Option<FurtherChange> {
        let size = change.size(from, model)?;
        further(now, now.margin / self.told, size, &|factor| self.resized(change.by(factor), from, model))
    }
}

/// Every change that makes sense and can be made, largest effect first; where the piston fails with how far each size must go.
pub(crate) fn changes(duty: &AtDuty<'_>) -> Changes {
    let AtDuty { prepared, model, assessment, warm, told } = *duty;
    let now = outcome(assessment, warm);
    let entry = |change: Change| {
        let changed = change.made(prepared, model).ok()?;
        let then = changed.outcome().ok()?;
        Some(now.changed(change.words(), change.values(prepared, model, &changed), then))
    };
    let further = |size: Change, other: Option<Change>| match other {
        None => duty.further(now, size, (prepared, model)),
        // The fits of a piston are those of its mesh: a change of them does not carry on to the next.
        Some(Change::CylinderClearance) => None,
        Some(other) => {
            let made = other.made(prepared, model).ok()?;
            duty.further(now, size, (&made.prepared, &made.model))
        }
    };
    changes_of(&Change::all(prepared, model), (now, told), |change| change.words().0, entry, further)
}
