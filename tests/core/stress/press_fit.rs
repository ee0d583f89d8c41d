//! C8: press fits by Lame, grip against heat and time.

use approx::assert_relative_eq;
use layload_core::life::Findley;
use layload_core::stress::{PressFit, RingMaterial, StressError, grip_lasts, relaxed_pressure};
use proptest::prelude::*;

type Tested = Result<(), Box<dyn std::error::Error>>;

const NYLON: RingMaterial = RingMaterial { modulus: 3.0e9, poisson_ratio: 0.38, expansion: 60e-6 };

/// Ring of a bearing of 47 mm in an eye of 60 mm (invented).
fn fit() -> Result<PressFit, StressError> {
    PressFit::new(0.0195, 0.0235, 0.030, RingMaterial::steel(), NYLON)
}

/// Radial displacement of a thick ring under pressure inside and outside by Lame's constants: stress A -+ B/r²,
/// u = r/E (hoop - nu radial).
fn lame(inside: f64, outside: f64, p_in: f64, p_out: f64, ring: RingMaterial, r: f64) -> (f64, f64, f64) {
    let (i, o) = (inside * inside, outside * outside);
    let a = (p_in * i - p_out * o) / (o - i);
    let b = (p_in - p_out) * i * o / (o - i);
    let (hoop, radial) = (a + b / (r * r), a - b / (r * r));
    (r / ring.modulus * (hoop - ring.poisson_ratio * radial), hoop, radial)
}

#[test]
fn pressure_closes_the_gap() -> Tested {
    let fit = fit()?;
    let interference = 25e-6;
    let found = fit.at(interference);
    let (eye, eye_hoop, eye_radial) = lame(0.0235, 0.030, found.pressure, 0.0, NYLON, 0.0235);
    let (ring, ring_hoop, _) = lame(0.0195, 0.0235, 0.0, found.pressure, RingMaterial::steel(), 0.0235);
    // 1e-9 asked: what the eye opens and the ring closes is the interference.
    assert_relative_eq!(eye - ring, interference, max_relative = 1e-9);
    assert_relative_eq!(found.eye_hoop, eye_hoop, max_relative = 1e-9);
    assert_relative_eq!(found.insert_hoop, ring_hoop, max_relative = 1e-9);
    assert_relative_eq!(-found.pressure, eye_radial, max_relative = 1e-9);
    let (_, outside_hoop, outside_radial) = lame(0.0235, 0.030, found.pressure, 0.0, NYLON, 0.030);
    assert_relative_eq!(found.eye_outside_hoop, outside_hoop, max_relative = 1e-9);
    assert!(outside_radial.abs() < 1e-9 * found.pressure);
    let (_, bore_hoop, _) = lame(0.0195, 0.0235, 0.0, found.pressure, RingMaterial::steel(), 0.0195);
    assert_relative_eq!(found.insert_bore_hoop, bore_hoop, max_relative = 1e-9);
    Ok(())
}

#[test]
fn a_clearance_gives_nothing() -> Tested {
    assert_relative_eq!(fit()?.at(-10e-6).pressure, 0.0);
    Ok(())
}

#[test]
fn heat_loosens_a_steel_ring_in_plastic() -> Tested {
    let fit = fit()?;
    let interference = 30e-6;
    let warming = fit.loose_at(interference).ok_or("never loose")?;
    // (60 - 12)e-6 over 23.5 mm.
    assert_relative_eq!(warming, 30e-6 / (0.0235 * 48e-6), max_relative = 1e-12);
    assert!(fit.warmed(interference, warming).abs() < 1e-18);
    assert!(fit.at(fit.warmed(interference, warming * 0.9)).pressure > 0.0);
    assert_relative_eq!(fit.at(fit.warmed(interference, warming * 1.1)).pressure, 0.0);
    let stiff = RingMaterial { expansion: 5e-6, ..NYLON };
    assert_eq!(PressFit::new(0.0195, 0.0235, 0.03, RingMaterial::steel(), stiff)?.loose_at(interference), None);
    Ok(())
}

