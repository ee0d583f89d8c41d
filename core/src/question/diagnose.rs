//! From what was seen of a break to what caused it.

use nalgebra::Point3;

use super::check::check_with;
use super::load::PartSource;
use crate::Error;
use crate::diagnosis::{
    Cause, DiagnosisError, Expected, Look, NextLook, SOURCE, Scatter, Seen, SeenPlace, causes, chance, doubts,
    next_look, remedy,
};
use crate::engine::DutyStep;
use crate::job::{Job, resolve};
use crate::kind::{CheckRequest, LoadedPart, Question, Watcher};
use crate::report::{
    BrokenPlaceReport, BrokenRunReport, CAUTIONS, CauseReport, DiagnosisReport, LookReport, NextLookReport, Report,
    SCHEMA_VERSION,
};
use crate::verdict::FieldRequest;

/// A break as its user tells it.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct SeenBreak {
    /// What it looks like.
    pub looks: Vec<Look>,
    /// Where it is.
    pub at: Option<SeenAt>,
    /// Speed at which it broke, rpm; that of the job's duty otherwise.
    pub rpm: Option<f64>,
    /// Throttle, 0 to 1.
    pub throttle: Option<f64>,
    /// Running time since new, s.
    pub seconds: Option<f64>,
    /// Temperature of the part, °C, if it was measured.
    pub measured_c: Option<f64>,
    /// Mass of all its pieces, g, if they were weighed.
    pub mass_g: Option<f64>,
    /// Distance between the middles of two bores, mm, if it was measured after the run.
    pub center_distance_mm: Option<f64>,
}

/// Where a break is.
#[derive(Debug, Clone, PartialEq)]
pub enum SeenAt {
    /// In words of the trade.
    Words(String),
    /// At a point, mm, coordinates of the file.
    Point([f64; 3]),
}

/// Says what caused a break, by what a check expects of the run and by what was seen.
///
/// # Errors
///
/// Where the place is not on the part, the time is beyond the duty, or the part cannot be checked for the run.
///
/// ```
/// use layload_core::diagnosis::Look;
/// use layload_core::job::Job;
/// use layload_core::{Question, SeenAt, SeenBreak, diagnose, load};
///
/// # fn main() -> Result<(), Box<dyn std::error::Error>> {
/// # let samples = concat!(env!("CARGO_MANIFEST_DIR"), "/../samples/");
/// # let stl = std::fs::read(format!("{samples}plain_rod.stl"))?;
/// # let job = Job::from_toml(&std::fs::read_to_string(format!("{samples}bench_single.toml"))?)?;
/// # let question = Question { job: &job, card_text: None, pressure_text: None };
/// let part = load(&stl, &job, &mut ())?;
/// let seen = SeenBreak {
///     looks: vec![Look::OvalBore, Look::Bulged],
///     at: Some(SeenAt::Words("big end".into())),
///     rpm: Some(5000.0),
///     ..SeenBreak::default()
/// };
/// let told = diagnose(&part, &question, &seen, None, &mut ())?;
/// assert_eq!(told.causes[0].mode, Some(layload_core::Mode::BearingPressure));
/// # Ok(())
/// # }
/// ```
pub fn diagnose(
    part: &LoadedPart,
    question: &Question<'_>,
    seen: &SeenBreak,
    field: Option<FieldRequest>,
    watcher: &mut dyn Watcher,
) -> Result<DiagnosisReport, Error> {
    let regions = part.part.regions();
    checked(seen)?;
    // The speed may be known by the break alone.
    let own = job_of(question.job, &SeenBreak { rpm: seen.rpm, throttle: seen.throttle, ..SeenBreak::default() });
    let (scenario, _) = resolve(&own, question.card_text, question.pressure_text)?;
    within_duty(seen, scenario.wanted_life)?;
    let place = seen.at.as_ref().map(|at| place(part, at)).transpose()?;
    let job = job_of(question.job, seen);
    let asked = Question { job: &job, ..*question };
    let request = CheckRequest { facets: false, field };
    let report = check_with(PartSource::Loaded(part), &asked, &request, watcher)?.report;
    let warm = match seen.measured_c {
        Some(measured) => Some((measured, model_temperature(part, &job, question, watcher)?)),
        None => None,
    };
    let scatter = Scatter {
        strength: scenario.card.strength.scatter_log10.value,
        life: scenario.card.fatigue.scatter_log10.value,
    };
    let expected = Expected::all(&report, scatter, regions);
    let measured = Measured { report: &report, seen };
    let looks: Vec<Look> = seen.looks.iter().copied().chain(measured.longer()).collect();
    let told = Seen { looks: unique(&looks), place, seconds: seen.seconds };
    let causes = causes(&expected, &told, regions);
    let mut contradictions = doubts(&expected, &causes, &told, regions, warm);
    contradictions.extend(measured.told());
    let run = BrokenRunReport {
        rpm: report.verdict.duty_rpm,
        seconds: seen.seconds,
        wanted_life_s: scenario.wanted_life,
        measured_c: seen.measured_c,
        model_c: warm.map_or(report.heat.taken_c, |(_, model)| model),
        failed_by: 1.0 - expected.iter().map(|mode| 1.0 - mode.failed_within()).product::<f64>(),
    };
    Ok(answer(&report, &told, &expected, &causes, contradictions, run))
}

