use std::fmt::Write;

use layload_core::report::{DirectionReport, DirectionsReport};

use super::numbers::{TOLD_S, duration, significant, whole};
use super::safety;
use super::wrap::{heading, list, paragraph};

/// Rows of the table of best compromises.
const ROWS: usize = 12;

/// The answer to which way up to print.
pub(crate) fn directions(report: &DirectionsReport) -> String {
    let mut text = String::new();
    let best = &report.recommended.direction;
    let along = format!("layers along {} of the mesh", components(best.build_direction, 3));
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
    text.push('\n');
    for (name, pose) in
        [("flat", &report.named.flat), ("on edge", &report.named.on_edge), ("upright", &report.named.upright)]
    {
        if let Some(why) = &pose.not_recommended {
            paragraph(&mut text, "  ", "    ", &format!("{name} {why}"));
        }
    }

    let mut beaten_by_none: Vec<&DirectionReport> = report.directions.iter().filter(|d| d.pareto).collect();
    beaten_by_none.sort_by(|a, b| b.margin.total_cmp(&a.margin));
    let standing = report.directions.iter().filter(|d| d.stands).count();
    let title = format!(
        "Best compromises of margin, time, support and bore steps: {} of {} directions; {standing} stay on the bed",
        beaten_by_none.len(),
        report.directions.len()
    );
    text.push('\n');
    paragraph(&mut text, "", "", &title);
    head(&mut text);
    for direction in beaten_by_none.iter().take(ROWS) {
        row(&mut text, &components(direction.build_direction, 2), direction);
    }
    text.push_str("  s: by sections alone, which do not see fillets, pockets and blends\n");
    if beaten_by_none.len() > ROWS {
        let _ = writeln!(text, "  and {} more; --json lists all", beaten_by_none.len() - ROWS);
    }

    left_out(&mut text, report);
    heading(&mut text, "Values taken besides those that a check lists");
    for entry in &report.assumptions {
        if let layload_core::job::Quantity::Number(number) = entry.value {
            let unit = if entry.unit == "1" { "" } else { &entry.unit };
            let _ =
                writeln!(text, "  {:<40} {:>14} {:<6} {}", entry.name, significant(number), unit, entry.source.word());
        }
    }
    list(&mut text, "Limits of this estimate", &report.notes);
    text.push('\n');
    safety(&mut text);
    text
}

/// A direction by its components; what rounds to nothing has no sign.
fn components(direction: [f64; 3], digits: usize) -> String {
    let shown = direction.map(|component| {
        let text = format!("{component:.digits$}");
        if text.chars().any(|c| ('1'..='9').contains(&c)) { text } else { text.trim_start_matches('-').to_string() }
    });
    shown.join(",")
}

/// Poses on a face that do not stay on the bed, beside the named ones.
fn left_out(text: &mut String, report: &DirectionsReport) {
    let named = [&report.named.flat, &report.named.on_edge, &report.named.upright];
    let is_named = |d: &DirectionReport| named.iter().any(|pose| pose.build_direction == d.build_direction);
    let mut left_out: Vec<String> = report
        .directions
        .iter()
        .filter(|d| !d.stands && !is_named(d))
        .filter_map(|d| d.not_recommended.as_ref().map(|why| format!("{} {why}", components(d.build_direction, 2))))
        .collect();
    // The facets of a round side are faces too.
    let more = left_out.len().saturating_sub(LEFT_OUT);
    left_out.truncate(LEFT_OUT);
    if more > 0 {
        left_out.push(format!("and {more} more; --json lists all"));
    }
    list(text, "Other poses on a flat face that do not stay on the bed", &left_out);
}

/// Poses that do not stay on the bed, told at most.
const LEFT_OUT: usize = 3;

fn head(text: &mut String) {
    let _ = writeln!(
        text,
        "  {:<16} {:>7} {:>9} {:>8} {:>7} {:>5}  fails first by",
        "", "margin", "life B10", "time", "support", "bed"
    );
    let _ = writeln!(text, "  {:<16} {:>7} {:>9} {:>8} {:>7} {:>5}", "", "", "", "", "mm²", "mm²");
}

fn row(text: &mut String, name: &str, pose: &DirectionReport) {
    let margin = if pose.margin > 99.0 { "over 99".into() } else { significant(pose.margin) };
    let by = if pose.solved { "" } else { "s" };
    let _ = writeln!(
        text,
        "  {name:<16} {margin:>7}{by:<1}{:>9} {:>8} {:>7} {:>5}  {}",
        compact(pose.life_s),
        compact(pose.print_time_s),
        format!("{:.0}", pose.support_area_mm2),
        format!("{:.0}", pose.contact_area_mm2),
        // The last words say it: "fatigue, layers part".
        pose.governing_mode.words().split(',').next_back().unwrap_or_default().trim().replace(" runaway", "")
    );
}

fn compact(seconds: f64) -> String {
    if seconds >= TOLD_S { ">10 000 h".into() } else { duration(seconds) }
}
