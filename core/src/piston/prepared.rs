use std::sync::Arc;

use nalgebra::Vector3;

use super::assess::PistonCase;
use super::field::PistonRaise;
use super::limits::Fits;
use super::loading::{PistonLoading, ThrottleLoad};
use super::model::PistonModel;
use super::warm::WarmPiston;
use crate::Error;
use crate::engine::{Cylinder, GasTemperature, PressureTrace, SliderCrank};
use crate::job::{
    Assumption, BUILD_DIRECTION, CyclePressure, JobError, NamedPose, Origin, PartTemperature, PistonScenario,
    Pressures, PrintPose, Quantity, RUNS, Scenario, resolve, resolve_piston,
};
use crate::kind::{LoadedPart, Question, posed_in};
use crate::load::PistonBasis;
use crate::mesh::Mended;
use crate::part::{PartError, Piston};
use crate::print::PrintSettings;
use crate::units::LengthUnit;

/// A free crown wider than this share of the crown leaves no wall to hold it.
const WIDEST_PLATE: f64 = 0.99;

/// A piston with everything known before it is loaded.
#[derive(Debug, Clone)]
pub struct PreparedPiston {
    /// The job in SI units.
    pub scenario: Scenario,
    /// The piston's part of it.
    pub given: PistonScenario,
    /// What both rest on.
    pub assumptions: Vec<Assumption>,
    /// What was mended in the mesh.
    pub mended: Mended,
    /// Unit of the mesh.
    pub unit: LengthUnit,
    /// Extent of the whole file, m.
    pub size: Vector3<f64>,
    /// The piston.
    pub piston: Arc<Piston>,
    /// Print settings in its frame.
    pub print: PrintSettings,
    /// The cylinder it runs in.
    pub cylinder: Cylinder,
    /// What a stress field adds to plates, rings and cuts; nothing until one was solved.
    pub raise: PistonRaise,
}

impl PreparedPiston {
    /// Joins a job and a piston; `file` is what the piston was read from.
    pub fn new(piston: Arc<Piston>, file: &LoadedPart, question: &Question<'_>) -> Result<Self, Error> {
        let job = question.job;
        let (mut scenario, mut assumptions) = resolve(job, question.card_text, question.pressure_text)?;
        let (given, more) = resolve_piston(job)?;
        // Fits of a rod's eyes and its column do not concern a piston.
        let of_rod = [RUNS, "radial_clearance_mm", "crank_pin_c", "end_fixity_in_plane", "end_fixity_across"];
        assumptions.retain(|entry| !of_rod.contains(&entry.key.as_str()));
        if job.print.build_direction.is_none() {
            scenario.pose = PrintPose::Named(NamedPose::USUAL_OF_PISTONS);
            for entry in assumptions.iter_mut().filter(|entry| entry.key == BUILD_DIRECTION) {
                entry.value = Quantity::Word(NamedPose::USUAL_OF_PISTONS.word().into());
                entry.source = Origin::CommonPractice;
            }
        }
        assumptions.extend(more);
        if scenario.part_temperature == PartTemperature::Given {
            scenario.surroundings.air = scenario.surroundings.air.min(given.cylinder_wall);
        }
        let print = posed_in(scenario.pose, scenario.print, &piston.frame)?;
        scenario.beside_piston(&given, &piston)?;
        let engine = &scenario.engine;
        let crank = SliderCrank::new(engine.throw, given.rod_length, engine.pin_offset).map_err(JobError::from)?;
        let cylinder = Cylinder::new(crank, engine.bore, engine.compression_ratio).map_err(JobError::from)?;
        engine.tell_burn(&cylinder, &mut assumptions);
        let LoadedPart { mended, unit, size, .. } = file.clone();
        let raise = PistonRaise::default();
        scenario.bond(&piston.mesh, &print);
        Ok(Self { scenario, given, assumptions, mended, unit, size, piston, print, cylinder, raise })
    }

    /// The same piston printed otherwise.
    pub(crate) fn posed(&self, print: PrintSettings) -> Self {
        let mut posed = Self { print, ..self.clone() };
        posed.scenario.bond(&posed.piston.mesh, &print);
        posed
    }

    /// Cuts and measures the piston as the job prints it.
    pub fn model(&self) -> Result<PistonModel, Error> {
        let density = self.scenario.material().density;
        let refused = |reason: &str| PartError::NotAPiston {
            reason: reason.into(),
            found: format!("a skirt of {:.2} mm", self.piston.skirt.radius * 2e3),
        };
        let model = PistonModel::new(&self.piston, self.scenario.stations, self.print, density, &self.given);
        let model = model.ok_or_else(|| refused("it is solid: nothing is hollow below a crown, over the pin"))?;
        if let Some(given) = self.given.plate_radius.filter(|radius| *radius > WIDEST_PLATE * model.crown.radius) {
            return Err(JobError::wide_plate(given, model.crown.radius).into());
        }
        if model.plate_radius > WIDEST_PLATE * model.crown.radius {
            return Err(refused("no wall holds the edge of its crown").into());
        }
        Ok(model)
    }

    /// Forces and gas of every throttle in the duty.
    pub fn loading(&self, model: &PistonModel) -> Result<PistonLoading, Error> {
        let Self { scenario, cylinder, .. } = self;
        let engine = &scenario.engine;
        let pressures = Pressures::of(scenario, cylinder)?;
        let mut throttles = Vec::new();
        for CyclePressure { trace: pressing, mean, .. } in pressures.cycles {
            let (cycle, trace) = (&engine.cycle, PressureTrace::clone(&mean));
            let temperature = GasTemperature::of(&trace, cylinder, &cycle.exchange, cycle.charge_temperature_k)
                .map_err(JobError::from)?;
            let net: Vec<f64> = pressing.samples_pa().iter().map(|p| p - engine.crankcase_pressure).collect();
            let (crank, area) = (cylinder.crank(), cylinder.piston_area_m2());
            let basis = PistonBasis::new(model.mass.clone(), crank, net, area, trace.step_rad());
            throttles.push(ThrottleLoad { basis, trace, temperature });
        }
        let turns_per_cycle = engine.cycle.exchange.strokes().revolutions();
        Ok(PistonLoading {
            duty: pressures.duty,
            throttle_of_step: pressures.of_step,
            throttles,
            turns_per_cycle,
            cylinder: *cylinder,
        })
    }

    /// Diameters and what they run in.
    pub fn fits(&self) -> Fits {
        let piston = &self.piston;
        let top = piston.compression_height;
        let lower = piston.grooves.first().map_or(piston.skirt.to, |groove| groove.to);
        Fits {
            skirt: 2.0 * piston.skirt.radius,
            skirt_length: piston.skirt.to - piston.skirt.from,
            land: 2.0 * piston.collar.map_or(piston.land_radius(), |collar| collar.radius),
            land_height: f64::midpoint(top, lower),
            lip: piston.lip.map(|lip| (2.0 * lip.radius, f64::midpoint(lip.from, lip.to))),
            pin: 2.0 * piston.pin.radius,
            bore: self.scenario.engine.bore,
        }
    }

    /// Everything that a verdict at `factor` times the speeds of the duty looks at.
    pub fn case<'a>(
        &'a self,
        model: &'a PistonModel,
        loading: &'a PistonLoading,
        warm: &'a WarmPiston,
        factor: f64,
    ) -> PistonCase<'a> {
        let Self { scenario, given, .. } = self;
        let (fits, raise) = (self.fits(), self.raise);
        PistonCase { model, loading, scenario, piston: given, warm, fits, raise, factor }
    }
}
