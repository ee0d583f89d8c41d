//! From a part and its job to a ladder of runs.

use super::check::answered;
use super::learn::{open, steepness};
use crate::Error;
use crate::bench::Belief;
use crate::job::{Job, resolve};
use crate::kind::{
    CheckRequest, Checked, Correction, LoadedPart, Question, Sizes, Stage, Trials, Warm, Watcher, stage,
};
use crate::ladder::{AfterParts, Band, Believed, Climb, FIRST, Level, Practice, Rules, Wear};
use crate::report::{
    AfterPartReport, BarsReport, CAUTIONS, InspectReport, MarginBandReport, ModeReport, PlanReport, PlanStepReport,
    Report, SCHEMA_VERSION,
};
use crate::verdict::{FieldRequest, Mode};

/// Prints to spend: fewest, most, and as many as usual.
pub const PART_COUNTS: (usize, usize, usize) = (1, 12, 5);

/// Levels of a ladder up to the duty.
const LEVELS: usize = 16;

/// Levels above the duty, the highest this much faster; the throttle stays.
const ABOVE: (usize, f64) = (5, 1.3);

/// The lowest level, a share of the duty's speed and throttle.
const LOWEST: f64 = 0.1;

/// Plans a ladder of runs for a part, with so many prints to spend. With a `field` its sections are raised to the stress field of
/// the part at its duty; without, all is by sections alone.
///
/// # Errors
///
/// Where the part cannot be checked for the job, or the number of prints is none that can be planned.
///
/// ```
/// use layload_core::job::Job;
/// use layload_core::{Question, load, plan};
///
/// # fn main() -> Result<(), Box<dyn std::error::Error>> {
/// # let samples = concat!(env!("CARGO_MANIFEST_DIR"), "/../samples/");
/// # let stl = std::fs::read(format!("{samples}plain_rod.stl"))?;
/// # let job = Job::from_toml(&std::fs::read_to_string(format!("{samples}bench_single.toml"))?)?;
/// # let question = Question { job: &job, card_text: None, pressure_text: None };
/// let part = load(&stl, &job, &mut ())?;
/// let ladder = plan(&part, &question, 1, None, &mut ())?;
/// assert!(ladder.starts_low_enough == (ladder.steps[0].breaks <= 0.001));
/// # Ok(())
/// # }
/// ```
pub fn plan(
    part: &LoadedPart,
    question: &Question<'_>,
    parts: usize,
    field: Option<FieldRequest>,
    watcher: &mut dyn Watcher,
) -> Result<PlanReport, Error> {
    let (least, most, _) = PART_COUNTS;
    if !(least..=most).contains(&parts) {
        return Err(Error::PartCount { count: parts, low: least, high: most });
    }
    let request = CheckRequest { facets: false, field };
    let correct = |warm: &dyn Warm, _: &Report| field.map(|_| warm.correction()).transpose();
    let (Checked { report: before, .. }, correction) = answered(part, question, &request, watcher, correct)?;
    stage(watcher, Stage::Assessing)?;
    let ladder = Ladder::of(part, question, correction?, &before)?;
    let Ladder { climb, rules, believed, .. } = &ladder;
    let prior = believed.margin(rules.margin, rules.exponent);
    let after: Vec<AfterPartReport> = ladder.practised(parts);
    let part_narrowed = after.first().map_or(1.0, |after| after.narrowed);
    let steps = steps(climb, &ladder.levels, &ladder.firsts, &prior);
    Ok(PlanReport {
        cautions: CAUTIONS.iter().map(|&text| text.into()).collect(),
        schema_version: SCHEMA_VERSION.into(),
        program_version: env!("CARGO_PKG_VERSION").into(),
        warnings: before.warnings.clone(),
        duty_rpm: before.verdict.duty_rpm,
        wanted_life_s: rules.wanted,
        margin: told(&prior),
        starts_low_enough: climb.starts_low_enough(),
        reaches: climb.reaches,
        come_through: climb.to_the_life(rules).checked_sub(1).map_or(0.0, |last| climb.steps[last].reached),
        pause_s: PAUSE,
        inspect: inspect(&before),
        stop_signs: stop_signs(&before),
        parts,
        after_parts: after,
        bars: bars(&ladder.prior, rules.exponent, ladder.scatter, part_narrowed),
        notes: notes(&before, &steps, question.job, field.is_some()),
        steps,
    })
}

/// A ladder and what it was made from.
struct Ladder {
    levels: Vec<Level>,
    /// What fails first at each level.
    firsts: Vec<First>,
    rules: Rules,
    prior: Belief,
    believed: Believed,
    wear: Wear,
    climb: Climb,
    /// Standard deviation of log10 strength from print to print.
    scatter: f64,
}

