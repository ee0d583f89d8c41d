//! What changes of the input do to life and margin of a piston.

use std::borrow::Cow;

use super::assess::{PistonAssessment, PistonCase, assess_piston};
use super::limits::Fits;
use super::model::PistonModel;
use super::prepared::PreparedPiston;
use super::trial::with_crown;
use super::warm::WarmPiston;
use crate::Error;
use crate::engine::{Cylinder, Duty, DutyStep};
use crate::job::{CrownLayer, JobError, PartTemperature, PistonScenario};
use crate::kind::{ChangeOutcome, PrintChange, leaned, ranked};
use crate::material::{Card, MoistureState};
use crate::numeric::map_in_order;
use crate::print::PrintSettings;
use crate::report::SensitivityReport;

/// One change of the input.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Change {
    Crown,
    Speed,
    Throttle,
    PeakPressure,
    Compression,
    RunLength,
    HeatResistance,
    Plate,
    Coating,
    Cover,
    Underside,
    Surroundings,
    BossWall,
    LandHeight,
    Walls,
    SkirtLength,
    CylinderClearance,
    PinClearance,
    Lean,
    Infill,
    Drying,
    Print(PrintChange),
}

/// How much thicker crown, bosses, lands, walls and skirt are looked at.
const MORE: f64 = 1.1;

/// A plate of aluminium and its dry joint under light pressure (handbook values; memory).
const PLATE: CrownLayer =
    CrownLayer { thickness: 1e-3, conductivity: 160.0, density: 2700.0, specific_heat: 900.0, joint: Some(1000.0) };

/// A sprayed ceramic coating (handbook values of zirconia; memory).
const COATING: CrownLayer =
    CrownLayer { thickness: 0.3e-3, conductivity: 1.0, density: 5600.0, specific_heat: 500.0, joint: None };

impl Change {
    /// Those that make sense for a piston.
    fn all(prepared: &PreparedPiston, model: &PistonModel) -> Vec<Self> {
        let PreparedPiston { scenario, given, .. } = prepared;
        let mut list = vec![Self::Crown, Self::Speed, Self::Surroundings, Self::Walls, Self::SkirtLength];
        list.extend([Self::CylinderClearance, Self::Lean]);
        let mut also = |wanted: bool, change: Self| {
            if wanted {
                list.push(change);
            }
        };
        let calculated = scenario.engine.measured.is_none();
        also(calculated, Self::Throttle);
        also(calculated, Self::PeakPressure);
        also(calculated, Self::Compression);
        // With one temperature for the whole part its heat does not count.
        let heat = scenario.part_temperature != PartTemperature::Given;
        also(matches!(scenario.part_temperature, PartTemperature::AfterRun { .. }), Self::RunLength);
        also(heat, Self::HeatResistance);
        also(heat, Self::Underside);
        also(heat && given.layers.is_empty(), Self::Plate);
        also(heat && given.layers.is_empty(), Self::Coating);
        also(heat && !given.layers.is_empty(), Self::Cover);
        also(model.boss.is_some(), Self::BossWall);
        also(!model.lands.is_empty(), Self::LandHeight);
        also(given.pin_clearance > 0.0, Self::PinClearance);
        also(prepared.print.infill < 1.0, Self::Infill);
        also(scenario.moisture == MoistureState::Conditioned, Self::Drying);
        for change in PrintChange::ALL {
            also(scenario.bond.is_some(), Self::Print(change));
        }
        list
    }

    fn words(self) -> (&'static str, &'static str) {
        match self {
            Self::Crown => ("crown thickness", "10 % more"),
            Self::Speed => ("speed", "5 % less"),
            Self::Throttle => ("throttle", "10 % less"),
            Self::PeakPressure => ("peak cylinder pressure", "10 % less"),
            Self::Compression => ("compression ratio", "10 % less"),
            Self::RunLength => ("length of one run", "20 % less"),
            Self::HeatResistance => ("softening temperature", "10 K higher"),
            Self::Plate => ("aluminium plate on the crown", "1 mm"),
            Self::Coating => ("ceramic coating of the crown", "0.3 mm"),
            Self::Cover => ("what lies on the crown", "half as thick again"),
            Self::Underside => ("cooling under the crown", "twice"),
            Self::Surroundings => ("temperature of air, pin and cylinder", "10 K less"),
            Self::BossWall => ("wall round the pin bore", "10 % more"),
            Self::LandHeight => ("height of the ring lands", "10 % more"),
            Self::Walls => ("wall area below the crown", "10 % more"),
            Self::SkirtLength => ("length of the skirt", "10 % more"),
            Self::CylinderClearance => ("clearance in the cylinder", "0.05 mm more"),
            Self::PinClearance => ("radial clearance of the pin", "half"),
            Self::Lean => ("build direction", "leaned by 10°"),
            Self::Infill => ("infill", "100 %"),
            Self::Drying => ("water in the plastic", "kept dry"),
            Self::Print(change) => change.words(),
        }
    }

