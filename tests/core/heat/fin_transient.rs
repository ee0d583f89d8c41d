//! A rod that warms up: conservation, order, closed forms.

use approx::assert_relative_eq;
use layload_core::heat::{ChainEnd, Fin, FinCooling, FinMaterial, FinRun, FinStation, HeatError, SteadyHeat, StepPace};
use libm::exp;

use super::Tested;

const NYLON: FinMaterial = FinMaterial { conductivity: 0.45, volumetric_heat: 1.8e6 };

/// A waisted shank (invented): 90 mm long, 2 to 4 cm².
fn shank(stations: usize) -> Result<Fin, HeatError> {
    let cuts: Vec<FinStation> = (0..stations)
        .map(|i| i as f64 / (stations - 1) as f64)
        .map(|x| FinStation {
            position: 0.09 * x,
            area: 2e-4 + 8e-4 * (x - 0.5) * (x - 0.5),
            perimeter: 0.06 + 0.05 * (x - 0.5) * (x - 0.5),
        })
        .collect();
    Fin::new(&cuts, NYLON)
}

fn cooling() -> FinCooling {
    let big_end = ChainEnd::Contact { conductance: 0.4, temperature: 355.0 };
    FinCooling { film_coefficient: 30.0, air_temperature: 330.0, ends: [ChainEnd::Held(370.0), big_end] }
}

/// Heat that grows with temperature as a softening plastic's does (invented).
fn source(_: usize, t: f64) -> f64 {
    4.0 + 0.06 * (t - 300.0)
}

fn ran(fin: &Fin, seconds: f64, pace: StepPace) -> Result<FinRun, HeatError> {
    let mut run = fin.start(300.0)?;
    fin.run(&mut run, &cooling(), source, seconds, pace, 1000.0)?;
    Ok(run)
}

#[test]
fn heat_in_is_heat_stored_and_heat_out() -> Tested {
    let fin = shank(80)?;
    for (seconds, pace) in
        [(1.0, StepPace::usual(1.0)), (300.0, StepPace::usual(300.0)), (300.0, StepPace::even(100.0))]
    {
        let run = ran(&fin, seconds, pace)?;
        // 0.1 % asked; the scheme keeps heat to the tolerance of its solver, whatever the step.
        assert!(run.balance.imbalance().abs() < 1e-8, "{:?}", run.balance);
        assert!(run.balance.stored > 0.0 && run.balance.generated > 0.0);
    }
    Ok(())
}

#[test]
fn lump_without_conduction_follows_the_exponential() -> Tested {
    // Even bar, free ends: c A dT/dt = q' - h P (T - T_air), T = T_air + q'/(h P) + (...) exp(-h P t / (c A)).
    let cuts = [0.0, 0.03, 0.07].map(|position| FinStation { position, area: 2e-4, perimeter: 0.06 });
    let fin = Fin::new(&cuts, NYLON)?;
    let cooling = FinCooling { film_coefficient: 50.0, air_temperature: 330.0, ends: [ChainEnd::Insulated; 2] };
    let mut run = fin.start(300.0)?;
    fin.run(&mut run, &cooling, |_, _| 12.0, 60.0, StepPace::even(0.1), 1000.0)?;
    let (final_rise, rate) = (12.0 / 3.0, 3.0 / (1.8e6 * 2e-4));
    let expected = 330.0 + final_rise + (300.0 - 330.0 - final_rise) * exp(-rate * 60.0);
    for t in run.temperatures {
        // A step of 0.1 s against a time constant of 120 s: (1/1200)² of the way.
        assert_relative_eq!(t, expected, epsilon = 34.0 * 1e-6);
    }
    Ok(())
}

