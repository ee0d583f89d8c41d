use super::build::Parts;
use crate::kind::report::{FieldTold, LESS, by_layers};
use crate::report::FieldReport;
use crate::rod::field::{RodFieldFindings, RodFieldSpot};
use crate::rod::place::RodPlace;

pub(crate) fn field(parts: &Parts<'_>, findings: &RodFieldFindings) -> FieldReport {
    let raise = &parts.prepared.raise;
    let shank = raise.shank.iter().map(|(_, factor)| *factor).fold(1.0, f64::max);
    let seen = FieldTold { findings, frame: &parts.prepared.rod.frame, build: parts.model.print.build };
    let raised = [("the small-end eye", raise.eyes[0]), ("the big-end eye", raise.eyes[1]), ("the shank", shank)];
    let nominal = "pin force by net section at an eye, over the section's own stress in the shank";
    seen.report(raise.any(), &raised, nominal, why)
}

/// Angle from the rod's end from which the outside of an eye of the contact study runs into the shank, degrees.
const INTO_SHANK: f64 = 128.0;

/// Why the section model finds more margin at a place, if it does: what it does not see there.
fn why(spot: &RodFieldSpot, on_layers: (f64, f64)) -> Option<String> {
    let sections = spot.sections.filter(|sections| sections.margin > LESS * spot.mode.margin)?;
    let seen = match spot.place {
        RodPlace::Eye { outside: true, angle, .. } if angle.to_degrees() > INTO_SHANK => {
            "the section model's eye is a plain ring: it has no blend into the shank"
        }
        RodPlace::Eye { outside: false, .. } if spot.factor.is_some_and(|factor| factor > spot.section_factor) => {
            "the section model's eye is a plane ring of even depth; this one's own shape gathers more stress at its bore"
        }
        RodPlace::Eye { .. } => "the section model's eye is a plane ring of even depth, stressed along its round alone",
        _ => "a section sees its own area and not how blends, pockets and eyes beside it crowd the stress",
    };
    let layers = by_layers(spot.moment.layer_share, on_layers);
    Some(format!("Sections: margin {:.2} ({}); {seen}.{layers}", sections.margin, sections.mode.words()))
}
