//! Limits that have a closed form: no heat, no motion, load that only lasts.

use approx::assert_relative_eq;
use layload_core::engine::{DEFAULT_SAMPLES, PressureTrace, Strokes};
use layload_core::life::KineticStrength;
use layload_core::material::{Lay, LayerPlane, LayerStrength};
use layload_core::rod::{End, Pressed, Temperatures};
use layload_core::verdict::Mode;

use super::{Tested, assessed, at, job, model, prepared};

/// Air and pins as cold as the room, °C.
const COLD: [f64; 3] = [23.0; 3];

#[test]
fn without_hysteresis_and_in_cold_surroundings_a_rod_is_cold() -> Tested {
    let mut settled = prepared("i_shank_rod.stl", &job(COLD))?;
    for point in &mut settled.scenario.card.thermal.loss_factor.points {
        point.loss_factor = 0.0;
    }
    let model = model(&settled);
    let warm = assessed(&settled, &model)?.strength;
    let cold = at(&settled, &model, &settled.scenario, &Temperatures::uniform(&model, 296.15))?.0.strength;
    // The fin's own iteration ends at a thousandth of a kelvin.
    assert_relative_eq!(warm.margin(), cold.margin(), max_relative = 1e-5);
    // With its own heat it is weaker.
    let lossy = prepared("i_shank_rod.stl", &job(COLD))?;
    assert!(assessed(&lossy, &model)?.strength.margin() <= warm.margin() * (1.0 + 1e-9));
    Ok(())
}

#[test]
fn hardly_turning_a_pressed_ring_breaks_its_eye_by_zhurkovs_law() -> Tested {
    // One turn in a minute and no gas: what is left is the ring's own hoop stress, which lasts.
    let job = job(COLD)
        .replace("rpm = 5000.0", "rpm = 1.0")
        .replace("[material]", "[part.small_end.ring]\nbearing = \"6000\"\ninterference_mm = 0.4\n[material]");
    let mut prepared = prepared("bearing_rod.stl", &job)?;
    let rows: Vec<String> = (0..144).map(|k| format!("{},1.0", 5 * k)).collect();
    prepared.scenario.engine.measured =
        Some(PressureTrace::from_csv(&rows.join("\n"), Strokes::Four, DEFAULT_SAMPLES)?);
    prepared.scenario.engine.peak_pressure = None;
    let model = model(&prepared);
    let scenario = &prepared.scenario;
    let kelvin = 333.15;
    let temperatures = Temperatures::uniform(&model, kelvin);
    let (found, _) = at(&prepared, &model, scenario, &temperatures)?;
    let governing = found.strength.modes.iter().filter(|mode| mode.counts_time());
    let worst = governing.min_by(|a, b| a.margin.total_cmp(&b.margin)).ok_or("no mode")?;
    assert_eq!(worst.mode, Mode::CreepRuptureInLayerPlane, "{:?}", found.strength.modes);
    // Closed form: the hoop stress by Lame over the strength of its direction, and Zhurkov's law through that strength.
    let ring = Pressed::of(&model, scenario, &scenario.card, &temperatures, End::Small).ok_or("no ring")?;
    let hoop = ring.running()?.eye_hoop;
    let state = scenario.card.at(kelvin, scenario.moisture);
    let creep = scenario.card.creep.in_si();
    let plane = LayerPlane::new(model.print.build);
    let life = |lay: Lay| -> Result<f64, Box<dyn std::error::Error>> {
        let strength = LayerStrength::of(&state, lay);
        let along = nalgebra::Vector3::y();
        let used = hoop * strength.use_of(&(along * along.transpose()), &plane).utilisation;
        let law = KineticStrength::through(creep.attempt_time, creep.activation_energy, 1.0, creep.short_test, kelvin)?;
        Ok(law.time_to_failure_s(used, kelvin)?)
    };
    // Printed flat, every point of the bore has a wall under it. The mean force of the rod's weight is a thousandth of the
    // ring's stress, and damage grows some twentyfold faster than stress.
    assert_relative_eq!(worst.median_life.ok_or("no life")?, life(Lay::Wall)?, max_relative = 0.05);
    Ok(())
}

#[test]
fn a_stronger_press_lasts_less_and_a_warmer_one_grips_less() -> Tested {
    let mut before = (f64::INFINITY, 0.0);
    for interference in ["0.05", "0.1", "0.2", "0.4"] {
        let job = job(COLD).replace(
            "[material]",
            &format!("[part.small_end.ring]\nbearing = \"6000\"\ninterference_mm = {interference}\n[material]"),
        );
        let prepared = prepared("bearing_rod.stl", &job)?;
        let model = model(&prepared);
        let temperatures = Temperatures::uniform(&model, 320.0);
        let (found, _) = at(&prepared, &model, &prepared.scenario, &temperatures)?;
        let life = found.strength.life_at(0.1);
        let card = &prepared.scenario.card;
        let ring = Pressed::of(&model, &prepared.scenario, card, &temperatures, End::Small).ok_or("no ring")?;
        let left = ring.pressure_after(3600.0)?;
        assert!(life <= before.0 && left > before.1, "{interference}: {life} s, {left} Pa after {before:?}");
        let hotter = Temperatures::uniform(&model, 340.0);
        let hot = Pressed::of(&model, &prepared.scenario, card, &hotter, End::Small).ok_or("no ring")?;
        assert!(hot.pressure_after(3600.0)? < left && ring.pressure_after(36_000.0)? < left);
        // Nothing is left at the temperature at which it says so.
        let loose = ring.loose_at().ok_or("heat opens it")?;
        let gone = Temperatures::uniform(&model, loose + 0.1);
        let gone = Pressed::of(&model, &prepared.scenario, card, &gone, End::Small).ok_or("no ring")?;
        assert_relative_eq!(gone.pressure_after(1.0)?, 0.0);
        before = (life, left);
    }
    Ok(())
}
