use crate::heat::HeatError;
use crate::numeric::falls_through_one;

/// How fast the engine may turn for the wanted life, as a factor on all speeds of the duty.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum SpeedLimit {
    /// Every speed up to this factor holds; just above it one part in ten fails within the wanted life.
    UpTo(f64),
    /// Every speed between these factors holds, the duty's own among them; slower the gas force is relieved less by
    /// inertia, and something gives way.
    Between(f64, f64),
    /// Not even this lowest factor tried holds: gas pressure, heat or softening is too much at any speed.
    NotEven(f64),
    /// The highest factor tried holds.
    Beyond(f64),
}

impl SpeedLimit {
    /// The lower of this limit and a factor at which something else gives way.
    #[must_use]
    pub fn below(self, factor: Option<f64>) -> Self {
        match (self, factor) {
            (Self::UpTo(own) | Self::Beyond(own), Some(other)) if other < own => {
                if other > LOWEST {
                    Self::UpTo(other)
                } else {
                    Self::NotEven(LOWEST)
                }
            }
            (Self::Between(low, high), Some(other)) if other < high => {
                if other > low {
                    Self::Between(low, other)
                } else {
                    Self::NotEven(LOWEST)
                }
            }
            _ => self,
        }
    }

    /// The factors found at which it holds: those to confirm.
    pub(crate) fn ends(self) -> Vec<f64> {
        match self {
            Self::UpTo(factor) | Self::Beyond(factor) => vec![factor],
            Self::Between(low, high) => vec![low, high],
            Self::NotEven(_) => Vec::new(),
        }
    }
}

const LOWEST: f64 = 0.1;
const HIGHEST: f64 = 4.0;

/// Ratio of neighbouring factors on the way up.
const STRIDE: f64 = 1.3;

/// Relative width at which the search stops.
pub(crate) const SHARPNESS: f64 = 1e-4;

/// The range of factors on speed round 1 over which a margin stays at least 1.
pub(crate) fn walked(margin: impl Fn(f64) -> Result<f64, HeatError>) -> Result<SpeedLimit, HeatError> {
    let lowest = (LOWEST, margin(LOWEST)?);
    if lowest.1 >= 1.0 {
        return upward(lowest, None, margin);
    }
    // Slow running fails; the duty's own speed may still hold, and a range round it.
    let duty = (1.0, margin(1.0)?);
    if duty.1 < 1.0 {
        return Ok(SpeedLimit::NotEven(LOWEST));
    }
    let mut good = duty;
    while good.0 > LOWEST {
        let factor = (good.0 / STRIDE).max(LOWEST);
        let next = (factor, margin(factor)?);
        if next.1 < 1.0 {
            let low = falls_through_one(good, next, SHARPNESS, &margin)?;
            return upward(duty, Some(low), margin);
        }
        good = next;
    }
    upward(duty, None, margin)
}

/// Walks up from a factor that holds; `low` is where a range that does not begin at rest begins.
fn upward(
    mut good: (f64, f64),
    low: Option<f64>,
    margin: impl Fn(f64) -> Result<f64, HeatError>,
) -> Result<SpeedLimit, HeatError> {
    let limit = |high: f64| low.map_or(SpeedLimit::UpTo(high), |low| SpeedLimit::Between(low, high));
    while good.0 < HIGHEST {
        let factor = (good.0 * STRIDE).min(HIGHEST);
        let next = (factor, margin(factor)?);
        if next.1 < 1.0 {
            return Ok(limit(falls_through_one(good, next, SHARPNESS, &margin)?));
        }
        good = next;
    }
    Ok(low.map_or(SpeedLimit::Beyond(HIGHEST), |low| SpeedLimit::Between(low, HIGHEST)))
}
