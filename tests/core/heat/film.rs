//! C22: the gas film, and air across the rod.

use approx::assert_relative_eq;
use layload_core::engine::{Cylinder, DEFAULT_SAMPLES, GasCycle, SliderCrank};
use layload_core::heat::{GasFilm, bore_conductance, crossflow_film};

use super::Tested;

#[test]
fn small_engine_over_a_cycle() -> Tested {
    // A single of 98 cm³ of our own at 5000 rpm.
    let crank = SliderCrank::new(0.023, 0.092, 0.0)?;
    let cylinder = Cylinder::new(crank, 0.052, 7.5)?;
    let cycle = GasCycle::four_stroke();
    let run = cycle.run(&cylinder, 1.0, DEFAULT_SAMPLES)?;
    let speed = 5000.0 * std::f64::consts::PI / 30.0;
    let one = GasFilm::by_hohenberg(&run.trace, &run.temperature, &cylinder, speed)?;
    let two = GasFilm::by_woschni(
        &run.trace,
        &run.temperature,
        &cylinder,
        &cycle.exchange,
        cycle.compression_exponent,
        speed,
    )?;
    for film in [&one, &two] {
        let mean = film.mean();
        // Textbook order (Heywood): a few hundred W/(m² K) on average, 900 to 1600 K, and heat to a cool wall of 5 to
        // 30 % of the fuel's.
        assert!((100.0..800.0).contains(&mean.coefficient), "{mean:?}");
        assert!((800.0..1700.0).contains(&mean.temperature), "{mean:?}");
        let flux = mean.coefficient * (mean.temperature - 450.0);
        let sum: f64 = film.coefficients.iter().zip(&film.temperatures).map(|(h, t)| h * (t - 450.0)).sum();
        assert_relative_eq!(flux, sum / 720.0, max_relative = 1e-12);
    }
    // Two correlations fitted to other engines agree within a factor of two.
    let ratio = one.mean().coefficient / two.mean().coefficient;
    assert!((0.5..2.0).contains(&ratio), "{ratio}");
    Ok(())
}

#[test]
fn air_across_a_cylinder() -> Tested {
    // Incropera and others, cylinder in cross flow: 10 m/s of air on 12.7 mm, film at 350 K: 96 W/(m² K) by Churchill and
    // Bernstein (memory). 4 %: their air table against Sutherland's formula and one Prandtl number.
    assert_relative_eq!(crossflow_film(10.0, 0.0127, 350.0, 101_325.0)?, 96.0, max_relative = 0.04);
    // Still air leaves the Nusselt number 0.3.
    assert_relative_eq!(crossflow_film(0.0, 0.02, 350.0, 1e5)?, 0.3 * 0.0299 / 0.02, max_relative = 0.05);
    assert!(crossflow_film(-1.0, 0.02, 350.0, 1e5).is_err());
    Ok(())
}

#[test]
fn film_between_pin_and_bore() -> Tested {
    // Thin gap: k pi d l / gap. 1 %: the shell is curved.
    let thin = 0.14 * std::f64::consts::PI * 0.016 * 0.02 / 20e-6;
    assert_relative_eq!(bore_conductance(0.016, 0.02, 20e-6, 0.14)?, thin, max_relative = 1e-2);
    Ok(())
}
