use libm::{exp, hypot, log, pow};

use super::lasting::Lasting;
use super::normal::{normal_probability, normal_quantile};
use crate::numeric::crossing;

/// One place that can fail by running, in a part whose strength and life scatter.
///
/// Fatigue and rupture under lasting load add their damage (Bailey; Miner); the scatter of life at one stress is that of
/// both together.
#[derive(Debug, Clone, PartialEq)]
pub struct Link {
    ln_fatigue_rate: f64,
    exponent: f64,
    life_scatter: f64,
    /// Rupture under lasting load.
    pub lasting: Lasting,
}

impl Link {
    /// Standard deviation of log10 life at one stress.
    pub fn life_scatter(&self) -> f64 {
        self.life_scatter
    }

    /// From the fatigue damage a second in a print of mean strength (1/s), the exponent of the stress-life line, the standard
    /// deviation of log10 life at one stress over strength, and rupture under lasting load.
    pub fn new(fatigue_rate: f64, exponent: f64, life_scatter: f64, lasting: Lasting) -> Self {
        Self { ln_fatigue_rate: log(fatigue_rate), exponent, life_scatter, lasting }
    }

    /// The same place if load that repeats did no harm.
    #[must_use]
    pub fn without_fatigue(&self) -> Self {
        Self { ln_fatigue_rate: f64::NEG_INFINITY, ..self.clone() }
    }

    /// The same place if load that lasts did no harm.
    #[must_use]
    pub fn without_lasting(&self) -> Self {
        Self { lasting: Lasting::none(), ..self.clone() }
    }

    /// Logarithms of the damage a second by fatigue and by lasting load, with their derivatives by the logarithm of the
    /// factor by which all stress is greater, in a print that is `odds` standard deviations weaker than the mean.
    ///
    /// Scatter of strength counts with the steepness that each has at that factor.
    fn ln_rates(&self, ln_factor: f64, odds: Odds) -> [(f64, f64); 2] {
        let (fatigue, factor) = (self.ln_fatigue(ln_factor, odds), exp(ln_factor));
        // Lasting load that cannot change the seventh digit is not worked out.
        if self.ln_lasting_at_most(factor, odds) < fatigue + NEGLIGIBLE {
            return [(fatigue, self.exponent), (f64::NEG_INFINITY, 0.0)];
        }
        [(fatigue, self.exponent), self.ln_lasting(factor, odds)]
    }

    /// Standard deviation of log10 damage at a steepness of its logarithm by that of the factor.
    fn spread(&self, steepness: f64, odds: Odds) -> f64 {
        hypot(self.life_scatter, steepness * odds.strength_scatter)
    }

    /// Of [`Self::ln_rates`] that of fatigue, whose slope is the exponent.
    fn ln_fatigue(&self, ln_factor: f64, odds: Odds) -> f64 {
        let spread = self.spread(self.exponent, odds);
        self.ln_fatigue_rate + self.exponent * ln_factor + odds.wide() * spread
    }

    /// The most that [`Self::ln_lasting`] can be.
    fn ln_lasting_at_most(&self, factor: f64, odds: Odds) -> f64 {
        self.lasting.ln_rate_at_most(factor) + odds.wide() * self.spread(self.lasting.steepest(factor), odds)
    }

    /// Of [`Self::ln_rates`] that of lasting load.
    fn ln_lasting(&self, factor: f64, odds: Odds) -> (f64, f64) {
        let wide = odds.wide();
        let (ln_lasting, slope) = self.lasting.ln_rate(factor);
        let steepness = slope * factor;
        let spread = self.spread(steepness, odds);
        // The steepness of Zhurkov's law grows with the factor itself.
        let widening = if spread > 0.0 {
            wide * steepness * odds.strength_scatter * (steepness * odds.strength_scatter) / spread
        } else {
            0.0
        };
        (ln_lasting + wide * spread, steepness + widening)
    }

    /// Whether lasting load does less damage a second than the logarithm `most` says, all stress times `factor`.
    pub fn lasts_below(&self, most: f64, factor: f64, odds: Odds) -> bool {
        self.ln_lasting_at_most(factor, odds) < most || self.ln_lasting(factor, odds).0 < most
    }

