//! Command lines that are none.

use super::Tested;
use super::run::{JOB, ROD, layload};

#[test]
fn exit_code_2_and_nothing_on_stdout() -> Tested {
    for arguments in [
        &[][..],
        &["frobnicate"],
        &["check"],
        &["check", ROD, "--job"],
        &["check", ROD, "--job", JOB, "--no-such-option"],
        &["check", ROD, "--job", JOB, "--rpm", "fast"],
        &["check", ROD, "--job", JOB, "--build-direction", "1,2"],
        &["check", ROD, "--job", JOB, "--build-direction", "nan,0,1"],
        &["check", ROD, "--job", JOB, "--mesh-unit", "foot"],
        &["check", ROD, "--job", JOB, "--color", "pink"],
        &["check", ROD, "--job", JOB, "--walls", "1.5"],
        &["check", ROD, ROD, "--job", JOB, "--report", "never.html"],
        &["materials", "NO-SUCH"],
        &["schema", "extra"],
    ] {
        let said = layload(arguments)?;
        assert_eq!(said.code, Some(2), "{arguments:?}: {said:?}");
        assert_eq!(said.out, "", "{arguments:?}");
        assert!(!said.err.trim().is_empty(), "{arguments:?}");
        assert!(!said.complains("panicked"), "{arguments:?}: {}", said.err);
    }
    Ok(())
}
