use core::fmt;

use super::model::Region;
use crate::job::EndFits;
use crate::verdict::{ModeMargin, PartStrength};

/// Which eye.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum End {
    /// The piston pin's.
    Small,
    /// The crank pin's.
    Big,
}

impl End {
    /// Radial clearance of its pin, m.
    pub fn clearance(self, fits: &EndFits) -> f64 {
        match self {
            Self::Small => fits.small_end,
            Self::Big => fits.big_end,
        }
    }

    /// Name in words.
    pub fn words(self) -> &'static str {
        match self {
            Self::Small => "small-end eye",
            Self::Big => "big-end eye",
        }
    }
}

/// A place on a rod, in the words of the trade.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum RodPlace {
    /// The whole part.
    Whole,
    /// The whole shank.
    Shank,
    /// At a distance from the small-end centre, m.
    ShankAt {
        /// Distance along the line of centres, m.
        position: f64,
    },
    /// The bore of an eye.
    Bore {
        /// Which eye.
        end: End,
    },
    /// The joint of the cap over an eye.
    Joint {
        /// Which eye.
        end: End,
    },
    /// Round an eye.
    Eye {
        /// Which eye.
        end: End,
        /// Angle from the outer end of the rod, rad.
        angle: f64,
        /// On the outer surface instead of the bore.
        outside: bool,
    },
}

impl RodPlace {
    /// Which part of the rod it is on.
    pub fn region(&self) -> Region {
        match self {
            Self::Whole | Self::Shank | Self::ShankAt { .. } => Region::Shank,
            Self::Bore { end } | Self::Joint { end } | Self::Eye { end, .. } => match end {
                End::Small => Region::SmallEnd,
                End::Big => Region::BigEnd,
            },
        }
    }
}

impl fmt::Display for RodPlace {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Whole => write!(out, "whole part"),
            Self::Shank => write!(out, "shank"),
            Self::ShankAt { position } => write!(out, "shank, {:.1} mm from small-end centre", position * 1e3),
            Self::Bore { end } => write!(out, "{} bore", end.words()),
            Self::Joint { end } => write!(out, "{}, joint of its cap", end.words()),
            Self::Eye { end, angle, outside } => {
                let surface = if *outside { "outside" } else { "bore" };
                write!(out, "{}, {surface}, {:.0}° from the rod's end", end.words(), angle.to_degrees())
            }
        }
    }
}

/// The worst of one mode on a rod.
pub type RodMargin = ModeMargin<RodPlace>;

/// Strength and life of a whole rod.
pub type RodStrength = PartStrength<RodPlace>;
