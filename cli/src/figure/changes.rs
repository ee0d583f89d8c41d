use layload_core::report::Report;

use crate::plot::{Bar, Bars};
use crate::text::numbers::times;

/// What a change of each input does to the margin, what moves life most first.
pub(crate) fn changes(report: &Report) -> Bars {
    let bars: Vec<Bar> = report
        .sensitivities
        .iter()
        .map(|entry| Bar {
            label: format!("{}, {}", entry.input, entry.change),
            value: times(entry.margin_factor),
            length: entry.margin_factor.max(1e-3).ln(),
        })
        .collect();
    let told: Vec<String> = bars.iter().map(|bar| format!("{}: {}", bar.label, bar.value)).collect();
    Bars {
        title: "What one change does to the margin".into(),
        told: format!("Factors on the margin, what moves life most first. {}.", told.join("; ")),
        measure: "factor on the margin; to the left it gets worse".into(),
        list: bars,
    }
}
