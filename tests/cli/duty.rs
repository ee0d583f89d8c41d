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

/// A recorded run-up of a thousand speeds is worked out by steps that stand for those nearly alike, on the unfavourable side.
#[test]
fn a_thousand_speeds_are_gathered_and_told() -> Tested {
    let ramp = |count: usize| -> String {
        let share = |k: usize| k as f64 / (count - 1) as f64;
        let step = |k: usize| (2500.0 + 2500.0 * share(k), 0.3 + 0.7 * share(k), 1800.0 / count as f64);
        let written = (0..count).map(step);
        let written = written.map(|(rpm, t, s)| format!("{{ rpm = {rpm:.4}, throttle = {t:.6}, seconds = {s:.6} }},"));
        written.collect::<Vec<_>>().concat()
    };
    let (fine, coarse) = (answered("ramp_1000", &ramp(1000))?, answered("ramp_100", &ramp(100))?);
    let rows = |report: &Value| -> Vec<String> {
        let list = report["assumptions"].as_array().cloned().unwrap_or_default();
        list.iter().map(|row| format!("{}: {}", row["name"], row["value"])).collect()
    };
    let told = |report: &Value| rows(report).into_iter().find(|row| row.contains("as one"));
    assert!(told(&fine).is_some_and(|row| row.contains("of 1000")), "{:?}", rows(&fine));
    assert_eq!(told(&coarse), None);
    assert_eq!(fine["verdict"]["duty_rpm"], coarse["verdict"]["duty_rpm"]);
    let margin = |report: &Value| report["verdict"]["margin"].as_f64().unwrap_or_default();
    let ratio = margin(&fine) / margin(&coarse);
    // Speeds a hundredth apart count as the higher of them: two per cent of the force of inertia at most, and never less.
    assert!((0.98..=1.0005).contains(&ratio), "{ratio}");
    Ok(())
}
