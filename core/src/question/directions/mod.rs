//! From a mesh and a job to the way it should lie.

use nalgebra::Vector3;

use super::load::PartSource;
use crate::Error;
use crate::job::{NamedPose, resolve_pace};
use crate::kind::{Loaded, Lying, Question, Stage, Watcher, stage};
use crate::numeric::{map_in_order, sort_few};
use crate::orient::{
    AS_STRONG, Choice, DirectionScore, Mirrors, Scorer, Shape, best_around, chosen, equal_area, mirrors, pareto,
};
use crate::part::Frame;
use crate::print::PrintSettings;
use crate::report::{CAUTIONS, DirectionReport, DirectionsReport, NamedDirections, Recommended, SCHEMA_VERSION};
use crate::verdict::{Basis, FieldRequest, NamedStrength, State};

mod words;

/// Directions scored unless said otherwise.
pub const USUAL_DIRECTIONS: usize = 1000;

/// Fewest and most directions.
pub const DIRECTION_RANGE: (usize, usize) = (20, 100_000);

/// The three ways a rod can lie, as its frame has them.
const NAMED: [NamedPose; 3] = [NamedPose::Flat, NamedPose::OnEdge, NamedPose::Upright];

/// Scores build directions of a part and recommends one.
///
/// Directions are scored by sections. Where a stress field is asked for it is solved for the best direction by sections and
/// for the three named poses, and of these the answer recommends one.
///
/// # Errors
///
/// Where the mesh is no closed part of a known kind, the job is incomplete or does not belong to it, or the watcher stops the
/// work. Where `count` is out of 20 to 100 000, or the kind of part has no quick way to score one.
///
/// ```
/// use layload_core::job::Job;
/// use layload_core::{Question, directions};
///
/// # fn main() -> Result<(), Box<dyn std::error::Error>> {
/// # let samples = concat!(env!("CARGO_MANIFEST_DIR"), "/../samples/");
/// # let stl = std::fs::read(format!("{samples}plain_rod.stl"))?;
/// # let job = Job::from_toml(&std::fs::read_to_string(format!("{samples}bench_single.toml"))?)?;
/// # let question = Question { job: &job, card_text: None, pressure_text: None };
/// let answer = directions(&stl, &question, 50, None, &mut ())?;
/// println!("{}", answer.recommended.reason);
/// assert!(answer.recommended.direction.stands);
/// # Ok(())
/// # }
/// ```
pub fn directions<'a>(
    source: impl Into<PartSource<'a>>,
    question: &Question<'_>,
    count: usize,
    field: Option<FieldRequest>,
    watcher: &mut dyn Watcher,
) -> Result<DirectionsReport, Error> {
    let (low, high) = DIRECTION_RANGE;
    if !(low..=high).contains(&count) {
        return Err(Error::DirectionCount { count, low, high });
    }
    let loaded = source.into().part(question.job, watcher)?;
    let part = &loaded.part;
    let prepared = part.clone().prepare(&loaded, question)?;
    let (pace, assumptions) = resolve_pace(question.job)?;
    stage(watcher, Stage::Cutting)?;
    let mut driven = prepared.load()?;
    let alone = part.by_field_alone();
    if alone {
        // There are no sections to score by: stresses of the job's own direction do.
        driven.solve_field(field.ok_or(Error::FieldOnly)?, false, watcher)?;
    }
    stage(watcher, Stage::Assessing)?;
    let warm = driven.warm()?;
    let spots = warm.facing().ok_or(Error::RodsOnly)?;
    let (mesh, frame, print, scenario) = (part.mesh(), part.frame(), prepared.print(), prepared.scenario());
    let shape = Shape::new(mesh);
    let (low, high) = mesh.bounds();
    // Loads of a part of any kind need not mirror themselves as it does.
    let mirrors = if alone { Mirrors::default() } else { mirrors(&shape, f64::midpoint(low.z, high.z)) };
    let plastic = driven.plastic() / scenario.card.density_kg_m3.value;
    let bores = part.bores().iter().map(|bore| frame.direction(&bore.axis.into()).normalize()).collect();
    let scorer = Scorer { spots: &*spots, shape: &shape, print: *print, pace, plastic, bores };
    stage(watcher, Stage::Directions)?;
    let mut judged = Scored::new(&*driven, frame, Candidates::new(&scorer, count, mirrors))?;
    if let Some(wanted) = field {
        judged.solve(&*driven, wanted, watcher)?;
    }
    let direction = judged.report(judged.choice.index);
    let told = |k: usize| judged.told(k);
    let [flat, on_edge, upright] = judged.named.map(told);
    let named = NamedDirections { flat, on_edge, upright };
    let reason = judged.chosen(&named, scenario.wanted_life, part.lying()).reason();
    let directions = (0..judged.scores.len()).map(told).collect();
    Ok(DirectionsReport {
        schema_version: SCHEMA_VERSION.into(),
        program_version: env!("CARGO_PKG_VERSION").into(),
        title: question.job.title.clone(),
        recommended: Recommended { direction, reason },
        named,
        directions,
        assumptions,
        notes: scenario.warned(notes(print, (alone, mirrors), (field.is_some(), spots.everywhere()))),
        cautions: CAUTIONS.iter().map(|&text| text.into()).collect(),
    })
}

