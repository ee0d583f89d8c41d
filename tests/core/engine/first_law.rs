//! The cycle model keeps the books of energy and joins its phases without a jump.

use approx::assert_relative_eq;
use layload_core::engine::{Cylinder, GasCycle, GasExchange, SliderCrank};
use libm::{exp, pow};

use super::Tested;

fn cylinder(pin_offset_m: f64) -> Result<Cylinder, Box<dyn std::error::Error>> {
    Ok(Cylinder::new(SliderCrank::new(0.020, 0.090, pin_offset_m)?, 0.040, 8.5)?)
}

#[test]
fn motored_cycle_with_equal_exponents_does_no_work() -> Tested {
    let cylinder = cylinder(0.0)?;
    // Closed symmetrically about the top (130 degrees either way), one pressure outside.
    let motored = GasCycle {
        expansion_exponent: 1.32,
        open_manifold_pa: 1e5,
        back_pressure_pa: 1e5,
        heat_scale: 0.0,
        ..GasCycle::four_stroke()
    };
    let run = motored.run(&cylinder, 1.0, 720)?;
    let scale_j = 1e5 * cylinder.displacement_m3();
    // Every pressure comes back at the mirrored angle, so only rounding is left.
    assert!(run.trace.indicated_work_j(&cylinder).abs() < 1e-9 * scale_j);
    assert_relative_eq!(run.heat_j, 0.0);
    // And it does cost work as soon as expansion is steeper than compression.
    let lossy = GasCycle { expansion_exponent: 1.40, ..motored }.run(&cylinder, 1.0, 720)?;
    assert!(lossy.trace.indicated_work_j(&cylinder) < -0.01 * scale_j);
    Ok(())
}

#[test]
fn heat_is_work_plus_internal_energy() -> Tested {
    // First law over the closed period with U = p V / (n - 1): Q = W + U_end - U_begin.
    let n = 1.3;
    for offset_m in [0.0, 0.003] {
        let cylinder = cylinder(offset_m)?;
        let cycle = GasCycle { compression_exponent: n, expansion_exponent: n, ..GasCycle::four_stroke() };
        let run = cycle.run(&cylinder, 0.8, 7200)?;
        let samples = run.trace.samples_pa();
        let at = |index: i32| {
            let wrapped = index.rem_euclid(7200) as usize;
            (samples[wrapped], cylinder.volume_m3(run.trace.angle_rad(wrapped)))
        };
        let (from, to) = (-1300, 1300);
        let work_j: f64 = (from..to)
            .map(|index| {
                let ((p0, v0), (p1, v1)) = (at(index), at(index + 1));
                0.5 * (p0 + p1) * (v1 - v0)
            })
            .sum();
        let energy = |(p, v): (f64, f64)| p * v / (n - 1.0);
        // 1e-5: the trapezoid over steps of a tenth of a degree.
        assert_relative_eq!(run.heat_j, work_j + energy(at(to)) - energy(at(from)), max_relative = 1e-5);
    }
    Ok(())
}

/// The same law stepped as it is written, dp = -n p dV/V + (n-1) dQ/V, by fourth-order Runge-Kutta.
fn stepped_pa(cycle: &GasCycle, cylinder: &Cylinder, heat_j: f64, closing_pa: f64, to_rad: f64) -> f64 {
    let burn_rate = |t: f64| {
        let y = (t - cycle.burn_start_rad) / cycle.burn_duration_rad;
        if !(0.0..=1.0).contains(&y) {
            return 0.0;
        }
        let (a, m) = (cycle.wiebe_efficiency, cycle.wiebe_form);
        a * (m + 1.0) * pow(y, m) * exp(-a * pow(y, m + 1.0)) / (1.0 - exp(-a)) / cycle.burn_duration_rad
    };
    let top = cylinder.crank().top_angle_rad();
    let end = cycle.burn_start_rad + cycle.burn_duration_rad;
    let mut stops = vec![cycle.exchange.closed_from_rad(), cycle.burn_start_rad, top, end, to_rad];
    stops.retain(|stop| *stop <= to_rad);
    stops.sort_by(f64::total_cmp);
    stops.dedup();
    let mut p = closing_pa;
    for ends in stops.windows(2) {
        let middle = 0.5 * (ends[0] + ends[1]);
        let n = if middle < top { cycle.compression_exponent } else { cycle.expansion_exponent };
        // Rates are taken just inside the stretch, where they have no kink.
        let inside = |t: f64| t.clamp(ends[0] + 1e-12, ends[1] - 1e-12);
        let rate = |t: f64, p: f64| {
            let v = cylinder.volume_m3(t);
            (-n * p * cylinder.volume_rate_m3(t) + (n - 1.0) * heat_j * burn_rate(inside(t))) / v
        };
        let steps = 400;
        let h = (ends[1] - ends[0]) / f64::from(steps);
        for step in 0..steps {
            let t = ends[0] + f64::from(step) * h;
            let k1 = rate(t, p);
            let k2 = rate(t + h / 2.0, p + h / 2.0 * k1);
            let k3 = rate(t + h / 2.0, p + h / 2.0 * k2);
            let k4 = rate(t + h, p + h * k3);
            p += h / 6.0 * (k1 + 2.0 * k2 + 2.0 * k3 + k4);
        }
    }
    p
}

