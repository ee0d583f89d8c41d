//! What reaches a wanted speed and life: the least thickness, over materials, directions and walls.
//!
//! Sections raised to the stress field search; what the answer names is solved at its own sizes, and where that says something
//! else the search goes on from there.

mod candidate;
mod search;
mod solve;
mod ways;
mod words;

use self::candidate::{Found, drop_equal, mark_pareto};
use self::search::SizeSearch;
use self::solve::{Chosen, nameable};
use self::words::{answer, notes};
use super::load::PartSource;
use crate::Error;
use crate::job::{BuildDirection, resolve};
use crate::kind::{Question, Sizes, Stage, Watcher, stage};
use crate::numeric::map_in_order;
use crate::report::{CAUTIONS, SCHEMA_VERSION, SizeReport, Varied};
use crate::verdict::FieldRequest;

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
    /// The stress field, which raises sections to it once a direction and is solved for what the answer names; `None` looks
    /// at sections alone.
    pub field: Option<FieldRequest>,
}

/// Least and greatest factor that can be asked for: beyond it the profile is no longer that of the mesh.
const FACTOR_RANGE: (f64, f64) = (0.2, 5.0);

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
///     field: None,
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
    let part = &loaded.part;
    let own = |varied: Varied| part.varied().contains(&varied);
    let varied = if request.varied.is_empty() { part.varied().to_vec() } else { request.varied.clone() };
    if let Some(&wrong) = varied.iter().find(|v| !own(**v)) {
        return Err(Error::NotVaried { varied: wrong.words() });
    }
    let ways = ways::ways(question.job, request)?;
    let search = SizeSearch::new(&loaded, question, &ways, (request.field, scenario.stations), watcher)?;
    stage(watcher, Stage::Assessing)?;
    let asked: Vec<(usize, Varied)> =
        (0..ways.len()).flat_map(|way| varied.iter().map(move |&varied| (way, varied))).collect();
    let as_it_is = search.unchanged(0)?;
    let searched = map_in_order(asked.len(), |k| search.least(asked[k].0, asked[k].1, request.factors, 1.0));
    let mut found = searched.into_iter().collect::<Result<Vec<Found>, Error>>()?;
    let unchanged = map_in_order(ways.len(), |way| search.unchanged(way));
    found.extend(unchanged.into_iter().collect::<Result<Vec<_>, Error>>()?);
    if let Some(field) = request.field {
        solve::settle(&search, &mut found, request.factors, field, watcher)?;
    }
    let mut candidates = drop_equal(found);
    mark_pareto(&mut candidates);
    let Chosen { lightest, quickest, without_change, strongest } = Chosen::of(&candidates, nameable);
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
        as_it_is: as_it_is.report,
        without_change,
        lightest,
        quickest,
        strongest,
        answer,
        notes: scenario.warned(notes(
            part.size_note(),
            request.field.is_some(),
            candidates.iter().any(|candidate| candidate.crown_mm.is_some()),
            !request.walls.is_empty() && scenario.print.infill >= 1.0,
        )),
        candidates,
        cautions: CAUTIONS.iter().map(|&text| text.into()).collect(),
    })
}

/// The sizes of a mesh as it is, with one thickness times a factor.
fn sized(varied: Varied, factor: f64) -> Sizes {
    let mut sizes = Sizes::default();
    match varied {
        Varied::Whole | Varied::Each => sizes.rod = crate::part::ThicknessFactors::even(factor),
        Varied::Crown => sizes.crown = factor,
        part => *search::part_of(&mut sizes.rod, part) = factor,
    }
    sizes
}
