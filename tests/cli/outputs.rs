//! The list of outputs and the options of the commands are one.

use std::collections::BTreeSet;

use layload::file_outputs;

use super::Tested;
use super::run::layload;

/// Options at the heads of lines; of one heading, or of all.
fn options<'a>(help: &'a str, heading: Option<&str>) -> BTreeSet<&'a str> {
    let mut under = "";
    let mut found = BTreeSet::new();
    for line in help.lines() {
        if !line.starts_with(' ') {
            under = line.trim_end_matches(':');
        }
        let named = line.trim_start().split([' ', ',']).find(|word| word.starts_with("--"));
        if line.trim_start().starts_with('-') && heading.is_none_or(|wanted| wanted == under) {
            found.extend(named);
        }
    }
    found
}

#[test]
fn every_option_of_a_file_is_an_output_of_its_answer() -> Tested {
    let outputs = file_outputs();
    let commands: BTreeSet<&str> = outputs.iter().map(|output| output.command).collect();
    assert!(commands.len() >= 9, "{commands:?}");
    for command in commands {
        let help = layload(&[command, "--help"])?.out;
        let listed: BTreeSet<&str> =
            outputs.iter().filter(|output| output.command == command).map(|output| output.option).collect();
        let there = options(&help, None);
        assert!(listed.is_subset(&there), "{command}: {listed:?} of {there:?}");
        let mut files = options(&help, Some("Files"));
        files.remove("--overwrite");
        assert!(files.is_subset(&listed), "{command}: {files:?} of {listed:?}");
    }
    Ok(())
}
