use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::job::Assumption;
use crate::verdict::{Mode, State};

/// Which way up to print.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct DirectionsReport {
    /// Version of this form.
    pub schema_version: String,
    /// Version of the program that wrote it.
    pub program_version: String,
    /// Title of the job.
    pub title: Option<String>,
    /// The direction to choose.
    pub recommended: Recommended,
    /// The three ways a rod can lie.
    pub named: NamedDirections,
    /// Every direction scored, mirror images of the part left out.
    pub directions: Vec<DirectionReport>,
    /// What the choice rests on beside the assumptions of a check.
    pub assumptions: Vec<Assumption>,
    /// Where the model is weak for this case.
    pub notes: Vec<String>,
    /// Read them.
    pub cautions: Vec<String>,
}

/// The direction to choose.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Recommended {
    /// Its scores; margin, life and mode are those of a full check.
    #[serde(flatten)]
    pub direction: DirectionReport,
    /// Why, in a sentence or two.
    pub reason: String,
}

/// The three ways a rod can lie, each by a full check.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct NamedDirections {
    /// Pin axes upright, the profile on the bed.
    pub flat: DirectionReport,
    /// Lying on its edge, pin axes level.
    pub on_edge: DirectionReport,
    /// Standing, line of centres upright.
    pub upright: DirectionReport,
}

/// Strength in one build direction, with the stresses and temperatures of the job's own.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct DirectionMargin {
    /// Unit vector in which layers stack, coordinates of the file.
    pub build_direction: [f64; 3],
    /// The same seen from the part: along the rod toward the big end, across it, along the pins.
    pub in_part: [f64; 3],
    /// Factor by which all stress could grow before one part in ten fails within the wanted life.
    pub margin: f64,
    /// What fails first: the mode whose own margin is least.
    pub governing_mode: Mode,
}

/// What one build direction makes of the part.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
// Each says a thing of its own to readers of the JSON.
#[allow(clippy::struct_excessive_bools)]
pub struct DirectionReport {
    /// Unit vector in which layers stack, coordinates of the file.
    pub build_direction: [f64; 3],
    /// Angle between it and the line of centres, degrees: 90 keeps the shank's load within layers.
    pub angle_to_axis_deg: f64,
    /// Factor by which all stress could grow before one part in ten fails within the wanted life.
    pub margin: f64,
    /// What the margin says. It is `holds-unchecked` at best: what carries load and was not checked is told by a check.
    pub state: State,
    /// Whether margin, life and mode are by the stress field; otherwise they are by sections, which see no fillets, pockets
    /// and blends.
    pub solved: bool,
    /// Whether margin, life and mode are those of a full check of this direction, as a check by the same gives them; otherwise they are
    /// estimates with the stresses and temperatures of the job's own direction.
    pub checked: bool,
    /// Running time that 90 % of parts reach at the duty, s.
    pub life_s: f64,
    /// What fails first: the mode whose own margin is least.
    pub governing_mode: Mode,
    /// Where.
    pub governing_place: String,
    /// Surface that hangs over and needs support, mm².
    pub support_area_mm2: f64,
    /// Room under that surface, down to bed or part, mm³.
    pub support_volume_mm3: f64,
    /// Height above the bed, mm.
    pub height_mm: f64,
    /// Estimated time to print, s.
    pub print_time_s: f64,
    /// Surface that rests on the bed, mm².
    pub contact_area_mm2: f64,
    /// Height of the centre of mass over its least distance from the edge of the footing; absent where the part would tip
    /// over by itself.
    pub tip_ratio: Option<f64>,
    /// Whether it stays on the bed by itself: enough footing for its height, and it does not tip over when leaned by 10
    /// degrees. A brim and supports are not counted.
    pub stands: bool,
    /// Angle between bore and build direction, degrees, small end and big end: 0 prints the bore round.
    pub bore_angles_deg: Vec<f64>,
    /// Greatest step that layers leave in the wall of a bore, mm.
    pub stair_step_mm: f64,
    /// Whether it may be recommended and no other such direction beats it in margin, print time, supported area and bore
    /// steps together.
    pub pareto: bool,
    /// Why it is not the recommended one, of poses that lie as named or on a face of the part's convex hull.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub not_recommended: Option<String>,
}
