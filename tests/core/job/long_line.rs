//! A line without end in a file is not repeated to the end.

use layload_core::job::Job;
use layload_core::material::Card;
use layload_core::study::StudyPlan;

#[test]
fn complaints_stay_short() {
    let text = format!("bore = \"{}\"\n", "é".repeat(100_000));
    let job = Job::from_toml(&text).err().map(|error| error.to_string());
    let card = Card::from_toml(&text).err().map(|error| error.to_string());
    let study = StudyPlan::from_toml(&text).err().map(|error| error.to_string());
    for told in [job, card, study] {
        let told = told.unwrap_or_default();
        assert!(told.contains("line 1") && told.contains("unknown field"), "{}", told.len());
        assert!(told.len() < 2_000, "{}", told.len());
    }
}
