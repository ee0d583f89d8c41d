/// How the peak pressure of one cycle differs from that of the next: cycles in a row never burn alike.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct Peaks {
    /// Standard deviation of peak pressure over its mean; normal, as cycles of one engine are (Heywood, Internal Combustion
    /// Engine Fundamentals, 9.4).
    pub spread: f64,
    /// Cycles that knock.
    pub knock: Option<Knock>,
}

/// A cycle that knocks, now and then.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Knock {
    /// One cycle in so many.
    pub every: f64,
    /// Its peak pressure over the mean.
    pub times: f64,
}

/// Cycles whose peaks are taken as alike.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PeakClass {
    /// Peak pressure over the mean.
    pub times: f64,
    /// Share of all cycles.
    pub share: f64,
}

/// Standard deviations at which a normal spread stands for itself, with its shares: Gauss and Hermite's three points, exact for
/// moments up to the fifth (Abramowitz and Stegun 25.4.46).
const POINTS: [(f64, f64); 3] =
    [(-1.732_050_807_568_877_2, 1.0 / 6.0), (1.732_050_807_568_877_2, 1.0 / 6.0), (0.0, 2.0 / 3.0)];

/// The greatest of some thirty thousand cycles, a quarter of an hour: standard deviations and the share beyond them.
const WORST: (f64, f64) = (4.0, 3.167e-5);

/// A cycle never peaks below this share of the mean: it is compressed at least.
const LEAST: f64 = 0.3;

impl Peaks {
    /// Classes of cycles, their shares together one; the last is that of the mean.
    pub fn classes(&self) -> Vec<PeakClass> {
        let knocking = self.knock.map_or(0.0, |knock| 1.0 / knock.every);
        let mut classes: Vec<PeakClass> =
            self.knock.iter().map(|knock| PeakClass { times: knock.times, share: knocking }).collect();
        let even = 1.0 - knocking;
        if self.spread > 0.0 {
            let times = |deviations: f64| (1.0 + deviations * self.spread).max(LEAST);
            classes.push(PeakClass { times: times(WORST.0), share: even * WORST.1 });
            let rest = even * (1.0 - WORST.1);
            classes.extend(POINTS.map(|(at, share)| PeakClass { times: times(at), share: rest * share }));
        } else {
            classes.push(PeakClass { times: 1.0, share: even });
        }
        classes
    }
}
