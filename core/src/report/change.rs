use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// What the changes of the input are sorted and drawn by.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum ChangeMeasure {
    /// By the life that 90 % of parts reach.
    Life,
    /// By the margin of all modes together: without a life at the duty, with one that does not end, or where no change moves it.
    #[default]
    Margin,
}

/// An input that is changed; a part's kind decides which of them it has.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum ChangedInput {
    /// Thickness of a rod along its pins.
    Thickness,
    /// Wall around the bore of a rod's small end.
    SmallEndWall,
    /// Wall around the bore of a rod's big end.
    BigEndWall,
    /// Speed of the engine.
    Speed,
    /// Throttle.
    Throttle,
    /// Mass of piston, rings and pin.
    ReciprocatingMass,
    /// Highest gas pressure.
    PeakPressure,
    /// Compression ratio.
    CompressionRatio,
    /// Length of one run from cold.
    RunLength,
    /// Temperatures around the part, or the one given for it.
    Temperature,
    /// Clearance of pins in their bores.
    PinClearance,
    /// Clearance of a piston in its cylinder.
    CylinderClearance,
    /// Direction in which layers stack.
    BuildDirection,
    /// Share of plastic inside the walls.
    Infill,
    /// Water in the plastic.
    Moisture,
    /// Temperature of the nozzle.
    Nozzle,
    /// Temperature of the air around the print.
    Chamber,
    /// Parts printed at the same time.
    PartsTogether,
    /// Preload of the studs of a cap.
    Preload,
    /// Thickness of a crown.
    CrownThickness,
    /// Temperature at which the plastic softens.
    Softening,
    /// Aluminium plate on a crown.
    CrownPlate,
    /// Ceramic coating of a crown.
    CrownCoating,
    /// Thickness of what lies on a crown already.
    CrownCover,
    /// Cooling under a crown.
    Underside,
    /// Wall around a pin bore.
    BossWall,
    /// Height of ring lands.
    LandHeight,
    /// Area of the walls below a crown.
    WallArea,
    /// Length of a skirt.
    SkirtLength,
    /// A load of a part of any kind.
    Load,
}

impl ChangedInput {
    /// Whether it is a matter of how the engine is run, which costs power, not of the part and what it is joined to.
    pub fn is_how_it_is_run(self) -> bool {
        matches!(self, Self::Speed | Self::Throttle | Self::PeakPressure | Self::CompressionRatio | Self::RunLength)
    }
}

/// A value that a change moves.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct ChangedValue {
    /// What it is.
    pub name: String,
    /// As it is, in its unit.
    pub from: f64,
    /// With the change, in its unit.
    pub to: f64,
    /// Its unit; empty for pure numbers.
    pub unit: String,
}

/// What a change of the input does.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct SensitivityReport {
    /// Which input is changed.
    pub key: ChangedInput,
    /// What is changed, in words.
    pub input: String,
    /// How, in words.
    pub change: String,
    /// Values that it moves; empty where it has no number.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub moves: Vec<ChangedValue>,
    /// What the list is sorted and drawn by, the same in every entry.
    #[serde(default)]
    pub measured_by: ChangeMeasure,
    /// Factor on the life that 90 % of parts reach, 0 where more than 10 % then fail at the first full load; absent
    /// where there is no life to compare.
    pub life_factor: Option<f64>,
    /// Factor on the margin.
    pub margin_factor: f64,
    /// What it does to the time until heat takes the part; only of a piston that softens in one run.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub softening: Option<SofteningChange>,
    /// The same change taken further; only of a size, where the part fails.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub further: Option<FurtherChange>,
}

/// A size made larger until the wanted life is reached, in steps of a tenth of a millimetre; where a fifth more of it does
/// not, the size of the greatest margin up to there.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct FurtherChange {
    /// Sizes that it moves.
    pub moves: Vec<ChangedValue>,
    /// Factor on the life that 90 % of parts reach, as that of the change itself.
    pub life_factor: Option<f64>,
    /// Factor on the margin.
    pub margin_factor: f64,
    /// Mass that it adds to the part, g; absent where that is not worked out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub mass_change_g: Option<f64>,
}

/// The best change of a size and the best of anything else but how the engine is run, made together.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct ChangesTogether {
    /// The size that is changed.
    pub size: ChangedInput,
    /// What else is changed, as in its own entry.
    pub other: ChangedInput,
    /// How far the size is taken with the other change made, and what both give together.
    pub both: FurtherChange,
}

impl SensitivityReport {
    /// Changes of less than this share are below what the model resolves: its searches end within some ten-thousandths.
    pub const RESOLVED: f64 = 1e-3;

    /// The factor that the list is sorted and drawn by.
    pub fn factor(&self) -> f64 {
        match self.measured_by {
            ChangeMeasure::Life => self.life_factor.unwrap_or(1.0),
            ChangeMeasure::Margin => self.margin_factor,
        }
    }

    /// Length of its bar, positive for the better: the logarithm of [`Self::factor`], 0 for a change too small to resolve
    /// and at most that of a thousand times.
    pub fn effect(&self) -> f64 {
        let factor = self.factor();
        if (factor - 1.0).abs() < Self::RESOLVED { 0.0 } else { libm::log(factor.clamp(1e-3, 1e3)) }
    }
}

/// Time of one run until so much of a piston is soft that it counts as lost.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct SofteningChange {
    /// As it is, s.
    pub from_s: f64,
    /// With the change, s; absent where it no longer softens in the run.
    pub to_s: Option<f64>,
}

impl SofteningChange {
    /// Factor on that time; none where it no longer softens.
    pub fn factor(&self) -> Option<f64> {
        self.to_s.map(|to| to / self.from_s.max(f64::MIN_POSITIVE))
    }
}
