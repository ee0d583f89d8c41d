use std::sync::OnceLock;

use super::assessment::Assessment;
use super::changes::{AtDuty, changes};
use super::clamped::joint_pull;
use super::facet_use::facet_use;
use super::hottest::highest_temperature;
use super::place::End;
use super::report::{Parts, build};
use super::speed::highest_speed;
use super::stretch::stretch;
use super::uncertainty::uncertainty;
use super::warmed::WarmedRod;
use super::warmth::Warmth;
use crate::Error;
use crate::job::JobError;
use crate::kind::{Answers, Assessed, Changes};
use crate::numeric::both;
use crate::report::Report;
use crate::verdict::{SpeedLimit, Uncertainty};

/// A rod held against its material.
pub(crate) struct AssessedRod<'a> {
    warmed: &'a WarmedRod<'a>,
    /// Of stress alone.
    assessment: Assessment,
    warmth: Warmth,
    /// Highest temperature of the whole rod for the wanted life, K.
    hottest: OnceLock<Option<f64>>,
}

impl<'a> AssessedRod<'a> {
    pub(crate) fn new(warmed: &'a WarmedRod<'a>, assessment: Assessment, warmth: Warmth) -> Self {
        Self { warmed, assessment, warmth, hottest: OnceLock::new() }
    }

    /// All that the answer tells: the field's own places and heat in it.
    fn told(&self) -> Assessment {
        let mut assessment = self.warmed.told(self.assessment.clone());
        assessment.add(self.warmth.margin());
        assessment
    }

    fn hottest(&self) -> Option<f64> {
        let WarmedRod { loaded, stressing, .. } = self.warmed;
        let found = || highest_temperature(stressing, &loaded.prepared.scenario, &self.assessment);
        *self.hottest.get_or_init(found)
    }
}

impl Assessed for AssessedRod<'_> {
    fn highest_speed(&self) -> Result<SpeedLimit, Error> {
        let WarmedRod { loaded, stressing, warm, .. } = self.warmed;
        let limit = highest_speed(stressing, &loaded.prepared.scenario, warm, &self.assessment)?;
        Ok(limit.below(self.warmth.speed_to_runaway))
    }

    fn uncertainty(&self) -> Uncertainty {
        let WarmedRod { loaded, stressing, temperatures, .. } = self.warmed;
        // The highest temperature is looked for beside it, as both are as long.
        let found = || uncertainty(stressing, &loaded.prepared.scenario, temperatures, &self.assessment);
        both(found, || self.hottest()).0
    }

    fn changes(&self) -> Changes {
        let WarmedRod { loaded, stressing, .. } = self.warmed;
        let heat = Some(self.warmth.margin()).filter(|heat| heat.margin < self.assessment.governing().margin);
        let told = self.told().strength.margin();
        changes(&AtDuty { loaded, stressing, assessment: &self.assessment, heat, told })
    }

    fn report(&self, answers: Answers) -> Result<Report, Error> {
        let WarmedRod { loaded, stressing, temperatures, .. } = self.warmed;
        let scenario = &loaded.prepared.scenario;
        let assessment = self.told();
        Ok(build(&Parts {
            answers: &answers,
            prepared: &loaded.prepared,
            model: &loaded.printed.model,
            loading: &loaded.printed.loading,
            assessment: &assessment,
            warmth: &self.warmth,
            temperatures,
            peak_pressure: loaded.peak_pressure,
            highest_temperature: self.hottest(),
            stretch: &stretch(stressing, scenario, temperatures).map_err(JobError::from)?,
            joint_pulls: [End::Small, End::Big].map(|end| joint_pull(stressing, end)),
            field: loaded.field.as_ref().map(|field| &field.findings),
        }))
    }

    fn facets(&self) -> Option<Vec<Option<f64>>> {
        let WarmedRod { loaded, stressing, temperatures, .. } = self.warmed;
        let painted = loaded.field.as_ref().and_then(|field| field.findings.facets.clone());
        let by_sections = || {
            let used = facet_use(&loaded.prepared.rod, stressing, &loaded.prepared.scenario, temperatures);
            used.into_iter().map(Some).collect()
        };
        Some(painted.unwrap_or_else(by_sections))
    }
}
