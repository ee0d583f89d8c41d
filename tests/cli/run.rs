//! Runs the program from the top of the project.

use std::path::{Path, PathBuf};
use std::process::Command;
use std::{fs, io};

use serde_json::Value;

/// A sound rod of 2932 facets.
pub(crate) const ROD: &str = "tests/meshes/solid_header.stl";

/// A job for these tests.
pub(crate) const JOB: &str = "tests/cli/job.toml";

/// Numbers that are enough without a job file.
pub(crate) const ENOUGH: [&str; 10] = [
    "--stroke-mm",
    "46",
    "--bore-mm",
    "52",
    "--reciprocating-mass-g",
    "96",
    "--material",
    "PA12-CF15",
    "--rpm",
    "3000",
];

/// An empty folder for one test.
pub(crate) fn folder(name: &str) -> io::Result<PathBuf> {
    let path = Path::new(env!("CARGO_TARGET_TMPDIR")).join(name);
    if path.exists() {
        fs::remove_dir_all(&path)?;
    }
    fs::create_dir_all(&path)?;
    Ok(path)
}

/// What the program said and how it ended.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Said {
    pub(crate) code: Option<i32>,
    pub(crate) out: String,
    pub(crate) err: String,
}

impl Said {
    /// Whether it complained in these words, wherever lines were broken: that depends on where the files lie.
    pub(crate) fn complains(&self, words: &str) -> bool {
        let bare = |text: &str| text.chars().filter(|c| !c.is_whitespace() && *c != '│').collect::<String>();
        bare(&self.err).contains(&bare(words))
    }
}

/// The program with a clean environment, in the folder from which the names of files count.
pub(crate) fn program() -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_layload"));
    command
        .current_dir(top())
        .env_remove("NO_COLOR")
        .env_remove("COLUMNS")
        .env_remove("CLICOLOR_FORCE")
        .env_remove("RUST_BACKTRACE");
    command
}

/// The top of the project.
pub(crate) fn top() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("..")
}

/// Runs it to its end.
pub(crate) fn run(command: &mut Command) -> io::Result<Said> {
    let ended = command.output()?;
    let text = |bytes: Vec<u8>| String::from_utf8(bytes).map_err(|e| io::Error::new(io::ErrorKind::InvalidData, e));
    Ok(Said { code: ended.status.code(), out: text(ended.stdout)?, err: text(ended.stderr)? })
}

/// Runs it with arguments.
pub(crate) fn layload(arguments: &[&str]) -> io::Result<Said> {
    run(program().args(arguments))
}

/// `check --quick ROD` with the job of these tests and more options.
pub(crate) fn check(options: &[&str]) -> io::Result<Said> {
    layload(&[&["check", "--quick", ROD, "--job", JOB], options].concat())
}

/// The report of `check --quick MESH` with the job of these tests and more options.
pub(crate) fn report(mesh: &str, options: &[&str]) -> io::Result<Value> {
    let said = layload(&[&["check", "--quick", mesh, "--job", JOB, "--json"], options].concat())?;
    Ok(serde_json::from_str(&said.out)?)
}

/// A file for one test, in the folder that is kept for tests' own files. The name must be the test's own.
pub(crate) fn file(name: &str, bytes: impl AsRef<[u8]>) -> io::Result<String> {
    let path = Path::new(env!("CARGO_TARGET_TMPDIR")).join(name);
    fs::write(&path, bytes)?;
    Ok(path.display().to_string())
}

/// The job of these tests with one text put for another, which must be there.
pub(crate) fn changed_job(name: &str, from: &str, to: &str) -> io::Result<String> {
    let text = fs::read_to_string(top().join(JOB))?;
    assert!(text.contains(from), "the job has no `{from}`");
    file(name, text.replacen(from, to, 1))
}
