use crate::numeric::greater;

/// How long a stress that repeats stays at each level of tension: what rupture under lasting load looks at.
///
/// Compression counts as no stress. Tension is gathered in ranges that are narrower the nearer they are to the greatest,
/// each with its mean and its spread: Zhurkov's law, whose damage falls off within a few per cent of the greatest tension,
/// sees the whole history to a third of a per cent.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct TensionLevels {
    /// Stress and share of the time; the shares sum to one with the time in compression left out.
    levels: Vec<(f64, f64)>,
}

/// Ranges; their limits lie at `1 - (k / RANGES)^2` of the greatest tension.
const RANGES: usize = 9;

impl TensionLevels {
    /// Of a stress sampled at equal time steps.
    pub fn of(period: &[f64]) -> Self {
        let top = period.iter().copied().fold(0.0, greater);
        if !(top > 0.0 && top.is_finite()) {
            return Self::default();
        }
        let mut sums = [(0.0, 0.0, 0u32); RANGES];
        for &stress in period.iter().filter(|&&stress| stress > 0.0) {
            let depth = greater(0.0, 1.0 - stress / top).sqrt();
            let (sum, squares, count) = &mut sums[((depth * RANGES as f64) as usize).min(RANGES - 1)];
            *sum += stress;
            *squares += stress * stress;
            *count += 1;
        }
        let mut levels = Vec::with_capacity(2 * RANGES);
        for (sum, squares, count) in sums.into_iter().filter(|range| range.2 > 0) {
            let count = f64::from(count);
            let mean = sum / count;
            let spread = (squares / count - mean * mean).max(0.0).sqrt();
            // Two points with the mean and the variance of the range.
            let share = 0.5 * count / period.len() as f64;
            levels.extend([(mean + spread, share), ((mean - spread).max(0.0), share)]);
        }
        Self { levels }
    }

    /// Several periods, each with its share of the time.
    pub fn joined<'a>(periods: impl Iterator<Item = (&'a Self, f64)>) -> Self {
        let levels = periods.flat_map(|(period, share)| {
            period.levels.iter().map(move |&(stress, of_period)| (stress, of_period * share))
        });
        Self { levels: levels.collect() }
    }

    /// All levels, stress with share of the time.
    pub fn all(&self) -> &[(f64, f64)] {
        &self.levels
    }
}
