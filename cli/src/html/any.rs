use layload_core::report::{AnyReport, PlaceShapeWord};
use maud::{Markup, html};

use super::number::number;
use super::table;

/// Places, holds and loads of a part of any kind.
pub(super) fn section(any: &AnyReport) -> Markup {
    html! {
        section id="places" {
            h2 { "Places, holds and loads" }
            (places(any))
            (loads(any))
        }
    }
}

fn places(any: &AnyReport) -> Markup {
    let rows = html! {
        @for (index, place) in any.places.iter().enumerate() {
            @let of = |key: &str, value: f64, digits: usize| number(&format!("/any/places/{index}/{key}"), value, format!("{value:.digits$}"));
            @let held = any.holds.iter().find(|hold| hold.at.as_deref() == Some(place.name.as_str()));
            tr {
                th scope="row" { (place.name) }
                td {
                    @if place.shape == PlaceShapeWord::Bore { "bore" } @else { "face" }
                    @if let Some(wide) = place.diameter_mm { " of " (of("diameter_mm", wide, 2)) " mm" }
                }
                td.number { (place.facets) }
                td.number { (of("area_mm2", place.area_mm2, 0)) }
                td.number {
                    @for axis in 0..3 { (of(&format!("center_mm/{axis}"), place.center_mm[axis], 1)) " " }
                }
                td { @if let Some(hold) = held { (format!("{:?}", hold.held_as).to_lowercase()) } }
            }
        }
    };
    let head = [
        ("Place", false),
        ("what it is", false),
        ("facets", true),
        ("mm²", true),
        ("middle, mm", true),
        ("held", false),
    ];
    table("Places as they were found", &head, &rows)
}

fn loads(any: &AnyReport) -> Markup {
    let rows = html! {
        @for (index, load) in any.loads.iter().enumerate() {
            @let of = |key: &str, value: f64| number(&format!("/any/loads/{index}/{key}"), value, format!("{value}"));
            tr {
                th scope="row" { (load.name) }
                td { (load.what) }
                td { (load.at.as_deref().unwrap_or("whole part")) }
                td.number { (of("least", load.least)) }
                td.number { (of("greatest", load.greatest)) }
            }
        }
    };
    let head = [("Load", false), ("what it is", false), ("at", false), ("least times", true), ("greatest times", true)];
    table(&format!("Loads: {}", any.history), &head, &rows)
}
