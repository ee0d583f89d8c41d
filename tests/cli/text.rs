//! The text for people: the answer first, 80 columns, cautions always, nothing called safe.

use std::sync::OnceLock;

use super::Tested;
use super::run::{ENOUGH, JOB, ROD, Said, layload};

/// Reports of many kinds, made once.
fn runs() -> Result<&'static [Said], String> {
    static RUNS: OnceLock<Result<Vec<Said>, String>> = OnceLock::new();
    RUNS.get_or_init(|| made().map_err(|error| error.to_string())).as_deref().map_err(Clone::clone)
}

fn made() -> std::io::Result<Vec<Said>> {
    let mut said = Vec::new();
    for mesh in
        ["half_bore_no_cap", "overlapping_shells", "loose_bodies", "small_hole", "inner_void", "half_bore_with_cap"]
    {
        said.push(layload(&["check", "--quick", &format!("tests/meshes/{mesh}.stl"), "--job", JOB, "--all"])?);
    }
    said.push(layload(&["check", "--quick", "samples/thin_web_rod.stl", "--job", JOB, "--all"])?);
    said.push(layload(&["check", "--quick", "samples/bearing_rod.stl", "--job", JOB, "--all"])?);
    for options in [
        &["--rpm", "20000"][..],
        &["--rpm", "100", "--peak-pressure-bar", "15"],
        &["--build-direction", "0.12345678901,0.23456789012,-0.34567890123"],
        &["--reciprocating-mass-g", "3000"],
        &["--bore-mm", "120"],
        &["--infill-percent", "0"],
    ] {
        said.push(layload(&[&["check", "--quick", ROD, "--job", JOB, "--all"], options].concat())?);
    }
    said.push(layload(&[&["check", "--quick", ROD, "--all"], &ENOUGH[..]].concat())?);
    Ok(said)
}

#[test]
fn the_answer_is_the_first_line() -> Tested {
    for said in runs()? {
        let first = said.out.lines().next().unwrap_or_default();
        assert!(first.starts_with("NO FAULT FOUND: by sections") || first.starts_with("FAILS: at "), "{first}");
        assert!(first.contains("rpm"), "{first}");
        let top: Vec<&str> = said.out.lines().take_while(|line| !line.is_empty()).collect();
        let words = top.join(" ").split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(words.contains("Margin ") && words.contains("1 is the limit"), "{top:?}");
        assert!(["top speed", "Top speed", "rpm"].iter().any(|speed| words.contains(speed)), "{top:?}");
    }
    Ok(())
}

#[test]
fn no_line_is_wider_than_80_columns() -> Tested {
    for said in runs()? {
        for line in said.out.lines() {
            assert!(line.chars().count() <= 80, "{} columns: {line}", line.chars().count());
        }
    }
    Ok(())
}

#[test]
fn material_lines_fit_too() -> Tested {
    for arguments in [&["materials"][..], &["schema", "--help"]] {
        for line in layload(arguments)?.out.lines() {
            assert!(line.chars().count() <= 80, "{} columns: {line}", line.chars().count());
        }
    }
    Ok(())
}

#[test]
fn parts_in_order_and_cautions_always() -> Tested {
    for said in runs()? {
        let at = |words: &str| said.out.find(words).ok_or(format!("no `{words}` in\n{}", said.out));
        let order = [at("Along the rod")?, at("Thin places")?, at("Values taken")?, at("\nCautions\n")?];
        assert!(order.is_sorted(), "{order:?}");
        assert!(said.out.contains("no result calls a part safe") || said.out.contains("not an approval"));
        for word in ["is safe", "safe to ", "safely"] {
            assert!(!said.out.contains(word), "`{word}`");
        }
        assert_eq!(said.err, "", "progress where stderr is no terminal");
    }
    Ok(())
}

#[test]
fn nothing_that_is_no_number() -> Tested {
    for said in runs()? {
        for word in ["NaN", "inf ", "-inf", "null", "-0.00", " -0 ", "more than over", "none none"] {
            assert!(!said.out.contains(word), "`{word}` in\n{}", said.out);
        }
    }
    Ok(())
}

#[test]
fn what_is_unusual_is_said() -> Tested {
    for (mesh, words) in [
        ("loose_bodies", "left out"),
        ("small_hole", "hole"),
        ("overlapping_shells", "overlap"),
        ("inner_void", "void"),
        ("half_bore_no_cap", "half bore"),
    ] {
        let said = layload(&["check", "--quick", &format!("tests/meshes/{mesh}.stl"), "--job", JOB, "--all"])?;
        assert!(said.out.contains(words), "{mesh}: no `{words}` in\n{}", said.out);
    }
    Ok(())
}

#[test]
fn bodies_left_out_are_named_with_their_place() -> Tested {
    let said = layload(&["check", "--quick", "tests/meshes/loose_bodies.stl", "--job", JOB, "--inputs"])?;
    let part = said.out.split("\nThe part\n").nth(1).and_then(|rest| rest.split("\n\n").next()).unwrap_or_default();
    assert!(part.contains("left out"), "{part}");
    // The volume of the rod, and of each body left out.
    assert_eq!(part.matches("mm³").count(), 3, "two bodies are not told apart: {part}");
    Ok(())
}

#[test]
fn the_thin_web_is_flagged() -> Tested {
    let said = layload(&["check", "--quick", "samples/thin_web_rod.stl", "--job", JOB, "--stations"])?;
    let thin = said.out.split("Thin places\n").nth(1).and_then(|rest| rest.split("\n\n").next()).unwrap_or_default();
    assert!(thin.contains("0.70 mm"), "{thin}");
    let plain = layload(&["check", "--quick", "samples/plain_rod.stl", "--job", JOB, "--stations"])?;
    assert!(plain.out.contains("none thinner than two beads"), "{}", plain.out);
    Ok(())
}
