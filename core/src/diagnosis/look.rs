use crate::input::meant;

use super::error::DiagnosisError;

/// What the eye, or a gauge, finds on a part after a run.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Look {
    /// The face of the break is flat, along a layer.
    FlatBetweenLayers,
    /// The face of the break steps across beads.
    SteppedAcrossBeads,
    /// A smooth patch with fine lines, and a rough rest.
    RestLines,
    /// The whole face is rough, fibres are pulled out.
    RoughAllOver,
    /// White where the plastic was stretched.
    Whitened,
    /// Molten or smeared.
    Melted,
    /// Bent or sagged without a clean break.
    Sagged,
    /// Pressed out at a side.
    Bulged,
    /// The shank stands out sideways.
    Bowed,
    /// Folded or wrinkled on the pressed side.
    Wrinkled,
    /// The bore is oval.
    OvalBore,
    /// The bore is polished.
    PolishedBore,
    /// Scored along the way of sliding.
    Scored,
    /// A crack from the bore square to the rod.
    CrackAtBore,
    /// An eye or boss split right through.
    SplitEye,
    /// It split when its ring was pressed in, before any run.
    SplitOnPressing,
    /// Longer than when new.
    Longer,
    /// A pressed ring turned or moved.
    RingMoved,
    /// A gap at the joint of a cap.
    JointGap,
    /// The mark of a strike on crown or head.
    StrikeMark,
    /// Dust of wear.
    Dust,
    /// Browned or charred.
    Browned,
    /// The crown is sunk.
    SunkCrown,
    /// A hole burned through.
    BurnedThrough,
    /// Stuck in its cylinder.
    Stuck,
    /// The break begins at a void or a nick.
    Void,
    /// Marks of something hard that does not belong there.
    ForeignMarks,
}

/// The words of a look.
struct Words {
    look: Look,
    name: &'static str,
    told: &'static str,
    how: &'static str,
    also: &'static [&'static str],
}

impl Look {
    /// All of them, in the order in which they are listed.
    pub const ALL: [Self; 27] = [
        Self::FlatBetweenLayers,
        Self::SteppedAcrossBeads,
        Self::RestLines,
        Self::RoughAllOver,
        Self::Whitened,
        Self::Melted,
        Self::Sagged,
        Self::Bulged,
        Self::Bowed,
        Self::Wrinkled,
        Self::OvalBore,
        Self::PolishedBore,
        Self::Scored,
        Self::CrackAtBore,
        Self::SplitEye,
        Self::SplitOnPressing,
        Self::Longer,
        Self::RingMoved,
        Self::JointGap,
        Self::StrikeMark,
        Self::Dust,
        Self::Browned,
        Self::SunkCrown,
        Self::BurnedThrough,
        Self::Stuck,
        Self::Void,
        Self::ForeignMarks,
    ];

    fn words(self) -> &'static Words {
        WORDS.iter().find(|words| words.look == self).unwrap_or(&WORDS[0])
    }

    /// Its name, as a user writes it.
    pub fn name(self) -> &'static str {
        self.words().name
    }

    /// What is seen, in words.
    pub fn told(self) -> &'static str {
        self.words().told
    }

    /// How to find out, as a sentence without its full stop.
    pub fn how(self) -> &'static str {
        self.words().how
    }

    /// Other words for it.
    pub fn also(self) -> &'static [&'static str] {
        self.words().also
    }

    /// The look of a name or of other words for it.
    ///
    /// # Errors
    ///
    /// Where the words mean none; the nearest is named.
    ///
    /// ```
    /// use layload_core::diagnosis::Look;
    ///
    /// assert_eq!(Look::named("beach marks"), Ok(Look::RestLines));
    /// assert!(Look::named("whitend").unwrap_err().help().contains("whitened"));
    /// ```
    pub fn named(words: &str) -> Result<Self, DiagnosisError> {
        let plain =
            |text: &str| text.to_lowercase().replace(['-', '_'], " ").split_whitespace().collect::<Vec<_>>().join(" ");
        let wanted = plain(words);
        let names = || {
            Self::ALL
                .into_iter()
                .flat_map(|look| look.also().iter().copied().chain([look.name()]).map(move |n| (n, look)))
        };
        if let Some((_, look)) = names().find(|(name, _)| plain(name) == wanted) {
            return Ok(look);
        }
        let near = meant(&wanted, names().map(|(name, _)| name)).map(String::from);
        Err(DiagnosisError::UnknownLook { said: words.trim().into(), near })
    }
}

