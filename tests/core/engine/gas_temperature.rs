//! Gas temperature that belongs to a pressure trace.

use std::f64::consts::PI;

use approx::assert_relative_eq;
use layload_core::engine::{
    Cylinder, GasCycle, GasError, GasExchange, GasTemperature, PressureTrace, SliderCrank, Strokes,
};

use super::Tested;

#[test]
fn ideal_gas_while_closed() -> Tested {
    let cylinder = Cylinder::new(SliderCrank::new(0.020, 0.090, 0.0)?, 0.040, 8.5)?;
    let cycle = GasCycle::four_stroke();
    let run = cycle.run(&cylinder, 1.0, 720)?;
    // T = p V / (m R), at 100 degrees before, at and 120 degrees after the top.
    for index in [620_usize, 0, 120] {
        let volume = cylinder.volume_m3(run.trace.angle_rad(index));
        let expected = run.trace.samples_pa()[index] * volume / (run.trapped_mass_kg * cycle.gas_constant_j_kg_k);
        assert_relative_eq!(run.temperature.samples_k()[index], expected, max_relative = 1e-9);
    }
    Ok(())
}

#[test]
fn isothermal_trace_gives_one_temperature_while_closed() -> Tested {
    // p V = const is T = const: closed form, no use of the cycle model.
    let cylinder = Cylinder::new(SliderCrank::new(0.020, 0.090, 0.0)?, 0.040, 8.5)?;
    let angle = |index: usize| index as f64 * PI / 360.0;
    let samples = (0..720).map(|index| 1e5 * cylinder.volume_m3(PI) / cylinder.volume_m3(angle(index))).collect();
    let trace = PressureTrace::new(Strokes::Two, samples)?;
    let temperature = GasTemperature::of(&trace, &cylinder, &GasExchange::typical_ports(), 400.0)?;
    for index in (0..210).chain(510..720) {
        assert_relative_eq!(temperature.samples_k()[index], 400.0, max_relative = 1e-9);
    }
    Ok(())
}

#[test]
fn joins_without_a_jump_and_ends_at_the_charge() -> Tested {
    let cylinder = Cylinder::new(SliderCrank::new(0.020, 0.090, 0.0)?, 0.040, 8.5)?;
    for cycle in [GasCycle::four_stroke(), GasCycle::two_stroke()] {
        let largest_step = |samples| {
            let run = cycle.run(&cylinder, 1.0, samples)?;
            let t = run.temperature.samples_k().to_vec();
            let steps = (0..t.len()).map(|i| (t[(i + 1) % t.len()] - t[i]).abs());
            Ok::<f64, GasError>(steps.fold(0.0, f64::max))
        };
        assert!(largest_step(7200)? < 0.12 * largest_step(720)?);
        let run = cycle.run(&cylinder, 1.0, 720)?;
        let closing = cycle.exchange.closed_from_rad() + run.trace.strokes().cycle_rad();
        let index = (closing / run.trace.step_rad()).round() as usize;
        assert_relative_eq!(run.temperature.samples_k()[index], cycle.charge_temperature_k, max_relative = 1e-9);
        let mean = run.temperature.mean_k();
        assert!(mean > cycle.charge_temperature_k && mean < run.temperature.peak_k());
    }
    Ok(())
}

#[test]
fn burnt_gas_expands_and_makes_way() -> Tested {
    let cylinder = Cylinder::new(SliderCrank::new(0.020, 0.090, 0.0)?, 0.040, 8.5)?;
    let cycle = GasCycle::four_stroke();
    let run = cycle.run(&cylinder, 1.0, 720)?;
    let (p, t) = (run.trace.samples_pa(), run.temperature.samples_k());
    // Opened at 130 degrees: from there an isentrope of exponent 1.3, T / T_open = (p / p_open)^(1 - 1/n).
    let burnt = |degree: usize| t[130] * libm::pow(p[degree] / p[130], 1.0 - 1.0 / 1.3);
    for degree in [150, 190, 300, 344] {
        assert_relative_eq!(t[degree], burnt(degree), max_relative = 1e-12);
    }
    // Halfway through the overlap of the valves (345 to 375 degrees) half of it is gone, after that all.
    assert_relative_eq!(t[360], f64::midpoint(burnt(360), cycle.charge_temperature_k), max_relative = 1e-12);
    assert_relative_eq!(t[480], cycle.charge_temperature_k, max_relative = 1e-12);
    Ok(())
}

#[test]
fn mismatched_strokes_are_refused() -> Tested {
    let cylinder = Cylinder::new(SliderCrank::new(0.020, 0.090, 0.0)?, 0.040, 8.5)?;
    let trace = PressureTrace::new(Strokes::Four, vec![1e5; 720])?;
    let ports = GasExchange::typical_ports();
    assert_eq!(GasTemperature::of(&trace, &cylinder, &ports, 350.0), Err(GasError::StrokesDiffer));
    for bad in [0.0, -1.0, f64::NAN] {
        let got = GasTemperature::of(&trace, &cylinder, &GasExchange::typical_valves(), bad);
        assert!(matches!(got, Err(GasError::OutOfRange { .. })), "{got:?}");
    }
    Ok(())
}
