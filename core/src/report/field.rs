//! What the stress field found.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::verdict::Mode;

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
    /// What the places of `raised` are called.
    pub regions: Vec<String>,
    /// What `kt` is told over, in words.
    pub nominal: String,
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
    /// Running time that 90 % of parts reach before failing there, s; absent where one load decides.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub life_s: Option<f64>,
    /// Factor by which all stress could grow before 10 % of parts fail there within the wanted life.
    pub margin: f64,
    /// Failure mode there.
    pub mode: Mode,
    /// Whether it lies at a sharp inner corner.
    pub sharp_corner: bool,
    /// How far below that corner the stress was taken, mm: half the critical distance of printed plastics. At a corner without
    /// it the value depends on the size of cells and does not count in the verdict.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub depth_mm: Option<f64>,
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
    /// Failure mode there by the section model.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub sections_mode: Option<Mode>,
    /// Why the section model finds more margin, in a sentence; absent where it does not. At a sharp inner corner, that the
    /// stress told is that of its cells and no peak.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub why: Option<String>,
}
