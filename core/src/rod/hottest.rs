use super::assess::joined;
use super::assessment::Assessment;
use super::pressed::EyeState;
use super::setting::Setting;
use super::stressing::Stressing;
use super::temperatures::Temperatures;
use crate::job::Scenario;
use crate::numeric::halved_surely;

/// Room temperature (ISO 291), K: no running part is asked to be colder.
const ROOM: f64 = crate::units::ROOM_K;

/// How finely the temperature is found, K.
const SHARPNESS: f64 = 0.1;

/// The highest temperature of the whole rod at which it reaches the wanted life at the duty, K; `None` where it would have to
/// be below room temperature or below the coldest of its surroundings, which no running rod is. Pieces that governed at the
/// duty are looked at.
pub fn highest_temperature(stressing: &Stressing<'_>, scenario: &Scenario, assessment: &Assessment) -> Option<f64> {
    let pieces = assessment.governing_pieces();
    let holds = |kelvin: f64| {
        let temperatures = Temperatures::uniform(stressing.model, kelvin);
        let states = EyeState::both(stressing.model, scenario, &scenario.card, &temperatures);
        let warm = stressing.with_eyes(states);
        joined(&Setting::new(&warm, scenario, &scenario.card, &temperatures), &pieces).strength.holds()
    };
    let around = &scenario.surroundings;
    let coldest = around.air.min(around.piston_pin).min(around.crank_pin);
    let (low, high) = (coldest.max(ROOM), scenario.card.softening());
    if low >= high || !holds(low) {
        return None;
    }
    Some(halved_surely((low, high), |good, bad| bad - good <= SHARPNESS, holds).0)
}