impl Ladder {
    fn of(
        part: &LoadedPart,
        question: &Question<'_>,
        correction: Option<Correction>,
        before: &Report,
    ) -> Result<Self, Error> {
        let (scenario, _) = resolve(question.job, question.card_text, question.pressure_text)?;
        let mut trials = part.part.clone().trials(part, scenario.stations);
        let own = match correction {
            Some(correction) => {
                trials.take(&correction);
                correction.at_duty
            }
            None => trials.assessed(question, &Sizes::default())?,
        };
        let exponent = steepness(&own.link);
        let prior = open(&before.uncertainty, exponent);
        let (levels, firsts) = levels(&*trials, question)?;
        let believed = Believed::of(&prior);
        let wanted = scenario.wanted_life;
        let rules = Rules {
            duty: LEVELS - 1,
            top: levels.len() - 1,
            step: (wanted / 12.0).clamp(60.0, 600.0).min(wanted),
            wanted,
            margin: own.margin.max(1e-6),
            exponent,
        };
        let wear = Wear::new(&levels, &believed);
        let climb = Climb::plan(&wear, &believed, &rules);
        let scatter = scenario.card.strength.scatter_log10.value;
        Ok(Self { levels, firsts, rules, prior, believed, wear, climb, scatter })
    }

    /// What so many parts teach, by draws.
    fn practised(&self, parts: usize) -> Vec<AfterPartReport> {
        let practice = Practice { levels: &self.levels, wear: &self.wear, rules: &self.rules, prior: &self.prior };
        let after = practice.after_parts(&self.believed, &self.climb, parts);
        let told = |of: AfterParts| AfterPartReport {
            parts: of.parts,
            narrowed: of.narrowed,
            broken: of.broken,
            draws: of.draws,
        };
        after.into_iter().map(told).collect()
    }
}

/// How long a part cools between steps, s: a rod of these sizes loses most of its heat in a quarter of an hour (common practice).
const PAUSE: f64 = 900.0;

/// What fails first at a level.
type First = (Mode, String);

/// The levels, the lowest first: every step of the duty with that share of its speed and throttle.
fn levels(trials: &dyn Trials, question: &Question<'_>) -> Result<(Vec<Level>, Vec<First>), Error> {
    let (mut levels, mut firsts) = (Vec::new(), Vec::new());
    for k in 0..LEVELS + ABOVE.0 {
        let share = if k < LEVELS {
            LOWEST + (1.0 - LOWEST) * k as f64 / (LEVELS - 1) as f64
        } else {
            1.0 + (ABOVE.1 - 1.0) * (k + 1 - LEVELS) as f64 / ABOVE.0 as f64
        };
        let mut job = question.job.clone();
        for step in job.duty.steps.iter_mut().flatten() {
            step.rpm *= share;
            step.throttle *= share.min(1.0);
        }
        let steps = job.duty.steps.iter().flatten();
        let fastest = steps.copied().max_by(|a, b| a.rpm.total_cmp(&b.rpm).then(a.throttle.total_cmp(&b.throttle)));
        let (rpm, throttle) = fastest.map_or((0.0, 0.0), |step| (step.rpm, step.throttle));
        let trial = match trials.assessed(&Question { job: &job, ..*question }, &Sizes::default()) {
            Ok(trial) => trial,
            // An engine need not turn faster than its duty.
            Err(_) if k >= LEVELS => break,
            Err(error) => return Err(error),
        };
        firsts.push((trial.mode, trial.place));
        levels.push(Level { share, rpm, throttle, link: trial.link });
    }
    Ok((levels, firsts))
}

fn told(band: &Band) -> MarginBandReport {
    MarginBandReport { low: band.low, middle: band.middle, high: band.high }
}

fn steps(climb: &Climb, levels: &[Level], firsts: &[First], prior: &Band) -> Vec<PlanStepReport> {
    let mut total = 0.0;
    let mut list = Vec::new();
    for (number, step) in climb.steps.iter().enumerate() {
        let (level, (mode, place)) = (&levels[step.taken.level], &firsts[step.taken.level]);
        total += step.taken.seconds;
        list.push(PlanStepReport {
            number: number + 1,
            rpm: level.rpm,
            throttle: level.throttle,
            seconds: step.taken.seconds,
            total_s: total,
            breaks: step.breaks,
            come_through: step.reached,
            beyond_duty: step.beyond,
            mode: *mode,
            place: place.clone(),
            if_it_lives: told(&step.survived),
            narrowed: step.survived.narrower_than(prior),
            if_it_breaks: told(&step.broken),
        });
    }
    list
}

/// Test bars broken in place of a part.
const BARS: usize = 5;

/// How far bars are from the part they were printed with: standard deviation of the logarithm of strength (common practice).
const BARS_TO_PART: f64 = 0.1;

