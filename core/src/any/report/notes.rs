//! Where the model is weak for the part at hand.

use super::build::AnyParts;
use crate::job::{Every, HeldAs};
use crate::kind::report::{SINGLE_BEAD, effect, few_cells, shared};
use crate::material::Lay;
use crate::report::{Coverage, CoveredReport};
use crate::verdict::wall_lay;

/// Every weakness, in sentences.
pub(super) fn notes(parts: &AnyParts<'_>) -> Vec<String> {
    let prepared = parts.case.prepared;
    let mut notes = vec![
        "A part of any kind is judged by its stress field alone; what sections and handbook factors would say is not known."
            .to_string(),
        "Named build directions are those of the file: flat stacks layers along z, on-edge along y, upright along x.".into(),
    ];
    if prepared.held() {
        notes.push(
            "Holds other than pins push and pull as stiff metal does, and are glued or clamped without end: whether glue, \
             screws or studs bear that is not checked. On a held surface and within two cells of its rim stress is not judged."
                .into(),
        );
    }
    if prepared.given.free {
        notes.push(format!(
            "What no hold resists is balanced by the part's own inertia: its loads accelerate it by up to {:.0} m/s².",
            parts.case.field.greatest_acceleration(parts.case.run)
        ));
    }
    if !prepared.pins.is_empty() {
        notes.push(
            "Pins are rigid and round, without friction, and press evenly along their bores; a bending pin does not."
                .into(),
        );
    }
    if parts.case.warmth.uneven() {
        notes.push(
            "Away from a warm place the temperature falls as along a fin, by the straight distance. Stiffness is that of the \
             rest of the part, and stress from uneven temperature is left out."
                .into(),
        );
    } else {
        notes.push("The whole part has one temperature; heat of loads and surroundings is not worked out.".into());
    }
    if prepared.given.history.every == Every::Steady {
        notes.push(
            "Without a history the loads are steady: they come on and go once in each repeat of the duty.".into(),
        );
    }
    if wall_lay(&prepared.print) == Lay::Lines {
        notes.push(SINGLE_BEAD.into());
    }
    notes
}

/// What carries load and was not checked.
pub(super) fn unchecked(parts: &AnyParts<'_>) -> Vec<String> {
    let prepared = parts.case.prepared;
    let mut list: Vec<String> = Vec::new();
    for hold in &prepared.given.holds {
        if !matches!(hold.held, HeldAs::Pin { .. }) {
            list.push(format!("what holds the part at {}: glue, screws or studs", prepared.found[hold.at].name));
        }
    }
    if prepared.part.overlapping {
        list.push("joints between touching shells, taken as solid".into());
    }
    list.extend(few_cells(parts.findings.cells));
    for spot in parts.findings.spots.iter().filter(|spot| !spot.counts()) {
        let what = if at_rim(parts, spot) { "the rim of a held surface" } else { "a sharp inner corner" };
        let cure = if at_rim(parts, spot) { "" } else { ": give it a fillet" };
        let told = format!(
            "{what} ({}), where the stress field has no sure number and the true stress is higher{cure}",
            spot.place
        );
        if !list.contains(&told) {
            list.push(told);
        }
    }
    list
}

/// Whether a place is told for the rim of what holds the part.
pub(super) fn at_rim(
    parts: &AnyParts<'_>,
    spot: &crate::verdict::FieldSpot<crate::any::place::AnyPlace, Vec<f32>>,
) -> bool {
    let prepared = parts.case.prepared;
    let reach = 3.0 * parts.findings.edge;
    prepared.given.holds.iter().any(|hold| {
        !matches!(hold.held, HeldAs::Pin { .. }) && prepared.found[hold.at].patch.distance(&spot.position) < reach
    })
}

/// What the answer takes in and what it leaves out.
pub(super) fn effects(parts: &AnyParts<'_>) -> Vec<CoveredReport> {
    let scenario = &parts.case.prepared.scenario;
    let mut list = shared(true, scenario.bond.is_some());
    let (not, bounded) = (Coverage::NotChecked, Coverage::Bounded);
    list.push(effect("spread of the loads", not, 1.3, "one history stands for all; the worst of many is higher"));
    let resonance = "the first natural frequency is not worked out: a thin part that is shaken near it breaks early";
    list.push(effect("resonance", not, 3.0, resonance));
    let heat = "temperatures are those of the job; heat from loads, gas and neighbours is not worked out";
    list.push(effect("heat of the part", not, 1.5, heat));
    if parts.case.warmth.uneven() {
        list.push(effect(
            "stress from uneven temperature",
            not,
            1.3,
            "a warm place that its neighbours hold is stressed",
        ));
    }
    if !parts.case.prepared.pins.is_empty() {
        let told = "a pin that bends presses the edges of its bore; its own stiffness is not in the answer";
        list.push(effect("bending of pins", bounded, 1.15, told));
    }
    list
}
