//! Lumps of heat in a row: finite volumes of one-dimensional conduction, and how they step through time.

use super::balance::HeatBalance;
use super::error::HeatError;

/// Newton's corrections are followed until none exceeds this, K; about ten digits below the temperature itself.
const SHARPNESS: f64 = 1e-9;

/// Corrections after which a step is given up. Newton needs three to six on smooth sources.
const CORRECTIONS: usize = 40;

/// Share of the step at which the first stage of the two-stage method stands, 1 - 1/sqrt 2.
const STAGE: f64 = 1.0 - core::f64::consts::FRAC_1_SQRT_2;

/// What the end of a part touches.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum ChainEnd {
    /// Nothing: no heat passes.
    Insulated,
    /// Something that holds it at a temperature, K.
    Held(f64),
    /// Something at a temperature, through a conductance.
    Contact {
        /// Heat per kelvin of difference, W/K.
        conductance: f64,
        /// Temperature of what it touches, K.
        temperature: f64,
    },
}

impl ChainEnd {
    pub(super) fn checked(self) -> Result<Self, HeatError> {
        match self {
            Self::Insulated => {}
            Self::Held(temperature) => {
                HeatError::positive("temperature of an end", temperature)?;
            }
            Self::Contact { conductance, temperature } => {
                HeatError::not_negative("conductance of an end", conductance)?;
                HeatError::positive("temperature of an end", temperature)?;
            }
        }
        Ok(self)
    }

    fn contact(self) -> (f64, f64) {
        match self {
            Self::Contact { conductance, temperature } => (conductance, temperature),
            Self::Insulated | Self::Held(_) => (0.0, 0.0),
        }
    }
}

/// Capacities of lumps and conductances between neighbours.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Chain {
    /// Heat capacity of each lump, J/K.
    pub(super) capacity: Vec<f64>,
    /// Conductance from each lump to the next, W/K.
    pub(super) link: Vec<f64>,
}

/// What surrounds the lumps.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Around {
    /// Conductance from each lump through its side, W/K.
    pub(super) side: Vec<f64>,
    /// Temperature beside them, K.
    pub(super) side_temperature: f64,
    /// First and last end.
    pub(super) ends: [ChainEnd; 2],
}

/// Room for one step, kept from step to step.
#[derive(Debug, Clone)]
pub(super) struct Workspace {
    base: Vec<f64>,
    stage: Vec<f64>,
    next: Vec<f64>,
    flow: Vec<f64>,
    diagonal: Vec<f64>,
    right: Vec<f64>,
}

impl Workspace {
    pub(super) fn new(lumps: usize) -> Self {
        let room = || vec![0.0; lumps];
        Self { base: room(), stage: room(), next: room(), flow: room(), diagonal: room(), right: room() }
    }
}

impl PartialEq for Workspace {
    /// Scratch space says nothing about a state.
    fn eq(&self, _: &Self) -> bool {
        true
    }
}

/// One stage found no solution.
pub(super) struct NoSolution;

impl Chain {
    pub(super) fn lumps(&self) -> usize {
        self.capacity.len()
    }

    /// Sets held ends to their temperature.
    pub(super) fn hold(ends: &[ChainEnd; 2], temperatures: &mut [f64]) {
        if let (ChainEnd::Held(held), Some(first)) = (ends[0], temperatures.first_mut()) {
            *first = held;
        }
        if let (ChainEnd::Held(held), Some(last)) = (ends[1], temperatures.last_mut()) {
            *last = held;
        }
    }

    fn held(&self, around: &Around, lump: usize) -> bool {
        (lump == 0 && matches!(around.ends[0], ChainEnd::Held(_)))
            || (lump + 1 == self.lumps() && matches!(around.ends[1], ChainEnd::Held(_)))
    }

    /// Heat into a lump, W, and how much less it gets for every kelvin of its own.
    fn heat_into(&self, around: &Around, source: &impl Fn(usize, f64) -> f64, at: &[f64], lump: usize) -> (f64, f64) {
        let here = at[lump];
        let made = source(lump, here);
        // Steep curves are straight over a hundredth of a kelvin, and that keeps six digits of the slope.
        let slope = (source(lump, here + 0.01) - made) / 0.01;
        let side = around.side[lump];
        let (mut flow, mut loss) = (made + side * (around.side_temperature - here), side - slope);
        if lump > 0 {
            let link = self.link[lump - 1];
            flow += link * (at[lump - 1] - here);
            loss += link;
        } else {
            let (contact, temperature) = around.ends[0].contact();
            flow += contact * (temperature - here);
            loss += contact;
        }
        if lump + 1 < self.lumps() {
            let link = self.link[lump];
            flow += link * (at[lump + 1] - here);
            loss += link;
        } else {
            let (contact, temperature) = around.ends[1].contact();
            flow += contact * (temperature - here);
            loss += contact;
        }
        (flow, loss)
    }

