use std::collections::BTreeSet;

use serde::{Deserialize, Serialize};

use super::trial::corrected;
use crate::Error;
use crate::engine::DutyStep;
use crate::job::{BuildDirection, Job, NamedPose, resolve};
use crate::kind::report::warnings;
use crate::kind::{LoadedPart, Question, Sizes, Trials, Watcher};
use crate::numeric::map_in_order;
use crate::part::ThicknessFactors;
use crate::report::{StudyReport, WarningReport};
use crate::study::{InputName, InputValue, Responses, StudyPlan, effects};
use crate::units::ZERO_C;
use crate::verdict::FieldRequest;

/// A study ready to run: its parts are read and cut once, and the sections of each raised to its stress field once a direction.
pub struct Study {
    plan: StudyPlan,
    parts: Vec<StudiedPart>,
    job: Job,
    card: Option<String>,
    pressure: Option<String>,
    /// The duty of the job and its top speed, rpm.
    duty: (Vec<DutyStep>, f64),
    /// What of the job is hardly meant, for any of the parts.
    warnings: Vec<WarningReport>,
}

/// A part of a study, in every direction it is printed in.
struct StudiedPart {
    directions: Vec<(Option<BuildDirection>, Answering)>,
}

/// What answers for a part printed in a direction, or why nothing does.
type Answering = Result<Box<dyn Trials>, String>;

/// One case.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct CaseResult {
    /// Its number, from 0.
    pub case: usize,
    /// In the order of the plan.
    pub inputs: Vec<InputValue>,
    /// What came of it, or why it gave no answer.
    pub outcome: Result<CaseNumbers, String>,
}

/// What a case came to.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct CaseNumbers {
    /// Mass as printed, g.
    pub mass_g: f64,
    /// Factor by which all stress could grow before one in ten fails within the wanted life.
    pub margin: f64,
    /// Running time that nine in ten reach, s.
    pub life_b10_s: f64,
    /// Running time that half reach, s.
    pub life_b50_s: f64,
    /// Highest temperature at which strength was taken, °C.
    pub peak_temperature_c: f64,
    /// What fails first: the mode whose own margin is least.
    pub governing_mode: String,
    /// Where.
    pub governing_place: String,
    /// The margin by a stress field of its own, of a case that was solved. All other numbers are by sections, corrected by the
    /// field of the mesh unless the plan asks sections alone.
    pub solved_margin: Option<f64>,
}

impl Study {
    /// Cuts every part once, and solves its stress field once for every direction of the plan unless that asks sections alone.
    /// `parts` are those of the plan's meshes, in their order.
    ///
    /// # Errors
    ///
    /// Where the job is incomplete, or the watcher stops the work.
    ///
    /// ```
    /// use layload_core::job::Job;
    /// use layload_core::study::StudyPlan;
    /// use layload_core::{Question, Study, load};
    ///
    /// # fn main() -> Result<(), Box<dyn std::error::Error>> {
    /// # let samples = concat!(env!("CARGO_MANIFEST_DIR"), "/../samples/");
    /// # let stl = std::fs::read(format!("{samples}plain_rod.stl"))?;
    /// # let job = Job::from_toml(&std::fs::read_to_string(format!("{samples}bench_single.toml"))?)?;
    /// # let question = Question { job: &job, card_text: None, pressure_text: None };
    /// let plan = StudyPlan::from_toml(
    ///     "job = \"job.toml\"\nmeshes = [\"rod.stl\"]\nquick = true\nsampling = \"matrix\"\n[[inputs]]\nname = \"rpm\"\nvalues = [4000.0, 6000.0]",
    /// )?;
    /// let parts = [load(&stl, &job, &mut ())?];
    /// let study = Study::new(plan, &parts, &question, &mut ())?;
    /// let results = study.run(&[0, 1]);
    /// let margin = |case: usize| results[case].outcome.as_ref().map(|numbers| numbers.margin);
    /// assert!(margin(0).unwrap() > margin(1).unwrap());
    /// # Ok(())
    /// # }
    /// ```
    pub fn new(
        plan: StudyPlan,
        parts: &[LoadedPart],
        question: &Question<'_>,
        watcher: &mut dyn Watcher,
    ) -> Result<Self, Error> {
        let (scenario, _) = resolve(question.job, question.card_text, question.pressure_text)?;
        let directions = directions(&plan);
        let mut trials = Vec::with_capacity(parts.len());
        for part in parts {
            let mut of_part = StudiedPart { directions: Vec::with_capacity(directions.len()) };
            for &direction in &directions {
                let mut job = question.job.clone();
                job.print.build_direction = direction.or(job.print.build_direction);
                let cut = part.part.clone().trials(part, scenario.stations);
                let made = raised(cut, part, (&Question { job: &job, ..*question }, plan.field()), watcher)?;
                of_part.directions.push((direction, made));
            }
            trials.push(of_part);
        }
        // A job that fits one of the parts only is asked again with every case, which says so.
        let prepared = parts.iter().filter_map(|part| part.part.clone().prepare(part, question).ok());
        let mut unusual: Vec<WarningReport> = prepared.flat_map(|part| warnings(part.scenario())).collect();
        let mut known = BTreeSet::new();
        unusual.retain(|warning| known.insert(warning.message.clone()));
        Ok(Self {
            parts: trials,
            warnings: unusual,
            job: question.job.clone(),
            card: question.card_text.map(String::from),
            pressure: question.pressure_text.map(String::from),
            duty: (scenario.duty.steps().to_vec(), scenario.duty.highest_rpm()),
            plan,
        })
    }

