//! The material families and their cards.

use super::Tested;
use super::run::{JOB, ROD, layload};

fn names() -> std::io::Result<Vec<String>> {
    let said = layload(&["materials"])?;
    Ok(said
        .out
        .lines()
        .filter(|line| !line.starts_with(' '))
        .filter_map(|line| line.split_whitespace().next())
        .map(String::from)
        .collect())
}

#[test]
fn twelve_families() -> Tested {
    let mut names = names()?;
    let count = names.len();
    names.sort();
    names.dedup();
    assert_eq!((count, names.len()), (12, 12));
    Ok(())
}

#[test]
fn each_has_a_card_and_can_be_checked() -> Tested {
    for name in names()? {
        let card = layload(&["materials", &name])?;
        assert_eq!(card.code, Some(0), "{name}");
        assert!(card.out.contains("source") && card.out.contains(&name), "{name}");
        let said = layload(&["check", ROD, "--job", JOB, "--material", &name])?;
        assert!(matches!(said.code, Some(0 | 1)), "{name}: {}", said.err);
    }
    Ok(())
}
