//! The whole path from bytes to report.

use std::sync::Arc;

use nalgebra::Vector3;

use crate::Error;
use crate::engine::{Cylinder, PressureTrace, SliderCrank};
use crate::field::FieldError;
use crate::heat::HeatError;
use crate::job::{Assumption, Job, JobError, Pressures, PrintPose, Scenario, resolve};
use crate::load::LoadBasis;
use crate::mesh::{LengthUnit, Mended, Mesh, bodies, fitting_units};
use crate::part::{Frame, GivenBore, GivenGroove, GivenPart, GivenPiston, GivenRod, Part, Rod, find_part};
use crate::piston::check_piston;
use crate::print::PrintSettings;
use crate::report::{FacetValues, Parts, Report, build};
use crate::sensitivities::{AtDuty, sensitivities};
use crate::stress::EyeFamily;
use crate::threads::{both, map_in_order};
use crate::verdict::{
    Assessment, End, FieldRequest, Loading, Raise, RodCuts, RodField, RodFieldFindings, RodModel, Stressing,
    Temperatures, WarmRod, assess, assess_again, facet_use, founding, highest_speed, highest_temperature, joint_pull,
    named, raised, stretch, warmth,
};

/// A job with the texts of the files it names; `core` reads no files itself.
#[derive(Debug, Clone, Copy)]
pub struct Question<'a> {
    /// The job.
    pub job: &'a Job,
    /// Text of `material.card_file`.
    pub card_text: Option<&'a str>,
    /// Text of `engine.gas.pressure_table`.
    pub pressure_text: Option<&'a str>,
}

/// Stages of the questions, each question going through some of them in order.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Stage {
    /// Reading the mesh.
    Reading,
    /// Recognising the part.
    Recognising,
    /// Cutting sections.
    Cutting,
    /// Assessing life at the duty.
    Assessing,
    /// Solving the stress field.
    Field,
    /// Looking for the highest speed.
    Speed,
    /// Looking at changes of the input.
    Changes,
    /// Scoring build directions.
    Directions,
    /// Measuring walls.
    Walls,
}

impl Stage {
    /// Stages that one question goes through, at most.
    pub const COUNT: usize = 7;

    /// What is going on, in words.
    pub fn words(self) -> &'static str {
        match self {
            Self::Reading => "reading the mesh",
            Self::Recognising => "recognising the part",
            Self::Cutting => "cutting sections",
            Self::Assessing => "assessing life",
            Self::Field => "solving the stress field",
            Self::Speed => "looking for the highest speed",
            Self::Changes => "looking at changes of the input",
            Self::Directions => "scoring build directions",
            Self::Walls => "measuring walls",
        }
    }
}

/// Told of each stage as it begins; may stop the work.
pub trait Watcher {
    /// Whether to go on.
    fn enter(&mut self, stage: Stage) -> bool;

    /// Told of each case of the stress field as its solution begins, and then of each closer look at a place, `number` of
    /// `of`; whether to go on.
    fn solving(&mut self, _case: &str, _number: usize, _of: usize) -> bool {
        true
    }
}

