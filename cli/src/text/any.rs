use std::fmt::Write;

use layload_core::report::{AnyReport, FeaturesReport, PlaceShapeWord};

use super::numbers::significant;
use super::safety;
use super::wrap::{heading, paragraph};

/// Places of a part of any kind, with what was found at each.
pub(crate) fn places(text: &mut String, any: &AnyReport) {
    heading(text, "Places as they were found");
    text.push_str("  name              shape     facets     mm²   middle x, y, z mm\n");
    for place in &any.places {
        let shape = match (place.shape, place.diameter_mm) {
            (PlaceShapeWord::Bore, Some(wide)) => format!("ø {wide:.2}"),
            _ => "face".into(),
        };
        let [x, y, z] = place.center_mm.map(|mm| (mm * 100.0).round() / 100.0 + 0.0);
        let name: String = place.name.chars().take(16).collect();
        let _ =
            writeln!(text, "  {name:<16}  {shape:<8}  {:>6}  {:>6.0}   {x}, {y}, {z}", place.facets, place.area_mm2);
    }
    for warm in &any.warm {
        let _ = writeln!(
            text,
            "  {} at {:.0} °C, falling to a third over {:.1} mm",
            warm.at, warm.temperature_c, warm.reach_mm
        );
    }
}

/// Bores and flat faces of a part, each with the lines that make it a place.
pub(crate) fn features(report: &FeaturesReport) -> String {
    let mut text = String::new();
    let count = format!("{} bores and {} flat faces.", report.bores.len(), report.faces.len());
    paragraph(&mut text, "Found  ", "       ", &count);
    heading(&mut text, "Bores, the widest first (mm of the file)");
    for (number, bore) in report.bores.iter().enumerate() {
        let [x, y, z] = rounded(bore.center_mm, 2);
        let [a, b, c] = rounded(bore.axis, 2);
        let round = if bore.arc_deg > 359.0 { String::new() } else { format!(", {:.0}° of a circle", bore.arc_deg) };
        let told = format!("{:.2} wide, {:.2} deep{round}, axis along {a}, {b}, {c}", bore.diameter_mm, bore.depth_mm);
        paragraph(&mut text, &format!("{:>4}  ", number + 1), "      ", &told);
        let _ = writeln!(text, "      bore = {{ near_mm = [{x}, {y}, {z}], diameter_mm = {:.2} }}", bore.diameter_mm);
    }
    heading(&mut text, "Flat faces, the largest first");
    for (number, face) in report.faces.iter().enumerate() {
        let [x, y, z] = rounded(face.on_mm, 2);
        let [a, b, c] = rounded(face.direction, 2);
        let told = format!("{} mm², facing {a}, {b}, {c}", significant(face.area_mm2));
        paragraph(&mut text, &format!("{:>4}  ", number + 1), "      ", &told);
        let _ = writeln!(text, "      face = {{ near_mm = [{x}, {y}, {z}] }}");
    }
    text.push('\n');
    paragraph(
        &mut text,
        "",
        "  ",
        "In the job: kind = \"any\" in [part], then [[place]] with a name and one of these lines.",
    );
    safety(&mut text);
    text
}

/// Rounded to so many digits, and no negative nothing.
fn rounded(of: [f64; 3], digits: i32) -> [f64; 3] {
    let scale = 10.0_f64.powi(digits);
    of.map(|c| (c * scale).round() / scale + 0.0)
}
