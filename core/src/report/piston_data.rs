use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// What only a piston has.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct PistonReport {
    /// Crown over pin axis, mm.
    pub compression_height_mm: f64,
    /// Overall length, mm.
    pub length_mm: f64,
    /// Diameter of the skirt, mm.
    pub skirt_diameter_mm: f64,
    /// Length of the skirt, mm.
    pub skirt_length_mm: f64,
    /// Greatest gap between its facets and the true circle, mm.
    pub skirt_sagitta_mm: f64,
    /// Diameter of the uppermost land, mm.
    pub land_diameter_mm: f64,
    /// Unit vector from skirt to crown, coordinates of the file.
    pub crown_direction: [f64; 3],
    /// Distance of the pin axis from the cylinder axis, mm.
    pub pin_offset_mm: f64,
    /// The bosses along the pin.
    pub bosses: Vec<BossReport>,
    /// Free length between them, mm.
    pub boss_gap_mm: Option<f64>,
    /// Thinnest material round the pin bore on the skirt's side, mm.
    pub boss_wall_mm: Option<f64>,
    /// Material under the pin bore, mm.
    pub boss_edge_mm: Option<f64>,
    /// The crown.
    pub crown: CrownReport,
    /// The ring grooves, from the crown down.
    pub grooves: Vec<GrooveReport>,
    /// Lands between two grooves.
    pub lands: Vec<LandReport>,
    /// Masses.
    pub masses: PistonMassReport,
    /// Greatest pull of the pin, N.
    pub pin_pull_n: f64,
    /// Greatest push of the pin, N.
    pub pin_push_n: f64,
    /// Greatest side thrust on the cylinder, N.
    pub side_thrust_n: f64,
    /// Greatest mean pressure of the skirt on it, MPa.
    pub skirt_pressure_mpa: f64,
    /// Greatest mean pressure of the pin on its bore, MPa.
    pub pin_pressure_mpa: f64,
    /// Growth in the cylinder.
    pub growth: Vec<GrowthReport>,
    /// The crown in one run.
    pub crown_heat: CrownHeatReport,
}

/// A pin boss.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct BossReport {
    /// Where it begins along the pin, mm from the cylinder axis.
    pub from_mm: f64,
    /// Where it ends, mm.
    pub to_mm: f64,
    /// Mean length that carries the pin, mm.
    pub bearing_length_mm: f64,
}

/// A crown as a plate.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct CrownReport {
    /// Thickness it was taken with, mm.
    pub thickness_mm: f64,
    /// Thickness that all but a twentieth of the free crown exceeds, mm.
    pub thin_mm: f64,
    /// Mean, mm.
    pub mean_mm: f64,
    /// Thickness that only a twentieth exceeds, mm.
    pub thick_mm: f64,
    /// Inscribed sphere that all but a twentieth exceeds, mm.
    pub sphere_mm: f64,
    /// Diameter of the free plate, mm.
    pub free_diameter_mm: f64,
    /// Difference of height over its upper face, mm.
    pub relief_mm: f64,
    /// Thickness of a cold even plate that bends as little as the hot one, mm.
    pub equal_thickness_mm: f64,
    /// Which bound on its edge is the more severe: `supported` stresses the middle most, `clamped` the edge; the truth lies
    /// between.
    pub governing_edge: String,
    /// Margin with the edge simply supported.
    pub margin_supported: f64,
    /// Margin with the edge clamped.
    pub margin_clamped: f64,
    /// Share of a clamp's moment that the wall under the crown holds: 0 simply supported, 1 clamped.
    pub edge_share: f64,
    /// Margin with the edge held by so much: it counts.
    pub margin: f64,
    /// Deflection of the middle at peak pressure, mm, by both bounds: clamped and supported.
    pub deflection_mm: [f64; 2],
    /// Places less than half as thick as the rest, the thinnest first: each is checked as a clamped plate of its own area.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub bridges: Vec<BridgeReport>,
    /// Holes through it, the largest first; their edges are not checked.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub holes: Vec<HoleReport>,
}

/// A thin place of a crown.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct BridgeReport {
    /// Least thickness, mm.
    pub thickness_mm: f64,
    /// Area seen along the axis, mm².
    pub area_mm2: f64,
    /// Its middle on the face, in the coordinates of the file, mm.
    pub center_mm: [f64; 3],
}