    /// Whether fatigue and lasting load together do, likewise.
    pub fn wears_below(&self, most: f64, factor: f64, odds: Odds) -> bool {
        let ln_factor = log(factor);
        // Where fatigue alone does more, the other need not be worked out.
        if self.ln_fatigue(ln_factor, odds) >= most {
            return false;
        }
        let [(fatigue, _), (lasting, _)] = self.ln_rates(ln_factor, odds);
        exp(fatigue - most) + exp(lasting - most) < 1.0
    }

    /// Damage a second by fatigue and by lasting load, all stress times `factor`.
    pub fn rates(&self, factor: f64, odds: Odds) -> [f64; 2] {
        self.ln_rates(log(factor), odds).map(|(ln_rate, _)| exp(ln_rate))
    }

    /// Logarithm of the damage a second in a print of mean strength, all stress over strength times a factor, given with its
    /// logarithm.
    fn ln_damage_rate(&self, ln_factor: f64, factor: f64) -> f64 {
        let fatigue = self.ln_fatigue_rate + self.exponent * ln_factor;
        // Lasting load that cannot change the seventh digit is not worked out.
        if self.lasting.ln_rate_at_most(factor) <= fatigue + NEGLIGIBLE {
            return fatigue;
        }
        let lasting = self.lasting.ln_rate(factor).0;
        let top = fatigue.max(lasting);
        top + log(exp(fatigue - top) + exp(lasting - top))
    }

    /// Probability of having failed at a damage given as its logarithm.
    fn failed_at(&self, ln_damage: f64) -> f64 {
        if self.life_scatter <= 0.0 {
            return if ln_damage >= 0.0 { 1.0 } else { 0.0 };
        }
        normal_probability(ln_damage / (self.life_scatter * core::f64::consts::LN_10))
    }

    /// Factor by which all stress could grow before the place fails within `seconds` at the given odds.
    ///
    /// Newton in the logarithm of the factor, in which the damage's logarithm is convex and rising, so that it cannot
    /// miss.
    pub fn factor_to_fail(&self, seconds: f64, odds: Odds) -> f64 {
        let ln_seconds = log(seconds);
        let [(fatigue, _), (rest, _)] = self.ln_rates(0.0, odds);
        let alone = -(fatigue + ln_seconds) / self.exponent;
        if !self.lasting.pulls() {
            return if rest + ln_seconds >= 0.0 { 0.0 } else { exp(alone) };
        }
        if self.lasting.ln_rate(0.0).0 + ln_seconds >= 0.0 {
            // Too hot to last even without stress.
            return 0.0;
        }
        // As if the highest tension were there all the time: close where rupture does the harm.
        let lasts = log(self.lasting.factor_at_most(ln_seconds));
        let mut x = if alone < lasts { alone } else { lasts }.clamp(-50.0, 50.0);
        for _ in 0..100 {
            let [(fatigue, fatigue_slope), (lasting, lasting_slope)] = self.ln_rates(x, odds);
            let top = fatigue.max(lasting);
            let (a, b) = (exp(fatigue - top), exp(lasting - top));
            let value = top + log(a + b) + ln_seconds;
            let step = value / ((a * fatigue_slope + b * lasting_slope) / (a + b));
            x = (x - step).min(50.0);
            // The error left is of the order of the last step's square.
            if step.abs() < 1e-8 {
                break;
            }
        }
        exp(x)
    }
}

/// Life of what does not fail, s: thirty million years. A number, so that every form of report can hold it.
pub const ENDLESS_S: f64 = 1e15;

/// The most that a margin is said to be.
pub const GREATEST_MARGIN: f64 = 1e9;

/// Which print of many.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Odds {
    /// How many standard deviations of life it is worse than the mean.
    pub deviations: f64,
    /// Standard deviation of log10 strength.
    pub strength_scatter: f64,
}

impl Odds {
    /// How much worse that is, as the logarithm of damage over its standard deviation as log10.
    fn wide(self) -> f64 {
        self.deviations * core::f64::consts::LN_10
    }
}

