use crate::report::Report;
use crate::report::data::SpeedVerdict;
use crate::verdict::State;

use super::actions::{Action, actions};
use super::answer::capital;
use super::numbers::{duration, significant};

/// Changes that cost less than this are not worth a warning.
const WORSE: f64 = 0.98;

/// Most actions named.
const MOST: usize = 5;

/// What to do, in sentences with numbers, best first; then what to avoid and what to measure.
pub(super) fn advice(report: &Report) -> Vec<String> {
    let verdict = &report.verdict;
    let mut list = Vec::new();
    let no_speed = verdict.max_rpm.is_none() || verdict.max_rpm_meaning == SpeedVerdict::None;
    if verdict.state == State::Fails && no_speed {
        let wanted = duration(verdict.wanted_life_s);
        list.push(format!("No lower speed reaches {wanted}: change the part, its material or the load."));
    }
    list.extend(actions(report).iter().take(MOST).map(|action| sentence(report, action)));
    let worse = report.sensitivities.iter().find(|entry| entry.factor() <= WORSE);
    list.extend(worse.map(|entry| {
        let then = verdict.margin * entry.margin_factor;
        format!("Avoid: {}; margin {} -> {}.", entry.told(), significant(verdict.margin), significant(then))
    }));
    if let Some(influence) = report.uncertainty.influences.first() {
        list.push(format!(
            "Measure the {} of your own prints: if it is as low as is usual for such values, the margin is {}.",
            influence.name,
            significant(verdict.margin * influence.margin_factor)
        ));
    }
    list
}

/// One action with the margin and life it gives.
fn sentence(report: &Report, action: &Action) -> String {
    let verdict = &report.verdict;
    let mut told = capital(&action.what);
    if let Some(margin) = action.margin {
        told = format!("{told}: margin {} -> {}", significant(verdict.margin), significant(margin));
    }
    match action.life_s {
        Some(then) if then <= 0.0 => told += ", fails at the first full load",
        Some(then) if duration(then) != duration(verdict.life_s) => {
            told = format!("{told}, life {} -> {}", duration(verdict.life_s), duration(then));
        }
        _ => {}
    }
    if verdict.margin < 1.0 && action.reaches() == Some(true) {
        told += match (report.field.is_some(), action.new_mesh) {
            (true, true) => "; then it likely holds: check the new mesh",
            (true, false) => "; then it holds",
            (false, _) => "; then sections find no fault",
        };
    }
    told + "."
}