/// A hole through a crown.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct HoleReport {
    /// Area seen along the axis, mm².
    pub area_mm2: f64,
    /// Its middle, in the coordinates of the file, mm.
    pub center_mm: [f64; 3],
}

/// A ring groove.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct GrooveReport {
    /// Upper flank below the crown, mm.
    pub below_crown_mm: f64,
    /// Width along the axis, mm.
    pub width_mm: f64,
    /// Depth below the land, mm.
    pub depth_mm: f64,
    /// Change of its width by heat, mm; positive opens.
    pub width_growth_mm: f64,
    /// How far the land above bends into it under gas, mm: it closes on the ring.
    pub closing_mm: f64,
    /// Growth of its floor's diameter less that of the cylinder, mm: it takes the room behind the ring.
    pub floor_growth_mm: f64,
}

/// A land between two grooves.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct LandReport {
    /// Counted from the crown; the top land is 1.
    pub number: usize,
    /// Along the axis, mm.
    pub height_mm: f64,
    /// From root to edge, mm.
    pub depth_mm: f64,
    /// Bending stress at its root at peak pressure, MPa, with all of it above and none below.
    pub root_stress_mpa: f64,
    /// Temperature, °C.
    pub temperature_c: f64,
}

/// Masses of a piston.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct PistonMassReport {
    /// The plastic, g.
    pub plastic_g: f64,
    /// With rings, layers and pin, g.
    pub whole_g: f64,
    /// What the job says goes to and fro, g.
    pub job_g: f64,
}

/// Growth of a diameter in the cylinder.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct GrowthReport {
    /// Which.
    pub place: String,
    /// Its temperature, °C.
    pub temperature_c: f64,
    /// Diametral clearance when cold, mm.
    pub cold_clearance_mm: f64,
    /// Growth of the piston's diameter, mm.
    pub growth_mm: f64,
    /// Growth of the cylinder's, mm.
    pub bore_growth_mm: f64,
    /// Diametral clearance when running, mm; negative where it seizes.
    pub running_clearance_mm: f64,
    /// Cold clearance that would leave what the job wants, mm.
    pub wanted_clearance_mm: f64,
}

/// The crown in one run from cold.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct CrownHeatReport {
    /// Length of the run followed, s.
    pub run_s: f64,
    /// Softening temperature, °C.
    pub softening_c: f64,
    /// Depth of the crown that counts, mm: the share of its thickness that may soften.
    pub counting_depth_mm: f64,
    /// Highest temperature there, °C, until the crown or the top land is lost; as all temperatures here.
    pub counting_depth_c: f64,
    /// Highest temperature of its face to the gas, °C, mean over the engine's cycle. Where crown or top land is lost within
    /// the run, the highest until then.
    pub surface_c: f64,
    /// Highest temperature of the plastic's own face, °C.
    pub plastic_face_c: f64,
    /// Highest temperature of the top land's lower edge, °C.
    pub top_land_c: f64,
    /// Time until so much of the crown or the top land is soft that it counts as lost, s; absent where it does not soften.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub softening_time_s: Option<f64>,
    /// Time until the depth that counts is soft, s.
    pub crown_soft_s: Option<f64>,
    /// The same with Hohenberg's film, s.
    pub crown_soft_hohenberg_s: Option<f64>,
    /// The same with Woschni's film, s.
    pub crown_soft_woschni_s: Option<f64>,
    /// Time until the top land is soft through, s.
    pub land_soft_s: Option<f64>,
    /// Film of the gas in the hottest step, W/(m² K): that of the two which softens the crown sooner; the verdict
    /// rests on it.
    pub film_w_m2_k: f64,
    /// Gas temperature that belongs to it, °C.
    pub film_temperature_c: f64,
    /// Heat in less heat stored less heat out over the run, share of the heat in.
    pub imbalance: f64,
    /// What happens as time passes, until the end of the run or the loss of crown or top land.
    pub table: Vec<CrownMomentReport>,
}

/// The crown at one time of a run.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct CrownMomentReport {
    /// Since the start, s.
    pub seconds: f64,
    /// Face to the gas, °C.
    pub surface_c: f64,
    /// Face of the plastic, °C.
    pub plastic_face_c: f64,
    /// Underside, °C.
    pub underside_c: f64,
    /// Depth of the plastic that is soft, mm.
    pub soft_depth_mm: f64,
}
