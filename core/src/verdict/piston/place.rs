use core::fmt;

/// A place on a piston, in the words of the trade.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum PistonPlace {
    /// The whole part.
    Whole,
    /// The crown as a body of heat.
    Crown,
    /// The middle of the crown.
    CrownMiddle {
        /// Depth below the upper face, m.
        depth: f64,
    },
    /// Where a wall holds the crown.
    CrownEdge {
        /// Depth below the upper face, m.
        depth: f64,
    },
    /// The same, half way through: shear.
    CrownEdgeShear,
    /// The land over a groove, counted from the crown; its root.
    Land {
        /// Which, from 1.
        number: usize,
        /// Shear at the root instead of bending.
        shear: bool,
    },
    /// A cut across the axis.
    Section {
        /// Height over the pin axis, m.
        height: f64,
    },
    /// Round the pin bore.
    Boss {
        /// Angle from the skirt's side, rad.
        angle: f64,
        /// On the outer surface instead of the bore.
        outside: bool,
    },
    /// The material between pin bore and the bosses' lower edge.
    BossShear,
    /// The pin bore.
    PinBore,
    /// The skirt.
    Skirt,
    /// The uppermost land.
    TopLand,
}

/// Parts of a piston within which neighbours share the fate of the worst.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum PistonRegion {
    /// The crown.
    Crown,
    /// The ring belt.
    Belt,
    /// The walls between crown and pin, and the skirt.
    Wall,
    /// The pin bosses.
    Boss,
}

impl PistonPlace {
    /// The region it belongs to.
    pub fn region(&self) -> PistonRegion {
        match self {
            Self::Whole | Self::Crown | Self::CrownMiddle { .. } | Self::CrownEdge { .. } | Self::CrownEdgeShear => {
                PistonRegion::Crown
            }
            Self::Land { .. } | Self::TopLand => PistonRegion::Belt,
            Self::Section { .. } | Self::Skirt => PistonRegion::Wall,
            Self::Boss { .. } | Self::BossShear | Self::PinBore => PistonRegion::Boss,
        }
    }
}

impl fmt::Display for PistonPlace {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        const MM: f64 = 1e3;
        match self {
            Self::Whole => write!(out, "whole part"),
            Self::Crown => write!(out, "crown"),
            Self::CrownMiddle { depth } => write!(out, "crown middle, {:.1} mm deep", depth * MM),
            Self::CrownEdge { depth } => write!(out, "crown edge, {:.1} mm deep", depth * MM),
            Self::CrownEdgeShear => write!(out, "crown edge, shear"),
            Self::Land { number, shear } => {
                write!(out, "root of land {number}{}", if *shear { ", shear" } else { "" })
            }
            Self::Section { height } if *height >= 0.0 => write!(out, "wall, {:.1} mm over the pin", height * MM),
            Self::Section { height } => write!(out, "wall, {:.1} mm under the pin", -height * MM),
            Self::Boss { angle, outside } => {
                let surface = if *outside { "outside" } else { "bore" };
                write!(out, "boss, {surface}, {:.0}° from skirt side", angle.to_degrees())
            }
            Self::BossShear => write!(out, "boss under the pin, shear"),
            Self::PinBore => write!(out, "pin bore"),
            Self::Skirt => write!(out, "skirt"),
            Self::TopLand => write!(out, "top land"),
        }
    }
}