/// Watches nothing.
impl Watcher for () {
    fn enter(&mut self, _: Stage) -> bool {
        true
    }
}

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
    /// Cuts and measures the rod as the job prints it; `angles` are those of the contact study.
    pub fn model(&self, angles: &[f64]) -> RodModel {
        self.printed(&RodCuts::new(&self.rod, self.scenario.stations), angles)
    }

    /// Measures the rod as the job prints it from its cuts.
    fn printed(&self, cuts: &RodCuts, angles: &[f64]) -> RodModel {
        let model = RodModel::new(&self.rod, cuts, self.print, self.scenario.material().density, angles);
        self.raise.on(model)
    }

    /// Forces of every throttle in the duty.
    pub fn loading(&self, model: &RodModel) -> Result<Loading, Error> {
        self.loading_by(model, &self.pressures()?)
    }

    fn pressures(&self) -> Result<Pressures, JobError> {
        Pressures::of(&self.scenario, &self.cylinder)
    }

    fn loading_by(&self, model: &RodModel, pressures: &Pressures) -> Result<Loading, Error> {
        let Self { scenario, crank, cylinder, .. } = self;
        let engine = &scenario.engine;
        let area = cylinder.piston_area_m2();
        let force = |trace: &PressureTrace| -> Vec<f64> {
            trace.samples_pa().iter().map(|p| (p - engine.crankcase_pressure) * area).collect()
        };
        // A duty has at least one step, and all its throttles the same crank angles.
        let first = pressures.traces.first().map(|(_, trace)| {
            LoadBasis::new(&model.mass, crank, engine.reciprocating_mass, &force(trace), trace.step_rad())
        });
        let bases = match first {
            None => Vec::new(),
            Some(first) => map_in_order(pressures.traces.len(), |number| match &pressures.traces[number] {
                _ if number == 0 => first.clone(),
                (_, trace) => first.under(&model.mass, crank, &force(trace), trace.step_rad()),
            }),
        };
        let turns_per_cycle = engine.cycle.exchange.strokes().revolutions();
        Ok(Loading::new(scenario.duty.clone(), pressures.of_step.clone(), bases, turns_per_cycle)?)
    }
}

/// A rod as printed, with its loads.
pub(crate) struct Printed {
    pub(crate) model: Arc<RodModel>,
    pub(crate) loading: Loading,
}

impl Printed {
    pub(crate) fn new(prepared: &PreparedRod, cuts: &RodCuts) -> Result<Self, Error> {
        Self::driven(prepared, cuts, &prepared.pressures()?)
    }

    /// With pressures worked out already.
    fn driven(prepared: &PreparedRod, cuts: &RodCuts, pressures: &Pressures) -> Result<Self, Error> {
        let model = Arc::new(prepared.printed(cuts, EyeFamily::embedded().angles()));
        let loading = prepared.loading_by(&model, pressures)?;
        Ok(Self { model, loading })
    }

    /// A rod measured already, with the loads of another job.
    pub(crate) fn loaded(model: Arc<RodModel>, prepared: &PreparedRod) -> Result<Self, Error> {
        let loading = prepared.loading(&model)?;
        Ok(Self { model, loading })
    }

    pub(crate) fn warm<'a>(&'a self, prepared: &'a PreparedRod) -> Result<WarmRod<'a>, HeatError> {
        WarmRod::new(&self.model, &self.loading, &prepared.scenario, prepared.crank.throw_m())
    }

    /// Strength and life; of the places that governed in an earlier assessment, or of all.
    pub(crate) fn assessed(&self, prepared: &PreparedRod, earlier: Option<&Assessment>) -> Result<Assessment, Error> {
        let warm_rod = self.warm(prepared)?;
        let temperatures = warm_rod.at(1.0)?.temperatures;
        let stressing = Stressing::new(&self.model, &self.loading, &prepared.scenario, &temperatures);
        let scenario = &prepared.scenario;
        Ok(match earlier {
            Some(earlier) => assess_again(&stressing, scenario, &temperatures, earlier),
            None => assess(&stressing, scenario, &temperatures),
        })
    }
}

/// A part in its frame, and what was done to its mesh: read once, it answers many questions.
#[derive(Debug, Clone)]
pub struct LoadedPart<T = Part> {
    /// What was mended in the mesh.
    pub mended: Mended,
    /// Unit of the mesh.
    pub unit: LengthUnit,
    /// Extent of the whole file, m.
    pub size: Vector3<f64>,
    /// The part.
    pub part: T,
}

impl<T> LoadedPart<T> {
    /// The same file with the part seen as what it is.
    pub(crate) fn with<U>(&self, part: U) -> LoadedPart<U> {
        LoadedPart { mended: self.mended, unit: self.unit, size: self.size, part }
    }
}

