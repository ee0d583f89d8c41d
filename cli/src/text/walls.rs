use layload_core::report::{ThinRegionReport, WallsReport};

use super::numbers::significant;
use super::safety;
use super::wrap::{heading, list, paragraph};

/// The answer to which walls are too thin.
pub(crate) fn walls(report: &WallsReport) -> String {
    let mut text = String::new();
    let count = report.thin_regions.len();
    let first = match report.thin_regions.first() {
        None => "no wall is thinner than its limit.".to_string(),
        Some(worst) => {
            format!("{count} too thin; first {}: {:.2} mm, {}.", worst.place, worst.least_thickness_mm, worst.reason)
        }
    };
    paragraph(&mut text, "Walls  ", "       ", &first);
    let [thin, middle, thick] = report.thickness_mm_by_area;
    let spread = format!(
        "50 % of the surface has walls over {} mm, 90 % over {} mm, 10 % over {} mm.",
        significant(middle),
        significant(thin),
        significant(thick)
    );
    paragraph(&mut text, "Part   ", "       ", &spread);

    heading(&mut text, "Thin walls, worst first");
    if report.thin_regions.is_empty() {
        text.push_str("  none\n");
    }
    for (words, places) in alike(&report.thin_regions) {
        let [place, size, reason] = words;
        let at = if places.len() > 1 { format!("each of {} places: ", places.len()) } else { String::new() };
        let line = format!("{place}: {size}, at {at}{} of the mesh; {reason}", places.join(" and "));
        paragraph(&mut text, "  ", "    ", &line);
    }

    heading(&mut text, "Sudden changes of section between the bores");
    if report.area_steps.is_empty() {
        text.push_str("  none\n");
    }
    for step in &report.area_steps {
        let line = format!(
            "from {} to {} mm² between {:.1} and {:.1} mm from the small end: peak stress {:.2} times the mean; equals a \
             {:.1} mm fillet",
            significant(step.area_from_mm2),
            significant(step.area_to_mm2),
            step.from_mm,
            step.to_mm,
            step.concentration,
            step.fillet_radius_mm
        );
        paragraph(&mut text, "  ", "    ", &line);
    }
    list(&mut text, "Limits of this measure", &report.notes);
    text.push('\n');
    safety(&mut text);
    text
}

/// Regions with the same words, as on the two sides of a part, told once with all their places.
fn alike(regions: &[ThinRegionReport]) -> Vec<([String; 3], Vec<String>)> {
    let mut found: Vec<([String; 3], Vec<String>)> = Vec::new();
    for region in regions {
        let [x, y, z] = region.center_mm;
        let size = format!("{:.2} mm over {} mm²", region.least_thickness_mm, significant(region.area_mm2));
        let words = [region.place.clone(), size, region.reason.clone()];
        let at = format!("{x:.1},{y:.1},{z:.1}");
        match found.iter_mut().find(|(other, _)| *other == words) {
            Some((_, places)) => places.push(at),
            None => found.push((words, vec![at])),
        }
    }
    found
}