/// Candidates with the choice among them.
struct Scored<'a> {
    frame: &'a Frame,
    scores: Vec<DirectionScore>,
    /// The first so many lie as named or on a face of the part's convex hull.
    faces: usize,
    /// Which may be recommended.
    able: Vec<bool>,
    /// Numbers of the named poses.
    named: [usize; 3],
    /// Full checks of those that were made, by sections.
    full: Vec<Option<NamedStrength>>,
    /// Those that the stress field was solved for.
    solved: Vec<Option<NamedStrength>>,
    /// Best compromises, which the choice was made from: by one kind of number, of the field where it was solved.
    compromises: Vec<bool>,
    choice: Choice,
}

impl<'a> Scored<'a> {
    fn new(driven: &dyn Loaded, frame: &'a Frame, candidates: Candidates) -> Result<Self, Error> {
        let Candidates { mut scores, faces } = candidates;
        // Best by the quick scores, with the named ones: these are checked in full, as infill, mass and heat follow the
        // direction.
        let able = competing(&scores, faces);
        let quick = pareto(&scores, &able);
        let named = NAMED.map(|pose| scores.iter().position(|score| score.build == pose.in_part_frame()).unwrap_or(0));
        let short: Vec<usize> = (0..scores.len()).filter(|k| quick[*k] || named.contains(k)).collect();
        let checks = map_in_order(short.len(), |k| driven.printed_along(&scores[short[k]].build, None, &mut ()));
        let mut full: Vec<Option<NamedStrength>> = vec![None; scores.len()];
        for (&k, strength) in short.iter().zip(checks) {
            let strength = strength?;
            scores[k].margin = strength.margin();
            full[k] = Some(strength);
        }
        let in_question: Vec<bool> = (0..scores.len()).map(|k| able[k] && full[k].is_some()).collect();
        let compromises = pareto(&scores, &in_question);
        let Some(choice) = chosen(&scores, &compromises) else {
            return Err(Error::DirectionCount { count: 0, low: DIRECTION_RANGE.0, high: DIRECTION_RANGE.1 });
        };
        let solved = vec![None; scores.len()];
        Ok(Self { frame, scores, faces, able, named, full, solved, compromises, choice })
    }

    /// Solves the stress field for the named poses and for the best compromises by sections, and chooses among these.
    fn solve(&mut self, driven: &dyn Loaded, wanted: FieldRequest, watcher: &mut dyn Watcher) -> Result<(), Error> {
        let mut by_margin: Vec<usize> = (0..self.scores.len()).filter(|&k| self.compromises[k]).collect();
        sort_few(&mut by_margin, |&a, &b| self.scores[b].margin.total_cmp(&self.scores[a].margin).then(a.cmp(&b)));
        by_margin.truncate(SOLVED_BESIDE);
        let mut wanted_of: Vec<usize> = self.named.into_iter().chain([self.choice.index]).chain(by_margin).collect();
        wanted_of.sort_unstable();
        wanted_of.dedup();
        for k in wanted_of {
            let strength = driven.printed_along(&self.scores[k].build, Some(wanted), watcher)?;
            self.scores[k].margin = strength.margin();
            self.solved[k] = Some(strength);
        }
        // Numbers of the field and of sections are not set against each other.
        let in_question: Vec<bool> = self.able.iter().zip(&self.solved).map(|(&able, s)| able && s.is_some()).collect();
        self.compromises = pareto(&self.scores, &in_question);
        if let Some(choice) = chosen(&self.scores, &self.compromises) {
            self.choice = choice;
        }
        Ok(())
    }

