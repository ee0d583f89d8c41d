use std::sync::Arc;

use nalgebra::Vector3;

use super::assess::{PistonAssessment, PistonCase, assess_piston};
use super::assessed::AssessedPiston;
use super::loaded::LoadedPiston;
use super::sweep::swept;
use super::trial::trial;
use super::warm::WarmPiston;
use crate::Error;
use crate::kind::{Assessed, Correction, Loaded, SpeedRange, Trial, Warm};
use crate::orient::Facing;
use crate::report::SweepPoint;
use crate::verdict::{Mode, ModeMargin, NamedStrength};

/// A piston with the temperatures of its duty.
pub(crate) struct WarmedPiston<'a> {
    pub(crate) loaded: &'a LoadedPiston,
    pub(crate) warm: WarmPiston,
}

impl<'a> WarmedPiston<'a> {
    pub(crate) fn new(loaded: &'a LoadedPiston) -> Result<Self, Error> {
        let warm = match &loaded.field {
            Some(field) => field.warm.clone(),
            None => loaded.warmth()?,
        };
        Ok(Self { loaded, warm })
    }

    pub(crate) fn case(&self) -> PistonCase<'_> {
        let LoadedPiston { prepared, model, loading, .. } = self.loaded;
        prepared.case(model, loading, &self.warm, 1.0)
    }
}

impl WarmedPiston<'_> {
    /// The duty, with the field's own places where one was solved.
    pub(crate) fn whole(&self) -> Result<PistonAssessment, Error> {
        let assessment = assess_piston(&self.case(), &self.loaded.prepared.scenario.card)?;
        Ok(self.loaded.told(assessment))
    }

    /// The same, as trials tell it.
    pub(crate) fn trial(&self) -> Result<Trial, Error> {
        Ok(trial(self.loaded.plastic(), &self.whole()?))
    }
}

impl Warm for WarmedPiston<'_> {
    fn swept(&self, range: &SpeedRange) -> Result<Vec<SweepPoint>, Error> {
        swept(self.loaded, range)
    }

    fn facing(&self) -> Option<Box<dyn Facing + '_>> {
        Some(Box::new(PistonFacing { loaded: self.loaded }))
    }

    fn correction(&self) -> Result<Correction, Error> {
        Ok(Correction { raise: Arc::new(self.loaded.prepared.raise), at_duty: self.trial()? })
    }

    fn assess(&self) -> Result<Box<dyn Assessed + '_>, Error> {
        let assessment = assess_piston(&self.case(), &self.loaded.prepared.scenario.card)?;
        Ok(Box::new(AssessedPiston::new(self, assessment)))
    }
}

/// A piston laid otherwise, measured and assessed anew for each direction.
struct PistonFacing<'a> {
    loaded: &'a LoadedPiston,
}

impl Facing for PistonFacing<'_> {
    fn along(&self, build: &Vector3<f64>) -> NamedStrength {
        self.loaded.printed_along(build, None, &mut ()).unwrap_or_else(|error| self.nothing(&error))
    }

    fn everywhere(&self) -> bool {
        false
    }
}

impl PistonFacing<'_> {
    /// A direction in which it cannot be worked out bears nothing, and says why.
    fn nothing(&self, error: &Error) -> NamedStrength {
        let scenario = &self.loaded.prepared.scenario;
        let place = error.to_string();
        let none =
            ModeMargin { mode: Mode::Softening, place, margin: 0.0, median_life: Some(0.0), life_b10: Some(0.0) };
        let strength_scatter = scenario.material().strength_scatter;
        NamedStrength { modes: vec![none], links: Vec::new(), strength_scatter, wanted_life: scenario.wanted_life }
    }
}
