use super::balance::HeatBalance;
use super::chain::{Chain, Workspace};
use super::error::HeatError;
use super::fin::{Fin, FinCooling};
use super::steady::hottest;

/// Most time steps in one stretch.
const STEP_LIMIT: usize = 10_000_000;

/// Share of a time step below which it is not cut further.
const SHORTEST: f64 = 1e-6;

/// How a stretch of time is cut into steps.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StepPace {
    /// First step, s.
    pub first: f64,
    /// Each step over the one before: 1 for equal steps.
    pub growth: f64,
    /// Longest step, s.
    pub longest: f64,
}

impl StepPace {
    /// Equal steps.
    pub fn even(step: f64) -> Self {
        Self { first: step, growth: 1.0, longest: step }
    }

    /// Steps that start at a ten-thousandth of the stretch and grow by a tenth up to a two-hundredth: some 250 steps,
    /// within a few thousandths of the exact curve.
    pub fn usual(stretch: f64) -> Self {
        Self { first: stretch * 1e-4, growth: 1.1, longest: stretch / 200.0 }
    }

    /// Some 70 steps for the temperatures at the end alone, within a tenth of a kelvin of [`Self::usual`]: where one rod is
    /// followed at many speeds.
    pub fn brisk(stretch: f64) -> Self {
        Self { first: stretch * 1e-4, growth: 1.25, longest: stretch / 50.0 }
    }

    pub(super) fn checked(self) -> Result<Self, HeatError> {
        HeatError::positive("first time step", self.first)?;
        HeatError::positive("longest time step", self.longest)?;
        if !(self.growth >= 1.0 && self.growth <= 10.0) {
            return Err(HeatError::OutOfRange {
                quantity: "growth of time steps",
                range: "1 to 10",
                value: self.growth,
            });
        }
        Ok(self)
    }

    /// Length of the step after one of the given length, with `left` to go.
    pub(super) fn next(&self, before: Option<f64>, left: f64) -> f64 {
        let wanted = before.map_or(self.first, |step| step * self.growth).min(self.longest);
        // The last two steps share what is left, so that none is a sliver.
        if left <= wanted * (1.0 + 1e-9) {
            left
        } else if left < 2.0 * wanted {
            0.5 * left
        } else {
            wanted
        }
    }

    pub(super) fn affordable(&self, stretch: f64) -> Result<(), HeatError> {
        let count = (stretch / self.longest).max(1.0);
        HeatError::count("time steps", count.min(usize::MAX as f64) as usize, 1, STEP_LIMIT).map(|_| ())
    }
}

/// Temperatures along a rod as time passes.
#[derive(Debug, Clone, PartialEq)]
pub struct FinRun {
    /// Temperature at each station, K.
    pub temperatures: Vec<f64>,
    /// Time gone by, s.
    pub seconds: f64,
    /// Heat since the start.
    pub balance: HeatBalance,
    /// Highest temperature so far and where, K.
    pub peak: (usize, f64),
    /// When any station first reached the limit, s.
    pub limit_reached: Option<f64>,
    before: Vec<f64>,
    work: Workspace,
}

impl FinRun {
    /// Goes back within the last time step to a share of it, where the hottest place has come to a limit.
    fn stop_at(&mut self, share: f64, limit: f64) {
        for (new, old) in self.temperatures.iter_mut().zip(&self.before) {
            *new = old + share * (*new - old);
        }
        // Another place may have been the hottest before.
        if let Some((station, highest)) = hottest(&self.temperatures)
            && highest < limit
        {
            self.temperatures[station] = limit;
        }
    }
}

impl Fin {
    /// A rod at one temperature (K), ready to run.
    pub fn start(&self, temperature: f64) -> Result<FinRun, HeatError> {
        let temperature = HeatError::positive("starting temperature", temperature)?;
        let lumps = self.chain.lumps();
        Ok(FinRun {
            temperatures: vec![temperature; lumps],
            seconds: 0.0,
            balance: HeatBalance::default(),
            peak: (0, temperature),
            limit_reached: None,
            before: vec![temperature; lumps],
            work: Workspace::new(lumps),
        })
    }

    /// Runs on for `seconds` with steady cooling and heat per length (W/m, by station and temperature); a duty is one
    /// call a step. Stops where `limit` (K) is first reached: temperatures are those of that moment, linear within the time
    /// step; returns whether it ran to the end.
    ///
    /// Ends that are held jump to their temperature at once; the heat for that is not counted.
    pub fn run(
        &self,
        run: &mut FinRun,
        cooling: &FinCooling,
        heat_per_length: impl Fn(usize, f64) -> f64,
        seconds: f64,
        pace: StepPace,
        limit: f64,
    ) -> Result<bool, HeatError> {
        let around = self.around(cooling)?;
        let pace = pace.checked()?;
        let mut left = HeatError::positive("duration", seconds)?;
        let limit = HeatError::positive("temperature limit", limit)?;
        pace.affordable(seconds)?;
        let source = self.per_lump(&heat_per_length);
        Chain::hold(&around.ends, &mut run.temperatures);
        let mut before = None;
        while left > 0.0 {
            let paced = pace.next(before, left);
            let highest_before = hottest(&run.temperatures).map_or(0.0, |(_, t)| t);
            run.before.copy_from_slice(&run.temperatures);
            let mut step = paced;
            // Near runaway a long implicit step may have no solution where a short one has.
            let heat = loop {
                match self.chain.step(&around, &source, &mut run.temperatures, step, &mut run.work) {
                    Ok(heat) => break heat,
                    Err(_) if step > paced * SHORTEST => step *= 0.25,
                    Err(_) => return Err(HeatError::Unstable { seconds: run.seconds }),
                }
            };
            run.balance.add(&heat);
            run.seconds += step;
            left -= step;
            before = Some(paced);
            if let Some((station, temperature)) = hottest(&run.temperatures) {
                let crossed = temperature >= limit;
                if crossed {
                    let rise = temperature - highest_before;
                    let share = if rise > 0.0 { ((limit - highest_before) / rise).clamp(0.0, 1.0) } else { 0.0 };
                    let _ = run.limit_reached.get_or_insert(run.seconds - step * (1.0 - share));
                    run.stop_at(share, limit);
                }
                let temperature = if crossed { limit.max(highest_before) } else { temperature };
                if temperature > run.peak.1 {
                    run.peak = (station, temperature);
                }
                if crossed {
                    return Ok(false);
                }
            }
        }
        Ok(true)
    }
}
