//! What reaches a wanted speed and life: the least thickness, over materials, directions and walls.

use super::load::PartSource;
use super::trial::print_time;
use crate::Error;
use crate::job::{BuildDirection, Job, resolve, resolve_print};
use crate::kind::{Measures, Question, Sizes, Stage, Trial, Trials, Watcher, stage};
use crate::numeric::{halved, map_in_order};
use crate::part::ThicknessFactors;
use crate::report::{CAUTIONS, CandidateReport, SCHEMA_VERSION, SizeReport, Varied};
use crate::verdict::{Basis, State};

/// What is looked for and over what.
#[derive(Debug, Clone, PartialEq)]
pub struct SizeRequest {
    /// Least and greatest factor on thickness.
    pub factors: (f64, f64),
    /// Which thickness is varied; all that the part has where it is empty.
    pub varied: Vec<Varied>,
    /// Material families beside the job's own, by name.
    pub materials: Vec<String>,
    /// Build directions beside the job's own.
    pub directions: Vec<BuildDirection>,
    /// Numbers of walls beside the job's own.
    pub walls: Vec<u32>,
}

/// Least and greatest factor that can be asked for: beyond it the profile is no longer that of the mesh.
const FACTOR_RANGE: (f64, f64) = (0.2, 5.0);

/// Ways to be made that are looked at in one go, at most.
const MOST_WAYS: usize = 500;

/// Steps in which a range is walked before the least factor is narrowed.
const STEPS: usize = 10;

/// Relative width to which a factor is found: a twentieth of a millimetre on a thickness of ten.
const SHARPNESS: f64 = 5e-3;

/// One way to make the part: a job, and how it is called.
struct Way {
    job: Job,
    /// Whether the card is the one of the job.
    own_card: bool,
    direction: String,
    walls: u32,
}

