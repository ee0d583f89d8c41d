use super::assess::{Loading, Piece, Setting, all_pieces, joined};
use super::model::RodModel;
use crate::job::Scenario;
use crate::material::MaterialState;

/// How fast the engine may turn for the wanted life, as a factor on all speeds of the duty.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum SpeedLimit {
    /// Every speed up to this factor holds; just above it one part in ten fails within the wanted life.
    UpTo(f64),
    /// Not even this lowest factor tried holds: gas pressure, heat or softening is too much at any speed.
    NotEven(f64),
    /// The highest factor tried holds.
    Beyond(f64),
}

const LOWEST: f64 = 0.1;
const HIGHEST: f64 = 4.0;

/// Ratio of neighbouring factors on the way up.
const STRIDE: f64 = 1.12;

/// Relative width at which halving stops.
const SHARPNESS: f64 = 1e-4;

/// Finds the highest speed for the wanted life.
///
/// Margins need not fall steadily with speed, because inertia relieves the gas force at low speed; so the range is
/// walked upward and a limit is reported only where every speed below it holds too. The walk looks at the pieces that
/// governed at both ends of the range and at the duty itself; what is found is confirmed on all pieces, and a piece that
/// was missed joins the walk.
pub fn highest_speed(model: &RodModel, loading: &Loading, scenario: &Scenario, material: MaterialState) -> SpeedLimit {
    let at = |factor: f64| Setting::new(model, loading, scenario, material, factor);
    let every = all_pieces(model);
    let mut watched: Vec<Piece> = Vec::new();
    for factor in [LOWEST, 1.0, HIGHEST] {
        watched.extend(joined(&at(factor), &every).1);
    }
    loop {
        watched.sort_unstable();
        watched.dedup();
        let holds = |factor: f64| joined(&at(factor), &watched).0.governing().margin >= 1.0;
        let found = walked(holds);
        let (SpeedLimit::UpTo(factor) | SpeedLimit::NotEven(factor) | SpeedLimit::Beyond(factor)) = found;
        if matches!(found, SpeedLimit::NotEven(_)) {
            return found;
        }
        let (whole, pieces) = joined(&at(factor), &every);
        if whole.governing().margin >= 1.0 - SHARPNESS {
            return found;
        }
        let before = watched.len();
        watched.extend(pieces);
        watched.sort_unstable();
        watched.dedup();
        if watched.len() == before {
            return found;
        }
    }
}

fn walked(holds: impl Fn(f64) -> bool) -> SpeedLimit {
    if !holds(LOWEST) {
        return SpeedLimit::NotEven(LOWEST);
    }
    let mut good = LOWEST;
    loop {
        if good >= HIGHEST {
            return SpeedLimit::Beyond(HIGHEST);
        }
        let next = (good * STRIDE).min(HIGHEST);
        if !holds(next) {
            return SpeedLimit::UpTo(halved(good, next, holds));
        }
        good = next;
    }
}

fn halved(mut good: f64, mut bad: f64, holds: impl Fn(f64) -> bool) -> f64 {
    while bad - good > SHARPNESS * good {
        let middle = f64::midpoint(good, bad);
        if holds(middle) {
            good = middle;
        } else {
            bad = middle;
        }
    }
    good
}
