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
    /// A lip that stands out of the skirt.
    Lip {
        /// Height of its middle over the pin axis, m.
        height: f64,
    },
    /// The uppermost land.
    TopLand,
    /// A point of the crown's surface.
    CrownAt {
        /// Distance from the cylinder axis, m.
        radius: f64,
        /// Depth below the upper face, m.
        depth: f64,
    },
    /// A point of the ring belt's surface.
    BeltAt {
        /// Height over the pin axis, m.
        height: f64,
        /// Angle round the cylinder axis from the pin, rad.
        azimuth: f64,
    },
    /// A point of the walls' surface.
    WallAt {
        /// Height over the pin axis, m.
        height: f64,
        /// Angle round the cylinder axis from the pin, rad.
        azimuth: f64,
    },
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

impl PistonRegion {
    /// All of them, in order.
    pub const ALL: [Self; 4] = [Self::Crown, Self::Belt, Self::Wall, Self::Boss];
}

impl PistonPlace {
    /// The region it belongs to.
    pub fn region(&self) -> PistonRegion {
        match self {
            Self::Whole
            | Self::Crown
            | Self::CrownMiddle { .. }
            | Self::CrownEdge { .. }
            | Self::CrownEdgeShear
            | Self::CrownAt { .. } => PistonRegion::Crown,
            Self::Land { .. } | Self::TopLand | Self::BeltAt { .. } => PistonRegion::Belt,
            Self::Section { .. } | Self::Skirt | Self::Lip { .. } | Self::WallAt { .. } => PistonRegion::Wall,
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
            Self::Section { height } => write!(out, "wall, {}", over_pin(*height)),
            Self::Boss { angle, outside } => {
                let surface = if *outside { "outside" } else { "bore" };
                write!(out, "boss, {surface}, {:.0}° from skirt side", angle.to_degrees())
            }
            Self::BossShear => write!(out, "boss under the pin, shear"),
            Self::PinBore => write!(out, "pin bore"),
            Self::Skirt => write!(out, "skirt"),
            Self::Lip { height } => write!(out, "lip, {}", over_pin(*height)),
            Self::TopLand => write!(out, "top land"),
            Self::CrownAt { radius, depth } => {
                write!(out, "crown, {:.1} mm deep, {:.1} mm from the axis", depth * MM, radius * MM)
            }
            Self::BeltAt { height, azimuth } => {
                write!(out, "ring belt, {}, {:.0}° from the pin", over_pin(*height), azimuth.to_degrees())
            }
            Self::WallAt { height, azimuth } => {
                write!(out, "wall, {}, {:.0}° from the pin", over_pin(*height), azimuth.to_degrees())
            }
        }
    }
}

/// A height over the pin axis, m, in words.
fn over_pin(height: f64) -> String {
    let side = if height >= 0.0 { "over" } else { "under" };
    format!("{:.1} mm {side} the pin", height.abs() * 1e3)
}