/// Where a question takes its part from.
#[derive(Debug, Clone, Copy)]
pub enum PartSource<'a> {
    /// Bytes of an STL file.
    Stl(&'a [u8]),
    /// A part that was read before; what the job says of recognition no longer counts.
    Loaded(&'a LoadedPart),
}

impl<'a> From<&'a [u8]> for PartSource<'a> {
    fn from(stl: &'a [u8]) -> Self {
        Self::Stl(stl)
    }
}

impl<'a> From<&'a Vec<u8>> for PartSource<'a> {
    fn from(stl: &'a Vec<u8>) -> Self {
        Self::Stl(stl)
    }
}

impl<'a> From<&'a LoadedPart> for PartSource<'a> {
    fn from(part: &'a LoadedPart) -> Self {
        Self::Loaded(part)
    }
}

impl PartSource<'_> {
    /// Reads the part unless that was done before.
    pub(crate) fn part(self, job: &Job, watcher: &mut dyn Watcher) -> Result<LoadedPart, Error> {
        match self {
            Self::Stl(stl) => load(stl, job, watcher),
            Self::Loaded(part) => Ok(part.clone()),
        }
    }
}

/// Reads the mesh and finds the part in it; of the job only what it says of the part counts.
pub fn load(stl: &[u8], job: &Job, watcher: &mut dyn Watcher) -> Result<LoadedPart, Error> {
    stage(watcher, Stage::Reading)?;
    let unit = job.part.mesh_unit.unwrap_or_default();
    let (mesh, mended) = Mesh::from_stl(stl, unit)?;
    let (low, high) = mesh.bounds();
    let size = high - low;
    if job.part.mesh_unit.is_none() {
        let length_mm = mesh.length() * 1e3;
        let fitting = fitting_units(length_mm);
        if !fitting.contains(&unit) {
            return Err(Error::LikelyUnit { length_mm, fitting });
        }
    }
    let bodies = bodies(mesh)?;
    stage(watcher, Stage::Recognising)?;
    let body = job.part.body.map(|number| usize::try_from(number).unwrap_or(usize::MAX));
    let given = GivenPart { kind: job.part.kind, body, rod: given(job)?, piston: given_piston(job)? };
    Ok(LoadedPart { mended, unit, size, part: find_part(bodies, &given)? })
}

/// Print settings in the frame of a part.
pub(crate) fn posed_in(pose: PrintPose, print: PrintSettings, frame: &Frame) -> Result<PrintSettings, Error> {
    let build = match pose {
        PrintPose::Named(pose) => pose.in_part_frame(),
        PrintPose::Mesh(direction) => frame.direction(&direction),
    };
    Ok(PrintSettings { build, ..print }.checked()?)
}

/// Joins one number for every facet with a part's surface in the file.
pub(crate) fn facet_values(mesh: &Mesh, frame: &Frame, values: Vec<Option<f64>>) -> FacetValues {
    FacetValues {
        points_mm: mesh.points().iter().map(|point| frame.to_file_mm(point)).collect(),
        facets: mesh.facets().to_vec(),
        values,
    }
}

/// Reads the mesh and recognises the rod; a piston is refused.
pub fn prepare<'a>(
    source: impl Into<PartSource<'a>>,
    question: &Question<'_>,
    watcher: &mut dyn Watcher,
) -> Result<PreparedRod, Error> {
    let resolved = resolve(question.job, question.card_text, question.pressure_text)?;
    let loaded = source.into().part(question.job, watcher)?;
    match &loaded.part {
        Part::Rod(rod) => prepared(resolved, loaded.with(rod.clone())),
        Part::Piston(_) => Err(Error::RodsOnly),
    }
}

/// The job of a recognised rod, in its frame.
pub(crate) fn prepare_rod(loaded: LoadedPart<Arc<Rod>>, question: &Question<'_>) -> Result<PreparedRod, Error> {
    prepared(resolve(question.job, question.card_text, question.pressure_text)?, loaded)
}

