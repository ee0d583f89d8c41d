use std::sync::Arc;

use nalgebra::Vector3;

use super::field::Raise;
use super::loading::Loading;
use super::model::{RodCuts, RodModel};
use crate::Error;
use crate::engine::{Cylinder, PressureTrace, SliderCrank};
use crate::job::{Assumption, CyclePressure, JobError, Pressures, Scenario, resolve};
use crate::kind::{LoadedPart, Question, posed_in};
use crate::load::LoadBasis;
use crate::mesh::Mended;
use crate::numeric::map_in_order;
use crate::part::Rod;
use crate::print::PrintSettings;
use crate::units::LengthUnit;

/// A rod with everything known before it is loaded.
#[derive(Debug, Clone)]
pub struct PreparedRod {
    /// The job in SI units.
    pub scenario: Scenario,
    /// What it rests on so far.
    pub assumptions: Vec<Assumption>,
    /// What was mended in the mesh.
    pub mended: Mended,
    /// Unit of the mesh.
    pub unit: LengthUnit,
    /// Extent of the whole file, m.
    pub size: Vector3<f64>,
    /// The rod.
    pub rod: Arc<Rod>,
    /// Print settings in the frame of the rod.
    pub print: PrintSettings,
    /// What a stress field adds to the section model; nothing until one was solved.
    pub raise: Raise,
    /// The crank with this rod.
    pub crank: SliderCrank,
    /// The cylinder with this rod.
    pub cylinder: Cylinder,
}

impl PreparedRod {
    /// Joins a job and a rod; `file` is what the rod was read from.
    pub fn new(rod: Arc<Rod>, file: &LoadedPart, question: &Question<'_>) -> Result<Self, Error> {
        let (mut scenario, mut assumptions) = resolve(question.job, question.card_text, question.pressure_text)?;
        let print = posed_in(scenario.pose, scenario.print, &rod.frame)?;
        scenario.beside_rod(&rod)?;
        let engine = &scenario.engine;
        let crank = SliderCrank::new(engine.throw, rod.center_distance, engine.pin_offset).map_err(JobError::from)?;
        let cylinder = Cylinder::new(crank, engine.bore, engine.compression_ratio).map_err(JobError::from)?;
        engine.tell_burn(&cylinder, &mut assumptions);
        let LoadedPart { mended, unit, size, .. } = file.clone();
        let raise = Raise::default();
        scenario.bond(&rod.mesh, &print);
        Ok(Self { scenario, assumptions, mended, unit, size, rod, print, raise, crank, cylinder })
    }

    /// The same rod printed otherwise.
    pub(crate) fn posed(&self, print: PrintSettings) -> Self {
        let mut posed = Self { print, ..self.clone() };
        posed.scenario.bond(&posed.rod.mesh, &print);
        posed
    }

    /// The same rod with layers that each take so many times as long, as where their area is larger.
    pub(crate) fn with_longer_layers(&self, times: f64) -> Self {
        let mut longer = self.clone();
        if let Some(warmth) = &mut longer.scenario.warmth {
            warmth.together *= times;
        }
        let print = longer.print;
        longer.scenario.bond(&longer.rod.mesh, &print);
        longer
    }

    /// Cuts and measures the rod as the job prints it; `angles` are those of the contact study.
    pub fn model(&self, angles: &[f64]) -> RodModel {
        self.printed(&RodCuts::new(&self.rod, self.scenario.stations), angles)
    }

    /// Measures the rod as the job prints it from its cuts.
    pub(crate) fn printed(&self, cuts: &RodCuts, angles: &[f64]) -> RodModel {
        let model = RodModel::new(&self.rod, cuts, self.print, self.scenario.material().density, angles);
        self.raise.on(model)
    }

    /// Forces of every throttle in the duty.
    pub fn loading(&self, model: &RodModel) -> Result<Loading, Error> {
        self.loading_by(model, &self.pressures()?)
    }

    pub(crate) fn pressures(&self) -> Result<Pressures, JobError> {
        Pressures::of(&self.scenario, &self.cylinder)
    }

    pub(crate) fn loading_by(&self, model: &RodModel, pressures: &Pressures) -> Result<Loading, Error> {
        let Self { scenario, crank, cylinder, .. } = self;
        let engine = &scenario.engine;
        let area = cylinder.piston_area_m2();
        let force = |trace: &PressureTrace| -> Vec<f64> {
            trace.samples_pa().iter().map(|p| (p - engine.crankcase_pressure) * area).collect()
        };
        // A duty has at least one step, and all its throttles the same crank angles.
        let first = pressures.cycles.first().map(|CyclePressure { trace, .. }| {
            LoadBasis::new(&model.mass, crank, engine.reciprocating_mass, &force(trace), trace.step_rad())
        });
        let bases = match first {
            None => Vec::new(),
            Some(first) => map_in_order(pressures.cycles.len(), |number| match &pressures.cycles[number] {
                _ if number == 0 => first.clone(),
                CyclePressure { trace, .. } => first.under(&model.mass, crank, &force(trace), trace.step_rad()),
            }),
        };
        let turns_per_cycle = engine.cycle.exchange.strokes().revolutions();
        Ok(Loading::new(pressures.duty.clone(), pressures.of_step.clone(), bases, turns_per_cycle)?)
    }
}
