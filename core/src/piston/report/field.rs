use super::build::PistonParts;
use crate::kind::report::{FieldTold, LESS, by_layers};
use crate::piston::field::{PistonFieldFindings, PistonFieldSpot};
use crate::piston::place::PistonPlace;
use crate::report::FieldReport;

pub(crate) fn field(parts: &PistonParts<'_>, findings: &PistonFieldFindings) -> FieldReport {
    let raise = &parts.prepared.raise;
    let seen = FieldTold { findings, frame: &parts.prepared.piston.frame, build: parts.case.model.print.build };
    let [crown, belt, walls, bosses] = raise.regions;
    let raised = [("the crown", crown), ("the ring belt", belt), ("the walls", walls), ("the bosses", bosses)];
    let nominal = "pin force by net section at the bosses, over pressure times the square of radius by thickness in the crown, \
                   over the mean of the cut elsewhere";
    seen.report(raise.any(), &raised, nominal, why)
}

/// The same of a piston.
fn why(spot: &PistonFieldSpot, on_layers: (f64, f64)) -> Option<String> {
    let sections = spot.sections.filter(|sections| sections.margin > LESS * spot.mode.margin)?;
    let seen = match spot.place {
        PistonPlace::CrownAt { .. } => "there the crown is an even round plate on an even wall",
        PistonPlace::Boss { .. } => "there the bosses are a plane ring of even depth, stressed along its round alone",
        _ => "a cut has its mean stress and does not bend: it sees no blend, slot or window",
    };
    let layers = by_layers(spot.moment.layer_share, on_layers);
    Some(format!("Plates, rings and cuts: margin {:.2} ({}); {seen}.{layers}", sections.margin, sections.mode.words()))
}
