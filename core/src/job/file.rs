use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::cap::CapTable;
use super::error::JobError;
use super::piston::PistonTable;
use super::places::{HistoryTable, HoldTable, LoadTable, PlaceTable, WarmTable};
use super::ring::RingTable;
use super::runs::Runs;
use crate::engine::{DutyStep, Strokes};
use crate::input::from_toml;
use crate::material::MoistureState;
use crate::part::PartWord;
use crate::units::LengthUnit;

/// A job file.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub struct Job {
    /// A name for the report.
    pub title: Option<String>,
    /// The engine.
    pub engine: EngineTable,
    /// The part in its mesh.
    pub part: PartTable,
    /// How it is printed.
    pub print: PrintTable,
    /// What it is printed from.
    pub material: MaterialTable,
    /// What surrounds it.
    pub surroundings: SurroundingsTable,
    /// How it is run.
    pub duty: DutyTable,
    /// Choices within the model.
    pub model: ModelTable,
    /// What belongs to a piston.
    pub piston: PistonTable,
    /// Places of a part of any kind.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub place: Vec<PlaceTable>,
    /// What holds it there.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub hold: Vec<HoldTable>,
    /// What loads it.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub load: Vec<LoadTable>,
    /// How the loads run.
    pub history: HistoryTable,
    /// What of it is warm.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub warm: Vec<WarmTable>,
}

/// The engine.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub struct EngineTable {
    /// Working cycle: `two` or `four` strokes.
    pub strokes: Option<Strokes>,
    /// Cylinder bore, mm.
    pub bore_mm: Option<f64>,
    /// Stroke, twice the crank throw, mm.
    pub stroke_mm: Option<f64>,
    /// Everything that moves with the piston: piston, rings, pin, g.
    pub reciprocating_mass_g: Option<f64>,
    /// Volume ratio from bottom to top.
    pub compression_ratio: Option<f64>,
    /// Distance of the pin's path from the crank axis, mm.
    pub pin_offset_mm: Option<f64>,
    /// Least gap between piston and head when cold and turned by hand, mm.
    pub piston_to_head_mm: Option<f64>,
    /// The pressure on the piston.
    pub gas: GasTable,
}

/// The pressure on the piston: a stated peak, a measured table, or what the cycle model gives.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub struct GasTable {
    /// Highest absolute cylinder pressure at open throttle, bar.
    pub peak_pressure_bar: Option<f64>,
    /// CSV file of crank angle in degrees and absolute pressure in bar, beside the job file.
    pub pressure_table: Option<String>,
    /// Absolute pressure under the piston, bar.
    pub crankcase_pressure_bar: Option<f64>,
    /// Standard deviation of peak pressure from cycle to cycle, per cent of its mean.
    pub peak_spread_percent: Option<f64>,
    /// One cycle in so many knocks; given with `knock_times`.
    pub knock_every: Option<f64>,
    /// Peak pressure of a knocking cycle over the mean; given with `knock_every`.
    pub knock_times: Option<f64>,
}

/// The part in its mesh.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub struct PartTable {
    /// What it is; recognised when not said.
    pub kind: Option<PartWord>,
    /// Unit of the coordinates in the mesh file.
    pub mesh_unit: Option<LengthUnit>,
    /// Which body of the file it is, by its number in the list that several parts bring, 1 for the largest.
    pub body: Option<u32>,
    /// Direction of the bore axes in the mesh, when recognition needs help.
    pub pin_axis: Option<[f64; 3]>,
    /// The eye with the smaller bore.
    pub small_end: EyeTable,
    /// The eye with the larger bore.
    pub big_end: EyeTable,
    /// A piston, when recognition needs help.
    pub piston: PistonBodyTable,
}

