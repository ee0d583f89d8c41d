use libm::{exp, log};
use nalgebra::{Matrix2, Vector2};

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
    /// Share of prints that has failed by a time (s) with all stress times a factor.
    Any(Box<dyn Fn(f64, f64) -> f64 + Sync + 'a>),
}

impl Evidence<'_> {
    /// Share failed by a time, given as its logarithm, where strength and life are other than the model's.
    fn failed_by(&self, ln_seconds: f64, factors: &Vector2<f64>) -> f64 {
        match self {
            Self::LogNormal { ln_median, exponent, scatter } => {
                let middle = ln_median + exponent * factors[0] + factors[1];
                crate::life::normal_probability((ln_seconds - middle) / scatter)
            }
            Self::Any(failed_by) => failed_by(exp(ln_seconds - factors[1]), exp(-factors[0])),
        }
    }

    /// Logarithm of the likelihood of an outcome.
    pub fn ln_likelihood(&self, outcome: Outcome, factors: &Vector2<f64>) -> f64 {
        // Half the step of a central difference in ln t: lives scatter by far more.
        const STEP: f64 = 0.02;
        let by = |ln_seconds: f64| self.failed_by(ln_seconds, factors);
        let likelihood = match outcome {
            Outcome::Survived(seconds) => 1.0 - by(log(seconds)),
            Outcome::FailedAt(seconds) => match self {
                Self::LogNormal { ln_median, exponent, scatter } => {
                    let z = (log(seconds) - ln_median - exponent * factors[0] - factors[1]) / scatter;
                    return -0.5 * z * z - log(scatter * core::f64::consts::TAU.sqrt());
                }
                Self::Any(_) => (by(log(seconds) + STEP) - by(log(seconds) - STEP)) / (2.0 * STEP),
            },
            Outcome::FailedBetween(sound, seconds) => by(log(seconds)) - if sound > 0.0 { by(log(sound)) } else { 0.0 },
        };
        // What the model holds for impossible is not, quite: one run in a thousand million is of another kind.
        log(likelihood.max(0.0) + 1e-9)
    }

    /// Share that a belief expects to have failed by a time, s: the mean over what is believed.
    pub fn expected(&self, belief: &Belief, seconds: f64) -> f64 {
        const ACROSS: usize = 25;
        let axes = belief.covariance.symmetric_eigen();
        let sizes = axes.eigenvalues.map(|value| value.max(0.0).sqrt());
        let at = |k: usize| -4.0 + 8.0 * k as f64 / (ACROSS - 1) as f64;
        let (mut sum, mut weights) = (0.0, 0.0);
        for k in 0..ACROSS * ACROSS {
            let scores = Vector2::new(at(k % ACROSS), at(k / ACROSS));
            let weight = exp(-0.5 * scores.norm_squared());
            let factors = belief.mean + axes.eigenvectors * scores.component_mul(&sizes);
            sum += weight * self.failed_by(log(seconds), &factors);
            weights += weight;
        }
        sum / weights
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
    let mut over = *prior;
    for _ in 0..3 {
        let axes = over.covariance.symmetric_eigen();
        let sizes = axes.eigenvalues.map(|value| value.max(1e-12).sqrt() * REACH);
        let at = |k: usize| -> Vector2<f64> {
            let share = |n: usize| 2.0 * n as f64 / (POINTS - 1) as f64 - 1.0;
            let along = Vector2::new(share(k % POINTS) * sizes[0], share(k / POINTS) * sizes[1]);
            over.mean + axes.eigenvectors * along
        };
        let weights = crate::threads::map_in_order(POINTS * POINTS, |k| {
            let factors = at(k);
            let off = factors - prior.mean;
            let before = -0.5 * off.dot(&(precision * off));
            // Far out of the prior nothing is asked: it has no weight there whatever the runs say.
            if before < -0.5 * REACH * REACH * 2.5 {
                return f64::NEG_INFINITY;
            }
            before + runs.iter().map(|(evidence, outcome)| evidence.ln_likelihood(*outcome, &factors)).sum::<f64>()
        });
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