    fn report(&self, k: usize) -> DirectionReport {
        match &self.solved[k] {
            Some(strength) => {
                described(self.frame, &self.scores[k], self.compromises[k], (Some(strength), Basis::CHECKED))
            }
            None => self.by_sections(k),
        }
    }

    fn by_sections(&self, k: usize) -> DirectionReport {
        described(self.frame, &self.scores[k], self.compromises[k], (self.full[k].as_ref(), Basis::SECTIONS))
    }

    /// The same, for a pose on a face with why it is not the recommended one.
    fn told(&self, k: usize) -> DirectionReport {
        let (own, best) = (&self.scores[k], &self.scores[self.choice.index]);
        let opposite = (own.build + best.build).norm() < 1e-9 && self.compromises[k];
        let report = self.report(k);
        // Beside numbers of sections the recommended one has its own by sections.
        let recommended =
            if report.solved { self.report(self.choice.index) } else { self.by_sections(self.choice.index) };
        let not_recommended = (k < self.faces && k != self.choice.index && !opposite).then(|| {
            let fault = words::fault(&own.posed).map(|fault| format!("left out: {fault}"));
            fault.unwrap_or_else(|| words::worse(&report, &recommended))
        });
        DirectionReport { not_recommended, ..report }
    }

    fn chosen<'b>(&'b self, named: &'b NamedDirections, wanted_life: f64, lying: Lying) -> words::Chosen<'b> {
        let Self { scores, compromises, choice, .. } = self;
        words::Chosen { scores, compromises, choice: *choice, named, wanted_life, lying }
    }
}

/// Directions to choose from.
struct Candidates {
    scores: Vec<DirectionScore>,
    /// The first so many lie as named or on a face of the part's convex hull.
    faces: usize,
}

impl Candidates {
    /// The named ones, those in which the part comes to rest, others over the sphere, and those near the strongest; mirror
    /// images left out.
    fn new(scorer: &Scorer<'_>, count: usize, mirrors: Mirrors) -> Self {
        let cosine = libm::cos(SNAP);
        let near = |builds: &[Vector3<f64>], build: &Vector3<f64>| builds.iter().any(|other| other.dot(build) > cosine);
        let named = NAMED.iter().map(|pose| pose.in_part_frame()).flat_map(|build| [build, -build]);
        let mut builds: Vec<Vector3<f64>> = named.filter(|build| mirrors.keeps(build)).collect();
        for rest in scorer.shape.resting() {
            let rest = mirrors.representative(&rest);
            if !near(&builds, &rest) {
                builds.push(rest);
            }
        }
        let faces = builds.len();
        let everywhere = scorer.spots.everywhere();
        let sphere = equal_area(if everywhere { count } else { 0 }).into_iter().filter(|build| mirrors.keeps(build));
        let others: Vec<Vector3<f64>> = sphere.filter(|build| !near(&builds, build)).collect();
        builds.extend(others);
        let mut scores = scorer.all(&builds);
        let strongest = scores.iter().reduce(|best, score| if score.margin > best.margin { score } else { best });
        if let Some(strongest) = strongest.filter(|_| everywhere).cloned() {
            let around = best_around(scorer, &strongest, count).into_iter();
            scores.extend(around.filter(|s| mirrors.keeps(&s.build) && !near(&builds[..faces], &s.build)));
        }
        Self { scores, faces }
    }
}

/// Best compromises by sections, those of the greatest margins, that the field is solved for beside the choice and the named.
const SOLVED_BESIDE: usize = 4;

const SOLVED: &str = "Margins of the best compromises and of the three named poses are by the stress field. All others are \
     by sections, which see no fillets, pockets and blends: they chose what was solved, and are no answer.";

