use super::assess::{all_pieces, joined};
use super::assessment::Assessment;
use super::piece::Piece;
use super::pressed::EyeState;
use super::setting::Setting;
use super::stressing::Stressing;
use super::warm::{WarmRod, Warmed};
use crate::heat::HeatError;
use crate::job::Scenario;
use crate::verdict::{SHARPNESS, SpeedLimit, walked};

/// Finds the highest speed for the wanted life.
///
/// Margins need not fall steadily with speed, because inertia relieves the gas force at low speed; so the range is
/// walked upward and a limit is reported only where every speed below it holds too. The walk looks at the pieces that
/// governed at the duty; what is found is confirmed on all pieces, and a piece that was missed joins the walk.
pub fn highest_speed(
    stressing: &Stressing<'_>,
    scenario: &Scenario,
    rod: &WarmRod<'_>,
    assessment: &Assessment,
) -> Result<SpeedLimit, HeatError> {
    let every = all_pieces(stressing.model);
    let mut watched: Vec<Piece> = assessment.pieces.clone();
    let at = |factor: f64, pieces: &[Piece]| joined_at(stressing, scenario, rod, factor, pieces);
    loop {
        watched.sort_unstable();
        watched.dedup();
        let found = walked(|factor| Ok(at(factor, &watched)?.map_or(0.0, |all| all.strength.margin())))?;
        let before = watched.len();
        for factor in found.ends() {
            // Where it heats itself without limit no piece can be missed.
            if let Some(whole) = at(factor, &every)?
                && whole.strength.margin() < 1.0 - SHARPNESS
            {
                watched.extend(whole.pieces);
            }
        }
        watched.sort_unstable();
        watched.dedup();
        if watched.len() == before {
            return Ok(found);
        }
    }
}

/// Some pieces at a factor on all speeds; `None` where the rod heats itself without limit.
fn joined_at(
    stressing: &Stressing<'_>,
    scenario: &Scenario,
    rod: &WarmRod<'_>,
    factor: f64,
    pieces: &[Piece],
) -> Result<Option<Assessment>, HeatError> {
    let Warmed { temperatures, settles } = rod.at(factor)?;
    if !settles {
        return Ok(None);
    }
    let faster = stressing.at_speed(factor, EyeState::both(stressing.model, scenario, &scenario.card, &temperatures));
    let setting = Setting::new(&faster, scenario, &scenario.card, &temperatures);
    Ok(Some(joined(&setting, pieces)))
}
