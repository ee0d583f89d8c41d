//! What changes of the input do to life and margin of a piston.

use super::assess::{PistonAssessment, PistonCase, assess_piston};
use super::change::{Change, Changed};
use super::model::PistonModel;
use super::prepared::PreparedPiston;
use super::warm::WarmPiston;
use crate::Error;
use crate::kind::{ChangeOutcome, ranked};
use crate::numeric::map_in_order;
use crate::report::SensitivityReport;

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

/// Every change that makes sense and can be made, largest effect first.
pub(crate) fn changes(
    prepared: &PreparedPiston,
    model: &PistonModel,
    assessment: &PistonAssessment,
    warm: &WarmPiston,
) -> Vec<SensitivityReport> {
    let now = outcome(assessment, warm);
    let changes = Change::all(prepared, model);
    let found = map_in_order(changes.len(), |k| {
        let changed = changes[k].made(prepared, model).ok()?;
        let then = changed.outcome().ok()?;
        Some(now.changed(changes[k].words(), changes[k].values(prepared, model, &changed), then))
    });
    ranked(found.into_iter().flatten().collect(), now)
}