/// What recognition cannot see of a piston, in mesh coordinates.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub struct PistonBodyTable {
    /// Direction from skirt to crown.
    pub crown_direction: Option<[f64; 3]>,
    /// A point of the cylinder axis, mm.
    pub center_mm: Option<[f64; 3]>,
    /// Outer diameter, mm.
    pub diameter_mm: Option<f64>,
    /// A point of the pin axis, mm.
    pub pin_center_mm: Option<[f64; 3]>,
    /// Diameter of the pin bore, mm.
    pub pin_diameter_mm: Option<f64>,
    /// The ring grooves, from the crown down.
    pub grooves: Option<Vec<GrooveTable>>,
}

/// A ring groove by hand.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct GrooveTable {
    /// Upper flank below the crown, mm.
    pub below_crown_mm: f64,
    /// Width along the axis, mm.
    pub width_mm: f64,
    /// Depth below the land, mm.
    pub depth_mm: f64,
}

/// One eye of a rod.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub struct EyeTable {
    /// Bore centre in mesh coordinates, mm, when recognition needs help.
    pub center_mm: Option<[f64; 3]>,
    /// Bore diameter, mm, when recognition needs help.
    pub diameter_mm: Option<f64>,
    /// Radial clearance of the pin or bearing in the bore when warm and running, mm; 0 for a pressed ring.
    pub radial_clearance_mm: Option<f64>,
    /// What its pin runs in: `dry`, `oiled` or `greased` in the plastic itself, in a `bearing` or in a `bush`; oiled when left
    /// out, and what the ring is where one is given.
    pub runs: Option<Runs>,
    /// The bearing or bush pressed into it.
    pub ring: Option<RingTable>,
    /// The cap clamped over it, where it is split.
    pub cap: Option<CapTable>,
}

/// How the part is printed.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub struct PrintTable {
    /// `flat`, `on-edge`, `upright`, or the direction in which layers stack as `[x, y, z]` of the mesh.
    pub build_direction: Option<BuildDirection>,
    /// Width of an extruded bead, mm.
    pub bead_width_mm: Option<f64>,
    /// Layer thickness, mm.
    pub layer_height_mm: Option<f64>,
    /// Beads side by side along every outline.
    pub walls: Option<u32>,
    /// Solid layers under top and over bottom faces.
    pub skin_layers: Option<u32>,
    /// Density of the inside, per cent.
    pub infill_percent: Option<f64>,
    /// Speed of the nozzle while it lays a bead, mm/s: decides how warm the layer below still is.
    pub bead_speed_mm_s: Option<f64>,
    /// Time for every change of layer, s.
    pub layer_change_s: Option<f64>,
    /// Least time for a layer, s: the printer slows down or waits.
    pub least_layer_s: Option<f64>,
    /// Plastic as it leaves the nozzle, °C.
    pub nozzle_c: Option<f64>,
    /// Bed, °C.
    pub bed_c: Option<f64>,
    /// Air round the part while it is printed, °C.
    pub chamber_c: Option<f64>,
    /// Fan that blows on the part, per cent of full.
    pub fan_percent: Option<f64>,
    /// Parts printed together, layer by layer.
    pub parts_together: Option<u32>,
    /// Steepest overhang that prints without support, degrees from upright.
    pub overhang_deg: Option<f64>,
    /// Density of supports, per cent.
    pub support_percent: Option<f64>,
}

/// Direction in which layers stack.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(untagged, expecting = "flat, on-edge, upright, or the direction as three numbers [x, y, z] of the mesh")]
pub enum BuildDirection {
    /// One of the three ways a rod can lie.
    Named(NamedPose),
    /// Coordinates of the mesh file.
    Vector([f64; 3]),
}

/// The three ways a rod can lie on the bed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum NamedPose {
    /// Pin axes upright, the profile on the bed.
    Flat,
    /// Lying on its edge, pin axes level.
    OnEdge,
    /// Standing, line of centres upright.
    Upright,
}

/// What the part is printed from.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub struct MaterialTable {
    /// Name of an embedded material family.
    pub name: Option<String>,
    /// Card file beside the job file, instead of a name.
    pub card_file: Option<String>,
    /// Temperature of the whole part when running, °C; without it the heat of loads and surroundings decides.
    pub temperature_c: Option<f64>,
    /// Water in the plastic.
    pub moisture: Option<MoistureState>,
}

