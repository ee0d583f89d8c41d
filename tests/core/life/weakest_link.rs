//! C28 and what scatter makes of a part: closed forms, quadrature and drawn prints against each other.

use approx::assert_relative_eq;
use layload_core::life::{
    KineticStrength, Lasting, LifeError, Link, LogNormalLife, Odds, TensionLevels, WeakestLink, drawn_life_at,
    drawn_lives, normal_probability,
};
use libm::{exp, hypot, log, log10, pow};
use proptest::prelude::*;

use super::Tested;

/// The print of mean strength and life.
const MEDIAN: Odds = Odds { deviations: 0.0, strength_scatter: 0.0 };

const SEED: u64 = 20_260_101;

fn tired(rate: f64, exponent: f64, life_scatter: f64) -> Link {
    Link::new(rate, exponent, life_scatter, Lasting::none())
}

/// Of the order of a filled nylon (invented); stress in parts of the strength.
fn law() -> Result<KineticStrength, LifeError> {
    KineticStrength::through(1e-13, 188e3, 1.0, 100.0, 353.15)
}

fn lasting(tension: &[f64]) -> Result<Lasting, LifeError> {
    Ok(Lasting::new(law()?.exponents(353.15)?, &TensionLevels::of(tension), 1.0))
}

#[test]
fn one_link_is_log_normal() -> Tested {
    // C28: B10 = B50 10^(-1.2816 s), s^2 = s_life^2 + (k s_strength)^2.
    for (exponent, life_scatter, strength_scatter) in [(10.0, 0.4, 0.035), (6.0, 0.25, 0.08), (14.0, 0.5, 0.02)] {
        let part = WeakestLink::new(vec![tired(1e-6, exponent, life_scatter)], strength_scatter, 1e9, 1e9);
        let scatter = hypot(life_scatter, exponent * strength_scatter);
        let life = LogNormalLife::new(1e6, scatter)?;
        for share in [0.5, 0.1, 0.01] {
            // The prints beyond five standard deviations, 3e-7 either side, count as those at it.
            assert_relative_eq!(part.life_at(share, 1.0), life.life_at(share)?, max_relative = 1e-4);
        }
        // The factor on stress at which one in ten fails within a time is that of the line itself.
        let margin = pow(life.life_at(0.1)? / 3e4, 1.0 / exponent);
        assert_relative_eq!(part.margin(0.1, 3e4, 1.0), margin, max_relative = 1e-5);
        let odds = Odds { deviations: 1.281_551_565_544_6, strength_scatter };
        let link = tired(1e-6, exponent, life_scatter);
        assert_relative_eq!(link.factor_to_fail(3e4, odds), margin, max_relative = 1e-9);
    }
    Ok(())
}

#[test]
fn drawn_prints_agree_with_the_closed_form() -> Tested {
    // Monte Carlo within 1 % at 1e5 draws: the standard error of B10 there is 1.71 s / sqrt(n) decades, 0.5 % at s 0.4.
    let scatter = 0.4;
    let part = WeakestLink::new(vec![tired(1e-6, 10.0, 0.0)], scatter / 10.0, 1e9, 1e9);
    let lives = drawn_lives(&part, 100_000, SEED, 0.0);
    let b10 = 1e6 * pow(10.0, -1.281_551_565_544_6 * scatter);
    assert_relative_eq!(drawn_life_at(&lives, 0.1).ok_or("no draws")?, b10, max_relative = 0.01);
    // What is not known of the material adds its variance: exponent times ln factor.
    let unknown = 0.05;
    let lives = drawn_lives(&part, 100_000, SEED, unknown);
    let wider = hypot(scatter, 10.0 * unknown / core::f64::consts::LN_10);
    let b10 = 1e6 * pow(10.0, -1.281_551_565_544_6 * wider);
    assert_relative_eq!(drawn_life_at(&lives, 0.1).ok_or("no draws")?, b10, max_relative = 0.01);
    Ok(())
}

#[test]
fn several_links_by_quadrature_and_by_chance() -> Tested {
    let pulse: Vec<f64> = (0..720).map(|k| 0.35 + 0.25 * libm::sin(f64::from(k) * 0.0087)).collect();
    let links = vec![
        tired(1e-6, 10.0, 0.4),
        Link::new(3e-7, 8.0, 0.3, lasting(&pulse)?),
        Link::new(1e-9, 12.0, 0.5, lasting(&[0.5, 0.52, 0.48])?),
    ];
    let part = WeakestLink::new(links, 0.035, 1.25, 1e9);
    let count = 200_000;
    let lives = drawn_lives(&part, count, SEED, 0.0);
    for share in [0.5, 0.2, 0.1, 0.05] {
        let life = part.life_at(share, 1.0);
        let failed = lives.iter().filter(|&&drawn| drawn <= life).count() as f64 / count as f64;
        // Four standard errors of a share of draws.
        let allowed = 4.0 * (share * (1.0 - share) / count as f64).sqrt();
        assert!((failed - share).abs() < allowed, "{share}: {failed}");
    }
    // Prints too weak for one load, by the normal distribution of log10 strength.
    let broken = lives.iter().filter(|&&life| life == 0.0).count() as f64 / count as f64;
    let expected = normal_probability(-log10(1.25) / 0.035);
    assert!((broken - expected).abs() < 4.0 * (expected / count as f64).sqrt(), "{broken} {expected}");
    Ok(())
}

