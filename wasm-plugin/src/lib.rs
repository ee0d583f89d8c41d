//! The checks of `layload-core` for hosts that load a sandboxed component.
//!
//! For now it carries the whole text-to-text path: an STL and a job in, the report as JSON out.

use layload_core::job::Job;
use layload_core::{Error, Question, check};

/// Checks the rod in `stl` by the job file text `job_toml` and returns the report as JSON.
pub fn check_to_json(stl: &[u8], job_toml: &str) -> Result<String, String> {
    let plain = |error: Error| format!("{error}; {}", error.help());
    let job = Job::from_toml(job_toml).map_err(|error| plain(error.into()))?;
    let question = Question { job: &job, card_text: None, pressure_text: None };
    let report = check(stl, &question, &mut ()).map_err(plain)?;
    serde_json::to_string(&report).map_err(|error| error.to_string())
}