const TENSORS: &str = "Margins of the best compromises and of the three named poses are by stress fields of their own. All \
     others hold the stress of the job's own direction against layers that lie otherwise: they chose what was solved, and are \
     no answer.";

const SECTIONS: &str = "All margins are by sections alone, which see no fillets, pockets and blends: that no fault is found is no \
     answer.";

/// A direction this near to a named pose or one on a face, rad, is that pose: nobody prints a part leaned by so little.
const SNAP: f64 = core::f64::consts::PI / 36.0;

/// Which directions may be recommended: those in which the part stays on the bed. If none of them is within a tenth of the
/// strongest pose on a face, also those on a face that supports would have to hold.
fn competing(scores: &[DirectionScore], faces: usize) -> Vec<bool> {
    let greatest = |able: &dyn Fn(usize) -> bool| {
        (0..scores.len()).filter(|&k| able(k)).map(|k| scores[k].margin).fold(0.0, f64::max)
    };
    let stands = |k: usize| scores[k].posed.stands();
    let held = |k: usize| k < faces || stands(k);
    let enough = greatest(&stands) >= AS_STRONG * greatest(&held);
    (0..scores.len()).map(|k| if enough { stands(k) } else { held(k) }).collect()
}

fn described(
    frame: &Frame,
    score: &DirectionScore,
    pareto: bool,
    (full, basis): (Option<&NamedStrength>, Basis),
) -> DirectionReport {
    let posed = &score.posed;
    let (strength, governing) = match full {
        Some(full) => (full, full.governing()),
        None => (&score.strength, score.strength.governing()),
    };
    DirectionReport {
        build_direction: frame.direction_to_file(&score.build).into(),
        angle_to_axis_deg: libm::acos(score.build.x.abs().min(1.0)).to_degrees(),
        margin: strength.margin(),
        state: State::of(strength.margin(), basis),
        solved: basis.field,
        checked: full.is_some(),
        life_s: strength.life_at(0.1),
        governing_mode: governing.mode,
        governing_place: governing.place.clone(),
        support_area_mm2: posed.support_area * 1e6,
        support_volume_mm3: posed.support_volume * 1e9,
        height_mm: posed.height * 1e3,
        print_time_s: score.print_time,
        contact_area_mm2: posed.contact_area * 1e6,
        tip_ratio: posed.tip_ratio.is_finite().then_some(posed.tip_ratio),
        stands: posed.stands(),
        bore_angles_deg: score.bore_angles.iter().map(|angle| angle.to_degrees()).collect(),
        stair_step_mm: score.stair_step * 1e3,
        pareto,
        not_recommended: None,
    }
}

const ON_THE_SPHERE: &str = "Directions over the sphere share the stresses and temperatures of the job's own build direction; the \
     best compromises and the three named poses are checked in full.";

const ON_FACES: &str = "Looked at are the named poses, either way up, and those in which the part rests on a face; others would \
     have to be held by supports all round.";

fn notes(print: &PrintSettings, (alone, mirrors): (bool, Mirrors), (solved, everywhere): (bool, bool)) -> Vec<String> {
    let by = match (alone, solved) {
        (true, _) => TENSORS,
        (false, true) => SOLVED,
        (false, false) => SECTIONS,
    };
    let mut notes = vec![
        by.to_string(),
        if everywhere { ON_THE_SPHERE } else { ON_FACES }.to_string(),
        "A pose stays on the bed if the square root of its footing is a tenth of its height and a lean of 10° does not tip \
         it over (common practice); a brim and supports are not counted."
            .to_string(),
        "Print time is for comparing directions: acceleration, travel and cooling pauses are not in it. Supports are \
         counted from patches of the surface."
            .to_string(),
    ];
    if print.infill < 1.0 && everywhere {
        notes.push(
            "The inside is not solid: away from the named directions, walls and skins are taken where the job's own \
             direction puts them."
                .into(),
        );
    }
    match (mirrors.side_to_side, mirrors.front_to_back) {
        _ if !everywhere => {}
        (true, true) => notes.push("The part mirrors both ways; only a quarter of the sphere is listed.".into()),
        (true, false) | (false, true) => {
            notes.push("The part mirrors one way; only half of the sphere is listed.".into());
        }
        (false, false) => {}
    }
    notes
}