/// A part that fails where its first place does: life and strength scatter from print to print.
///
/// Strength is one draw for the whole print, life at one stress a draw of its own for every link.
#[derive(Debug, Clone, PartialEq)]
pub struct WeakestLink {
    links: Vec<Link>,
    /// Standard deviation of log10 strength.
    strength_scatter: f64,
    /// Factor by which all stress could grow before one load breaks a print of mean strength.
    at_once: f64,
    /// Factor beyond which every print fails, whatever its strength: heat.
    always: f64,
}

/// Positive nodes and weights of the Gauss-Legendre rule with 32 points, from numpy's `leggauss`.
const LEGENDRE: [(f64, f64); 16] = [
    (0.048_307_665_687_738_324, 0.096_540_088_514_727_66),
    (0.144_471_961_582_796_5, 0.095_638_720_079_274_71),
    (0.239_287_362_252_137_06, 0.093_844_399_080_804_51),
    (0.331_868_602_282_127_67, 0.091_173_878_695_763_78),
    (0.421_351_276_130_635_33, 0.087_652_093_004_403_78),
    (0.506_899_908_932_229_4, 0.083_311_924_226_946_71),
    (0.587_715_757_240_762_3, 0.078_193_895_787_070_23),
    (0.663_044_266_930_215_2, 0.072_345_794_108_848_34),
    (0.732_182_118_740_289_7, 0.065_822_222_776_361_68),
    (0.794_483_795_967_942_4, 0.058_684_093_478_535_565),
    (0.849_367_613_732_57, 0.050_998_059_262_376_09),
    (0.896_321_155_766_052_1, 0.042_835_898_022_226_836),
    (0.934_906_075_937_739_7, 0.034_273_862_913_021_765),
    (0.964_762_255_587_506_4, 0.025_392_065_309_262_024),
    (0.985_611_511_545_268_4, 0.016_274_394_730_905_743),
    (0.997_263_861_849_481_6, 0.007_018_610_009_470_506),
];

/// How many standard deviations of strength are looked at.
const REACH: f64 = 5.0;

/// Logarithm of a share of damage that counts as none.
const NEGLIGIBLE: f64 = -16.0;

impl WeakestLink {
    /// `at_once` and `always` are factors on all stress, see the fields.
    pub fn new(links: Vec<Link>, strength_scatter: f64, at_once: f64, always: f64) -> Self {
        Self { links, strength_scatter, at_once, always }
    }

    /// The places.
    pub fn links(&self) -> &[Link] {
        &self.links
    }

    /// Standard deviation of log10 strength from print to print.
    pub fn strength_scatter(&self) -> f64 {
        self.strength_scatter
    }

    /// Whether one load breaks a print, or heat takes it, all stress times `factor` and over strength times `stress`.
    pub fn breaks_at_once(&self, factor: f64, stress: f64) -> bool {
        factor > self.always || stress > self.at_once
    }

    /// Share of prints that has failed within `seconds`, all stress times `factor`.
    pub fn failed_by(&self, seconds: f64, factor: f64) -> f64 {
        self.prints(factor).failed_by(log(seconds))
    }

