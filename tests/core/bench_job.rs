//! The job of an engine on a bench, with nothing said of the part.

/// One temperature, so that the modulus everywhere is the material's.
pub(crate) const BENCH_JOB: &str = r#"
    [engine]
    strokes = "four"
    bore_mm = 34.0
    stroke_mm = 46.0
    reciprocating_mass_g = 42.0
    compression_ratio = 6.5
    [engine.gas]
    peak_pressure_bar = 20.0
    [part.small_end]
    runs = "bush"
    [part.big_end]
    runs = "bearing"
    [material]
    name = "PA12-CF15"
    temperature_c = 23.0
    [duty]
    wanted_life_h = 2.0
    steps = [{ rpm = 5000.0, throttle = 1.0, seconds = 60.0 }]
"#;
