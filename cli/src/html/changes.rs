use std::io;

use layload_core::report::Report;
use maud::{Markup, html};

use super::number::number;
use super::{pictured, table};
use crate::figure;
use crate::text::lasting::{factor, lasts, measure};
use crate::text::numbers::{duration, times};

/// What a change of the input does, and what the material values do.
pub(super) fn section(report: &Report) -> io::Result<Markup> {
    let bars = if report.sensitivities.is_empty() {
        None
    } else {
        Some(pictured(&figure::changes(report).picture(false)?, "changes-bars", true, "img")?)
    };
    let rows = html! {
        @for (index, entry) in report.sensitivities.iter().enumerate() {
            tr {
                th scope="row" { (entry.told()) }
                td.number { (number(&format!("/sensitivities/{index}/margin_factor"), entry.margin_factor, factor(entry.margin_factor))) }
                td.number { @match entry.life_factor {
                    Some(life) => (number(&format!("/sensitivities/{index}/life_factor"), life, lasts(entry))),
                    None => @match entry.softening.and_then(|softening| softening.to_s) {
                        Some(seconds) => { "soft after " (number(&format!("/sensitivities/{index}/softening/to_s"), seconds, duration(seconds))) }
                        None => (lasts(entry)),
                    },
                } }
            }
        }
    };
    let influences = html! {
        @for (index, entry) in report.uncertainty.influences.iter().enumerate() {
            tr {
                th scope="row" { (entry.name) }
                td { (entry.source.word()) }
                td.number { (number(&format!("/uncertainty/influences/{index}/margin_factor"), entry.margin_factor, times(entry.margin_factor))) }
            }
        }
    };
    Ok(html! {
        section id="changes" {
            h2 { "What a change does" }
            @if let Some(bars) = bars { (bars) }
            div.pair {
                @if !report.sensitivities.is_empty() {
                    (table(&format!("One change at a time, largest effect on {} first", measure(report)), &[("Change", false), ("margin", true), ("life", true)], &rows))
                }
                (table("A material value as much lower as is usual", &[("Value", false), ("source", false), ("margin", true)], &influences))
            }
        }
    })
}