    /// The plan.
    pub fn plan(&self) -> &StudyPlan {
        &self.plan
    }

    /// What came of the cases, in order of their number; `None` where one gave no answer.
    pub fn effects(&self, cases: &[Option<Responses>]) -> StudyReport {
        StudyReport { warnings: self.warnings.clone(), ..effects(&self.plan, cases) }
    }

    /// Runs some cases, several at a time where the host has threads; results are in the order asked.
    pub fn run(&self, cases: &[usize]) -> Vec<CaseResult> {
        let mut results = map_in_order(cases.len(), |k| {
            let case = cases[k];
            let inputs = self.plan.case(case);
            let outcome = self.numbers(&inputs);
            CaseResult { case, inputs, outcome }
        });
        let Some(field) = self.plan.field() else { return results };
        // A field takes all threads for itself.
        for result in results.iter_mut().filter(|result| self.plan.solves(result.case)) {
            let Ok(numbers) = &mut result.outcome else { continue };
            let solved = self.asked(&result.inputs, |trials, question, sizes| {
                trials.solved(question, sizes, field, &mut ()).map_err(|error| error.to_string())
            });
            // Where its own field has no answer, the case keeps its corrected numbers alone.
            numbers.solved_margin = solved.ok().flatten().map(|trial| trial.margin);
        }
        results
    }

    fn numbers(&self, inputs: &[InputValue]) -> Result<CaseNumbers, String> {
        let trial = self.asked(inputs, |trials, question, sizes| {
            trials.assessed(question, sizes).map_err(|error| error.to_string())
        })?;
        Ok(CaseNumbers {
            mass_g: trial.mass * 1e3,
            margin: trial.margin,
            life_b10_s: trial.life_b10,
            life_b50_s: trial.life_b50,
            peak_temperature_c: trial.peak - ZERO_C,
            governing_mode: trial.mode.words().into(),
            governing_place: trial.place,
            solved_margin: None,
        })
    }

