//! C18: the cooling fin, and steady states with heat of their own.

use approx::assert_relative_eq;
use layload_core::heat::{ChainEnd, Fin, FinCooling, FinMaterial, FinStation, HeatError, SteadyHeat};
use libm::{cosh, sinh};
use proptest::prelude::*;

use super::Tested;

const NYLON: FinMaterial = FinMaterial { conductivity: 0.45, volumetric_heat: 1.8e6 };

fn bar(length: f64, area: f64, perimeter: f64, stations: usize) -> Result<Fin, HeatError> {
    let step = length / (stations - 1) as f64;
    let cuts: Vec<FinStation> =
        (0..stations).map(|i| FinStation { position: step * i as f64, area, perimeter }).collect();
    Fin::new(&cuts, NYLON)
}

fn settled(state: SteadyHeat) -> Result<Vec<f64>, String> {
    match state {
        SteadyHeat::Settled { temperatures, .. } => Ok(temperatures),
        other => Err(format!("{other:?}")),
    }
}

#[test]
fn adiabatic_tip_converges() -> Tested {
    // Incropera and others, extended surfaces: (T - T_air) / (T_base - T_air) = cosh m(L - x) / cosh mL.
    let (length, area, perimeter, film) = (0.08, 2.4e-4, 0.064, 40.0);
    let m = (film * perimeter / (NYLON.conductivity * area)).sqrt();
    let cooling = FinCooling {
        film_coefficient: film,
        air_temperature: 330.0,
        ends: [ChainEnd::Held(400.0), ChainEnd::Insulated],
    };
    let mut errors = Vec::new();
    for stations in [101, 201, 401] {
        let found = settled(bar(length, area, perimeter, stations)?.steady(&cooling, |_, _| 0.0, 500.0)?)?;
        let mut worst = 0.0_f64;
        for (i, t) in found.iter().enumerate() {
            let x = length * i as f64 / (stations - 1) as f64;
            worst = worst.max((t - (330.0 + 70.0 * cosh(m * (length - x)) / cosh(m * length))).abs());
        }
        errors.push(worst);
    }
    // Finite volumes are of second order: half the spacing, a quarter of the error; 0.1 either way for higher orders.
    for pair in errors.windows(2) {
        assert_relative_eq!(libm::log2(pair[0] / pair[1]), 2.0, epsilon = 0.1);
    }
    Ok(())
}

#[test]
fn heat_of_its_own() -> Tested {
    // Both ends held at air temperature, even heat q' along the bar: T - T_air = q'/(h P) (1 - cosh m(x - L/2) / cosh mL/2).
    let (length, area, perimeter, film, heat) = (0.09, 2.0e-4, 0.06, 30.0, 25.0);
    let m = (film * perimeter / (NYLON.conductivity * area)).sqrt();
    let ends = [ChainEnd::Held(330.0); 2];
    let cooling = FinCooling { film_coefficient: film, air_temperature: 330.0, ends };
    let found = settled(bar(length, area, perimeter, 401)?.steady(&cooling, |_, _| heat, 500.0)?)?;
    let middle = heat / (film * perimeter) * (1.0 - 1.0 / cosh(m * length / 2.0));
    // 0.1 %, as C18.
    assert_relative_eq!(found[200] - 330.0, middle, max_relative = 1e-3);
    Ok(())
}

#[test]
fn source_that_grows_with_temperature() -> Tested {
    // q' = a + b (T - T_air) with b < h P is a fin with a weaker film, h P - b; one end contact, the other insulated.
    let (length, area, perimeter, film) = (0.07, 1.5e-4, 0.05, 35.0);
    let (a, b) = (8.0, 0.7 * film * perimeter);
    let net = film * perimeter - b;
    let m = (net / (NYLON.conductivity * area)).sqrt();
    let contact = 0.05;
    let ends = [ChainEnd::Contact { conductance: contact, temperature: 350.0 }, ChainEnd::Insulated];
    let cooling = FinCooling { film_coefficient: film, air_temperature: 330.0, ends };
    let source = |_: usize, t: f64| a + b * (t - 330.0);
    let fin = bar(length, area, perimeter, 401)?;
    let state = fin.steady(&cooling, source, 600.0)?;
    let SteadyHeat::Settled { temperatures, flows } = state else { return Err(format!("{state:?}").into()) };
    // Excess = a/net + B cosh m(L - x); the contact gives k A m B sinh mL = contact (20 - a/net - B cosh mL).
    let (k_a, far) = (NYLON.conductivity * area, a / net);
    let wave = contact * (20.0 - far) / (k_a * m * sinh(m * length) + contact * cosh(m * length));
    for (i, t) in temperatures.iter().enumerate().step_by(50) {
        let x = length * i as f64 / 400.0;
        assert_relative_eq!(t - 330.0, far + wave * cosh(m * (length - x)), max_relative = 1e-3);
    }
    // Steady: heat in equals heat out; 1e-7 is the solver's own measure of rest with a margin.
    assert!(flows.imbalance().abs() < 1e-7, "{flows:?}");
    Ok(())
}

