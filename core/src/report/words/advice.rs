use crate::report::change::{SensitivityReport, SofteningChange};
use crate::report::data::{Report, SpeedVerdict};
use crate::verdict::State;

use super::numbers::{duration, significant, whole};

/// Changes smaller than this are not worth the trouble.
const WORTH: f64 = 1.02;

/// Most changes named.
const MOST: usize = 4;

/// What to change first, in sentences with numbers, the most useful first.
pub fn advice(report: &Report) -> Vec<String> {
    let verdict = &report.verdict;
    let mut list = Vec::new();
    let finds = if report.field.is_some() { "it holds" } else { "sections find no fault" };
    if verdict.state == State::Fails {
        list.push(match (verdict.max_rpm_meaning, verdict.max_rpm) {
            (SpeedVerdict::None, _) | (_, None) => format!(
                "No lower speed is enough for {}: change the part, its material or the load.",
                duration(verdict.wanted_life_s)
            ),
            (_, Some(rpm)) => format!(
                "Turn slower: {finds} for {} up to {} rpm instead of {}.",
                duration(verdict.wanted_life_s),
                whole(rpm),
                whole(verdict.duty_rpm)
            ),
        });
    }
    list.extend(report.rod.iter().flat_map(|rod| &rod.thin_sections).take(2).map(|thin| {
        format!(
            "Thicken a wall: {} it has {:.2} mm, {:.2} mm would do; it is {}.",
            thin.place, thin.least_thickness_mm, thin.limit_mm, thin.reason
        )
    }));
    // Better and worse by what the list of changes is sorted by.
    let better = report.sensitivities.iter().filter(|entry| entry.factor() >= WORTH);
    list.extend(better.take(MOST).map(|entry| changed(report, entry)));
    let worse = report.sensitivities.iter().find(|entry| entry.factor() <= 1.0 / WORTH);
    list.extend(worse.map(|entry| format!("Avoid: {}.", effect(report, entry))));
    if let Some(influence) = report.uncertainty.influences.first() {
        list.push(format!(
            "Measure the {} of your own prints: a value as much lower as is usual takes the margin to {}.",
            influence.name,
            significant(verdict.margin * influence.margin_factor)
        ));
    }
    list
}

/// What one change for the better gains.
fn changed(report: &Report, entry: &SensitivityReport) -> String {
    let margin = report.verdict.margin;
    let turned = if margin < 1.0 && margin * entry.margin_factor >= 1.0 {
        if report.field.is_some() { "; then it holds" } else { "; then sections find no fault" }
    } else {
        ""
    };
    format!("{}{turned}.", capital(&effect(report, entry)))
}

/// A change with what it does to margin, life and the time until it softens.
fn effect(report: &Report, entry: &SensitivityReport) -> String {
    let margin = report.verdict.margin;
    let life = match entry.life_factor {
        Some(0.0) => ", then the first full load is too much".into(),
        Some(factor) if report.verdict.life_s > 0.0 => {
            let (now, then) = (duration(report.verdict.life_s), duration(report.verdict.life_s * factor));
            if now == then { String::new() } else { format!(", nine in ten run {then} instead of {now}") }
        }
        _ => String::new(),
    };
    let soft = match entry.softening {
        Some(SofteningChange { from_s, to_s: Some(to_s) }) if libm::log(to_s / from_s).abs() > libm::log(WORTH) => {
            format!(", soft after {} instead of {}", duration(to_s), duration(from_s))
        }
        Some(SofteningChange { from_s, to_s: None }) => {
            format!(", not soft in one run instead of after {}", duration(from_s))
        }
        _ => String::new(),
    };
    format!(
        "{}, {}: margin from {} to {}{life}{soft}",
        entry.input,
        entry.change,
        significant(margin),
        significant(margin * entry.margin_factor)
    )
}

fn capital(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}
