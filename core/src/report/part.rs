use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::part::PartKind;
use crate::units::LengthUnit;

/// The mesh as read.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct MeshReport {
    /// Facets in the file.
    pub facet_count: usize,
    /// Volume of the part, mm³; for overlapping shells, of their union.
    pub volume_mm3: f64,
    /// Mass as printed, g.
    pub mass_g: f64,
    /// Whether the surface is closed, after what `notes` lists.
    pub closed: bool,
    /// Unit the coordinates were read in.
    pub unit: LengthUnit,
    /// Extent along x, y and z of the file, mm.
    pub size_mm: [f64; 3],
    /// What was mended or is unusual.
    pub notes: Vec<String>,
}

/// The part as recognised.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct PartReport {
    /// What it is.
    pub kind: PartKind,
    /// Its bores.
    pub bores: Vec<BoreReport>,
    /// Distance between the bore axes, mm; of a rod.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub center_distance_mm: Option<f64>,
    /// Where the positions of `stations` are counted from and along.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub path: Option<PathReport>,
    /// Bodies of the file that are not part of it.
    pub left_out: Vec<LeftOutReport>,
}

/// What positions along a part are counted from.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct PathReport {
    /// What lies at 0, in words.
    pub from: String,
    /// That point, mm, coordinates of the file.
    pub origin_mm: [f64; 3],
    /// Unit vector along which positions grow.
    pub along: [f64; 3],
}

/// A bore.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct BoreReport {
    /// `small-end` or `big-end` of a rod, `pin-bore` of a piston.
    pub role: String,
    /// Diameter of the seat that carries the pin or bearing, mm.
    pub diameter_mm: f64,
    /// Middle of that seat on the axis, mm, coordinates of the file.
    pub center_mm: [f64; 3],
    /// Unit vector along the axis.
    pub axis: [f64; 3],
    /// Length of the seat, mm.
    pub depth_mm: f64,
    /// Angle of the circle that has a wall, degrees.
    pub arc_deg: f64,
    /// Greatest gap between the facets and the true circle, mm.
    pub sagitta_mm: f64,
    /// Coaxial surfaces, the longest first.
    pub seats: Vec<SeatReport>,
}

/// One cylindrical surface of a bore.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct SeatReport {
    /// Diameter, mm.
    pub diameter_mm: f64,
    /// Length, mm.
    pub depth_mm: f64,
}

/// A body that was left out.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct LeftOutReport {
    /// Its centroid, mm, coordinates of the file.
    pub center_mm: [f64; 3],
    /// Its volume, mm³.
    pub volume_mm3: f64,
}

/// How the part is printed.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct PrintReport {
    /// Unit vector in which layers stack, coordinates of the file.
    pub build_direction: [f64; 3],
    /// Angle between the build direction and the long axis of the part, degrees: the line of centres of a rod, the axis of a
    /// piston.
    pub angle_to_axis_deg: f64,
    /// Angle between the build direction and the bore axes, degrees: 0 prints the bores round.
    pub angle_to_bores_deg: f64,
    /// Strength along that axis over the strength along the beads.
    pub axial_strength_share: f64,
    /// How well its layers bond; null where the material card does not say how they weld.
    pub bond: Option<BondReport>,
}

/// The bond between layers as this print makes it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct BondReport {
    /// Strength between layers of this print over that of the bars the card stands for, five of 10 x 4 mm that stand upright on
    /// one bed; the least, without the first and last twentieth of the height.
    pub least_factor: f64,
    /// The greatest.
    pub most_factor: f64,
    /// By height, from the bed up.
    pub heights: Vec<BondHeight>,
}

/// The bond at one height.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct BondHeight {
    /// Height over the bed, mm.
    pub height_mm: f64,
    /// Time from this layer to the next, s.
    pub layer_time_s: f64,
    /// Temperature of the layer below when this one is laid, °C.
    pub below_c: f64,
    /// Strength between layers over that of the bars the card stands for.
    pub factor: f64,
}
