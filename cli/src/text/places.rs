use layload_core::Mode;
use layload_core::report::{ModeReport, Report};

use super::numbers::significant;
use super::wrap::{heading, paragraph, width};

/// Places shown on the first screen.
const SHOWN: usize = 3;

/// Places shown where more of them fail.
const FAILING: usize = 5;

/// Narrower terminals have mode and place in one column.
const TWO_COLUMNS: usize = 70;

/// The weakest places of the part, each with mode, margin and coordinates. The first one is what fails first.
pub(super) fn write(text: &mut String, report: &Report) {
    heading(text, "Weakest places: the least margin fails first (1 is the limit; x, y, z in mm)");
    let failing = report.modes.iter().filter(|mode| mode.margin < 1.0).count();
    let shown = failing.clamp(SHOWN, FAILING);
    for mode in report.modes.iter().take(shown) {
        row(text, mode);
    }
}

/// One place.
fn row(text: &mut String, mode: &ModeReport) {
    let (margin, name) = (margin(mode), mode.mode.words());
    let place = mode.place.replace(" from the rod's end", "").replace("small-end centre", "small end");
    let at = mode.center_mm.map_or_else(String::new, coordinates);
    if width() >= TWO_COLUMNS {
        let rest = " ".repeat(31);
        paragraph(text, &format!("  {margin:>6} {name:<21} "), &rest, &format!("{place}{at}"));
    } else {
        paragraph(text, &format!("  {margin:>6} "), &" ".repeat(9), &format!("{name}: {place}{at}"));
    }
}

/// Coordinates in the mesh; what rounds to nothing has no sign.
fn coordinates(center_mm: [f64; 3]) -> String {
    let shown = center_mm.map(|mm| format!("{:.1}", (mm * 10.0).round() / 10.0 + 0.0));
    format!(" ({})", shown.join(", "))
}

/// A margin, or that it lies beyond what the model tells apart.
pub(super) fn margin(mode: &ModeReport) -> String {
    if mode.margin > 99.0 {
        ">99".into()
    } else if mode.mode == Mode::SelfHeating && mode.margin >= 8.0 {
        ">8".into()
    } else {
        significant(mode.margin)
    }
}
