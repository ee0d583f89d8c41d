use std::sync::Arc;

use nalgebra::Vector3;

use super::found::{FoundPlace, found};
use super::holds::{Pin, pins, supported};
use crate::Error;
use crate::engine::{Cylinder, SliderCrank};
use crate::field::Support;
use crate::job::{Assumption, JobError, Origin, PlacesScenario, RUNS, Scenario, resolve, resolve_places};
use crate::kind::{LoadedPart, Question, posed_in};
use crate::mesh::Mended;
use crate::part::AnyPart;
use crate::print::PrintSettings;
use crate::units::LengthUnit;

/// A part of any kind with everything known before its stress field is solved.
#[derive(Debug, Clone)]
pub(crate) struct PreparedAny {
    /// The job in SI units.
    pub(crate) scenario: Scenario,
    /// What it says of places, holds and loads.
    pub(crate) given: PlacesScenario,
    /// What both rest on.
    pub(crate) assumptions: Vec<Assumption>,
    pub(crate) mended: Mended,
    pub(crate) unit: LengthUnit,
    /// Extent of the whole file, m.
    pub(crate) size: Vector3<f64>,
    pub(crate) part: Arc<AnyPart>,
    /// Print settings in its frame, which is that of the file.
    pub(crate) print: PrintSettings,
    pub(crate) cylinder: Cylinder,
    /// Its places, by number.
    pub(crate) found: Arc<[FoundPlace]>,
    /// Bores that a pin presses.
    pub(crate) pins: Vec<Pin>,
    /// What else holds it.
    pub(crate) supports: Vec<Support>,
}

/// Length of a rod over its stroke (common practice, no source): of the engine only its motion is told from it.
const USUAL_ROD: f64 = 1.8;

/// Keys that say nothing of such a part.
const OF_OTHERS: [&str; 6] =
    [RUNS, "radial_clearance_mm", "piston_pin_c", "crank_pin_c", "end_fixity_in_plane", "end_fixity_across"];

impl PreparedAny {
    /// Joins a job and a part; `file` is what the part was read from.
    pub(crate) fn new(part: Arc<AnyPart>, file: &LoadedPart, question: &Question<'_>) -> Result<Self, Error> {
        let job = question.job;
        let (mut scenario, mut assumptions) = resolve(job, question.card_text, question.pressure_text)?;
        let (given, more) = resolve_places(job)?;
        assumptions.retain(|entry| !OF_OTHERS.contains(&entry.key.as_str()));
        assumptions.extend(more);
        let print = posed_in(scenario.pose, scenario.print, &part.frame)?;
        let found: Arc<[FoundPlace]> = found(&part, &given.places)?.into();
        let pins = pins(&given, &found)?;
        let supports = supported(&part.mesh, &given, &found, &pins).map_err(JobError::from)?;
        for place in found.iter() {
            let told = format!("place {}", place.name);
            assumptions.push(Assumption::number(&told, place.area * 1e6, "mm²", Origin::Mesh));
        }
        let engine = &scenario.engine;
        let rod = USUAL_ROD * 2.0 * engine.throw;
        let crank = SliderCrank::new(engine.throw, rod, engine.pin_offset).map_err(JobError::from)?;
        let cylinder = Cylinder::new(crank, engine.bore, engine.compression_ratio).map_err(JobError::from)?;
        let LoadedPart { mended, unit, size, .. } = file.clone();
        scenario.bond(&part.mesh, &print);
        Ok(Self { scenario, given, assumptions, mended, unit, size, part, print, cylinder, found, pins, supports })
    }

    /// The same part printed otherwise.
    pub(crate) fn posed(&self, print: PrintSettings) -> Self {
        let mut posed = Self { print, ..self.clone() };
        posed.scenario.bond(&posed.part.mesh, &print);
        posed
    }

    /// Whether the part stays where it is: held by more than pins.
    pub(crate) fn held(&self) -> bool {
        !self.supports.is_empty()
    }
}
