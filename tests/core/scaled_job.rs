//! One job of a rod in many sizes.

/// A job of which every length is `size` times as large, masses by its cube, and speeds smaller by it: pressures are the
/// same, and inertia, mass times acceleration over area, too. The part's temperature is given, as heat flows otherwise.
/// `build` is a named direction: upright the layers carry, flat it lives long enough to compare lives.
pub(crate) fn scaled_job(size: f64, build: &str) -> String {
    let cube = size * size * size;
    format!(
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
        runs = "bush"
        [part.big_end]
        radial_clearance_mm = {:?}
        runs = "bearing"
        [print]
        build_direction = {:?}
        bead_width_mm = {:?}
        layer_height_mm = {:?}
        walls = 4
        infill_percent = 40.0
        # So warm that layers bond in full: the bond does not scale, as heat has its own lengths.
        chamber_c = 300.0
        bed_c = 300.0
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
        build,
        0.45 * size,
        0.2 * size,
        5000.0 / size,
    )
}
