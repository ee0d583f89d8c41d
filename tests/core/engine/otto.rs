//! C23: with instant heat release the cycle model is the air-standard Otto cycle.

use std::f64::consts::PI;

use approx::assert_relative_eq;
use layload_core::engine::{Cylinder, GasCycle, GasExchange, SliderCrank};
use libm::pow;

use super::Tested;

const GAMMA: f64 = 1.4;

/// Closed from bottom to bottom, heat within a hundredth of a degree about the top, gas exchange at one pressure.
fn otto() -> GasCycle {
    GasCycle {
        exchange: GasExchange::Valves {
            exhaust_open_rad: PI,
            blow_down_end_rad: 181_f64.to_radians(),
            intake_open_rad: 350_f64.to_radians(),
            exhaust_close_rad: 370_f64.to_radians(),
            intake_close_rad: 3.0 * PI,
        },
        compression_exponent: GAMMA,
        expansion_exponent: GAMMA,
        burn_start_rad: (-0.005_f64).to_radians(),
        burn_duration_rad: 0.01_f64.to_radians(),
        open_manifold_pa: 1e5,
        closed_manifold_pa: 1e5,
        back_pressure_pa: 1e5,
        ..GasCycle::four_stroke()
    }
}

#[test]
fn efficiency_and_peak_pressure() -> Tested {
    for ratio in [4.0, 8.0, 11.0] {
        let cylinder = Cylinder::new(SliderCrank::new(0.020, 0.090, 0.0)?, 0.040, ratio)?;
        // Ten samples a degree, so that the trapezoid of the work is not what is tested.
        let run = otto().run(&cylinder, 1.0, 7200)?;
        let efficiency = run.trace.indicated_work_j(&cylinder) / run.heat_j;
        // Any thermodynamics text: 1 - r^(1 - gamma). 1 %: heat is nearly, not quite, instant; samples are finite.
        assert_relative_eq!(efficiency, 1.0 - pow(ratio, 1.0 - GAMMA), max_relative = 0.01);
        // Compression at constant entropy, then heat at constant volume.
        let compressed_pa = 1e5 * pow(ratio, GAMMA);
        let peak_pa = compressed_pa + (GAMMA - 1.0) * run.heat_j / cylinder.clearance_volume_m3();
        assert_relative_eq!(run.trace.peak().pressure_pa, peak_pa, max_relative = 0.01);
        assert!(run.trace.peak().angle_rad.abs() < 0.2_f64.to_radians());
    }
    Ok(())
}

#[test]
fn heat_is_the_fuels() -> Tested {
    let cylinder = Cylinder::new(SliderCrank::new(0.020, 0.090, 0.0)?, 0.040, 8.0)?;
    let cycle = otto();
    let run = cycle.run(&cylinder, 1.0, 720)?;
    // Ideal gas at bottom dead centre, then the stated shares, written out once more.
    let mass_kg = 1e5 * cylinder.volume_m3(PI) / (287.0 * 350.0);
    assert_relative_eq!(run.trapped_mass_kg, mass_kg, max_relative = 1e-12);
    assert_relative_eq!(run.fuel_mass_kg, mass_kg * 0.93 / 14.0, max_relative = 1e-12);
    assert_relative_eq!(run.heat_j, mass_kg * 0.93 / 14.0 * 43e6 * 0.92 * 0.8, max_relative = 1e-12);
    Ok(())
}
