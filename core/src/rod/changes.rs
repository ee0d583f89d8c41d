//! What changes of the input do to life and margin.

use std::sync::Arc;

use super::assess::assess_again;
use super::assessment::Assessment;
use super::loaded::LoadedRod;
use super::place::{End, RodMargin, RodStrength};
use super::prepared::PreparedRod;
use super::printed::Printed;
use super::stressing::Stressing;
use super::warmth::{self_heating, settles_beyond};
use crate::Error;
use crate::job::PartTemperature;
use crate::kind::{ChangeOutcome, ChangeWords, LESS_PRESSURE, PrintChange, leaned, less_pressure, moved, ranked};
use crate::material::MoistureState;
use crate::numeric::map_in_order;
use crate::part::ThicknessFactors;
use crate::print::PrintSettings;
use crate::report::{ChangedInput, ChangedValue, SensitivityReport};
use crate::units::{MM, ZERO_C};

/// One change of the input.
#[derive(Debug, Clone, Copy)]
enum Change {
    ThicknessFactors,
    EyeWall(End),
    Speed,
    PistonMass,
    PeakPressure,
    Surroundings,
    Clearance,
    Lean,
    Infill,
    Drying,
    Print(PrintChange),
    Preload,
}

/// How much thicker a rod or the wall of an eye is tried.
const THICKER: f64 = 1.1;

impl Change {
    /// Those that make sense for a rod.
    fn all(rod: &LoadedRod) -> Vec<Self> {
        let prepared = &rod.prepared;
        let scenario = &prepared.scenario;
        let mut list = vec![Self::ThicknessFactors, Self::Speed, Self::PistonMass, Self::Surroundings, Self::Lean];
        let measured = |end: &End| rod.printed.model.eyes[*end as usize].is_some();
        list.extend([End::Small, End::Big].into_iter().filter(measured).map(Self::EyeWall));
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
        if scenario.bond.is_some() {
            list.extend(PrintChange::ALL.map(Self::Print));
        }
        if scenario.caps.iter().any(Option::is_some) {
            list.push(Self::Preload);
        }
        list
    }

    fn words(self) -> ChangeWords {
        match self {
            Self::ThicknessFactors => (ChangedInput::Thickness, "rod thickness along the pins", "10 % more"),
            Self::EyeWall(End::Small) => (ChangedInput::SmallEndWall, "wall of the small end", "10 % more"),
            Self::EyeWall(End::Big) => (ChangedInput::BigEndWall, "wall of the big end", "10 % more"),
            Self::Speed => (ChangedInput::Speed, "speed", "5 % less"),
            Self::PistonMass => (ChangedInput::ReciprocatingMass, "reciprocating mass", "10 % less"),
            Self::PeakPressure => (ChangedInput::PeakPressure, "peak cylinder pressure", "10 % less"),
            Self::Surroundings => (ChangedInput::Temperature, "temperature of air and pins", "10 K less"),
            Self::Clearance => (ChangedInput::PinClearance, "radial clearance of the pins", "half"),
            Self::Lean => (ChangedInput::BuildDirection, "build direction", "leaned by 10° toward the rod"),
            Self::Infill => (ChangedInput::Infill, "infill", "100 %"),
            Self::Drying => (ChangedInput::Moisture, "water in the plastic", "kept dry"),
            Self::Print(change) => change.words(),
            Self::Preload => (ChangedInput::Preload, "preload of the cap's studs", "10 % more"),
        }
    }

