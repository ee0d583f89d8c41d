//! The first screen: one page in a fixed order, as wide as the terminal, with the line of safety always.

use super::Tested;
use super::run::{Said, layload, program, run};

/// Parts with the jobs beside them.
const PARTS: [[&str; 2]; 5] = [
    ["samples/plain_rod.stl", "samples/bench_single.toml"],
    ["samples/bearing_rod.stl", "samples/bench_bearings.toml"],
    ["samples/split_rod.stl", "samples/bench_split.toml"],
    ["samples/flat_crown_piston.stl", "samples/bench_piston.toml"],
    ["samples/thin_crown_piston.stl", "samples/bench_piston.toml"],
];

/// So few cells that a test is quick, and enough for an answer like that of the usual number.
const FEW: [&str; 2] = ["--cells", "10000"];

/// Titles and labels of every screen.
const ORDER: [&str; 11] = [
    "VERDICT",
    "Weakest places",
    "Confidence",
    "Not checked",
    "What to do",
    "Engine",
    "Print",
    "Heat",
    "Fits",
    "Safety",
    "More",
];

/// What every screen names of the dangers.
const DANGERS: [&str; 5] = ["burst", "shield", "stand clear", "fire", "eyes and ears"];

fn checked([mesh, job]: [&str; 2], columns: &str, options: &[&str]) -> std::io::Result<Said> {
    let asked = [&["check", mesh, "--job", job], options].concat();
    run(program().env("COLUMNS", columns).args(asked))
}

/// Titles and labels in their order: what stands at the left edge, to its first colon, comma or gap, or to column 12. The verdict's own word
/// is the model's to say.
fn skeleton(screen: &str) -> String {
    let lines = screen.lines().filter(|line| !line.is_empty() && !line.starts_with(' ')).enumerate();
    let names = lines.map(|(number, line)| {
        let end = line.find([':', ',']).unwrap_or(line.len()).min(line.find("  ").unwrap_or(line.len()));
        // Labels stand in a column of twelve.
        let end = if line.as_bytes().get(11) == Some(&b' ') && line.is_ascii() { end.min(11) } else { end };
        if number == 0 { "VERDICT" } else { &line[..end] }
    });
    names.collect::<Vec<_>>().join("\n")
}

fn dangers_are_named(said: &Said) {
    let words = said.out.split_whitespace().collect::<Vec<_>>().join(" ");
    for danger in DANGERS {
        assert!(words.contains(danger), "no `{danger}` in\n{}", said.out);
    }
    assert!(words.contains("layload explain safety"), "{}", said.out);
}

#[test]
fn one_page_in_one_order_at_every_width() -> Tested {
    for (number, part) in PARTS.into_iter().enumerate() {
        // The stress field says more than sections do.
        let how = if number == 0 { &FEW[..] } else { &["--quick"] };
        let mut at = Vec::new();
        for columns in ["40", "80", "120"] {
            let said = checked(part, columns, how)?;
            assert!(matches!(said.code, Some(0 | 1 | 3)), "{part:?}: {}", said.err);
            let most: usize = columns.parse()?;
            for line in said.out.lines() {
                assert!(line.chars().count() <= most, "{part:?}, {columns} columns: {line}");
            }
            dangers_are_named(&said);
            let lines = said.out.lines().count();
            if most >= 80 {
                assert!(lines <= if number == 0 { 25 } else { 40 }, "{part:?}: {lines} lines\n{}", said.out);
            }
            at.push((skeleton(&said.out), lines));
        }
        assert_eq!(at[1].0.lines().collect::<Vec<_>>(), ORDER, "{part:?}");
        assert!(at.iter().all(|(names, _)| *names == at[0].0), "{part:?}: {at:?}");
        assert!(at[0].1 > at[1].1 && at[1].1 >= at[2].1, "{part:?}: {at:?}");
    }
    Ok(())
}

/// Narrower than 40 and wider than 120 columns are those; what is no number is no width.
#[test]
fn the_width_stays_readable() -> Tested {
    let lines = |columns: &str| -> Result<String, Box<dyn std::error::Error>> {
        Ok(checked(PARTS[0], columns, &["--quick"])?.out)
    };
    assert_eq!(lines("5")?, lines("40")?);
    assert_eq!(lines("900")?, lines("120")?);
    assert_eq!(lines("wide")?, lines("80")?);
    Ok(())
}

