//! The material families and their cards.

use std::fs;

use super::Tested;
use super::run::{JOB, ROD, file, layload};

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
        let said = layload(&["check", "--quick", ROD, "--job", JOB, "--material", &name])?;
        assert!(matches!(said.code, Some(1 | 3)), "{name}: {}", said.err);
    }
    Ok(())
}

/// The line of a card beside what was published, or the plain word that nothing was.
#[test]
fn fatigue_lines_are_drawn_beside_published_tests() -> Tested {
    for (name, tests) in [("PLA", 4), ("PA12", 3), ("PETG", 3), ("ABS", 0), ("PA12-CF15", 0), ("PA6-CF20", 0)] {
        let path = file(&format!("fatigue_{name}.svg"), b"")?;
        fs::remove_file(&path)?;
        assert_eq!(layload(&["materials", name, "--svg", &path])?.code, Some(0));
        let drawing = fs::read_to_string(&path)?;
        assert_eq!(drawing.matches("<circle").count(), tests, "{name}");
        assert_eq!(drawing.contains("No published test"), tests == 0, "{name}");
        assert!(drawing.contains("in the layer plane, half break"), "{name}");
        assert_eq!(layload(&["materials", name, "--svg", &path])?.code, Some(2), "taken");
    }
    Ok(())
}

/// Each value of a card leads to the published results behind it.
#[test]
fn values_lead_to_their_rows() -> Tested {
    for name in names()? {
        let said = layload(&["materials", &name, "--rows"])?;
        assert_eq!(said.code, Some(0), "{name}");
        assert!(!said.out.contains("not found"), "{name}: {}", said.out);
        assert!(said.out.contains("strength along beads: ") && said.out.contains(" of other families."), "{name}");
        for line in said.out.lines() {
            assert!(line.chars().count() <= 80, "{name}: {line}");
        }
    }
    let pla = layload(&["materials", "PLA", "--rows"])?.out;
    assert!(pla.contains("22 tests of this family, 8 sources") && pla.contains("doi:10.1089/3dp.2020.0109"), "{pla}");
    assert_eq!(layload(&["materials", "--rows"])?.code, Some(2));
    Ok(())
}
