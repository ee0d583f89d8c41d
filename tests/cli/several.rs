//! Several meshes at one go: a table, or a report a line.

use serde_json::Value;

use super::Tested;
use super::run::{file, layload};

const JOB: &str = "samples/bench_single.toml";
const GOOD: [&str; 2] = ["samples/plain_rod.stl", "samples/i_shank_rod.stl"];

fn checked(meshes: &[&str], options: &[&str]) -> std::io::Result<super::run::Said> {
    layload(&[&["check", "--quick", "--job", JOB], options, meshes].concat())
}

#[test]
fn a_line_a_part_in_the_order_given() -> Tested {
    let said = checked(&GOOD, &[])?;
    let lines: Vec<&str> = said.out.lines().collect();
    assert!(lines[0].contains("answer") && lines[0].contains("margin"), "{}", said.out);
    assert!(lines[1].ends_with(GOOD[0]) && lines[2].ends_with(GOOD[1]), "{}", said.out);
    assert!(said.out.contains("layload explain safety") && lines.iter().all(|line| line.chars().count() <= 80));
    // The numbers are those of each check alone.
    for (mesh, line) in GOOD.iter().zip(&lines[1..]) {
        let alone = checked(&[mesh], &["--summary"])?;
        let row = alone.out.lines().find(|row| row.ends_with(mesh)).ok_or("no row")?;
        let words = |row: &str| row.split_whitespace().map(String::from).collect::<Vec<_>>();
        assert_eq!(words(row), words(line));
    }
    Ok(())
}

#[test]
fn a_report_a_line_as_json() -> Tested {
    let said = checked(&GOOD, &["--json"])?;
    let reports: Vec<Value> = said.out.lines().map(serde_json::from_str).collect::<Result<_, _>>()?;
    assert_eq!(reports.len(), GOOD.len());
    for (mesh, report) in GOOD.iter().zip(&reports) {
        let alone: Value = serde_json::from_str(&checked(&[mesh], &["--json"])?.out)?;
        assert_eq!(*report, alone, "{mesh}");
    }
    Ok(())
}

/// A file that is no part keeps back none of the others, and the exit code tells of it.
#[test]
fn one_without_an_answer_keeps_back_no_other() -> Tested {
    let bad = file("several_bad.stl", "solid nothing\nendsolid nothing\n")?;
    let said = checked(&[GOOD[0], &bad, GOOD[1]], &[])?;
    assert_eq!(said.code, Some(2));
    assert!(!said.err.is_empty() && said.out.contains("NO ANSWER"), "{}{}", said.out, said.err);
    assert!(GOOD.iter().all(|mesh| said.out.contains(mesh)), "{}", said.out);
    let said = checked(&[GOOD[0], &bad, GOOD[1]], &["--json"])?;
    assert_eq!(said.code, Some(2));
    let lines: Vec<Value> = said.out.lines().map(serde_json::from_str).collect::<Result<_, _>>()?;
    assert_eq!(lines.len(), 3);
    assert!(lines[1]["error"].is_string() && lines[1]["mesh"] == bad.as_str() && lines[2]["verdict"].is_object());
    Ok(())
}

#[test]
fn the_gravest_answer_is_the_exit_code() -> Tested {
    let codes = |meshes: &[&str], options: &[&str]| -> Result<Option<i32>, Box<dyn std::error::Error>> {
        Ok(checked(meshes, options)?.code)
    };
    let each: Vec<Option<i32>> = GOOD.iter().map(|mesh| codes(&[mesh], &[])).collect::<Result<_, _>>()?;
    // Failing (1) outweighs no answer by sections (3).
    let expected = if each.contains(&Some(1)) { Some(1) } else { Some(3) };
    assert_eq!(codes(&GOOD, &[])?, expected);
    assert_eq!(codes(&GOOD, &["--rpm", "30000"])?, Some(1));
    Ok(())
}

#[test]
fn files_are_written_of_one_mesh_at_a_time() -> Tested {
    let said = checked(&GOOD, &["--report", "never.html"])?;
    assert_eq!((said.code, said.out.as_str()), (Some(2), ""));
    assert!(said.complains("one mesh at a time"), "{}", said.err);
    Ok(())
}
