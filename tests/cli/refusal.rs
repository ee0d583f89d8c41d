//! What every refusal of bad input looks like.

use super::run::Said;

/// Asserts that input was refused as it should be: exit code 2, nothing on stdout, on stderr one plain sentence with
/// the wanted words, then a line of help, and no trace of a crash.
pub(crate) fn refused(what: &str, said: &Said, wanted: &[&str]) {
    assert_eq!(said.code, Some(2), "{what}: {said:?}");
    assert_eq!(said.out, "", "{what}: something was printed to stdout");
    let flat = flat(&said.err);
    for words in wanted {
        assert!(flat.contains(words), "{what}: no `{words}` in\n{}", said.err);
    }
    assert!(flat.contains("help: "), "{what}: no help in\n{}", said.err);
    for crash in ["panicked", "RUST_BACKTRACE", "unwrap", "Err(", "Error {", "Some(", ".rs:"] {
        assert!(!said.complains(crash), "{what}: `{crash}` in\n{}", said.err);
    }
    for line in said.err.lines() {
        assert!(line.chars().count() <= 80, "{what}: wider than 80 columns: {line}");
        assert!(!line.ends_with('-'), "{what}: a name is broken in two: {line}");
        assert!(!line.contains('\u{1b}'), "{what}: colour where stderr is no terminal");
    }
}

/// The message as one line, without the drawing at its left.
pub(crate) fn flat(message: &str) -> String {
    let lines = message.lines().map(|line| line.trim_start_matches([' ', '×', '│']).trim_end());
    lines.collect::<Vec<_>>().join(" ")
}
