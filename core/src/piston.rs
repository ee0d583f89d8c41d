//! The whole path of a piston, from its recognised part to the report.

mod sensitivities;

use std::sync::Arc;

use self::sensitivities::sensitivities;
use crate::Error;
use crate::check::{CheckRequest, Checked, LoadedPart, Question, Stage, Watcher, facet_values, posed_in, stage};
use crate::engine::{Cylinder, GasTemperature, SliderCrank};
use crate::field::FieldError;
use crate::job::{
    Assumption, JobError, NamedPose, Origin, PartTemperature, PistonScenario, Pressures, PrintPose, Quantity, Scenario,
    resolve, resolve_piston,
};
use crate::load::PistonBasis;
use crate::part::{PartError, Piston};
use crate::print::PrintSettings;
use crate::report::{PistonParts, Report, SweepPoint, build_piston};
use crate::sweep::{SpeedRange, Swept};
use crate::threads::{both, map_in_order};
use crate::verdict::piston::{
    Fits, PistonAssessment, PistonCase, PistonField, PistonFieldFindings, PistonLoading, PistonModel, PistonRaise,
    ThrottleLoad, WarmPiston, assess_piston, named, piston_founding, piston_speed, raised,
};
use crate::verdict::{FieldRequest, SpeedLimit};

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
    /// The piston.
    pub piston: Arc<Piston>,
    /// Print settings in its frame.
    pub print: PrintSettings,
    /// The cylinder it runs in.
    pub cylinder: Cylinder,
    /// What a stress field adds to plates, rings and cuts; nothing until one was solved.
    pub raise: PistonRaise,
}