/// The looks, each once.
fn unique(looks: &[Look]) -> Vec<Look> {
    let mut list: Vec<Look> = Vec::new();
    for look in looks {
        if !list.contains(look) {
            list.push(*look);
        }
    }
    list
}

/// Times this many wanted lives are no longer of that duty: a slip of the unit.
const BEYOND: f64 = 1000.0;

fn checked(seen: &SeenBreak) -> Result<(), DiagnosisError> {
    let above = |what, value: Option<f64>, most: f64| match value {
        Some(value) if !(value.is_finite() && value > 0.0 && value <= most) => {
            Err(DiagnosisError::Implausible { what, value })
        }
        _ => Ok(()),
    };
    above("speed", seen.rpm, 200_000.0)?;
    above("time", seen.seconds, f64::MAX)?;
    above("mass", seen.mass_g, 1e5)?;
    above("distance of the bores", seen.center_distance_mm, 1e4)?;
    if let Some(throttle) = seen.throttle.filter(|throttle| !(0.0..=1.0).contains(throttle)) {
        return Err(DiagnosisError::Implausible { what: "throttle", value: throttle });
    }
    if let Some(value) = seen.measured_c.filter(|value| !(-60.0..=600.0).contains(value)) {
        return Err(DiagnosisError::Implausible { what: "temperature", value });
    }
    Ok(())
}

fn within_duty(seen: &SeenBreak, wanted: f64) -> Result<(), DiagnosisError> {
    match seen.seconds {
        Some(seconds) if seconds > BEYOND * wanted => {
            Err(DiagnosisError::BeyondDuty { hours: seconds / 3600.0, wanted_h: wanted / 3600.0 })
        }
        _ => Ok(()),
    }
}

/// What was weighed and measured of a broken part, beside what the model has of it.
struct Measured<'a> {
    report: &'a Report,
    seen: &'a SeenBreak,
}

/// A part that weighs so much less or more than the model has it is printed otherwise than the job says (common practice: spools of
/// one plastic differ by a per cent or two).
const OFF_WEIGHT: f64 = 0.03;

/// A rod that is longer than its mesh by this share has grown: prints come out to within half of that (common practice).
const GROWN: f64 = 0.002;