#[test]
fn grip_fades_as_the_eye_creeps() -> Tested {
    let fit = fit()?;
    let interference = 30e-6;
    let fresh = fit.at(interference).pressure;
    // No creep, no loss.
    assert_relative_eq!(relaxed_pressure(&fit, interference, |_| 0.0)?, fresh, max_relative = 1e-9);
    // Creep in proportion to stress, e = s/E, halves the modulus: a closed form.
    let half = fit.with_eye_modulus(NYLON.modulus / 2.0)?.at(interference).pressure;
    assert_relative_eq!(relaxed_pressure(&fit, interference, |s| s / NYLON.modulus)?, half, max_relative = 1e-9);
    let law = Findley::new(3e-4, 10e6, 0.2, 100e3, 296.15)?;
    let mut last = fresh;
    for hours in [1.0, 10.0, 100.0, 1000.0] {
        let left = relaxed_pressure(&fit, interference, |s| law.strain(s, hours * 3600.0, 350.0).unwrap_or(f64::NAN))?;
        assert!(left < last && left > 0.0, "{hours} h: {left}");
        last = left;
    }
    Ok(())
}

#[test]
fn hour_at_which_the_ring_can_walk() -> Tested {
    let fit = fit()?;
    let (interference, horizon) = (30e-6, 1e8);
    let fresh = fit.at(interference).pressure;
    // Creep of stress over modulus times (t / 1 h)^0.3: the secant modulus, and with it the pressure, in closed form.
    let creep = |s: f64, seconds: f64| s / NYLON.modulus * libm::pow(seconds / 3600.0, 0.3);
    let at = |hours: f64| -> Result<f64, StressError> {
        let secant = NYLON.modulus / (1.0 + libm::pow(hours, 0.3));
        Ok(fit.with_eye_modulus(secant)?.at(interference).pressure)
    };
    let found = grip_lasts(&fit, interference, at(20.0)?, horizon, creep)?.ok_or("lasts")?;
    // 2e-3: the search stops at a thousandth in the logarithm.
    assert_relative_eq!(found, 20.0 * 3600.0, max_relative = 2e-3);
    assert_eq!(grip_lasts(&fit, interference, 1.01 * fresh, horizon, creep)?, Some(0.0));
    assert_eq!(grip_lasts(&fit, interference, 1e-3 * fresh, horizon, creep)?, None);
    Ok(())
}

#[test]
fn slip() -> Tested {
    // Coulomb on the surface of the joint: 2 pi 23.5 mm x 14 mm x 0.15 x 2 MPa.
    let expected = std::f64::consts::TAU * 0.0235 * 0.014 * 0.15 * 2e6;
    assert_relative_eq!(fit()?.slip_force(2e6, 0.014, 0.15), expected, max_relative = 1e-12);
    Ok(())
}

#[test]
fn bad_rings_are_refused() {
    let steel = RingMaterial::steel();
    assert!(matches!(PressFit::new(0.02, 0.02, 0.03, steel, NYLON), Err(StressError::NotNested { .. })));
    assert!(matches!(PressFit::new(0.01, 0.03, 0.03, steel, NYLON), Err(StressError::NotNested { .. })));
    for bad in [0.0, -1.0, f64::NAN, f64::INFINITY] {
        assert!(PressFit::new(0.0, bad, 0.03, steel, NYLON).is_err());
        assert!(PressFit::new(0.0, 0.02, bad, steel, NYLON).is_err());
        assert!(PressFit::new(0.0, 0.02, 0.03, steel, RingMaterial { modulus: bad, ..NYLON }).is_err());
    }
    assert!(PressFit::new(-0.01, 0.02, 0.03, steel, NYLON).is_err());
}

proptest! {
    #[test]
    fn more_interference_more_stress_and_a_thicker_eye_grips_harder(
        d in 1e-6_f64..60e-6, wall in 2e-3_f64..20e-3,
    ) {
        let pressure = |d: f64, wall: f64| {
            PressFit::new(0.0195, 0.0235, 0.0235 + wall, RingMaterial::steel(), NYLON)
                .map_or(f64::NAN, |fit| fit.at(d).pressure)
        };
        let (base, more, thick) = (pressure(d, wall), pressure(d * 1.1, wall), pressure(d, wall * 1.1));
        prop_assert!(base > 0.0 && more > base && thick > base);
    }
}
