use crate::report::data::{Report, SpeedVerdict, TemperatureFrom, WarningReport};
use crate::report::{Coverage, CoveredReport};

use super::numbers::{duration, significant, whole};
use super::piston::crown_heat;
use crate::verdict::State;

/// One line under the answer.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Line {
    /// What it is about, one word that stands before it.
    pub about: &'static str,
    /// Its sentences.
    pub text: String,
}

/// The lines under the answer, in their order.
pub fn lines(report: &Report) -> Vec<Line> {
    let line = |about: &'static str, text: String| Line { about, text };
    let mut list = unusual(&report.warnings);
    list.extend([line("First", first(report)), line("Speed", highest(report))]);
    list.extend(lives(report).map(|lives| line("Life", lives)));
    let of_effects = |unchecked: &&String| report.effects.iter().any(|effect| effect.effect == **unchecked);
    let unchecked = report.verdict.unchecked.iter().filter(|unchecked| !of_effects(unchecked));
    list.extend(unchecked.map(|unchecked| line("Beware", format!("not checked: {unchecked}."))));
    list.extend(left_out(report).map(|text| line("Beware", text)));
    list.extend([line("Heat", heat(report)), line("Ground", ground(report))]);
    list
}

/// The effects that are not in the answer, counted, with the worst of them; none where there is none, or where it fails anyway.
fn left_out(report: &Report) -> Option<String> {
    let verdict = &report.verdict;
    let not = || report.effects.iter().filter(|effect| effect.state == Coverage::NotChecked);
    let worst = not().reduce(|worst, effect| if effect.factor > worst.factor { effect } else { worst })?;
    let turning = not().filter(|effect| effect.could_turn(verdict.margin)).count();
    (verdict.state != State::Fails).then(|| {
        format!(
            "{} effects not checked, {} of which could turn the answer; the worst, {}, up to {} times. All are listed under \
             the limits of this estimate.",
            not().count(),
            if turning == 0 { "none".into() } else { turning.to_string() },
            worst.effect,
            significant(worst.factor)
        )
    })
}

/// The effects in sentences, as they follow the notes on the limits of the estimate.
pub fn effects(report: &Report) -> Vec<String> {
    let told = |effect: &CoveredReport| {
        let most =
            if effect.factor > 1.0 { format!(" (up to {} times)", significant(effect.factor)) } else { String::new() };
        format!("{}, {}{most}: {}.", capital(&effect.effect), effect.state.words(), effect.told)
    };
    report.effects.iter().map(told).collect()
}

fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// A line for every input that is hardly meant.
pub fn unusual(warnings: &[WarningReport]) -> Vec<Line> {
    let line = |warning: &WarningReport| Line { about: "Beware", text: format!("unusual input: {}.", warning.message) };
    warnings.iter().map(line).collect()
}

/// The answer in one word.
pub fn word(report: &Report) -> &'static str {
    report.verdict.state.word()
}

/// A look at sections in one sentence, to stand until the stress field is solved.
pub fn quick(report: &Report) -> String {
    let verdict = &report.verdict;
    let found = if verdict.state == State::Fails { "FAILS" } else { "no fault found" };
    format!(
        "First look, by sections alone: {found} at {} rpm, margin {}; first to fail: {}, {}.",
        whole(verdict.duty_rpm),
        significant(verdict.margin),
        verdict.governing_mode.words(),
        verdict.governing_place
    )
}

/// The answer in a sentence, to follow its word.
pub fn sentence(report: &Report) -> String {
    let verdict = &report.verdict;
    let speed = whole(verdict.duty_rpm);
    let wanted = duration(verdict.wanted_life_s);
    // Of a life beyond every test no more is known than that it is longer.
    let life = duration(if verdict.life_beyond_tests { verdict.tested_s } else { verdict.life_s });
    let more = if verdict.life_beyond_tests && !life.starts_with("over") { "more than " } else { "" };
    let noun = noun(report);
    let runs = format!("run {more}{life}, wanted {wanted}; if the values listed below are right");
    let paper = if verdict.well_founded { "" } else { "on paper, unproven, " };
    match verdict.state {
        State::Fails => failing(report),
        State::NoFaultFound => format!(
            "by sections at {speed} rpm: fillets, pockets and blends were not seen, so this is no answer yet. By sections alone \
             nine {noun}s in ten would {runs}."
        ),
        State::HoldsUnchecked => format!(
            "in what was checked, {paper}at {speed} rpm: nine {noun}s in ten should {runs}. What was not checked is named \
             below and could turn the answer."
        ),
        State::HoldsUnproven | State::Holds => format!("{paper}at {speed} rpm: nine {noun}s in ten should {runs}."),
    }
}