/// Finds for each material, direction and number of walls the least thickness that reaches the life and the speed of the
/// job.
///
/// # Errors
///
/// Where the mesh is no closed part of a known kind, the job is incomplete or does not belong to it, or the watcher stops the
/// work. Where the factors are no range within 0.2 to 5, the part has no such
/// thickness, or there are too many ways to make it.
///
/// ```
/// use layload_core::job::Job;
/// use layload_core::{Question, SizeRequest, size};
///
/// # fn main() -> Result<(), Box<dyn std::error::Error>> {
/// # let samples = concat!(env!("CARGO_MANIFEST_DIR"), "/../samples/");
/// # let stl = std::fs::read(format!("{samples}plain_rod.stl"))?;
/// # let job = Job::from_toml(&std::fs::read_to_string(format!("{samples}bench_single.toml"))?)?;
/// # let question = Question { job: &job, card_text: None, pressure_text: None };
/// let request = SizeRequest {
///     factors: (0.8, 2.0),
///     varied: Vec::new(),
///     materials: Vec::new(),
///     directions: Vec::new(),
///     walls: Vec::new(),
/// };
/// let sized = size(&stl, &question, &request, &mut ())?;
/// println!("{}", sized.answer);
/// assert_eq!(sized.reached, sized.lightest.is_some());
/// # Ok(())
/// # }
/// ```
pub fn size<'a>(
    source: impl Into<PartSource<'a>>,
    question: &Question<'_>,
    request: &SizeRequest,
    watcher: &mut dyn Watcher,
) -> Result<SizeReport, Error> {
    let (low, high) = request.factors;
    if !(low >= FACTOR_RANGE.0 && high <= FACTOR_RANGE.1 && low < high) {
        return Err(Error::FactorRange { low, high, least: FACTOR_RANGE.0, most: FACTOR_RANGE.1 });
    }
    let (scenario, _) = resolve(question.job, question.card_text, question.pressure_text)?;
    let loaded = source.into().part(question.job, watcher)?;
    stage(watcher, Stage::Cutting)?;
    let part = &loaded.part;
    let trials = part.clone().trials(&loaded, scenario.stations);
    let own = |varied: Varied| part.varied().contains(&varied);
    let varied = if request.varied.is_empty() { part.varied().to_vec() } else { request.varied.clone() };
    if let Some(&wrong) = varied.iter().find(|v| !own(**v)) {
        return Err(Error::NotVaried { varied: wrong.words() });
    }
    let ways = ways(question.job, request)?;
    let measures = part.clone().measures(&loaded, question)?;
    stage(watcher, Stage::Assessing)?;
    let asked: Vec<(usize, Varied)> =
        (0..ways.len()).flat_map(|way| varied.iter().map(move |&varied| (way, varied))).collect();
    let search = SizeSearch { measures, trials: &*trials, question };
    let as_it_is = search.candidate(&ways[0], None, &Sizes::default())?;
    let found = map_in_order(asked.len(), |k| {
        let (way, varied) = asked[k];
        let sizes = search.least(&ways[way], varied, request.factors)?;
        search.candidate(&ways[way], Some(varied), &sizes)
    });
    let mut candidates = found.into_iter().collect::<Result<Vec<_>, Error>>()?;
    let unchanged = map_in_order(ways.len(), |way| search.candidate(&ways[way], None, &Sizes::default()));
    candidates.extend(unchanged.into_iter().collect::<Result<Vec<_>, Error>>()?);
    drop_equal(&mut candidates);
    mark_pareto(&mut candidates);
    let best = |of: &dyn Fn(&CandidateReport) -> f64, among: &dyn Fn(&CandidateReport) -> bool| {
        let among = candidates.iter().enumerate().filter(|(_, c)| among(c));
        among.min_by(|a, b| of(a.1).total_cmp(&of(b.1))).map(|(k, _)| k)
    };
    let lightest = best(&|c| c.mass_g, &|c| c.reaches);
    let quickest = best(&|c| c.print_time_s, &|c| c.reaches);
    let without_change = best(&|c| c.mass_g, &|c| c.reaches && c.varied.is_none());
    let strongest = best(&|c| -c.margin, &|_| true).unwrap_or(0);
    let wanted_rpm = scenario.duty.highest_rpm();
    let answer = answer(&candidates, lightest, strongest, request, wanted_rpm, scenario.wanted_life);
    Ok(SizeReport {
        schema_version: SCHEMA_VERSION.into(),
        program_version: env!("CARGO_PKG_VERSION").into(),
        title: question.job.title.clone(),
        wanted_rpm,
        wanted_life_s: scenario.wanted_life,
        factor_range: [low, high],
        reached: lightest.is_some(),
        as_it_is,
        without_change,
        lightest,
        quickest,
        strongest,
        candidates,
        answer,
        notes: scenario.warned(notes(part.size_note(), !request.walls.is_empty() && scenario.print.infill >= 1.0)),
        cautions: CAUTIONS.iter().map(|&text| text.into()).collect(),
    })
}

/// Every material with every direction and number of walls; the job's own first.
fn ways(job: &Job, request: &SizeRequest) -> Result<Vec<Way>, Error> {
    let mut materials: Vec<Option<&String>> = vec![None];
    let own = job.material.name.as_deref().unwrap_or_default();
    materials.extend(request.materials.iter().filter(|name| !name.eq_ignore_ascii_case(own)).map(Some));
    let mut directions: Vec<Option<BuildDirection>> = vec![None];
    directions.extend(request.directions.iter().filter(|d| job.print.build_direction != Some(**d)).copied().map(Some));
    let (_, print) = resolve_print(job)?;
    let own_walls = print.walls;
    let mut walls = vec![own_walls];
    if print.infill < 1.0 {
        walls.extend(request.walls.iter().filter(|count| **count != own_walls));
    }
    let count = materials.len() * directions.len() * walls.len();
    if count > MOST_WAYS {
        return Err(Error::TooManyWays { count, most: MOST_WAYS });
    }
    let mut ways = Vec::new();
    for &material in &materials {
        for direction in &directions {
            for &walls in &walls {
                let mut job = job.clone();
                if let Some(name) = material {
                    job.material.name = Some(name.clone());
                    job.material.card_file = None;
                }
                if direction.is_some() {
                    job.print.build_direction = *direction;
                }
                job.print.walls = Some(walls);
                let direction = match job.print.build_direction {
                    None => "as usual".into(),
                    Some(BuildDirection::Named(pose)) => pose.word().into(),
                    Some(BuildDirection::Vector([x, y, z])) => format!("{x},{y},{z}"),
                };
                ways.push(Way { job, own_card: material.is_none(), direction, walls });
            }
        }
    }
    Ok(ways)
}

