use layload_core::report::{FacetValues, json};
use layload_core::{
    CheckRequest, FieldRequest, PartSource, Revision, SpeedRange, USUAL_DIRECTIONS, WallRequest, check_with,
    directions, sweep, walls,
};
use serde::Serialize;

use crate::progress::{Plan, Progress, Shares};
use crate::question::field;
use crate::{Job, Part, Question, Refusal, words};

/// An answer.
#[derive(Debug, Clone)]
pub struct Answer {
    json: String,
    words: String,
    painted: Option<Painted>,
}

/// The surface that was asked about, with a number for every facet.
#[derive(Debug, Clone, PartialEq)]
pub struct Painted {
    /// Corner points, mm, coordinates of the mesh.
    pub points_mm: Vec<[f64; 3]>,
    /// Numbers of the corner points of each facet, counter-clockwise seen from outside.
    pub corners: Vec<[u32; 3]>,
    /// The number of each facet, NaN where there is none: after a check stress over what 90 % of prints bear there for the
    /// wanted life, 1 being the limit; after walls the least thickness, mm.
    pub values: Vec<f64>,
}

impl From<FacetValues> for Painted {
    fn from(FacetValues { points_mm, facets, values }: FacetValues) -> Self {
        Self { points_mm, corners: facets, values: values.into_iter().map(|v| v.unwrap_or(f64::NAN)).collect() }
    }
}

impl Answer {
    fn new(report: &impl Serialize, words: String, painted: Option<Painted>) -> Result<Self, Refusal> {
        let mut json = json(report).map_err(|error| {
            Refusal::own("report-unwritable", format!("the report cannot be written: {error}"), "report this")
        })?;
        json.push('\n');
        Ok(Self { json, words, painted })
    }

    /// The report: the very bytes that the command line prints as JSON, with the line break at its end.
    pub fn json(&self) -> &str {
        &self.json
    }

    /// What it says in plain English, a thought a line, with the cautions.
    pub fn words(&self) -> &str {
        &self.words
    }

    /// JSON, words and numbers by facet, to be kept.
    pub fn into_parts(self) -> (String, String, Option<Painted>) {
        (self.json, self.words, self.painted)
    }

    /// Numbers by facet, where they were asked for.
    pub fn painted(&self) -> Option<&Painted> {
        self.painted.as_ref()
    }
}

/// Asks a part a question that is about one part.
///
/// # Errors
///
/// Where the text is no question, the job is incomplete or does not belong to the part, or `progress` stops the work.
pub fn ask(part: &Part, job: &Job, question: &str, progress: Progress<'_>) -> Result<Answer, Refusal> {
    match Question::read(question)? {
        Question::Check { quick, cells, facets, paint } => {
            let request = CheckRequest { facets: facets || paint, field: field(quick, cells)? };
            checked(part, job, request, facets, progress)
        }
        Question::Directions { quick, cells, count } => {
            directed(part, job, count.unwrap_or(USUAL_DIRECTIONS), field(quick, cells)?, progress)
        }
        Question::Sweep { quick, cells, from_rpm, to_rpm, count } => {
            let range = SpeedRange::new(from_rpm, to_rpm, count.unwrap_or(SpeedRange::USUAL_COUNT))?;
            swept(part, job, &range, field(quick, cells)?, progress)
        }
        Question::Walls { least_mm, facets } => {
            let request = WallRequest { least_mm, every_facet: facets };
            let mut shares = Shares::new(Plan::walls(), progress);
            let walls = walls(&part.0, &job.question(), &request, &mut shares)?;
            Answer::new(&walls.report, words::walls(&walls.report), Some(walls.thickness_mm.into()))
        }
        Question::Compare { .. } => Err(Refusal::question("`compare` is asked of two parts")),
    }
}

/// Compares two parts, each with its job.
///
/// # Errors
///
/// Where the text is no such question, a job is incomplete or does not belong to its part, the parts are of two kinds, or
/// `progress` stops the work.
pub fn compare(
    old: (&Part, &Job),
    new: (&Part, &Job),
    question: &str,
    progress: Progress<'_>,
) -> Result<Answer, Refusal> {
    let Question::Compare { quick, cells } = Question::read(question)? else {
        return Err(Refusal::question("two parts are asked `compare`"));
    };
    let field = field(quick, cells)?;
    let (old, new) = (revision(old), revision(new));
    let mut shares = Shares::new(Plan::compare(field.is_some()), progress);
    let report = layload_core::compare(&old, &new, field, &mut shares)?;
    Answer::new(&report, words::lines(&report.findings, &report.cautions), None)
}

fn revision<'a>((part, job): (&'a Part, &'a Job)) -> Revision<'a> {
    Revision { source: PartSource::Loaded(&part.0), question: job.question() }
}

fn checked(
    part: &Part,
    job: &Job,
    request: CheckRequest,
    listed: bool,
    progress: Progress<'_>,
) -> Result<Answer, Refusal> {
    let mut shares = Shares::new(Plan::check(request.field.is_some()), progress);
    let checked = check_with(&part.0, &job.question(), &request, &mut shares)?;
    let (mut report, painted) = (checked.report, checked.facets);
    if let Some(painted) = painted.as_ref().filter(|_| listed) {
        report.facet_utilisation = Some(painted.values.iter().map(|value| value.unwrap_or(0.0)).collect());
    }
    Answer::new(&report, words::check(&report), painted.map(Painted::from))
}

fn directed(
    part: &Part,
    job: &Job,
    count: usize,
    field: Option<FieldRequest>,
    progress: Progress<'_>,
) -> Result<Answer, Refusal> {
    let mut shares = Shares::new(Plan::directions(field.is_some()), progress);
    let report = directions(&part.0, &job.question(), count, field, &mut shares)?;
    let reason = std::slice::from_ref(&report.recommended.reason);
    Answer::new(&report, words::lines(reason, &report.cautions), None)
}

fn swept(
    part: &Part,
    job: &Job,
    range: &SpeedRange,
    field: Option<FieldRequest>,
    progress: Progress<'_>,
) -> Result<Answer, Refusal> {
    let mut shares = Shares::new(Plan::sweep(field.is_some()), progress);
    let report = sweep(&part.0, &job.question(), range, field, &mut shares)?;
    Answer::new(&report, words::lines(&[], &report.cautions), None)
}
