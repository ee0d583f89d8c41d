//! Learning from runs whose failure mode is known: each mode has a log-normal life, or a strength where time does not count, and
//! moves with the quantity that decides it. A run that failed by one mode was survived by all others.
//!
//! Every observation is a normal density or a normal probability of a straight line in the logarithms of the quantities, so the
//! posterior has one peak; Newton's method finds it, and the curvature there gives the covariance (Laplace; Gelman et al.,
//! Bayesian Data Analysis).

use libm::{exp, hypot, log};
use nalgebra::{Matrix4, Vector4};

use super::quantity::Quantity;
use super::update::{Belief, Outcome};
use crate::life::{ENDLESS_S, normal_probability};
use crate::report::ModeReport;
use crate::verdict::{Mode, ten_percent_factor};

/// What is believed of the logarithms of the four quantities, each over the card's or the model's; in the order of
/// [`Quantity::ALL`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ByQuantity {
    /// Means.
    pub mean: Vector4<f64>,
    /// Covariance.
    pub covariance: Matrix4<f64>,
}

impl ByQuantity {
    /// Independent quantities that are as the card has them but for these standard deviations of their logarithms.
    pub fn open(deviations: [f64; 4]) -> Self {
        let squares = Vector4::from(deviations.map(|deviation| deviation * deviation));
        Self { mean: Vector4::zeros(), covariance: Matrix4::from_diagonal(&squares) }
    }

    /// Standard deviation of one.
    pub fn deviation(&self, quantity: Quantity) -> f64 {
        let k = quantity as usize;
        self.covariance[(k, k)].max(0.0).sqrt()
    }

    /// Middle factor of one.
    pub fn factor(&self, quantity: Quantity) -> f64 {
        exp(self.mean[quantity as usize])
    }

    /// One strength and life alone.
    pub fn beside_life(&self, strength: Quantity) -> Belief {
        let (k, life) = (strength as usize, Quantity::Life as usize);
        let mut belief = Belief::open(0.0, 0.0);
        belief.mean = [self.mean[k], self.mean[life]].into();
        for (row, from) in [k, life].into_iter().enumerate() {
            for (column, to) in [k, life].into_iter().enumerate() {
                belief.covariance[(row, column)] = self.covariance[(from, to)];
            }
        }
        belief
    }
}

/// What the model says of one mode in a run.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ModeLife {
    /// The mode.
    pub mode: Mode,
    /// Logarithm of the life that half reach, s; where time does not count, of the factor on all stress that half bear.
    pub ln_middle: f64,
    /// Power of strength with which life rises; none where time does not count.
    pub power: Option<f64>,
    /// Standard deviation of that logarithm from print to print.
    pub scatter: f64,
}

/// Power of life with stress where a report does not show it.
const USUAL_POWER: f64 = 10.0;

/// Power with which life falls with stress, between a time and the life of a mode whose margin at that time is known.
pub(crate) fn life_power(margin: f64, life_b10_s: Option<f64>, wanted: f64) -> f64 {
    let life = life_b10_s.filter(|life| *life > 0.0 && *life < ENDLESS_S && wanted > 0.0);
    let power = life.map(|life| log(life / wanted) / log(margin));
    // Beside a margin of 1 both logarithms vanish.
    power
        .filter(|power| power.is_finite() && log(margin).abs() > 0.02)
        .map_or(USUAL_POWER, |power| power.clamp(2.0, 40.0))
}

impl ModeLife {
    /// Of a mode of a report for a wanted life, s, and the scatter of strength and life (log10); none for what breaks do not teach.
    pub fn of(entry: &ModeReport, wanted: f64, strength: f64, life: f64) -> Option<Self> {
        Quantity::strength_of(entry.mode)?;
        let margin = entry.margin.clamp(1e-3, 1e3);
        let power = entry.mode.counts_time().then(|| life_power(margin, entry.life_b10_s, wanted));
        let prints = power.map_or(strength, |power| hypot(strength, life / power));
        let middle = log(margin / ten_percent_factor(prints));
        let scatter = prints * core::f64::consts::LN_10;
        Some(match power {
            Some(power) => Self {
                mode: entry.mode,
                ln_middle: log(wanted) + power * middle,
                power: Some(power),
                scatter: power * scatter,
            },
            None => Self { mode: entry.mode, ln_middle: middle, power: None, scatter },
        })
    }

    /// The same where the margin is another by a factor.
    #[must_use]
    pub fn raised(self, factor: f64) -> Self {
        let more = self.power.unwrap_or(1.0) * log(factor.clamp(1e-3, 1e3));
        Self { ln_middle: self.ln_middle + more, ..self }
    }

    /// What a factor on each quantity adds to the logarithm.
    fn slopes(&self) -> Vector4<f64> {
        let mut slopes = Vector4::zeros();
        if let Some(strength) = Quantity::strength_of(self.mode) {
            slopes[strength as usize] = self.power.unwrap_or(1.0);
        }
        slopes[Quantity::Life as usize] = if self.power.is_some() { 1.0 } else { 0.0 };
        slopes
    }

    /// That it was survived for so long, or ended the part at or before a time.
    fn line(&self, seconds: f64, kind: Kind) -> Line {
        let reached = if self.power.is_some() { log(seconds.max(1e-9)) } else { 0.0 };
        Line { at_none: self.ln_middle - reached, slopes: self.slopes(), deviation: self.scatter, kind }
    }
}

