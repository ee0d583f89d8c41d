use super::margin::ModeMargin;
use super::quantile::ten_percent_factor;
use crate::life::{Link, WeakestLink};

/// Strength and life of a whole part: its modes, and the places that can fail by running.
#[derive(Debug, Clone, PartialEq)]
pub struct PartStrength<P> {
    /// Every mode with its worst place, in the order of [`super::mode::Mode`].
    pub modes: Vec<ModeMargin<P>>,
    /// The worst place by running of each eye and of the shank. Within each of them neighbours share the fate of the
    /// worst, so that more stations do not make a weaker rod.
    pub links: Vec<Link>,
    /// Standard deviation of log10 strength from print to print.
    pub strength_scatter: f64,
    /// Running time that is wanted, s.
    pub wanted_life: f64,
}

impl<P> PartStrength<P> {
    /// What fails first: the mode whose own margin is least.
    ///
    /// There is at least one mode.
    pub fn governing(&self) -> &ModeMargin<P> {
        let modes = &self.modes;
        modes.iter().fold(&modes[0], |best, mode| if mode.margin < best.margin { mode } else { best })
    }

    /// All modes and places together, with their scatter.
    pub fn weakest_link(&self) -> WeakestLink {
        let least = |strength: bool| {
            let at_once = self.modes.iter().filter(|mode| !mode.counts_time());
            let modes = at_once.filter(|mode| mode.mode.asks_for_strength() == strength);
            modes.map(|mode| mode.margin).fold(f64::INFINITY, f64::min)
        };
        let at_once = least(true) / ten_percent_factor(self.strength_scatter);
        WeakestLink::new(self.links.clone(), self.strength_scatter, at_once, least(false))
    }

    /// Factor by which all stress could grow before one part in ten fails within the wanted life by any mode: a little
    /// less than the least margin of a mode, since several together fail more often than each.
    pub fn margin(&self) -> f64 {
        let least = self.governing().margin;
        // Each margin is looked for by itself, to some hundred-thousandths; all together are never above one.
        self.weakest_link().margin(0.1, self.wanted_life, least).min(least)
    }

    /// Whether nine parts in ten reach the wanted life: what a margin of at least 1 says, without looking for it.
    pub fn holds(&self) -> bool {
        self.governing().margin >= 1.0 && self.weakest_link().failed_by(self.wanted_life, 1.0) <= 0.1
    }

    /// Running time until a share of the parts has failed, s.
    pub fn life_at(&self, share: f64) -> f64 {
        self.weakest_link().life_at(share, 1.0)
    }
}

/// Strength of a part of any kind, its places in words.
pub type NamedStrength = PartStrength<String>;

impl<P: core::fmt::Display> PartStrength<P> {
    /// The same with places in words.
    #[must_use]
    pub fn named(self) -> NamedStrength {
        let named = |mode: ModeMargin<P>| ModeMargin {
            place: mode.place.to_string(),
            mode: mode.mode,
            margin: mode.margin,
            median_life: mode.median_life,
            life_b10: mode.life_b10,
        };
        PartStrength {
            modes: self.modes.into_iter().map(named).collect(),
            links: self.links,
            strength_scatter: self.strength_scatter,
            wanted_life: self.wanted_life,
        }
    }
}
