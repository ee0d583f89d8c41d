//! Bent parts: recognised or refused.
#![no_main]

use layload_core::mesh::bodies;
use layload_core::part::{GivenPart, find_part};
use layload_fuzz::{Bend, bent};
use libfuzzer_sys::fuzz_target;

fuzz_target!(|input: (u8, Vec<Bend>)| {
    if let Some(Ok(bodies)) = bent(input.0, &input.1).map(bodies)
        && let Err(error) = find_part(bodies, &GivenPart::default())
    {
        let _ = (error.to_string(), error.help());
    }
});
