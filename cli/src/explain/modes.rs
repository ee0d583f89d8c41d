use layload_core::Mode;

use super::Entry;

/// Every failure mode, in the order of the list.
pub(super) const MODES: [Mode; 19] = [
    Mode::FatigueAcrossLayers,
    Mode::FatigueInLayerPlane,
    Mode::CreepRuptureAcrossLayers,
    Mode::CreepRuptureInLayerPlane,
    Mode::OverloadAcrossLayers,
    Mode::OverloadInLayerPlane,
    Mode::Crushing,
    Mode::Buckling,
    Mode::BearingPressure,
    Mode::SplitByRing,
    Mode::LooseRing,
    Mode::OpenJoint,
    Mode::Softening,
    Mode::SelfHeating,
    Mode::SkirtPressure,
    Mode::Seizure,
    Mode::HeadContact,
    Mode::JournalHeat,
    Mode::JournalWear,
];

/// Its name in the JSON.
pub(super) fn key(mode: Mode) -> String {
    let value = serde_json::to_value(mode).ok();
    value.and_then(|value| value.as_str().map(String::from)).unwrap_or_default()
}

/// What a failure mode means.
#[allow(clippy::too_many_lines)] // One arm a mode, so that none compiles without its entry.
pub(crate) fn of_mode(mode: Mode) -> Entry {
    let (names, what, more): (&'static [&'static str], _, _) = match mode {
        Mode::FatigueAcrossLayers => (
            &["fatigue, layers part", "fatigue across layers"],
            "Repeated load opens the joints between layers, a little with every turn of the engine.",
            "Stress on the layer plane over the cycle, counted by rainflow (ASTM E1049), moved to zero mean by Walker's rule and \
             summed by Miner's. Lay the part so that its load runs along the layers; slow down; make the section larger; keep \
             it cool and dry.",
        ),
        Mode::FatigueInLayerPlane => (
            &["fatigue, beads crack", "fatigue in the layer plane"],
            "Repeated load cracks the beads themselves, within the layers.",
            "As for layers, with the fatigue line of the beads. The usual end of a rod that is printed lying: at the bore of an \
             eye, beside the pin. More material round the bore, a closer fit of the pin and a lower temperature help most.",
        ),
        Mode::CreepRuptureAcrossLayers => (
            &["creep rupture, layers", "creep rupture across layers"],
            "A load that lasts parts the layers in the end, without any repeat.",
            "Zhurkov's law: the time to break falls as a power of ten with stress and temperature; summed over the cycle by \
             Bailey's integral. Heat counts most.",
        ),
        Mode::CreepRuptureInLayerPlane => (
            &["creep rupture, beads", "creep rupture in the layer plane"],
            "A load that lasts tears the beads in the end, without any repeat.",
            "As for layers, with the strength of the beads.",
        ),
        Mode::OverloadAcrossLayers => (
            &["overload, layers part", "overload across layers"],
            "One full load is enough to part the layers.",
            "Greatest traction on the layer plane against the layer strength of nine prints in ten, normal and shear joined by \
             Tsai and Hill (Azzi & Tsai 1965). A part that fails by it breaks at the first run.",
        ),
        Mode::OverloadInLayerPlane => (
            &["overload, beads tear", "overload in the layer plane"],
            "One full load is enough to tear the beads.",
            "Greatest stress within the layers against the strength of nine prints in ten.",
        ),
        Mode::Crushing => (
            &["crushing"],
            "One push is more than the plastic bears in compression.",
            "Greatest push over the section against the compression strength at the temperature of the place.",
        ),
        Mode::Buckling => (
            &["buckling"],
            "The shank bends out sideways under the push of the gas.",
            "Euler's and Johnson's columns with the least second moment of the mesh, in the plane of the engine and across it \
             (Shigley). Stiffness counts, so heat and water do; a wider or thicker shank helps with the third power.",
        ),
        Mode::BearingPressure => (
            &["pin pressure", "bearing pressure"],
            "The pin presses its bore oval.",
            "Greatest pin force over diameter times bearing length against the bearing pressure of the plastic when warm. A \
             longer eye, a thicker pin or a metal bush helps.",
        ),
        Mode::SplitByRing => (
            &["ring splits its eye", "split by ring"],
            "Pressing a bearing or bush in tears the eye open.",
            "Hoop stress of thick rings (Lamé) at the greatest interference against the strength when cold. Less interference, \
             or more wall round the bore.",
        ),
        Mode::OpenJoint => (
            &["cap joint opens", "cap", "studs", "preload"],
            "The studs of a clamped cap lose their pull as the plastic under them creeps, and the running rod opens the joint.",
            "What is left after the wanted life at running temperature over the greatest pull on the joint. Stud and plastic \
             keep their common length (Findley's creep). Wide washers, long thin studs and springs under the heads help more \
             than torque; tighten again after the first run.",
        ),
        Mode::LooseRing => (
            &["pressed ring walks", "loose ring"],
            "A pressed bearing or bush loses its grip within the wanted life and turns in its eye.",
            "The plastic relaxes and grows with heat; what pressure is left is held against the drag of the pin. More \
             interference makes it last but splits the eye sooner: glue, a flange or a pin through the ring settle it.",
        ),
        Mode::Softening => (
            &["softening"],
            "The plastic is at the temperature where it gives way under any load.",
            "The margin is the factor by which the temperature over 23 °C, a test room's, could grow. Of a crown it counts how \
             deep it is soft. Shorter runs, a plate on the crown, more cooling, or a plastic that softens later.",
        ),
        Mode::SelfHeating => (
            &["self-heating runaway", "runaway", "self-heating"],
            "The part warms itself by being bent and pulled, gets softer by it, and so warms itself faster still.",
            "Heat of hysteresis grows with the square of the load and with speed (Ferry); where no steady temperature is left \
             the shank runs away. The margin is on the heat; the speed from which it happens is in the answer.",
        ),
        Mode::SkirtPressure => (
            &["skirt pressure"],
            "The side thrust presses the skirt out of shape.",
            "Greatest thrust over diameter times length of the skirt against the bearing pressure when warm.",
        ),
        Mode::Seizure => (
            &["seizure by growth", "seizure"],
            "The piston grows with heat until it is as wide as its cylinder.",
            "Growth of skirt and top land at their own temperatures against the cold clearance and the growth of the cylinder. \
             The margin is the factor by which the piston could grow more. Plastics grow several times as much as metal: turn \
             the skirt down to the clearance the report names.",
        ),
        Mode::HeadContact => (
            &["strikes the head", "head contact", "head", "gap to the head"],
            "The rod gets so much longer that the piston strikes the head.",
            "The gap of engine.piston_to_head_mm over the most that the rod gets longer by its greatest pull, by heat and by \
             creep (Findley) up to the wanted life. The margin is the factor by which the rod could get longer. Only looked at \
             where that gap is given. Leave more gap, keep the rod cooler, or choose a stiffer plastic.",
        ),
        Mode::JournalHeat => (
            &["bore hot on its pin", "journal heat", "journal", "pressure times speed"],
            "A plastic bore that runs on its pin without a bearing or a bush gets too hot.",
            "Force times sliding speed at every crank angle: a big end turns once a revolution on the crank pin, a small end \
             swings with the rod. Mean pressure times speed is held against what such plastics bear (0.035 to 0.11 MPa m/s dry, \
             Neale's Tribology Handbook; oil and grease allow more), and the heat of friction, on its way through the pin, \
             against softening. The margin is the lesser. Press in a bearing or a bush, or say by part.big_end.runs what the \
             pin runs in.",
        ),
        Mode::JournalWear => (
            &["bore worn by its pin", "journal wear", "wear"],
            "A plastic bore that runs on its pin without a bearing or a bush is worn oval within the wanted life.",
            "Archard's law: depth on the loaded side is k times pressure times way. The margin is half a per cent of the bore's \
             diameter over that depth. Press in a bearing or a bush.",
        ),
    };
    Entry { names, what, more }
}
