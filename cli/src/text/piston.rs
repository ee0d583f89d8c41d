use std::fmt::Write;

use layload_core::report::{CrownHeatReport, PistonReport, Report};

use super::numbers::{duration, significant};
use super::table::bond;
use super::wrap::{heading, paragraph};

/// Rows of the table along the axis.
const ROWS: usize = 10;

/// Everything that only a piston has.
pub(crate) fn write(text: &mut String, report: &Report, piston: &PistonReport) {
    softening(text, &piston.crown_heat);
    walls(text, report);
    rings(text, piston);
    growth(text, piston);
}

fn softening(text: &mut String, heat: &CrownHeatReport) {
    heading(text, "The crown in one run from cold");
    text.push_str("        time   face °C   plastic °C   underside °C   soft mm\n");
    // Every second row, the last among them.
    let rows = heat.table.iter().rev().step_by(2).collect::<Vec<_>>();
    for moment in rows.into_iter().rev() {
        let _ = writeln!(
            text,
            "  {:>10}  {:>8.0}  {:>11.0}  {:>13.0}  {:>8.2}",
            duration(moment.seconds),
            moment.surface_c,
            moment.plastic_face_c,
            moment.underside_c,
            moment.soft_depth_mm
        );
    }
    let time = |seconds: Option<f64>| seconds.map_or_else(|| "not in this run".into(), duration);
    let line = format!(
        "soft to a depth of {:.2} mm: {} by Hohenberg's film, {} by Woschni's; the shorter time counts ({:.0} W/(m² K) at \
         {:.0} °C). Top land: at most {:.0} °C.",
        heat.counting_depth_mm,
        time(heat.crown_soft_hohenberg_s),
        time(heat.crown_soft_woschni_s),
        heat.film_w_m2_k,
        heat.film_temperature_c,
        heat.top_land_c
    );
    paragraph(text, "  ", "    ", &line);
}

fn walls(text: &mut String, report: &Report) {
    heading(text, "Along the axis, from skirt to crown");
    text.push_str("  height mm   area mm²   axial force N      stress MPa       °C   used\n");
    let all = &report.stations;
    let mut shown: Vec<usize> = (0..ROWS).map(|row| row * all.len().saturating_sub(1) / (ROWS - 1)).collect();
    let worst = all.iter().enumerate().max_by(|a, b| a.1.utilisation.total_cmp(&b.1.utilisation)).map(|(i, _)| i);
    shown.extend(worst);
    shown.sort_unstable();
    shown.dedup();
    for station in shown.into_iter().filter_map(|index| all.get(index)) {
        let _ = writeln!(
            text,
            "  {:>9.1}  {:>9.1}  {:>6.0} to {:>5.0}  {:>6.1} to {:>5.1}  {:>5.0}  {:>4.0} %",
            station.position_mm,
            station.area_mm2,
            station.axial_force_min_n,
            station.axial_force_max_n,
            station.stress_min_mpa,
            station.stress_max_mpa,
            station.temperature_c,
            station.utilisation * 100.0
        );
    }
}

fn rings(text: &mut String, piston: &PistonReport) {
    heading(text, "Ring grooves and lands, from the crown");
    if piston.grooves.is_empty() {
        text.push_str("  none found\n");
    }
    for (index, groove) in piston.grooves.iter().enumerate() {
        let line = format!(
            "groove {}: {:.2} mm below the crown, {:.2} mm wide, {:.2} mm deep; heat opens it by {:.3} mm, gas closes it by \
             {:.3} mm, its floor grows {:.2} mm toward the ring",
            index + 1,
            groove.below_crown_mm,
            groove.width_mm,
            groove.depth_mm,
            groove.width_growth_mm,
            groove.closing_mm,
            groove.floor_growth_mm
        );
        paragraph(text, "  ", "    ", &line);
    }
    for land in &piston.lands {
        let line = format!(
            "land {}: {:.2} mm high, {:.2} mm deep, {:.1} MPa at its root at {:.0} °C",
            land.number, land.height_mm, land.depth_mm, land.root_stress_mpa, land.temperature_c
        );
        paragraph(text, "  ", "    ", &line);
    }
}

fn growth(text: &mut String, piston: &PistonReport) {
    heading(text, "Growth in the cylinder (diameters)");
    for growth in &piston.growth {
        let line = format!(
            "{} at {:.0} °C: clearance {:.3} mm cold; piston grows {:.3} mm, cylinder {:.3} mm; {:.3} mm left when running; make it \
             {:.3} mm cold",
            growth.place,
            growth.temperature_c,
            growth.cold_clearance_mm,
            growth.growth_mm,
            growth.bore_growth_mm,
            growth.running_clearance_mm,
            growth.wanted_clearance_mm
        );
        paragraph(text, "  ", "    ", &line);
    }
}

/// The part as recognised.
pub(super) fn part(text: &mut String, report: &Report, piston: &PistonReport) {
    heading(text, "The part");
    let (mesh, crown) = (&report.mesh, &piston.crown);
    let whole = format!(
        "piston: skirt {:.2} mm, {:.2} mm above and {:.2} mm below the pin, {:.0} mm³, {:.1} g, {} facets",
        piston.skirt_diameter_mm,
        piston.compression_height_mm,
        piston.length_mm - piston.compression_height_mm,
        mesh.volume_mm3,
        mesh.mass_g,
        mesh.facet_count
    );
    paragraph(text, "  ", "    ", &whole);
    let plate = format!(
        "crown {:.2} mm thick ({:.2} to {:.2}) over {:.2} mm; its wall holds the edge by {:.0} % of a clamp; margin {} ({} supported, {} \
         clamped); deflection {:.2} to {:.2} mm",
        crown.thickness_mm,
        crown.thin_mm,
        crown.thick_mm,
        crown.free_diameter_mm,
        crown.edge_share * 100.0,
        significant(crown.margin),
        significant(crown.margin_supported),
        significant(crown.margin_clamped),
        crown.deflection_mm[0],
        crown.deflection_mm[1]
    );
    paragraph(text, "  ", "    ", &plate);
    for bore in &report.part.bores {
        let gap = piston.boss_gap_mm.map_or_else(String::new, |gap| format!(", {gap:.2} mm apart"));
        let wall = piston.boss_wall_mm.map_or_else(String::new, |wall| format!(", wall {wall:.2} mm"));
        let line = format!(
            "pin bore {:.2} mm, {:.1} mm long in {} boss{}{gap}{wall}; pin pressure {:.1} MPa",
            bore.diameter_mm,
            bore.depth_mm,
            piston.bosses.len(),
            if piston.bosses.len() == 1 { "" } else { "es" },
            piston.pin_pressure_mpa
        );
        paragraph(text, "  ", "    ", &line);
    }
    let line = format!(
        "side thrust {:.0} N, {:.2} MPa on the skirt; build direction {:.0}° from the axis",
        piston.side_thrust_n, piston.skirt_pressure_mpa, report.print.angle_to_axis_deg
    );
    paragraph(text, "  ", "    ", &line);
    bond(text, report);
    for note in &mesh.notes {
        paragraph(text, "  ", "  ", note);
    }
}
