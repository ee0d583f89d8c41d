use std::io;

use layload_core::Record;
use layload_core::report::Report;
use maud::{Markup, html};

use super::number::number;
use super::{pictured, table};
use crate::figure;
use crate::plot::{Sheet, chart_picture};
use crate::text::numbers::{significant, whole};
use crate::text::table::chosen;

/// Forces, stresses, speeds, the bond of layers, build directions, and the crown of a piston.
pub(super) fn section(record: &Record) -> io::Result<Markup> {
    let report = &record.report;
    let mut figures = Vec::new();
    let column =
        |chart: &crate::plot::Chart, id: &str| pictured(&chart_picture(chart, Sheet::COLUMN)?, id, false, "img");
    // A part of any kind has no cuts.
    let cut = !report.stations.is_empty();
    if cut {
        figures.push(column(&figure::along(report), "along")?);
    }
    if let Some(crank) = &report.crank {
        figures.push(column(&figure::crank(crank), "crank")?);
    }
    let sweep =
        crate::plot::Chart { title: "Life and temperature against speed".into(), ..figure::sweep(&record.sweep) };
    figures.push(column(&sweep, "speed")?);
    if let Some(piston) = &report.piston {
        figures.push(column(&figure::crown(&piston.crown_heat), "crown")?);
    }
    if let Some(bond) = &report.print.bond {
        figures.push(column(&figure::bond(bond), "bond")?);
    }
    if !record.directions.is_empty() {
        let picture = figure::directions(&record.directions, figure::built(record), false)?;
        figures.push(pictured(&picture, "directions", false, "img")?);
    }
    Ok(html! {
        section id="forces" {
            h2 { "Forces, speed and heat" }
            div.columns { @for figure in &figures { (figure) } }
            (loads(report))
            @if cut { (stations(report)) }
        }
    })
}

fn loads(report: &Report) -> Markup {
    let loads = &report.loads;
    let force = |name: &str, key: &str, value: f64, unit: &str| {
        html! { div { dt { (name) } dd { (number(&format!("/{key}"), value, whole(value))) " " (unit) } } }
    };
    html! {
        h3 { "What the engine does to it" }
        dl.keys.small {
            div { dt { "Peak pressure, absolute" } dd { (number("/loads/peak_pressure_bar", loads.peak_pressure_bar, significant(loads.peak_pressure_bar))) " bar" } }
            (force("Greatest piston acceleration", "loads/piston_acceleration_max_m_s2", loads.piston_acceleration_max_m_s2, "m/s²"))
            div { dt { "Mean piston speed" } dd { (number("/loads/mean_piston_speed_m_s", loads.mean_piston_speed_m_s, significant(loads.mean_piston_speed_m_s))) " m/s" } }
            @if let Some(forces) = report.rod.as_ref().map(|rod| &rod.forces) {
                (force("Piston pin pulls with", "rod/forces/small_end_pull_n", forces.small_end_pull_n, "N"))
                (force("Piston pin pushes with", "rod/forces/small_end_push_n", forces.small_end_push_n, "N"))
                (force("Crank pin pulls with", "rod/forces/big_end_pull_n", forces.big_end_pull_n, "N"))
                (force("Crank pin pushes with", "rod/forces/big_end_push_n", forces.big_end_push_n, "N"))
                (force("Whip bends the shank with", "rod/forces/whip_moment_max_n_mm", forces.whip_moment_max_n_mm, "N mm"))
            }
            @if let Some(piston) = &report.piston {
                (force("Piston pin pulls with", "piston/pin_pull_n", piston.pin_pull_n, "N"))
                (force("Piston pin pushes with", "piston/pin_push_n", piston.pin_push_n, "N"))
            }
        }
    }
}

fn stations(report: &Report) -> Markup {
    let rows = html! {
        @for index in chosen(&report.stations) {
            @let station = &report.stations[index];
            @let of = |key: &str, value: f64, digits: usize| number(&format!("/stations/{index}/{key}"), value, format!("{value:.digits$}"));
            tr {
                th.number scope="row" { (of("position_mm", station.position_mm, 1)) }
                td.number { (of("area_mm2", station.area_mm2, 1)) }
                td.number { (of("solid_area_mm2", station.solid_area_mm2, 1)) }
                td.number { @match station.thinnest_wall_mm { Some(wall) => (of("thinnest_wall_mm", wall, 2)), None => "–" } }
                td.number { (of("axial_force_min_n", station.axial_force_min_n, 0)) }
                td.number { (of("axial_force_max_n", station.axial_force_max_n, 0)) }
                td.number { (of("stress_min_mpa", station.stress_min_mpa, 1)) }
                td.number { (of("stress_max_mpa", station.stress_max_mpa, 1)) }
                td.number { (of("temperature_c", station.temperature_c, 0)) }
                td.number { (number(&format!("/stations/{index}/utilisation"), station.utilisation, format!("{:.0}", 100.0 * station.utilisation))) }
            }
        }
    };
    let head = [
        ("at, mm", true),
        ("area, mm²", true),
        ("solid, mm²", true),
        ("thinnest, mm", true),
        ("force from, N", true),
        ("to, N", true),
        ("stress from, MPa", true),
        ("to, MPa", true),
        ("°C", true),
        ("used, %", true),
    ];
    let name = format!("Some of the {} cuts along the load path", report.stations.len());
    table(&name, &head, &rows)
}
