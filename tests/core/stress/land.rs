//! Ring lands, plates with a hot side and growth in a bore against closed forms and numeric integration.

use approx::assert_relative_eq;
use layload_core::stress::{AnnularPlate, GradedPlate, Growth, RoundPlate, StressError};

type Tested = Result<(), Box<dyn std::error::Error>>;

/// Slope and moment at the root by integrating the plate equation outward: an independent solution by shooting.
fn shot(root: f64, outer: f64, t: f64, e: f64, nu: f64, pressure: f64, edge: f64) -> (f64, f64) {
    let d = e * t * t * t / (12.0 * (1.0 - nu * nu));
    let run = |start: f64| {
        let steps = 20_000;
        let h = (outer - root) / f64::from(steps);
        // State: slope f, g = (r f)'/r, deflection w.
        let rate = |r: f64, (f, g, _): (f64, f64, f64)| {
            let shear = pressure * (outer * outer - r * r) / (2.0 * r) + edge * outer / r;
            (g - f / r, shear / d, f)
        };
        let (mut r, mut s) = (root, (0.0, start, 0.0));
        for _ in 0..steps {
            let add = |s: (f64, f64, f64), k: (f64, f64, f64), h: f64| (s.0 + h * k.0, s.1 + h * k.1, s.2 + h * k.2);
            let k1 = rate(r, s);
            let k2 = rate(r + 0.5 * h, add(s, k1, 0.5 * h));
            let k3 = rate(r + 0.5 * h, add(s, k2, 0.5 * h));
            let k4 = rate(r + h, add(s, k3, h));
            s = add(add(add(add(s, k1, h / 6.0), k2, h / 3.0), k3, h / 3.0), k4, h / 6.0);
            r += h;
        }
        // Moment over D at the free edge: f' + nu f / r with f' = g - f / r.
        (s.1 - s.0 / r + nu * s.0 / r, s.2)
    };
    // Linear in the start: two shots fix it.
    let ((m0, w0), (m1, w1)) = (run(0.0), run(1.0));
    let start = -m0 / (m1 - m0);
    (6.0 * (d * start).abs() / (t * t), (w0 + start * (w1 - w0)).abs())
}

#[test]
fn annular_plate_is_what_integration_gives() -> Tested {
    for (root, outer, t, nu) in [(15e-3, 16.7e-3, 2.5e-3, 0.35), (8e-3, 16e-3, 3e-3, 0.3), (4e-3, 16e-3, 3e-3, 0.0)] {
        let plate = AnnularPlate::new(root, outer, t, 3e9, nu)?;
        for (pressure, edge) in [(2e6, 0.0), (0.0, 400.0)] {
            let found = if edge == 0.0 { plate.under_pressure(pressure) } else { plate.under_edge_force(edge) };
            let (stress, deflection) = shot(root, outer, t, 3e9, nu, pressure, edge);
            // Fourth order with 20 000 steps leaves rounding only.
            assert_relative_eq!(found.root_stress, stress, max_relative = 1e-7);
            assert_relative_eq!(found.deflection, deflection, max_relative = 1e-7);
        }
    }
    Ok(())
}

#[test]
fn narrow_land_is_a_cantilever() -> Tested {
    // Depth a two-hundredth of the radius: curvature counts for less than a hundredth. Beam: M = p l²/2 per width.
    let (root, depth, t) = (0.1, 0.5e-3, 1e-3);
    let plate = AnnularPlate::new(root, root + depth, t, 3e9, 0.3)?;
    assert_relative_eq!(plate.under_pressure(1e6).root_stress, 3e6 * depth * depth / (t * t), max_relative = 1e-2);
    assert_relative_eq!(plate.under_edge_force(1e3).root_stress, 6e3 * depth / (t * t), max_relative = 1e-2);
    assert_relative_eq!(plate.under_pressure(1e6).root_shear, 1.5e6 * depth / t, max_relative = 1e-2);
    Ok(())
}