#[test]
fn tapered_bar_conducts_by_its_area() -> Tested {
    // No film: heat flow between held ends is k dT / integral of dx/A; for a linear area that is k dT (A1 - A0) / (L ln(A1/A0)).
    let (length, first, last) = (0.06, 1e-4, 3e-4);
    let cuts: Vec<FinStation> = (0..=400)
        .map(|i| f64::from(i) / 400.0)
        .map(|x| FinStation { position: length * x, area: first + (last - first) * x, perimeter: 0.05 })
        .collect();
    let fin = Fin::new(&cuts, NYLON)?;
    let cooling = FinCooling {
        film_coefficient: 0.0,
        air_temperature: 300.0,
        ends: [ChainEnd::Held(390.0), ChainEnd::Held(310.0)],
    };
    let state = fin.steady(&cooling, |_, _| 0.0, 500.0)?;
    let SteadyHeat::Settled { flows, .. } = state else { return Err(format!("{state:?}").into()) };
    let expected = NYLON.conductivity * 80.0 * (last - first) / (length * libm::log(last / first));
    // 1e-5: mean of two areas against their logarithmic mean at this spacing.
    assert_relative_eq!(flows.through_ends[1], expected, max_relative = 1e-5);
    assert_relative_eq!(flows.through_ends[0], -expected, max_relative = 1e-5);
    Ok(())
}

#[test]
fn no_hysteresis_and_much_cooling_give_the_cold_answer() -> Tested {
    let fin = bar(0.09, 2e-4, 0.06, 60)?;
    let cooling = FinCooling { film_coefficient: 1e7, air_temperature: 325.0, ends: [ChainEnd::Insulated; 2] };
    for heat in [0.0, 100.0] {
        for t in settled(fin.steady(&cooling, |_, _| heat, 400.0)?)? {
            // 100 W/m over 0.06 m at 1e7 W/(m² K) is 0.2 mK.
            assert!((t - 325.0).abs() < 1e-3, "{t}");
        }
    }
    Ok(())
}

#[test]
fn surroundings_alone_too_hot() -> Tested {
    let fin = bar(0.09, 2e-4, 0.06, 60)?;
    let ends = [ChainEnd::Held(420.0), ChainEnd::Insulated];
    let cooling = FinCooling { film_coefficient: 20.0, air_temperature: 330.0, ends };
    assert!(matches!(fin.steady(&cooling, |_, _| 0.0, 400.0)?, SteadyHeat::Surroundings { station: 0, .. }));
    Ok(())
}

#[test]
fn bad_numbers_are_refused() -> Tested {
    let cut = |position, area| FinStation { position, area, perimeter: 0.05 };
    assert!(matches!(Fin::new(&[cut(0.0, 1e-4)], NYLON), Err(HeatError::Count { count: 1, .. })));
    assert_eq!(Fin::new(&[cut(0.0, 1e-4), cut(0.0, 1e-4)], NYLON), Err(HeatError::NotRising { index: 1 }));
    assert_eq!(Fin::new(&[cut(0.0, 1e-4), cut(f64::NAN, 1e-4)], NYLON), Err(HeatError::NotRising { index: 1 }));
    for bad in [0.0, -1.0, f64::NAN, f64::INFINITY] {
        assert!(Fin::new(&[cut(0.0, bad), cut(0.1, 1e-4)], NYLON).is_err());
        let poor = FinMaterial { conductivity: bad, ..NYLON };
        assert!(Fin::new(&[cut(0.0, 1e-4), cut(0.1, 1e-4)], poor).is_err());
    }
    let fin = bar(0.05, 1e-4, 0.05, 10)?;
    let alone = FinCooling { film_coefficient: 0.0, air_temperature: 300.0, ends: [ChainEnd::Insulated; 2] };
    assert_eq!(fin.steady(&alone, |_, _| 1.0, 400.0), Err(HeatError::NoWayOut));
    Ok(())
}

proptest! {
    #[test]
    fn hotter_with_more_heat_and_colder_with_more_film(
        heat in 0.0_f64..60.0, film in 5.0_f64..200.0, pin in 300.0_f64..380.0,
    ) {
        let peak = |heat: f64, film: f64| -> Option<f64> {
            let fin = bar(0.08, 2e-4, 0.06, 30).ok()?;
            let ends = [ChainEnd::Held(pin), ChainEnd::Insulated];
            let cooling = FinCooling { film_coefficient: film, air_temperature: 300.0, ends };
            Some(fin.steady(&cooling, |_, _| heat, 5000.0).ok()?.peak()?.1)
        };
        let (base, more_heat, more_film) = (peak(heat, film), peak(heat * 1.1 + 0.1, film), peak(heat, film * 1.1));
        prop_assert!(base.is_some() && more_heat >= base && more_film <= base, "{base:?} {more_heat:?} {more_film:?}");
    }
}
