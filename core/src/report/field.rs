//! What the stress field found.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::Parts;
use crate::verdict::{FieldFindings, FieldSpot, Mode};

const MM: f64 = 1e3;
const MPA: f64 = 1e-6;

/// The stress field of a rod over the duty.
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
    /// Factor by which the verdict raises the section model's stress of small-end eye, big-end eye and worst place of the
    /// shank to meet the field's margin; 1 where the sections have the lesser margin already.
    pub raised: [f64; 3],
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
    /// That stress over the nominal one at that moment: pin force over net section at an eye, the section's own greatest
    /// stress in the shank; absent where there is next to none.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub kt: Option<f64>,
    /// What contact study or handbook take for the same factor.
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
}

pub(super) fn field(parts: &Parts<'_>, findings: &FieldFindings) -> FieldReport {
    let raise = &parts.prepared.raise;
    let shank = raise.shank.iter().map(|(_, factor)| *factor).fold(1.0, f64::max);
    let solves = findings.cases.iter().map(|case| SolveReport {
        name: case.name.clone(),
        iterations: case.iterations,
        residual: case.residual,
        seconds: None,
    });
    FieldReport {
        cells: findings.cells,
        cell_mm: findings.edge * MM,
        solves: solves.collect(),
        hot_spots: findings.spots.iter().map(|spot| hot_spot(parts, spot)).collect(),
        governing: if raise.any() { GoverningStress::Field } else { GoverningStress::Sections },
        raised: [raise.eyes[0], raise.eyes[1], shank],
    }
}

fn hot_spot(parts: &Parts<'_>, spot: &FieldSpot) -> HotSpotReport {
    HotSpotReport {
        place: spot.place.to_string(),
        position_mm: parts.prepared.rod.frame.to_file_mm(&spot.position),
        stress_mpa: spot.stress * MPA,
        kt: spot.factor,
        handbook_kt: spot.section_factor,
        life_s: spot.mode.life_b10,
        margin: spot.mode.margin,
        mode: spot.mode.mode,
        sharp_corner: spot.sharp,
    }
}
