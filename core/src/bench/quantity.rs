use crate::verdict::Mode;

/// What of a material a failure mode is decided by, as far as breaks teach it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Quantity {
    /// Strength along and across the beads, within a layer.
    Beads,
    /// Strength between layers.
    Bond,
    /// Strength against pressing: compression and the pressure of pins.
    Pressed,
    /// Life at one strength.
    Life,
}

impl Quantity {
    /// All of them; their places in a [`super::ByQuantity`].
    pub const ALL: [Self; 4] = [Self::Beads, Self::Bond, Self::Pressed, Self::Life];

    /// The strength that a mode asks for; none where it is a matter of heat, growth or wear, which are measured and not learned
    /// from breaks.
    pub fn strength_of(mode: Mode) -> Option<Self> {
        match mode {
            Mode::FatigueInLayerPlane
            | Mode::CreepRuptureInLayerPlane
            | Mode::OverloadInLayerPlane
            | Mode::SplitByRing => Some(Self::Beads),
            Mode::FatigueAcrossLayers | Mode::CreepRuptureAcrossLayers | Mode::OverloadAcrossLayers => Some(Self::Bond),
            Mode::Crushing | Mode::BearingPressure | Mode::SkirtPressure => Some(Self::Pressed),
            // A column asks for stiffness.
            Mode::Buckling
            | Mode::Softening
            | Mode::SelfHeating
            | Mode::LooseRing
            | Mode::OpenJoint
            | Mode::Seizure
            | Mode::HeadContact
            | Mode::JournalHeat
            | Mode::JournalWear => None,
        }
    }

    /// What it is called.
    pub fn words(self) -> &'static str {
        match self {
            Self::Beads => "strength of beads",
            Self::Bond => "bond between layers",
            Self::Pressed => "strength when pressed",
            Self::Life => "life at one strength",
        }
    }
}
