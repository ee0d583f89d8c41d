//! One change of the input of a piston, and the piston with it made.

use std::borrow::Cow;

use super::limits::Fits;
use super::model::PistonModel;
use super::prepared::PreparedPiston;
use super::trial::with_crown;
use crate::Error;
use crate::engine::{Cylinder, Duty, DutyStep};
use crate::job::{CrownLayer, JobError, PartTemperature, PistonScenario};
use crate::kind::{ChangeWords, LESS_PRESSURE, PrintChange, leaned, less_pressure, moved};
use crate::material::{Card, MoistureState};
use crate::print::PrintSettings;
use crate::report::{ChangedInput, ChangedValue};
use crate::units::{MM, ZERO_C};

/// One change of the input.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Change {
    Crown(f64),
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
    BossWall(f64),
    LandHeight(f64),
    Walls,
    SkirtLength(f64),
    CylinderClearance,
    PinClearance,
    Lean,
    Infill,
    Drying,
    Print(PrintChange),
}

/// How much thicker crown, bosses, lands, walls and skirt are looked at at first.
const MORE: f64 = 1.1;

/// A plate of aluminium and its dry joint under light pressure (handbook values; memory).
const PLATE: CrownLayer =
    CrownLayer { thickness: 1e-3, conductivity: 160.0, density: 2700.0, specific_heat: 900.0, joint: Some(1000.0) };

/// A sprayed ceramic coating (handbook values of zirconia; memory).
const COATING: CrownLayer =
    CrownLayer { thickness: 0.3e-3, conductivity: 1.0, density: 5600.0, specific_heat: 500.0, joint: None };

impl Change {
    /// Those that make sense for a piston.
    pub(super) fn all(prepared: &PreparedPiston, model: &PistonModel) -> Vec<Self> {
        let PreparedPiston { scenario, given, .. } = prepared;
        let mut list = vec![Self::Crown(MORE), Self::Speed, Self::Surroundings, Self::Walls, Self::SkirtLength(MORE)];
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
        also(model.boss.is_some(), Self::BossWall(MORE));
        also(!model.lands.is_empty(), Self::LandHeight(MORE));
        also(given.pin_clearance > 0.0, Self::PinClearance);
        also(prepared.print.infill < 1.0, Self::Infill);
        also(scenario.moisture == MoistureState::Conditioned, Self::Drying);
        for change in PrintChange::ALL {
            also(scenario.bond.is_some(), Self::Print(change));
        }
        list
    }

    pub(super) fn words(self) -> ChangeWords {
        match self {
            Self::Crown(_) => (ChangedInput::CrownThickness, "crown thickness", "10 % more"),
            Self::Speed => (ChangedInput::Speed, "speed", "5 % less"),
            Self::Throttle => (ChangedInput::Throttle, "throttle", "10 % less"),
            Self::PeakPressure => (ChangedInput::PeakPressure, "peak cylinder pressure", "10 % less"),
            Self::Compression => (ChangedInput::CompressionRatio, "compression ratio", "10 % less"),
            Self::RunLength => (ChangedInput::RunLength, "length of one run", "20 % less"),
            Self::HeatResistance => (ChangedInput::Softening, "softening temperature", "10 K higher"),
            Self::Plate => (ChangedInput::CrownPlate, "aluminium plate on the crown", "1 mm"),
            Self::Coating => (ChangedInput::CrownCoating, "ceramic coating of the crown", "0.3 mm"),
            Self::Cover => (ChangedInput::CrownCover, "what lies on the crown", "half as thick again"),
            Self::Underside => (ChangedInput::Underside, "cooling under the crown", "twice"),
            Self::Surroundings => (ChangedInput::Temperature, "temperature of air, pin and cylinder", "10 K less"),
            Self::BossWall(_) => (ChangedInput::BossWall, "wall around the pin bore", "10 % more"),
            Self::LandHeight(_) => (ChangedInput::LandHeight, "height of the ring lands", "10 % more"),
            Self::Walls => (ChangedInput::WallArea, "wall area below the crown", "10 % more"),
            Self::SkirtLength(_) => (ChangedInput::SkirtLength, "length of the skirt", "10 % more"),
            Self::CylinderClearance => (ChangedInput::CylinderClearance, "clearance in the cylinder", "0.05 mm more"),
            Self::PinClearance => (ChangedInput::PinClearance, "radial clearance of the pin", "half"),
            Self::Lean => (ChangedInput::BuildDirection, "build direction", "leaned by 10°"),
            Self::Infill => (ChangedInput::Infill, "infill", "100 %"),
            Self::Drying => (ChangedInput::Moisture, "water in the plastic", "kept dry"),
            Self::Print(change) => change.words(),
        }
    }

    /// The size that it changes, m; none of what has no size.
    pub(super) fn size(self, prepared: &PreparedPiston, model: &PistonModel) -> Option<f64> {
        match self {
            Self::Crown(_) => Some(model.crown_thickness),
            Self::BossWall(_) => model.boss.map(|boss| boss.ligament),
            Self::LandHeight(_) => least_land(model),
            Self::SkirtLength(_) => Some(prepared.fits().skirt_length),
            _ => None,
        }
    }

    /// The same change of a size by another factor.
    pub(super) fn by(self, factor: f64) -> Self {
        match self {
            Self::Crown(_) => Self::Crown(factor),
            Self::BossWall(_) => Self::BossWall(factor),
            Self::LandHeight(_) => Self::LandHeight(factor),
            Self::SkirtLength(_) => Self::SkirtLength(factor),
            other => other,
        }
    }

