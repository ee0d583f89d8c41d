use super::balance::HeatBalance;
use super::chain::{Chain, ChainEnd, Workspace};
use super::error::HeatError;
use super::fin::{Fin, FinCooling};

/// Most that any station may warm in one step on the way to the steady state, K.
const STRIDE: f64 = 3.0;

/// Share of all heat that may still be stored when the state counts as steady.
const REST: f64 = 1e-8;

/// Steps after which the way to the steady state is given up; some tens are usual, a few hundred at the brink.
const STEP_LIMIT: usize = 20_000;

/// What becomes of a rod that runs for ever.
#[derive(Debug, Clone, PartialEq)]
pub enum SteadyHeat {
    /// It settles below the limit.
    Settled {
        /// Temperature at each station, K.
        temperatures: Vec<f64>,
        /// Heat flows a second; nothing is stored.
        flows: HeatBalance,
    },
    /// Self-heating runaway: heat grows with temperature faster than it can leave, and the limit is passed. Without its
    /// own heat the rod would stay below the limit.
    Runaway {
        /// Station that passes the limit first.
        station: usize,
        /// Temperature at each station as it does, K.
        temperatures: Vec<f64>,
    },
    /// The surroundings alone are hotter than the limit somewhere.
    Surroundings {
        /// Station that is hottest.
        station: usize,
        /// Temperature at each station without the rod's own heat, K.
        temperatures: Vec<f64>,
    },
}

impl SteadyHeat {
    /// The highest temperature of a settled rod with its station.
    pub fn peak(&self) -> Option<(usize, f64)> {
        match self {
            Self::Settled { temperatures, .. } => hottest(temperatures),
            Self::Runaway { .. } | Self::Surroundings { .. } => None,
        }
    }

    /// Temperature at each station, K: of the settled rod, or where it was given up.
    pub fn temperatures(&self) -> &[f64] {
        match self {
            Self::Settled { temperatures, .. }
            | Self::Runaway { temperatures, .. }
            | Self::Surroundings { temperatures, .. } => temperatures,
        }
    }

    /// Whether it settles.
    pub fn settles(&self) -> bool {
        matches!(self, Self::Settled { .. })
    }
}

impl Fin {
    /// The steady state that a rod reaches from the temperature of its surroundings, all below `limit` (K).
    ///
    /// `heat_per_length` (W/m) takes a station and its temperature. Where heat grows with temperature there may be
    /// several steady states; the path of a cold start is followed with implicit steps that grow from seconds to for
    /// ever, so the lowest stable one is found, or the limit is passed.
    pub fn steady(
        &self,
        cooling: &FinCooling,
        heat_per_length: impl Fn(usize, f64) -> f64,
        limit: f64,
    ) -> Result<SteadyHeat, HeatError> {
        let around = self.around(cooling)?;
        let limit = HeatError::positive("temperature limit", limit)?;
        let cools = around.side.iter().any(|side| *side > 0.0) || around.ends.iter().any(|end| leaks(*end));
        if !cools {
            return Err(HeatError::NoWayOut);
        }
        let lumps = self.chain.lumps();
        let mut work = Workspace::new(lumps);
        let mut at = vec![cooling.air_temperature; lumps];
        Chain::hold(&around.ends, &mut at);
        // Without own heat the balance is linear: one step of endless length is the answer.
        let forever = 1e12 * self.chain.capacity.iter().sum::<f64>() / self.chain.link.iter().sum::<f64>();
        let unstable = |_| HeatError::Unstable { seconds: f64::INFINITY };
        self.chain.plain_step(&around, &|_, _| 0.0, &mut at, forever, &mut work).map_err(unstable)?;
        if let Some((station, temperature)) = hottest(&at)
            && temperature >= limit
        {
            return Ok(SteadyHeat::Surroundings { station, temperatures: at });
        }
        let source = self.per_lump(&heat_per_length);
        let mut step = self.chain.capacity.iter().sum::<f64>() / self.chain.link.iter().sum::<f64>() * 1e-3;
        let mut before = at.clone();
        for _ in 0..STEP_LIMIT {
            before.copy_from_slice(&at);
            let warmed = self.chain.plain_step(&around, &source, &mut at, step, &mut work);
            match warmed {
                Ok(warmed) if warmed <= STRIDE => {
                    if let Some((station, temperature)) = hottest(&at)
                        && temperature >= limit
                    {
                        return Ok(SteadyHeat::Runaway { station, temperatures: at });
                    }
                    let flows = self.chain.flows(&around, &source, &at, 1.0);
                    let at_rest = step >= forever && warmed < REST;
                    if at_rest || flows.imbalance().abs() < REST {
                        return Ok(SteadyHeat::Settled { temperatures: at, flows });
                    }
                    // The less a step warmed, the longer the next may be.
                    step = (step * (0.5 * STRIDE / warmed.max(1e-9)).clamp(1.2, 16.0)).min(forever);
                }
                _ => {
                    at.copy_from_slice(&before);
                    step *= 0.25;
                    if step <= 0.0 {
                        break;
                    }
                }
            }
        }
        Err(HeatError::Unstable { seconds: f64::INFINITY })
    }
}

fn leaks(end: ChainEnd) -> bool {
    match end {
        ChainEnd::Insulated => false,
        ChainEnd::Held(_) => true,
        ChainEnd::Contact { conductance, .. } => conductance > 0.0,
    }
}

pub(super) fn hottest(temperatures: &[f64]) -> Option<(usize, f64)> {
    temperatures.iter().copied().enumerate().max_by(|a, b| a.1.total_cmp(&b.1).then(b.0.cmp(&a.0)))
}
