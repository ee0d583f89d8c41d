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
            "Repeated load opens the joints between layers, a little with each turn of the engine.",
            "Cycles of the stress on the layer plane are counted by rainflow (ASTM E1049). Walker's rule corrects for mean stress; \
             Miner's rule adds the damage. To help: print so that the load runs along the layers, slow down, add material, keep \
             the part cool and dry.",
        ),
        Mode::FatigueInLayerPlane => (
            &["fatigue, beads crack", "fatigue in the layer plane"],
            "Repeated load cracks the beads themselves, within the layers.",
            "Worked out as for layers, with the fatigue line of the beads. Rods that are printed flat mostly end this way, at the \
             bore of an eye. To help: more material around the bore, a closer fit of the pin, a cooler part.",
        ),
        Mode::CreepRuptureAcrossLayers => (
            &["creep rupture, layers", "creep rupture across layers"],
            "A load that stays on parts the layers in the end, even if it never repeats.",
            "Zhurkov's law gives the time to break: it falls steeply with stress and with temperature. Bailey's rule adds up the \
             cycle. Heat counts most.",
        ),
        Mode::CreepRuptureInLayerPlane => (
            &["creep rupture, beads", "creep rupture in the layer plane"],
            "A load that stays on tears the beads in the end, even if it never repeats.",
            "Worked out as for layers, with the strength of the beads.",
        ),
        Mode::OverloadAcrossLayers => (
            &["overload, layers part", "overload across layers"],
            "One full load is enough to part the layers.",
            "The peak load on the layer plane is held against the layer strength that 90 % of prints reach. Normal and shear \
             stress are joined by the rule of Tsai and Hill (Azzi & Tsai 1965). Such a part breaks in its first run.",
        ),
        Mode::OverloadInLayerPlane => (
            &["overload, beads tear", "overload in the layer plane"],
            "One full load is enough to tear the beads.",
            "The peak stress within the layers is held against the strength that 90 % of prints reach.",
        ),
        Mode::Crushing => (
            &["crushing"],
            "One push is more than the plastic can take in compression.",
            "The largest push over the section is held against the compression strength at the temperature of the place.",
        ),
        Mode::Buckling => (
            &["buckling"],
            "The shank bends out sideways under the push of the gas.",
            "Euler's and Johnson's columns with the least second moment of the mesh, in the plane of the engine and across it \
             (Shigley). Heat and water make the plastic softer, so they count. A wider or thicker shank helps by the third \
             power.",
        ),
        Mode::BearingPressure => (
            &["pin pressure", "bearing pressure"],
            "The pin presses its bore oval.",
            "The largest pin force over diameter times length of the bore is held against the bearing pressure of the warm \
             plastic. To help: a metal bush, a longer bore, a thicker pin.",
        ),
        Mode::SplitByRing => (
            &["ring splits its eye", "split by ring"],
            "Pressing a bearing or bush in tears the eye open.",
            "The hoop stress of thick rings (Lamé) at the largest interference is held against the cold strength. To help: less \
             interference, or more wall around the bore.",
        ),
        Mode::OpenJoint => (
            &["cap joint opens", "cap", "studs", "preload"],
            "The plastic under the studs of a cap creeps. The studs lose their pull and the running rod opens the joint.",
            "The pull left after the wanted life at running temperature is held against the largest pull on the joint. Stud and \
             plastic keep their common length (Findley's creep). Wide washers, long thin studs and springs under the heads help \
             more than torque. Tighten again after the first run.",
        ),
        Mode::LooseRing => (
            &["pressed ring walks", "loose ring"],
            "A pressed bearing or bush loses its grip within the wanted life and turns in its eye.",
            "The plastic relaxes and grows with heat. The pressure left is held against the drag of the pin. More interference \
             grips longer but splits the eye sooner. Glue, a flange or a pin through the ring also hold it.",
        ),
        Mode::Softening => (
            &["softening"],
            "The plastic reaches the temperature at which it deforms under any load.",
            "The margin is a factor on the temperature above 23 °C, that of a test room. Of a crown it counts how deep it is \
             soft. To help: shorter runs, a plate on the crown, more cooling, a plastic that softens later.",
        ),
        Mode::SelfHeating => (
            &["self-heating runaway", "runaway", "self-heating"],
            "Each cycle of load warms the part. A warmer part is softer and warms faster, without limit.",
            "Heat from hysteresis grows with the square of the load and with speed (Ferry). Above some speed no steady \
             temperature exists. The margin is on the heat; the answer names the speed.",
        ),
        Mode::SkirtPressure => (
            &["skirt pressure"],
            "The side thrust presses the skirt out of shape.",
            "The largest thrust over diameter times length of the skirt is held against the bearing pressure of the warm \
             plastic.",
        ),
        Mode::Seizure => (
            &["seizure by growth", "seizure"],
            "The piston grows with heat until it fills its cylinder.",
            "Skirt and top land grow at their own temperatures; the cylinder grows less. The margin is a factor on the growth of \
             the piston. Plastics grow several times as much as metal. Turn the skirt down to the cold clearance that the \
             report names.",
        ),
        Mode::HeadContact => (
            &["strikes the head", "head contact", "head", "gap to the head"],
            "The rod grows longer until the piston strikes the head.",
            "The rod grows by its largest pull, by heat and by creep (Findley). The margin is the gap of \
             engine.piston_to_head_mm over that growth. It is checked only if the gap is given. To help: a larger gap, a cooler \
             rod, a stiffer plastic.",
        ),
        Mode::JournalHeat => (
            &["bore hot on its pin", "journal heat", "journal", "pressure times speed"],
            "A plastic bore that slides on its pin, without bearing or bush, gets too hot.",
            "Force times sliding speed at each crank angle: a big end turns once a revolution, a small end swings with the rod. \
             Mean pressure times speed is held against what such plastics take (0.035 to 0.11 MPa m/s dry, Neale's Tribology \
             Handbook; more with oil or grease). The heat of friction is held against softening. The lesser margin counts. \
             Press in a bearing or a bush, or say in part.big_end.runs what the pin runs in.",
        ),
        Mode::JournalWear => (
            &["bore worn by its pin", "journal wear", "wear"],
            "A plastic bore that slides on its pin, without bearing or bush, wears oval within the wanted life.",
            "Archard's law: the worn depth is k times pressure times sliding distance. The margin is 0.5 % of the bore's diameter \
             over that depth. Press in a bearing or a bush.",
        ),
    };
    Entry { names, what, more }
}
