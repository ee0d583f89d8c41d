//! Forces on a piston balance at every crank angle.

use core::f64::consts::PI;

use approx::assert_relative_eq;

use super::{Tested, job, piston, worked};

/// Share of the peak within which a balance counts as kept: rounding of sums of a few terms.
const KEPT: f64 = 1e-9;

#[test]
fn newton_holds_for_the_whole_and_for_every_part() -> Tested {
    let job = job("samples/bench_piston.toml", |job| job.engine.pin_offset_mm = Some(1.5))?;
    let found = worked(&piston("tests/meshes/piston.stl")?, &job)?;
    let crank = found.prepared.cylinder.crank();
    let basis = found.loading.basis(0);
    let mass = basis.mass();
    for rpm in [600.0, 3000.0, 9000.0] {
        let speed = rpm * PI / 30.0;
        let all: Vec<_> = (0..basis.angles()).map(|angle| basis.at(angle, speed)).collect();
        let peak = all.iter().map(|f| f.gas.abs().max(f.pin.abs())).fold(0.0, f64::max);
        for (angle, force) in all.iter().enumerate() {
            let state = crank.at(angle as f64 * found.loading.throttles[0].trace.step_rad(), speed);
            // Piston without its pin: gas down, pin up.
            let along = force.pin - force.gas - mass.on_bosses() * state.piston_acceleration_m_s2;
            assert!(along.abs() < KEPT * peak, "{rpm} {angle}: {along}");
            // It goes straight: pin and wall hold each other.
            assert!((force.pin_side + force.wall).abs() < KEPT * peak, "{rpm} {angle}");
            // The massless rod pushes along its own line: what it does to the crank is the power of the piston.
            let rod = force.gas + mass.whole() * state.piston_acceleration_m_s2;
            let [u, w] = state.crank_pin_position_m;
            let on_crank = [-rod, -force.pin_side];
            let torque = u * on_crank[1] - w * on_crank[0];
            let power = -rod * state.piston_velocity_m_s / speed;
            assert!((torque - power).abs() < KEPT * peak * crank.throw_m(), "{rpm} {angle}: {torque} {power}");
            // Through every cut goes what the part beyond it needs.
            let planes = mass.planes();
            let last = planes.len() - 1;
            for (plane, &height) in planes.iter().enumerate() {
                let cut = basis.section(plane, angle, speed);
                let needed = if height > 0.0 {
                    -force.gas - mass.above(plane) * state.piston_acceleration_m_s2
                } else {
                    (mass.on_bosses() - mass.above(plane)) * state.piston_acceleration_m_s2
                };
                assert!((cut - needed).abs() < KEPT * peak, "{rpm} {angle} {plane}");
            }
            // Across the pin the force jumps by what the pin gives, but for the mass of the slab between the two cuts.
            let over = planes.iter().position(|&height| height > 0.0).ok_or("no cut over the pin")?;
            let slab = mass.above(over - 1) - mass.above(over);
            let jump = basis.section(over, angle, speed) - basis.section(over - 1, angle, speed);
            let owed = -force.pin + slab * state.piston_acceleration_m_s2;
            assert!((jump - owed).abs() < KEPT * peak, "{rpm} {angle}: {jump} {owed}");
            assert!(mass.above(last) < mass.above(0));
        }
    }
    Ok(())
}

#[test]
fn masses_are_those_of_the_mesh_and_the_job() -> Tested {
    let piston = piston("samples/flat_crown_piston.stl")?;
    let job = job("samples/bench_piston.toml", |job| {
        job.piston.pin_mass_g = Some(9.0);
        job.piston.ring_mass_g = Some(1.5);
    })?;
    let found = worked(&piston, &job)?;
    let plastic = piston.mesh.mass_properties().volume * found.prepared.scenario.card.density_kg_m3.value;
    let mass = found.loading.basis(0).mass();
    // Slabs are exact up to rounding.
    assert_relative_eq!(mass.plastic(), plastic, max_relative = 1e-9);
    assert_relative_eq!(mass.whole(), plastic + 9e-3 + 2.0 * 1.5e-3, max_relative = 1e-9);
    assert_relative_eq!(found.model.volume, piston.mesh.mass_properties().volume, max_relative = 1e-9);
    // Both rings sit above the pin.
    let over = mass.planes().iter().position(|&height| height > 1e-4).ok_or("no cut over the pin")?;
    assert!(mass.above(over) > 3e-3);
    Ok(())
}

#[test]
fn pieces_weigh_as_one() -> Tested {
    let (whole, pieces) = (piston("tests/meshes/piston.stl")?, piston("tests/meshes/piston_in_pieces.stl")?);
    let job = job("samples/bench_piston.toml", |job| job.model.stations = Some(200))?;
    let (one, two) = (worked(&whole, &job)?, worked(&pieces, &job)?);
    // The pieces end 0.2 mm before the cut walls, and their volume is summed from cuts: half a per cent.
    assert_relative_eq!(one.model.mass.plastic(), two.model.mass.plastic(), max_relative = 0.02);
    assert_relative_eq!(one.model.crown_thickness, two.model.crown_thickness, max_relative = 1e-3);
    Ok(())
}