/// Why it fails.
fn failing(report: &Report) -> String {
    let verdict = &report.verdict;
    let (speed, noun) = (whole(verdict.duty_rpm), noun(report));
    let (wanted, life) = (duration(verdict.wanted_life_s), duration(verdict.life_s));
    if !verdict.governing_mode.asks_for_strength() {
        format!("at {speed} rpm: {} within the wanted {wanted}.", verdict.governing_mode.happens())
    } else if verdict.life_s <= 0.0 {
        let happens = verdict.governing_mode.happens();
        format!("at {speed} rpm: more than one {noun} in ten is likely to fail at the first full load: {happens}.")
    } else {
        format!("at {speed} rpm: one {noun} in ten is likely to break within {life}, wanted {wanted}.")
    }
}

/// What fails first with its own margin, and the margin of all modes together where it is another number.
pub fn first(report: &Report) -> String {
    let verdict = &report.verdict;
    let own = significant(verdict.governing_margin);
    format!(
        "to fail: {}; {}. Its margin is {own}, where 1 is the limit; all modes together: {}.",
        verdict.governing_mode.words(),
        verdict.governing_place,
        significant(verdict.margin)
    )
}

/// What the part is called.
pub fn noun(report: &Report) -> &'static str {
    report.part.kind.noun()
}

/// How fast it may turn.
pub fn highest(report: &Report) -> String {
    let verdict = &report.verdict;
    let wanted = duration(verdict.wanted_life_s);
    let (highest, finds) = match report.field {
        Some(_) => ("highest", "it holds"),
        None => ("by sections highest", "sections find no fault"),
    };
    match (verdict.max_rpm_meaning, verdict.max_rpm) {
        (SpeedVerdict::Limit, Some(rpm)) => format!("{highest} for {wanted}: {} rpm.", whole(rpm)),
        (SpeedVerdict::Range, Some(rpm)) => format!(
            "{finds} for {wanted} from {} to {} rpm. Slower at the same throttle it fails, because inertia relieves the gas \
             force less: mind starting and lugging.",
            whole(verdict.min_rpm.unwrap_or(0.0)),
            whole(rpm)
        ),
        (SpeedVerdict::AtLeast, Some(rpm)) => {
            format!("{finds} for {wanted} at {} rpm too; higher was not looked at.", whole(rpm))
        }
        _ => format!("no speed holds for {wanted}: the gas force or the heat is too much already."),
    }
}

/// How lives scatter, and how far they can be off; none where the first load breaks half of the parts.
pub fn lives(report: &Report) -> Option<String> {
    let lives = &report.life;
    let or_at_once = |seconds: f64| if seconds > 0.0 { duration(seconds) } else { "not one full load".into() };
    (lives.b50_s > 0.0).then(|| {
        format!(
            "half the {}s run {}, 99 in 100 {}. Were the material values as wrong as happens one time in twenty, nine in ten \
             would run {} if weaker, {} if stronger.",
            noun(report),
            duration(lives.b50_s),
            or_at_once(lives.b1_s),
            or_at_once(lives.b10_low_s),
            duration(lives.b10_high_s)
        )
    })
}

/// How well founded that is.
pub fn ground(report: &Report) -> String {
    if report.verdict.margin <= 0.0 {
        return "there is no margin to judge.".into();
    }
    let share = report.uncertainty.memory_share * 100.0;
    let measure =
        report.uncertainty.measure_first.as_ref().map_or_else(String::new, |name| format!(" Measure first: {name}."));
    format!(
        "{share:.0} % of the uncertainty rests on values from memory; the margin may be {} times more or less.{measure}",
        significant(report.uncertainty.margin_factor)
    )
}

/// How hot it gets.
pub fn heat(report: &Report) -> String {
    if let Some(piston) = &report.piston {
        return crown_heat(&report.heat, piston);
    }
    let heat = &report.heat;
    let shank = heat.hottest.temperature_c.map_or_else(
        || "the shank heats itself without limit in the long run".to_string(),
        |peak| format!("the shank settles at {peak:.0} °C in the long run"),
    );
    let rod = report.rod.as_ref();
    let runaway = rod
        .and_then(|rod| rod.runaway_rpm)
        .map_or_else(String::new, |rpm| format!("; runaway from {} rpm", whole(rpm)));
    let taken = match heat.from {
        TemperatureFrom::Given => format!("Strength was taken at the given {:.0} °C", heat.taken_c),
        TemperatureFrom::Settled => format!("Strength was taken place by place, at up to {:.0} °C", heat.taken_c),
        TemperatureFrom::AfterRun => {
            format!("Strength was taken place by place after one run, at up to {:.0} °C", heat.taken_c)
        }
    };
    let highest = rod.and_then(|rod| rod.highest_c).map_or_else(
        || " At no running temperature would it last the wanted life.".into(),
        |c| format!(" The whole part could be at {c:.0} °C and still last."),
    );
    format!("{shank}{runaway}. {taken}.{highest}")
}
