use libm::{exp, log};
use nalgebra::{Matrix2, Vector2};

use crate::life::{Prints, WeakestLink};

/// What is believed of the logarithms of two factors: strength over the card's, life over the model's.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Belief {
    /// Means: strength, life.
    pub mean: Vector2<f64>,
    /// Covariance.
    pub covariance: Matrix2<f64>,
}

impl Belief {
    /// Independent factors that are 1 but for these standard deviations of their logarithms.
    pub fn open(strength: f64, life: f64) -> Self {
        Self { mean: Vector2::zeros(), covariance: Matrix2::new(strength * strength, 0.0, 0.0, life * life) }
    }

    /// Standard deviations: strength, life.
    pub fn deviations(&self) -> [f64; 2] {
        [self.covariance[(0, 0)].max(0.0).sqrt(), self.covariance[(1, 1)].max(0.0).sqrt()]
    }

    /// Mean and standard deviation of the logarithm of the life that a place lives whose life rises with strength to a
    /// power.
    pub fn of_life(&self, exponent: f64) -> (f64, f64) {
        let weights = Vector2::new(exponent, 1.0);
        (weights.dot(&self.mean), weights.dot(&(self.covariance * weights)).max(0.0).sqrt())
    }
}

/// How a run ended, with running times in s.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Outcome {
    /// Whole after so long.
    Survived(f64),
    /// Failed at a time.
    FailedAt(f64),
    /// Failed between two times.
    FailedBetween(f64, f64),
}

/// What the model says of one run.
pub enum Evidence<'a> {
    /// A single place with a log-normal life: logarithm of the median (s), exponent of life with strength, standard
    /// deviation of the natural logarithm of life.
    LogNormal {
        /// Logarithm of the median life, s.
        ln_median: f64,
        /// Power of strength with which life rises.
        exponent: f64,
        /// Standard deviation of ln life.
        scatter: f64,
    },
    /// All places that can fail, with their scatter.
    Link(&'a WeakestLink),
}

/// Evidence at one factor on strength: what it does to every time is worked out once.
enum AtStrength<'a> {
    LogNormal { ln_median: f64, scatter: f64 },
    Prints(Prints<'a>),
}

impl AtStrength<'_> {
    /// Share failed by a time, given as its logarithm, where the logarithm of life is more than the model's by `ln_life`.
    fn failed_by(&self, ln_seconds: f64, ln_life: f64) -> f64 {
        match self {
            Self::LogNormal { ln_median, scatter } => {
                crate::life::normal_probability((ln_seconds - ln_median - ln_life) / scatter)
            }
            Self::Prints(prints) => prints.failed_by(ln_seconds - ln_life),
        }
    }

    /// Logarithm of the likelihood of an outcome.
    fn ln_likelihood(&self, outcome: Outcome, ln_life: f64) -> f64 {
        // Half the step of a central difference in ln t: lives scatter by far more.
        const STEP: f64 = 0.02;
        let by = |ln_seconds: f64| self.failed_by(ln_seconds, ln_life);
        let likelihood = match outcome {
            Outcome::Survived(seconds) => 1.0 - by(log(seconds)),
            Outcome::FailedAt(seconds) => match self {
                Self::LogNormal { ln_median, scatter } => {
                    let z = (log(seconds) - ln_median - ln_life) / scatter;
                    return -0.5 * z * z - log(scatter * core::f64::consts::TAU.sqrt());
                }
                Self::Prints(_) => (by(log(seconds) + STEP) - by(log(seconds) - STEP)) / (2.0 * STEP),
            },
            Outcome::FailedBetween(sound, seconds) => by(log(seconds)) - if sound > 0.0 { by(log(sound)) } else { 0.0 },
        };
        // What the model holds for impossible is not, quite: one run in a thousand million is of another kind.
        log(likelihood.max(0.0) + 1e-9)
    }
}

impl<'a> Evidence<'a> {
    /// Where strength is other than the model's, by its logarithm.
    fn at_strength(&self, ln_strength: f64) -> AtStrength<'a> {
        match self {
            Self::LogNormal { ln_median, exponent, scatter } => {
                AtStrength::LogNormal { ln_median: ln_median + exponent * ln_strength, scatter: *scatter }
            }
            Self::Link(link) => AtStrength::Prints(link.prints(exp(-ln_strength))),
        }
    }

    /// Logarithm of the likelihood of an outcome.
    pub fn ln_likelihood(&self, outcome: Outcome, factors: &Vector2<f64>) -> f64 {
        self.at_strength(factors[0]).ln_likelihood(outcome, factors[1])
    }

    /// Share that a belief expects to have failed by a time, s: the mean over what is believed.
    pub fn expected(&self, belief: &Belief, seconds: f64) -> f64 {
        const ACROSS: usize = 25;
        let axes = Axes::of(belief);
        let at = |k: usize| -4.0 + 8.0 * k as f64 / (ACROSS - 1) as f64;
        let (mut sum, mut weights) = (0.0, 0.0);
        for column in 0..ACROSS {
            let here = self.at_strength(axes.strength(at(column)));
            for row in 0..ACROSS {
                let weight = exp(-0.5 * Vector2::new(at(column), at(row)).norm_squared());
                sum += weight * here.failed_by(log(seconds), axes.life(at(column), at(row)));
                weights += weight;
            }
        }
        sum / weights
    }
}

