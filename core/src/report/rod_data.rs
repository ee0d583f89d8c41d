use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// What only a connecting rod has.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct RodReport {
    /// Angle between the bore axes, degrees.
    pub parallelism_deg: f64,
    /// What its pins and its own turning do to it.
    pub forces: RodForcesReport,
    /// Top speed of the duty from which the shank heats itself without limit, rpm; absent if out of reach.
    pub runaway_rpm: Option<f64>,
    /// Highest temperature of the whole rod at which 90 % reach the wanted life at the duty, °C; absent where it would
    /// have to be below 23 °C or below the coldest of its surroundings.
    pub highest_c: Option<f64>,
    /// Bearings and bushes pressed into the eyes.
    pub fits: Vec<FitReport>,
    /// Caps clamped over split eyes.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub caps: Vec<CapReport>,
    /// The eyes.
    pub eyes: Vec<EyeReport>,
    /// Stretches where the section has a wall thinner than can be printed sound.
    pub thin_sections: Vec<ThinSectionReport>,
}

/// Greatest forces on a rod over the duty.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct RodForcesReport {
    /// Pull of the piston pin, N.
    pub small_end_pull_n: f64,
    /// Push of the piston pin, N.
    pub small_end_push_n: f64,
    /// Pull of the crank pin, N.
    pub big_end_pull_n: f64,
    /// Push of the crank pin, N.
    pub big_end_push_n: f64,
    /// Bending moment in the shank, N mm: the whip.
    pub whip_moment_max_n_mm: f64,
}

/// A ring pressed into an eye.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct FitReport {
    /// `small-end` or `big-end`.
    pub role: String,
    /// The ring.
    pub ring: String,
    /// Least interference of the diameters at assembly, mm; negative for a gap.
    pub interference_least_mm: f64,
    /// Greatest interference of the diameters, mm.
    pub interference_most_mm: f64,
    /// Greatest hoop stress of the eye right after assembly, MPa.
    pub hoop_assembled_mpa: f64,
    /// The same over the mean strength there when cold.
    pub utilisation_assembled: f64,
    /// Greatest hoop stress by the ring when warm, MPa; it is part of the stress of the eye.
    pub hoop_running_mpa: f64,
    /// Pressure between ring and eye after the wanted life at the running temperature, MPa.
    pub pressure_left_mpa: f64,
    /// Pressure below which the pin can drag the ring round, MPa.
    pub pressure_needed_mpa: f64,
    /// Running time until that, s; absent where it lasts longer than a hundred times the wanted life.
    pub grip_lasts_s: Option<f64>,
    /// Temperature at which nothing is left of the interference, °C; absent where heat only tightens it.
    pub loose_at_c: Option<f64>,
    /// Rating life, of a rolling bearing whose load rating is given.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub rating: Option<RatingReport>,
}

/// Basic rating life of a rolling bearing by ISO 281; a housing as soft as plastic shortens it.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct RatingReport {
    /// What rolls in it.
    pub rolling: crate::life::RollingElement,
    /// Dynamic load rating C, N.
    pub dynamic_rating_n: f64,
    /// Steady load of the same life as the pin's force over the duty, N.
    pub equivalent_load_n: f64,
    /// Turns that nine bearings in ten outlive; of a bearing that swings counted by the way it rolls.
    pub life_turns: f64,
    /// The same in running time, s.
    pub life_s: f64,
    /// Whether it swings to and fro instead of turning.
    pub swings: bool,
}

/// A cap clamped over a split eye.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct CapReport {
    /// `small-end` or `big-end`.
    pub role: String,
    /// Its studs.
    pub studs: String,
    /// Pull of all studs when tightened, N.
    pub preload_n: f64,
    /// Stress of a stud then, MPa.
    pub stud_stress_mpa: f64,
    /// Stress of the plastic under a head then, MPa.
    pub squeeze_mpa: f64,
    /// The same over the compression strength there when cold.
    pub utilisation_assembled: f64,
    /// Pull of all studs at running temperature, before any creep, N.
    pub preload_warm_n: f64,
    /// Pull of all studs after the wanted life at running temperature, N.
    pub preload_left_n: f64,
    /// Greatest pull of the running rod on the joint, N.
    pub joint_pull_n: f64,
    /// Running time until that pull opens the joint, s; absent where it takes longer than a hundred times the wanted life.
    pub opens_after_s: Option<f64>,
    /// How the preload fades.
    pub fading: Vec<PreloadReport>,
}

/// Preload of a cap after some time at running temperature.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct PreloadReport {
    /// Running time, h.
    pub hours: f64,
    /// Pull of all studs, N.
    pub preload_n: f64,
    /// Share of the preload when tightened that is lost; negative where heat tightens the studs.
    pub lost: f64,
}

/// An eye.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct EyeReport {
    /// `small-end` or `big-end`.
    pub role: String,
    /// Thinnest material beside or beyond the bore, mm.
    pub ligament_mm: f64,
    /// Mean thickness along the pin, mm.
    pub thickness_mm: f64,
    /// Outer width over bore diameter.
    pub width_ratio: f64,
    /// Radial clearance taken, mm.
    pub radial_clearance_mm: f64,
    /// Greatest hoop stress over net-section stress in the greatest pull.
    pub peak_factor_pull: f64,
    /// Greatest hoop stress, MPa.
    pub hoop_stress_max_mpa: f64,
    /// Its place in degrees from the rod's end.
    pub hoop_stress_angle_deg: f64,
    /// Greatest mean pressure of the pin, MPa.
    pub pin_pressure_mpa: f64,
    /// The plastic bore as it slides on its pin; absent where the pin runs in a bearing or a bush.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub journal: Option<JournalReport>,
}

/// A plastic bore that slides on its pin.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct JournalReport {
    /// Mean pressure times sliding speed over the duty, MPa m/s.
    pub pressure_speed_mpa_m_s: f64,
    /// The most that lasts, MPa m/s.
    pub limit_mpa_m_s: f64,
    /// Coefficient of friction taken.
    pub friction: f64,
    /// Heat of friction, W.
    pub heat_w: f64,
    /// By how much that warms the bore in long running, K.
    pub rise_k: f64,
    /// Depth worn off one side within the wanted life, which makes the bore oval by as much, mm.
    pub worn_mm: f64,
    /// Depth at which the bore is worn out, mm.
    pub worn_out_mm: f64,
}

/// A stretch of the rod with a thin wall.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct ThinSectionReport {
    /// Where, in words.
    pub place: String,
    /// Start of the stretch, mm from the small-end centre.
    pub from_mm: f64,
    /// End of the stretch, mm.
    pub to_mm: f64,
    /// Thinnest wall, mm.
    pub least_thickness_mm: f64,
    /// Middle of it, mm, coordinates of the file.
    pub center_mm: [f64; 3],
    /// The limit it falls below, mm.
    pub limit_mm: f64,
    /// Why that is too thin.
    pub reason: String,
}
