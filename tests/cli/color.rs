//! Colour only where it is asked for.

use super::Tested;
use super::run::{JOB, ROD, program, run};

const ESCAPE: char = '\u{1b}';

fn coloured(options: &[&str], no_color: Option<&str>) -> std::io::Result<bool> {
    let mut command = program();
    command.args(["check", "--quick", ROD, "--job", JOB]).args(options);
    if let Some(value) = no_color {
        command.env("NO_COLOR", value);
    }
    Ok(run(&mut command)?.out.contains(ESCAPE))
}

#[test]
fn not_into_a_pipe() -> Tested {
    assert!(!coloured(&[], None)?);
    assert!(!coloured(&["--color", "auto"], None)?);
    assert!(!coloured(&["--color", "never"], None)?);
    assert!(!coloured(&[], Some("1"))?);
    Ok(())
}

#[test]
fn when_asked_for() -> Tested {
    assert!(coloured(&["--color", "always"], None)?);
    // An option says more than the environment.
    assert!(coloured(&["--color", "always"], Some("1"))?);
    assert!(!coloured(&["--color", "always", "--json"], None)?);
    Ok(())
}

#[test]
fn colour_changes_no_word() -> Tested {
    let plain = run(program().args(["check", "--quick", ROD, "--job", JOB]))?;
    let coloured = run(program().args(["check", "--quick", ROD, "--job", JOB, "--color", "always"]))?;
    let mut stripped = String::new();
    let mut inside = false;
    for letter in coloured.out.chars() {
        match letter {
            ESCAPE => inside = true,
            'm' if inside => inside = false,
            _ if !inside => stripped.push(letter),
            _ => {}
        }
    }
    assert_eq!(stripped, plain.out);
    assert_eq!(coloured.code, plain.code);
    Ok(())
}
