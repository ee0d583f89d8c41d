use nalgebra::Vector3;

use super::assess::{AnyCase, assess};
use super::assessed::AssessedAny;
use super::field::Driven;
use super::loaded::{LoadedAny, Solved};
use crate::Error;
use crate::kind::{Assessed, SpeedRange, Warm};
use crate::numeric::map_in_order;
use crate::orient::Facing;
use crate::report::SweepPoint;
use crate::units::ZERO_C;
use crate::verdict::{Mode, ModeMargin, NamedStrength, PartStrength};

/// A part of any kind at its duty; it has no heat of its own.
pub(crate) struct WarmedAny<'a> {
    pub(crate) loaded: &'a LoadedAny,
    pub(crate) case: AnyCase<'a>,
    pub(crate) solved: &'a Solved,
}

impl<'a> WarmedAny<'a> {
    pub(crate) fn new(loaded: &'a LoadedAny) -> Result<Self, Error> {
        let (case, solved) = loaded.case()?;
        Ok(Self { loaded, case, solved })
    }
}

impl Warm for WarmedAny<'_> {
    fn swept(&self, range: &SpeedRange) -> Result<Vec<SweepPoint>, Error> {
        let prepared = self.case.prepared;
        let duty_rpm = prepared.scenario.duty.highest_rpm();
        let (hottest, _) = self.case.hottest();
        let points = map_in_order(range.count(), |number| {
            let rpm = range.at(number);
            let how = Driven::at_speed(prepared, rpm / duty_rpm);
            let run = self.solved.field.run(prepared, &how)?;
            let strength = assess(&AnyCase { run: &run, ..self.case }, &self.solved.spots);
            let governing = strength.governing();
            Ok(SweepPoint {
                rpm,
                life_b10_s: strength.life_at(0.1),
                life_b50_s: strength.life_at(0.5),
                peak_temperature_c: Some(hottest - ZERO_C),
                margin: strength.margin(),
                governing_mode: governing.mode,
                governing_place: governing.place.to_string(),
            })
        });
        points.into_iter().collect()
    }

    fn facing(&self) -> Option<Box<dyn Facing + '_>> {
        Some(Box::new(FacingAny(self.loaded)))
    }

    fn assess(&self) -> Result<Box<dyn Assessed + '_>, Error> {
        let strength = assess(&self.case, &self.solved.spots);
        Ok(Box::new(AssessedAny::new(self, strength)))
    }
}

/// Strength by build direction, with the stresses of the job's own.
struct FacingAny<'a>(&'a LoadedAny);

impl Facing for FacingAny<'_> {
    fn along(&self, build: &Vector3<f64>) -> NamedStrength {
        // A direction of no length bears nothing.
        self.0.facing(build, true).unwrap_or_else(|_| PartStrength {
            modes: vec![ModeMargin::at_once(Mode::OverloadAcrossLayers, String::new(), 0.0)],
            links: Vec::new(),
            strength_scatter: 0.0,
            wanted_life: 1.0,
        })
    }
}
