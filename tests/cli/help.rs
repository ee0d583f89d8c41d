//! Help is there for every command and every option.

use super::Tested;
use super::run::layload;

#[test]
fn fits_the_terminal_and_ends_well() -> Tested {
    for arguments in [
        &["--help"][..],
        &["-h"],
        &["check", "--help"],
        &["check", "-h"],
        &["materials", "--help"],
        &["schema", "--help"],
    ] {
        let said = layload(arguments)?;
        assert_eq!((said.code, said.err.as_str()), (Some(0), ""), "{arguments:?}");
        for line in said.out.lines() {
            assert!(line.chars().count() <= 80, "{arguments:?}: {line}");
        }
    }
    Ok(())
}

#[test]
fn names_every_option_that_scripts_may_use() -> Tested {
    let said = layload(&["check", "--help"])?;
    for option in ["--job", "--rpm", "--material", "--build-direction", "--json", "--color"] {
        assert!(said.out.contains(option), "{option}");
    }
    // Every option is followed by words on what it is for.
    let lines: Vec<&str> = said.out.lines().collect();
    for (index, line) in lines.iter().enumerate().filter(|(_, line)| line.trim_start().starts_with("--")) {
        let beside = line.trim_start().split("  ").filter(|part| !part.is_empty()).count() > 1;
        let below = lines.get(index + 1).is_some_and(|next| next.len() > 8 && !next.trim().is_empty());
        assert!(beside || below, "no words on {line}");
    }
    Ok(())
}

#[test]
fn exit_codes_are_stated() -> Tested {
    let said = layload(&["--help"])?;
    assert!(
        said.out.contains("Exit codes: 0") && said.out.contains("1 ") && said.out.contains("2 bad input"),
        "{}",
        said.out
    );
    Ok(())
}

#[test]
fn version() -> Tested {
    let said = layload(&["--version"])?;
    assert_eq!((said.code, said.out), (Some(0), format!("layload {}\n", env!("CARGO_PKG_VERSION"))));
    Ok(())
}
