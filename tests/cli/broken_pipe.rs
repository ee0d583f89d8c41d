//! A reader that stops reading ends the program quietly.

use std::io::{BufRead, BufReader, Read};
use std::process::Stdio;

use super::Tested;
use super::run::{JOB, ROD, check, program};

#[test]
fn after_the_first_line() -> Tested {
    for options in [&[][..], &["--json"]] {
        let mut child = program()
            .args(["check", "--quick", ROD, "--job", JOB])
            .args(options)
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()?;
        // One byte at a time, so that the rest stays unread.
        let mut out = BufReader::with_capacity(1, child.stdout.take().ok_or("no stdout")?);
        let mut first = String::new();
        out.read_line(&mut first)?;
        drop(out);
        let mut err = String::new();
        child.stderr.take().ok_or("no stderr")?.read_to_string(&mut err)?;
        let code = child.wait()?.code();
        assert!(!first.is_empty());
        assert_eq!(err, "");
        // The verdict stands however much of it was read: a script must not take a closed pipe for a rod that holds.
        assert_eq!(code, check(options)?.code);
    }
    Ok(())
}

#[test]
fn before_anything_is_read() -> Tested {
    for arguments in [&["schema"][..], &["materials"], &["check", "--quick", ROD, "--job", JOB, "--json"]] {
        let mut child = program().args(arguments).stdout(Stdio::piped()).stderr(Stdio::piped()).spawn()?;
        drop(child.stdout.take());
        let mut err = String::new();
        child.stderr.take().ok_or("no stderr")?.read_to_string(&mut err)?;
        child.wait()?;
        assert_eq!(err, "", "{arguments:?}");
    }
    Ok(())
}