struct SizeSearch<'a> {
    /// Of the mesh.
    measures: Measures,
    trials: &'a dyn Trials,
    question: &'a Question<'a>,
}

impl SizeSearch<'_> {
    fn ask<'b>(&'b self, way: &'b Way) -> Question<'b> {
        let card_text = if way.own_card { self.question.card_text } else { None };
        Question { job: &way.job, card_text, pressure_text: self.question.pressure_text }
    }

    fn trial(&self, way: &Way, sizes: &Sizes) -> Result<Trial, Error> {
        self.trials.assessed(&self.ask(way), sizes)
    }

    fn margin(&self, way: &Way, sizes: &Sizes) -> Result<f64, Error> {
        Ok(self.trial(way, sizes)?.margin)
    }

    /// The least sizes of the range that reach the wanted life, or those of the greatest margin.
    fn least(&self, way: &Way, varied: Varied, range: (f64, f64)) -> Result<Sizes, Error> {
        if varied != Varied::Each {
            return walked(range, |factor| Self::sized(varied, factor), |sizes| self.margin(way, sizes));
        }
        // From the least even thickness each part is thinned in turn, the heaviest first, as far as the others allow.
        let mut sizes = self.least(way, Varied::Whole, range)?;
        if self.margin(way, &sizes)? < 1.0 {
            return Ok(sizes);
        }
        for part in [Varied::Shank, Varied::BigEnd, Varied::SmallEnd] {
            let with = |factor: f64| {
                let mut changed = sizes;
                *part_of(&mut changed.rod, part) = factor;
                changed
            };
            let mut now = sizes.rod;
            let now = *part_of(&mut now, part);
            if now > range.0 {
                sizes = walked((range.0, now), with, |sizes| self.margin(way, sizes))?;
            }
        }
        Ok(sizes)
    }

    fn sized(varied: Varied, factor: f64) -> Sizes {
        let mut sizes = Sizes::default();
        match varied {
            Varied::Whole | Varied::Each => sizes.rod = ThicknessFactors::even(factor),
            Varied::Crown => sizes.crown = factor,
            part => *part_of(&mut sizes.rod, part) = factor,
        }
        sizes
    }

    fn candidate(&self, way: &Way, varied: Option<Varied>, sizes: &Sizes) -> Result<CandidateReport, Error> {
        let ask = self.ask(way);
        let trial = self.trials.assessed(&ask, sizes)?;
        let (scenario, _) = resolve(ask.job, ask.card_text, ask.pressure_text)?;
        let Measures { thickness, crown } = self.measures.at(sizes);
        Ok(CandidateReport {
            varied,
            material: scenario.card.name,
            direction: way.direction.clone(),
            walls: way.walls,
            state: State::of(trial.margin, Basis::SECTIONS),
            reaches: trial.margin >= 1.0,
            pareto: false,
            thickness_factors: thickness.map(|_| sizes.thickness()),
            thickness_mm: thickness.map(|of| of.map(|metres| metres * 1e3)),
            crown_factor: crown.map(|_| sizes.crown),
            crown_mm: crown.map(|metres| metres * 1e3),
            mass_g: trial.mass * 1e3,
            print_time_s: print_time(self.trials, &ask, sizes, trial.mass)?,
            margin: trial.margin,
            life_b10_s: trial.life_b10,
            governing_mode: trial.mode,
            governing_place: trial.place,
        })
    }
}

/// Walks a range upward to the first factor that reaches the wanted life and narrows it; more plastic is more mass
/// and more heat too, so that neither end settles what lies between.
fn walked(
    (low, high): (f64, f64),
    sized: impl Fn(f64) -> Sizes,
    margin: impl Fn(&Sizes) -> Result<f64, Error>,
) -> Result<Sizes, Error> {
    let ratio = high / low;
    let mut best = (f64::NEG_INFINITY, low);
    let mut bad: Option<f64> = None;
    for step in 0..=STEPS {
        let factor = if step == STEPS { high } else { low * libm::pow(ratio, step as f64 / STEPS as f64) };
        let here = margin(&sized(factor))?;
        if here >= 1.0 {
            let Some(bad) = bad else { return Ok(sized(factor)) };
            let near = |good: f64, bad: f64| good - bad <= SHARPNESS * good;
            let (good, _) = halved((factor, bad), near, |middle| Ok::<_, Error>(margin(&sized(middle))? >= 1.0))?;
            return Ok(sized(good));
        }
        if here > best.0 {
            best = (here, factor);
        }
        bad = Some(factor);
    }
    Ok(sized(best.1))
}