/// Axes of a belief, the first along which strength alone is the same in every row: the lower triangle whose square is the
/// covariance (Cholesky). So a grid asks for each strength once.
struct Axes {
    mean: Vector2<f64>,
    /// Of strength with the first score, of life with the first, of life with the second.
    slopes: [f64; 3],
}

impl Axes {
    fn of(belief: &Belief) -> Self {
        let covariance = &belief.covariance;
        let strength = covariance[(0, 0)].max(1e-12).sqrt();
        let joint = covariance[(0, 1)] / strength;
        let life = (covariance[(1, 1)] - joint * joint).max(1e-12).sqrt();
        Self { mean: belief.mean, slopes: [strength, joint, life] }
    }

    /// Logarithm of the factor on strength at a score.
    fn strength(&self, first: f64) -> f64 {
        self.mean[0] + self.slopes[0] * first
    }

    /// Logarithm of the factor on life at two scores.
    fn life(&self, first: f64, second: f64) -> f64 {
        self.mean[1] + self.slopes[1] * first + self.slopes[2] * second
    }
}

/// Updates a belief by runs: in closed form where every life is log-normal and every run failed at a known time, on a grid
/// otherwise.
pub fn updated(prior: &Belief, runs: &[(Evidence<'_>, Outcome)]) -> Belief {
    conjugate(prior, runs).unwrap_or_else(|| on_grid(prior, runs))
}

/// The closed form: a normal prior and straight-line observations with normal errors (Gelman et al., Bayesian Data Analysis);
/// `None` where some run does not allow it.
pub fn conjugate(prior: &Belief, runs: &[(Evidence<'_>, Outcome)]) -> Option<Belief> {
    let mut precision = prior.covariance.try_inverse()?;
    let mut pull = precision * prior.mean;
    for run in runs {
        let (Evidence::LogNormal { ln_median, exponent, scatter }, Outcome::FailedAt(seconds)) = run else {
            return None;
        };
        let direction = Vector2::new(*exponent, 1.0);
        let weight = 1.0 / (scatter * scatter);
        precision += direction * direction.transpose() * weight;
        pull += direction * ((log(*seconds) - ln_median) * weight);
    }
    let covariance = precision.try_inverse()?;
    Some(Belief { mean: covariance * pull, covariance })
}

/// Points of the grid along each axis.
const POINTS: usize = 61;

/// How many standard deviations the grid reaches.
const REACH: f64 = 5.5;

/// The same on a grid along the axes of the belief: laid over the prior, then twice over what came out.
pub fn on_grid(prior: &Belief, runs: &[(Evidence<'_>, Outcome)]) -> Belief {
    let Some(precision) = prior.covariance.try_inverse() else { return *prior };
    let alike = alike(runs);
    let mut over = *prior;
    for _ in 0..3 {
        let axes = Axes::of(&over);
        let score = |n: usize| REACH * (2.0 * n as f64 / (POINTS - 1) as f64 - 1.0);
        let at = |k: usize| {
            let (column, row) = (score(k / POINTS), score(k % POINTS));
            Vector2::new(axes.strength(column), axes.life(column, row))
        };
        // A column has one strength.
        let columns = crate::numeric::map_in_order(POINTS, |column| {
            let befores: Vec<f64> = (0..POINTS)
                .map(|row| {
                    let off = at(column * POINTS + row) - prior.mean;
                    -0.5 * off.dot(&(precision * off))
                })
                .collect();
            // Far out of the prior nothing is asked: it has no weight there whatever the runs say.
            let far = |before: f64| before < -0.5 * REACH * REACH * 2.5;
            let mut sums = vec![0.0; POINTS];
            for (index, count) in &alike {
                let (evidence, outcome) = &runs[*index];
                let here = evidence.at_strength(axes.strength(score(column)));
                for (row, sum) in sums.iter_mut().enumerate().filter(|(row, _)| !far(befores[*row])) {
                    *sum += *count as f64 * here.ln_likelihood(*outcome, axes.life(score(column), score(row)));
                }
            }
            let weights = befores.iter().zip(sums);
            weights
                .map(|(before, sum)| if far(*before) { f64::NEG_INFINITY } else { before + sum })
                .collect::<Vec<f64>>()
        });
        let weights = columns.concat();
        let top = weights.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        let (mut sum, mut first) = (0.0, Vector2::zeros());
        for (k, weight) in weights.iter().enumerate() {
            let share = exp(weight - top);
            sum += share;
            first += at(k) * share;
        }
        let mean = first / sum;
        let mut second = Matrix2::zeros();
        for (k, weight) in weights.iter().enumerate() {
            let off = at(k) - mean;
            second += off * off.transpose() * exp(weight - top);
        }
        over = Belief { mean, covariance: second / sum };
    }
    over
}

/// Runs that say the same, each by the first of them and how many there are.
fn alike(runs: &[(Evidence<'_>, Outcome)]) -> Vec<(usize, usize)> {
    let same = |a: usize, b: usize| match (&runs[a].0, &runs[b].0) {
        (Evidence::Link(one), Evidence::Link(other)) => std::ptr::eq(*one, *other) && runs[a].1 == runs[b].1,
        _ => false,
    };
    let mut found: Vec<(usize, usize)> = Vec::new();
    for run in 0..runs.len() {
        match found.iter_mut().find(|(first, _)| same(*first, run)) {
            Some((_, count)) => *count += 1,
            None => found.push((run, 1)),
        }
    }
    found
}
