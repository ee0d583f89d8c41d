//! Every number of a job has its row of what is possible and what is usual.

use layload_core::job::{Job, numbers_with_a_row};

/// Every table and list of a job with an entry in it; what numbers it holds does not matter.
const FULL: &str = r#"
    [engine]
    bore_mm = 1.0
    stroke_mm = 1.0
    reciprocating_mass_g = 1.0
    compression_ratio = 1.0
    pin_offset_mm = 1.0
    piston_to_head_mm = 1.0
    gas = { peak_pressure_bar = 1.0, crankcase_pressure_bar = 1.0, peak_spread_percent = 1.0, knock_every = 1.0, knock_times = 1.0 }
    [part.small_end]
    diameter_mm = 1.0
    radial_clearance_mm = 1.0
    ring = { bore_mm = 1.0, outside_mm = 1.0, width_mm = 1.0, interference_mm = 1.0, dynamic_rating_n = 1.0 }
    [part.big_end]
    diameter_mm = 1.0
    radial_clearance_mm = 1.0
    cap = { studs = 1, thread_mm = 1.0, pitch_mm = 1.0, grip_mm = 1.0, head_mm = 1.0, hole_mm = 1.0, preload_n = 1.0, torque_n_m = 1.0 }
    [part.piston]
    diameter_mm = 1.0
    pin_diameter_mm = 1.0
    grooves = [{ below_crown_mm = 1.0, width_mm = 1.0, depth_mm = 1.0 }]
    [print]
    bead_width_mm = 1.0
    layer_height_mm = 1.0
    walls = 1
    skin_layers = 1
    infill_percent = 1.0
    bead_speed_mm_s = 1.0
    layer_change_s = 1.0
    least_layer_s = 1.0
    nozzle_c = 1.0
    bed_c = 1.0
    chamber_c = 1.0
    fan_percent = 1.0
    parts_together = 1
    overhang_deg = 1.0
    support_percent = 1.0
    [material]
    temperature_c = 1.0
    [surroundings]
    crankcase_air_c = 1.0
    piston_pin_c = 1.0
    crank_pin_c = 1.0
    start_c = 1.0
    [duty]
    wanted_life_h = 1.0
    run_s = 1.0
    steps = [{ rpm = 1.0, throttle = 1.0, seconds = 1.0 }]
    [model]
    stations = 1
    end_fixity_in_plane = 1.0
    end_fixity_across = 1.0
    [piston]
    rod_length_mm = 1.0
    pin_mass_g = 1.0
    ring_mass_g = 1.0
    underside_film_w_m2_k = 1.0
    wall_film_w_m2_k = 1.0
    cylinder_wall_c = 1.0
    running_clearance_mm = 1.0
    soft_share = 1.0
    crown_thickness_mm = 1.0
    plate_diameter_mm = 1.0
    pin_clearance_mm = 1.0
    [[piston.layers]]
    name = "plate"
    thickness_mm = 1.0
    conductivity_w_m_k = 1.0
    density_kg_m3 = 1.0
    specific_heat_j_kg_k = 1.0
    joint_w_m2_k = 1.0
    [[place]]
    bore = { diameter_mm = 1.0 }
    face = { within_deg = 1.0 }
    [[hold]]
    clearance_mm = 1.0
    [[load]]
    clearance_mm = 1.0
    pressure_bar = 1.0
    spin = { rpm = 1.0 }
    [[warm]]
    temperature_c = 1.0
    reach_mm = 1.0
"#;

/// Keys of all numbers in a table; of lists of tables those of their entries, coordinates left out.
fn numbers(within: &str, value: &toml::Value, found: &mut Vec<String>) {
    match value {
        toml::Value::Table(table) => {
            for (key, value) in table {
                let key = if within.is_empty() { key.clone() } else { format!("{within}.{key}") };
                numbers(&key, value, found);
            }
        }
        toml::Value::Array(list) => {
            list.iter().filter(|entry| entry.is_table()).for_each(|entry| numbers(within, entry, found));
        }
        toml::Value::Integer(_) | toml::Value::Float(_) => found.push(within.into()),
        _ => {}
    }
}

/// All number types in the schema of a table and what it refers to.
fn in_schema(schema: &serde_json::Value, node: &serde_json::Value, within: &str, found: &mut Vec<String>) {
    if let Some(name) = node["$ref"].as_str() {
        let target = schema.pointer(name.trim_start_matches('#')).cloned().unwrap_or_default();
        return in_schema(schema, &target, within, found);
    }
    for choice in node["anyOf"].as_array().into_iter().flatten() {
        in_schema(schema, choice, within, found);
    }
    if let Some(properties) = node["properties"].as_object() {
        for (key, value) in properties {
            let key = if within.is_empty() { key.clone() } else { format!("{within}.{key}") };
            in_schema(schema, value, &key, found);
        }
    }
    let is = |word: &str| match &node["type"] {
        serde_json::Value::String(name) => name == word,
        serde_json::Value::Array(names) => names.iter().any(|name| name == word),
        _ => false,
    };
    if is("number") || is("integer") {
        found.push(within.into());
    }
    // Lists of tables; a list of three numbers is a point or a direction.
    if is("array") && (node["items"]["$ref"].is_string() || node["items"]["properties"].is_object()) {
        in_schema(schema, &node["items"], within, found);
    }
}

#[test]
fn every_number_has_a_row() {
    let job = Job::from_toml(FULL).unwrap();
    let rows = numbers_with_a_row(&job);
    let mut written = Vec::new();
    numbers("", &FULL.parse::<toml::Table>().map(toml::Value::Table).unwrap(), &mut written);
    for key in &written {
        assert!(rows.contains(key), "{key} has no row");
    }
    // And the job above has every number that jobs can hold; what one end has the other has too.
    let schema = serde_json::to_value(schemars::schema_for!(Job)).unwrap();
    let mut known = Vec::new();
    in_schema(&schema, &schema, "", &mut known);
    assert!(known.len() > 60, "{known:?}");
    // The number of a body in a list is held against the list.
    for key in known.into_iter().filter(|key| key != "part.body") {
        let mirrored = [key.replace("small_end", "big_end"), key.replace("big_end", "small_end")];
        let there = written.contains(&key) || mirrored.iter().any(|key| written.contains(key));
        assert!(there && rows.contains(&key), "{key} is not looked at");
    }
}
