//! What changes of the input do to life and margin.

use std::sync::Arc;

use nalgebra::Vector3;

use crate::Error;
use crate::check::{PreparedRod, Printed, pressure};
use crate::job::PartTemperature;
use crate::material::MoistureState;
use crate::part::Thickness;
use crate::print::PrintSettings;
use crate::report::{SensitivityReport, SofteningChange};
use crate::threads::map_in_order;
use crate::verdict::{Assessment, RodCuts, RodModel};

/// Life that nine in ten reach, s, margin, and the time until heat takes it, s, of a part.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Outcome {
    pub(crate) life: f64,
    pub(crate) margin: f64,
    pub(crate) soft: Option<f64>,
}

impl Outcome {
    /// What a change did, in words of what is changed and how.
    pub(crate) fn changed(self, (input, change): (&str, &str), then: Self) -> SensitivityReport {
        let life_factor = (self.life > 0.0).then(|| then.life / self.life).filter(|factor| factor.is_finite());
        let margin_factor = then.margin / self.margin.max(1e-9);
        let softening = self.soft.map(|from_s| SofteningChange { from_s, to_s: then.soft });
        SensitivityReport { input: input.into(), change: change.into(), life_factor, margin_factor, softening }
    }
}

/// A factor that counts for more than any other.
const ALL: f64 = 1e9;

/// In the order of what changes do to the logarithm of life, or where there is none to compare to that of the time until
/// heat takes the part; then to that of the margin.
pub(crate) fn ranked(mut list: Vec<SensitivityReport>) -> Vec<SensitivityReport> {
    let size = |factor: f64| libm::log(factor.clamp(1.0 / ALL, ALL)).abs();
    let heat = |entry: &SensitivityReport| entry.softening.map_or(1.0, |soft| soft.factor().unwrap_or(ALL));
    let life = |entry: &SensitivityReport| size(entry.life_factor.unwrap_or_else(|| heat(entry)));
    let margin = |entry: &SensitivityReport| size(entry.margin_factor);
    list.sort_by(|a, b| {
        let by_life = life(b).total_cmp(&life(a));
        by_life.then(margin(b).total_cmp(&margin(a))).then(a.input.cmp(&b.input))
    });
    list
}

/// One change of the input.
#[derive(Debug, Clone, Copy)]
enum Change {
    Thickness,
    Speed,
    PistonMass,
    PeakPressure,
    Surroundings,
    Clearance,
    Lean,
    Infill,
    Drying,
    Preload,
}

/// How much thicker a rod is looked at.
const THICKER: f64 = 1.1;

/// A lean of the build direction that is easily overlooked at the printer, rad.
const LEAN: f64 = 10.0 / 180.0 * core::f64::consts::PI;

impl Change {
    /// Those that make sense for a rod.
    fn all(prepared: &PreparedRod) -> Vec<Self> {
        let scenario = &prepared.scenario;
        let mut list = vec![Self::Thickness, Self::Speed, Self::PistonMass, Self::Surroundings, Self::Lean];
        if scenario.engine.measured.is_none() {
            list.push(Self::PeakPressure);
        }
        let loose = |end: usize, clearance: f64| scenario.rings[end].is_none() && clearance > 0.0;
        if loose(0, scenario.fits.small_end) || loose(1, scenario.fits.big_end) {
            list.push(Self::Clearance);
        }
        if prepared.print.infill < 1.0 {
            list.push(Self::Infill);
        }
        if scenario.moisture == MoistureState::Conditioned {
            list.push(Self::Drying);
        }
        if scenario.caps.iter().any(Option::is_some) {
            list.push(Self::Preload);
        }
        list
    }

