//! A kind of part that the program does not know: a plain lug with one bore and one face, carried by the traits of a kind alone,
//! through every question. Its law is a bar's: force over the area beside the bore.

use std::any::Any;
use std::f64::consts::PI;
use std::sync::{Arc, OnceLock};

use layload_core::bench::read_log;
use layload_core::drawing::{Side, Viewed};
use layload_core::engine::{Cylinder, SliderCrank};
use layload_core::field::FieldError;
use layload_core::job::{Job, JobError, NamedPose, Scenario, resolve, resolve_pace};
use layload_core::kind::report::{Common, life_of, temperature_from};
use layload_core::kind::{
    Answers, Assessed, Changes, Checkable, Kind, Loaded, Measures, Sizes, Trial, Trials, Walled, Warm, posed_in,
};
use layload_core::life::WeakestLink;
use layload_core::material::{Lay, LayerPlane, LayerStrength};
use layload_core::mesh::{Mended, Mesh};
use layload_core::orient::{Facing, Posed, Shape};
use layload_core::part::{Frame, PartKind};
use layload_core::print::PrintSettings;
use layload_core::report::{BoreReport, HeatReport, HottestReport, PartReport, Report, SweepPoint, Varied};
use layload_core::study::StudyPlan;
use layload_core::verdict::{FieldRequest, Mode, ModeMargin, NamedStrength, PartStrength, SpeedLimit, Uncertainty};
use layload_core::wall::Shells;
use layload_core::{
    CheckRequest, Error, LengthUnit, LoadedPart, LoggedRun, Question, Revision, SizeRequest, SpeedRange, State, Study,
    WallRequest, Watcher, check_with, compare, directions, learn, quick_look, record, size, sweep, walls,
};
use nalgebra::{Point3, Vector3};

use crate::bench_job::BENCH_JOB;
use crate::mesh::shapes::{Region, Solid};

/// Half the width of the lug and radius of its bore, m.
const OUTER: f64 = 12e-3;
const BORE: f64 = 5e-3;
const DEPTH: f64 = 10e-3;

#[derive(Debug)]
struct Lug {
    mesh: Mesh,
    frame: Frame,
}

/// The lug with a job, at a factor on its depth and on all speeds.
struct LugJob {
    lug: Arc<Lug>,
    file: LoadedPart,
    scenario: Scenario,
    print: PrintSettings,
    title: Option<String>,
    deeper: f64,
}

impl Lug {
    fn loaded() -> LoadedPart {
        let mesh = Solid::prism(&Region::annulus(OUTER, BORE, 0.0, 48), -0.5 * DEPTH, 0.5 * DEPTH).mesh().unwrap();
        let frame = Frame::new(Point3::origin(), Vector3::x(), Vector3::z()).unwrap();
        let (low, high) = mesh.bounds();
        let lug = Arc::new(Self { mesh, frame });
        LoadedPart { mended: Mended::default(), unit: LengthUnit::Millimetre, size: high - low, part: lug }
    }

    fn with(self: Arc<Self>, file: &LoadedPart, question: &Question<'_>, deeper: f64) -> Result<LugJob, Error> {
        let (scenario, _) = resolve(question.job, question.card_text, question.pressure_text)?;
        let print = posed_in(scenario.pose, scenario.print, &self.frame)?;
        let title = question.job.title.clone();
        Ok(LugJob { lug: self, file: file.clone(), scenario, print, title, deeper })
    }
}

impl Kind for Lug {
    fn kind(&self) -> PartKind {
        PartKind::Other
    }

    fn mesh(&self) -> &Mesh {
        &self.mesh
    }

    fn frame(&self) -> &Frame {
        &self.frame
    }

    fn bores(&self) -> Vec<BoreReport> {
        vec![BoreReport {
            role: "pivot".into(),
            diameter_mm: 2e3 * BORE,
            center_mm: [0.0; 3],
            axis: [0.0, 0.0, 1.0],
            depth_mm: 1e3 * DEPTH,
            arc_deg: 360.0,
            sagitta_mm: 0.0,
            seats: Vec::new(),
        }]
    }

    fn usual_pose(&self) -> NamedPose {
        NamedPose::Flat
    }

    fn sides(&self) -> [Viewed; 3] {
        let (x, y, z) = (Vector3::x(), Vector3::y(), Vector3::z());
        [(Side::AlongPins, x, y), (Side::AcrossPins, x, z), (Side::Along, -z, y)]
    }