    /// What the part of a case answers for its job at its sizes.
    fn asked<T>(
        &self,
        inputs: &[InputValue],
        answer: impl FnOnce(&dyn Trials, &Question<'_>, &Sizes) -> Result<T, String>,
    ) -> Result<T, String> {
        let mut job = self.job.clone();
        let mut sizes = Sizes::default();
        let mut part = 0;
        let mut way = None;
        let mut card = self.card.as_deref();
        let named = self.plan.inputs.iter().zip(inputs);
        for (input, value) in named {
            match value {
                InputValue::Number(number) => self.set_number(input.name, *number, &mut job, &mut sizes),
                InputValue::Word(word) => match input.name {
                    InputName::Material => {
                        job.material.name = Some(word.clone());
                        job.material.card_file = None;
                        card = None;
                    }
                    InputName::BuildDirection => {
                        way = Some(direction(word));
                        job.print.build_direction = way;
                    }
                    _ => part = self.plan.meshes.iter().position(|mesh| mesh == word).unwrap_or(0),
                },
            }
        }
        let question = Question { job: &job, card_text: card, pressure_text: self.pressure.as_deref() };
        let of_way = |known: &&(Option<BuildDirection>, _)| known.0 == way;
        let Some((_, trials)) = self.parts[part].directions.iter().find(of_way) else {
            return Err("this direction is not of the plan".into());
        };
        let trials = trials.as_ref().map_err(String::clone)?;
        answer(&**trials, &question, &sizes)
    }

    fn set_number(&self, name: InputName, number: f64, job: &mut Job, sizes: &mut Sizes) {
        match name {
            InputName::Rpm => {
                let factor = number / self.duty.1;
                let steps = self.duty.0.iter().map(|step| DutyStep { rpm: step.rpm * factor, ..*step });
                job.duty.steps = Some(steps.collect());
            }
            InputName::WantedLifeH => job.duty.wanted_life_h = Some(number),
            InputName::ReciprocatingMassG => job.engine.reciprocating_mass_g = Some(number),
            InputName::CompressionRatio => job.engine.compression_ratio = Some(number),
            InputName::PeakPressureBar => job.engine.gas.peak_pressure_bar = Some(number),
            InputName::SmallEndClearanceMm => job.part.small_end.radial_clearance_mm = Some(number),
            InputName::BigEndClearanceMm => job.part.big_end.radial_clearance_mm = Some(number),
            InputName::CrankcaseAirC => job.surroundings.crankcase_air_c = Some(number),
            InputName::PistonPinC => job.surroundings.piston_pin_c = Some(number),
            InputName::CrankPinC => job.surroundings.crank_pin_c = Some(number),
            InputName::TemperatureC => job.material.temperature_c = Some(number),
            InputName::Walls => job.print.walls = Some(number.clamp(0.0, 1e6) as u32),
            InputName::InfillPercent => job.print.infill_percent = Some(number),
            InputName::BeadWidthMm => job.print.bead_width_mm = Some(number),
            InputName::LayerHeightMm => job.print.layer_height_mm = Some(number),
            InputName::ThicknessFactor => {
                let ThicknessFactors { small_end, shank, big_end } = &mut sizes.rod;
                for factor in [small_end, shank, big_end] {
                    *factor *= number;
                }
            }
            InputName::SmallEndFactor => sizes.rod.small_end *= number,
            InputName::ShankFactor => sizes.rod.shank *= number,
            InputName::BigEndFactor => sizes.rod.big_end *= number,
            InputName::CrownFactor => sizes.crown *= number,
            InputName::StrengthFactor => sizes.strength *= number,
            InputName::LifeFactor => sizes.life *= number,
            InputName::Material | InputName::BuildDirection | InputName::Mesh => {}
        }
    }
}

/// Directions that a plan prints its parts in; `None` is the job's own.
fn directions(plan: &StudyPlan) -> Vec<Option<BuildDirection>> {
    match plan.inputs.iter().find(|input| input.name == InputName::BuildDirection) {
        Some(input) => input.words.iter().map(|word| Some(direction(word))).collect(),
        None => vec![None],
    }
}

/// A part with its sections raised to its field where one is asked for. What keeps it from that is told with every case.
fn raised(
    mut trials: Box<dyn Trials>,
    file: &LoadedPart,
    (question, field): (&Question<'_>, Option<FieldRequest>),
    watcher: &mut dyn Watcher,
) -> Result<Answering, Error> {
    let Some(field) = field else { return Ok(Ok(trials)) };
    match corrected(&mut *trials, file, question, field, watcher) {
        Ok(_) => Ok(Ok(trials)),
        Err(Error::Cancelled) => Err(Error::Cancelled),
        Err(error) => Ok(Err(error.to_string())),
    }
}

/// A pose by name, or `x,y,z` of the mesh; what is neither fails as a direction without length, and is told so.
fn direction(word: &str) -> BuildDirection {
    match word {
        "flat" => BuildDirection::Named(NamedPose::Flat),
        "on-edge" => BuildDirection::Named(NamedPose::OnEdge),
        "upright" => BuildDirection::Named(NamedPose::Upright),
        other => {
            let numbers: Vec<f64> = other.split(',').filter_map(|word| word.trim().parse().ok()).collect();
            BuildDirection::Vector(numbers.try_into().unwrap_or([0.0; 3]))
        }
    }
}