    /// Prints of every strength, all stress times `factor`.
    ///
    /// Gauss-Legendre over the strength of the print, from the weakest that bears one load upward.
    pub(crate) fn prints(&self, factor: f64) -> Prints<'_> {
        let mut prints = Prints { links: &self.links, broken: 1.0, weights: Vec::new(), ln_rates: Vec::new() };
        if factor > self.always {
            return prints;
        }
        let ln_factor = log(factor);
        let ln_scatter = self.strength_scatter * core::f64::consts::LN_10;
        let mut add = |weight: f64, ln_stress: f64| {
            let stress = exp(ln_stress);
            prints.weights.push(weight);
            prints.ln_rates.extend(self.links.iter().map(|link| link.ln_damage_rate(ln_stress, stress)));
        };
        if ln_scatter <= 0.0 {
            if factor <= self.at_once {
                add(1.0, ln_factor);
                prints.broken = 0.0;
            }
            return prints;
        }
        let weakest = log(factor / self.at_once) / ln_scatter;
        if weakest >= REACH {
            return prints;
        }
        let low = weakest.max(-REACH);
        let (middle, half) = (f64::midpoint(low, REACH), 0.5 * (REACH - low));
        for (node, weight) in LEGENDRE {
            for side in [-1.0, 1.0] {
                let z = middle + side * half * node;
                let density = exp(-0.5 * z * z) / libm::sqrt(core::f64::consts::TAU);
                add(half * weight * density, ln_factor - z * ln_scatter);
            }
        }
        prints.broken = normal_probability(low);
        prints
    }

    /// Running time by which a share of prints has failed, s, all stress times `factor`; 0 where one load breaks as many.
    pub fn life_at(&self, share: f64, factor: f64) -> f64 {
        let prints = self.prints(factor);
        let excess = |ln_seconds: f64| excess(prints.failed_by(ln_seconds), share);
        let (low, high) = (log(1e-9), log(ENDLESS_S));
        let ends = (excess(low), excess(high));
        if ends.0 >= 0.0 {
            return 0.0;
        }
        if ends.1 < 0.0 {
            return ENDLESS_S;
        }
        exp(crossing((low, ends.0), (high, ends.1), excess))
    }

    /// Factor by which all stress could grow before a share of prints fails within `seconds`; it is looked for from `near`
    /// on.
    pub fn margin(&self, share: f64, seconds: f64, near: f64) -> f64 {
        let excess = |ln_factor: f64| excess(self.failed_by(seconds, exp(ln_factor)), share);
        let near = log(near.clamp(1e-6, 1e9));
        let (mut low, mut high) = (near - 0.1, near + 0.02);
        let mut ends = (excess(low), excess(high));
        while ends.0 >= 0.0 {
            if low < log(1e-7) {
                return 0.0;
            }
            (low, high) = (low - 2.0 * (high - low), low);
            ends = (excess(low), ends.0);
        }
        while ends.1 < 0.0 {
            if high > log(GREATEST_MARGIN) {
                return GREATEST_MARGIN;
            }
            (low, high) = (high, high + 2.0 * (high - low));
            ends = (ends.1, excess(high));
        }
        exp(crossing((low, ends.0), (high, ends.1), excess))
    }

    /// Running time of one print, s: its strength is `strength` standard deviations from the mean, its life at one stress
    /// `lives` for each link, and all stress is `factor` times as great.
    pub fn life_of(&self, strength: f64, lives: &[f64], factor: f64) -> f64 {
        let stress = factor / pow(10.0, strength * self.strength_scatter);
        if factor > self.always || stress > self.at_once {
            return 0.0;
        }
        let of = |(link, life): (&Link, &f64)| {
            let [fatigue, lasting] = link.rates(stress, Odds { deviations: 0.0, strength_scatter: 0.0 });
            pow(10.0, life * link.life_scatter) / (fatigue + lasting)
        };
        self.links.iter().zip(lives).map(of).fold(ENDLESS_S, f64::min)
    }
}

/// Prints of one part with every strength under one load.
pub(crate) struct Prints<'a> {
    links: &'a [Link],
    /// Share that the load breaks at once.
    broken: f64,
    /// Share of each strength.
    weights: Vec<f64>,
    /// For each strength, of every link the logarithm of the damage a second.
    ln_rates: Vec<f64>,
}

impl Prints<'_> {
    /// Share that has failed within a time given as its logarithm.
    pub(crate) fn failed_by(&self, ln_seconds: f64) -> f64 {
        let mut sum = self.broken;
        if self.links.is_empty() {
            return sum;
        }
        for (weight, ln_rates) in self.weights.iter().zip(self.ln_rates.chunks_exact(self.links.len())) {
            let each = self.links.iter().zip(ln_rates);
            sum += weight * (1.0 - each.map(|(link, rate)| 1.0 - link.failed_at(rate + ln_seconds)).product::<f64>());
        }
        sum.min(1.0)
    }
}

/// By how many standard deviations more than `share` has failed: nearly a straight line in the logarithms of time and
/// factor.
fn excess(failed: f64, share: f64) -> f64 {
    let deviations = |share: f64| normal_quantile(share.clamp(1e-300, 1.0 - 1e-16)).unwrap_or(0.0);
    deviations(failed) - deviations(share)
}
