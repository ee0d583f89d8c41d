//! How often each look goes with each mode.
//!
//! One entry a look: how often it is seen where the mode has nothing to do with it, and how often with each mode that it is a sign
//! of. Every number here is of common practice in reading broken plastic parts, no source: rounded shares of a builder's own
//! count, not measurements. The order of the causes rests on their ratios, and the tests change all of them at random to see that
//! it holds.

use super::look::Look;
use crate::verdict::Mode;

/// The source word of every entry.
pub const SOURCE: &str = "common practice";

/// How often a look is seen with a cause that is none of the modes: such a break may look like anything.
const OF_ANYTHING: f64 = 0.10;

/// Share of breaks of a mode that have a look; `None` is a cause that is none of the modes.
pub fn chance(look: Look, mode: Option<Mode>) -> f64 {
    let sign = signs(look);
    match mode {
        None => sign.unknown,
        Some(mode) => sign.of.iter().find(|(of, _)| *of == mode).map_or(sign.elsewhere, |(_, chance)| *chance),
    }
}

struct Sign {
    /// Share with modes that it is no sign of.
    elsewhere: f64,
    /// Share with a cause that is none of the modes.
    unknown: f64,
    /// Share with each mode that it is a sign of.
    of: &'static [(Mode, f64)],
}

const fn sign(elsewhere: f64, of: &'static [(Mode, f64)]) -> Sign {
    Sign { elsewhere, unknown: OF_ANYTHING, of }
}

use Mode::{
    BearingPressure as Bearing, Buckling, CreepRuptureAcrossLayers as CreepLayers,
    CreepRuptureInLayerPlane as CreepBeads, Crushing, FatigueAcrossLayers as FatigueLayers,
    FatigueInLayerPlane as FatigueBeads, HeadContact as Head, JournalHeat, JournalWear, LooseRing, OpenJoint,
    OverloadAcrossLayers as OverloadLayers, OverloadInLayerPlane as OverloadBeads, Seizure, SelfHeating as Runaway,
    SkirtPressure as Skirt, Softening, SplitByRing as Split,
};