    fn walled(&self) -> Walled<'_> {
        Walled {
            shells: Shells::Apart,
            whole_file: true,
            area_steps: Vec::new(),
            place: Box::new(|_, _, _| "the lug's wall".into()),
            notes: |_| vec!["A lug is all wall.".into()],
        }
    }

    fn regions(&self) -> &'static [&'static str] {
        &["pivot"]
    }

    fn varied(&self) -> &'static [Varied] {
        &[Varied::Whole]
    }

    fn measures(self: Arc<Self>, _: &LoadedPart, _: &Question<'_>) -> Result<Measures, Error> {
        Ok(Measures { thickness: Some([DEPTH; 3]), ..Measures::default() })
    }

    fn size_note(&self) -> &'static str {
        "A lug grows along its pin."
    }

    fn prepare(self: Arc<Self>, file: &LoadedPart, question: &Question<'_>) -> Result<Box<dyn Checkable>, Error> {
        Ok(Box::new(self.with(file, question, 1.0)?))
    }

    fn trials(self: Arc<Self>, file: &LoadedPart, _: usize) -> Box<dyn Trials> {
        Box::new(LugTrials { lug: self, file: file.clone(), shape: OnceLock::new() })
    }

    fn as_any(self: Arc<Self>) -> Arc<dyn Any + Send + Sync> {
        self
    }
}

impl LugJob {
    /// The mass that shakes it, on both sides of the bore.
    fn stress(&self, factor: f64) -> f64 {
        let top = self.scenario.duty.highest_rpm() * factor * PI / 30.0;
        let force = self.scenario.engine.reciprocating_mass * top * top * self.scenario.engine.throw;
        force / (2.0 * (OUTER - BORE) * DEPTH * self.deeper)
    }

    fn strength(&self, factor: f64, build: &Vector3<f64>) -> NamedStrength {
        let material = self.scenario.material();
        let pull = Vector3::x() * Vector3::x().transpose() * self.stress(factor);
        let used = LayerStrength::of(&material, Lay::Wall).use_of(&pull, &LayerPlane::new(*build)).utilisation;
        let mode = ModeMargin {
            mode: Mode::OverloadInLayerPlane,
            place: "beside the pivot".to_string(),
            margin: 0.9 / used,
            median_life: None,
            life_b10: None,
        };
        PartStrength {
            modes: vec![mode],
            links: Vec::new(),
            strength_scatter: 0.05,
            wanted_life: self.scenario.wanted_life,
        }
    }

    fn here(&self) -> NamedStrength {
        self.strength(1.0, &self.print.build)
    }

    fn plastic(&self) -> f64 {
        let volume = self.lug.mesh.mass_properties().volume;
        volume * self.deeper * self.scenario.card.density_kg_m3.value
    }

    fn cylinder(&self) -> Result<Cylinder, Error> {
        let engine = &self.scenario.engine;
        let crank = SliderCrank::new(engine.throw, 4.0 * engine.throw, engine.pin_offset).map_err(JobError::from)?;
        Ok(Cylinder::new(crank, engine.bore, engine.compression_ratio).map_err(JobError::from)?)
    }
}

impl Checkable for LugJob {
    fn scenario(&self) -> &Scenario {
        &self.scenario
    }

    fn print(&self) -> &PrintSettings {
        &self.print
    }

    fn load(&self) -> Result<Box<dyn Loaded + '_>, Error> {
        Ok(Box::new(Driven(self)))
    }
}

struct Driven<'a>(&'a LugJob);

impl Loaded for Driven<'_> {
    fn plastic(&self) -> f64 {
        self.0.plastic()
    }

    fn solve_field(&mut self, _: FieldRequest, _: bool, _: &mut dyn Watcher) -> Result<(), Error> {
        Err(FieldError::NotOfThisKind.into())
    }

    fn warm(&self) -> Result<Box<dyn Warm + '_>, Error> {
        Ok(Box::new(AtDuty(self.0)))
    }

    fn printed_along(
        &self,
        build: &Vector3<f64>,
        _: Option<FieldRequest>,
        _: &mut dyn Watcher,
    ) -> Result<NamedStrength, Error> {
        Ok(self.0.strength(1.0, build))
    }
}

struct AtDuty<'a>(&'a LugJob);

