use crate::verdict::Mode;

/// What to change against a mode, as a sentence without its full stop.
pub(crate) fn remedy(mode: Mode) -> &'static str {
    match mode {
        Mode::FatigueAcrossLayers | Mode::CreepRuptureAcrossLayers | Mode::OverloadAcrossLayers => {
            "turn the print so that the load runs along the layers; else print warmer, dry the spool and add section there"
        }
        Mode::FatigueInLayerPlane | Mode::OverloadInLayerPlane => {
            "add wall and a larger fillet there, fit the pin closer, and keep the speed down until then"
        }
        Mode::CreepRuptureInLayerPlane => "add wall there and keep it cooler; load that lasts counts most when warm",
        Mode::Crushing => "add section on the pressed side, with solid infill, and keep it cooler",
        Mode::Buckling => "widen the shank in the direction in which it bowed: stiffness grows with the third power",
        Mode::BearingPressure => "press in a metal bush, or make bore and pin longer or thicker",
        Mode::SplitByRing => "take less interference, press the ring in warm and square, or add wall around the bore",
        Mode::LooseRing => "take more interference, or hold the ring with glue, a flange or a pin",
        Mode::OpenJoint => {
            "use wide washers and springs under the heads, and tighten the studs again after the first run"
        }
        Mode::Softening => "shorten the runs, cool it, cover the crown, or take a plastic that softens later",
        Mode::SelfHeating => "slow down, add section, or take a plastic that damps less",
        Mode::SkirtPressure => "make the skirt longer or wider, and see that it has oil",
        Mode::Seizure => "turn the skirt down to the cold clearance that a check of this part names",
        Mode::HeadContact => "leave more gap to the head, and keep the rod cooler",
        Mode::JournalHeat | Mode::JournalWear => "press in a bearing or a bush, or let oil reach the pin",
    }
}
