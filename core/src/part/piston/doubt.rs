use core::fmt;

use crate::part::piston::{Boss, Collar, GivenPiston, PinBore, Skirt};

/// A sign that is weak or speaks against another, and what settles it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum PistonDoubt {
    /// Nothing but its closed end tells the crown.
    CrownByClosedEnd {
        /// Height of the crown over the pin, m.
        above: f64,
        /// Length of the skirt under it, m.
        below: f64,
    },
    /// Another bore across is nearly as good a pin bore.
    OtherBore {
        /// The one taken: its diameter, m.
        taken: f64,
        /// The other.
        other: f64,
    },
    /// The pin bore is shorter than bosses make it.
    NoBosses {
        /// Diameter, m.
        diameter: f64,
        /// The longer of its bosses.
        boss: Boss,
    },
    /// The uppermost land is wider than the next.
    WideLand(Collar),
    /// A lip stands out of the skirt.
    Lip {
        /// The lip.
        lip: Collar,
        /// Radius of the skirt, m.
        skirt: f64,
    },
}

/// What may be doubtful of a piston.
pub(super) struct Doubts<'a> {
    pub(super) given: &'a GivenPiston,
    pub(super) pin: &'a PinBore,
    pub(super) other: Option<f64>,
    pub(super) lip: Option<Collar>,
    pub(super) collar: Option<Collar>,
    pub(super) skirt: &'a Skirt,
    /// Crown and lowest point, m over the pin axis.
    pub(super) ends: (f64, f64),
}

impl Doubts<'_> {
    /// Each with what settles it; `bare` of a piston without a ring belt.
    pub(super) fn list(&self, bare: bool) -> Vec<PistonDoubt> {
        let (above, below) = (self.ends.0, -self.ends.1);
        let crown = bare && self.given.crown_direction.is_none() && above > below;
        let diameter = 2.0 * self.pin.radius;
        let asked = self.given.pin_bore.is_none();
        let mut list = Vec::new();
        list.extend(crown.then_some(PistonDoubt::CrownByClosedEnd { above, below }));
        list.extend(self.other.map(|other| PistonDoubt::OtherBore { taken: diameter, other }));
        list.extend(self.pin.bare().filter(|_| asked).map(|boss| PistonDoubt::NoBosses { diameter, boss }));
        list.extend(self.collar.map(PistonDoubt::WideLand));
        list.extend(self.lip.map(|lip| PistonDoubt::Lip { lip, skirt: self.skirt.radius }));
        list
    }
}

impl fmt::Display for PistonDoubt {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        const MM: f64 = 1e3;
        match self {
            Self::CrownByClosedEnd { above, below } => write!(
                out,
                "The crown is the closed end, {:.2} mm over the pin; the skirt reaches {:.2} mm under it. No ring groove \
                 confirms that. If the crown is the other end, say so with the crown direction.",
                above * MM,
                below * MM
            ),
            Self::OtherBore { taken, other } => write!(
                out,
                "The pin bore is taken as the one of {:.2} mm; a bore of {:.2} mm crosses the axis too. If the pin runs \
                 there, name that pin bore and the pin axis.",
                taken * MM,
                other * MM
            ),
            Self::NoBosses { diameter, boss } => write!(
                out,
                "The pin bore of {:.2} mm is {:.2} mm long at each side: no bosses stand round it. If the pin runs elsewhere, \
                 name its pin bore and the pin axis; if none does, this is no piston.",
                diameter * MM,
                boss.bearing_length * MM
            ),
            Self::WideLand(collar) => write!(
                out,
                "A collar of {:.2} mm stands out of the uppermost land. Its clearance in the cylinder is the one checked.",
                2.0 * collar.radius * MM
            ),
            Self::Lip { lip, skirt } => write!(
                out,
                "A lip of {:.2} mm, {:.2} mm high, stands out of the skirt of {:.2} mm. Its clearance is checked too; if \
                 it is the skirt, name it as the body of the piston.",
                2.0 * lip.radius * MM,
                (lip.to - lip.from) * MM,
                2.0 * skirt * MM
            ),
        }
    }
}
