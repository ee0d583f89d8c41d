use crate::report::data::{Report, SpeedVerdict, WarningReport};
use crate::verdict::State;

use super::confidence::confidence;
use super::fits::fits;
use super::heat::heat;
use super::numbers::{duration, significant, whole};
use super::places;
use super::setting::{engine, print};
use super::unchecked::unchecked;

/// One line under the answer.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Line {
    /// What it is about, one word or two that stand before it.
    pub about: &'static str,
    /// Its sentences.
    pub text: String,
}

impl Line {
    fn new(about: &'static str, text: String) -> Self {
        Self { about, text }
    }
}

/// The lines under the answer, in their order.
pub(super) fn lines(report: &Report) -> Vec<Line> {
    let mut list = unusual(&report.warnings);
    list.extend([Line::new("First", first(report)), Line::new("Speed", highest(report))]);
    list.extend(doubts(report));
    list.extend(setting(report));
    list
}

/// What the answer is worth: how far it may be off, and what was not checked.
pub(super) fn doubts(report: &Report) -> Vec<Line> {
    let not = unchecked(report).map(|text| Line::new("Not checked", text));
    [Line::new("Confidence", confidence(report))].into_iter().chain(not).collect()
}

/// Engine and print as taken, of a part of any kind its places, holds and loads; heat and fits.
pub(super) fn setting(report: &Report) -> Vec<Line> {
    let mut list = vec![Line::new("Engine", engine(report)), Line::new("Print", print(report))];
    if let Some(any) = &report.any {
        let own = [("Places", places::places(any)), ("Held", places::held(any)), ("Loads", places::loads(any))];
        list.extend(own.map(|(about, text)| Line::new(about, text)));
    }
    list.push(Line::new("Heat", heat(report)));
    list.extend(fits(report).map(|text| Line::new("Fits", text)));
    list
}

/// A line for every input that is hardly meant.
pub(super) fn unusual(warnings: &[WarningReport]) -> Vec<Line> {
    warnings.iter().map(|warning| Line::new("Unusual", ended(&warning.message))).collect()
}

/// A sentence with its full stop, unless it asks.
fn ended(text: &str) -> String {
    if text.ends_with('?') { text.into() } else { format!("{text}.") }
}

pub(super) fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// The answer in a word or a few.
pub(super) fn word(report: &Report) -> &'static str {
    report.verdict.state.word()
}

/// A look at sections in one sentence, to stand until the stress field is solved.
pub(super) fn quick(report: &Report) -> String {
    let verdict = &report.verdict;
    format!(
        "First look, by sections alone: {} at {} rpm, margin {}; first to fail: {}, {}.",
        verdict.state.word(),
        whole(verdict.duty_rpm),
        significant(verdict.margin),
        verdict.governing_mode.words(),
        verdict.governing_place
    )
}

/// The answer in a sentence, to follow its word.
pub(super) fn sentence(report: &Report) -> String {
    let verdict = &report.verdict;
    let speed = whole(verdict.duty_rpm);
    let last = lasts(report);
    match verdict.state {
        State::Fails => failing(report),
        State::NoFaultFound => format!(
            "by sections at {speed} rpm, so no answer yet: sections do not see fillets, pockets and blends. By them 90 % of {last}."
        ),
        State::HoldsUnchecked => {
            format!("at {speed} rpm 90 % of {last}. What was not checked could turn the answer.")
        }
        State::HoldsUnproven | State::Holds => format!("at {speed} rpm 90 % of {last}."),
    }
}

/// How long 90 % last, to follow "90 % of".
fn lasts(report: &Report) -> String {
    let verdict = &report.verdict;
    // Of a life beyond every test no more is known than that it is longer.
    let life = duration(if verdict.life_beyond_tests { verdict.tested_s } else { verdict.life_s });
    let more = if verdict.life_beyond_tests && !life.starts_with("over") { "more than " } else { "" };
    let wanted = duration(verdict.wanted_life_s);
    format!("{}s should last {more}{life} (wanted {wanted}), assuming the values below", noun(report))
}

/// Why it fails.
fn failing(report: &Report) -> String {
    let verdict = &report.verdict;
    let (speed, noun) = (whole(verdict.duty_rpm), noun(report));
    let (wanted, life) = (duration(verdict.wanted_life_s), duration(verdict.life_s));
    let happens = verdict.governing_mode.happens();
    if !verdict.governing_mode.asks_for_strength() {
        format!("at {speed} rpm {happens} within the wanted {wanted}.")
    } else if verdict.life_s <= 0.0 {
        // What fails first by its margin may need time; the first load then does something else.
        let at_once = report.modes.iter().filter(|mode| mode.life_b10_s.is_none() && mode.margin < 1.0);
        let at_once = at_once.min_by(|a, b| a.margin.total_cmp(&b.margin)).map(|mode| mode.mode);
        let told = match at_once {
            Some(mode) if verdict.governing_mode.counts_time() => {
                format!("{}. Lasting through that, {happens} soon", mode.happens())
            }
            _ => happens.into(),
        };
        format!("at {speed} rpm more than 10 % of {noun}s fail at the first full load: {told}.")
    } else {
        format!("at {speed} rpm 10 % of {noun}s fail within {life} (wanted {wanted}): {happens}.")
    }
}

/// What fails first with its own margin, and the margin of all modes together.
pub(super) fn first(report: &Report) -> String {
    let verdict = &report.verdict;
    format!(
        "to fail: {}; {}. Its margin is {}, the least of all; 1 is the limit.",
        verdict.governing_mode.words(),
        verdict.governing_place,
        significant(verdict.governing_margin)
    )
}

/// The margin of all modes together, in a sentence.
fn together(report: &Report) -> String {
    format!("Margin {} for all failure modes together; 1 is the limit.", significant(report.verdict.margin))
}

/// The verdict in one paragraph, as every first screen begins: its word, its sentence, the margin and the top speed.
pub(super) fn verdict(report: &Report) -> String {
    let (sentence, together) = (sentence(report), together(report));
    format!("{}: {sentence} {together} {}", word(report), capital(&highest(report)))
}

/// What the part is called.
pub(super) fn noun(report: &Report) -> &'static str {
    report.part.kind.noun()
}

/// How fast it may turn.
pub(super) fn highest(report: &Report) -> String {
    let verdict = &report.verdict;
    let wanted = duration(verdict.wanted_life_s);
    let (top, finds) = match report.field {
        Some(_) => ("top speed", "it holds"),
        None => ("top speed by sections", "sections find no fault"),
    };
    match (verdict.max_rpm_meaning, verdict.max_rpm) {
        (SpeedVerdict::Limit, Some(rpm)) => format!("{top} for {wanted}: {} rpm.", whole(rpm)),
        (SpeedVerdict::Range, Some(rpm)) if report.any.is_some() => format!(
            "{finds} for {wanted} from {} to {} rpm; slower it fails.",
            whole(verdict.min_rpm.unwrap_or(0.0)),
            whole(rpm)
        ),
        (SpeedVerdict::Range, Some(rpm)) => format!(
            "{finds} for {wanted} from {} to {} rpm; slower at this throttle it fails, because inertia offsets less gas force.",
            whole(verdict.min_rpm.unwrap_or(0.0)),
            whole(rpm)
        ),
        (SpeedVerdict::AtLeast, Some(rpm)) => {
            format!("{finds} for {wanted} up to {} rpm; higher speeds were not checked.", whole(rpm))
        }
        _ if report.any.is_some() => format!("no speed reaches {wanted}: loads or heat alone are over the limit."),
        _ => format!("no speed reaches {wanted}: gas force or heat alone is over the limit."),
    }
}
