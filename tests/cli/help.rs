//! Help is there for every command and every option, and no sentence of the program names one that is not there.

use std::collections::BTreeSet;
use std::fs;

use walkdir::WalkDir;

use super::Tested;
use super::run::{layload, top};

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
    let words = said.out.split_whitespace().collect::<Vec<_>>().join(" ");
    for code in ["Exit codes: 0 ", "1 does not reach", "2 bad input", "3 no fault found by sections"] {
        assert!(words.contains(code), "{code}: {}", said.out);
    }
    Ok(())
}

#[test]
fn version() -> Tested {
    let said = layload(&["--version"])?;
    assert_eq!((said.code, said.out), (Some(0), format!("layload {}\n", env!("CARGO_PKG_VERSION"))));
    Ok(())
}

/// Options that a text names. Names of a style sheet look like them.
fn options(text: &str) -> impl Iterator<Item = String> {
    text.match_indices("--").filter_map(|(at, dashes)| {
        let rest = &text[at + dashes.len()..];
        let name = rest.split(|letter: char| !letter.is_ascii_lowercase() && letter != '-').next()?;
        let style = text[..at].ends_with("var(") || rest[name.len()..].starts_with(':');
        (name.starts_with(|letter: char| letter.is_ascii_lowercase()) && !style).then(|| format!("--{name}"))
    })
}

#[test]
fn options_that_sentences_name_exist() -> Tested {
    let all = layload(&["--help"])?.out;
    let list = all.split("Commands:").nth(1).and_then(|rest| rest.split("Options:").next()).ok_or("no commands")?;
    let names = list.lines().filter_map(|line| line.strip_prefix("  ")?.split(' ').next());
    let commands: Vec<&str> = names.filter(|name| !name.is_empty() && *name != "help").collect();
    // Those of the plugin's host, which is not built into every program.
    let mut known: BTreeSet<String> = ["--memory-mib", "--deadline-ms", "--no-cache"].map(String::from).into();
    let mut texts = vec![("--help".into(), all.clone())];
    for command in &commands {
        texts.push((format!("{command} --help"), layload(&[command, "--help"])?.out));
    }
    for (_, help) in &texts {
        let heads = help.lines().filter(|line| line.trim_start().starts_with('-'));
        known.extend(heads.flat_map(|line| options(line.trim_start().split("  ").next().unwrap_or_default())));
    }
    assert!(commands.len() > 12 && known.contains("--small-end") && known.contains("--card-out"), "{known:?}");
    for entry in WalkDir::new(top().join("cli/src")) {
        let path = entry?.into_path();
        if path.extension().is_none_or(|ending| ending != "rs") {
            continue;
        }
        let text = fs::read_to_string(&path)?;
        let code = text.lines().filter(|line| !line.trim_start().starts_with("//")).collect::<Vec<_>>().join("\n");
        texts.push((path.display().to_string(), code));
    }
    for (place, text) in &texts {
        let unknown: Vec<String> = options(text).filter(|option| !known.contains(option)).collect();
        assert!(unknown.is_empty(), "{place} names options that do not exist: {unknown:?}");
    }
    Ok(())
}
