//! One place under load that repeats and load that lasts: rates, bounds and the factor to fail against their laws.

use layload_core::life::{KineticStrength, Lasting, LifeError, Link, LogNormalLife, Odds, TensionLevels};
use libm::{exp, hypot, log, pow, sin};
use proptest::prelude::*;

use super::Tested;

/// Of the order of a filled nylon (invented); stress in parts of the strength.
fn lasting(top: f64) -> Result<Lasting, LifeError> {
    let law = KineticStrength::through(1e-13, 188e3, 1.0, 100.0, 353.15)?.exponents(353.15)?;
    let history: Vec<f64> = (0..90).map(|k| top * (0.6 + 0.4 * sin(f64::from(k) * 0.07))).collect();
    Ok(Lasting::new(law, &TensionLevels::of(&history), 1.0))
}

fn fail(error: impl std::fmt::Display) -> TestCaseError {
    TestCaseError::fail(error.to_string())
}

#[derive(Debug, Clone, Copy)]
struct Place {
    rate: f64,
    exponent: f64,
    life_scatter: f64,
    top: f64,
    odds: Odds,
}

impl Place {
    fn link(&self) -> Result<Link, TestCaseError> {
        Ok(Link::new(self.rate, self.exponent, self.life_scatter, lasting(self.top).map_err(fail)?))
    }

    /// Damage by each load, written out: scatter of life and of strength, the latter by the steepness of each law.
    fn written_out(&self, factor: f64) -> Result<[f64; 2], TestCaseError> {
        let wider = |steepness: f64| {
            pow(10.0, self.odds.deviations * hypot(self.life_scatter, steepness * self.odds.strength_scatter))
        };
        let fatigue = self.rate * pow(factor, self.exponent) * wider(self.exponent);
        let (ln_rate, slope) = lasting(self.top).map_err(fail)?.ln_rate(factor);
        Ok([fatigue, exp(ln_rate) * wider(slope * factor)])
    }
}

fn places() -> impl Strategy<Value = Place> {
    (1e-12..1e-3_f64, 3.0..15.0_f64, 0.0..0.6_f64, 0.05..1.0_f64, -2.0..2.0_f64, 0.0..0.1_f64).prop_map(
        |(rate, exponent, life_scatter, top, deviations, strength_scatter)| Place {
            rate,
            exponent,
            life_scatter,
            top,
            odds: Odds { deviations, strength_scatter },
        },
    )
}

proptest! {
    #[test]
    fn rates_are_those_of_the_laws(place in places(), factor in 0.3..1.5_f64) {
        let [fatigue, rest] = place.link()?.rates(factor, place.odds);
        let [of_fatigue, of_rest] = place.written_out(factor)?;
        prop_assert!((fatigue / of_fatigue - 1.0).abs() < 1e-11);
        // Lasting load that does a ten-millionth of the harm is not worked out.
        prop_assert!((rest / of_rest - 1.0).abs() < 1e-11 || (rest == 0.0 && of_rest < 2e-7 * fatigue), "{rest} {of_rest}");
    }

    #[test]
    fn the_factor_to_fail_uses_up_the_time(place in places(), seconds in 1.0..1e7_f64) {
        // Rates of prints better than the mean need not rise with stress.
        let place = Place { odds: Odds { deviations: place.odds.deviations.abs(), ..place.odds }, ..place };
        let whole = place.link()?;
        for (link, kinds) in [(whole.clone(), [1.0, 1.0]), (whole.without_fatigue(), [0.0, 1.0]), (whole.without_lasting(), [1.0, 0.0])] {
            let factor = link.factor_to_fail(seconds, place.odds);
            let [fatigue, rest] = place.written_out(factor)?;
            let damage = (kinds[0] * fatigue + kinds[1] * rest) * seconds;
            // Steepness times the 1e-8 that Newton's last step is left at.
            prop_assert!((damage - 1.0).abs() < 1e-5, "{damage} at {factor}");
        }
    }

    #[test]
    fn what_is_asked_by_bounds_is_what_the_rates_say(place in places(), factor in 0.3..1.5_f64, off in 1e-6..8.0_f64) {
        let link = place.link()?;
        let [fatigue, rest] = place.written_out(factor)?;
        for (most, above) in [(off, true), (-off, false)] {
            prop_assert_eq!(link.lasts_below(log(rest) + most, factor, place.odds), above);
            prop_assert_eq!(link.wears_below(log(fatigue + rest) + most, factor, place.odds), above);
        }
    }

    #[test]
    fn bounds_of_lasting_load_bound_it(top in 0.05..1.0_f64, factor in 0.1..2.0_f64, ln_seconds in 0.0..20.0_f64) {
        let lasting = lasting(top).map_err(fail)?;
        let (ln_rate, slope) = lasting.ln_rate(factor);
        prop_assert!(ln_rate <= lasting.ln_rate_at_most(factor) + 1e-12);
        prop_assert!(slope * factor <= lasting.steepest(factor) * (1.0 + 1e-12));
        // The highest level all the time, so neither is far off either: it is there for a sixth of it.
        prop_assert!(ln_rate > lasting.ln_rate_at_most(factor) - 3.0 - lasting.steepest(factor));
        let alone = lasting.factor_at_most(ln_seconds);
        prop_assert!((lasting.ln_rate_at_most(alone) + ln_seconds).abs() < 1e-9 || alone == 0.0);
        let step = 1e-5;
        let numeric = (lasting.ln_rate(factor + step).0 - lasting.ln_rate(factor - step).0) / (2.0 * step);
        prop_assert!((slope / numeric - 1.0).abs() < 1e-6);
    }
}

#[test]
fn too_hot_to_last_without_stress() -> Tested {
    // A second beyond what an unloaded bond lasts: no factor is small enough.
    let link = Link::new(1e-6, 10.0, 0.4, lasting(0.5)?);
    let (ln_rest, _) = lasting(0.5)?.ln_rate(0.0);
    let median = Odds { deviations: 0.0, strength_scatter: 0.0 };
    assert_eq!(link.factor_to_fail(exp(-ln_rest) * 1.001, median), 0.0);
    assert!(link.factor_to_fail(exp(-ln_rest) * 0.999, median) > 0.0);
    Ok(())
}

#[test]
fn life_keeps_what_it_was_given() -> Tested {
    let life = LogNormalLife::new(3e5, 0.37)?;
    assert_eq!((life.median(), life.deviation_log10()), (3e5, 0.37));
    Ok(())
}
