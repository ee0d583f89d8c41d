use super::notes::{at_rim, effects, notes, unchecked};
use super::part::{part, places};
use crate::Error;
use crate::any::assess::AnyCase;
use crate::any::field::AnyFindings;
use crate::any::place::AnyPlace;
use crate::job::Pressures;
use crate::kind::Answers;
use crate::kind::report::{Common, FieldTold, coarse, life_of, mending, of_card, temperature_from};
use crate::report::{FieldReport, HeatReport, HottestReport, Report};
use crate::units::ZERO_C;
use crate::verdict::PartStrength;

/// Everything the report of a part of any kind is made from.
pub(crate) struct AnyParts<'a> {
    /// What was worked out beside it.
    pub(crate) answers: &'a Answers,
    pub(crate) case: &'a AnyCase<'a>,
    /// kg.
    pub(crate) plastic: f64,
    pub(crate) strength: &'a PartStrength<AnyPlace>,
    pub(crate) findings: &'a AnyFindings,
}

/// Writes the report.
pub(crate) fn build(parts: &AnyParts<'_>) -> Result<Report, Error> {
    let prepared = parts.case.prepared;
    let (scenario, found) = (&prepared.scenario, &prepared.part);
    let mut mesh_notes = mending(&prepared.mended, found.overlapping, found.voids, &found.left_out);
    mesh_notes.extend(coarse(found.mesh.step()));
    let (hottest, place) = parts.case.hottest();
    let mut assumptions = prepared.assumptions.clone();
    assumptions.extend(of_card(&scenario.given_card, hottest));
    let peak = Pressures::of(scenario, &prepared.cylinder)?.peak();
    let center = |place: &AnyPlace| {
        let spot = parts.findings.spots.iter().find(|spot| spot.place == *place);
        let point = spot.map(|spot| spot.position).or_else(|| place.point());
        point.map(|point| found.frame.to_file_mm(&point))
    };
    let common = Common {
        answers: parts.answers.clone(),
        scenario,
        file: (prepared.mended, prepared.unit, prepared.size),
        solid: (found.mesh.mass_properties().volume, parts.plastic),
        mesh_notes,
        part: part(found),
        frame: &found.frame,
        build: prepared.print.build,
        strength: parts.strength,
        life: parts.strength.life_at(0.1),
        lives: life_of(&parts.strength.weakest_link(), parts.answers.uncertainty.deviation),
        center: &center,
        heat: HeatReport {
            from: temperature_from(scenario.part_temperature),
            taken_c: hottest - ZERO_C,
            hottest: HottestReport {
                place: place.to_string(),
                temperature_c: Some(hottest - ZERO_C),
                softening_c: scenario.card.softening() - ZERO_C,
                runs_away: false,
            },
        },
        cylinder: (&prepared.cylinder, peak),
        stations: Vec::new(),
        assumptions,
        notes: notes(parts),
        field: true,
        unchecked: unchecked(parts),
        effects: effects(parts),
    };
    let any = Some(places(prepared, &parts.case.run.pin_forces));
    Ok(Report { any, field: Some(field(parts)), ..common.report() })
}

fn field(parts: &AnyParts<'_>) -> FieldReport {
    let prepared = parts.case.prepared;
    let seen = FieldTold { findings: parts.findings, frame: &prepared.part.frame, build: prepared.print.build };
    let mut report = seen.report(true, &[], "nothing: a part of any kind has no nominal stress", |_, _| None);
    for (told, spot) in report.hot_spots.iter_mut().zip(&parts.findings.spots) {
        if spot.sharp && at_rim(parts, spot) {
            told.why = Some(format!(
                "{:.1} MPa is the stress by cells of {:.2} mm at the rim of a held surface: it rises without limit as cells \
                 shrink.",
                told.stress_mpa,
                parts.findings.edge * 1e3
            ));
        }
    }
    report
}
