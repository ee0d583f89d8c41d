//! Where the model is weak for the piston at hand.

use nalgebra::Point3;

use super::build::PistonParts;
use crate::job::PartTemperature;
use crate::kind::report::{SINGLE_BEAD, UNTOLD, at_corners, few_cells, few_sides};
use crate::material::Lay;
use crate::mesh::Place;
use crate::print::PrintSettings;
use crate::units::ZERO_C;
use crate::verdict::wall_lay;
use crate::wall::Bridge;

/// Skirt over bore of pistons that belong to their cylinder.
const FILLED: core::ops::RangeInclusive<f64> = 0.95..=1.01;

/// Crowns uneven by more than this share are no even plate.
const UNEVEN: f64 = 0.25;

/// Crowns with more relief than this share of their radius are no flat plate.
const DOMED: f64 = 0.1;

/// Plates thicker than this share of their radius bend by shear too.
const THICK: f64 = 0.25;

/// Every weakness, in sentences.
pub(crate) fn notes(parts: &PistonParts<'_>) -> Vec<String> {
    let (model, warm) = (parts.case.model, parts.case.warm);
    let crown = &model.crown;
    let given = &parts.prepared.given;
    let mut notes = Vec::new();
    let mut say = |text: String| notes.push(text);
    say(format!(
        "The crown is a round plate of {:.2} mm free diameter; its wall of {:.2} mm holds the edge by {:.0} % of a clamp's \
         moment. Beside a finite-element library its greatest stress comes out 6 % too low to 24 % too high.",
        2e3 * model.plate_radius,
        1e3 * model.edge_wall,
        1e2 * parts.assessment.crown.share
    ));
    for doubt in &parts.prepared.piston.doubts {
        say(doubt.to_string());
    }
    if let Some(thinnest) = crown.bridges.first() {
        say(bridged(parts, thinnest));
    }
    if !crown.holes.is_empty() {
        say(pierced(parts));
    }
    shape_notes(parts, &mut say);
    say("The heat of the gas follows mean films by Hohenberg and Woschni, fitted to far larger engines; the one with more heat \
         counts. The crown conducts through its thickness only; the heat that rings and walls lead away is left out, which \
         makes it hotter here."
        .into());
    if !given.layers.is_empty() {
        say("The layers on the crown delay heat and add mass; they carry no gas force here.".into());
    }
    say(taken_at(parts.prepared.scenario.part_temperature).into());
    if warm.soft().is_some() && warm.counts {
        say("A softened crown stays out of shape; the margins of other modes are those just before.".into());
    }
    say("Margins: for softening the factor on temperature above 23 °C, for seizure on the growth of the piston.".into());
    if let Some(field) = parts.field {
        say(format!(
            "If the stress field finds less margin than plates, rings and cuts, the field counts. Speed, heat and changes are then \
             worked out with the stress of that region raised to it. Its pin is rigid and presses evenly along the bosses; a \
             bending pin does not. Left out: stress from uneven temperature, and a \
             skin of the crown that is hot over less than {:.1} mm. +y is assumed to be the thrust side.",
            2e3 * field.edge
        ));
    }
    say(
        "Lands are taken with all of the gas pressure above and none below; walls with their mean stress and Neuber's \
         factor at grooves. Bending of walls and skirt by the side thrust, wear and rings that stick are not seen."
            .into(),
    );
    let (whole, job) = (model.mass.whole(), parts.prepared.scenario.engine.reciprocating_mass);
    if (whole - job).abs() > 0.1 * job {
        say(format!(
            "Piston, rings and pin weigh {:.1} g here, while the job's reciprocating mass is {:.1} g; the piston's own \
             loads use the former.",
            1e3 * whole,
            1e3 * job
        ));
    }
    notes
}

/// What its shape and print leave open.
fn shape_notes(parts: &PistonParts<'_>, say: &mut impl FnMut(String)) {
    let (model, given) = (parts.case.model, &parts.prepared.given);
    let crown = &model.crown;
    let spread = (crown.thick - crown.thin) / crown.mean;
    if given.crown_thickness.is_none() && spread > UNEVEN {
        say(format!(
            "The crown is {:.2} to {:.2} mm thick: ribs or pockets. It is taken as an even plate of {:.2} mm, which is \
             severe for bending between ribs and misses the stress at their feet.",
            1e3 * crown.thin,
            1e3 * crown.thick,
            1e3 * model.crown_thickness
        ));
    }
    if crown.relief > DOMED * crown.radius {
        say(format!(
            "The crown's face rises and falls by {:.1} mm: a flat plate bounds a dome, not a bowl.",
            1e3 * crown.relief
        ));
    }
    if wall_lay(&model.print) == Lay::Lines {
        say(SINGLE_BEAD.into());
    }
    if model.stations.iter().any(|station| station.makeup.untold) {
        say(UNTOLD.into());
    }
    if model.crown_thickness > THICK * model.plate_radius {
        say("The crown is thick for its width: thin-plate bending may be off by some tens of per cent there. Shear at its edge is \
             checked too."
            .into());
    }
}