    /// Values that it moves, in the units of the edges.
    fn values(self, rod: &LoadedRod, after: &PreparedRod) -> Vec<ChangedValue> {
        let before = &rod.prepared;
        let (old, new) = (&before.scenario, &after.scenario);
        match self {
            Self::ThicknessFactors => thicker(rod),
            Self::EyeWall(end) => {
                let wall = rod.printed.model.eyes[end as usize].map(|eye| eye.ligament * MM);
                wall.map(|wall| moved(self.words().1, wall, THICKER * wall, "mm")).into_iter().collect()
            }
            Self::Speed => vec![moved("speed", old.duty.highest_rpm(), new.duty.highest_rpm(), "rpm")],
            Self::PistonMass => {
                let grams = |mass: f64| mass * 1e3;
                let (from, to) = (old.engine.reciprocating_mass, new.engine.reciprocating_mass);
                vec![moved("reciprocating mass", grams(from), grams(to), "g")]
            }
            Self::PeakPressure => less_pressure(new.engine.peak_pressure).into_iter().collect(),
            Self::Surroundings if old.part_temperature == PartTemperature::Given => {
                vec![moved("part temperature", old.temperature - ZERO_C, new.temperature - ZERO_C, "°C")]
            }
            Self::Surroundings => {
                let (old, new) = (&old.surroundings, &new.surroundings);
                let celsius = |name, from: f64, to: f64| moved(name, from - ZERO_C, to - ZERO_C, "°C");
                vec![
                    celsius("air", old.air, new.air),
                    celsius("piston pin", old.piston_pin, new.piston_pin),
                    celsius("crank pin", old.crank_pin, new.crank_pin),
                ]
            }
            Self::Clearance => {
                let ends = [
                    ("radial clearance of the piston pin", old.fits.small_end, new.fits.small_end),
                    ("radial clearance in the big end", old.fits.big_end, new.fits.big_end),
                ];
                let loose = ends.into_iter().filter(|(_, from, _)| *from > 0.0);
                loose.map(|(name, from, to)| moved(name, from * MM, to * MM, "mm")).collect()
            }
            Self::Infill => vec![moved("infill", before.print.infill * 100.0, after.print.infill * 100.0, "%")],
            Self::Print(change) => change.values(old, new),
            Self::Preload => {
                let caps = old.caps.iter().flatten().zip(new.caps.iter().flatten());
                caps.map(|(from, to)| moved("preload of each stud", from.preload, to.preload, "N")).collect()
            }
            Self::Lean | Self::Drying => Vec::new(),
        }
    }

    /// The prepared rod with the change made, but for one of thickness.
    fn made(self, prepared: &PreparedRod) -> Result<PreparedRod, Error> {
        let mut changed = prepared.clone();
        let scenario = &mut changed.scenario;
        match self {
            // Cuts and rings are thickened, not the mesh.
            Self::ThicknessFactors | Self::EyeWall(_) => {}
            Self::Speed => scenario.duty = scenario.duty.at_speed_factor(0.95).map_err(crate::job::JobError::from)?,
            Self::PistonMass => scenario.engine.reciprocating_mass *= 0.9,
            Self::PeakPressure => {
                let open = scenario.engine.pressure(&prepared.cylinder, 1.0)?.peak().pressure_pa;
                scenario.engine.peak_pressure = Some(LESS_PRESSURE * open);
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
            Self::Lean => {
                return Ok(changed.posed(PrintSettings { build: leaned(&prepared.print.build), ..prepared.print }));
            }
            Self::Infill => return Ok(changed.posed(PrintSettings { infill: 1.0, ..prepared.print })),
            Self::Print(change) => {
                change.make(scenario);
                return Ok(changed.posed(prepared.print));
            }
            Self::Drying => scenario.moisture = MoistureState::Dry,
            Self::Preload => scenario.caps.iter_mut().flatten().for_each(|cap| cap.preload *= 1.1),
        }
        Ok(changed)
    }
}

/// Eyes whose thicknesses differ by less are told as one, m.
const ALIKE: f64 = 5e-5;

/// Thickness of both eyes along the pins, as one where they are alike.
fn thicker(rod: &LoadedRod) -> Vec<ChangedValue> {
    let of = |name, thickness: f64| moved(name, thickness * MM, thickness * THICKER * MM, "mm");
    match rod.printed.model.eyes.map(|eye| eye.map(|eye| eye.thickness)) {
        [Some(small), Some(big)] if (small - big).abs() >= ALIKE => {
            vec![of("thickness along the pins: small end", small), of("big end", big)]
        }
        [Some(one), _] | [None, Some(one)] => vec![of("rod thickness along the pins", one)],
        [None, None] => Vec::new(),
    }
}

/// The rod at its duty, against which changes are held.
#[derive(Clone, Copy)]
pub(crate) struct AtDuty<'a> {
    pub(crate) loaded: &'a LoadedRod,
    pub(crate) stressing: &'a Stressing<'a>,
    pub(crate) assessment: &'a Assessment,
    /// What heat leaves of the margin, where that governs.
    pub(crate) heat: Option<RodMargin>,
}

