use super::assess::joined;
use super::pressed::EyeState;
use super::setting::Setting;
use super::stressing::Stressing;
use super::summary::Assessment;
use super::temperatures::Temperatures;
use crate::job::Scenario;

/// Coldest temperature that is looked at, K.
const COLDEST: f64 = 233.15;

/// How finely the temperature is found, K.
const SHARPNESS: f64 = 0.1;

/// The highest temperature of the whole rod at which it reaches the wanted life at the duty, K; `None` where not even the
/// cold rod does. Pieces that governed at the duty are looked at.
pub fn highest_temperature(stressing: &Stressing<'_>, scenario: &Scenario, assessment: &Assessment) -> Option<f64> {
    let pieces = assessment.governing_pieces();
    let holds = |kelvin: f64| {
        let temperatures = Temperatures::uniform(stressing.model, kelvin);
        let states = EyeState::both(stressing.model, scenario, &scenario.card, &temperatures);
        let warm = stressing.with_eyes(states);
        joined(&Setting::new(&warm, scenario, &scenario.card, &temperatures), &pieces).strength.holds()
    };
    let (mut low, mut high) = (COLDEST, scenario.card.softening());
    if !holds(low) {
        return None;
    }
    while high - low > SHARPNESS {
        let middle = f64::midpoint(low, high);
        if holds(middle) {
            low = middle;
        } else {
            high = middle;
        }
    }
    Some(low)
}
