//! Everything that a written record of one part shows, from one reading of its mesh.

use nalgebra::Vector3;

use super::check::answered;
use super::load::PartSource;
use super::sweep::of_report;
use crate::Error;
use crate::drawing::{Drawing, draw};
use crate::kind::{CheckRequest, Checked, Question, SpeedRange, Warm, Watcher};
use crate::numeric::{both, map_in_order};
use crate::orient::equal_area;
use crate::part::Frame;
use crate::report::{DirectionMargin, FacetValues, Report, SweepReport, VerdictReport};

/// A check and what goes with it on paper.
#[derive(Debug, Clone)]
pub struct Record {
    /// The answer.
    pub report: Report,
    /// Life against speed round the duty's.
    pub sweep: SweepReport,
    /// Margin by build direction over half the sphere, since a layer plane has two; of a rod.
    pub directions: Vec<DirectionMargin>,
    /// The part from three sides.
    pub drawing: Drawing,
    /// Stress on every facet over what lasts, when asked for; of a rod.
    pub facets: Option<FacetValues>,
}

/// Speeds in the sweep of a record.
const SPEEDS: usize = 25;

/// Directions over the whole sphere, of which a record has half.
const DIRECTIONS: usize = 1200;

/// Checks a part and gathers what a record shows beside the report.
///
/// # Errors
///
/// Where the mesh is no closed part of a known kind, the job is incomplete or does not belong to it, or the watcher stops the
/// work.
///
/// ```
/// use layload_core::job::Job;
/// use layload_core::{CheckRequest, Question, record};
///
/// # fn main() -> Result<(), Box<dyn std::error::Error>> {
/// # let samples = concat!(env!("CARGO_MANIFEST_DIR"), "/../samples/");
/// # let stl = std::fs::read(format!("{samples}plain_rod.stl"))?;
/// # let job = Job::from_toml(&std::fs::read_to_string(format!("{samples}bench_single.toml"))?)?;
/// # let question = Question { job: &job, card_text: None, pressure_text: None };
/// let record = record(&stl, &question, &CheckRequest::QUICK, &mut ())?;
/// assert_eq!(record.drawing.views.len(), 3);
/// assert!(record.sweep.sweep.len() > 2);
/// # Ok(())
/// # }
/// ```
pub fn record<'a>(
    source: impl Into<PartSource<'a>>,
    question: &Question<'_>,
    request: &CheckRequest,
    watcher: &mut dyn Watcher,
) -> Result<Record, Error> {
    let loaded = source.into().part(question.job, watcher)?;
    let part = &loaded.part;
    let (Checked { report, facets }, more) = answered(&loaded, question, request, watcher, |warm, report| {
        let range = range(&report.verdict)?;
        let (points, (drawing, directions)) = both(
            || warm.swept(&range),
            || both(|| draw(part.mesh(), part.frame(), part.sides()), || direction_margins(warm, part.frame())),
        );
        Ok::<_, Error>((of_report(report, points?), directions, drawing))
    })?;
    let (sweep, directions, drawing) = more?;
    Ok(Record { report, sweep, directions, drawing, facets })
}

/// Speeds from well below the duty's to above the highest that holds.
fn range(verdict: &VerdictReport) -> Result<SpeedRange, Error> {
    let duty = verdict.duty_rpm;
    let low = verdict.min_rpm.map_or(duty, |rpm| rpm.min(duty));
    let high = verdict.max_rpm.map_or(duty, |rpm| rpm.clamp(duty, 3.0 * duty));
    let (from, to) = (0.4 * low, (1.3 * high).min(1e5));
    // Round numbers read better on an axis.
    let step = if from > 1000.0 {
        500.0
    } else if from > 100.0 {
        50.0
    } else {
        0.5 * from
    };
    SpeedRange::new((from / step).floor() * step, ((to / step).ceil() * step).min(1e5), SPEEDS)
}

/// Margins with the stresses and temperatures of the job's own direction, where the kind of part has them.
fn direction_margins(warm: &dyn Warm, frame: &Frame) -> Vec<DirectionMargin> {
    let Some(facing) = warm.facing() else { return Vec::new() };
    let builds: Vec<Vector3<f64>> = equal_area(DIRECTIONS).into_iter().filter(|build| build.z >= 0.0).collect();
    map_in_order(builds.len(), |k| {
        let strength = facing.along(&builds[k]);
        DirectionMargin {
            build_direction: frame.direction_to_file(&builds[k]).into(),
            in_part: builds[k].into(),
            margin: strength.margin(),
            governing_mode: strength.governing().mode,
        }
    })
}