impl Warm for AtDuty<'_> {
    fn swept(&self, range: &SpeedRange) -> Result<Vec<SweepPoint>, Error> {
        let duty = self.0.scenario.duty.highest_rpm();
        let point = |number: usize| {
            let rpm = range.at(number);
            let strength = self.0.strength(rpm / duty, &self.0.print.build);
            SweepPoint {
                rpm,
                life_b10_s: strength.life_at(0.1),
                life_b50_s: strength.life_at(0.5),
                peak_temperature_c: None,
                margin: strength.margin(),
                governing_mode: strength.governing().mode,
                governing_place: strength.governing().place.clone(),
            }
        };
        Ok((0..range.count()).map(point).collect())
    }

    fn facing(&self) -> Option<Box<dyn Facing + '_>> {
        Some(Box::new(Turned(self.0)))
    }

    fn assess(&self) -> Result<Box<dyn Assessed + '_>, Error> {
        Ok(Box::new(Held(self.0)))
    }
}

struct Turned<'a>(&'a LugJob);

impl Facing for Turned<'_> {
    fn along(&self, build: &Vector3<f64>) -> NamedStrength {
        self.0.strength(1.0, build)
    }
}

struct Held<'a>(&'a LugJob);

impl Assessed for Held<'_> {
    fn highest_speed(&self) -> Result<SpeedLimit, Error> {
        // The stress goes with the square of the speed.
        Ok(SpeedLimit::UpTo(self.0.here().margin().sqrt()))
    }

    fn uncertainty(&self) -> Uncertainty {
        Uncertainty { influences: Vec::new(), memory_share: 1.0, deviation: 0.3 }
    }

    fn changes(&self) -> Changes {
        Changes::default()
    }

    fn report(&self, answers: Answers) -> Result<Report, Error> {
        let of = self.0;
        let strength = of.here();
        let lives = life_of(&strength.weakest_link(), answers.uncertainty.deviation);
        let celsius = of.scenario.temperature - 273.15;
        let cylinder = of.cylinder()?;
        let common = Common {
            answers: Answers { title: of.title.clone(), ..answers },
            scenario: &of.scenario,
            file: (of.file.mended, of.file.unit, of.file.size),
            solid: (of.lug.mesh.mass_properties().volume, of.plastic()),
            mesh_notes: Vec::new(),
            part: PartReport {
                kind: PartKind::Other,
                bores: of.lug.bores(),
                center_distance_mm: None,
                path: None,
                left_out: Vec::new(),
            },
            frame: &of.lug.frame,
            build: of.print.build,
            strength: &strength,
            life: strength.life_at(0.1),
            lives,
            center: &|_| Some([0.0, 1e3 * BORE, 0.0]),
            heat: HeatReport {
                from: temperature_from(of.scenario.part_temperature),
                taken_c: celsius,
                hottest: HottestReport {
                    place: "all of it".into(),
                    temperature_c: Some(celsius),
                    softening_c: of.scenario.card.softening() - 273.15,
                    runs_away: false,
                },
            },
            cylinder: (&cylinder, 1e5),
            stations: Vec::new(),
            assumptions: Vec::new(),
            notes: Vec::new(),
            field: false,
            unchecked: Vec::new(),
            effects: Vec::new(),
        };
        Ok(common.report())
    }

    fn facets(&self) -> Option<Vec<Option<f64>>> {
        None
    }
}

struct LugTrials {
    lug: Arc<Lug>,
    file: LoadedPart,
    shape: OnceLock<Shape>,
}

impl Trials for LugTrials {
    fn assessed(&self, question: &Question<'_>, sizes: &Sizes) -> Result<Trial, Error> {
        let of = self.lug.clone().with(&self.file, question, sizes.rod.shank)?;
        let strength = of.here();
        Ok(Trial {
            mass: of.plastic(),
            margin: strength.margin(),
            life_b10: strength.life_at(0.1),
            life_b50: strength.life_at(0.5),
            peak: of.scenario.temperature,
            mode: strength.governing().mode,
            place: strength.governing().place.clone(),
            link: WeakestLink::new(Vec::new(), strength.strength_scatter, strength.governing().margin, f64::INFINITY),
        })
    }

    fn posed(&self, question: &Question<'_>, _: &Sizes) -> Result<(PrintSettings, Posed), Error> {
        let of = self.lug.clone().with(&self.file, question, 1.0)?;
        let (pace, _) = resolve_pace(question.job)?;
        let shape = self.shape.get_or_init(|| Shape::new(&self.lug.mesh));
        Ok((of.print, shape.posed(&of.print.build, pace.overhang, of.print.layer_height)))
    }
}

