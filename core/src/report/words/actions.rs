use crate::numeric::sort_few;
use crate::report::{
    ChangeMeasure, ChangedInput, ChangesTogether, FurtherChange, Report, SensitivityReport, SofteningChange,
    SpeedVerdict,
};
use crate::verdict::{Mode, State};

use super::numbers::{duration, whole};

/// Changes smaller than this are not worth the trouble.
const WORTH: f64 = 1.02;

/// Something to do, and what it gives by itself.
#[derive(Debug, Clone, PartialEq)]
pub struct Action {
    /// What to change, from what to what.
    pub what: String,
    /// Margin of all modes together with it; none where it was not worked out.
    pub margin: Option<f64>,
    /// Life that 90 % reach with it, s; none where there is none to compare or it was not worked out.
    pub life_s: Option<f64>,
    /// Whether it asks for another mesh, whose own field may find some per cent less.
    pub new_mesh: bool,
}

impl Action {
    /// Whether it reaches the wanted life by itself; none where it was not worked out.
    pub fn reaches(&self) -> Option<bool> {
        self.margin.map(|margin| margin >= 1.0)
    }
}

/// What to do, best first: what the failure asks for and walls too thin to print, then changes by what they give.
pub(super) fn actions(report: &Report) -> Vec<Action> {
    let mut list: Vec<Action> = bush(report).into_iter().collect();
    list.extend(report.rod.iter().flat_map(|rod| &rod.thin_sections).take(2).map(|thin| Action {
        what: format!("wall {:.2} -> {:.2} mm, {}", thin.least_thickness_mm, thin.limit_mm, thin.place),
        margin: None,
        life_s: None,
        new_mesh: true,
    }));
    list.extend(ranked(report));
    list
}

/// A bore that its pin presses too hard or wears asks for metal in it.
fn bush(report: &Report) -> Option<Action> {
    let verdict = &report.verdict;
    let asks = matches!(verdict.governing_mode, Mode::BearingPressure | Mode::JournalHeat | Mode::JournalWear);
    (asks && verdict.governing_margin < 1.0).then(|| Action {
        what: format!("press a metal bush or a bearing into the {}", verdict.governing_place),
        margin: None,
        life_s: None,
        new_mesh: true,
    })
}

/// Changes for the better, each as far as is worked out, with the speed that is enough where it fails and the two best made
/// together: best first, by the measure of the list of changes.
fn ranked(report: &Report) -> Vec<Action> {
    let enough = slower(report);
    let speed_is_told = enough.is_some();
    let entries = report.sensitivities.iter().filter(|entry| !(speed_is_told && entry.key == ChangedInput::Speed));
    let mut list: Vec<(f64, Action)> =
        entries.map(|entry| (gain(report, entry), changed(report, entry))).filter(|(gain, _)| *gain >= WORTH).collect();
    list.extend(enough.map(|action| (gain_of_enough(report), action)));
    list.extend(together(report));
    sort_few(&mut list, |a, b| b.0.total_cmp(&a.0));
    list.into_iter().map(|(_, action)| action).collect()
}

/// What a change gains as far as it is told, by the measure of the list of changes.
fn gain(report: &Report, entry: &SensitivityReport) -> f64 {
    entry.further.as_ref().map_or(entry.factor(), |further| gain_of(report, further))
}

fn gain_of(report: &Report, further: &FurtherChange) -> f64 {
    match measure(report) {
        ChangeMeasure::Life => further.life_factor.unwrap_or(1.0),
        ChangeMeasure::Margin => further.margin_factor,
    }
}

fn measure(report: &Report) -> ChangeMeasure {
    report.sensitivities.first().map(|entry| entry.measured_by).unwrap_or_default()
}

/// What reaching the wanted life gains.
fn gain_of_enough(report: &Report) -> f64 {
    let verdict = &report.verdict;
    match measure(report) {
        ChangeMeasure::Life => verdict.wanted_life_s / verdict.life_s.max(f64::MIN_POSITIVE),
        ChangeMeasure::Margin => 1.0 / verdict.margin.max(f64::MIN_POSITIVE),
    }
}

/// The two best changes made together, where that is more than the size alone.
fn together(report: &Report) -> Option<(f64, Action)> {
    let ChangesTogether { size, other, both } = report.together.as_ref()?;
    let of = |key: &ChangedInput| report.sensitivities.iter().find(|entry| entry.key == *key);
    let (size, other) = (of(size)?, of(other)?);
    let what = format!("{} with {}", size.told_further(both), other.told());
    Some((gain_of(report, both), far(report, what, both)))
}

fn far(report: &Report, what: String, further: &FurtherChange) -> Action {
    let verdict = &report.verdict;
    Action {
        what,
        margin: Some(verdict.margin * further.margin_factor),
        life_s: further.life_factor.filter(|_| verdict.life_s > 0.0).map(|factor| verdict.life_s * factor),
        new_mesh: true,
    }
}

/// Share of its speed below which an engine is another: nobody runs one that idles in place of one that works.
const LEAST_SPEED: f64 = 0.5;

/// The speed at which it reaches the wanted life, where it fails at that of the duty.
fn slower(report: &Report) -> Option<Action> {
    let verdict = &report.verdict;
    let rpm =
        verdict.max_rpm.filter(|_| verdict.state == State::Fails && verdict.max_rpm_meaning != SpeedVerdict::None)?;
    (rpm >= LEAST_SPEED * verdict.duty_rpm).then(|| Action {
        what: format!("speed {} -> {} rpm", whole(verdict.duty_rpm), whole(rpm)),
        margin: Some(1.0),
        life_s: Some(verdict.wanted_life_s),
        new_mesh: false,
    })
}

fn changed(report: &Report, entry: &SensitivityReport) -> Action {
    if let Some(further) = &entry.further {
        return far(report, entry.told_further(further), further);
    }
    let verdict = &report.verdict;
    let life_s = entry.life_factor.filter(|_| verdict.life_s > 0.0).map(|factor| verdict.life_s * factor);
    let soft = entry.softening.as_ref().map_or_else(String::new, softened);
    Action { what: entry.told() + &soft, margin: Some(verdict.margin * entry.margin_factor), life_s, new_mesh: false }
}

/// How much later heat takes a piston, where that is worth telling.
fn softened(change: &SofteningChange) -> String {
    match change.to_s {
        Some(to_s) if to_s >= WORTH * change.from_s => {
            format!(" (soft after {}, now {})", duration(to_s), duration(change.from_s))
        }
        Some(_) => String::new(),
        None => format!(" (not soft in one run, now after {})", duration(change.from_s)),
    }
}
