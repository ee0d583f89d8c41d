/// How long a stress that repeats stays at each level of tension: what rupture under lasting load looks at.
///
/// Compression counts as no stress. Levels nearer to each other than a 96th of the greatest tension are one, with their
/// mean; for Zhurkov's law at the strengths of plastics that is within a per cent of the whole history.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct TensionLevels {
    /// Stress and share of the time; the shares sum to one with the time in compression left out.
    levels: Vec<(f64, f64)>,
}

/// Levels that are told apart.
const LEVELS: usize = 96;

impl TensionLevels {
    /// Of a stress sampled at equal time steps.
    pub fn of(period: &[f64]) -> Self {
        let top = period.iter().copied().fold(0.0, f64::max);
        if !(top > 0.0 && top.is_finite()) {
            return Self::default();
        }
        let mut sums = [(0.0, 0u32); LEVELS];
        for &stress in period.iter().filter(|&&stress| stress > 0.0) {
            let level = ((stress / top * LEVELS as f64) as usize).min(LEVELS - 1);
            sums[level].0 += stress;
            sums[level].1 += 1;
        }
        let share = 1.0 / period.len() as f64;
        let known = sums.iter().filter(|(_, count)| *count > 0);
        let levels = known.map(|&(sum, count)| (sum / f64::from(count), f64::from(count) * share));
        Self { levels: levels.collect() }
    }

    /// Several periods, each with its share of the time.
    pub fn joined<'a>(periods: impl Iterator<Item = (&'a Self, f64)>) -> Self {
        let levels = periods.flat_map(|(period, share)| {
            period.levels.iter().map(move |&(stress, of_period)| (stress, of_period * share))
        });
        Self { levels: levels.collect() }
    }

    /// The highest level; 0 without any tension.
    pub fn greatest(&self) -> f64 {
        self.levels.iter().map(|(stress, _)| *stress).fold(0.0, f64::max)
    }

    /// All levels, stress with share of the time.
    pub fn all(&self) -> &[(f64, f64)] {
        &self.levels
    }
}
