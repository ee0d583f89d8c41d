use std::io;

use layload_core::Record;
use layload_core::report::Report;
use maud::{Markup, html};

use super::number::number;
use super::words::anchor;
use super::{pictured, table};
use crate::figure::{self, Place, number_of};
use crate::text::numbers::{duration, significant};

/// The part from three sides, and every way to give way with the number of its place.
pub(super) fn section(record: &Record, places: &[Place]) -> io::Result<Markup> {
    let report = &record.report;
    let to = |place: &Place| format!("#place-{}", place.number);
    let picture = figure::part(report, &record.drawing, places, Some(&to))?;
    let picture = pictured(&picture, "part-drawing", true, "group")?;
    Ok(html! {
        section id="part" {
            h2 { "The part and its weakest places" }
            (picture)
            (modes(report, places))
            (thin(report, places))
            (facts(report))
        }
    })
}

fn modes(report: &Report, places: &[Place]) -> Markup {
    let mut seen = Vec::new();
    let rows = html! {
        @for (index, mode) in report.modes.iter().enumerate() {
            @let tag = number_of(places, &mode.place);
            @let first = tag.filter(|tag| if seen.contains(tag) { false } else { seen.push(*tag); true });
            tr id=[first.map(|tag| format!("place-{tag}"))] class=[(mode.margin < 1.0).then_some("below")] {
                td.tag { @if let Some(tag) = tag { a href="#part-drawing" aria-label=(format!("place {tag} in the drawing")) { (tag) } } }
                th scope="row" { a href=(format!("#{}", anchor(mode.mode.words()))) { (mode.mode.words()) } }
                td { (mode.place) }
                td.number { (number(&format!("/modes/{index}/margin"), mode.margin, margin(mode.margin))) }
                td.number { @match mode.life_b10_s {
                    Some(life) => (number(&format!("/modes/{index}/life_b10_s"), life, duration(life))),
                    None => "-",
                } }
            }
        }
    };
    let head = [("Place", false), ("Fails by", false), ("Where", false), ("Margin", true), ("90 % last", true)];
    table("Failure modes: the least margin fails first (1 is the limit)", &head, &rows)
}

fn margin(value: f64) -> String {
    if value > 99.0 { "over 99".into() } else { significant(value) }
}

fn thin(report: &Report, places: &[Place]) -> Markup {
    let thin_sections = report.rod.as_ref().map_or(&[][..], |rod| &rod.thin_sections);
    html! {
        h3 { "Thin places" }
        @if thin_sections.is_empty() { p { "None thinner than two beads in the cuts along the part." } } @else {
            ul {
                @for (index, thin) in thin_sections.iter().enumerate() {
                    @let tag = number_of(places, &thin.place);
                    @let own = report.modes.iter().all(|mode| mode.place != thin.place)
                        && thin_sections[..index].iter().all(|before| before.place != thin.place);
                    li id=[tag.filter(|_| own).map(|tag| format!("place-{tag}"))] {
                        @if let Some(tag) = tag { a.tag href="#part-drawing" aria-label=(format!("place {tag} in the drawing")) { (tag) } " " }
                        (thin.place) ": "
                        (number(&format!("/rod/thin_sections/{index}/least_thickness_mm"), thin.least_thickness_mm, format!("{:.2}", thin.least_thickness_mm)))
                        " mm, limit "
                        (number(&format!("/rod/thin_sections/{index}/limit_mm"), thin.limit_mm, format!("{:.2}", thin.limit_mm)))
                        " mm (" (thin.reason) ")"
                    }
                }
            }
        }
    }
}

fn facts(report: &Report) -> Markup {
    let mesh = &report.mesh;
    html! {
        h3 { "As read from the mesh" }
        ul {
            li {
                (number("/mesh/facet_count", mesh.facet_count as f64, mesh.facet_count.to_string())) " facets, "
                (number("/mesh/volume_mm3", mesh.volume_mm3, format!("{:.0}", mesh.volume_mm3))) " mm³, "
                (number("/mesh/mass_g", mesh.mass_g, format!("{:.1}", mesh.mass_g))) " g as printed"
            }
            @if let Some(distance) = report.part.center_distance_mm {
                li { (number("/part/center_distance_mm", distance, format!("{distance:.2}"))) " mm between the bore centres" }
            }
            @for (index, bore) in report.part.bores.iter().enumerate() {
                li {
                    (bore.role) " bore "
                    (number(&format!("/part/bores/{index}/diameter_mm"), bore.diameter_mm, format!("{:.2}", bore.diameter_mm))) " mm, "
                    (number(&format!("/part/bores/{index}/depth_mm"), bore.depth_mm, format!("{:.1}", bore.depth_mm))) " mm long"
                }
            }
            li {
                "build direction " (number("/print/angle_to_axis_deg", report.print.angle_to_axis_deg, format!("{:.0}", report.print.angle_to_axis_deg)))
                "° from its axis; axial strength "
                (number("/print/axial_strength_share", report.print.axial_strength_share, significant(report.print.axial_strength_share)))
                " of bead strength"
            }
            @for note in &mesh.notes { li { (note) } }
        }
    }
}
