//! What the stress field found.

use core::fmt::Display;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use nalgebra::{Vector3, Vector6};

use crate::field::tensor;
use crate::material::LayerPlane;
use crate::part::Frame;
use crate::piston::PistonPlace;
use crate::piston::field::{PistonFieldFindings, PistonFieldSpot};
use crate::piston::report::PistonParts;
use crate::rod::RodPlace;
use crate::rod::field::{RodFieldFindings, RodFieldSpot};
use crate::rod::report::Parts;
use crate::verdict::field::{FieldFindings, FieldSpot};
use crate::verdict::{FieldCase, Mode};

const MM: f64 = 1e3;
const MPA: f64 = 1e-6;

/// The stress field of a part over the duty.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct FieldReport {
    /// Cells that hold material.
    pub cells: usize,
    /// Edge of a cell, mm.
    pub cell_mm: f64,
    /// The unit cases solved.
    pub solves: Vec<SolveReport>,
    /// The worst places, the least margin first; mirror images are one place.
    pub hot_spots: Vec<HotSpotReport>,
    /// Which of field and sections gave the lesser margin of stress, and so the verdict.
    pub governing: GoverningStress,
    /// Factor by which the verdict raises the section model's stress to meet the field's margin, 1 where the sections have
    /// the lesser margin already: of a rod in small-end eye, big-end eye and worst place of the shank, of a piston in crown,
    /// ring belt, walls and bosses.
    pub raised: Vec<f64>,
}

/// What the verdict on stress rests on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum GoverningStress {
    /// The field, somewhere.
    Field,
    /// Sections and handbook factors everywhere.
    Sections,
}

/// How one unit case was solved.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct SolveReport {
    /// The case.
    pub name: String,
    /// Iterations.
    pub iterations: usize,
    /// Residual over the load at the end.
    pub residual: f64,
    /// Wall-clock time, s; only when asked for, as it differs from run to run.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub seconds: Option<f64>,
}

/// A place where the field finds the most harm.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct HotSpotReport {
    /// Where, in words.
    pub place: String,
    /// Where, mm, coordinates of the file.
    pub position_mm: [f64; 3],
    /// Principal stress of greatest size when most of the strength is used, MPa; tension positive.
    pub stress_mpa: f64,
    /// That stress over the nominal one at that moment: pin force over net section at an eye or the bosses, the section's own
    /// greatest stress in the shank, in a crown the pressure times the square of free radius over thickness, in other walls
    /// of a piston the mean of the cut; absent where there is next to none.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub kt: Option<f64>,
    /// What contact study or handbook take for the same factor; of a crown that of an even round plate.
    pub handbook_kt: f64,
    /// Running time that nine parts in ten reach before failing there, s; absent where one load decides.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub life_s: Option<f64>,
    /// Factor by which all stress could grow before one part in ten fails there within the wanted life.
    pub margin: f64,
    /// What gives way.
    pub mode: Mode,
    /// Whether it lies at a sharp inner corner, where the value depends on the size of cells: it does not count in the
    /// verdict.
    pub sharp_corner: bool,
    /// Whether it was solved once more with finer cells.
    pub finer_cells: bool,
    /// Speed when most of the strength is used, rpm.
    pub rpm: f64,
    /// Crank angle then, degrees from top dead centre at firing.
    pub crank_deg: f64,
    /// Stress across the layers then, MPa; tension positive.
    pub across_layers_mpa: f64,
    /// Shear along the layers then, MPa.
    pub along_layers_mpa: f64,
    /// Least margin of stress that the section model finds of the same eye, of the nearest section, or of the same region of
    /// a piston.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub sections_margin: Option<f64>,
    /// What gives way there by the section model.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub sections_mode: Option<Mode>,
    /// Why the section model finds more margin, in a sentence; absent where it does not. At a sharp inner corner, that the
    /// stress told is that of its cells and no peak.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub why: Option<String>,
}

pub(crate) fn field(parts: &Parts<'_>, findings: &RodFieldFindings) -> FieldReport {
    let raise = &parts.prepared.raise;
    let shank = raise.shank.iter().map(|(_, factor)| *factor).fold(1.0, f64::max);
    let seen = Seen { findings, frame: &parts.prepared.rod.frame, build: parts.model.print.build };
    seen.report(raise.any(), vec![raise.eyes[0], raise.eyes[1], shank], why)
}

