use std::io;

use layload_core::report::words::Words;
use layload_core::report::{Report, SpeedVerdict};
use maud::{Markup, html};

use super::number::{kept, number};
use super::pictured;
use crate::figure;
use crate::text::numbers::{duration, significant, whole};

/// The answer, its numbers and the life bar.
pub(super) fn section(report: &Report) -> io::Result<Markup> {
    let words = Words(report);
    let verdict = &report.verdict;
    let class = verdict.state.key();
    let life = pictured(&figure::life(report).picture(false)?, "life", true, "img")?;
    Ok(html! {
        section id="answer" {
            h2.hidden { "Answer" }
            div class=(format!("verdict {class}")) {
                p.word { (words.word()) }
                p.sentence { (kept(&words.sentence())) }
                p { "First to fail: " strong { (verdict.governing_mode.words()) } ", " (verdict.governing_place) ", margin " (number("/verdict/governing_margin", verdict.governing_margin, significant(verdict.governing_margin))) "." }
            }
            @if !report.warnings.is_empty() {
                div.beware {
                    h3 { "Unusual input" }
                    ul { @for warning in &report.warnings { li { (kept(&warning.message)) "." } } }
                }
            }
            (keys(report))
            p.caution { strong { "Safety. " } (report.cautions.first().map_or("", String::as_str)) " Parts burst at speed: use a shield, stand clear, guard against fire, protect eyes and ears; " a href="#cautions" { "all cautions" } "." }
            @if !verdict.unchecked.is_empty() {
                div.beware {
                    h3 { "Not checked" }
                    ul { @for item in &verdict.unchecked { li { (item) "." } } }
                }
            }
            (life)
            div.pair {
                div {
                    h3 { "In words" }
                    ul {
                        li { "Speed: " (kept(&words.highest())) }
                        @if let Some(lives) = words.lives() { li { "Life: " (kept(&lives)) } }
                        li { "Heat: " (kept(&words.heat())) }
                        li { "Confidence: " (kept(&words.confidence())) }
                    }
                }
                div {
                    h3 { "What to do" }
                    ol { @for item in words.advice() { li { (kept(&item)) } } }
                    p { a href="#changes" { "What every change does" } }
                }
            }
        }
    })
}

fn keys(report: &Report) -> Markup {
    let verdict = &report.verdict;
    let speed = match (verdict.max_rpm_meaning, verdict.max_rpm) {
        (SpeedVerdict::None, _) | (_, None) => html! { "none" },
        (SpeedVerdict::AtLeast, Some(rpm)) => html! { "over " (number("/verdict/max_rpm", rpm, whole(rpm))) " rpm" },
        (_, Some(rpm)) => html! { (number("/verdict/max_rpm", rpm, whole(rpm))) " rpm" },
    };
    html! {
        dl.keys {
            div { dt { "Margin of all modes together; 1 is the limit" } dd { (number("/verdict/margin", verdict.margin, significant(verdict.margin))) } }
            div { dt { "90 % of parts last" } dd { (number("/verdict/life_s", verdict.life_s, duration(verdict.life_s))) } }
            div { dt { "Wanted" } dd { (number("/verdict/wanted_life_s", verdict.wanted_life_s, duration(verdict.wanted_life_s))) } }
            div { dt { "Top speed for that" } dd { (speed) } }
            div { dt { "Top speed of the duty" } dd { (number("/verdict/duty_rpm", verdict.duty_rpm, whole(verdict.duty_rpm))) " rpm" } }
            @if let Some(crown) = report.piston.as_ref().map(|piston| &piston.crown_heat) {
                div { dt { (if crown.softening_time_s.is_some() { "Crown's face, hottest until lost" } else { "Crown's face at its hottest" }) } dd { (number("/piston/crown_heat/surface_c", crown.surface_c, format!("{:.0}", crown.surface_c))) " °C" } }
            } @else {
                div { dt { "Hottest place with load" } dd { (number("/heat/taken_c", report.heat.taken_c, format!("{:.0}", report.heat.taken_c))) " °C" } }
            }
            div { dt { "Mass as printed" } dd { (number("/mesh/mass_g", report.mesh.mass_g, format!("{:.1}", report.mesh.mass_g))) " g" } }
            div { dt { "Margin known within a factor of" } dd { (number("/uncertainty/margin_factor", report.uncertainty.margin_factor, significant(report.uncertainty.margin_factor))) } }
        }
    }
}
