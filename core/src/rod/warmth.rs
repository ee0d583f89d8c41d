use super::place::{RodMargin, RodPlace};
use super::warm::WarmRod;
use crate::heat::{HeatError, SteadyHeat, onset};
use crate::numeric::both;
use crate::verdict::{Mode, ModeMargin};

/// Relative width to which runaway is found; loss factors are not known to a per cent.
const SHARPNESS: f64 = 2e-3;

/// Greatest factor on stress and on speed that is looked at.
const FARTHEST: f64 = 8.0;

/// What the loads themselves do to the temperature of the shank in the long run.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Warmth {
    /// Highest temperature of the shank, K, with its place along the rod, m; `None` where it runs away.
    pub peak: Option<(f64, f64)>,
    /// Factor on all stress at which the shank runs away: its own heat grows faster than it can leave.
    pub stress_to_runaway: f64,
    /// Factor on all speeds of the duty at which it runs away; `None` if not within reach.
    pub speed_to_runaway: Option<f64>,
}

impl Warmth {
    /// Self-heating as a mode among the others.
    pub fn margin(&self) -> RodMargin {
        ModeMargin::at_once(Mode::SelfHeating, RodPlace::Shank, self.stress_to_runaway)
    }
}

/// Whether self-heating leaves more room than `margin`: one steady state instead of the search for where it begins, for
/// those who only ask whether it governs. All speeds of the duty are times `speed`.
pub fn settles_beyond(rod: &WarmRod<'_>, speed: f64, margin: f64) -> Result<bool, HeatError> {
    // A little farther, so that the width to which the search ends does not matter.
    let factor = margin.max(1.0) * (1.0 + SHARPNESS);
    Ok(factor < FARTHEST && rod.steady(speed, factor)?.settles())
}

/// Self-heating as a mode at `speed` times the speeds of the duty, without what else [`warmth`] finds out.
pub fn self_heating(rod: &WarmRod<'_>, speed: f64) -> Result<RodMargin, HeatError> {
    let stress = if matches!(rod.steady(speed, 1.0)?, SteadyHeat::Surroundings { .. }) {
        None
    } else {
        reached(|factor| rod.steady(speed, factor))?
    };
    Ok(ModeMargin::at_once(Mode::SelfHeating, RodPlace::Shank, stress.unwrap_or(FARTHEST)))
}

/// Steady temperature of the shank at the duty, averaged over its steps, and where it runs away.
pub fn warmth(rod: &WarmRod<'_>) -> Result<Warmth, HeatError> {
    let state = rod.steady(1.0, 1.0)?;
    let peak = state.peak().map(|(station, kelvin)| (kelvin, rod.positions()[station]));
    if let SteadyHeat::Surroundings { station, temperatures } = &state {
        let peak = Some((temperatures[*station], rod.positions()[*station]));
        // Too hot before any load: softening is the word for that.
        return Ok(Warmth { peak, stress_to_runaway: FARTHEST, speed_to_runaway: None });
    }
    let (stress, speed) =
        both(|| reached(|factor| rod.steady(1.0, factor)), || reached(|factor| rod.steady(factor, 1.0)));
    Ok(Warmth { peak, stress_to_runaway: stress?.unwrap_or(FARTHEST), speed_to_runaway: speed? })
}

/// Least factor at which the rod no longer settles, looked for upward or downward from 1 before it is narrowed.
fn reached(steady: impl Fn(f64) -> Result<SteadyHeat, HeatError>) -> Result<Option<f64>, HeatError> {
    let settles = |factor: f64| steady(factor).map(|state| state.settles());
    let (mut low, mut high) = (1.0, 1.0);
    if settles(1.0)? {
        while settles(high)? {
            if high >= FARTHEST {
                return Ok(None);
            }
            (low, high) = (high, (2.0 * high).min(FARTHEST));
        }
    } else {
        while low > 1.0 / FARTHEST && !settles(low)? {
            (low, high) = (0.5 * low, low);
        }
    }
    onset(low, high, SHARPNESS, settles)
}