/// The job of a recognised piston, in its frame.
pub fn prepare_piston(piston: Arc<Piston>, question: &Question<'_>) -> Result<PreparedPiston, Error> {
    let job = question.job;
    let (mut scenario, mut assumptions) = resolve(job, question.card_text, question.pressure_text)?;
    let (given, more) = resolve_piston(job)?;
    // Fits of a rod's eyes and its column do not concern a piston.
    let of_rod = ["radial clearance of the piston pin", "radial clearance in the big end", "crank pin"];
    assumptions.retain(|entry| !of_rod.contains(&entry.name.as_str()) && !entry.name.starts_with("column length"));
    if job.print.build_direction.is_none() {
        scenario.pose = PrintPose::Named(NamedPose::USUAL_OF_PISTONS);
        for entry in assumptions.iter_mut().filter(|entry| entry.name == "build direction") {
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
    let raise = PistonRaise::default();
    Ok(PreparedPiston { scenario, given, assumptions, piston, print, cylinder, raise })
}

impl PreparedPiston {
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
        for (_, trace) in pressures.traces {
            let cycle = &engine.cycle;
            let temperature = GasTemperature::of(&trace, cylinder, &cycle.exchange, cycle.charge_temperature_k)
                .map_err(JobError::from)?;
            let net: Vec<f64> = trace.samples_pa().iter().map(|p| p - engine.crankcase_pressure).collect();
            let (crank, area) = (cylinder.crank(), cylinder.piston_area_m2());
            let basis = PistonBasis::new(model.mass.clone(), crank, net, area, trace.step_rad());
            throttles.push(ThrottleLoad { basis, trace, temperature });
        }
        let turns_per_cycle = engine.cycle.exchange.strokes().revolutions();
        Ok(PistonLoading {
            duty: scenario.duty.clone(),
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

/// Checks a recognised piston.
pub(crate) fn check_piston(
    loaded: LoadedPart<Arc<Piston>>,
    question: &Question<'_>,
    request: &CheckRequest,
    watcher: &mut dyn Watcher,
) -> Result<Checked, Error> {
    answered_piston(loaded, question, request, watcher, |_, _, _, _| ()).map(|(checked, ())| checked)
}

/// The stress field of a piston alone.
#[derive(Debug, Clone)]
pub struct SolvedPistonField {
    /// The piston and its job.
    pub prepared: PreparedPiston,
    /// Where it finds the most harm over the duty.
    pub findings: PistonFieldFindings,
}

/// Solves the stress field of a recognised piston and looks where it finds the most harm.
pub fn piston_stress_field(
    piston: Arc<Piston>,
    question: &Question<'_>,
    request: FieldRequest,
    watcher: &mut dyn Watcher,
) -> Result<SolvedPistonField, Error> {
    let prepared = prepare_piston(piston, question)?;
    stage(watcher, Stage::Cutting)?;
    let model = prepared.model()?;
    let loading = prepared.loading(&model)?;
    let card = &prepared.scenario.card;
    let warm = WarmPiston::new(&model, &loading, &prepared.scenario, &prepared.given, card, 1.0)?;
    let case = prepared.case(&model, &loading, &warm, 1.0);
    let sections = assess_piston(&case, card)?;
    let findings = solved_field(&prepared, &case, &sections, (request, false), watcher)?;
    Ok(SolvedPistonField { prepared, findings })
}

/// Solves the stress field of a piston over its duty.
fn solved_field(
    prepared: &PreparedPiston,
    case: &PistonCase<'_>,
    sections: &PistonAssessment,
    (request, facets): (FieldRequest, bool),
    watcher: &mut dyn Watcher,
) -> Result<PistonFieldFindings, Error> {
    if !cfg!(feature = "field") {
        return Err(FieldError::LeftOut.into());
    }
    stage(watcher, Stage::Field)?;
    let mut solving = |name: &str, number: usize, of: usize| watcher.solving(name, number, of);
    let field = PistonField::new(case, &prepared.piston, request, &mut solving)?;
    field.findings(case, sections, facets, &mut solving)
}

/// The report, and whatever else is wanted of the duty.
pub(crate) fn answered_piston<T>(
    loaded: LoadedPart<Arc<Piston>>,
    question: &Question<'_>,
    request: &CheckRequest,
    watcher: &mut dyn Watcher,
    more: impl FnOnce(&PreparedPiston, &PistonModel, &PistonLoading, &Report) -> T,
) -> Result<(Checked, T), Error> {
    if request.facets && request.field.is_none() {
        return Err(Error::PaintedByField);
    }
    let LoadedPart { mended, unit, size, part } = loaded;
    let mut prepared = prepare_piston(part, question)?;
    stage(watcher, Stage::Cutting)?;
    let model = prepared.model()?;
    let loading = prepared.loading(&model)?;
    stage(watcher, Stage::Assessing)?;
    let warm = WarmPiston::new(&model, &loading, &prepared.scenario, &prepared.given, &prepared.scenario.card, 1.0)?;
    let plain = assess_piston(&prepared.case(&model, &loading, &warm, 1.0), &prepared.scenario.card)?;
    let mut field = None;
    if let Some(wanted) = request.field {
        let case = prepared.case(&model, &loading, &warm, 1.0);
        let findings = solved_field(&prepared, &case, &plain, (wanted, request.facets), watcher)?;
        prepared.raise = raised(&findings, &case, &prepared.scenario.card)?;
        field = Some(findings);
    }
    let PreparedPiston { scenario, .. } = &prepared;
    let case = prepared.case(&model, &loading, &warm, 1.0);
    let mut assessment = if field.is_some() { assess_piston(&case, &scenario.card)? } else { plain.clone() };
    stage(watcher, Stage::Speed)?;
    let margin = assessment.strength.margin();
    let (limit, founding) = both(|| piston_speed(&case), || piston_founding(&case, margin));
    let limit: SpeedLimit = limit?;
    stage(watcher, Stage::Changes)?;
    let sensitivities = sensitivities(&prepared, &model, &assessment, &warm);
    if let Some(findings) = &field {
        assessment = named(assessment, plain, findings);
    }
    let report = build_piston(&PistonParts {
        title: question.job.title.clone(),
        prepared: &prepared,
        mended,
        unit,
        size,
        case: &case,
        assessment: &assessment,
        founding: &founding,
        limit,
        sensitivities: &sensitivities,
        field: field.as_ref(),
    });
    let more = more(&prepared, &model, &loading, &report);
    let painted = field.and_then(|findings| findings.facets);
    let facets = painted.map(|values| facet_values(&prepared.piston.mesh, &prepared.piston.frame, values));
    Ok((Checked { report, facets }, more))
}

/// Life, temperature and governing mode of a piston at many top speeds of the duty.
pub(crate) fn sweep_piston(
    piston: Arc<Piston>,
    question: &Question<'_>,
    range: &SpeedRange,
    watcher: &mut dyn Watcher,
) -> Result<Swept, Error> {
    let prepared = prepare_piston(piston, question)?;
    stage(watcher, Stage::Cutting)?;
    let model = prepared.model()?;
    let loading = prepared.loading(&model)?;
    stage(watcher, Stage::Assessing)?;
    let points = swept_piston(&prepared, &model, &loading, range)?;
    Ok(Swept::of(&prepared.scenario, points))
}

/// What many speeds do to a piston that is loaded already.
pub(crate) fn swept_piston(
    prepared: &PreparedPiston,
    model: &PistonModel,
    loading: &PistonLoading,
    range: &SpeedRange,
) -> Result<Vec<SweepPoint>, Error> {
    let PreparedPiston { scenario, given, .. } = prepared;
    let duty_rpm = scenario.duty.highest_rpm();
    let points = map_in_order(range.count, |number| {
        let rpm = range.at(number);
        let factor = rpm / duty_rpm;
        let warm = WarmPiston::new(model, loading, scenario, given, &scenario.card, factor)?;
        let case = prepared.case(model, loading, &warm, factor);
        let assessment = assess_piston(&case, &scenario.card)?;
        let governing = assessment.strength.governing();
        Ok(SweepPoint {
            rpm,
            life_b10_s: assessment.life_at(0.1),
            life_b50_s: assessment.life_at(0.5),
            peak_temperature_c: Some(assessment.hottest - 273.15),
            margin: assessment.strength.margin(),
            governing_mode: governing.mode,
            governing_place: governing.place.to_string(),
        })
    });
    points.into_iter().collect()
}
