//! From a mesh and a job to life against speed.

use std::sync::Arc;

use crate::Error;
use crate::check::{LoadedPart, PartSource, PreparedRod, Printed, Question, Stage, Watcher, prepare_rod, stage};
use crate::job::Scenario;
use crate::part::{Part, Rod};
use crate::piston::sweep_piston;
use crate::report::{CAUTIONS, SCHEMA_VERSION, SweepPoint, SweepReport, WarningReport, warnings};
use crate::threads::map_in_order;
use crate::verdict::{Mode, RodCuts, RodPlace, Stressing, WarmRod, assess_at, self_heating, settles_beyond};

/// Speeds looked at unless said otherwise.
pub const USUAL_SPEEDS: usize = 25;

/// Fewest and most speeds.
pub const SPEEDS_RANGE: (usize, usize) = (2, 1000);

/// Top speeds of the duty, evenly spaced.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SpeedRange {
    from_rpm: f64,
    to_rpm: f64,
    pub(crate) count: usize,
}

impl SpeedRange {
    /// From the lowest and the highest speed, rpm, both included, and how many there are.
    pub fn new(from_rpm: f64, to_rpm: f64, count: usize) -> Result<Self, Error> {
        let (low, high) = SPEEDS_RANGE;
        if !(low..=high).contains(&count) {
            return Err(Error::SpeedCount { count, low, high });
        }
        if !(from_rpm > 0.0 && to_rpm > from_rpm && to_rpm <= 1e5) {
            return Err(Error::SpeedRange { from_rpm, to_rpm });
        }
        Ok(Self { from_rpm, to_rpm, count })
    }

    /// Speed by its number, rpm.
    pub(crate) fn at(&self, number: usize) -> f64 {
        self.from_rpm + (self.to_rpm - self.from_rpm) * number as f64 / (self.count - 1) as f64
    }
}

/// Life, temperature and governing mode at many top speeds of the duty; all its steps keep their share of the top speed.
pub fn sweep<'a>(
    source: impl Into<PartSource<'a>>,
    question: &Question<'_>,
    range: &SpeedRange,
    watcher: &mut dyn Watcher,
) -> Result<SweepReport, Error> {
    let loaded = source.into().part(question.job, watcher)?;
    let swept = match &loaded.part {
        Part::Rod(rod) => rod_points(loaded.with(rod.clone()), question, range, watcher)?,
        Part::Piston(piston) => sweep_piston(piston.clone(), question, range, watcher)?,
    };
    Ok(SweepReport {
        schema_version: SCHEMA_VERSION.into(),
        program_version: env!("CARGO_PKG_VERSION").into(),
        title: question.job.title.clone(),
        duty_rpm: swept.duty_rpm,
        wanted_life_s: swept.wanted_life_s,
        warnings: swept.warnings,
        sweep: swept.points,
        cautions: CAUTIONS.iter().map(|&text| text.into()).collect(),
    })
}

/// What each speed does to a part, beside what the job asks.
pub(crate) struct Swept {
    duty_rpm: f64,
    wanted_life_s: f64,
    warnings: Vec<WarningReport>,
    points: Vec<SweepPoint>,
}

impl Swept {
    /// Of a job resolved for its part.
    pub(crate) fn of(scenario: &Scenario, points: Vec<SweepPoint>) -> Self {
        let (duty_rpm, wanted_life_s) = (scenario.duty.highest_rpm(), scenario.wanted_life);
        Self { duty_rpm, wanted_life_s, warnings: warnings(scenario), points }
    }
}

fn rod_points(
    loaded: LoadedPart<Arc<Rod>>,
    question: &Question<'_>,
    range: &SpeedRange,
    watcher: &mut dyn Watcher,
) -> Result<Swept, Error> {
    let prepared = prepare_rod(loaded, question)?;
    stage(watcher, Stage::Cutting)?;
    let scenario = &prepared.scenario;
    let cuts = RodCuts::new(&prepared.rod, scenario.stations);
    let printed = Printed::new(&prepared, &cuts)?;
    stage(watcher, Stage::Assessing)?;
    let warm_rod = printed.warm(&prepared)?;
    let temperatures = warm_rod.at(1.0)?.temperatures;
    let stressing = Stressing::new(&printed.model, &printed.loading, scenario, &temperatures);
    let points = swept_rod(&prepared, &warm_rod, &stressing, range)?;
    Ok(Swept::of(scenario, points))
}

/// What many speeds do to a rod that is stressed already.
pub(crate) fn swept_rod(
    prepared: &PreparedRod,
    warm_rod: &WarmRod<'_>,
    stressing: &Stressing<'_>,
    range: &SpeedRange,
) -> Result<Vec<SweepPoint>, Error> {
    let scenario = &prepared.scenario;
    let duty_rpm = scenario.duty.highest_rpm();
    let points = map_in_order(range.count, |number| {
        let rpm = range.at(number);
        let factor = rpm / duty_rpm;
        let warmed = warm_rod.at(factor)?;
        if !warmed.settles {
            return Ok(SweepPoint {
                rpm,
                life_b10_s: 0.0,
                life_b50_s: 0.0,
                peak_temperature_c: None,
                margin: 0.0,
                governing_mode: Mode::SelfHeating,
                governing_place: RodPlace::Shank.to_string(),
            });
        }
        let mut assessment = assess_at(stressing, scenario, factor, &warmed.temperatures);
        if !settles_beyond(warm_rod, factor, assessment.governing().margin)? {
            assessment.add(self_heating(warm_rod, factor)?);
        }
        let strength = assessment.strength;
        let governing = strength.governing();
        Ok(SweepPoint {
            rpm,
            life_b10_s: strength.life_at(0.1),
            life_b50_s: strength.life_at(0.5),
            peak_temperature_c: Some(warmed.temperatures.peak() - 273.15),
            margin: strength.margin(),
            governing_mode: governing.mode,
            governing_place: governing.place.to_string(),
        })
    });
    points.into_iter().collect()
}