impl Measured<'_> {
    /// By what share the distance between the bores has grown.
    fn growth(&self) -> Option<f64> {
        let new = self.report.part.center_distance_mm?;
        self.seen.center_distance_mm.map(|measured| measured / new - 1.0)
    }

    /// That it is longer than when new, as a look.
    fn longer(&self) -> Option<Look> {
        self.growth().filter(|growth| *growth > GROWN).map(|_| Look::Longer)
    }

    /// What the measures contradict, in sentences.
    fn told(&self) -> Vec<String> {
        let mut list = Vec::new();
        let (model, off) = (self.report.mesh.mass_g, |measured: f64, model: f64| measured / model - 1.0);
        if let Some(off) = self.seen.mass_g.map(|measured| off(measured, model)).filter(|off| off.abs() > OFF_WEIGHT) {
            let percent = 100.0 * off.abs();
            list.push(if off < 0.0 {
                format!(
                    "It weighs {percent:.0} % less than the model has it ({model:.1} g): gaps between beads, or less infill or fewer \
                     walls than in the job. Strength falls by more than weight does."
                )
            } else {
                format!(
                    "It weighs {percent:.0} % more than the model has it ({model:.1} g): pins or rings weighed with it, another \
                     plastic, or more infill than in the job."
                )
            });
        }
        if let Some(growth) = self.growth().filter(|growth| growth.abs() > GROWN) {
            let percent = 100.0 * growth.abs();
            list.push(if growth > 0.0 {
                format!("Its bores are {percent:.1} % farther apart than in the mesh: creep or heat has stretched it.")
            } else {
                format!("Its bores are {percent:.1} % closer together than in the mesh: it shrank in printing, or it is bent.")
            });
        }
        list
    }
}

/// The job of the run: its speed, its throttle, its temperature, and its time as the wanted life.
fn job_of(job: &Job, seen: &SeenBreak) -> Job {
    let mut job = job.clone();
    if seen.rpm.is_some() || seen.throttle.is_some() {
        let steps = job.duty.steps.iter().flatten();
        let fastest = steps.copied().max_by(|a, b| a.rpm.total_cmp(&b.rpm).then(a.throttle.total_cmp(&b.throttle)));
        let rpm = seen.rpm.or(fastest.map(|step| step.rpm));
        job.duty.steps = rpm.map(|rpm| {
            let throttle = seen.throttle.unwrap_or(1.0);
            vec![DutyStep { rpm, throttle, seconds: 60.0 }]
        });
    }
    if let Some(seconds) = seen.seconds {
        // The shortest wanted life that a job takes is some milliseconds.
        job.duty.wanted_life_h = Some((seconds / 3600.0).max(2e-6));
    }
    if seen.measured_c.is_some() {
        job.material.temperature_c = seen.measured_c;
    }
    job
}

/// Highest temperature that the model gives the part in the run, °C, were it not measured.
fn model_temperature(
    part: &LoadedPart,
    job: &Job,
    question: &Question<'_>,
    watcher: &mut dyn Watcher,
) -> Result<f64, Error> {
    let mut job = job.clone();
    job.material.temperature_c = question.job.material.temperature_c;
    let asked = Question { job: &job, ..*question };
    Ok(check_with(PartSource::Loaded(part), &asked, &CheckRequest::QUICK, watcher)?.report.heat.taken_c)
}

/// A point is on the part where it is in it or so near to its surface, m: a bead or two, as people measure by hand.
const NEAR: f64 = 1.5e-3;

/// The region of the part that a place is in.
fn place(part: &LoadedPart, at: &SeenAt) -> Result<SeenPlace, DiagnosisError> {
    let regions = part.part.regions();
    let at_mm = match at {
        SeenAt::Words(words) => return SeenPlace::named(words, regions),
        SeenAt::Point(at_mm) => *at_mm,
    };
    if let Some(value) = at_mm.into_iter().find(|value| !value.is_finite()) {
        return Err(DiagnosisError::Implausible { what: "place", value });
    }
    let (mesh, frame) = (part.part.mesh(), part.part.frame());
    let point = frame.point(&Point3::from(at_mm.map(|value| value * 1e-3)));
    let nearest = mesh.nearest(&point).unwrap_or(point);
    let away = (nearest - point).norm();
    if away > NEAR && !mesh.holds(&point) {
        return Err(DiagnosisError::OffThePart { at_mm, nearest_mm: frame.to_file_mm(&nearest), away_mm: away * 1e3 });
    }
    let region = part.part.region_at(&nearest).or_else(|| regions.first().copied()).unwrap_or("part");
    let told = at_mm.map(|value| format!("{:.1}", value + 0.0)).join(", ");
    Ok(SeenPlace { region, told: format!("{told} mm"), at_mm: Some(at_mm) })
}

/// Name of a cause.
fn name(cause: &Cause) -> String {
    cause.mode.map_or("none of the modes that are known", crate::verdict::Mode::words).into()
}

