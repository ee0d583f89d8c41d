/// How a part lies on the bed, in the words of the trade.
#[derive(Debug, Clone, Copy)]
pub struct Lying {
    /// With its pins upright.
    pub flat: &'static str,
    /// On its edge.
    pub on_edge: &'static str,
    /// Upright, its long axis pointing up and down.
    pub upright: [&'static str; 2],
    /// What has an angle to the layers.
    pub along: &'static str,
    /// What is off upright.
    pub bores: &'static str,
    /// What pulls layers apart where it stands upright.
    pub parted: &'static str,
}

impl Lying {
    /// Of a rod.
    pub const ROD: Self = Self {
        flat: "flat, the bores upright",
        on_edge: "on its edge",
        upright: ["upright", "upright"],
        along: "the rod",
        bores: "the bores",
        parted: "every pull on the rod then works to part the layers, the weakest way to load a print",
    };

    /// Of a piston.
    pub const PISTON: Self = Self {
        flat: "on its side, the pin bore upright",
        on_edge: "on its side, the pin bore level",
        upright: ["upright, the crown on top", "upright, the crown on the bed"],
        along: "its axis",
        bores: "the pin bore",
        parted: "the pull of the pin then works to part the layers of the bosses",
    };
}
