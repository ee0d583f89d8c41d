use layload_core::report::Report;

use crate::plot::{Bar, Bars};
use crate::text::lasting::{factor, lasts, measure};

/// What a change of each input does, largest effect first: bars and order by the same quantity.
pub(crate) fn changes(report: &Report) -> Bars {
    let by = measure(report);
    let bars: Vec<Bar> = report
        .sensitivities
        .iter()
        .map(|entry| Bar {
            label: format!("{}, {}", entry.input, entry.change),
            value: if by == "life" { lasts(entry) } else { factor(entry.margin_factor) },
            length: entry.effect(),
        })
        .collect();
    let told: Vec<String> = bars.iter().map(|bar| format!("{}: {}", bar.label, bar.value)).collect();
    let on = if by == "life" { "life" } else { "the margin" };
    Bars {
        title: format!("What one change does to {on}"),
        told: format!("Factors on {on}, largest effect first. {}.", told.join("; ")),
        measure: format!("factor on {on}; to the left it gets worse"),
        list: bars,
    }
}
