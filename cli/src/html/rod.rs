use layload_core::report::{CapReport, Report, RodReport};
use maud::{Markup, html};

use super::number::number;
use super::table;
use crate::text::numbers::{duration, significant, whole};

/// Eyes, length and fits of a rod.
pub(super) fn section(report: &Report, rod: &RodReport) -> Markup {
    html! {
        section id="fits" {
            h2 { "Eyes, length and fits" }
            (eyes(rod))
            @if let Some(gap) = &report.clearance {
                @let of = |key: &str, value: f64| number(&format!("/clearance/{key}"), value, format!("{value:+.3}"));
                p {
                    "Between the bore centres " (of("elastic_mm", gap.elastic_mm)) " mm at the greatest pull, "
                    (of("creep_mm", gap.creep_mm)) " mm by creep over the wanted life, " (of("thermal_mm", gap.thermal_mm)) " mm by heat."
                    @if let (Some(given), Some(left)) = (gap.given_mm, gap.remaining_mm) {
                        " Of the gap of " (of("given_mm", given)) " mm to the head " (of("remaining_mm", left)) " mm are left"
                        @if left <= 0.0 { ": " strong { "the piston strikes the head" } } "."
                    }
                }
            }
            @for (index, fit) in rod.fits.iter().enumerate() {
                @let of = |key: &str, value: f64, shown: String| number(&format!("/rod/fits/{index}/{key}"), value, shown);
                p {
                    (fit.role) ": " (fit.ring) " pressed in with "
                    (of("interference_least_mm", fit.interference_least_mm, format!("{:.3}", fit.interference_least_mm))) " to "
                    (of("interference_most_mm", fit.interference_most_mm, format!("{:.3}", fit.interference_most_mm))) " mm; hoop stress "
                    (of("hoop_assembled_mpa", fit.hoop_assembled_mpa, significant(fit.hoop_assembled_mpa))) " MPa when assembled, "
                    (of("utilisation_assembled", fit.utilisation_assembled, format!("{:.0}", 100.0 * fit.utilisation_assembled))) " % of the strength there; "
                    @match fit.grip_lasts_s {
                        Some(seconds) if seconds <= 0.0 => "it does not grip at running temperature, so it can turn.",
                        Some(seconds) => { "it grips for " (of("grip_lasts_s", seconds, duration(seconds))) ", then it can turn." }
                        None => "it grips for more than 100 times the wanted life.",
                    }
                    @if let Some(rating) = &fit.rating {
                        " Rating life by ISO 281: 90 % of bearings last "
                        (of("rating/life_s", rating.life_s, duration(rating.life_s))) ", "
                        (of("rating/life_turns", rating.life_turns, format!("{:.2e}", rating.life_turns))) " turns"
                        @if rating.swings { ", by the angle it swings" }
                        "; C " (of("rating/dynamic_rating_n", rating.dynamic_rating_n, whole(rating.dynamic_rating_n)))
                        " N over an equivalent load of "
                        (of("rating/equivalent_load_n", rating.equivalent_load_n, whole(rating.equivalent_load_n))) " N."
                    }
                }
            }
            @for (index, cap) in rod.caps.iter().enumerate() { (clamped(index, cap)) }
        }
    }
}

/// A clamped cap and how its preload fades.
fn clamped(index: usize, cap: &CapReport) -> Markup {
    let of = |key: &str, value: f64, shown: String| number(&format!("/rod/caps/{index}/{key}"), value, shown);
    let newtons = |key: &str, value: f64| of(key, value, whole(value));
    let rows = html! {
        @for (row, fading) in cap.fading.iter().enumerate() {
            tr {
                th scope="row" { (of(&format!("fading/{row}/hours"), fading.hours, duration(fading.hours * 3600.0))) }
                td.number { (newtons(&format!("fading/{row}/preload_n"), fading.preload_n)) }
                td.number { (of(&format!("fading/{row}/lost"), fading.lost, format!("{:.0}", 100.0 * fading.lost))) }
            }
        }
    };
    html! {
        p {
            (cap.role) " cap: " (cap.studs) ", " (newtons("preload_n", cap.preload_n)) " N together, "
            (of("squeeze_mpa", cap.squeeze_mpa, significant(cap.squeeze_mpa))) " MPa under a head ("
            (of("utilisation_assembled", cap.utilisation_assembled, format!("{:.0}", 100.0 * cap.utilisation_assembled)))
            " % of the compression strength there), " (of("stud_stress_mpa", cap.stud_stress_mpa, significant(cap.stud_stress_mpa)))
            " MPa in a stud; " (newtons("preload_warm_n", cap.preload_warm_n)) " N when warm, "
            (newtons("preload_left_n", cap.preload_left_n)) " N after the wanted life. The running rod pulls on it with "
            (newtons("joint_pull_n", cap.joint_pull_n)) " N, "
            @match cap.opens_after_s {
                Some(seconds) if seconds <= 0.0 => "which opens the joint from the start.",
                Some(seconds) => { "which opens the joint after " (of("opens_after_s", seconds, duration(seconds))) "." }
                None => "and the joint stays shut for more than 100 times the wanted life.",
            }
        }
        (table("Preload at running temperature", &[("After", false), ("left, N", true), ("lost, %", true)], &rows))
    }
}

fn eyes(rod: &RodReport) -> Markup {
    let rows = html! {
        @for (index, eye) in rod.eyes.iter().enumerate() {
            @let of = |key: &str, value: f64, digits: usize| number(&format!("/rod/eyes/{index}/{key}"), value, format!("{value:.digits$}"));
            tr {
                th scope="row" { (eye.role) }
                td.number { (of("ligament_mm", eye.ligament_mm, 2)) }
                td.number { (of("thickness_mm", eye.thickness_mm, 1)) }
                td.number { (of("radial_clearance_mm", eye.radial_clearance_mm, 3)) }
                td.number { (of("peak_factor_pull", eye.peak_factor_pull, 2)) }
                td.number { (of("hoop_stress_max_mpa", eye.hoop_stress_max_mpa, 1)) }
                td.number { (of("pin_pressure_mpa", eye.pin_pressure_mpa, 1)) }
            }
        }
    };
    let head = [
        ("Eye", false),
        ("wall, mm", true),
        ("thickness, mm", true),
        ("radial clearance, mm", true),
        ("peak factor", true),
        ("hoop stress, MPa", true),
        ("pin pressure, MPa", true),
    ];
    table("The eyes", &head, &rows)
}