/// Joins a job and a rod.
pub(crate) fn prepared(
    (mut scenario, assumptions): (Scenario, Vec<Assumption>),
    loaded: LoadedPart<Arc<Rod>>,
) -> Result<PreparedRod, Error> {
    let LoadedPart { mended, unit, size, part: rod } = loaded;
    let print = posed_in(scenario.pose, scenario.print, &rod.frame)?;
    scenario.beside_rod(&rod)?;
    let engine = &scenario.engine;
    let crank = SliderCrank::new(engine.throw, rod.center_distance, engine.pin_offset).map_err(JobError::from)?;
    let cylinder = Cylinder::new(crank, engine.bore, engine.compression_ratio).map_err(JobError::from)?;
    let raise = Raise::default();
    Ok(PreparedRod { scenario, assumptions, mended, unit, size, rod, print, raise, crank, cylinder })
}

/// A round surface by hand; `keys` is how the keys of its centre and diameter begin.
fn given_bore(
    center_mm: Option<[f64; 3]>,
    diameter_mm: Option<f64>,
    keys: &str,
) -> Result<Option<GivenBore>, JobError> {
    let missing = |what, key| Err(JobError::Missing { what, key: format!("{keys}{key}") });
    match (center_mm, diameter_mm) {
        (None, None) => Ok(None),
        (Some(center), Some(diameter)) => {
            Ok(Some(GivenBore { center: center.map(|c| c * 1e-3).into(), diameter: diameter * 1e-3 }))
        }
        (Some(_), None) => missing("the diameter that goes with a centre given by hand", "diameter_mm"),
        (None, Some(_)) => missing("the centre that goes with a diameter given by hand", "center_mm"),
    }
}

/// What the job says of a piston by hand.
fn given_piston(job: &Job) -> Result<GivenPiston, JobError> {
    let table = &job.part.piston;
    Ok(GivenPiston {
        crown_direction: table.crown_direction.map(Vector3::from),
        body: given_bore(table.center_mm, table.diameter_mm, "part.piston.")?,
        pin_bore: given_bore(table.pin_center_mm, table.pin_diameter_mm, "part.piston.pin_")?,
        pin_axis: job.part.pin_axis.map(Vector3::from),
        grooves: table.grooves.as_ref().map(|list| {
            let groove = |g: &crate::job::GrooveTable| GivenGroove {
                below_crown: g.below_crown_mm * 1e-3,
                width: g.width_mm * 1e-3,
                depth: g.depth_mm * 1e-3,
            };
            list.iter().map(groove).collect()
        }),
    })
}

/// What the job says of the bores by hand.
fn given(job: &Job) -> Result<GivenRod, JobError> {
    let (small, big) = (&job.part.small_end, &job.part.big_end);
    let small_end = given_bore(small.center_mm, small.diameter_mm, "part.small_end.")?;
    let big_end = given_bore(big.center_mm, big.diameter_mm, "part.big_end.")?;
    Ok(GivenRod { small_end, big_end, pin_axis: job.part.pin_axis.map(Vector3::from) })
}

/// What a check is asked beside the answer itself.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct CheckRequest {
    /// For every facet its stress over what is borne there for the wanted life; of a piston by the stress field alone.
    pub facets: bool,
    /// The stress field. Where it finds less margin than the sections do, it counts.
    pub field: Option<FieldRequest>,
}

/// The answer to a check.
#[derive(Debug, Clone, PartialEq)]
pub struct Checked {
    /// The report.
    pub report: Report,
    /// One number for every facet, if they were asked for.
    pub facets: Option<FacetValues>,
}

/// Checks a connecting rod or a piston, whichever the mesh is.
pub fn check<'a>(
    source: impl Into<PartSource<'a>>,
    question: &Question<'_>,
    watcher: &mut dyn Watcher,
) -> Result<Report, Error> {
    check_with(source, question, &CheckRequest::default(), watcher).map(|checked| checked.report)
}