#[test]
fn pressure_follows_the_differential_law() -> Tested {
    for offset_m in [0.0, 0.004] {
        let cylinder = cylinder(offset_m)?;
        for (cycle, closing_pa, samples) in
            [(GasCycle::four_stroke(), 95e3, 720_u16), (GasCycle::two_stroke(), 108e3, 360)]
        {
            let run = cycle.run(&cylinder, 1.0, usize::from(samples))?;
            for degree in [-100_i16, -60, -21, -5, 0, 1, 3, 12, 20, 34, 36, 60, 100] {
                let to_rad = f64::from(degree).to_radians();
                let expected = stepped_pa(&cycle, &cylinder, run.heat_j, closing_pa, to_rad);
                // 1e-7: Runge-Kutta with some hundred steps a stretch and Gauss-Legendre agree this far.
                assert_relative_eq!(run.trace.pressure_at_pa(to_rad), expected, max_relative = 1e-7);
            }
        }
    }
    Ok(())
}

/// The burn is worked out as finely where few samples are wanted: one step spans a third of it.
#[test]
fn few_samples_have_the_pressures_of_many() -> Tested {
    let cylinder = cylinder(0.003)?;
    for (cycle, few) in [(GasCycle::four_stroke(), 36_u16), (GasCycle::two_stroke(), 36), (GasCycle::four_stroke(), 40)]
    {
        let (coarse, fine) = (cycle.run(&cylinder, 0.7, few.into())?, cycle.run(&cylinder, 0.7, 7200)?);
        for (index, pressure) in coarse.trace.samples_pa().iter().enumerate() {
            let same = fine.trace.samples_pa()[index * 7200 / usize::from(few)];
            // Three points to each sixteenth of the burn against many more: the rule is of the sixth order.
            assert_relative_eq!(*pressure, same, max_relative = 1e-7);
        }
    }
    Ok(())
}

#[test]
fn pressure_has_no_jump() -> Tested {
    let cylinder = cylinder(0.0)?;
    for cycle in [GasCycle::four_stroke(), GasCycle::two_stroke()] {
        let largest_step = |samples| {
            let run = cycle.run(&cylinder, 1.0, samples)?;
            let p = run.trace.samples_pa().to_vec();
            let steps = (0..p.len()).map(|i| (p[(i + 1) % p.len()] - p[i]).abs());
            Ok::<f64, layload_core::engine::GasError>(steps.fold(0.0, f64::max))
        };
        // Ten times finer sampling makes the largest step about ten times smaller; a jump would stay.
        assert!(largest_step(7200)? < 0.12 * largest_step(720)?);
    }
    Ok(())
}

#[test]
fn gas_exchange_runs_at_the_outside_pressures() -> Tested {
    let cylinder = cylinder(0.0)?;
    let four = GasCycle::four_stroke();
    let run = four.run(&cylinder, 0.5, 720)?;
    for (degree, expected) in [(200.0_f64, 108e3), (340.0, 108e3), (380.0, 67.5e3), (580.0, 67.5e3)] {
        assert_relative_eq!(run.trace.pressure_at_pa(degree.to_radians()), expected, max_relative = 1e-12);
    }
    let two = GasCycle::two_stroke().run(&cylinder, 0.5, 720)?;
    for degree in [121.0_f64, 180.0, 254.0] {
        assert_relative_eq!(two.trace.pressure_at_pa(degree.to_radians()), 108e3, max_relative = 1e-12);
    }
    Ok(())
}

#[test]
fn throttle_scales_charge_and_peak() -> Tested {
    let cylinder = cylinder(0.0)?;
    for cycle in [GasCycle::four_stroke(), GasCycle::two_stroke()] {
        let mut before = 0.0;
        for tenth in 0..=10 {
            let run = cycle.run(&cylinder, f64::from(tenth) / 10.0, 720)?;
            assert!(run.trace.peak().pressure_pa > before);
            before = run.trace.peak().pressure_pa;
        }
        // A four-stroke traps in proportion to manifold pressure; a two-stroke traps the same mass, less fresh.
        let (closed, open) = (cycle.run(&cylinder, 0.0, 720)?, cycle.run(&cylinder, 1.0, 720)?);
        let fuel_share = cycle.closed_manifold_pa / cycle.open_manifold_pa;
        let mass_share = if matches!(cycle.exchange, GasExchange::Valves { .. }) { fuel_share } else { 1.0 };
        assert_relative_eq!(closed.fuel_mass_kg / open.fuel_mass_kg, fuel_share, max_relative = 1e-12);
        assert_relative_eq!(closed.trapped_mass_kg / open.trapped_mass_kg, mass_share, max_relative = 1e-12);
    }
    Ok(())
}