impl AtDuty<'_> {
    /// Strength with a change made. The pieces that governed at the duty are looked at again, and all of them where the
    /// change is one of shape, infill or direction, which may move what governs.
    fn with(&self, change: Change, changed: &PreparedRod) -> Result<RodStrength, Error> {
        let slower;
        let mut changed = changed;
        let printed = match change {
            Change::ThicknessFactors => {
                let thicker =
                    self.loaded.cuts.with_thickness(&self.loaded.prepared.rod, ThicknessFactors::even(THICKER));
                Some(Printed::new(changed, &thicker)?)
            }
            Change::EyeWall(end) => {
                let (now, density) = (&self.loaded.printed.model, changed.scenario.material().density);
                let Some(model) = now.with_eye_wall(&changed.rod, end, THICKER, density) else {
                    return Ok(self.assessment.strength.clone());
                };
                slower = changed.with_longer_layers(model.mass.mass() / now.mass.mass());
                changed = &slower;
                Some(Printed::loaded(Arc::new(model), changed)?)
            }
            Change::Lean | Change::Infill => Some(Printed::new(changed, &self.loaded.cuts)?),
            Change::PistonMass | Change::PeakPressure => {
                Some(Printed::loaded(self.loaded.printed.model.clone(), changed)?)
            }
            Change::Speed => {
                let loading = self.loaded.printed.loading.at(changed.scenario.duty.clone());
                Some(Printed { model: self.loaded.printed.model.clone(), loading })
            }
            // The forces stay as they are.
            Change::Surroundings | Change::Clearance | Change::Drying | Change::Print(_) | Change::Preload => None,
        };
        let mut assessment = if let Some(printed) = &printed {
            let reshaped =
                matches!(change, Change::ThicknessFactors | Change::EyeWall(_) | Change::Lean | Change::Infill);
            printed.assessed(changed, (!reshaped).then_some(self.assessment))?
        } else {
            let temperatures = self.loaded.printed.warm(changed)?.at(1.0)?.temperatures;
            let stressing = self.stressing.under(&changed.scenario, &temperatures);
            assess_again(&stressing, &changed.scenario, &temperatures, self.assessment)
        };
        let warm = printed.as_ref().unwrap_or(&self.loaded.printed).warm(changed)?;
        if !settles_beyond(&warm, 1.0, assessment.governing().margin)? {
            assessment.add(self_heating(&warm, 1.0)?);
        }
        Ok(assessment.strength)
    }
}

/// Every change that makes sense and can be made, largest effect first.
pub(crate) fn changes(duty: &AtDuty<'_>) -> Vec<SensitivityReport> {
    let changes = Change::all(duty.loaded);
    let outcome =
        |strength: &RodStrength| ChangeOutcome { life: strength.life_at(0.1), margin: strength.margin(), soft: None };
    let mut at_duty = duty.assessment.clone();
    duty.heat.into_iter().for_each(|heat| at_duty.add(heat));
    let now = outcome(&at_duty.strength);
    let found = map_in_order(changes.len(), |k| {
        let changed = changes[k].made(&duty.loaded.prepared).ok()?;
        let then = duty.with(changes[k], &changed).ok()?;
        Some(now.changed(changes[k].words(), changes[k].values(duty.loaded, &changed), outcome(&then)))
    });
    ranked(found.into_iter().flatten().collect(), now)
}