/// What surrounds the part when running.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub struct SurroundingsTable {
    /// Air in the crankcase, °C.
    pub crankcase_air_c: Option<f64>,
    /// Piston pin, °C.
    pub piston_pin_c: Option<f64>,
    /// Crank pin or bearing, °C.
    pub crank_pin_c: Option<f64>,
    /// The part before a run, °C.
    pub start_c: Option<f64>,
}

/// How the engine is run.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub struct DutyTable {
    /// Running time the part should reach, hours.
    pub wanted_life_h: Option<f64>,
    /// Length of one run from cold, s; without it runs are long enough for heat to settle.
    pub run_s: Option<f64>,
    /// Speeds, throttles and times, repeated until the end.
    pub steps: Option<Vec<DutyStep>>,
}

/// Choices within the model.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub struct ModelTable {
    /// How the mean of a stress cycle counts.
    pub mean_stress: Option<FatigueRule>,
    /// Cuts along the rod.
    pub stations: Option<usize>,
    /// Effective length over length of the rod as a column in the plane of the engine: 1 for pins that turn freely.
    pub end_fixity_in_plane: Option<f64>,
    /// The same across that plane, where the pins hold the ends.
    pub end_fixity_across: Option<f64>,
}

/// Mean-stress rules by name.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum FatigueRule {
    /// Walker's, with the exponent of the material card.
    Walker,
    /// Goodman's straight line.
    Goodman,
    /// Gerber's parabola.
    Gerber,
    /// Smith, Watson and Topper's product.
    SmithWatsonTopper,
}

impl FatigueRule {
    /// Name in text.
    pub fn word(self) -> &'static str {
        match self {
            Self::Walker => "Walker",
            Self::Goodman => "Goodman",
            Self::Gerber => "Gerber",
            Self::SmithWatsonTopper => "Smith, Watson and Topper",
        }
    }
}

impl Job {
    /// Reads a job file.
    ///
    /// # Errors
    ///
    /// Where the text is no TOML, or has a key that jobs do not have; the name that was meant is told.
    ///
    /// ```
    /// use layload_core::job::Job;
    ///
    /// let told = Job::from_toml("[engine]\nstroke = 46.0").unwrap_err().to_string();
    /// assert!(told.contains("stroke_mm"), "{told}");
    /// ```
    pub fn from_toml(text: &str) -> Result<Self, JobError> {
        from_toml(text).map_err(|reason| JobError::Format { reason })
    }

    /// Writes a job file that reads back as this job; tables that say nothing are left out.
    ///
    /// # Errors
    ///
    /// Where a number is not finite.
    ///
    /// ```
    /// use layload_core::job::Job;
    ///
    /// # fn main() -> Result<(), layload_core::job::JobError> {
    /// let mut job = Job::default();
    /// job.engine.stroke_mm = Some(46.0);
    /// assert_eq!(Job::from_toml(&job.to_toml()?)?, job);
    /// # Ok(())
    /// # }
    /// ```
    pub fn to_toml(&self) -> Result<String, JobError> {
        written(self.to_table()?)
    }

    /// All that is said, as tables of a job file.
    pub(super) fn to_table(&self) -> Result<toml::Table, JobError> {
        toml::Table::try_from(self).map_err(unwritable)
    }
}

/// Text of a job file without tables that say nothing.
pub(super) fn written(mut table: toml::Table) -> Result<String, JobError> {
    drop_empty(&mut table);
    toml::to_string_pretty(&table).map_err(unwritable)
}

#[allow(clippy::needless_pass_by_value)] // The signature that `map_err` takes.
fn unwritable(error: toml::ser::Error) -> JobError {
    JobError::Format { reason: error.to_string() }
}

/// Takes out tables without entries, the innermost first.
fn drop_empty(table: &mut toml::Table) {
    table.retain(|_, value| match value {
        toml::Value::Table(inner) => {
            drop_empty(inner);
            !inner.is_empty()
        }
        _ => true,
    });
}
