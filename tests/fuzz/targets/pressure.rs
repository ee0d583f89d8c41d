//! Any text as a table of pressures: sampled or refused.
#![no_main]

use layload_core::engine::{PressureTrace, Strokes};
use libfuzzer_sys::fuzz_target;

fuzz_target!(|text: &str| {
    for strokes in [Strokes::Two, Strokes::Four] {
        match PressureTrace::from_csv(text, strokes, 720) {
            Ok(trace) => {
                assert!(trace.samples_pa().iter().all(|p| p.is_finite() && *p > 0.0));
                // What is written is read back.
                assert!(PressureTrace::from_csv(&trace.to_csv(), strokes, 720).is_ok());
            }
            Err(error) => {
                let _ = error.to_string();
            }
        }
    }
});
