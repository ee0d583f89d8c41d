//! Any text as a job: read and resolved, or refused in a sentence.
#![no_main]

use layload_core::job::{Job, resolve};
use libfuzzer_sys::fuzz_target;

fuzz_target!(|text: &str| {
    match Job::from_toml(text) {
        Ok(job) => match resolve(&job, None, None) {
            Ok((_, assumptions)) => assert!(!assumptions.is_empty()),
            Err(error) => {
                let _ = (error.to_string(), error.help());
            }
        },
        Err(error) => {
            let _ = (error.to_string(), error.help());
        }
    }
});