/// Checks a connecting rod or a piston, with more than the report.
pub fn check_with<'a>(
    source: impl Into<PartSource<'a>>,
    question: &Question<'_>,
    request: &CheckRequest,
    watcher: &mut dyn Watcher,
) -> Result<Checked, Error> {
    let loaded = source.into().part(question.job, watcher)?;
    match &loaded.part {
        Part::Rod(rod) => {
            let prepared = prepare_rod(loaded.with(rod.clone()), question)?;
            answered(&prepared, question, request, watcher, |_, _, _, _| ()).map(|(checked, ())| checked)
        }
        Part::Piston(piston) => check_piston(loaded.with(piston.clone()), question, request, watcher),
    }
}

/// The stress field of a connecting rod alone.
#[derive(Debug, Clone)]
pub struct SolvedField {
    /// The rod and its job.
    pub prepared: PreparedRod,
    /// The rod solved for its unit cases.
    pub field: RodField,
    /// Where it finds the most harm over the duty.
    pub findings: RodFieldFindings,
}

/// Solves the stress field of a connecting rod and looks where it finds the most harm.
pub fn stress_field<'a>(
    source: impl Into<PartSource<'a>>,
    question: &Question<'_>,
    request: FieldRequest,
    watcher: &mut dyn Watcher,
) -> Result<SolvedField, Error> {
    let prepared = prepare(source, question, watcher)?;
    stage(watcher, Stage::Cutting)?;
    let printed = Printed::new(&prepared, &RodCuts::new(&prepared.rod, prepared.scenario.stations))?;
    let temperatures = printed.warm(&prepared)?.at(1.0)?.temperatures;
    let stressing = Stressing::new(&printed.model, &printed.loading, &prepared.scenario, &temperatures);
    let (field, findings) = solved_field(&prepared, &stressing, &temperatures, (request, false), watcher)?;
    Ok(SolvedField { prepared, field, findings })
}

/// Checks a connecting rod and gives for every facet its stress over what is borne there for the wanted life too.
pub fn check_facets<'a>(
    source: impl Into<PartSource<'a>>,
    question: &Question<'_>,
    watcher: &mut dyn Watcher,
) -> Result<(Report, FacetValues), Error> {
    let request = CheckRequest { facets: true, field: None };
    match check_with(source, question, &request, watcher)? {
        Checked { report, facets: Some(facets) } => Ok((report, facets)),
        Checked { facets: None, .. } => Err(Error::RodsOnly),
    }
}

/// The same of every facet of a prepared rod, without the rest of a check.
pub(crate) fn facet_demand(prepared: &PreparedRod) -> Result<Vec<f64>, Error> {
    let scenario = &prepared.scenario;
    let printed = Printed::new(prepared, &RodCuts::new(&prepared.rod, scenario.stations))?;
    let temperatures = printed.warm(prepared)?.at(1.0)?.temperatures;
    let stressing = Stressing::new(&printed.model, &printed.loading, scenario, &temperatures);
    Ok(facet_use(&prepared.rod, &stressing, scenario, &temperatures))
}

