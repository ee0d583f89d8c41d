//! The cycle model brought to a stated peak pressure.

use approx::assert_relative_eq;
use layload_core::engine::{Cylinder, GasCycle, GasError, SliderCrank};
use proptest::prelude::*;

use super::{Tested, otto};

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
            // The pressure is linear in heat and charge, so only rounding is left.
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

/// What a stated peak leaves of the fuel's heat: all of it, for each kilogram in the cylinder.
#[test]
fn a_lower_peak_is_a_later_burn_or_less_charge_and_no_colder_gas() -> Tested {
    let cylinder = cylinder()?;
    // One exponent: with two, heat before the top counts for more than the same heat after it.
    let cycle = GasCycle { compression_exponent: 1.3, expansion_exponent: 1.3, ..GasCycle::four_stroke() };
    let own = cycle.run(&cylinder, 1.0, 720)?;
    let mut before = (f64::NEG_INFINITY, 0.0);
    for share in [1.0, 0.9, 0.8, 0.7, 0.6, 0.5, 0.4] {
        let peak_pa = share * own.trace.peak().pressure_pa;
        let moved = cycle.scaled_to_peak(&cylinder, peak_pa, 720)?;
        let run = moved.run(&cylinder, 1.0, 720)?;
        // The search for the burn ends at a billionth of its way; heat takes up what is left.
        assert_relative_eq!(moved.heat_scale, 1.0, max_relative = 1e-6);
        assert_relative_eq!(run.heat_j / run.trapped_mass_kg, own.heat_j / own.trapped_mass_kg, max_relative = 1e-6);
        // The lower the later, within what engines run on.
        assert!(moved.burn_start_rad >= before.0 && moved.burn_duration_rad >= before.1, "{moved:?}");
        assert!(moved.burn_start_rad <= (-5_f64).to_radians() + 1e-9, "{moved:?}");
        assert!(moved.burn_duration_rad <= 90_f64.to_radians() + 1e-9, "{moved:?}");
        // A later burn leaves more of its heat in the gas that leaves, here at 130 degrees.
        assert!(run.temperature.samples_k()[130] >= own.temperature.samples_k()[130] * (1.0 - 1e-9), "{share}");
        before = (moved.burn_start_rad, moved.burn_duration_rad);
    }
    // A higher peak is a shorter burn first.
    let quick = cycle.scaled_to_peak(&cylinder, 1.05 * own.trace.peak().pressure_pa, 720)?;
    assert_relative_eq!(quick.heat_scale, 1.0, max_relative = 1e-6);
    assert!(quick.burn_duration_rad < cycle.burn_duration_rad);
    Ok(())
}

/// With the same heat and the same highest pressure no cycle does more work than the limited-pressure cycle, heat first at
/// constant volume and the rest at constant pressure, and that no more than Otto's (Heywood, ch. 5.5, ideal gas cycles).
#[test]
fn a_moved_burn_does_less_work_than_the_ideal_cycles() -> Tested {
    let cylinder = Cylinder::new(SliderCrank::new(0.020, 0.090, 0.0)?, 0.040, 8.0)?;
    let whole =
        GasCycle { burn_start_rad: (-25_f64).to_radians(), burn_duration_rad: 60_f64.to_radians(), ..otto::otto() };
    let own_pa = whole.run(&cylinder, 1.0, 7200)?.trace.peak().pressure_pa;
    let mut before = f64::INFINITY;
    for share in [1.0, 0.85, 0.7, 0.6] {
        let cycle = whole.scaled_to_peak(&cylinder, share * own_pa, 7200)?;
        let run = cycle.run(&cylinder, 1.0, 7200)?;
        let at = |index: usize| {
            (run.trace.samples_pa()[index % 7200], cylinder.volume_m3(run.trace.angle_rad(index % 7200)))
        };
        // From bottom to bottom over the firing top.
        let work_j: f64 = (5400..9000)
            .map(|index| {
                let ((p0, v0), (p1, v1)) = (at(index), at(index + 1));
                0.5 * (p0 + p1) * (v1 - v0)
            })
            .sum();
        let (g, r, heat_j) = (otto::GAMMA, 8.0, run.heat_j);
        let (p1, v1) = (cycle.open_manifold_pa, cylinder.volume_m3(std::f64::consts::PI));
        let (p2, top) = (p1 * libm::pow(r, g), v1 / r);
        let p3 = run.trace.peak().pressure_pa;
        let at_volume_j = (p3 - p2) * top / (g - 1.0);
        let wide = top + (heat_j - at_volume_j) * (g - 1.0) / (g * p3);
        let p4 = p3 * libm::pow(wide / v1, g);
        let limited_j = heat_j - (p4 - p1) * v1 / (g - 1.0);
        let otto_j = heat_j * (1.0 - libm::pow(r, 1.0 - g));
        assert!(work_j < limited_j && limited_j < otto_j, "{share}: {work_j} {limited_j} {otto_j}");
        // The first law again: what is not work is in the gas at the end (1e-5: trapezoid of a tenth of a degree).
        let left_j = (run.trace.samples_pa()[1800] - p1) * v1 / (g - 1.0);
        assert_relative_eq!(heat_j, work_j + left_j, max_relative = 1e-4);
        // Later is worse, for the same heat.
        assert!(work_j / heat_j <= before, "{share}");
        before = work_j / heat_j;
    }
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
