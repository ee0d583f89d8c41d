use std::sync::Arc;

use super::assess::assess;
use super::assessed::AssessedRod;
use super::assessment::Assessment;
use super::field::named;
use super::hot_spots::HotSpots;
use super::loaded::LoadedRod;
use super::stressing::Stressing;
use super::sweep::swept;
use super::temperatures::Temperatures;
use super::trial::trial;
use super::warm::WarmRod;
use super::warmth::warmth;
use crate::Error;
use crate::kind::{Assessed, Correction, Loaded, SpeedRange, Trial, Warm};
use crate::orient::Facing;
use crate::report::SweepPoint;
use crate::verdict::NamedStrength;

/// A rod with the stresses and temperatures of its duty.
pub(crate) struct WarmedRod<'a> {
    pub(crate) loaded: &'a LoadedRod,
    pub(crate) warm: WarmRod<'a>,
    pub(crate) temperatures: Temperatures,
    pub(crate) stressing: Stressing<'a>,
}

impl<'a> WarmedRod<'a> {
    pub(crate) fn new(loaded: &'a LoadedRod) -> Result<Self, Error> {
        let LoadedRod { prepared, printed, field, .. } = loaded;
        let warm = printed.warm(prepared)?;
        // Where a field was solved its temperatures stay, as its stresses belong to them.
        let temperatures = match field {
            Some(field) => field.temperatures.clone(),
            None => warm.at(1.0)?.temperatures,
        };
        let stressing = Stressing::new(&printed.model, &printed.loading, &prepared.scenario, &temperatures);
        Ok(Self { loaded, warm, temperatures, stressing })
    }

    /// The duty itself, each mode at the place where sections or the field find it worst.
    pub(crate) fn at_duty(&self) -> Assessment {
        self.told(assess(&self.stressing, &self.loaded.prepared.scenario, &self.temperatures))
    }

    /// The duty with all modes, those of heat among them.
    pub(crate) fn whole(&self) -> Result<Assessment, Error> {
        let mut assessment = self.at_duty();
        assessment.add(warmth(&self.warm)?.margin());
        Ok(assessment)
    }

    /// The same, as trials tell it.
    pub(crate) fn trial(&self) -> Result<Trial, Error> {
        Ok(trial(self.loaded.plastic(), self.temperatures.peak(), &self.whole()?.strength))
    }

    /// An assessment of the duty with the field's own places in it, where there is a field.
    pub(crate) fn told(&self, assessment: Assessment) -> Assessment {
        match &self.loaded.field {
            Some(field) => named(assessment, field.sections.clone(), &field.findings),
            None => assessment,
        }
    }
}

impl Warm for WarmedRod<'_> {
    fn swept(&self, range: &SpeedRange) -> Result<Vec<SweepPoint>, Error> {
        swept(self, range)
    }

    fn facing(&self) -> Option<Box<dyn Facing + '_>> {
        let prepared = &self.loaded.prepared;
        let spots = HotSpots::new(&self.stressing, &prepared.scenario, &self.temperatures);
        Some(Box::new(spots.bonding(&prepared.rod.mesh)))
    }

    fn correction(&self) -> Result<Correction, Error> {
        Ok(Correction { raise: Arc::new(self.loaded.prepared.raise.clone()), at_duty: self.trial()? })
    }

    fn assess(&self) -> Result<Box<dyn Assessed + '_>, Error> {
        let assessment = assess(&self.stressing, &self.loaded.prepared.scenario, &self.temperatures);
        let warmth = warmth(&self.warm)?;
        Ok(Box::new(AssessedRod::new(self, assessment, warmth)))
    }
}

impl Facing for HotSpots<'_> {
    fn along(&self, build: &nalgebra::Vector3<f64>) -> NamedStrength {
        HotSpots::along(self, build).named()
    }
}
