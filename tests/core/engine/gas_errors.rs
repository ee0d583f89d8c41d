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
fn limits_that_are_out_themselves() -> Tested {
    let good = GasCycle::four_stroke();
    refused_for(&GasCycle { compression_exponent: 1.0, ..good }, "exponent of compression")?;
    refused_for(&GasCycle { wiebe_efficiency: 0.0, ..good }, "Wiebe efficiency")?;
    refused_for(&GasCycle { closed_manifold_pa: 0.0, ..good }, "closed throttle")?;
    refused_for(&GasCycle { fresh_share: 0.0, ..good }, "fresh mixture")?;
    refused_for(&GasCycle { wall_loss_share: 1.0, ..good }, "wall loss")?;
    // And those that are in.
    run(&GasCycle { fresh_share: 1.0, combustion_efficiency: 1.0, wall_loss_share: 0.0, ..good }, 1.0, 720)?;
    run(&GasCycle { compression_exponent: 2.0, open_manifold_pa: good.closed_manifold_pa, ..good }, 0.0, 720)?;
    let (from, to) = (good.exchange.closed_from_rad(), good.exchange.closed_to_rad());
    run(&GasCycle { burn_start_rad: from, ..good }, 1.0, 720)?;
    run(&GasCycle { burn_start_rad: to - good.burn_duration_rad, ..good }, 1.0, 720)
}

/// A two-stroke is filled by its crankcase: pressed in more than sucked, warm, and mixed with much of what was burnt.
#[test]
fn a_two_stroke_is_filled_less_well() {
    let (four, two) = (GasCycle::four_stroke(), GasCycle::two_stroke());
    assert!(two.manifold_pa(0.0) > four.manifold_pa(0.0) && two.manifold_pa(1.0) > four.manifold_pa(1.0));
    assert!(two.charge_temperature_k > four.charge_temperature_k);
    assert!(two.fresh_share < four.fresh_share);
}

#[test]
fn each_refusal_says_what_to_do() -> Tested {
    let crank = SliderCrank::new(0.020, 0.090, 0.0)?;
    let bore = Cylinder::new(crank, 0.0, 8.0).err().ok_or("accepted")?;
    let ratio = Cylinder::new(crank, 0.04, 1.0).err().ok_or("accepted")?;
    assert!(bore.help().contains("bore") && ratio.help().contains("largest over smallest"));
    let cylinder = Cylinder::new(crank, 0.040, 8.5)?;
    let peak = GasCycle::four_stroke().scaled_to_peak(&cylinder, 1e5, 720).err().ok_or("accepted")?;
    assert!(peak.help().contains("absolute pressure"));
    let late = GasCycle { burn_duration_rad: 3.0, ..GasCycle::four_stroke() };
    assert!(late.run(&cylinder, 1.0, 720).err().ok_or("accepted")?.help().contains("shorten"));
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
