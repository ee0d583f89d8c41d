//! Places, holds and loads of a part of any kind as they were taken.

use crate::job::HoldWord;
use crate::report::{AnyReport, PlaceReport, PlaceShapeWord};

use super::numbers::significant;

/// The places as they were found, so that a wrong one is seen.
pub(super) fn places(any: &AnyReport) -> String {
    let told: Vec<String> = any.places.iter().map(place).collect();
    format!("{}.", told.join("; "))
}

fn place(place: &PlaceReport) -> String {
    let [x, y, z] = place.center_mm.map(|mm| (mm * 10.0).round() / 10.0 + 0.0);
    let shape = match (place.shape, place.diameter_mm) {
        (PlaceShapeWord::Bore, Some(wide)) if place.bores > 1 => format!("{} bores of {wide:.2} mm", place.bores),
        (PlaceShapeWord::Bore, Some(wide)) => format!("bore of {wide:.2} mm"),
        _ => "face".into(),
    };
    format!("{}: {shape}, {} mm² in {} facets at {x}, {y}, {z}", place.name, significant(place.area_mm2), place.facets)
}

/// What holds it.
pub(super) fn held(any: &AnyReport) -> String {
    let told = any.holds.iter().map(|hold| {
        let at = hold.at.as_deref().unwrap_or_default();
        match hold.held_as {
            HoldWord::Pin => {
                let force = hold.greatest_n.map_or_else(String::new, |n| format!(", bears up to {} N", significant(n)));
                format!("{at} by a pin, clearance {} mm{force}", significant(hold.clearance_mm.unwrap_or(0.0)))
            }
            HoldWord::Glued => format!("{at} in every direction"),
            HoldWord::Flat => format!("{at} square to its face"),
            HoldWord::Free => "the rest by its own inertia".into(),
        }
    });
    format!("{}.", told.collect::<Vec<_>>().join("; "))
}

/// What loads it.
pub(super) fn loads(any: &AnyReport) -> String {
    let told = any.loads.iter().map(|load| {
        let at = load.at.as_ref().map_or_else(String::new, |at| format!(" at {at}"));
        let factors = if load.least == load.greatest {
            if load.least == 1.0 { String::new() } else { format!(" times {}", significant(load.least)) }
        } else {
            format!(" times {} to {}", significant(load.least), significant(load.greatest))
        };
        let speed = if load.follows_speed { ", grows as the speed squared" } else { "" };
        format!("{}: {}{at}{factors}{speed}", load.name, load.what)
    });
    format!("{}; {}.", told.collect::<Vec<_>>().join("; "), any.history)
}
