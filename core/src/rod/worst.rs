use super::model::Region;
use super::place::RodMargin;
use super::wear::{WearBound, Worn};
use crate::life::Link;
use crate::numeric::sort_few_by_key;
use crate::verdict::{Known, Mode};

/// The worst of each mode so far, each with what the caller wants to know of it.
#[derive(Clone)]
pub(crate) struct Worst<T> {
    /// In the order in which modes were first met.
    pub(crate) found: Vec<(RodMargin, T)>,
    /// Of each region the place that running wears most, with its margin.
    links: Vec<(Region, f64, Link, T)>,
}

/// Margin against creep rupture of a load as short as firing over that of one as high that lasts, at least.
const ALWAYS_HIGHEST: f64 = 1.12;

/// Margins nearer to each other than this share are equal: a pressed ring pulls alike all round, and rounding of coordinates
/// must not choose its place.
const EQUAL: f64 = 1e-6;

impl<T: Copy> Default for Worst<T> {
    fn default() -> Self {
        Self { found: Vec::new(), links: Vec::new() }
    }
}

impl<T: Copy> Worst<T> {
    pub(crate) fn add(&mut self, mode: RodMargin, of: T) {
        match self.found.iter_mut().find(|(known, _)| known.mode == mode.mode) {
            Some(known) if mode.margin < known.0.margin * (1.0 - EQUAL) => *known = (mode, of),
            // The place found first stands for all that are equal.
            Some(known) => known.0.margin = known.0.margin.min(mode.margin),
            None => self.found.push((mode, of)),
        }
    }

    /// Adds what running does to a place.
    pub(crate) fn add_worn(&mut self, worn: Worn, of: T) {
        for mode in worn.modes.iter().flatten() {
            self.add(*mode, of);
        }
        let margin = worn.margin();
        match self.links.iter_mut().find(|known| known.0 == worn.region) {
            Some(known) if margin < known.1 => *known = (worn.region, margin, worn.link, of),
            Some(_) => {}
            None => self.links.push((worn.region, margin, worn.link, of)),
        }
    }

    /// Whether a place with such bounds may still be the worst of a mode or of its region.
    pub(crate) fn open_to(&self, bound: &WearBound) -> bool {
        let open = |(mode, margin): (Mode, f64)| self.margin(mode).is_none_or(|known| margin < known);
        // Its bound takes the highest tension for lasting, which is that much too low; where rupture governs, its region
        // is open anyway.
        let rupture = (bound.rupture.0, bound.rupture.1 * ALWAYS_HIGHEST);
        open(bound.fatigue)
            || (bound.rupture.1 < f64::INFINITY && open(rupture))
            || self.worst_of(bound.region).is_none_or(|known| bound.least() < known)
    }

    /// The least margins so far that a place with such bounds could undercut.
    pub(crate) fn known(&self, bound: &WearBound) -> Known {
        self.known_of((bound.fatigue.0, bound.rupture.0), bound.region)
    }

    /// The same by the names of fatigue and rupture there.
    pub(crate) fn known_of(&self, (fatigue, rupture): (Mode, Mode), region: Region) -> Known {
        Known { fatigue: self.margin(fatigue), rupture: self.margin(rupture), region: self.worst_of(region) }
    }

    pub(crate) fn margin(&self, mode: Mode) -> Option<f64> {
        self.found.iter().find(|(known, _)| known.mode == mode).map(|(known, _)| known.margin)
    }

    /// The least margin of all modes that one load brings about.
    pub(crate) fn least_at_once(&self) -> Option<f64> {
        let alike = self.found.iter().filter(|(known, _)| !known.mode.counts_time());
        alike.map(|(known, _)| known.margin).min_by(f64::total_cmp)
    }

    /// The least margin of running in a region.
    pub(crate) fn worst_of(&self, region: Region) -> Option<f64> {
        self.links.iter().find(|known| known.0 == region).map(|known| known.1)
    }

    /// All modes in their order, the worn places by region, and what is known of either.
    pub(crate) fn sorted(mut self) -> (Vec<RodMargin>, Vec<Link>, Vec<T>) {
        sort_few_by_key(&mut self.found, |(mode, _)| mode.mode);
        sort_few_by_key(&mut self.links, |known| known.0);
        let (modes, mut of): (Vec<RodMargin>, Vec<T>) = self.found.into_iter().unzip();
        let mut links = Vec::with_capacity(self.links.len());
        for (_, _, link, place) in self.links {
            links.push(link);
            of.push(place);
        }
        (modes, links, of)
    }
}
