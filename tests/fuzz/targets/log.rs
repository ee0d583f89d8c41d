//! Any text as a bench log: read, or refused in a sentence; what is read and written again is read the same.
#![no_main]

use layload_core::bench::read_lines;
use libfuzzer_sys::fuzz_target;

fuzz_target!(|text: &str| {
    match read_lines(text) {
        Ok(lines) => {
            for (number, entry) in &lines.entries {
                assert!(*number >= 1 && *number <= text.lines().count() && !lines.taken_back.contains(number));
                assert!(entry.seconds() > 0.0, "{entry:?}");
                let line = entry.line().unwrap_or_default();
                let again = read_lines(&line).unwrap_or_default();
                assert!(again.unfinished.is_none() && again.entries.first().is_some_and(|(_, same)| same == entry), "{line}");
            }
        }
        Err(error) => {
            let _ = (error.to_string(), error.help());
        }
    }
});