#[allow(clippy::too_many_lines)] // One arm a look, so that none compiles without its entry.
const fn signs(look: Look) -> Sign {
    match look {
        Look::FlatBetweenLayers => sign(
            0.05,
            &[
                (FatigueLayers, 0.85),
                (CreepLayers, 0.80),
                (OverloadLayers, 0.85),
                (Split, 0.40),
                (FatigueBeads, 0.08),
                (CreepBeads, 0.08),
                (OverloadBeads, 0.08),
                (Head, 0.15),
            ],
        ),
        Look::SteppedAcrossBeads => sign(
            0.06,
            &[
                (FatigueBeads, 0.80),
                (CreepBeads, 0.65),
                (OverloadBeads, 0.85),
                (Split, 0.35),
                (Crushing, 0.15),
                (Buckling, 0.30),
                (Head, 0.20),
                (FatigueLayers, 0.10),
                (CreepLayers, 0.10),
                (OverloadLayers, 0.10),
            ],
        ),
        Look::RestLines => sign(
            0.03,
            &[(FatigueLayers, 0.50), (FatigueBeads, 0.60), (CreepLayers, 0.12), (CreepBeads, 0.12), (OpenJoint, 0.10)],
        ),
        Look::RoughAllOver => sign(
            0.06,
            &[
                (OverloadBeads, 0.70),
                (OverloadLayers, 0.35),
                (CreepBeads, 0.25),
                (CreepLayers, 0.12),
                (FatigueBeads, 0.15),
                (FatigueLayers, 0.08),
                (Buckling, 0.25),
                (Head, 0.25),
                (Split, 0.25),
            ],
        ),
        Look::Whitened => sign(
            0.06,
            &[
                (CreepLayers, 0.50),
                (CreepBeads, 0.60),
                (FatigueLayers, 0.35),
                (FatigueBeads, 0.35),
                (OverloadLayers, 0.15),
                (OverloadBeads, 0.25),
                (Crushing, 0.35),
                (Buckling, 0.30),
                (Bearing, 0.35),
                (Split, 0.35),
                (OpenJoint, 0.15),
                (Skirt, 0.15),
            ],
        ),
        Look::Melted => {
            sign(0.02, &[(Softening, 0.60), (Runaway, 0.75), (JournalHeat, 0.65), (Seizure, 0.35), (Skirt, 0.06)])
        }
        Look::Sagged => sign(
            0.03,
            &[
                (Softening, 0.70),
                (Runaway, 0.50),
                (Buckling, 0.25),
                (CreepBeads, 0.25),
                (CreepLayers, 0.10),
                (Skirt, 0.20),
                (Head, 0.10),
            ],
        ),
        Look::Bulged => sign(
            0.03,
            &[(Crushing, 0.65), (Bearing, 0.35), (Softening, 0.25), (Runaway, 0.30), (Skirt, 0.20), (OpenJoint, 0.20)],
        ),
        Look::Bowed => sign(0.02, &[(Buckling, 0.80), (Softening, 0.20), (Runaway, 0.20), (Crushing, 0.10)]),
        Look::Wrinkled => sign(0.03, &[(Crushing, 0.60), (Buckling, 0.40), (Head, 0.08)]),
        Look::OvalBore => sign(
            0.05,
            &[
                (Bearing, 0.85),
                (JournalWear, 0.70),
                (JournalHeat, 0.35),
                (CreepBeads, 0.30),
                (CreepLayers, 0.20),
                (FatigueBeads, 0.12),
                (Softening, 0.20),
                (Crushing, 0.12),
            ],
        ),
        Look::PolishedBore => {
            sign(0.05, &[(JournalWear, 0.80), (JournalHeat, 0.45), (LooseRing, 0.35), (Skirt, 0.12), (Seizure, 0.15)])
        }
        Look::Scored => {
            sign(0.03, &[(Seizure, 0.80), (Skirt, 0.45), (JournalHeat, 0.30), (JournalWear, 0.30), (LooseRing, 0.30)])
        }
        Look::CrackAtBore => sign(
            0.04,
            &[
                (FatigueBeads, 0.60),
                (FatigueLayers, 0.40),
                (Split, 0.25),
                (CreepBeads, 0.35),
                (CreepLayers, 0.25),
                (OverloadBeads, 0.35),
                (OverloadLayers, 0.30),
                (Bearing, 0.12),
            ],
        ),
        Look::SplitEye => sign(
            0.04,
            &[
                (Split, 0.85),
                (OverloadLayers, 0.12),
                (FatigueBeads, 0.10),
                (FatigueLayers, 0.10),
                (CreepBeads, 0.12),
                (CreepLayers, 0.15),
            ],
        ),
        Look::SplitOnPressing => Sign { elsewhere: 0.002, unknown: 0.02, of: &[(Split, 0.60)] },
        Look::Longer => sign(
            0.03,
            &[
                (Head, 0.55),
                (CreepBeads, 0.40),
                (CreepLayers, 0.25),
                (Softening, 0.30),
                (Runaway, 0.25),
                (FatigueBeads, 0.06),
            ],
        ),
        Look::RingMoved => sign(0.02, &[(LooseRing, 0.90), (Split, 0.25), (Softening, 0.12), (OpenJoint, 0.08)]),
        Look::JointGap => sign(0.02, &[(OpenJoint, 0.90), (FatigueBeads, 0.04)]),
        Look::StrikeMark => {
            Sign { elsewhere: 0.02, unknown: 0.12, of: &[(Head, 0.90), (OpenJoint, 0.12), (JournalWear, 0.06)] }
        }
        Look::Dust => {
            sign(0.03, &[(JournalWear, 0.80), (JournalHeat, 0.30), (LooseRing, 0.30), (Seizure, 0.15), (Skirt, 0.15)])
        }
        Look::Browned => sign(0.03, &[(JournalHeat, 0.65), (Softening, 0.40), (Runaway, 0.40), (Seizure, 0.30)]),
        Look::SunkCrown => sign(0.02, &[(Softening, 0.60), (CreepBeads, 0.30), (CreepLayers, 0.30), (Crushing, 0.15)]),
        Look::BurnedThrough => sign(0.01, &[(Softening, 0.45), (OverloadBeads, 0.04), (OverloadLayers, 0.04)]),
        Look::Stuck => sign(0.02, &[(Seizure, 0.90), (Skirt, 0.20), (Softening, 0.12), (JournalHeat, 0.10)]),
        // These two speak of a cause that no mode has.
        Look::Void => Sign { elsewhere: 0.04, unknown: 0.50, of: &[(FatigueBeads, 0.12), (FatigueLayers, 0.12)] },
        Look::ForeignMarks => Sign { elsewhere: 0.01, unknown: 0.40, of: &[] },
    }
}