pub(crate) fn field_of_piston(parts: &PistonParts<'_>, findings: &PistonFieldFindings) -> FieldReport {
    let raise = &parts.prepared.raise;
    let seen = Seen { findings, frame: &parts.prepared.piston.frame, build: parts.case.model.print.build };
    seen.report(raise.any(), raise.regions.to_vec(), why_of_piston)
}

/// What a field found, in which part.
struct Seen<'field, P, A> {
    findings: &'field FieldFindings<P, A>,
    frame: &'field Frame,
    build: Vector3<f64>,
}

impl<P: Display + Copy, A> Seen<'_, P, A> {
    /// `why` says why the section model finds more margin at a spot, whose traction across and along the layers it is given,
    /// MPa.
    fn report(
        &self,
        governs: bool,
        raised: Vec<f64>,
        why: impl Fn(&FieldSpot<P, A>, (f64, f64)) -> Option<String>,
    ) -> FieldReport {
        let Self { findings, .. } = self;
        FieldReport {
            cells: findings.cells,
            cell_mm: findings.edge * MM,
            solves: findings.cases.iter().map(solve).collect(),
            hot_spots: findings.spots.iter().map(|spot| self.hot_spot(spot, &why)).collect(),
            governing: if governs { GoverningStress::Field } else { GoverningStress::Sections },
            raised,
        }
    }

    fn hot_spot(
        &self,
        spot: &FieldSpot<P, A>,
        why: &impl Fn(&FieldSpot<P, A>, (f64, f64)) -> Option<String>,
    ) -> HotSpotReport {
        let (across, along) = on_layers(self.build, &spot.moment.stress);
        HotSpotReport {
            place: spot.place.to_string(),
            position_mm: self.frame.to_file_mm(&spot.position),
            stress_mpa: spot.stress * MPA,
            kt: spot.factor,
            handbook_kt: spot.section_factor,
            life_s: spot.mode.life_b10,
            margin: spot.mode.margin,
            mode: spot.mode.mode,
            sharp_corner: spot.sharp,
            finer_cells: spot.finer,
            rpm: spot.moment.rpm,
            crank_deg: spot.moment.crank_angle.to_degrees(),
            across_layers_mpa: across,
            along_layers_mpa: along,
            sections_margin: spot.sections.map(|mode| mode.margin),
            sections_mode: spot.sections.map(|mode| mode.mode),
            why: if spot.sharp { Some(at_corner(self.findings.edge, spot.stress)) } else { why(spot, (across, along)) },
        }
    }
}

fn solve(case: &FieldCase) -> SolveReport {
    SolveReport { name: case.name.clone(), iterations: case.iterations, residual: case.residual, seconds: None }
}

/// Stress across the layers and shear along them, MPa.
fn on_layers(build: Vector3<f64>, stress: &Vector6<f64>) -> (f64, f64) {
    let on = LayerPlane::new(build).tractions(&tensor(stress));
    (on.normal * MPA, on.shear.norm() * MPA)
}

/// What the number at a sharp inner corner is, from the edge of a cell, m, and the stress, Pa.
fn at_corner(edge: f64, stress: f64) -> String {
    let edge = edge * MM;
    format!(
        "{:.1} MPa is what cells of {edge:.2} mm give at this sharp inner corner: it grows as they get smaller and is no peak \
         stress; with a fillet there would be one.",
        stress * MPA
    )
}

/// The field has less margin from this ratio on.
const LESS: f64 = 1.02;

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

/// The same of a piston.
fn why_of_piston(spot: &PistonFieldSpot, on_layers: (f64, f64)) -> Option<String> {
    let sections = spot.sections.filter(|sections| sections.margin > LESS * spot.mode.margin)?;
    let seen = match spot.place {
        PistonPlace::CrownAt { .. } => "there the crown is an even round plate on an even wall",
        PistonPlace::Boss { .. } => "there the bosses are a plane ring of even depth, stressed along its round alone",
        _ => "a cut has its mean stress and does not bend: it sees no blend, slot or window",
    };
    let layers = by_layers(spot.moment.layer_share, on_layers);
    Some(format!("Plates, rings and cuts: margin {:.2} ({}); {seen}.{layers}", sections.margin, sections.mode.words()))
}

/// What tractions on the layers have to do with it, MPa, where they take most of the strength.
fn by_layers(share: f64, (across, along): (f64, f64)) -> String {
    if share <= 0.5 {
        return String::new();
    }
    format!(
        " Layers are loaded with {across:.1} MPa across and {along:.1} MPa along them, which stress along one line does not \
         show."
    )
}