/// A body of the file that is not in the part is told where nobody can miss it.
#[test]
fn what_is_left_out_is_on_the_screen() -> Tested {
    let said = checked(["tests/meshes/loose_bodies.stl", "samples/bench_single.toml"], "80", &["--quick"])?;
    assert!(said.out.contains("\nLeft out    ") && said.out.contains("not in the part: see --inputs"), "{}", said.out);
    assert!(!checked(PARTS[0], "80", &["--quick"])?.out.contains("Left out"));
    Ok(())
}

#[test]
fn options_add_the_rest() -> Tested {
    let rest = [
        ("--stations", &["Failure modes", "Along the rod", "Thin places", "Length and fits"][..]),
        ("--changes", &["What a change does"]),
        ("--inputs", &["The part", "Values taken"]),
        ("--limits", &["Limits of this estimate", "Cautions"]),
    ];
    let bare = checked(PARTS[0], "80", &["--quick"])?.out;
    let all = checked(PARTS[0], "80", &["--quick", "--all"])?.out;
    for (option, titles) in rest {
        let more = checked(PARTS[0], "80", &["--quick", option])?.out;
        for title in titles {
            let title = format!("\n{title}");
            assert!(!bare.contains(&title), "{title} without {option}");
            assert!(more.contains(&title) && all.contains(&title), "{title} with {option}\n{more}");
        }
        assert!(more.starts_with(&bare), "{option} changes the first screen:\n{more}");
        // Words alone have more and less of them.
        let said = checked(PARTS[0], "80", &["--quick", option, "--json"])?;
        assert_eq!((said.code, said.out.as_str()), (Some(2), ""), "{option}");
    }
    Ok(())
}

#[test]
fn less_is_left_by_quiet_and_summary_and_the_dangers_stay() -> Tested {
    let whole = checked(PARTS[0], "80", &["--quick"])?;
    let quiet = checked(PARTS[0], "80", &["--quick", "--quiet"])?;
    let summary = checked(PARTS[0], "80", &["--quick", "--summary"])?;
    for said in [&quiet, &summary] {
        assert_eq!((said.code, said.err.as_str()), (whole.code, ""));
        assert!(said.out.lines().count() <= 8, "{}", said.out);
        dangers_are_named(said);
    }
    let verdict: Vec<&str> = whole.out.lines().take_while(|line| !line.is_empty()).collect();
    assert!(quiet.out.starts_with(&verdict.join("\n")), "{}", quiet.out);
    assert_eq!(summary.out.lines().filter(|line| line.contains("plain_rod.stl")).count(), 1, "{}", summary.out);
    Ok(())
}

/// What a change is told by is a value of the part, the engine or the print wherever the report has one.
#[test]
fn changes_are_told_from_what_to_what() -> Tested {
    for (part, wanted) in [(PARTS[0], &["mm", "rpm", "g", "bar", "°C"][..]), (PARTS[3], &["mm", "rpm", "bar", "°C"])]
    {
        let said = checked(part, "120", &["--quick", "--changes"])?;
        let table = said.out.split("What a change does").nth(1).ok_or("no changes")?;
        for unit in wanted {
            let told = table.lines().any(|line| line.contains(" -> ") && line.contains(&format!(" {unit} ")));
            assert!(told, "{part:?}: none in {unit}\n{table}");
        }
        let vague = table.lines().filter(|line| line.contains("% more") || line.contains("% less")).count();
        // Throttle and wall area have no one value in the report.
        assert!(vague <= 2, "{part:?}\n{table}");
    }
    Ok(())
}

#[test]
fn safety_is_explained_in_full() -> Tested {
    let said = layload(&["explain", "safety"])?;
    for words in [
        "fragments",
        "shield",
        "stand clear",
        "cut",
        "extinguisher",
        "eye and ear",
        "Retire",
        "Local rules",
        "engineer",
    ] {
        assert!(said.out.contains(words), "no `{words}` in\n{}", said.out);
    }
    assert_eq!(layload(&["explain", "cautions"])?.out, said.out);
    Ok(())
}
