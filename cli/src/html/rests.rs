use layload_core::job::{Assumption, Origin, Quantity};
use layload_core::report::Report;
use layload_core::report::words::Words;
use maud::{Markup, html};

use super::number::number;
use super::table;
use super::words::anchor;
use crate::text::numbers::significant;

/// What the answer rests on, by the word for its source, and where the model is weak.
pub(super) fn section(report: &Report) -> Markup {
    let origins = [
        Origin::Given,
        Origin::Mesh,
        Origin::Coupon,
        Origin::Published,
        Origin::Pooled,
        Origin::CommonPractice,
        Origin::Memory,
    ];
    let count = |origin: Origin| report.assumptions.iter().filter(|entry| entry.source == origin).count();
    let rows = html! {
        @for (index, entry) in report.assumptions.iter().enumerate() { (row(index, entry)) }
    };
    let head = [("What", false), ("value", true), ("unit", false), ("source", false), ("reference", false)];
    html! {
        section id="rests" {
            h2 { "What this rests on" }
            p.sources {
                @for origin in origins { @if count(origin) > 0 {
                    span.source { a href=(format!("#{}", anchor(origin.word()))) { (origin.word()) } " " (count(origin)) } " "
                } }
            }
            (table("Everything taken, with its source", &head, &rows))
            h3 { "Limits of this estimate" }
            ul { @for note in report.notes.iter().chain(&Words(report).effects()) { li { (note) } } }
        }
    }
}

fn row(index: usize, entry: &Assumption) -> Markup {
    html! {
        tr {
            th scope="row" { (entry.name) }
            td.number { @match &entry.value {
                Quantity::Number(value) => (number(&format!("/assumptions/{index}/value"), *value, significant(*value))),
                Quantity::Word(word) => (word),
            } }
            td { @if entry.unit != "1" { (entry.unit) } }
            td { (entry.source.word()) }
            td.reference { @if let Some(reference) = &entry.reference { (reference) } }
        }
    }
}
