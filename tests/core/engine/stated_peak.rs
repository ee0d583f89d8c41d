//! The cycle model brought to a stated peak pressure.

use approx::assert_relative_eq;
use layload_core::engine::{Cylinder, GasCycle, GasError, SliderCrank};
use proptest::prelude::*;

use super::Tested;

fn cylinder() -> Result<Cylinder, Box<dyn std::error::Error>> {
    Ok(Cylinder::new(SliderCrank::new(0.020, 0.090, 0.001)?, 0.040, 8.5)?)
}

#[test]
fn peak_is_the_stated_one() -> Tested {
    let cylinder = cylinder()?;
    for cycle in [GasCycle::four_stroke(), GasCycle::two_stroke()] {
        for peak_pa in [25e5, 45e5, 70e5] {
            let scaled = cycle.scaled_to_peak(&cylinder, peak_pa, 720)?;
            let run = scaled.run(&cylinder, 1.0, 720)?;
            // The pressure is linear in the heat, so only rounding is left.
            assert_relative_eq!(run.trace.peak().pressure_pa, peak_pa, max_relative = 1e-12);
            // The same heat release at part throttle stays below.
            assert!(scaled.run(&cylinder, 0.5, 720)?.trace.peak().pressure_pa < peak_pa);
        }
    }
    Ok(())
}

#[test]
fn scaling_to_the_models_own_peak_changes_nothing() -> Tested {
    let cylinder = cylinder()?;
    let cycle = GasCycle::four_stroke();
    let own_pa = cycle.run(&cylinder, 1.0, 720)?.trace.peak().pressure_pa;
    assert_relative_eq!(cycle.scaled_to_peak(&cylinder, own_pa, 720)?.heat_scale, 1.0, max_relative = 1e-12);
    Ok(())
}

#[test]
fn peaks_out_of_reach_are_refused() -> Tested {
    let cylinder = cylinder()?;
    let cycle = GasCycle::four_stroke();
    let motored = GasCycle { heat_scale: 0.0, ..cycle }.run(&cylinder, 1.0, 720)?.trace.peak().pressure_pa;
    for bad in [motored, 0.5 * motored, 0.0, -1.0, 1e9, f64::INFINITY, f64::NAN] {
        let got = cycle.scaled_to_peak(&cylinder, bad, 720);
        let Err(GasError::PeakOutOfReach { least_pa, most_pa, .. }) = got else {
            return Err(format!("{bad} gave {got:?}").into());
        };
        assert_relative_eq!(least_pa, motored, max_relative = 1e-12);
        // The upper end named in the error is itself reachable.
        assert!(cycle.scaled_to_peak(&cylinder, most_pa, 720).is_ok());
    }
    assert!(cycle.scaled_to_peak(&cylinder, 1.001 * motored, 720).is_ok());
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(32))]
    #[test]
    fn any_reachable_peak_is_met(ratio in 5.0_f64..12.0, offset_mm in -5.0_f64..5.0, share in 0.01_f64..0.99) {
        let built = SliderCrank::new(0.020, 0.080, offset_mm * 1e-3).ok()
            .and_then(|crank| Cylinder::new(crank, 0.045, ratio).ok());
        prop_assume!(built.is_some());
        let Some(cylinder) = built else { return Ok(()) };
        let cycle = GasCycle::four_stroke();
        let limits = cycle.scaled_to_peak(&cylinder, 0.0, 360);
        let Err(GasError::PeakOutOfReach { least_pa, most_pa, .. }) = limits else {
            return Err(TestCaseError::fail(format!("{limits:?}")));
        };
        let peak_pa = least_pa + share * (most_pa - least_pa);
        let run = cycle.scaled_to_peak(&cylinder, peak_pa, 360).and_then(|scaled| scaled.run(&cylinder, 1.0, 360));
        let got = run.map(|run| run.trace.peak().pressure_pa);
        prop_assert!(got.as_ref().is_ok_and(|got| (got / peak_pa - 1.0).abs() < 1e-12), "{got:?} for {peak_pa}");
    }
}