fn answer(
    report: &Report,
    seen: &Seen,
    expected: &[Expected],
    causes: &[Cause],
    contradictions: Vec<String>,
    run: BrokenRunReport,
) -> DiagnosisReport {
    let place = seen.place.as_ref().map(|place| BrokenPlaceReport {
        region: place.region.into(),
        told: place.told.clone(),
        at_mm: place.at_mm,
    });
    let looks = seen.looks.iter().map(|look| LookReport { look: look.name().into(), words: look.told().into() });
    DiagnosisReport {
        schema_version: SCHEMA_VERSION.into(),
        program_version: env!("CARGO_PKG_VERSION").into(),
        run,
        looks: looks.collect(),
        place,
        // The time of a break is no wanted life.
        warnings: report.warnings.iter().filter(|warning| warning.key != "duty.wanted_life_h").cloned().collect(),
        fits: causes.first().is_some_and(|cause| cause.mode.is_some()),
        undecided: causes.get(1).is_some_and(|second| causes[0].probability < 2.0 * second.probability),
        changes: changes(report, causes),
        causes: causes.iter().map(|cause| told(cause, causes, expected, &seen.looks)).collect(),
        contradictions,
        next_look: next_look(causes, &seen.looks).map(|next| asked_next(&next, causes)),
        source: SOURCE.into(),
        cautions: CAUTIONS.iter().map(|&text| text.into()).collect(),
    }
}

/// A cause with what speaks for and against it: looks that its breaks have more or less often than those of all others.
fn told(cause: &Cause, causes: &[Cause], expected: &[Expected], looks: &[Look]) -> CauseReport {
    let of = cause.mode.and_then(|mode| expected.iter().find(|expected| expected.mode == mode));
    let odds = |look: Look| {
        let others = causes.iter().filter(|other| other.mode != cause.mode);
        let (sum, share) = others.fold((0.0, 0.0), |(sum, share), other| {
            (sum + other.before * chance(look, other.mode), share + other.before)
        });
        chance(look, cause.mode) / (sum / share.max(f64::MIN_POSITIVE)).max(f64::MIN_POSITIVE)
    };
    let named = |speaks: fn(f64) -> bool| -> Vec<String> {
        looks.iter().filter(|look| speaks(odds(**look))).map(|look| look.name().into()).collect()
    };
    CauseReport {
        mode: cause.mode,
        words: name(cause),
        probability: cause.probability,
        before: cause.before,
        margin: of.map(|mode| mode.margin),
        place: of.map(|mode| mode.place.clone()),
        speaks_for: named(|odds| odds > 1.5),
        speaks_against: named(|odds| odds < 0.67),
    }
}

/// The next look, and which of the two likeliest causes it speaks for.
fn asked_next(next: &NextLook, causes: &[Cause]) -> NextLookReport {
    let [there, not] = next.odds.map(|odds| &causes[usize::from(odds < 1.0)]);
    NextLookReport {
        look: next.look.name().into(),
        how: next.look.how().into(),
        bits: next.bits,
        if_there: name(there),
        if_not: name(not),
    }
}

/// Changes told of the report.
const CHANGES: usize = 3;

/// Causes less likely than this ask for no change.
const LIKELY: f64 = 0.25;

/// What to change: against the likely causes, and what a check of the run gains most by where it has the same mode first.
fn changes(report: &Report, causes: &[Cause]) -> Vec<String> {
    let likely = causes.iter().filter(|cause| cause.probability >= LIKELY);
    let mut list: Vec<String> = likely
        .map(|cause| match cause.mode {
            Some(mode) => format!("Against {}: {}.", mode.words(), remedy(mode)),
            None => "Look for what is not in the model: something loose in the engine, a print that was stopped half way, a fault \
                     of assembly, a nick."
                .into(),
        })
        .collect();
    let same = causes.first().is_some_and(|cause| cause.mode == Some(report.verdict.governing_mode));
    if same {
        let better = report.sensitivities.iter().filter(|change| change.margin_factor > 1.02);
        list.extend(better.take(CHANGES).map(|change| {
            let factor = crate::report::words::numbers::significant(change.margin_factor);
            format!("{}: margin times {factor}.", capital(&change.told()))
        }));
    }
    list
}

fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}