const fn words(
    look: Look,
    name: &'static str,
    told: &'static str,
    how: &'static str,
    also: &'static [&'static str],
) -> Words {
    Words { look, name, told, how, also }
}

const WORDS: [Words; 27] = [
    words(
        Look::FlatBetweenLayers,
        "flat-between-layers",
        "the face of the break is flat, along a layer",
        "hold the face to the light: is it flat, with whole beads lying side by side",
        &[
            "flat between layers",
            "flat face",
            "delaminated",
            "layers parted",
            "layers came apart",
            "split along a layer",
            "clean between layers",
            "peeled",
        ],
    ),
    words(
        Look::SteppedAcrossBeads,
        "stepped-across-beads",
        "the face of the break steps across beads",
        "look at the face from the side: does it climb across beads in steps",
        &["stepped across beads", "stepped", "jagged", "across the beads", "beads torn", "torn across"],
    ),
    words(
        Look::RestLines,
        "rest-lines",
        "a smooth patch with fine lines, and a rough rest",
        "look at the face with a loupe: is there a smooth patch with fine curved lines, and a rough rest",
        &[
            "beach marks",
            "rest lines",
            "smooth patch and rough rest",
            "crack grew slowly",
            "fine lines",
            "old crack",
            "crack grew in steps",
        ],
    ),
    words(
        Look::RoughAllOver,
        "rough-all-over",
        "the whole face is rough, with fibres pulled out",
        "look at the face with a loupe: is it equally rough all over, with fibres standing out",
        &["rough all over", "rough", "fibres pulled out", "torn in one go", "fresh all over", "snapped clean"],
    ),
    words(
        Look::Whitened,
        "whitened",
        "white where the plastic was stretched",
        "look beside the break under a lamp: is the plastic white or milky there",
        &["white", "stress whitening", "crazed", "milky", "blushed"],
    ),
    words(
        Look::Melted,
        "melted",
        "molten or smeared",
        "look for smeared edges, threads and beads that ran into each other",
        &["molten", "smeared", "melted together", "stringy", "ran"],
    ),
    words(
        Look::Sagged,
        "sagged",
        "bent or sagged without a clean break",
        "lay the part on a flat plate: is it bent or sagged without a break",
        &["bent", "drooped", "out of shape", "went soft", "twisted", "necked"],
    ),
    words(
        Look::Bulged,
        "bulged",
        "pressed out at a side",
        "measure its width beside the pressed place: is it wider than the drawing",
        &["bulged out", "barrelled", "squashed", "mushroomed", "pressed out"],
    ),
    words(
        Look::Bowed,
        "bowed",
        "the shank stands out sideways",
        "lay a straight edge along the shank: does it stand out sideways",
        &["bowed shank", "shank bowed", "banana", "buckled", "bent like a bow"],
    ),
    words(
        Look::Wrinkled,
        "wrinkled",
        "folded or wrinkled on the pressed side",
        "look for folds square to the load on the pressed side",
        &["folded", "wrinkles", "kinked", "crumpled", "kink band"],
    ),
    words(
        Look::OvalBore,
        "oval-bore",
        "the bore is oval",
        "measure the bore along the rod and square to it",
        &["oval", "bore oval", "egg shaped", "bore out of round", "slotted bore", "hole pulled long"],
    ),
    words(
        Look::PolishedBore,
        "polished-bore",
        "the bore is polished",
        "look into the bore under a lamp: does it shine where the pin ran",
        &["polished", "shiny bore", "glazed", "bore shiny", "mirror bore"],
    ),
    words(
        Look::Scored,
        "scored",
        "scored along the way of sliding",
        "look for scratches along the way of sliding",
        &["scuffed", "scratched", "galled", "scoring", "score marks"],
    ),
    words(
        Look::CrackAtBore,
        "crack-at-bore",
        "a crack from the bore, square to the rod",
        "look at the bore beside the pin, square to the rod, with a loupe: does a crack begin there",
        &[
            "cracked at bore",
            "crack at 90",
            "crack beside the pin",
            "bore cracked",
            "crack at three o'clock",
            "cracked at bore 90",
        ],
    ),
    words(
        Look::SplitEye,
        "split-eye",
        "an eye or boss split right through, its ring loose in it",
        "look whether the eye is open right through its wall, the pressed ring loose in it",
        &["eye split", "split through", "burst eye", "split open", "split right through"],
    ),
    words(
        Look::SplitOnPressing,
        "split-on-pressing",
        "it split when its ring was pressed in, before any run",
        "ask when it was first seen: when the ring was pressed in, or after a run",
        &["split when pressed", "cracked on pressing", "split on assembly", "cracked going in", "split before any run"],
    ),
    words(
        Look::Longer,
        "longer",
        "longer than when new",
        "measure from bore to bore and compare with the drawing",
        &["stretched", "grew longer", "rod longer", "elongated"],
    ),
    words(
        Look::RingMoved,
        "ring-moved",
        "a pressed ring turned or moved in its eye",
        "look whether the pressed ring has turned or stands out of its eye; press on it by hand",
        &[
            "ring turned",
            "bush turned",
            "bush walked",
            "bearing loose",
            "ring walked",
            "ring loose",
            "bush came out",
            "bearing spun",
        ],
    ),
    words(
        Look::JointGap,
        "joint-gap",
        "a gap at the joint of the cap, or slack studs",
        "try the studs with the wrench and a feeler gauge in the joint",
        &["gap at the joint", "cap loose", "studs slack", "bolts loose", "cap open", "loose cap"],
    ),
    words(
        Look::StrikeMark,
        "strike-mark",
        "the mark of a strike on crown or head",
        "look at crown and head for the print of one on the other",
        &["hit the head", "struck the head", "dent on the crown", "piston hit the head", "knock mark"],
    ),
    words(
        Look::Dust,
        "dust",
        "dust of wear at the bore",
        "wipe the bore with a white cloth: does dust come off",
        &["black dust", "powder", "wear debris", "black paste", "filings"],
    ),
    words(
        Look::Browned,
        "browned",
        "browned or charred",
        "compare its colour with a spare print of the same spool",
        &["charred", "burnt", "discoloured", "scorched", "brown"],
    ),
    words(
        Look::SunkCrown,
        "sunk-crown",
        "the crown is sunk",
        "lay a straight edge over the crown: is its middle lower than its edge",
        &["dished", "crown dished", "crown sunk", "crown caved in", "hollow crown"],
    ),
    words(
        Look::BurnedThrough,
        "burned-through",
        "a hole burned through",
        "hold it to the light: is there a hole with molten edges",
        &["hole burned through", "hole in the crown", "holed", "burnt through"],
    ),
    words(
        Look::Stuck,
        "stuck",
        "stuck in its cylinder",
        "turn the engine by hand when hot and when cold: does it stick hot and run free cold",
        &["seized", "jammed", "stuck hot", "piston stuck", "locked up"],
    ),
    words(
        Look::Void,
        "void",
        "the break begins at a void or a nick",
        "find where the break began: is there a void, a gap between beads, a seam or a nick",
        &["nick", "notch", "gap between beads", "started at a void", "seam", "print flaw", "bubble"],
    ),
    words(
        Look::ForeignMarks,
        "foreign-marks",
        "marks of something hard that does not belong there",
        "look for prints of a screw, a clip or a valve, and count those of the engine",
        &["foreign body", "screw marks", "hit by something", "valve mark", "clip came out"],
    ),
];