/// What bars teach: their mean gives the strength of the plastic as printed, and nothing of life.
fn bars(prior: &Belief, exponent: f64, scatter_log10: f64, part_narrowed: f64) -> BarsReport {
    let [strength, life] = prior.deviations();
    let each = scatter_log10 * core::f64::consts::LN_10;
    let seen = each * each / BARS as f64 + BARS_TO_PART * BARS_TO_PART;
    let left = strength * strength * seen / (strength * strength + seen);
    let of_life = (life / exponent) * (life / exponent);
    let narrowed = ((strength * strength + of_life) / (left + of_life)).sqrt();
    BarsReport { bars: BARS, narrowed, part_narrowed, first: narrowed > part_narrowed }
}

/// Places looked at after each step.
const LOOKED_AT: usize = 5;

fn inspect(report: &Report) -> Vec<InspectReport> {
    let of = |mode: &ModeReport| InspectReport {
        place: mode.place.clone(),
        center_mm: mode.center_mm,
        mode: mode.mode,
        look: sign(mode.mode).into(),
    };
    let mut list: Vec<InspectReport> = Vec::new();
    for look in report.modes.iter().map(of) {
        // Several modes at one place ask for one look.
        if list.len() < LOOKED_AT && !list.iter().any(|known| known.place == look.place && known.look == look.look) {
            list.push(look);
        }
    }
    list
}

/// What the beginning of a failure looks like, as a sentence without its full stop.
fn sign(mode: Mode) -> &'static str {
    match mode {
        Mode::FatigueAcrossLayers | Mode::CreepRuptureAcrossLayers | Mode::OverloadAcrossLayers => {
            "a fine crack along a layer, or white plastic beside one; flex it by hand and listen"
        }
        Mode::FatigueInLayerPlane | Mode::CreepRuptureInLayerPlane | Mode::OverloadInLayerPlane => {
            "a crack from the bore or fillet, square to the pull; white plastic there"
        }
        Mode::Crushing => "a fold or a bulge on the pressed side",
        Mode::Buckling => "a shank that is no longer straight along a straight edge",
        Mode::BearingPressure => {
            "the bore along the rod and square to it, in hundredths of a millimetre; how the pin feels in it"
        }
        Mode::SplitByRing => "a crack from the seat of the ring outward",
        Mode::LooseRing => "a mark across ring and eye that has parted",
        Mode::OpenJoint => "the torque of the studs, and a gap at the joint",
        Mode::Softening | Mode::SelfHeating => {
            "gloss, sagging or a change of colour; the temperature right after the stop"
        }
        Mode::SkirtPressure | Mode::Seizure => "scores and shine on the skirt; its diameter",
        Mode::HeadContact => "the length from bore to bore, and a print on crown or head",
        Mode::JournalHeat | Mode::JournalWear => {
            "dust and shine in the bore; its diameter along the rod and square to it"
        }
    }
}

/// Signs at which a part is not run again.
fn stop_signs(report: &Report) -> Vec<String> {
    let soft = report.heat.hottest.softening_c;
    vec![
        "Any crack, however fine, or white plastic where there was none".into(),
        "A bore oval by more than 0.05 mm, or a part longer by more than 0.1 % of its length (common practice)".into(),
        "A pin that has become tight or loose, a ring that has moved, studs that have lost torque".into(),
        format!("Plastic above {:.0} °C right after the stop: 20 K below where it softens", soft - 20.0),
        "A new noise, a change of speed at the same throttle, smoke or smell".into(),
    ]
}

fn notes(report: &Report, steps: &[PlanStepReport], job: &Job, field: bool) -> Vec<String> {
    let mut list = vec![
        "Steps above the duty come after the wanted life and only teach how much is left: take them with a part that is spent, and \
         only if the engine itself bears the speed."
            .into(),
        "No step is safe: each says how many parts break in it by the model, no more.".into(),
    ];
    if !field {
        list.push("The ladder is worked out by sections alone, which do not see fillets, pockets and blends.".into());
    }
    if let Some(first) = steps.first().filter(|first| first.breaks > FIRST) {
        list.insert(
            0,
            format!(
                "No level is low enough to start: even at {:.0} rpm and {:.0} % throttle the model has one part in {:.0} break, as so \
                 little is known of the material. Break test bars of this spool and put them into the card, or change the part, \
                 and plan again.",
                first.rpm,
                100.0 * first.throttle,
                1.0 / first.breaks
            ),
        );
    }
    if let Some(seconds) = job.duty.run_s {
        list.push(format!(
            "The job has runs of {seconds} s from cold: run each step in so short runs, cooling between them."
        ));
    }
    if report.verdict.margin < 1.0 {
        list.push(
            "By the model this part does not reach the wanted life: expect the ladder to end with a break.".into(),
        );
    }
    list
}
