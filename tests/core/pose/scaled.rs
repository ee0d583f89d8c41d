//! A part scaled together with everything else.

use layload_core::check;
use layload_core::job::Job;
use layload_core::verdict::Mode;

use super::Found;
use super::corpus::{part_of, question, sample_of};

/// A job of which every length is `size` times as large, masses by its cube, and speeds smaller by it: pressures are the
/// same, and inertia, mass times acceleration over area, too. The part's temperature is given, as heat flows otherwise.
fn job(size: f64) -> Found<Job> {
    let cube = size * size * size;
    Ok(Job::from_toml(&format!(
        r#"
        [engine]
        strokes = "four"
        bore_mm = {:?}
        stroke_mm = {:?}
        reciprocating_mass_g = {:?}
        compression_ratio = 6.5
        [engine.gas]
        peak_pressure_bar = 20.0
        [part.small_end]
        radial_clearance_mm = {:?}
        [part.big_end]
        radial_clearance_mm = {:?}
        [print]
        build_direction = "upright"
        bead_width_mm = {:?}
        layer_height_mm = {:?}
        walls = 4
        infill_percent = 40.0
        [material]
        name = "PA12-CF15"
        temperature_c = 60.0
        [duty]
        wanted_life_h = 2.0
        steps = [{{ rpm = {:?}, throttle = 1.0, seconds = 60.0 }}]
        [model]
        stations = 60
        "#,
        34.0 * size,
        46.0 * size,
        42.0 * cube,
        0.02 * size,
        0.03 * size,
        0.45 * size,
        0.2 * size,
        5000.0 / size,
    ))?)
}

/// What one load does is the same of a part half as large again. Life is not: it counts hours and turns.
#[test]
fn one_load_does_the_same_to_a_larger_part() -> Found<()> {
    let at_once =
        [Mode::OverloadAcrossLayers, Mode::OverloadInLayerPlane, Mode::Crushing, Mode::BearingPressure, Mode::Buckling];
    for name in ["samples/i_shank_rod.stl", "tests/meshes/unequal_depths.stl"] {
        let solid = sample_of(name)?.solid;
        let [here, larger] = [1.0, 1.5].map(|size| -> Found<_> {
            let job = job(size)?;
            Ok(check(&part_of(&solid.clone().scaled(size))?, &question(&job), &mut ())?)
        });
        let (here, larger) = (here?, larger?);
        let mut compared = 0;
        for mode in here.modes.iter().filter(|mode| at_once.contains(&mode.mode)) {
            let same = larger.modes.iter().find(|other| other.mode == mode.mode).ok_or("a mode is missing")?;
            // Rounding, by the squares and cubes of the factor.
            approx::assert_relative_eq!(mode.margin, same.margin, max_relative = 1e-6);
            compared += 1;
        }
        assert!(compared >= 4, "{name}: only {compared} modes");
    }
    Ok(())
}
