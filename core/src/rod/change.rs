//! One change of the input of a rod, and the rod with it prepared.

use super::loaded::LoadedRod;
use super::place::End;
use super::prepared::PreparedRod;
use crate::Error;
use crate::job::PartTemperature;
use crate::kind::{ChangeWords, LESS_PRESSURE, PrintChange, leaned, less_pressure, moved};
use crate::material::MoistureState;
use crate::part::Rod;
use crate::print::PrintSettings;
use crate::report::{ChangedInput, ChangedValue};
use crate::units::{MM, ZERO_C};

/// One change of the input.
#[derive(Debug, Clone, Copy)]
pub(super) enum Change {
    /// All of it along its pins, so many times.
    Thickness(f64),
    /// The wall of one eye, so many times.
    EyeWall(End, f64),
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

/// How much thicker a rod or the wall of an eye is tried at first.
const THICKER: f64 = 1.1;

impl Change {
    /// Those that make sense for a rod.
    pub(super) fn all(rod: &LoadedRod) -> Vec<Self> {
        let prepared = &rod.prepared;
        let scenario = &prepared.scenario;
        let mut list = vec![Self::Thickness(THICKER), Self::Speed, Self::PistonMass, Self::Surroundings, Self::Lean];
        let measured = |end: &End| rod.printed.model.eyes[*end as usize].is_some();
        list.extend([End::Small, End::Big].into_iter().filter(measured).map(|end| Self::EyeWall(end, THICKER)));
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

    pub(super) fn words(self) -> ChangeWords {
        match self {
            Self::Thickness(_) => (ChangedInput::Thickness, "rod thickness along the pins", "10 % more"),
            Self::EyeWall(End::Small, _) => (ChangedInput::SmallEndWall, "wall of the small end", "10 % more"),
            Self::EyeWall(End::Big, _) => (ChangedInput::BigEndWall, "wall of the big end", "10 % more"),
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

    /// The size that it changes, m; none of what has no size.
    pub(super) fn size(self, rod: &LoadedRod) -> Option<f64> {
        match self {
            Self::Thickness(_) => depths(rod).into_iter().flatten().next(),
            Self::EyeWall(end, _) => rod.printed.model.eyes[end as usize].map(|eye| eye.ligament),
            _ => None,
        }
    }

    /// The same change of a size by another factor.
    pub(super) fn by(self, factor: f64) -> Self {
        match self {
            Self::Thickness(_) => Self::Thickness(factor),
            Self::EyeWall(end, _) => Self::EyeWall(end, factor),
            other => other,
        }
    }

    /// Values that it moves, in the units of the edges.
    pub(super) fn values(self, rod: &LoadedRod, after: &PreparedRod) -> Vec<ChangedValue> {
        let before = &rod.prepared;
        let (old, new) = (&before.scenario, &after.scenario);
        match self {
            Self::Thickness(factor) => thicker(rod, factor),
            Self::EyeWall(end, factor) => {
                let wall = rod.printed.model.eyes[end as usize].map(|eye| eye.ligament * MM);
                wall.map(|wall| moved(self.words().1, wall, factor * wall, "mm")).into_iter().collect()
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
    pub(super) fn made(self, prepared: &PreparedRod) -> Result<PreparedRod, Error> {
        let mut changed = prepared.clone();
        let scenario = &mut changed.scenario;
        match self {
            // Cuts and rings are thickened, not the mesh.
            Self::Thickness(_) | Self::EyeWall(..) => {}
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

/// Thickness of both eyes along the pins, from face to face, where their rings could be measured, m.
fn depths(rod: &LoadedRod) -> [Option<f64>; 2] {
    let Rod { mesh, small_end, big_end, .. } = &*rod.prepared.rod;
    let eyes = [small_end, big_end].into_iter().zip(&rod.printed.model.eyes);
    let mut depths = eyes.map(|(eye, ring)| {
        let reach = eye.radius() + ring.as_ref()?.ligament;
        let near = mesh.points().iter().filter(|p| (*p - eye.center).xy().norm_squared() <= reach * reach);
        let (low, high) = near.fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), p| (l.min(p.z), h.max(p.z)));
        (high > low).then_some(high - low)
    });
    [depths.next().flatten(), depths.next().flatten()]
}

/// Thickness of both eyes along the pins, as one where they are alike.
fn thicker(rod: &LoadedRod, factor: f64) -> Vec<ChangedValue> {
    let of = |name, thickness: f64| moved(name, thickness * MM, thickness * factor * MM, "mm");
    match depths(rod) {
        [Some(small), Some(big)] if (small - big).abs() >= ALIKE => {
            vec![of("thickness along the pins: small end", small), of("big end", big)]
        }
        [Some(one), _] | [None, Some(one)] => vec![of("rod thickness along the pins", one)],
        [None, None] => Vec::new(),
    }
}
