//! The ladder of runs: its pieces against closed forms, and simulated practice with it.

mod pieces;
mod practice;

use layload_core::bench::Belief;
use layload_core::ladder::{Believed, Climb, Level, Rules, Wear};
use layload_core::life::{Lasting, Link, WeakestLink};

/// Standard deviations of log10 strength and of log10 life of the prints here.
pub(super) const SCATTER: (f64, f64) = (0.03, 0.3);

/// Power of strength with which life rises.
pub(super) const EXPONENT: f64 = 10.0;

/// Share of parts that fails within the wanted life at the margin: 10 %.
const TEN: f64 = -1.281_551_565_544_600_4;

/// A part of two places alike whose margin at the duty is `margin`; stress goes with the square of the speed.
pub(super) struct Bench {
    pub(super) levels: Vec<Level>,
    pub(super) rules: Rules,
    pub(super) prior: Belief,
}

impl Bench {
    pub(super) fn new(margin: f64) -> Self {
        let wanted = 7200.0;
        let spread = libm::hypot(SCATTER.0, SCATTER.1 / EXPONENT) * core::f64::consts::LN_10;
        // Life of the middle print at the duty, by the margin that 10 % do not have.
        let middle = wanted * libm::pow(margin / libm::exp(TEN * spread), EXPONENT);
        let count = 16;
        let levels = (0..count)
            .map(|k| {
                let share = 0.2 + 0.08 * f64::from(k);
                let rate = libm::pow(share * share, EXPONENT) / middle;
                let link = Link::new(rate, EXPONENT, SCATTER.1, Lasting::none());
                let link = WeakestLink::new(vec![link], SCATTER.0, 5.0 * margin / (share * share), 50.0);
                Level { share, rpm: 5000.0 * share, throttle: share.min(1.0), link }
            })
            .collect();
        let rules = Rules { duty: 10, top: 15, step: 600.0, wanted, margin, exponent: EXPONENT };
        Self { levels, rules, prior: Belief::open(0.2, 0.8) }
    }

    pub(super) fn believed(&self) -> Believed {
        Believed::of(&self.prior)
    }

    pub(super) fn wear(&self) -> Wear {
        Wear::new(&self.levels, &self.believed())
    }

    pub(super) fn climb(&self) -> Climb {
        Climb::plan(&self.wear(), &self.believed(), &self.rules)
    }
}
