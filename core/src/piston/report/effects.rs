//! What the answer of a piston takes in and leaves out.

use super::build::PistonParts;
use crate::kind::report::{effect, peaks, shared};
use crate::report::{Coverage, CoveredReport};

pub(crate) fn effects(parts: &PistonParts<'_>) -> Vec<CoveredReport> {
    let engine = &parts.prepared.scenario.engine;
    let mut list = shared(parts.field.is_some(), parts.prepared.scenario.bond.is_some());
    list.push(peaks(engine, &parts.answers.changes));
    list.push(effect(
        "pin in its bosses",
        Coverage::NotChecked,
        1.5,
        "the pin swings or turns in the plastic: wear and heat of friction are not checked; bush the bosses",
    ));
    list.push(match &parts.field {
        Some(_) => effect(
            "stress by heat in the crown",
            Coverage::Checked,
            1.0,
            "the stress field takes the piston as warm as it is at the end of a run, and cold again after it; creep takes part",
        ),
        None => effect(
            "stress by heat in the crown",
            Coverage::NotChecked,
            1.3,
            "a face hotter than its underside is compressed, and pulled when it cools; hot plastic relaxes part of it",
        ),
    });
    list.push(effect(
        "friction of rings",
        Coverage::Bounded,
        1.03,
        "rings add a few per cent to the pull, and some heat to the lands",
    ));
    list
}
