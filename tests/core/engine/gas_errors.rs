//! What the cycle model refuses.

use layload_core::engine::{Cylinder, GasCycle, GasError, GasExchange, SliderCrank};

use super::Tested;

fn run(cycle: &GasCycle, throttle: f64, samples: usize) -> Result<(), Box<dyn std::error::Error>> {
    let cylinder = Cylinder::new(SliderCrank::new(0.020, 0.090, 0.0)?, 0.040, 8.5)?;
    Ok(cycle.run(&cylinder, throttle, samples).map(|_| ())?)
}

fn refused_for(cycle: &GasCycle, expected: &str) -> Tested {
    match run(cycle, 1.0, 720) {
        Err(error) if error.to_string().contains(expected) => Ok(()),
        other => Err(format!("expected '{expected}', got {other:?}").into()),
    }
}

#[test]
fn numbers_out_of_range() -> Tested {
    let good = GasCycle::four_stroke();
    for bad in [f64::NAN, f64::INFINITY, -1.0] {
        refused_for(&GasCycle { compression_exponent: bad, ..good }, "exponent of compression")?;
        refused_for(&GasCycle { expansion_exponent: bad, ..good }, "exponent of expansion")?;
        refused_for(&GasCycle { wiebe_efficiency: bad, ..good }, "Wiebe efficiency")?;
        refused_for(&GasCycle { wiebe_form: bad, ..good }, "Wiebe form")?;
        refused_for(&GasCycle { burn_duration_rad: bad, ..good }, "burn duration")?;
        refused_for(&GasCycle { closed_manifold_pa: bad, ..good }, "closed throttle")?;
        refused_for(&GasCycle { open_manifold_pa: bad, ..good }, "open throttle")?;
        refused_for(&GasCycle { back_pressure_pa: bad, ..good }, "back pressure")?;
        refused_for(&GasCycle { charge_temperature_k: bad, ..good }, "charge temperature")?;
        refused_for(&GasCycle { gas_constant_j_kg_k: bad, ..good }, "gas constant")?;
        refused_for(&GasCycle { fresh_share: bad, ..good }, "fresh mixture")?;
        refused_for(&GasCycle { air_fuel_ratio: bad, ..good }, "air-fuel ratio")?;
        refused_for(&GasCycle { lower_heating_value_j_kg: bad, ..good }, "heating value")?;
        refused_for(&GasCycle { combustion_efficiency: bad, ..good }, "combustion efficiency")?;
        refused_for(&GasCycle { wall_loss_share: bad, ..good }, "wall loss")?;
        refused_for(&GasCycle { heat_scale: bad, ..good }, "heat scale")?;
    }
    refused_for(&GasCycle { burn_start_rad: f64::NAN, ..good }, "start of combustion")?;
    refused_for(&GasCycle { open_manifold_pa: 30e3, ..good }, "no less than at closed throttle")?;
    for throttle in [-0.01, 1.01, f64::NAN] {
        assert!(run(&good, throttle, 720).is_err_and(|e| e.to_string().contains("throttle")));
    }
    for samples in [0, 35, 72_001, usize::MAX] {
        assert!(run(&good, 1.0, samples).is_err_and(|e| e.to_string().contains("samples")));
    }
    assert!(run(&good, 1.0, 36).is_ok());
    Ok(())
}

#[test]
fn combustion_outside_the_closed_period() -> Tested {
    let good = GasCycle::four_stroke();
    refused_for(&GasCycle { burn_start_rad: (-131_f64).to_radians(), ..good }, "leaves the closed period")?;
    refused_for(&GasCycle { burn_duration_rad: 170_f64.to_radians(), ..good }, "leaves the closed period")
}

#[test]
fn timing_out_of_order() -> Tested {
    let good = GasCycle::two_stroke();
    for (open, transfer, close) in [
        (120.0, 105.0, 255.0),
        (105.0, 256.0, 255.0),
        (105.0, 120.0, 360.0),
        (0.0, 120.0, 255.0),
        (105.0, f64::NAN, 255.0),
    ] {
        let exchange = GasExchange::Ports {
            exhaust_open_rad: f64::to_radians(open),
            transfer_open_rad: f64::to_radians(transfer),
            exhaust_close_rad: f64::to_radians(close),
        };
        refused_for(&GasCycle { exchange, ..good }, "must come after")?;
    }
    Ok(())
}

#[test]
fn extreme_but_accepted_numbers_end_in_an_error_not_in_nonsense() -> Tested {
    // A compression ratio that overflows the pressure.
    let cylinder = Cylinder::new(SliderCrank::new(0.020, 0.090, 0.0)?, 0.040, 1e300)?;
    let got = GasCycle::four_stroke().run(&cylinder, 1.0, 720);
    assert!(matches!(got, Err(GasError::Trace(_))), "{got:?}");
    Ok(())
}
