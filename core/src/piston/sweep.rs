use super::assess::assess_piston;
use super::loaded::LoadedPiston;
use super::prepared::PreparedPiston;
use super::warm::WarmPiston;
use crate::Error;
use crate::kind::SpeedRange;
use crate::numeric::map_in_order;
use crate::report::SweepPoint;
use crate::units::ZERO_C;

/// What many speeds do to a piston that is loaded already.
pub(crate) fn swept(loaded: &LoadedPiston, range: &SpeedRange) -> Result<Vec<SweepPoint>, Error> {
    let LoadedPiston { prepared, model, loading, .. } = loaded;
    let PreparedPiston { scenario, given, .. } = prepared;
    let duty_rpm = scenario.duty.highest_rpm();
    let points = map_in_order(range.count(), |number| {
        let rpm = range.at(number);
        let factor = rpm / duty_rpm;
        let warm = WarmPiston::new(model, loading, scenario, given, &scenario.card, factor)?;
        let case = prepared.case(model, loading, &warm, factor);
        let assessment = assess_piston(&case, &scenario.card)?;
        // The duty itself has the field's own places and numbers; other speeds have the model raised to them.
        let assessment = if factor == 1.0 { loaded.told(assessment) } else { assessment };
        let governing = assessment.strength.governing();
        Ok(SweepPoint {
            rpm,
            life_b10_s: assessment.life_at(0.1),
            life_b50_s: assessment.life_at(0.5),
            peak_temperature_c: Some(assessment.hottest - ZERO_C),
            margin: assessment.strength.margin(),
            governing_mode: governing.mode,
            governing_place: governing.place.to_string(),
        })
    });
    points.into_iter().collect()
}
