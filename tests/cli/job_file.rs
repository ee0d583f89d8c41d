//! Job files and the files they name.

use serde_json::Value;

use super::Tested;
use super::run::{ENOUGH, JOB, ROD, changed_job, file, layload};

#[test]
fn a_card_file_beside_the_job() -> Tested {
    let card = layload(&["materials", "PA12"])?.out;
    file("job_file_card.toml", &card)?;
    let path = changed_job("job_file_with_card.toml", "name = \"PA12-CF15\"", "card_file = \"job_file_card.toml\"")?;
    let from_file = layload(&["check", "--quick", ROD, "--job", &path, "--json"])?;
    let by_name = layload(&["check", "--quick", ROD, "--job", JOB, "--material", "PA12", "--json"])?;
    let (from_file, by_name): (Value, Value) =
        (serde_json::from_str(&from_file.out)?, serde_json::from_str(&by_name.out)?);
    assert_eq!(from_file["verdict"], by_name["verdict"]);
    assert_eq!(from_file["mesh"], by_name["mesh"]);
    Ok(())
}

#[test]
fn a_pressure_table_beside_the_job() -> Tested {
    // A constant pressure of 6 bar over both turns.
    let rows: Vec<String> = (0..=72).map(|k| format!("{},6.0", 10 * k)).collect();
    file("job_file_pressure.csv", format!("angle_deg,pressure_bar\n{}\n", rows.join("\n")))?;
    let path = changed_job(
        "job_file_with_table.toml",
        "peak_pressure_bar = 28.0",
        "pressure_table = \"job_file_pressure.csv\"",
    )?;
    let said = layload(&["check", "--quick", ROD, "--job", &path, "--json"])?;
    assert_eq!(said.err, "");
    let report: Value = serde_json::from_str(&said.out)?;
    let peak = report["loads"]["peak_pressure_bar"].as_f64().unwrap_or(f64::NAN);
    // Rounding of the change from bar to pascal and back.
    assert!((peak - 6.0).abs() < 1e-9, "{peak}");
    Ok(())
}

#[test]
fn a_title_is_handed_on() -> Tested {
    let path = file("job_file_title.toml", "title = \"Größe 1\"\n")?;
    let said = layload(&[&["check", "--quick", ROD, "--job", &path, "--json"], &ENOUGH[..]].concat())?;
    assert_eq!(serde_json::from_str::<Value>(&said.out)?["title"], "Größe 1");
    Ok(())
}

#[test]
fn whole_numbers_need_no_point() -> Tested {
    let path = changed_job("job_file_whole.toml", "stroke_mm = 46.0", "stroke_mm = 46")?;
    assert_eq!(
        layload(&["check", "--quick", ROD, "--job", &path, "--json"])?,
        layload(&["check", "--quick", ROD, "--job", JOB, "--json"])?
    );
    Ok(())
}
