use layload_core::report::PistonReport;
use maud::{Markup, html};

use super::number::number;
use super::table;
use crate::text::numbers::{duration, significant};

/// Crown, rings and growth of a piston.
pub(super) fn section(piston: &PistonReport) -> Markup {
    let (crown, heat) = (&piston.crown, &piston.crown_heat);
    let time = |key: &str, seconds: Option<f64>| {
        let known = |seconds| number(&format!("/piston/crown_heat/{key}"), seconds, duration(seconds));
        seconds.map_or_else(|| html! { "not in this run" }, known)
    };
    html! {
        section id="piston" {
            h2 { "Crown, rings and growth" }
            ul {
                li {
                    "The depth that counts, " (number("/piston/crown_heat/counting_depth_mm", heat.counting_depth_mm, format!("{:.2}", heat.counting_depth_mm)))
                    " mm, is soft by Hohenberg's film: " (time("crown_soft_hohenberg_s", heat.crown_soft_hohenberg_s))
                    "; by Woschni's: " (time("crown_soft_woschni_s", heat.crown_soft_woschni_s)) ". The shorter time decides."
                }
                li {
                    "Crown " (number("/piston/crown/thickness_mm", crown.thickness_mm, format!("{:.2}", crown.thickness_mm))) " mm thick over "
                    (number("/piston/crown/free_diameter_mm", crown.free_diameter_mm, format!("{:.2}", crown.free_diameter_mm)))
                    " mm; its wall holds the edge by " (number("/piston/crown/edge_share", crown.edge_share, format!("{:.0}", 100.0 * crown.edge_share)))
                    " % of a clamp's moment: margin " (number("/piston/crown/margin", crown.margin, significant(crown.margin)))
                    "; were the edge supported " (number("/piston/crown/margin_supported", crown.margin_supported, significant(crown.margin_supported)))
                    ", clamped " (number("/piston/crown/margin_clamped", crown.margin_clamped, significant(crown.margin_clamped))) "."
                }
                li {
                    "Side thrust " (number("/piston/side_thrust_n", piston.side_thrust_n, format!("{:.0}", piston.side_thrust_n))) " N; pin pressure "
                    (number("/piston/pin_pressure_mpa", piston.pin_pressure_mpa, format!("{:.1}", piston.pin_pressure_mpa))) " MPa; piston, rings and pin "
                    (number("/piston/masses/whole_g", piston.masses.whole_g, format!("{:.1}", piston.masses.whole_g))) " g."
                }
            }
            (growth(piston))
            @if !piston.grooves.is_empty() { (grooves(piston)) }
        }
    }
}

fn growth(piston: &PistonReport) -> Markup {
    let rows = html! {
        @for (index, growth) in piston.growth.iter().enumerate() {
            @let of = |key: &str, value: f64, digits: usize| number(&format!("/piston/growth/{index}/{key}"), value, format!("{value:.digits$}"));
            tr {
                th scope="row" { (growth.place) }
                td.number { (of("temperature_c", growth.temperature_c, 0)) }
                td.number { (of("cold_clearance_mm", growth.cold_clearance_mm, 3)) }
                td.number { (of("growth_mm", growth.growth_mm, 3)) }
                td.number { (of("bore_growth_mm", growth.bore_growth_mm, 3)) }
                td.number { (of("running_clearance_mm", growth.running_clearance_mm, 3)) }
                td.number { (of("wanted_clearance_mm", growth.wanted_clearance_mm, 3)) }
            }
        }
    };
    let head = [
        ("Place", false),
        ("°C", true),
        ("clearance cold, mm", true),
        ("grows, mm", true),
        ("bore grows, mm", true),
        ("left when warm, mm", true),
        ("wanted cold, mm", true),
    ];
    table("Growth in the cylinder, diameters", &head, &rows)
}

fn grooves(piston: &PistonReport) -> Markup {
    let rows = html! {
        @for (index, groove) in piston.grooves.iter().enumerate() {
            @let of = |key: &str, value: f64, digits: usize| number(&format!("/piston/grooves/{index}/{key}"), value, format!("{value:.digits$}"));
            tr {
                th scope="row" { (index + 1) }
                td.number { (of("below_crown_mm", groove.below_crown_mm, 2)) }
                td.number { (of("width_mm", groove.width_mm, 2)) }
                td.number { (of("depth_mm", groove.depth_mm, 2)) }
                td.number { (of("width_growth_mm", groove.width_growth_mm, 3)) }
                td.number { (of("closing_mm", groove.closing_mm, 3)) }
                td.number { (of("floor_growth_mm", groove.floor_growth_mm, 3)) }
            }
        }
    };
    let head = [
        ("Groove", false),
        ("below crown, mm", true),
        ("width, mm", true),
        ("depth, mm", true),
        ("heat opens, mm", true),
        ("gas closes, mm", true),
        ("floor grows, mm", true),
    ];
    table("Ring grooves from the crown down", &head, &rows)
}
