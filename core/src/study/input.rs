use serde::{Deserialize, Serialize};

use super::error::StudyError;

/// What can be varied.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, strum::VariantArray)]
#[serde(rename_all = "snake_case")]
#[allow(missing_docs, reason = "the names are those of the job file, with their units")]
pub enum InputName {
    Rpm,
    WantedLifeH,
    ReciprocatingMassG,
    CompressionRatio,
    PeakPressureBar,
    SmallEndClearanceMm,
    BigEndClearanceMm,
    CrankcaseAirC,
    PistonPinC,
    CrankPinC,
    TemperatureC,
    Walls,
    InfillPercent,
    BeadWidthMm,
    LayerHeightMm,
    ThicknessFactor,
    SmallEndFactor,
    ShankFactor,
    BigEndFactor,
    CrownFactor,
    StrengthFactor,
    LifeFactor,
    Material,
    BuildDirection,
    Mesh,
}

/// Whether an input is a number or a word.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum InputKind {
    /// Any number.
    Number,
    /// A whole number.
    Whole,
    /// A word.
    Word,
}

impl InputName {
    /// All of them.
    pub fn all() -> &'static [Self] {
        <Self as strum::VariantArray>::VARIANTS
    }

    /// Name as written in study files and as a column.
    pub fn word(self) -> &'static str {
        match self {
            Self::Rpm => "rpm",
            Self::WantedLifeH => "wanted_life_h",
            Self::ReciprocatingMassG => "reciprocating_mass_g",
            Self::CompressionRatio => "compression_ratio",
            Self::PeakPressureBar => "peak_pressure_bar",
            Self::SmallEndClearanceMm => "small_end_clearance_mm",
            Self::BigEndClearanceMm => "big_end_clearance_mm",
            Self::CrankcaseAirC => "crankcase_air_c",
            Self::PistonPinC => "piston_pin_c",
            Self::CrankPinC => "crank_pin_c",
            Self::TemperatureC => "temperature_c",
            Self::Walls => "walls",
            Self::InfillPercent => "infill_percent",
            Self::BeadWidthMm => "bead_width_mm",
            Self::LayerHeightMm => "layer_height_mm",
            Self::ThicknessFactor => "thickness_factor",
            Self::SmallEndFactor => "small_end_factor",
            Self::ShankFactor => "shank_factor",
            Self::BigEndFactor => "big_end_factor",
            Self::CrownFactor => "crown_factor",
            Self::StrengthFactor => "strength_factor",
            Self::LifeFactor => "life_factor",
            Self::Material => "material",
            Self::BuildDirection => "build_direction",
            Self::Mesh => "mesh",
        }
    }

    /// Whether it is a number or a word.
    pub fn kind(self) -> InputKind {
        match self {
            Self::Material | Self::BuildDirection | Self::Mesh => InputKind::Word,
            Self::Walls => InputKind::Whole,
            _ => InputKind::Number,
        }
    }
}

/// One input with what it may be.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct InputRange {
    /// Which.
    pub name: InputName,
    /// Least; evenly likely up to `high`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub low: Option<f64>,
    /// Greatest.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub high: Option<f64>,
    /// Steps from `low` to `high` in a matrix; 3 unless said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub levels: Option<usize>,
    /// Numbers, evenly likely, instead of a range.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub values: Vec<f64>,
    /// Words, evenly likely.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub words: Vec<String>,
}

/// An input in one case.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(untagged)]
pub enum InputValue {
    /// A number.
    Number(f64),
    /// A word.
    Word(String),
}

impl InputRange {
    /// Checks that exactly one way to say what it may be is taken, and one that suits it.
    pub(super) fn check(&self) -> Result<(), StudyError> {
        let wrong = |wrong| Err(StudyError::Input { name: self.name.word(), wrong });
        let range = self.low.is_some() || self.high.is_some() || self.levels.is_some();
        let ways = usize::from(range) + usize::from(!self.values.is_empty()) + usize::from(!self.words.is_empty());
        if ways != 1 {
            return wrong("needs either low and high, or values, or words");
        }
        match self.name.kind() {
            InputKind::Word if self.words.is_empty() => return wrong("takes words"),
            InputKind::Number | InputKind::Whole if !self.words.is_empty() => return wrong("takes numbers"),
            _ => {}
        }
        if range {
            let (Some(low), Some(high)) = (self.low, self.high) else { return wrong("needs both low and high") };
            if !(low.is_finite() && high.is_finite() && low < high) {
                return wrong("has a low that is not below its high");
            }
            if self.levels.is_some_and(|levels| !(2..=10_000).contains(&levels)) {
                return wrong("needs 2 to 10 000 levels");
            }
        }
        if self.values.iter().any(|value| !value.is_finite()) {
            return wrong("has a value that is no number");
        }
        Ok(())
    }

    /// Distinct values in a matrix.
    pub(super) fn levels(&self) -> usize {
        if !self.words.is_empty() {
            self.words.len()
        } else if self.values.is_empty() {
            self.levels.unwrap_or(3)
        } else {
            self.values.len()
        }
    }

    /// Whether it has a few values instead of a range.
    pub(super) fn is_listed(&self) -> bool {
        !self.words.is_empty() || !self.values.is_empty()
    }

    /// Its value at a level of a matrix.
    pub(super) fn at_level(&self, level: usize) -> InputValue {
        if self.is_listed() {
            return self.listed(level);
        }
        let share = level as f64 / (self.levels() - 1) as f64;
        self.number(share)
    }

    /// Its value at a share from 0 to 1 of what is evenly likely.
    pub(super) fn at_share(&self, share: f64) -> InputValue {
        if self.is_listed() {
            let count = self.levels();
            return self.listed(((share * count as f64) as usize).min(count - 1));
        }
        self.number(share)
    }

    fn listed(&self, index: usize) -> InputValue {
        match self.words.get(index) {
            Some(word) => InputValue::Word(word.clone()),
            None => InputValue::Number(self.values.get(index).copied().unwrap_or(f64::NAN)),
        }
    }

    fn number(&self, share: f64) -> InputValue {
        let (low, high) = (self.low.unwrap_or(f64::NAN), self.high.unwrap_or(f64::NAN));
        if self.name.kind() == InputKind::Whole {
            // Every whole number as likely as the others.
            let count = (high.floor() - low.ceil() + 1.0).max(1.0);
            return InputValue::Number(low.ceil() + (share * count).floor().min(count - 1.0));
        }
        InputValue::Number(low + share * (high - low))
    }
}