    /// Solves capacity (T - base) = seconds x heat into the lumps at T, starting from and ending in `at`.
    fn implicit(
        &self,
        around: &Around,
        source: &impl Fn(usize, f64) -> f64,
        base: &[f64],
        seconds: f64,
        at: &mut [f64],
        (diagonal, right): (&mut [f64], &mut [f64]),
    ) -> Result<(), NoSolution> {
        let lumps = self.lumps();
        for _ in 0..CORRECTIONS {
            // Thomas's elimination of the three-banded system, downward ...
            for lump in 0..lumps {
                let (mut main, mut wanted, mut above) = (1.0, 0.0, 0.0);
                if !self.held(around, lump) {
                    let (flow, loss) = self.heat_into(around, source, at, lump);
                    let rate = self.capacity[lump] / seconds;
                    main = rate + loss;
                    wanted = flow - rate * (at[lump] - base[lump]);
                    above = if lump > 0 { -self.link[lump - 1] } else { 0.0 };
                }
                if lump > 0 {
                    // A held lump passes nothing on to its neighbour's correction.
                    let below = if self.held(around, lump - 1) { 0.0 } else { -self.link[lump - 1] };
                    let share = above / diagonal[lump - 1];
                    main -= share * below;
                    wanted -= share * right[lump - 1];
                }
                if main.is_nan() || main <= 0.0 {
                    return Err(NoSolution);
                }
                diagonal[lump] = main;
                right[lump] = wanted;
            }
            // ... and back up.
            let mut largest = 0.0_f64;
            let mut later = 0.0;
            for lump in (0..lumps).rev() {
                let below = if lump + 1 == lumps || self.held(around, lump) { 0.0 } else { -self.link[lump] };
                later = (right[lump] - below * later) / diagonal[lump];
                at[lump] += later;
                largest = largest.max(later.abs());
            }
            if !largest.is_finite() {
                return Err(NoSolution);
            }
            if largest < SHARPNESS {
                return Ok(());
            }
        }
        Err(NoSolution)
    }

    /// One step of the two-stage implicit method of second order that damps every fast mode (Alexander 1977, SIAM J.
    /// Numer. Anal. 14, 1006). Heat is kept to the tolerance of the solver whatever the step.
    pub(super) fn step(
        &self,
        around: &Around,
        source: &impl Fn(usize, f64) -> f64,
        at: &mut [f64],
        seconds: f64,
        work: &mut Workspace,
    ) -> Result<HeatBalance, NoSolution> {
        let Workspace { base, stage, next, flow, diagonal, right } = work;
        stage.copy_from_slice(at);
        self.implicit(around, source, at, STAGE * seconds, stage, (diagonal, right))?;
        for lump in 0..self.lumps() {
            flow[lump] = if self.held(around, lump) { 0.0 } else { self.heat_into(around, source, stage, lump).0 };
            base[lump] = at[lump] + (1.0 - STAGE) * seconds * flow[lump] / self.capacity[lump];
        }
        next.copy_from_slice(stage);
        self.implicit(around, source, base, STAGE * seconds, next, (diagonal, right))?;
        let mut balance = self.flows(around, source, stage, (1.0 - STAGE) * seconds);
        balance.add(&self.flows(around, source, next, STAGE * seconds));
        for ((capacity, new), old) in self.capacity.iter().zip(next.iter()).zip(at.iter_mut()) {
            balance.stored += capacity * (new - *old);
            *old = *new;
        }
        Ok(balance)
    }

    /// One step of Euler's implicit method, the surest on the way to a steady state.
    pub(super) fn plain_step(
        &self,
        around: &Around,
        source: &impl Fn(usize, f64) -> f64,
        at: &mut [f64],
        seconds: f64,
        work: &mut Workspace,
    ) -> Result<f64, NoSolution> {
        let Workspace { next, diagonal, right, .. } = work;
        next.copy_from_slice(at);
        self.implicit(around, source, at, seconds, next, (diagonal, right))?;
        let mut largest = 0.0_f64;
        for (new, old) in next.iter().zip(at.iter_mut()) {
            largest = largest.max((new - *old).abs());
            *old = *new;
        }
        Ok(largest)
    }

    /// Heat made and passed on at fixed temperatures over some time, J; nothing is stored.
    pub(super) fn flows(
        &self,
        around: &Around,
        source: &impl Fn(usize, f64) -> f64,
        at: &[f64],
        seconds: f64,
    ) -> HeatBalance {
        let mut flows = HeatBalance::default();
        for (lump, &here) in at.iter().enumerate() {
            flows.generated += source(lump, here) * seconds;
            flows.through_sides += around.side[lump] * (here - around.side_temperature) * seconds;
        }
        for (end, lump) in [(0, 0), (1, self.lumps() - 1)] {
            let (contact, temperature) = around.ends[end].contact();
            flows.through_ends[end] = if self.held(around, lump) {
                // What reaches a held lump leaves it again.
                self.heat_into(around, source, at, lump).0 * seconds
            } else {
                contact * (at[lump] - temperature) * seconds
            };
        }
        flows
    }
}
