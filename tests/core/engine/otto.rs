//! C23: with instant heat release the cycle model is the air-standard Otto cycle.

use std::f64::consts::PI;

use approx::assert_relative_eq;
use layload_core::engine::{Cylinder, GasCycle, GasExchange, SliderCrank};

use super::Tested;

pub(crate) const GAMMA: f64 = 1.4;

/// Closed from bottom to bottom, heat within a hundredth of a degree about the top, gas exchange at one pressure.
pub(crate) fn otto() -> GasCycle {
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