fn job() -> Job {
    Job::from_toml(BENCH_JOB).unwrap()
}

fn question(job: &Job) -> Question<'_> {
    Question { job, card_text: None, pressure_text: None }
}

#[test]
fn a_third_kind_of_part_runs_through_every_question() {
    let (lug, job) = (Lug::loaded(), job());
    let ask = question(&job);
    let report = quick_look(&lug, &ask, &mut ()).unwrap();
    assert_eq!((report.part.kind, report.part.bores[0].role.as_str()), (PartKind::Other, "pivot"));
    assert!(
        report.rod.is_none() && report.piston.is_none() && report.verdict.state == State::NoFaultFound,
        "{}",
        report.verdict.margin
    );
    assert!(!report.cautions.is_empty());
    // No rod's or piston's word in what is told of it.
    let told = serde_json::to_string(&report).unwrap();
    for word in ["small_end", "shank", "crown", "rod_peak"] {
        assert!(!told.contains(word), "{word} in {told}");
    }
    assert_eq!(report.verdict.governing_place, "beside the pivot");
    let known = Mode::OverloadInLayerPlane;
    assert_eq!(report.verdict.governing_mode, known);

    let range = SpeedRange::new(4000.0, 6000.0, 3).unwrap();
    let swept = sweep(&lug, &ask, &range, None, &mut ()).unwrap();
    assert!((swept.sweep[1].margin / report.verdict.margin - 1.0).abs() < 1e-12);
    assert!(swept.sweep[0].margin > swept.sweep[2].margin);

    let turned = directions(&lug, &ask, 100, None, &mut ()).unwrap();
    // Across the layers it is weaker: standing on its edge toward x is not what is recommended.
    assert!(turned.named.upright.margin < turned.named.flat.margin);
    assert!(turned.recommended.direction.margin >= 0.9 * turned.named.flat.margin);

    let measured = walls(&lug, &ask, &WallRequest::default(), &mut ()).unwrap();
    let least = measured.report.least_thickness_mm.unwrap();
    assert!((least - 1e3 * (OUTER - BORE)).abs() < 0.1, "{least}");

    let request = SizeRequest {
        factors: (0.3, 1.5),
        varied: Vec::new(),
        materials: Vec::new(),
        directions: Vec::new(),
        walls: Vec::new(),
        field: None,
    };
    let sized = size(&lug, &ask, &request, &mut ()).unwrap();
    assert!(sized.reached && sized.candidates.iter().any(|candidate| candidate.varied == Some(Varied::Whole)));

    let same = Revision { source: (&lug).into(), question: ask };
    assert!(!compare(&same, &same, None, &mut ()).unwrap().changes.is_empty());
    let written = record(&lug, &ask, &CheckRequest::QUICK, &mut ()).unwrap();
    assert!(!written.directions.is_empty() && written.drawing.views.len() == 3);
    let painted = check_with(&lug, &ask, &CheckRequest { facets: true, field: None }, &mut ());
    assert!(matches!(painted, Err(Error::PaintedByField)));
}

#[test]
fn a_third_kind_of_part_is_studied_and_learned_of() {
    let (lug, job) = (Lug::loaded(), job());
    let plan = StudyPlan::from_toml(
        r#"
        job = "job.toml"
        meshes = ["lug.stl"]
        quick = true
        sampling = "matrix"
        [[inputs]]
        name = "thickness_factor"
        values = [1.0, 2.0]
        "#,
    )
    .unwrap();
    let study = Study::new(plan, std::slice::from_ref(&lug), &question(&job), &mut ()).unwrap();
    let results = study.run(&[0, 1]);
    let margins: Vec<f64> = results.iter().map(|result| result.outcome.as_ref().unwrap().margin).collect();
    assert!((margins[1] / margins[0] - 2.0).abs() < 1e-9, "{margins:?}");

    let text = r#"{"family":"lug","outcome":"survived","steps":[{"rpm":5000.0,"throttle":1.0,"seconds":3600.0}]}"#;
    let (runs, _) = read_log(&format!("{text}\n")).unwrap();
    let runs: Vec<LoggedRun<'_>> =
        runs.iter().map(|entry| LoggedRun { entry, part: &lug, question: question(&job) }).collect();
    let (learned, _) = learn(&lug, &question(&job), "lug", &runs, None, &mut ()).unwrap();
    assert_eq!((learned.runs, learned.failures), (1, 0));
}