fn part_of(thickness: &mut ThicknessFactors, varied: Varied) -> &mut f64 {
    match varied {
        Varied::SmallEnd => &mut thickness.small_end,
        Varied::BigEnd => &mut thickness.big_end,
        _ => &mut thickness.shank,
    }
}

/// Leaves one of candidates that are the same part made the same way.
fn drop_equal(candidates: &mut Vec<CandidateReport>) {
    let same = |a: &CandidateReport, b: &CandidateReport| {
        (&a.material, &a.direction, a.walls) == (&b.material, &b.direction, b.walls)
            && a.thickness_factors == b.thickness_factors
            && a.crown_factor == b.crown_factor
    };
    let mut kept: Vec<CandidateReport> = Vec::with_capacity(candidates.len());
    for candidate in candidates.drain(..) {
        if !kept.iter().any(|known| same(known, &candidate)) {
            kept.push(candidate);
        }
    }
    *candidates = kept;
}

/// Marks what no other that reaches it beats in mass, life and print time together.
fn mark_pareto(candidates: &mut [CandidateReport]) {
    let costs: Vec<Option<[f64; 3]>> =
        candidates.iter().map(|c| c.reaches.then_some([c.mass_g, -c.life_b10_s, c.print_time_s])).collect();
    let beats = |a: &[f64; 3], b: &[f64; 3]| a.iter().zip(b).all(|(a, b)| a <= b) && a != b;
    for (candidate, own) in candidates.iter_mut().zip(&costs) {
        candidate.pareto = own.is_some_and(|own| !costs.iter().flatten().any(|other| beats(other, &own)));
    }
}

fn answer(
    candidates: &[CandidateReport],
    lightest: Option<usize>,
    strongest: usize,
    request: &SizeRequest,
    rpm: f64,
    life: f64,
) -> String {
    let how = |c: &CandidateReport| {
        let size = match (c.varied, c.thickness_mm, c.crown_mm) {
            (None, ..) => "the present mesh".into(),
            (_, Some([small, shank, big]), _) => {
                format!("small end {small:.2}, shank {shank:.2} and big end {big:.2} mm thick along the pins")
            }
            (_, _, Some(crown)) => format!("a crown {crown:.2} mm thick"),
            _ => String::new(),
        };
        format!("{size}, {}, {}, {} walls", c.material, c.direction, c.walls)
    };
    let wanted = format!("{rpm:.0} rpm for {:.2} h", life / 3600.0);
    if let Some(c) = lightest.map(|k| &candidates[k]) {
        format!(
            "The lightest in which sections find no fault at {wanted}: {}; {:.1} g, margin {:.2}. Sections do not see fillets, \
             pockets and blends: check the new mesh by its stress field.",
            how(c),
            c.mass_g,
            c.margin
        )
    } else {
        let c = &candidates[strongest];
        format!(
            "By sections no size reaches {wanted} with thickness from {} to {} times that of the mesh. The nearest has a margin of \
                 {:.2}, all modes together: {}; first to fail: {}, {}.",
            request.factors.0,
            request.factors.1,
            c.margin,
            how(c),
            c.governing_mode.words(),
            c.governing_place
        )
    }
}

fn notes(of_part: &str, walls_idle: bool) -> Vec<String> {
    let mut notes = vec![
        "A size found inside the range has a margin of just 1. Leave more for what the model does not see, draw it, and check the \
         new mesh."
            .to_string(),
        "Print time is for comparing: acceleration, travel and cooling pauses are not in it, and supports are taken to \
         grow with the height."
            .to_string(),
    ];
    notes.push(of_part.into());
    if walls_idle {
        notes.push(
            "In a part that is solid inside, the number of walls changes nothing; only the job's own was tried.".into(),
        );
    }
    notes
}
