use super::assess::assess_at;
use super::place::RodPlace;
use super::warmed::WarmedRod;
use super::warmth::{self_heating, settles_beyond};
use crate::Error;
use crate::kind::SpeedRange;
use crate::numeric::map_in_order;
use crate::report::SweepPoint;
use crate::units::ZERO_C;
use crate::verdict::Mode;

/// What many speeds do to a rod that is stressed already.
pub(crate) fn swept(rod: &WarmedRod<'_>, range: &SpeedRange) -> Result<Vec<SweepPoint>, Error> {
    let WarmedRod { loaded, warm: warm_rod, stressing, .. } = rod;
    let scenario = &loaded.prepared.scenario;
    let duty_rpm = scenario.duty.highest_rpm();
    let points = map_in_order(range.count(), |number| {
        let rpm = range.at(number);
        let factor = rpm / duty_rpm;
        let warmed = warm_rod.at(factor)?;
        if !warmed.settles {
            return Ok(SweepPoint {
                rpm,
                life_b10_s: 0.0,
                life_b50_s: 0.0,
                peak_temperature_c: None,
                margin: 0.0,
                governing_mode: Mode::SelfHeating,
                governing_place: RodPlace::Shank.to_string(),
            });
        }
        // The duty itself has the field's own places and numbers; other speeds have the model raised to them.
        let mut assessment =
            if factor == 1.0 { rod.at_duty() } else { assess_at(stressing, scenario, factor, &warmed.temperatures) };
        if !settles_beyond(warm_rod, factor, assessment.governing().margin)? {
            assessment.add(self_heating(warm_rod, factor)?);
        }
        let strength = assessment.strength;
        let governing = strength.governing();
        Ok(SweepPoint {
            rpm,
            life_b10_s: strength.life_at(0.1),
            life_b50_s: strength.life_at(0.5),
            peak_temperature_c: Some(warmed.temperatures.peak() - ZERO_C),
            margin: strength.margin(),
            governing_mode: governing.mode,
            governing_place: governing.place.to_string(),
        })
    });
    points.into_iter().collect()
}
