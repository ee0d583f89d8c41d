//! Everything that a written record of one part shows, from one reading of its mesh.

use nalgebra::Vector3;

use crate::Error;
use crate::check::{CheckRequest, Checked, PartSource, PreparedRod, Question, Watcher, answered, prepare_rod};
use crate::drawing::{Drawing, draw};
use crate::heat::HeatError;
use crate::orient::equal_area;
use crate::part::Part;
use crate::piston::{answered_piston, swept_piston};
use crate::report::{CAUTIONS, DirectionMargin, FacetValues, Report, SCHEMA_VERSION, SweepReport, VerdictReport};
use crate::sweep::{SpeedRange, swept_rod};
use crate::threads::both;
use crate::verdict::{HotSpots, Stressing, Temperatures, WarmRod};

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

/// Checks a part and gathers what a record shows beside the report. What `request` asks for more only rods have.
pub fn record<'a>(
    source: impl Into<PartSource<'a>>,
    question: &Question<'_>,
    request: &CheckRequest,
    watcher: &mut dyn Watcher,
) -> Result<Record, Error> {
    let loaded = source.into().part(question.job, watcher)?;
    let part = &loaded.part;
    match part {
        Part::Rod(rod) => {
            let prepared = prepare_rod(loaded.with(rod.clone()), question)?;
            let (Checked { report, facets }, more) =
                answered(&prepared, question, request, watcher, |prepared, stressing, temperatures, report| {
                    of_rod(part, prepared, stressing, temperatures, report)
                })?;
            let (sweep, directions, drawing) = more?;
            Ok(Record { report, sweep, directions, drawing, facets })
        }
        Part::Piston(piston) => {
            let loaded = loaded.with(piston.clone());
            let (Checked { report, facets }, more) =
                answered_piston(loaded, question, request, watcher, |prepared, model, loading, report| {
                    let range = range(&report.verdict)?;
                    let (points, drawing) = both(|| swept_piston(prepared, model, loading, &range), || draw(part));
                    Ok::<_, Error>((swept(report, points?), drawing))
                })?;
            let (sweep, drawing) = more?;
            Ok(Record { report, sweep, directions: Vec::new(), drawing, facets })
        }
    }
}

type OfRod = (SweepReport, Vec<DirectionMargin>, Drawing);

fn of_rod(
    part: &Part,
    prepared: &PreparedRod,
    stressing: &Stressing<'_>,
    temperatures: &Temperatures,
    report: &Report,
) -> Result<OfRod, Error> {
    let range = range(&report.verdict)?;
    let scenario = &prepared.scenario;
    let (points, (drawing, directions)) = both(
        || {
            let warm_rod: Result<WarmRod<'_>, HeatError> =
                WarmRod::new(stressing.model, stressing.loading, scenario, prepared.crank.throw_m());
            swept_rod(prepared, &warm_rod?, stressing, &range)
        },
        || both(|| draw(part), || direction_margins(prepared, stressing, temperatures)),
    );
    Ok((swept(report, points?), directions, drawing))
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

fn swept(report: &Report, sweep: Vec<crate::report::SweepPoint>) -> SweepReport {
    SweepReport {
        schema_version: SCHEMA_VERSION.into(),
        program_version: env!("CARGO_PKG_VERSION").into(),
        title: report.title.clone(),
        duty_rpm: report.verdict.duty_rpm,
        wanted_life_s: report.verdict.wanted_life_s,
        warnings: report.warnings.clone(),
        sweep,
        cautions: CAUTIONS.iter().map(|&text| text.into()).collect(),
    }
}

/// Margins with the stresses and temperatures of the job's own direction.
fn direction_margins(
    prepared: &PreparedRod,
    stressing: &Stressing<'_>,
    temperatures: &Temperatures,
) -> Vec<DirectionMargin> {
    let spots = HotSpots::new(stressing, &prepared.scenario, temperatures);
    let builds: Vec<Vector3<f64>> = equal_area(DIRECTIONS).into_iter().filter(|build| build.z >= 0.0).collect();
    let strengths = spots.along_all(&builds);
    let of = |build: &Vector3<f64>, strength: &crate::verdict::PartStrength| DirectionMargin {
        build_direction: prepared.rod.frame.direction_to_file(build).into(),
        in_part: (*build).into(),
        margin: strength.margin(),
        governing_mode: strength.governing().mode,
    };
    builds.iter().zip(&strengths).map(|(build, strength)| of(build, strength)).collect()
}