    fn words(self) -> (&'static str, &'static str) {
        match self {
            Self::Thickness => ("rod thickness along the pins", "10 % more"),
            Self::Speed => ("speed", "5 % less"),
            Self::PistonMass => ("reciprocating mass", "10 % less"),
            Self::PeakPressure => ("peak cylinder pressure", "10 % less"),
            Self::Surroundings => ("temperature of air and pins", "10 K less"),
            Self::Clearance => ("radial clearance of the pins", "half"),
            Self::Lean => ("build direction", "leaned by 10° toward the rod"),
            Self::Infill => ("infill", "100 %"),
            Self::Drying => ("water in the plastic", "kept dry"),
            Self::Preload => ("preload of the cap's studs", "10 % more"),
        }
    }

    /// The prepared rod with the change made, but for one of thickness.
    fn made(self, prepared: &PreparedRod) -> Result<PreparedRod, Error> {
        let mut changed = prepared.clone();
        let scenario = &mut changed.scenario;
        match self {
            // The cuts are thickened, not the mesh.
            Self::Thickness => {}
            Self::Speed => scenario.duty = scenario.duty.at_speed_factor(0.95).map_err(crate::job::JobError::from)?,
            Self::PistonMass => scenario.engine.reciprocating_mass *= 0.9,
            Self::PeakPressure => {
                let open = pressure(&scenario.engine, &prepared.cylinder, 1.0)?.peak().pressure_pa;
                scenario.engine.peak_pressure = Some(0.9 * open);
            }
            Self::Surroundings => {
                let around = &mut scenario.surroundings;
                for kelvin in [&mut around.air, &mut around.piston_pin, &mut around.crank_pin] {
                    *kelvin -= 10.0;
                }
                if scenario.part_temperature == PartTemperature::Given {
                    scenario.temperature -= 10.0;
                } else {
                    scenario.temperature = scenario.surroundings.air;
                }
            }
            Self::Clearance => {
                scenario.fits.small_end *= 0.5;
                scenario.fits.big_end *= 0.5;
            }
            Self::Lean => changed.print.build = leaned(&prepared.print.build),
            Self::Infill => changed.print = PrintSettings { infill: 1.0, ..prepared.print },
            Self::Drying => scenario.moisture = MoistureState::Dry,
            Self::Preload => scenario.caps.iter_mut().flatten().for_each(|cap| cap.preload *= 1.1),
        }
        Ok(changed)
    }
}

/// A direction turned toward the part's long axis, or away from it where it lies along that already.
pub(crate) fn leaned(build: &Vector3<f64>) -> Vector3<f64> {
    let along = Vector3::x() * if build.x < 0.0 { -1.0 } else { 1.0 };
    let toward = along - build * build.dot(&along);
    let toward = if toward.norm() > 1e-6 { toward.normalize() } else { Vector3::z() };
    build * libm::cos(LEAN) + toward * libm::sin(LEAN)
}

/// Every change that makes sense and can be made, the strongest first.
///
/// The pieces that governed at the duty are looked at again, and all of them where the change is one of shape, infill or
/// direction, which may move what governs.
pub(crate) fn sensitivities(
    prepared: &PreparedRod,
    cuts: &RodCuts,
    model: &Arc<RodModel>,
    assessment: &Assessment,
) -> Vec<SensitivityReport> {
    let changes = Change::all(prepared);
    let outcome =
        |found: &Assessment| Outcome { life: found.strength.life_at(0.1), margin: found.strength.margin(), soft: None };
    let now = outcome(assessment);
    let assessed = |change: Change| -> Result<Assessment, Error> {
        let changed = change.made(prepared)?;
        let (printed, governing) = match change {
            Change::Thickness => {
                (Printed::new(&changed, &cuts.with_thickness(&prepared.rod, Thickness::even(THICKER)))?, None)
            }
            Change::Lean | Change::Infill => (Printed::new(&changed, cuts)?, None),
            _ => (Printed::loaded(model.clone(), &changed)?, Some(assessment)),
        };
        printed.assessed(&changed, governing)
    };
    let found = map_in_order(changes.len(), |k| {
        let then = assessed(changes[k]).ok()?;
        Some(now.changed(changes[k].words(), outcome(&then)))
    });
    ranked(found.into_iter().flatten().collect())
}