/// At which temperature strength is taken.
fn taken_at(temperature: PartTemperature) -> &'static str {
    match temperature {
        PartTemperature::Given => {
            "Strength is taken at the given part temperature, the same everywhere; the heat of the crown is estimated beside it \
             and does not count."
        }
        PartTemperature::Settled => {
            "Strength is taken where one long run is hottest, or when the crown is lost to softening; with duty.run_s it is the \
             end of one short run from cold."
        }
        PartTemperature::AfterRun { .. } => {
            "Strength is taken where one run from cold is hottest, or when the crown is lost to softening; every run is taken to \
             begin cold again."
        }
    }
}

/// Thin places of the crown.
fn bridged(parts: &PistonParts<'_>, thinnest: &Bridge) -> String {
    let (model, count) = (parts.case.model, parts.case.model.crown.bridges.len());
    let places = if count == 1 { "one place".into() } else { format!("{count} places") };
    let area: f64 = model.crown.bridges.iter().map(|bridge| bridge.area).sum();
    format!(
        "The crown is a thin bridge at {places}: {:.2} mm thick at the least, {:.0} mm² in all, against {:.2} mm beside. Each is \
         checked as a clamped plate of its own area, and its heat by its own thickness; the stress that the crown has round \
         it is not seen.",
        1e3 * thinnest.thickness,
        1e6 * area,
        1e3 * model.crown_thickness
    )
}

/// Holes through the crown.
fn pierced(parts: &PistonParts<'_>) -> String {
    let holes = &parts.case.model.crown.holes;
    let what = if holes.len() == 1 {
        "There is a hole through the crown".into()
    } else {
        format!("There are {} holes through the crown", holes.len())
    };
    let list: Vec<String> = holes
        .iter()
        .map(|hole| {
            let place = Point3::new(parts.prepared.piston.compression_height, hole.at.x, hole.at.y);
            format!("{:.1} mm² at {}", 1e6 * hole.area, Place::from(&parts.prepared.piston.frame.to_file(&place)))
        })
        .collect();
    format!(
        "{what}: {}. Gas passes unless something closes it, and the stress at its edge, up to twice that of the plate, is not          seen.",
        list.join(", ")
    )
}

/// What carries load and was not checked.
pub(crate) fn unchecked(parts: &PistonParts<'_>) -> Vec<String> {
    let (piston, model) = (&parts.prepared.piston, parts.case.model);
    let mut list = Vec::new();
    let (skirt, bore) = (parts.case.fits.skirt, parts.case.fits.bore);
    // Without a collar or lip the skirt is the widest, and warned of.
    if piston.greatest_radius() > piston.skirt.radius && !FILLED.contains(&(skirt / bore)) {
        list.push(format!(
            "whether piston and cylinder belong together: a skirt of {:.2} mm in a bore of {:.2} mm",
            skirt * 1e3,
            bore * 1e3
        ));
    }
    list.extend(few_sides("pin", piston.pin.radius, piston.pin.sagitta));
    if !model.crown.bridges.is_empty() || !model.crown.holes.is_empty() {
        list.push("stress in the crown round its holes and thin places".into());
    }
    if piston.grooves.is_empty() {
        list.push("ring grooves, of which none was found".into());
    }
    if model.boss.is_none() {
        list.push("the bosses, whose ring could not be measured".into());
    }
    if piston.pin.bosses.len() == 1 {
        list.push("bending of the one boss that carries the pin".into());
    }
    if piston.overlapping {
        list.push("joints between touching shells, taken as solid".into());
    }
    list.extend(parts.field.and_then(|findings| few_cells(findings.cells)));
    list.extend(parts.field.map_or_else(Vec::new, |findings| at_corners(&findings.spots)));
    let PrintSettings { infill, .. } = model.print;
    if infill < 1.0 {
        list.push("the lighter inside of crown, lands and bosses, taken as solid there".into());
    }
    if parts.prepared.scenario.part_temperature == PartTemperature::Given
        && parts.case.warm.counting_depth.1 > parts.prepared.scenario.temperature + 5.0
    {
        list.push(format!(
            "the heat of the crown: by estimate it reaches {:.0} °C where {:.0} °C is given",
            parts.case.warm.counting_depth.1 - ZERO_C,
            parts.prepared.scenario.temperature - ZERO_C
        ));
    }
    list
}
