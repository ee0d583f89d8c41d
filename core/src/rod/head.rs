//! The gap between piston and head against what the rod gets longer.

use super::place::{RodMargin, RodPlace};
use super::setting::Setting;
use super::stretch::Pulls;
use crate::verdict::{Mode, ModeMargin};

/// Margins beyond this are no number to compare with.
const MOST_MARGIN: f64 = 99.0;

/// The piston striking the head: the margin is the gap over the most that the rod gets longer by pull, creep and heat up
/// to the wanted life. `None` where the job gives no gap.
pub(crate) fn contact(setting: &Setting<'_>) -> Option<RodMargin> {
    HeadGap::of(setting).map(|gap| gap.margin(setting))
}

/// The gap, and what of the rod's stretch the build direction does not change.
pub(crate) struct HeadGap {
    /// The gap when cold and turned by hand, m.
    gap: f64,
    /// `None` where the forces are no numbers.
    pulls: Option<Pulls>,
}

impl HeadGap {
    pub(crate) fn of(setting: &Setting<'_>) -> Option<Self> {
        let gap = setting.scenario.engine.piston_to_head?;
        Some(Self { gap, pulls: setting.stressing.pulls(setting.card()).ok() })
    }

    pub(crate) fn margin(&self, setting: &Setting<'_>) -> RodMargin {
        let cosine = setting.plane.build().x;
        let stretch = self
            .pulls
            .as_ref()
            .and_then(|pulls| pulls.stretch(cosine, setting.scenario, setting.card(), setting.temperatures).ok());
        // A stretch that is no number leaves no gap.
        let growth = stretch.map_or(f64::INFINITY, |stretch| stretch.greatest());
        let margin = if growth > 0.0 { (self.gap / growth).min(MOST_MARGIN) } else { MOST_MARGIN };
        ModeMargin::at_once(Mode::HeadContact, RodPlace::Whole, margin)
    }
}
