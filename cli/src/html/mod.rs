//! The whole record of a part as one HTML file that needs nothing else: no network, no script.
//!
//! Every number that is in the JSON report too stands in a `data` element with its full value and its place in the JSON.

mod answer;
mod any;
mod changes;
mod inputs;
mod number;
mod part;
mod piston;
mod plots;
mod rests;
mod rod;
mod words;

use std::io;

use layload_core::Record;
use maud::{DOCTYPE, Markup, PreEscaped, html};

use crate::figure;
use crate::plot::STYLE;
use crate::visible::visible;
pub(crate) use inputs::Inputs;

/// Rules of the page; those of the pictures are beside them.
const RULES: &str = include_str!("style.css");

/// The page.
pub(crate) fn page(record: &Record, inputs: &Inputs) -> io::Result<String> {
    let report = &record.report;
    let title = report.title.clone().unwrap_or_else(|| format!("Check of {}", inputs.mesh_name));
    let places = figure::places(report);
    let body = html! {
        header {
            p.kind { "Printed " (kind(record)) " · " (inputs.mesh_name) " · " (inputs.material) }
            h1 { (title) }
        }
        main {
            (answer::section(report)?)
            (part::section(record, &places)?)
            (plots::section(record)?)
            @if let Some(piston) = &report.piston { (piston::section(piston)) }
            @if let Some(rod) = &report.rod { (rod::section(report, rod)) }
            @if let Some(any) = &report.any { (any::section(any)) }
            (changes::section(report)?)
            (rests::section(report))
            (words::section(report))
            section id="cautions" {
                h2 { "Cautions" }
                ul { @for caution in &report.cautions { li { (caution) } } }
            }
            (inputs::section(record, inputs))
        }
        footer { p { "layload " (report.program_version) ", form of the report " (report.schema_version) ". An estimate, not an approval." } }
    };
    let page = html! {
        (DOCTYPE)
        html lang="en" {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width, initial-scale=1";
                meta name="color-scheme" content="light dark";
                title { (title) ": " (report.verdict.state.word()) }
                style { (PreEscaped(STYLE)) (PreEscaped(RULES)) }
            }
            body { (body) }
        }
    };
    Ok(visible(&(page.into_string() + "\n")).into_owned())
}

fn kind(record: &Record) -> &'static str {
    record.report.part.kind.words()
}

/// A picture with its caption; `wide` ones can be moved sideways on a narrow screen.
fn pictured(picture: &crate::plot::Picture, id: &str, wide: bool, role: &str) -> io::Result<Markup> {
    let drawing = PreEscaped(picture.inline(id, role)?);
    Ok(html! {
        figure id=(id) {
            figcaption { (picture.title()) }
            @if wide {
                div.wide tabindex="0" role="region" aria-label=(format!("{}, picture", picture.title())) { (drawing) }
            } @else { (drawing) }
            p.told { (picture.told()) }
        }
    })
}

/// A table that can be moved sideways on a narrow screen.
fn table(name: &str, head: &[(&str, bool)], rows: &Markup) -> Markup {
    html! {
        div.wide tabindex="0" role="region" aria-label=(format!("{name}, table")) {
            table {
                caption { (name) }
                thead { tr { @for (words, number) in head { th scope="col" class=[number.then_some("number")] { (words) } } } }
                tbody { (rows) }
            }
        }
    }
}
