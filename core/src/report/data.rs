use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::any_data::AnyReport;
use super::change::{ChangesTogether, SensitivityReport};
use super::crank::CrankReport;
use super::effects::CoveredReport;
use super::field::FieldReport;
use super::part::{MeshReport, PartReport, PrintReport};
use super::piston_data::PistonReport;
use super::rod_data::RodReport;
use crate::job::Assumption;
use crate::material::Bears;
use crate::verdict::{Mode, State};

/// The whole answer to one check.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Report {
    /// Version of this form.
    pub schema_version: String,
    /// Version of the program that wrote it.
    pub program_version: String,
    /// Title of the job.
    pub title: Option<String>,
    /// The answer.
    pub verdict: VerdictReport,
    /// Life by share of parts failed.
    pub life: LifeReport,
    /// Inputs that are possible but far from usual, in sentences: a slip of the unit is likely.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub warnings: Vec<WarningReport>,
    /// Every mode with its worst place, the least margin first.
    pub modes: Vec<ModeReport>,
    /// How far off the verdict may be.
    pub uncertainty: UncertaintyReport,
    /// Heat of the part.
    pub heat: HeatReport,
    /// How much longer the rod gets, and what that leaves of the gap to the head.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub clearance: Option<ClearanceReport>,
    /// What a change of the input does, largest effect first: on life, or on the margin where life does not tell.
    pub sensitivities: Vec<SensitivityReport>,
    /// The two best changes made together; absent where it does not fail.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub together: Option<ChangesTogether>,
    /// The mesh as read.
    pub mesh: MeshReport,
    /// The part as recognised.
    pub part: PartReport,
    /// What only a connecting rod has.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub rod: Option<RodReport>,
    /// What only a piston has.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub piston: Option<PistonReport>,
    /// What only a part of any kind has.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub any: Option<AnyReport>,
    /// How it is printed.
    pub print: PrintReport,
    /// What the engine does to it.
    pub loads: LoadReport,
    /// Forces over one cycle of the engine.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub crank: Option<CrankReport>,
    /// Cuts from the small-end centre to the big-end centre; of a piston from the skirt's end to the crown's underside.
    pub stations: Vec<StationReport>,
    /// The stress field of the whole part; absent of a look at sections alone.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub field: Option<FieldReport>,
    /// Stress on each facet of the rod's surface over what nine prints in ten bear there for the wanted life, 1 being the
    /// limit; only when asked for. Facets are those of the file unless something was mended or left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub facet_utilisation: Option<Vec<f64>>,
    /// What may change the answer, and how far it is in it.
    #[serde(default)]
    pub effects: Vec<CoveredReport>,
    /// Every value taken, with its source.
    pub assumptions: Vec<Assumption>,
    /// Where the model is weak for this case.
    pub notes: Vec<String>,
    /// What to heed before an engine is started.
    pub cautions: Vec<String>,
}

/// The answer.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct VerdictReport {
    /// The answer with what it is worth; `holds` and `well_founded` follow from the same.
    pub state: State,
    /// Whether 90 % of parts reach the wanted life at the duty, by this estimate; null where only sections were checked and
    /// found no fault, which is no answer.
    pub holds: Option<bool>,
    /// Whether less than half of the margin's uncertainty comes from values nobody measured. Where it is false, a verdict
    /// that holds is a reason to test, not to trust.
    pub well_founded: bool,
    /// What fails first: the mode whose own margin is least, the first of `modes`.
    pub governing_mode: Mode,
    /// Where.
    pub governing_place: String,
    /// The margin of that mode by itself.
    #[serde(default)]
    pub governing_margin: f64,
    /// Margin of all modes together: the factor by which all stress could grow before `holds` turns false. It may be a
    /// little below `governing_margin`, as several modes and places with their scatter fail more often than each.
    pub margin: f64,
    /// Running time that 90 % of parts reach, s; 0 where the first load breaks more than 10 %.
    pub life_s: f64,
    /// The same in turns of the crank.
    pub life_revolutions: f64,
    /// Whether the life lies beyond `tested_s`: then it comes from a law carried on past every test, by whatever mode it
    /// ends, and no more than that time is known of it.
    pub life_beyond_tests: bool,
    /// Running time of the 10^10 engine cycles beyond which no printed plastic is tested, s.
    #[serde(default)]
    pub tested_s: f64,
    /// Wanted running time, s.
    pub wanted_life_s: f64,
    /// Highest top speed of the duty for the wanted life, rpm; absent when no speed holds.
    pub max_rpm: Option<f64>,
    /// Lowest top speed of the duty for the wanted life, rpm, where slower running at the same throttles does not hold:
    /// there inertia relieves the gas force less.
    pub min_rpm: Option<f64>,
    /// How to read `max_rpm`.
    pub max_rpm_meaning: SpeedVerdict,
    /// Top speed of the duty, rpm.
    pub duty_rpm: f64,
    /// What carries load and was not checked, in sentences, and then the effects that were not: a verdict that holds says
    /// nothing of them.
    pub unchecked: Vec<String>,
}

/// What is known of the highest speed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum SpeedVerdict {
    /// `max_rpm` is the highest speed for the wanted life.
    Limit,
    /// It holds between `min_rpm` and `max_rpm`, and slower it does not.
    Range,
    /// It still holds at `max_rpm`; higher speeds were not checked.
    AtLeast,
    /// No speed holds: gas force or heat alone is over the limit.
    None,
}