    /// The piston with the change made.
    // One arm a change: split, none would be found.
    #[allow(clippy::too_many_lines)]
    fn made<'a>(self, prepared: &PreparedPiston, model: &'a PistonModel) -> Result<Changed<'a>, Error> {
        let mut prepared = prepared.clone();
        let mut model = Cow::Borrowed(model);
        let mut fits = prepared.fits();
        let PreparedPiston { scenario, given, print, cylinder, .. } = &mut prepared;
        match self {
            Self::Crown => model = Cow::Owned(with_crown(&model, MORE, scenario.material().density)),
            Self::Speed => scenario.duty = scenario.duty.at_speed_factor(0.95).map_err(JobError::from)?,
            Self::Throttle => scenario.duty = throttled(&scenario.duty, 0.9)?,
            Self::PeakPressure => {
                let open = scenario.engine.pressure(cylinder, 1.0)?.peak().pressure_pa;
                scenario.engine.peak_pressure = Some(0.9 * open);
            }
            Self::Compression => {
                scenario.engine.compression_ratio *= 0.9;
                let engine = &scenario.engine;
                *cylinder =
                    Cylinder::new(*cylinder.crank(), engine.bore, engine.compression_ratio).map_err(JobError::from)?;
            }
            Self::RunLength => {
                if let PartTemperature::AfterRun { seconds, .. } = &mut scenario.part_temperature {
                    *seconds *= 0.8;
                }
            }
            Self::HeatResistance => warmer(&mut scenario.card, 10.0),
            Self::Plate => covered(given, &mut model, PLATE),
            Self::Coating => covered(given, &mut model, COATING),
            Self::Cover => {
                let under = std::mem::take(&mut given.layers);
                for layer in under {
                    let more = 0.5 * layer.thickness;
                    load(&mut model, CrownLayer { thickness: more, ..layer });
                    given.layers.push(CrownLayer { thickness: layer.thickness + more, ..layer });
                }
            }
            Self::Underside => given.underside_film *= 2.0,
            Self::Surroundings => {
                let around = &mut scenario.surroundings;
                for kelvin in [&mut around.air, &mut around.piston_pin, &mut given.cylinder_wall] {
                    *kelvin -= 10.0;
                }
                scenario.temperature -= 10.0;
            }
            Self::BossWall => {
                let model = model.to_mut();
                model.boss_edge *= MORE;
                if let Some(boss) = &mut model.boss {
                    boss.ligament *= MORE;
                }
            }
            Self::LandHeight => model.to_mut().lands.iter_mut().for_each(|land| land.height *= MORE),
            Self::Walls => {
                for station in &mut model.to_mut().stations {
                    station.makeup.stiffness.area *= MORE;
                }
            }
            Self::SkirtLength => fits.skirt_length *= MORE,
            Self::CylinderClearance => {
                fits.skirt -= 0.05e-3;
                fits.land -= 0.05e-3;
                if let Some((diameter, _)) = &mut fits.lip {
                    *diameter -= 0.05e-3;
                }
            }
            Self::PinClearance => given.pin_clearance *= 0.5,
            Self::Lean => {
                print.build = leaned(&print.build);
                let solid = print.infill >= 1.0;
                model = if solid {
                    Cow::Owned(PistonModel { print: *print, ..model.into_owned() })
                } else {
                    Cow::Owned(prepared.model()?)
                };
            }
            Self::Infill => {
                *print = PrintSettings { infill: 1.0, ..*print };
                model = Cow::Owned(prepared.model()?);
            }
            Self::Drying => scenario.moisture = MoistureState::Dry,
            Self::Print(change) => change.make(scenario),
        }
        if matches!(self, Self::Lean | Self::Infill | Self::Print(_)) {
            let print = prepared.print;
            prepared.scenario.bond(&prepared.piston.mesh, &print);
        }
        Ok(Changed { prepared, model, fits })
    }
}

/// A piston with one change made.
struct Changed<'a> {
    prepared: PreparedPiston,
    model: Cow<'a, PistonModel>,
    fits: Fits,
}

impl Changed<'_> {
    fn outcome(&self) -> Result<ChangeOutcome, Error> {
        let PreparedPiston { scenario, given, .. } = &self.prepared;
        let loading = self.prepared.loading(&self.model)?;
        let warm = WarmPiston::new(&self.model, &loading, scenario, given, &scenario.card, 1.0)?;
        let case = PistonCase { fits: self.fits, ..self.prepared.case(&self.model, &loading, &warm, 1.0) };
        Ok(outcome(&assess_piston(&case, &scenario.card)?, &warm))
    }
}

/// A duty with every throttle times a factor.
fn throttled(duty: &Duty, factor: f64) -> Result<Duty, JobError> {
    let steps = duty.steps().iter().map(|step| DutyStep { throttle: step.throttle * factor, ..*step });
    Ok(Duty::new(steps.collect())?)
}

/// A card whose curves over temperature lie so many kelvin higher.
fn warmer(card: &mut Card, kelvin: f64) {
    let temperature = &mut card.temperature;
    temperature.glass_transition_c.value += kelvin;
    temperature.softening_c.value += kelvin;
    for point in &mut temperature.retention.points {
        point.temperature_c += kelvin;
    }
}

/// Lays something on the crown.
fn covered(given: &mut PistonScenario, model: &mut Cow<'_, PistonModel>, layer: CrownLayer) {
    given.layers.insert(0, layer);
    load(model, layer);
}

/// Its mass on the piston.
fn load(model: &mut Cow<'_, PistonModel>, layer: CrownLayer) {
    let model = model.to_mut();
    let disc = core::f64::consts::PI * model.crown.radius * model.crown.radius;
    model.mass = model.mass.with_on_top(disc * layer.thickness * layer.density);
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
        let then = changes[k].made(prepared, model).and_then(|changed| changed.outcome()).ok()?;
        Some(now.changed(changes[k].words(), then))
    });
    ranked(found.into_iter().flatten().collect(), now)
}
