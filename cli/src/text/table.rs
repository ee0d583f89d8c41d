use std::fmt::Write;

use layload_core::job::Quantity;
use layload_core::report::words::Words;
use layload_core::report::{Report, RodReport, StationReport};

use super::numbers::{duration, significant};
use super::places::margin;
use super::wrap::{heading, paragraph, width};

/// Rows of the station table.
const ROWS: usize = 16;

/// Every mode, the least margin first.
pub(crate) fn modes(text: &mut String, report: &Report) {
    heading(text, "Failure modes: the least margin fails first (1 is the limit)");
    for mode in &report.modes {
        let life = mode.life_b10_s.map_or_else(|| "-".into(), duration);
        let place = mode.place.replace(" from the rod's end", "").replace("small-end centre", "small end");
        let row = format!("  {:>8}  {:<21} {life:>13}  ", margin(mode), mode.mode.words());
        if width() >= row.len() + 20 {
            let _ = writeln!(text, "{row}{}", short(&place, width() - row.len()));
        } else {
            paragraph(
                text,
                &format!("  {:>8}  ", margin(mode)),
                "            ",
                &format!("{}: {place}; life {life}", mode.mode.words()),
            );
        }
    }
    text.push_str("  -: does not depend on running time\n");
}

fn short(words: &str, most: usize) -> String {
    if words.chars().count() <= most {
        return words.into();
    }
    let kept: String = words.chars().take(most - 1).collect();
    format!("{kept}…")
}

/// Some stations along the rod, with the most used one.
pub(crate) fn stations(text: &mut String, report: &Report) {
    heading(text, "Along the rod, from the small-end centre");
    let all = &report.stations;
    let greatest = all.iter().map(|s| s.axial_force_min_n.abs().max(s.axial_force_max_n.abs())).fold(0.0, f64::max);
    let (unit, scale) = if greatest >= 1e5 { ("kN", 1e-3) } else { ("N ", 1.0) };
    // What is printed solid matters where it is less than the mesh has.
    let light = all.iter().any(|station| station.solid_area_mm2 < 0.999 * station.area_mm2);
    let (solid, square) = if light { ("  solid", "    mm²") } else { ("", "") };
    let _ = writeln!(text, "   place   area{solid}  thinnest  axial force        stress             used");
    let _ = writeln!(text, "      mm    mm²{square}     mm      {unit}                 MPa");
    let worst = most_used(all);
    for index in chosen(all) {
        row(text, &all[index], scale, light, Some(index) == worst);
    }
    text.push_str("  used: peak stress / short-term strength; fatigue is above\n");
}

fn most_used(all: &[StationReport]) -> Option<usize> {
    all.iter().enumerate().max_by(|a, b| a.1.utilisation.total_cmp(&b.1.utilisation)).map(|(index, _)| index)
}

/// Numbers of the cuts that a table shows: evenly spread, the most used one among them.
pub(crate) fn chosen(all: &[StationReport]) -> Vec<usize> {
    let spread = (0..ROWS).map(|row| row * all.len().saturating_sub(1) / (ROWS - 1));
    let mut shown: Vec<usize> = spread.chain(most_used(all)).filter(|&index| index < all.len()).collect();
    shown.sort_unstable();
    shown.dedup();
    shown
}

fn row(text: &mut String, station: &StationReport, force_scale: f64, light: bool, worst: bool) {
    let wall = station.thinnest_wall_mm.map_or_else(|| "-".into(), |t| format!("{t:.2}"));
    let cells: usize = if light { 3 } else { 10 };
    let filled = ((station.utilisation * cells as f64).round() as usize).min(cells);
    let bar: String = "█".repeat(filled) + &"·".repeat(cells - filled);
    let solid = if light { format!(" {:>6.1}", station.solid_area_mm2) } else { String::new() };
    let _ = writeln!(
        text,
        "  {:>6.1} {:>6.1}{solid} {:>7}  {:>6.0} to {:>6.0}  {:>6.1} to {:>6.1}  {:>4.0} % {bar}{}",
        station.position_mm,
        station.area_mm2,
        wall,
        station.axial_force_min_n * force_scale,
        station.axial_force_max_n * force_scale,
        station.stress_min_mpa,
        station.stress_max_mpa,
        station.utilisation * 100.0,
        if worst { "<" } else { "" }
    );
}

/// Walls too thin.
pub(crate) fn thin_sections(text: &mut String, rod: &RodReport) {
    heading(text, "Thin places");
    if rod.thin_sections.is_empty() {
        text.push_str("  none thinner than two beads in the cuts along the rod\n");
    }
    for thin in &rod.thin_sections {
        paragraph(
            text,
            "  ",
            "    ",
            &format!(
                "{}: {:.2} mm, limit {:.2} mm ({}); from {:.1} to {:.1} mm",
                thin.place, thin.least_thickness_mm, thin.limit_mm, thin.reason, thin.from_mm, thin.to_mm
            ),
        );
    }
}

/// The part as recognised.
pub(crate) fn part(text: &mut String, report: &Report, rod: &RodReport) {
    heading(text, "The part");
    let mesh = &report.mesh;
    let _ = writeln!(
        text,
        "  connecting rod, {:.2} mm between centres, {:.0} mm³, {:.1} g, {} facets",
        report.part.center_distance_mm.unwrap_or(0.0),
        mesh.volume_mm3,
        mesh.mass_g,
        mesh.facet_count
    );
    for (bore, eye) in report.part.bores.iter().map(|b| (b, rod.eyes.iter().find(|e| e.role == b.role))) {
        let ring = eye.map_or_else(String::new, |eye| {
            format!(", wall {:.2} mm, hoop stress {:.1} MPa", eye.ligament_mm, eye.hoop_stress_max_mpa)
        });
        let _ = writeln!(text, "  {}: bore {:.2} mm, {:.1} mm deep{ring}", bore.role, bore.diameter_mm, bore.depth_mm);
    }
    let printed = format!(
        "build direction {:.0}° from the rod and {:.0}° from the bores; axial strength: {:.0} % of bead strength",
        report.print.angle_to_axis_deg,
        report.print.angle_to_bores_deg,
        report.print.axial_strength_share * 100.0
    );
    paragraph(text, "  ", "    ", &printed);
    bond(text, report);
    for note in &mesh.notes {
        paragraph(text, "  ", "  ", note);
    }
}

/// How well the layers bond, in a line.
pub(crate) fn bond(text: &mut String, report: &Report) {
    if let Some(bond) = Words(report).bond() {
        paragraph(text, "  ", "    ", &bond);
    }
}

/// Everything taken, with its source.
pub(crate) fn assumptions(text: &mut String, report: &Report) {
    heading(text, "Values taken, with their source");
    for entry in &report.assumptions {
        let value = match &entry.value {
            Quantity::Number(number) => significant(*number),
            Quantity::Word(word) => word.clone(),
        };
        let unit = if entry.unit == "1" { "" } else { &entry.unit };
        let line = format!("  {:<40} {:>14} {:<6} {}", entry.name, value, unit, entry.source.word());
        if line.chars().count() <= width() {
            text.push_str(&line);
            text.push('\n');
        } else {
            paragraph(text, "  ", "    ", &format!("{}: {value} {unit} {}", entry.name, entry.source.word()));
        }
    }
}