#[test]
fn second_order_in_time_and_along_the_rod() -> Tested {
    // Against a run four times finer than the finest; a smooth start from rest at the end temperature of 1000 s.
    let middle = |stations: usize, step: f64| -> Result<f64, HeatError> {
        let fin = shank(stations)?;
        let mut run = fin.start(300.0)?;
        let gentle = FinCooling { ends: [ChainEnd::Insulated; 2], ..cooling() };
        fin.run(&mut run, &gentle, source, 64.0, StepPace::even(step), 1000.0)?;
        Ok(run.temperatures[(stations - 1) / 2])
    };
    let exact = middle(41, 0.0625)?;
    let errors: Vec<f64> = [16.0, 8.0, 4.0, 2.0]
        .into_iter()
        .map(|step| Ok((middle(41, step)? - exact).abs()))
        .collect::<Result<_, HeatError>>()?;
    for pair in errors.windows(2) {
        // 0.2: third-order terms at these long steps.
        assert_relative_eq!(libm::log2(pair[0] / pair[1]), 2.0, epsilon = 0.2);
    }
    let exact = middle(641, 0.5)?;
    let errors: Vec<f64> =
        [11, 21, 41, 81].into_iter().map(|n| Ok((middle(n, 0.5)? - exact).abs())).collect::<Result<_, HeatError>>()?;
    for pair in errors.windows(2) {
        assert_relative_eq!(libm::log2(pair[0] / pair[1]), 2.0, epsilon = 0.2);
    }
    Ok(())
}

#[test]
fn ends_in_the_steady_state() -> Tested {
    let fin = shank(60)?;
    let steady = fin.steady(&cooling(), source, 1000.0)?;
    let SteadyHeat::Settled { temperatures, .. } = steady else { return Err(format!("{steady:?}").into()) };
    let run = ran(&fin, 20_000.0, StepPace::usual(20_000.0))?;
    for (slow, fast) in run.temperatures.iter().zip(&temperatures) {
        // A hundred time constants of 200 s leave nothing but the two solvers' tolerances.
        assert_relative_eq!(*slow, *fast, epsilon = 1e-4);
    }
    Ok(())
}

#[test]
fn short_and_long_runs_differ_and_steps_of_a_duty_add_up() -> Tested {
    let fin = shank(60)?;
    let short = ran(&fin, 30.0, StepPace::usual(30.0))?;
    let long = ran(&fin, 600.0, StepPace::usual(600.0))?;
    assert!(long.temperatures[30] > short.temperatures[30] + 5.0);
    let mut pieces = fin.start(300.0)?;
    for _ in 0..20 {
        fin.run(&mut pieces, &cooling(), source, 30.0, StepPace::even(0.1), 1000.0)?;
    }
    assert_relative_eq!(pieces.seconds, 600.0, max_relative = 1e-9);
    for (a, b) in pieces.temperatures.iter().zip(&long.temperatures) {
        // The usual pace is good for a few thousandths of the 70 K of warming.
        assert_relative_eq!(*a, *b, epsilon = 0.1);
    }
    Ok(())
}

#[test]
fn time_at_which_a_limit_is_reached() -> Tested {
    // Adiabatic bar with even heat: T = 300 + q' t / (c A), 12 W/m over 360 J/(m K).
    let cuts = [0.0, 0.03, 0.07].map(|position| FinStation { position, area: 2e-4, perimeter: 0.06 });
    let fin = Fin::new(&cuts, NYLON)?;
    let alone = FinCooling { film_coefficient: 0.0, air_temperature: 300.0, ends: [ChainEnd::Insulated; 2] };
    let mut run = fin.start(300.0)?;
    let to_the_end = fin.run(&mut run, &alone, |_, _| 12.0, 900.0, StepPace::even(7.0), 310.0)?;
    assert!(!to_the_end);
    assert_relative_eq!(run.limit_reached.ok_or("not reached")?, 300.0, max_relative = 1e-9);
    Ok(())
}

#[test]
fn brisk_steps_end_where_fine_ones_do() -> Tested {
    let fin = shank(60)?;
    for seconds in [1.0, 10.0, 60.0, 600.0, 20_000.0] {
        // Steps a tenth as long as usual, which are of second order themselves.
        let fine = StepPace { first: seconds * 1e-5, growth: 1.05, longest: seconds / 2000.0 };
        let (exact, brisk) = (ran(&fin, seconds, fine)?, ran(&fin, seconds, StepPace::brisk(seconds))?);
        let apart = exact.temperatures.iter().zip(&brisk.temperatures).map(|(a, b)| (a - b).abs()).fold(0.0, f64::max);
        // A tenth of a kelvin is worth a thousandth of strength; the rise is up to 70 K.
        assert!(apart < 0.1, "{seconds} s: {apart} K");
    }
    Ok(())
}