/// An input that is possible but far from what is usual.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct WarningReport {
    /// Its key in the job file; of a value of the material card its name.
    pub key: String,
    /// What is unusual and what would be usual, as a sentence without its full stop.
    pub message: String,
}

/// Life by share of parts failed, at the duty.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct LifeReport {
    /// 50 % have failed, s.
    pub b50_s: f64,
    /// 10 % have failed, s.
    pub b10_s: f64,
    /// 1 % have failed, s.
    pub b1_s: f64,
    /// `b10_s` with the material values at their weak 1-in-20 limit, s.
    pub b10_low_s: f64,
    /// `b10_s` with them at their strong 1-in-20 limit, s.
    pub b10_high_s: f64,
    /// What 95 % of single prints outlive, s, drawn with scatter and wrong material values together.
    pub one_print_low_s: f64,
    /// What 5 % of them outlive, s.
    pub one_print_high_s: f64,
    /// Prints drawn by chance for the last two.
    pub draws: usize,
    /// Seed of the draws.
    pub seed: u64,
}

/// One failure mode.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct ModeReport {
    /// Which.
    pub mode: Mode,
    /// Its worst place.
    pub place: String,
    /// That place, mm, coordinates of the file; absent for the whole part.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub center_mm: Option<[f64; 3]>,
    /// Factor by which all stress could grow before 10 % of parts fail by it within the wanted life.
    pub margin: f64,
    /// Running time that 90 % of parts reach before failing by it, s; absent for modes that do not depend on time.
    pub life_b10_s: Option<f64>,
}

/// How far off the verdict may be.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct UncertaintyReport {
    /// Share of the margin's uncertainty that comes from values nobody measured (memory), 0 to 1.
    pub memory_share: f64,
    /// The margin is known to within this factor either way (one standard deviation, from the material card alone).
    pub margin_factor: f64,
    /// The value to measure first.
    pub measure_first: Option<String>,
    /// Material values that move the margin, the strongest first.
    pub influences: Vec<InfluenceReport>,
}

/// Where the temperature of the part comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum TemperatureFrom {
    /// Given in the job, the same everywhere.
    Given,
    /// Loads and surroundings in long running.
    Settled,
    /// Loads and surroundings at the end of one run from cold.
    AfterRun,
}

/// Heat of the part at the duty.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct HeatReport {
    /// Where the temperature at which strength was taken comes from.
    pub from: TemperatureFrom,
    /// The highest temperature at which strength was taken, °C; each station has its own.
    pub taken_c: f64,
    /// The hottest place.
    pub hottest: HottestReport,
}

/// The hottest place of a part at its duty.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct HottestReport {
    /// Where, in words.
    pub place: String,
    /// Its temperature, °C; absent where it heats itself without limit.
    pub temperature_c: Option<f64>,
    /// Temperature at which the plastic softens, °C.
    pub softening_c: f64,
    /// Whether it heats itself without limit in long running.
    pub runs_away: bool,
}

/// How much longer the rod is between its bore centres, at its greatest pull and after the wanted life, than when fitted.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct ClearanceReport {
    /// By the greatest pull, mm.
    pub elastic_mm: f64,
    /// By creep over the wanted life, mm; negative where pushes outweigh pulls.
    pub creep_mm: f64,
    /// By heat above 23 °C, mm.
    pub thermal_mm: f64,
    /// Gap between piston and head as given, mm.
    pub given_mm: Option<f64>,
    /// What is left of it, mm, the cylinder as cold as before; play in the bearings takes its share too.
    pub remaining_mm: Option<f64>,
}

/// What one material value does to the margin.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct InfluenceReport {
    /// The value.
    pub name: String,
    /// What it decides.
    pub bears: Bears,
    /// Where it comes from.
    pub source: crate::job::Origin,
    /// Factor on the margin when the value falls by its standard uncertainty.
    pub margin_factor: f64,
}

/// What the engine does to the part over the whole duty.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct LoadReport {
    /// Highest absolute cylinder pressure, bar.
    pub peak_pressure_bar: f64,
    /// Displacement, cm³.
    pub displacement_cm3: f64,
    /// Greatest piston acceleration, m/s².
    pub piston_acceleration_max_m_s2: f64,
    /// Mean piston speed at the top speed, m/s.
    pub mean_piston_speed_m_s: f64,
}

/// A cut along the load path.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct StationReport {
    /// Distance from the small-end centre toward the big end, mm; on a piston height over the pin axis, toward the crown.
    pub position_mm: f64,
    /// Area of material, mm².
    pub area_mm2: f64,
    /// Of that, area printed solid, mm².
    pub solid_area_mm2: f64,
    /// Least second moment of area, the inside weighted by its stiffness, mm⁴.
    pub second_moment_min_mm4: f64,
    /// Greatest second moment, mm⁴.
    pub second_moment_max_mm4: f64,
    /// Thinnest wall in the cut, mm.
    pub thinnest_wall_mm: Option<f64>,
    /// Greatest axial force, tension positive, N.
    pub axial_force_max_n: f64,
    /// Least axial force, N.
    pub axial_force_min_n: f64,
    /// Greatest shear force, N.
    pub shear_force_max_n: f64,
    /// Greatest bending moment in the plane of the engine, N mm.
    pub bending_moment_max_n_mm: f64,
    /// Greatest stress along the rod, MPa.
    pub stress_max_mpa: f64,
    /// Least stress along the rod, MPa.
    pub stress_min_mpa: f64,
    /// Greatest stress over the mean strength in its direction, at its temperature.
    pub utilisation: f64,
    /// Temperature at which its strength was taken, °C.
    pub temperature_c: f64,
}