/// A run with what the model says of its modes.
#[derive(Debug, Clone, PartialEq)]
pub struct ModeRun {
    /// The modes that could end it.
    pub modes: Vec<ModeLife>,
    /// How it ended.
    pub outcome: Outcome,
    /// By which mode, where that is known; else it is taken to be the likeliest of them.
    pub mode: Option<Mode>,
}

/// How an observation stands to its line.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Kind {
    /// The logarithm is this.
    Equal,
    /// It is more.
    Above,
    /// It is less.
    Below,
}

/// An observation: a straight line in the logarithms of the quantities, with a normal error.
struct Line {
    at_none: f64,
    slopes: Vector4<f64>,
    deviation: f64,
    kind: Kind,
}

impl Line {
    fn score(&self, at: &Vector4<f64>) -> f64 {
        (self.at_none + self.slopes.dot(at)) / self.deviation
    }

    /// Logarithm of the likelihood, its slope by the score and its curvature.
    fn ln_likelihood(&self, at: &Vector4<f64>) -> (f64, f64, f64) {
        let score = self.score(at);
        let probability = |score: f64| {
            // Far out the normal probability is its density over the score (Mills).
            let (ln, ratio) = if score < -30.0 {
                (-0.5 * score * score - log(-score * core::f64::consts::TAU.sqrt()), -score)
            } else {
                let share = normal_probability(score);
                (log(share), exp(-0.5 * score * score) / (core::f64::consts::TAU.sqrt() * share))
            };
            (ln, ratio, -ratio * (score + ratio))
        };
        match self.kind {
            Kind::Equal => (-0.5 * score * score, -score, -1.0),
            Kind::Above => probability(score),
            Kind::Below => {
                let score = -score;
                let share = normal_probability(score);
                let (ln, ratio, curve) = if share > 0.0 { probability(score) } else { probability(score.min(-31.0)) };
                (ln, -ratio, curve)
            }
        }
    }
}

impl ModeRun {
    /// The observations that a run is.
    fn lines(&self, prior: &ByQuantity) -> Vec<Line> {
        let (sound, end) = match self.outcome {
            Outcome::Survived(seconds) => {
                return self.modes.iter().map(|mode| mode.line(seconds, Kind::Above)).collect();
            }
            Outcome::FailedAt(seconds) => (seconds, seconds),
            Outcome::FailedBetween(sound, seconds) => (sound, seconds),
        };
        let by = self.mode.or_else(|| self.likeliest(end, prior));
        let others = self.modes.iter().filter(|mode| Some(mode.mode) != by);
        // The others had not ended it by then.
        let mut lines: Vec<Line> = others.map(|mode| mode.line(sound.max(1e-3), Kind::Above)).collect();
        if let Some(own) = self.modes.iter().find(|mode| Some(mode.mode) == by) {
            lines.push(if own.power.is_none() || sound <= 0.0 {
                own.line(end, Kind::Below)
            } else {
                // Somewhere between two times: in the middle, give or take.
                let wide = log(end / sound) / 12f64.sqrt();
                let line = own.line((sound * end).sqrt(), Kind::Equal);
                Line { deviation: hypot(line.deviation, wide), ..line }
            });
        }
        lines
    }

    /// The mode by which most parts have failed then, before anything is learned.
    fn likeliest(&self, seconds: f64, prior: &ByQuantity) -> Option<Mode> {
        let score = |mode: &ModeLife| mode.line(seconds, Kind::Above).score(&prior.mean);
        self.modes.iter().min_by(|a, b| score(a).total_cmp(&score(b))).map(|mode| mode.mode)
    }
}

/// Steps of Newton's method, and halvings of one of them, at most.
const STEPS: usize = 80;

/// Updates what is believed of the quantities by runs.
pub fn by_mode(prior: &ByQuantity, runs: &[ModeRun]) -> ByQuantity {
    let Some(precision) = prior.covariance.try_inverse() else { return *prior };
    let lines: Vec<Line> = runs.iter().flat_map(|run| run.lines(prior)).collect();
    let height = |at: &Vector4<f64>| {
        let off = at - prior.mean;
        let said: f64 = lines.iter().map(|line| line.ln_likelihood(at).0).sum();
        said - 0.5 * off.dot(&(precision * off))
    };
    let curved = |at: &Vector4<f64>| {
        let (mut slope, mut curve) = (-(precision * (at - prior.mean)), precision);
        for line in &lines {
            let (_, first, second) = line.ln_likelihood(at);
            slope += line.slopes * (first / line.deviation);
            curve -= line.slopes * line.slopes.transpose() * (second / (line.deviation * line.deviation));
        }
        (slope, curve)
    };
    let mut at = prior.mean;
    for _ in 0..STEPS {
        let (slope, curve) = curved(&at);
        let Some(inverse) = curve.try_inverse() else { break };
        let step = inverse * slope;
        let now = height(&at);
        let mut share = 1.0;
        while share > 1e-6 && height(&(at + step * share)) < now {
            share *= 0.5;
        }
        at += step * share;
        if (step * share).norm() < 1e-10 {
            break;
        }
    }
    let covariance = curved(&at).1.try_inverse().unwrap_or(prior.covariance);
    ByQuantity { mean: at, covariance }
}
