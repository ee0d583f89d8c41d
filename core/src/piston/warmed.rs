use super::assess::{PistonCase, assess_piston};
use super::assessed::AssessedPiston;
use super::loaded::LoadedPiston;
use super::sweep::swept;
use super::warm::WarmPiston;
use crate::Error;
use crate::kind::{Assessed, SpeedRange, Warm};
use crate::report::SweepPoint;

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

impl Warm for WarmedPiston<'_> {
    fn swept(&self, range: &SpeedRange) -> Result<Vec<SweepPoint>, Error> {
        swept(self.loaded, range)
    }

    fn assess(&self) -> Result<Box<dyn Assessed + '_>, Error> {
        let assessment = assess_piston(&self.case(), &self.loaded.prepared.scenario.card)?;
        Ok(Box::new(AssessedPiston::new(self, assessment)))
    }
}