    /// Values that it moves, in the units of the edges.
    pub(super) fn values(self, before: &PreparedPiston, model: &PistonModel, after: &Changed<'_>) -> Vec<ChangedValue> {
        let (old, new) = (&before.scenario, &after.prepared.scenario);
        let (given, then) = (&before.given, &after.prepared.given);
        let (fits, loose) = (before.fits(), &after.fits);
        let mm = |name, from: f64, to: f64| moved(name, from * MM, to * MM, "mm");
        let celsius = |name, from: f64, to: f64| moved(name, from - ZERO_C, to - ZERO_C, "°C");
        let one = match self {
            Self::Crown(_) => Some(mm("crown thickness", model.crown_thickness, after.model.crown_thickness)),
            Self::Speed => Some(moved("speed", old.duty.highest_rpm(), new.duty.highest_rpm(), "rpm")),
            Self::Throttle => Some(moved("throttle", open(&old.duty), open(&new.duty), "%")),
            Self::PeakPressure => less_pressure(new.engine.peak_pressure),
            Self::Compression => {
                Some(moved("compression ratio", old.engine.compression_ratio, new.engine.compression_ratio, ""))
            }
            Self::RunLength => match (old.part_temperature, new.part_temperature) {
                (PartTemperature::AfterRun { seconds, .. }, PartTemperature::AfterRun { seconds: to, .. }) => {
                    Some(moved("length of one run", seconds, to, "s"))
                }
                _ => None,
            },
            Self::HeatResistance => Some(celsius("softening temperature", old.card.softening(), new.card.softening())),
            Self::Cover => {
                let (from, to) = (given.layers.first(), then.layers.first());
                from.zip(to).map(|(from, to)| mm("layer on the crown", from.thickness, to.thickness))
            }
            Self::Underside => {
                Some(moved("film under the crown", given.underside_film, then.underside_film, "W/(m² K)"))
            }
            Self::BossWall(_) => {
                let (from, to) = (model.boss, after.model.boss);
                from.zip(to).map(|(from, to)| mm("wall around the pin bore", from.ligament, to.ligament))
            }
            Self::LandHeight(_) => {
                let both = least_land(model).zip(least_land(&after.model));
                both.map(|(from, to)| mm("height of the ring lands", from, to))
            }
            Self::SkirtLength(_) => Some(mm("length of the skirt", fits.skirt_length, loose.skirt_length)),
            Self::CylinderClearance => Some(mm(
                "cold clearance of the skirt in the cylinder",
                fits.bore - fits.skirt,
                loose.bore - loose.skirt,
            )),
            Self::PinClearance => Some(mm("radial clearance of the pin", given.pin_clearance, then.pin_clearance)),
            Self::Infill => {
                Some(moved("infill", before.print.infill * 100.0, after.prepared.print.infill * 100.0, "%"))
            }
            Self::Surroundings => return around(before, &after.prepared),
            Self::Print(change) => return change.values(old, new),
            Self::Plate | Self::Coating | Self::Walls | Self::Lean | Self::Drying => None,
        };
        one.into_iter().collect()
    }

    /// The piston with the change made.
    // One arm a change: split, none would be found.
    #[allow(clippy::too_many_lines)]
    pub(super) fn made<'a>(self, prepared: &PreparedPiston, model: &'a PistonModel) -> Result<Changed<'a>, Error> {
        let mut prepared = prepared.clone();
        let mut model = Cow::Borrowed(model);
        let mut fits = prepared.fits();
        let PreparedPiston { scenario, given, print, cylinder, .. } = &mut prepared;
        match self {
            Self::Crown(factor) => model = Cow::Owned(with_crown(&model, factor, scenario.material().density)),
            Self::Speed => scenario.duty = scenario.duty.at_speed_factor(0.95).map_err(JobError::from)?,
            Self::Throttle => scenario.duty = throttled(&scenario.duty, 0.9)?,
            Self::PeakPressure => {
                let open = scenario.engine.pressure(cylinder, 1.0)?.peak().pressure_pa;
                scenario.engine.peak_pressure = Some(LESS_PRESSURE * open);
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
            Self::BossWall(factor) => {
                let model = model.to_mut();
                model.boss_edge *= factor;
                if let Some(boss) = &mut model.boss {
                    boss.ligament *= factor;
                }
            }
            Self::LandHeight(factor) => model.to_mut().lands.iter_mut().for_each(|land| land.height *= factor),
            Self::Walls => {
                for station in &mut model.to_mut().stations {
                    station.makeup.stiffness.area *= MORE;
                }
            }
            Self::SkirtLength(factor) => fits.skirt_length *= factor,
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
pub(super) struct Changed<'a> {
    pub(super) prepared: PreparedPiston,
    pub(super) model: Cow<'a, PistonModel>,
    pub(super) fits: Fits,
}

fn least_land(model: &PistonModel) -> Option<f64> {
    model.lands.iter().map(|land| land.height).reduce(f64::min)
}

/// Temperatures around a piston, or the one given for it, before and after a change.
fn around(before: &PreparedPiston, after: &PreparedPiston) -> Vec<ChangedValue> {
    let celsius = |name, from: f64, to: f64| moved(name, from - ZERO_C, to - ZERO_C, "°C");
    let (old, new) = (&before.scenario, &after.scenario);
    if old.part_temperature == PartTemperature::Given {
        return vec![celsius("part temperature", old.temperature, new.temperature)];
    }
    vec![
        celsius("air", old.surroundings.air, new.surroundings.air),
        celsius("piston pin", old.surroundings.piston_pin, new.surroundings.piston_pin),
        celsius("cylinder wall", before.given.cylinder_wall, after.given.cylinder_wall),
    ]
}

/// Widest throttle of a duty, %.
fn open(duty: &Duty) -> f64 {
    duty.steps().iter().map(|step| step.throttle * 100.0).fold(0.0, f64::max)
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
