use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use strum::VariantArray;

/// The ways a rod or a piston can fail that are checked.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema, VariantArray,
)]
#[serde(rename_all = "kebab-case")]
pub enum Mode {
    /// The plastic is above its softening temperature.
    Softening,
    /// The loads heat the plastic faster than it cools.
    SelfHeating,
    /// Repeated load parts the layers.
    FatigueAcrossLayers,
    /// Repeated load cracks the beads.
    FatigueInLayerPlane,
    /// Load that lasts parts the layers, slowly.
    CreepRuptureAcrossLayers,
    /// Load that lasts tears the beads, slowly.
    CreepRuptureInLayerPlane,
    /// One load parts the layers.
    OverloadAcrossLayers,
    /// One load tears the beads.
    OverloadInLayerPlane,
    /// One push crushes the plastic.
    Crushing,
    /// The shank bends out under a push.
    Buckling,
    /// The pin presses its bore oval.
    BearingPressure,
    /// Pressing its ring in tears the eye.
    SplitByRing,
    /// A pressed ring loses its grip within the wanted life and walks.
    LooseRing,
    /// The studs of a cap lose so much of their pull within the wanted life that the joint opens.
    OpenJoint,
    /// The skirt is pressed out of shape against its cylinder.
    SkirtPressure,
    /// The piston grows with heat until it is as wide as its cylinder.
    Seizure,
    /// The rod gets so much longer within the wanted life that the piston strikes the head.
    HeadContact,
    /// A plastic bore that slides on its pin gets too hot.
    JournalHeat,
    /// A plastic bore that slides on its pin is worn out within the wanted life.
    JournalWear,
}

impl Mode {
    /// Whether it is a matter of running time.
    pub fn counts_time(self) -> bool {
        matches!(
            self,
            Self::FatigueAcrossLayers
                | Self::FatigueInLayerPlane
                | Self::CreepRuptureAcrossLayers
                | Self::CreepRuptureInLayerPlane
        )
    }

    /// Whether a stronger print would bear more of it: heat, growth, a loose ring and a joint that opens do not ask for
    /// strength.
    pub fn asks_for_strength(self) -> bool {
        !matches!(
            self,
            Self::Softening
                | Self::SelfHeating
                | Self::LooseRing
                | Self::OpenJoint
                | Self::Seizure
                | Self::HeadContact
                | Self::JournalHeat
                | Self::JournalWear
        )
    }

    /// What a part does that fails by it, as a sentence without its full stop.
    pub fn happens(self) -> &'static str {
        match self {
            Self::Softening => "the plastic softens",
            Self::SelfHeating => "the shank heats itself without limit",
            Self::FatigueAcrossLayers => "repeated load parts the layers",
            Self::FatigueInLayerPlane => "repeated load cracks the beads",
            Self::CreepRuptureAcrossLayers => "lasting load parts the layers",
            Self::CreepRuptureInLayerPlane => "lasting load tears the beads",
            Self::OverloadAcrossLayers => "the layers part",
            Self::OverloadInLayerPlane => "the beads tear",
            Self::Crushing => "the push crushes the plastic",
            Self::Buckling => "the shank buckles",
            Self::BearingPressure => "the pin presses its bore oval",
            Self::SplitByRing => "the pressed ring splits its eye",
            Self::LooseRing => "the pressed ring walks",
            Self::OpenJoint => "the joint of the cap opens",
            Self::SkirtPressure => "the side thrust presses the skirt out of shape",
            Self::Seizure => "the piston seizes in its cylinder",
            Self::HeadContact => "the piston strikes the head",
            Self::JournalHeat => "the plastic bore gets too hot on its pin (press in a bearing or a bush)",
            Self::JournalWear => "the plastic bore wears out on its pin (press in a bearing or a bush)",
        }
    }

    /// Name of the mode, in the words of a report.
    pub fn words(self) -> &'static str {
        match self {
            Self::Softening => "softening",
            Self::SelfHeating => "self-heating runaway",
            Self::FatigueAcrossLayers => "fatigue, layers part",
            Self::FatigueInLayerPlane => "fatigue, beads crack",
            Self::CreepRuptureAcrossLayers => "creep rupture, layers",
            Self::CreepRuptureInLayerPlane => "creep rupture, beads",
            Self::OverloadAcrossLayers => "overload, layers part",
            Self::OverloadInLayerPlane => "overload, beads tear",
            Self::Crushing => "crushing",
            Self::Buckling => "buckling",
            Self::BearingPressure => "pin pressure",
            Self::SplitByRing => "ring splits its eye",
            Self::LooseRing => "pressed ring walks",
            Self::OpenJoint => "cap joint opens",
            Self::SkirtPressure => "skirt pressure",
            Self::Seizure => "seizure by growth",
            Self::HeadContact => "strikes the head",
            Self::JournalHeat => "bore hot on its pin",
            Self::JournalWear => "bore worn by its pin",
        }
    }
}
