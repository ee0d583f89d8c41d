use nalgebra::Vector3;

/// From where a part is seen.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Side {
    /// Along the pins: the round of the bores.
    AlongPins,
    /// Across the pins: the thickness.
    AcrossPins,
    /// Along the rod from the big end, or down on the crown.
    Along,
}

/// A side with what is right and what is up on it, in the frame of the part.
pub type Viewed = (Side, Vector3<f64>, Vector3<f64>);

impl Side {
    /// In words.
    pub fn words(self) -> &'static str {
        match self {
            Self::AlongPins => "along the pins",
            Self::AcrossPins => "across the pins",
            Self::Along => "along the axis",
        }
    }
}
