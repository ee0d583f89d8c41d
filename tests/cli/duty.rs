//! The duty: steps of one speed and throttle are one, in whatever order and pieces they are written.

use serde_json::Value;

use super::Tested;
use super::run::{ROD, changed_job, layload};

const STEPS: &str =
    "{ rpm = 3000.0, throttle = 0.4, seconds = 120.0 },\n  { rpm = 5000.0, throttle = 1.0, seconds = 60.0 },";

fn answered(name: &str, steps: &str) -> Result<Value, Box<dyn std::error::Error>> {
    let job = changed_job(&format!("duty_{name}.toml"), STEPS, steps)?;
    Ok(serde_json::from_str(&layload(&["check", "--quick", ROD, "--job", &job, "--json"])?.out)?)
}

#[test]
fn pieces_of_a_step_are_the_step() -> Tested {
    let whole = answered("whole", STEPS)?;
    let step = |rpm: f64, throttle: f64, seconds: f64| {
        format!("{{ rpm = {rpm:?}, throttle = {throttle:?}, seconds = {seconds:?} }},")
    };
    // Whole seconds add up without rounding, so the bytes are the same.
    let pieces: String = (0..60).map(|_| step(3000.0, 0.4, 2.0) + &step(5000.0, 1.0, 1.0)).collect();
    assert_eq!(answered("pieces", &pieces)?, whole);
    let many: String =
        (0..1000).map(|k| if k < 500 { step(3000.0, 0.4, 0.25) } else { step(5000.0, 1.0, 0.125) }).collect();
    let many = answered("many", &many)?;
    // A shorter repeat of the same shares: starts and stops come more often, nothing else changes.
    assert_eq!(many["crank"], whole["crank"]);
    assert_eq!(many["stations"], whole["stations"]);
    Ok(())
}