/// The report, and whatever else is wanted of the duty.
pub(crate) fn answered<T>(
    prepared: &PreparedRod,
    question: &Question<'_>,
    request: &CheckRequest,
    watcher: &mut dyn Watcher,
    more: impl FnOnce(&PreparedRod, &Stressing<'_>, &Temperatures, &Report) -> T,
) -> Result<(Checked, T), Error> {
    stage(watcher, Stage::Cutting)?;
    let scenario = &prepared.scenario;
    let (cuts, pressures) = both(|| RodCuts::new(&prepared.rod, scenario.stations), || prepared.pressures());
    let pressures = pressures?;
    let mut printed = Printed::driven(prepared, &cuts, &pressures)?;
    stage(watcher, Stage::Assessing)?;
    let temperatures = printed.warm(prepared)?.at(1.0)?.temperatures;
    let mut prepared = prepared.clone();
    let mut field = None;
    if let Some(wanted) = request.field {
        let stressing = Stressing::new(&printed.model, &printed.loading, scenario, &temperatures);
        let (_, findings) = solved_field(&prepared, &stressing, &temperatures, (wanted, request.facets), watcher)?;
        let plain = assess(&stressing, scenario, &temperatures);
        let (raise, model) = raised(&findings, &printed.model, &printed.loading, scenario, &temperatures);
        field = Some((plain, findings));
        prepared.raise = raise;
        printed.model = model;
    }
    let prepared = &prepared;
    let Printed { model, loading } = &printed;
    let warm_rod = printed.warm(prepared)?;
    let stressing = Stressing::new(model, loading, scenario, &temperatures);
    let mut assessment = assess(&stressing, scenario, &temperatures);
    stage(watcher, Stage::Speed)?;
    let warmth = warmth(&warm_rod)?;
    let peak_pressure = pressures.peak();
    stage(watcher, Stage::Changes)?;
    let heat = Some(warmth.margin()).filter(|heat| heat.margin < assessment.governing().margin);
    let duty =
        AtDuty { prepared, cuts: &cuts, printed: &printed, stressing: &stressing, assessment: &assessment, heat };
    let ((limit, sensitivities), (founding, hottest)) = both(
        || both(|| highest_speed(&stressing, scenario, &warm_rod, &assessment), || sensitivities(&duty)),
        || {
            both(
                || founding(&stressing, scenario, &temperatures, &assessment),
                || highest_temperature(&stressing, scenario, &assessment),
            )
        },
    );
    let limit = limit?.below(warmth.speed_to_runaway);
    assessment.add(warmth.margin());
    let title = question.job.title.clone();
    let stretch = stretch(&stressing, scenario, &temperatures).map_err(JobError::from)?;
    let (plain, field) = field.unzip();
    if let (Some(plain), Some(findings)) = (plain, &field) {
        assessment = named(assessment, plain, findings);
        assessment.add(warmth.margin());
    }
    let report = build(&Parts {
        title,
        prepared,
        model,
        loading,
        assessment: &assessment,
        founding: &founding,
        limit,
        warmth: &warmth,
        temperatures: &temperatures,
        peak_pressure,
        sensitivities: &sensitivities,
        highest_temperature: hottest,
        stretch: &stretch,
        joint_pulls: [End::Small, End::Big].map(|end| joint_pull(&stressing, end)),
        field: field.as_ref(),
    });
    let facets = request.facets.then(|| {
        let painted = field.and_then(|findings| findings.facets).unwrap_or_else(|| {
            facet_use(&prepared.rod, &stressing, scenario, &temperatures).into_iter().map(Some).collect()
        });
        facet_values(&prepared.rod.mesh, &prepared.rod.frame, painted)
    });
    let more = more(prepared, &stressing, &temperatures, &report);
    Ok((Checked { report, facets }, more))
}

/// Solves the stress field of a rod over its duty.
fn solved_field(
    prepared: &PreparedRod,
    stressing: &Stressing<'_>,
    temperatures: &Temperatures,
    (request, facets): (FieldRequest, bool),
    watcher: &mut dyn Watcher,
) -> Result<(RodField, RodFieldFindings), Error> {
    if !cfg!(feature = "field") {
        return Err(FieldError::LeftOut.into());
    }
    stage(watcher, Stage::Field)?;
    let mut solving = |case: &str, number: usize, of: usize| watcher.solving(case, number, of);
    let field = RodField::new(prepared, stressing.model, temperatures, request, &mut solving)?;
    let findings = field.findings(stressing, &prepared.scenario, temperatures, facets, &mut solving)?;
    Ok((field, findings))
}

pub(crate) fn stage(watcher: &mut dyn Watcher, stage: Stage) -> Result<(), Error> {
    if watcher.enter(stage) { Ok(()) } else { Err(Error::Cancelled) }
}
