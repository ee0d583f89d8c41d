use super::assess::PistonAssessment;
use super::changes::{AtDuty, changes};
use super::loaded::LoadedPiston;
use super::report::{PistonParts, build};
use super::speed::piston_speed;
use super::uncertainty::piston_uncertainty;
use super::warm::soft_by_correlation;
use super::warmed::WarmedPiston;
use crate::Error;
use crate::kind::{Answers, Assessed, Changes};
use crate::report::Report;
use crate::verdict::{SpeedLimit, Uncertainty};

/// A piston held against its material.
pub(crate) struct AssessedPiston<'a> {
    warmed: &'a WarmedPiston<'a>,
    assessment: PistonAssessment,
}

impl<'a> AssessedPiston<'a> {
    pub(crate) fn new(warmed: &'a WarmedPiston<'a>, assessment: PistonAssessment) -> Self {
        Self { warmed, assessment }
    }
}

impl Assessed for AssessedPiston<'_> {
    fn highest_speed(&self) -> Result<SpeedLimit, Error> {
        Ok(piston_speed(&self.warmed.case())?)
    }

    fn uncertainty(&self) -> Uncertainty {
        piston_uncertainty(&self.warmed.case(), self.assessment.strength.margin())
    }

    fn changes(&self) -> Changes {
        let LoadedPiston { prepared, model, .. } = self.warmed.loaded;
        let (assessment, warm) = (&self.assessment, &self.warmed.warm);
        let told = self.warmed.loaded.told(assessment.clone()).strength.margin();
        changes(&AtDuty { prepared, model, assessment, warm, told })
    }

    fn report(&self, answers: Answers) -> Result<Report, Error> {
        let loaded = self.warmed.loaded;
        let assessment = loaded.told(self.assessment.clone());
        let case = self.warmed.case();
        Ok(build(&PistonParts {
            answers: &answers,
            prepared: &loaded.prepared,
            soft_by_correlation: soft_by_correlation(&case)?,
            case: &case,
            assessment: &assessment,
            field: loaded.field.as_ref().map(|field| &field.findings),
        }))
    }

    fn facets(&self) -> Option<Vec<Option<f64>>> {
        self.warmed.loaded.field.as_ref()?.findings.facets.clone()
    }
}
