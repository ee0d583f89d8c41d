use super::balance::HeatBalance;
use super::chain::Workspace;
use super::error::HeatError;
use super::gas_film::Film;
use super::transient::StepPace;
use super::wall::Wall;

/// A stretch of time with steady films on both sides; a duty is a row of them.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CrownStep {
    /// How long, s.
    pub seconds: f64,
    /// Gas side, mean over the cycle.
    pub gas: Film,
    /// Crankcase side.
    pub back: Film,
}

/// Watches how far a layer has softened.
#[derive(Debug, Clone, PartialEq)]
pub struct SoftenedDepth {
    layer: usize,
    softening: f64,
    marks: Vec<(f64, Option<f64>)>,
    now: f64,
    deepest: f64,
}

impl SoftenedDepth {
    /// Watches a layer of the wall, from its own upper face, for its softening temperature (K); `marks` are the depths (m)
    /// whose time of softening is wanted.
    pub fn new(layer: usize, softening: f64, marks: &[f64]) -> Result<Self, HeatError> {
        let softening = HeatError::positive("softening temperature", softening)?;
        let marks = marks.iter().map(|&mark| Ok((HeatError::not_negative("depth", mark)?, None)));
        Ok(Self { layer, softening, marks: marks.collect::<Result<_, HeatError>>()?, now: 0.0, deepest: 0.0 })
    }

    /// Depth that is soft now, m.
    pub fn now(&self) -> f64 {
        self.now
    }

    /// Greatest depth that has ever been soft, m: what has sagged does not come back.
    pub fn deepest(&self) -> f64 {
        self.deepest
    }

    /// Each mark with the time (s) at which its depth first softened.
    pub fn marks(&self) -> &[(f64, Option<f64>)] {
        &self.marks
    }

    /// Depth that is at or above softening, linear between points.
    fn measured(&self, depths: &[f64], temperatures: &[f64]) -> f64 {
        let Some(soft) = temperatures.iter().rposition(|&t| t >= self.softening) else { return 0.0 };
        let depth = match temperatures.get(soft + 1) {
            None => depths[soft],
            Some(&below) => {
                let share = (temperatures[soft] - self.softening) / (temperatures[soft] - below);
                depths[soft] + share * (depths[soft + 1] - depths[soft])
            }
        };
        depth - depths[0]
    }

    fn look(&mut self, wall: &Wall, before: &[f64], after: &[f64], (from, to): (f64, f64)) {
        let Some(range) = wall.layer(self.layer) else { return };
        let depths = &wall.depths()[range.clone()];
        for (mark, time) in &mut self.marks {
            let new = at_depth(depths, &after[range.clone()], *mark);
            if time.is_none() && new >= self.softening {
                let old = at_depth(depths, &before[range.clone()], *mark);
                let share = if new > old { ((self.softening - old) / (new - old)).clamp(0.0, 1.0) } else { 0.0 };
                *time = Some(from + share * (to - from));
            }
        }
        self.now = self.measured(depths, &after[range]);
        self.deepest = self.deepest.max(self.now);
    }
}

/// Temperature at a depth below the first point, linear between points; nothing lies below the last.
fn at_depth(depths: &[f64], temperatures: &[f64], depth: f64) -> f64 {
    let Some(&top) = depths.first() else { return f64::NAN };
    let wanted = top + depth;
    let below = depths.partition_point(|&d| d < wanted);
    match below {
        0 => temperatures[0],
        // A layer is as thick as a sum of cells, which rounding may leave short of the thickness.
        _ if below == depths.len() => {
            let last = depths.len() - 1;
            if wanted <= depths[last] * (1.0 + 1e-12) { temperatures[last] } else { f64::NAN }
        }
        _ => {
            let share = (wanted - depths[below - 1]) / (depths[below] - depths[below - 1]);
            temperatures[below - 1] + share * (temperatures[below] - temperatures[below - 1])
        }
    }
}

/// Temperatures through a wall as time passes.
#[derive(Debug, Clone, PartialEq)]
pub struct WallRun {
    /// Temperature at each point, K.
    pub temperatures: Vec<f64>,
    /// Time gone by, s.
    pub seconds: f64,
    /// Heat per square metre since the start; the first end is the gas side.
    pub balance: HeatBalance,
    /// Highest temperature of the gas-side face so far, cycle mean, K.
    pub hottest_face: f64,
    before: Vec<f64>,
    work: Workspace,
}

impl Wall {
    /// A wall at one temperature (K), ready to run.
    pub fn start(&self, temperature: f64) -> Result<WallRun, HeatError> {
        let temperature = HeatError::positive("starting temperature", temperature)?;
        let points = self.depths().len();
        Ok(WallRun {
            temperatures: vec![temperature; points],
            seconds: 0.0,
            balance: HeatBalance::default(),
            hottest_face: temperature,
            before: vec![temperature; points],
            work: Workspace::new(points),
        })
    }

    /// Runs on through one step of the duty; `each` sees the state and the depth that is soft after every time step.
    pub fn run(
        &self,
        run: &mut WallRun,
        step: &CrownStep,
        pace: StepPace,
        watch: &mut SoftenedDepth,
        mut each: impl FnMut(&WallRun, f64),
    ) -> Result<(), HeatError> {
        let around = self.around(step.gas, step.back)?;
        if self.layer(watch.layer).is_none() {
            let (layer, count) = (watch.layer as f64, "index of a layer of the wall");
            return Err(HeatError::OutOfRange { quantity: "watched layer", range: count, value: layer });
        }
        let pace = pace.checked()?;
        let mut left = HeatError::positive("duration", step.seconds)?;
        pace.affordable(left)?;
        let mut last = None;
        while left > 0.0 {
            let seconds = pace.next(last, left);
            run.before.copy_from_slice(&run.temperatures);
            let heat = self
                .chain
                .step(&around, &|_, _| 0.0, &mut run.temperatures, seconds, &mut run.work)
                .map_err(|_| HeatError::Unstable { seconds: run.seconds })?;
            run.balance.add(&heat);
            let from = run.seconds;
            run.seconds += seconds;
            left -= seconds;
            last = Some(seconds);
            run.hottest_face = run.hottest_face.max(run.temperatures[0]);
            watch.look(self, &run.before, &run.temperatures, (from, run.seconds));
            each(run, watch.now);
        }
        Ok(())
    }
}
