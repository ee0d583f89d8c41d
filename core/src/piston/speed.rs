use super::assess::{PistonAssessment, PistonCase, assess_piston};
use super::warm::WarmPiston;
use crate::heat::HeatError;
use crate::material::Card;
use crate::verdict::{SpeedLimit, walked};

/// The same piston at a factor on all speeds and with another card; `None` where a plate cannot be made of it.
pub(crate) fn at(case: &PistonCase<'_>, card: &Card, factor: f64) -> Result<Option<PistonAssessment>, HeatError> {
    let warm = WarmPiston::new(case.model, case.loading, case.scenario, case.piston, card, factor)?;
    Ok(assess_piston(&PistonCase { warm: &warm, factor, ..*case }, card).ok())
}

/// How fast the engine may turn for the wanted life.
pub fn piston_speed(case: &PistonCase<'_>) -> Result<SpeedLimit, HeatError> {
    walked(|factor| Ok(at(case, &case.scenario.card, factor)?.map_or(0.0, |all| all.strength.margin())))
}