#[test]
fn annular_plate_by_the_handbook() -> Tested {
    // Timoshenko & Woinowsky-Krieger, table of annular plates, inner edge clamped, outer free, even load, nu 0.3:
    // greatest stress k q a²/h² with k to three digits (memory; the integration above is the other derivation).
    for (ratio, k) in [(1.25, 0.135), (1.5, 0.410), (2.0, 1.04), (3.0, 2.15), (4.0, 2.99), (5.0, 3.69)] {
        let plate = AnnularPlate::new(1.0 / ratio, 1.0, 0.05, 1e9, 0.3)?;
        // Printed to two or three digits.
        assert_relative_eq!(plate.under_pressure(1.0).root_stress * 0.05 * 0.05, k, max_relative = 0.01);
    }
    Ok(())
}

#[test]
fn bad_lands_are_refused() {
    assert!(matches!(AnnularPlate::new(2.0, 1.0, 0.1, 1e9, 0.3), Err(StressError::NotNested { .. })));
    for bad in [0.0, -1.0, f64::NAN, f64::INFINITY] {
        assert!(AnnularPlate::new(bad, 1.0, 0.1, 1e9, 0.3).is_err());
        assert!(AnnularPlate::new(0.5, 1.0, bad, 1e9, 0.3).is_err());
        assert!(GradedPlate::new(&[0.0, 1.0], &[1.0, bad]).is_err());
    }
    assert!(GradedPlate::new(&[0.0, 1.0, 1.0], &[1.0; 3]).is_err());
    assert!(GradedPlate::new(&[0.0], &[1.0]).is_err());
}

#[test]
fn even_plate_bends_as_round_plate() -> Tested {
    let (radius, t, nu, pressure) = (12e-3, 4e-3, 0.35, 2e6);
    let plate = GradedPlate::new(&[0.0, 1e-3, 2.5e-3, 4e-3], &[3e9; 4])?;
    let stress = plate.stress_per_moment();
    // Moment in the middle of a supported plate: (3 + nu) p a² / 16 (Roark).
    let moment = (3.0 + nu) * pressure * radius * radius / 16.0;
    let handbook = RoundPlate::new(radius, t, 3e9, nu)?.supported(pressure).center_stress;
    assert_relative_eq!(stress[3] * moment, handbook, max_relative = 1e-12);
    assert_relative_eq!(stress[0], -stress[3], max_relative = 1e-12);
    assert_relative_eq!(plate.neutral_depth(), t / 2.0, max_relative = 1e-12);
    assert_relative_eq!(plate.equal_thickness(), t, max_relative = 1e-12);
    Ok(())
}

#[test]
fn soft_side_leaves_the_rest_to_carry() -> Tested {
    // A millimetre without stiffness on three of sound plastic is a plate of three millimetres.
    let soft = GradedPlate::new(&[0.0, 1e-3, 1e-3 + 1e-9, 4e-3], &[1.0, 1.0, 3e9, 3e9])?;
    let sound = GradedPlate::new(&[0.0, 3e-3], &[3e9, 3e9])?;
    assert_relative_eq!(soft.stress_per_moment()[3], sound.stress_per_moment()[1], max_relative = 1e-5);
    assert_relative_eq!(soft.equal_thickness(), 3e-3, max_relative = 1e-5);
    Ok(())
}

#[test]
fn growth_in_a_bore() -> Tested {
    // By hand: 34 mm of plastic at 60e-6 over 100 K grows 0.204 mm; steel at 12e-6 over 80 K grows 0.03264 mm.
    let growth = Growth {
        diameter: 34e-3,
        expansion: 60e-6,
        temperature: 396.15,
        bore: 34e-3,
        bore_expansion: 12e-6,
        bore_temperature: 376.15,
        cold: 296.15,
    }
    .checked()?;
    assert_relative_eq!(growth.of_part(), 0.204e-3, max_relative = 1e-12);
    assert_relative_eq!(growth.wanted_clearance(0.02e-3), 0.19136e-3, max_relative = 1e-9);
    let fitted = Growth { diameter: 34e-3 - growth.wanted_clearance(0.0), ..growth };
    // The smaller part grows a little less than the bore's own size would.
    assert!(fitted.running_clearance() > 0.0 && fitted.running_clearance() < 2e-6);
    assert!(Growth { diameter: 0.0, ..growth }.checked().is_err());
    Ok(())
}