#[test]
fn two_equal_links_share_the_strength_of_the_print() {
    // Without scatter of life both fail together; without scatter of strength the chances multiply.
    let two = |life: f64, strength: f64| WeakestLink::new(vec![tired(1e-6, 10.0, life); 2], strength, 1e9, 1e9);
    let alone = WeakestLink::new(vec![tired(1e-6, 10.0, 0.0)], 0.04, 1e9, 1e9);
    let together = two(0.0, 0.04);
    // Both have the same step in the integrand.
    assert!((together.failed_by(3e5, 1.0) - alone.failed_by(3e5, 1.0)).abs() < 1e-12);
    let apart = two(0.4, 0.0);
    let one = normal_probability(log10(3e5 / 1e6) / 0.4);
    assert_relative_eq!(apart.failed_by(3e5, 1.0), 1.0 - (1.0 - one) * (1.0 - one), max_relative = 1e-12);
}

#[test]
fn steady_tension_alone_is_zhurkovs_closed_form() -> Tested {
    let link = Link::new(0.0, 10.0, 0.4, lasting(&[0.6; 8])?);
    let life = law()?.time_to_failure_s(0.6, 353.15)?;
    let part = WeakestLink::new(vec![link], 0.0, 1e9, 1e9);
    assert_relative_eq!(part.life_at(0.5, 1.0), life, max_relative = 1e-6);
    // Scatter of strength by the steepness of the law: the odds of one place against the quadrature over prints, which
    // sees how the law steepens. 2 % of stress is what its curvature leaves at one print in ten.
    let scattered = WeakestLink::new(part.links().to_vec(), 0.035, 1e9, 1e9);
    let odds = Odds { deviations: 1.281_551_565_544_6, strength_scatter: 0.035 };
    let exact = scattered.margin(0.1, life / 1e4, 1.0);
    assert_relative_eq!(part.links()[0].factor_to_fail(life / 1e4, odds), exact, max_relative = 0.02);
    // The factor at which it lasts a thousandth as long, from the law itself.
    let (ln_rest, pull) = law()?.exponents(353.15)?;
    let factor = (-log(life / 1e3) - ln_rest) / (pull * 0.6);
    assert_relative_eq!(part.links()[0].factor_to_fail(life / 1e3, MEDIAN), factor, max_relative = 1e-9);
    Ok(())
}

#[test]
fn levels_hold_the_history() -> Tested {
    // Bailey's integral over every sample against that over the levels: within a third of a per cent, what they are made for.
    for (mean, swing) in [(0.2, 0.5), (0.5, 0.4), (-0.1, 0.6), (0.05, 0.05)] {
        let history: Vec<f64> = (0..720)
            .map(|k| f64::from(k).to_radians())
            .map(|t| mean + swing * (0.6 * libm::sin(t) + 0.4 * libm::cos(3.0 * t + 1.0)))
            .collect();
        let (ln_rest, pull) = law()?.exponents(353.15)?;
        for factor in [0.7, 1.0, 1.3] {
            let rate = |stress: &f64| exp(ln_rest + pull * factor * stress.max(0.0));
            let exact = history.iter().map(rate).sum::<f64>() / 720.0;
            assert_relative_eq!(exp(lasting(&history)?.ln_rate(factor).0), exact, max_relative = 0.0033);
        }
    }
    Ok(())
}

#[test]
fn the_same_seed_draws_the_same_lives() {
    let part = WeakestLink::new(vec![tired(1e-6, 10.0, 0.4), tired(2e-6, 9.0, 0.3)], 0.035, 1.3, 1e9);
    let bits = |seed: u64| -> Vec<u64> { drawn_lives(&part, 2_345, seed, 0.1).iter().map(|l| l.to_bits()).collect() };
    assert_eq!(bits(SEED), bits(SEED));
    assert_ne!(bits(SEED), bits(SEED + 1));
    // From one run on one machine; any other machine has to give them too.
    let lives = drawn_lives(&part, 1_000, SEED, 0.1);
    let hash = lives.iter().fold(0xcbf2_9ce4_8422_2325_u64, |hash, life| {
        life.to_bits().to_le_bytes().iter().fold(hash, |h, byte| (h ^ u64::from(*byte)).wrapping_mul(0x0100_0000_01b3))
    });
    assert_eq!(hash, 0x819e_9eda_d149_26d2, "{hash:#x}");
}

proptest! {
    #[test]
    fn more_of_anything_bad_never_lives_longer(
        rate in 1e-9..1e-3_f64,
        exponent in 3.0..15.0_f64,
        life_scatter in 0.0..0.6_f64,
        scatter in 0.0..0.1_f64,
        tension in 0.0..0.9_f64,
        more in 1.01..1.5_f64,
    ) {
        let of = |rate: f64, tension: f64, scatter: f64| {
            let lasting = lasting(&[tension, 0.5 * tension]).map_err(|e| TestCaseError::fail(e.to_string()))?;
            Ok::<_, TestCaseError>(WeakestLink::new(vec![Link::new(rate, exponent, life_scatter, lasting)], scatter, 1.6, 1e9))
        };
        let part = of(rate, tension, scatter)?;
        // The root is found to 1e-9 in its logarithm.
        let life = part.life_at(0.1, 1.0) * (1.0 + 1e-8);
        prop_assert!(of(rate * more, tension, scatter)?.life_at(0.1, 1.0) <= life);
        prop_assert!(of(rate, tension * more, scatter)?.life_at(0.1, 1.0) <= life);
        prop_assert!(part.life_at(0.1, more) <= life);
        // Scatter lowers what nine in ten reach where half reach it. Quadrature over a step (no scatter of life) is left out.
        if life_scatter > 0.1 {
            prop_assert!(of(rate, tension, scatter * more)?.life_at(0.1, 1.0) <= life * (1.0 + 1e-6));
        }
        let seconds = part.life_at(0.1, 1.0);
        if seconds > 0.0 && seconds.is_finite() && life_scatter > 0.1 {
            prop_assert!((part.margin(0.1, seconds, 1.3) - 1.0).abs() < 1e-6);
        }
    }
}
