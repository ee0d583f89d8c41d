use layload_core::report::{FieldReport, GoverningStress, Report};

use super::numbers::{duration, significant};
use super::wrap::paragraph;

/// What the stress field found, and which counts where it differs from the sections.
pub(crate) fn write(text: &mut String, report: &Report) {
    let Some(field) = &report.field else { return };
    text.push_str("\nStress field\n");
    let iterations: usize = field.solves.iter().map(|solve| solve.iterations).sum();
    let seconds: Option<f64> = field.solves.iter().map(|solve| solve.seconds).sum();
    let taken = seconds.map_or_else(String::new, |s| format!(", {s:.1} s"));
    paragraph(
        text,
        "  ",
        "  ",
        &format!(
            "{} cells of {:.2} mm, {} load cases, {iterations} iterations{taken}. {}",
            field.cells,
            field.cell_mm,
            field.solves.len(),
            verdict(field)
        ),
    );
    text.push_str("  margin  stress     Kt  handbook  life         fails by\n");
    for spot in &field.hot_spots {
        let kt = spot.kt.map_or_else(|| "-".to_string(), |kt| format!("{kt:.2}"));
        let life = spot.life_s.map_or_else(|| "-".to_string(), duration);
        let row = format!(
            "  {:>6}  {:>6.1}  {kt:>5}  {:>8.2}  {life:<11}  ",
            significant(spot.margin),
            spot.stress_mpa,
            spot.handbook_kt
        );
        let [x, y, z] = spot.position_mm;
        paragraph(text, &row, &row, spot.mode.words());
        let inset = " ".repeat(10);
        let sharp = match (spot.sharp_corner, spot.depth_mm) {
            (false, _) => "",
            (true, Some(_)) => "; below a sharp inner corner",
            (true, None) => "; sharp inner corner, does not count",
        };
        paragraph(text, &inset, &inset, &format!("{}; at {x:.1}, {y:.1}, {z:.1}{sharp}", spot.place));
        if let Some(why) = &spot.why {
            paragraph(text, &inset, &inset, why);
        }
    }
    paragraph(
        text,
        "  ",
        "  ",
        &format!(
            "Stress in MPa, tension positive. Kt is stress over {}. Places in mm of the file. At a sharp inner corner the stress \
             has no bound: it is taken at half the material's critical distance below.",
            field.nominal
        ),
    );
}

fn verdict(field: &FieldReport) -> String {
    match field.governing {
        GoverningStress::Sections => {
            "Sections and handbook factors find the lesser margin everywhere, so they count.".into()
        }
        GoverningStress::Field => {
            let raised: Vec<String> = field
                .regions
                .iter()
                .zip(&field.raised)
                .filter(|(_, factor)| **factor > 1.0)
                .map(|(place, factor)| format!("{place} ({} times)", significant(*factor)))
                .collect();
            format!(
                "It finds less margin than sections and handbook factors at {}: there the field counts in the answer above.",
                raised.join(" and ")
            )
        }
    }
}
