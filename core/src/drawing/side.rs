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
pub(super) type Seen = (Side, Vector3<f64>, Vector3<f64>);

impl Side {
    /// In words.
    pub fn words(self) -> &'static str {
        match self {
            Self::AlongPins => "along the pins",
            Self::AcrossPins => "across the pins",
            Self::Along => "along the axis",
        }
    }

    /// A rod lies, its small end on the left.
    pub(super) fn of_rod() -> [Seen; 3] {
        let (x, y, z) = (Vector3::x(), Vector3::y(), Vector3::z());
        [(Self::AlongPins, x, y), (Self::AcrossPins, x, z), (Self::Along, -z, y)]
    }

    /// A piston stands, its crown above.
    pub(super) fn of_piston() -> [Seen; 3] {
        let (x, y, z) = (Vector3::x(), Vector3::y(), Vector3::z());
        [(Self::AlongPins, -y, x), (Self::AcrossPins, -z, x), (Self::Along, -y, -z)]
    }
}
