use std::fmt::Write;

use layload_core::report::{DirectionReport, DirectionsReport};

use super::numbers::{duration, significant, whole};
use super::wrap::{heading, list, paragraph};

/// Rows of the table of directions that no other beats.
const ROWS: usize = 12;

/// The answer to which way up to print.
pub(crate) fn directions(report: &DirectionsReport) -> String {
    let mut text = String::new();
    let best = &report.recommended.direction;
    let [x, y, z] = best.build_direction;
    let along = format!("layers along {x:.3},{y:.3},{z:.3} of the mesh");
    paragraph(&mut text, "Print  ", "       ", &along);
    paragraph(&mut text, "Why    ", "       ", &report.recommended.reason);
    let cost = format!(
        "about {} to print, {:.0} mm high, {} mm² on the bed, {} mm² to support; bores stepped by {:.2} mm",
        duration(best.print_time_s),
        best.height_mm,
        whole(best.contact_area_mm2),
        whole(best.support_area_mm2),
        best.stair_step_mm
    );
    paragraph(&mut text, "Cost   ", "       ", &cost);

    heading(&mut text, "By name");
    head(&mut text);
    for (name, pose) in
        [("flat", &report.named.flat), ("on edge", &report.named.on_edge), ("upright", &report.named.upright)]
    {
        row(&mut text, name, pose);
    }

    let mut beaten_by_none: Vec<&DirectionReport> = report.directions.iter().filter(|d| d.pareto).collect();
    beaten_by_none.sort_by(|a, b| b.margin.total_cmp(&a.margin));
    let title = format!(
        "Directions that no other beats in all of margin, time, support and bore steps: {} of {}",
        beaten_by_none.len(),
        report.directions.len()
    );
    text.push('\n');
    paragraph(&mut text, "", "", &title);
    head(&mut text);
    for direction in beaten_by_none.iter().take(ROWS) {
        let [x, y, z] = direction.build_direction;
        row(&mut text, &format!("{x:.2},{y:.2},{z:.2}"), direction);
    }
    if beaten_by_none.len() > ROWS {
        let _ = writeln!(text, "  and {} more; --json lists all", beaten_by_none.len() - ROWS);
    }

    heading(&mut text, "What this rests on, beside what a check lists");
    for entry in &report.assumptions {
        if let layload_core::job::Quantity::Number(number) = entry.value {
            let unit = if entry.unit == "1" { "" } else { &entry.unit };
            let _ =
                writeln!(text, "  {:<40} {:>14} {:<6} {}", entry.name, significant(number), unit, entry.source.word());
        }
    }
    list(&mut text, "Limits of this estimate", &report.notes);
    list(&mut text, "Cautions", &report.cautions);
    text
}

fn head(text: &mut String) {
    let _ = writeln!(
        text,
        "  {:<16} {:>7} {:>9} {:>8} {:>7} {:>5}  fails first",
        "", "margin", "life B10", "time", "support", "bed"
    );
    let _ = writeln!(text, "  {:<16} {:>7} {:>9} {:>8} {:>7} {:>5}", "", "", "", "", "mm²", "mm²");
}

fn row(text: &mut String, name: &str, pose: &DirectionReport) {
    let margin = if pose.margin > 99.0 { "over 99".into() } else { significant(pose.margin) };
    let _ = writeln!(
        text,
        "  {name:<16} {margin:>7} {:>9} {:>8} {:>7} {:>5}  {}",
        compact(pose.life_s),
        compact(pose.print_time_s),
        format!("{:.0}", pose.support_area_mm2),
        format!("{:.0}", pose.contact_area_mm2),
        // The last words say it: "fatigue, layers part".
        pose.governing_mode.words().split(',').next_back().unwrap_or_default().trim().replace(" runaway", "")
    );
}

fn compact(seconds: f64) -> String {
    let text = duration(seconds);
    if text.starts_with("over") { ">10 000 h".into() } else { text }
}
