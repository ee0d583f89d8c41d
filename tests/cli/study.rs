//! Studies on disk: whole, in shards, killed and gone on with.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::Stdio;
use std::thread::sleep;
use std::time::Duration;

use serde_json::Value;

use super::Tested;
use super::run::{layload, program, top};

const INPUTS: &str = "[[inputs]]\nname = \"rpm\"\nlow = 4000.0\nhigh = 6500.0\n\
                      [[inputs]]\nname = \"piston_pin_c\"\nlow = 60.0\nhigh = 110.0\n";

/// A study file and an empty folder beside it.
fn study(name: &str, cases: usize) -> Result<(String, PathBuf), Box<dyn std::error::Error>> {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join(name);
    if folder.exists() {
        fs::remove_dir_all(&folder)?;
    }
    fs::create_dir_all(&folder)?;
    for name in ["bench_single.toml", "plain_rod.stl"] {
        fs::copy(top().join("samples").join(name), folder.join(name))?;
    }
    let text = format!(
        "job = \"bench_single.toml\"\nmeshes = [\"plain_rod.stl\"]\nquick = true\nsampling = \"sobol\"\ncases = {cases}\n{INPUTS}"
    );
    let path = folder.join("study.toml");
    fs::write(&path, text)?;
    Ok((path.display().to_string(), folder))
}

fn run(study: &str, out: &Path, more: &[&str]) -> std::io::Result<super::run::Said> {
    layload(&[&["study", study, "--out", &out.display().to_string()], more].concat())
}

#[test]
fn table_effects_and_names() -> Tested {
    let (path, folder) = study("study_whole", 40)?;
    let out = folder.join("out");
    let said = run(&path, &out, &["--json"])?;
    assert_eq!((said.code, said.err.as_str()), (Some(0), ""));
    let report: Value = serde_json::from_str(&said.out)?;
    let schema: Value = serde_json::from_str(&layload(&["schema", "study"])?.out)?;
    assert!(jsonschema::validator_for(&schema)?.is_valid(&report));
    assert_eq!(fs::read_to_string(out.join("effects.json"))?, said.out);
    let table = fs::read_to_string(out.join("results.csv"))?;
    assert_eq!(table.lines().count(), 41);
    assert_eq!(
        table.lines().next(),
        Some(
            "case,rpm,piston_pin_c,margin,life_b10_s,life_b50_s,mass_g,peak_temperature_c,solved_margin,governing_mode,governing_place,error"
        )
    );
    // Faster running is what costs life here: it comes first.
    assert_eq!(report["responses"][0]["effects"][0]["input"], "rpm");
    // Neither again nor another study goes into the same folder.
    assert_eq!(run(&path, &out, &[])?.code, Some(2));
    fs::write(&path, fs::read_to_string(&path)?.replace("6500", "6600"))?;
    assert!(run(&path, &out, &["--resume"])?.complains("another study"));
    Ok(())
}

#[test]
fn shards_make_the_same_table() -> Tested {
    let (path, folder) = study("study_shards", 40)?;
    run(&path, &folder.join("whole"), &[])?;
    let parts = folder.join("parts");
    for shard in ["2/3", "1/3", "3/3"] {
        assert_eq!(run(&path, &parts, &["--shard", shard])?.code, Some(0), "{shard}");
    }
    for file in ["results.csv", "effects.json"] {
        assert_eq!(fs::read(parts.join(file))?, fs::read(folder.join("whole").join(file))?, "{file}");
    }
    for shard in ["0/3", "4/3", "1", "a/b"] {
        assert_eq!(run(&path, &parts, &["--shard", shard, "--resume"])?.code, Some(2), "{shard}");
    }
    Ok(())
}

/// Killed in the middle, torn in the last line, gone on with: the same bytes.
#[test]
fn what_was_killed_goes_on_to_the_same_table() -> Tested {
    let (path, folder) = study("study_killed", 800)?;
    run(&path, &folder.join("whole"), &[])?;
    let out = folder.join("killed");
    let mut running =
        program().args(["study", &path, "--out"]).arg(&out).stdout(Stdio::null()).stderr(Stdio::null()).spawn()?;
    let journal = out.join("cases-1-of-1.csv");
    // Until the first cases are on disk, however slow the machine.
    while fs::metadata(&journal).map_or(0, |file| file.len()) == 0 && running.try_wait()?.is_none() {
        sleep(Duration::from_millis(2));
    }
    running.kill()?;
    running.wait()?;
    let mut kept = fs::read(&journal)?;
    assert!(!out.join("results.csv").exists(), "it was done before it could be killed: more cases are needed");
    kept.truncate(kept.len() - 7);
    fs::write(&journal, &kept)?;
    assert_eq!(run(&path, &out, &["--resume"])?.code, Some(0));
    for file in ["results.csv", "effects.json"] {
        assert_eq!(fs::read(out.join(file))?, fs::read(folder.join("whole").join(file))?, "{file}");
    }
    // What was finished before was not run again.
    assert!(fs::read(&journal)?.starts_with(&kept[..kept.iter().rposition(|b| *b == b'\n').map_or(0, |n| n + 1)]));
    Ok(())
}

/// A journal of another study in the folder is refused by the case that does not belong, whatever its name.
#[test]
fn cases_of_another_study_are_refused() -> Tested {
    let (path, folder) = study("study_other", 40)?;
    let out = folder.join("out");
    assert_eq!(run(&path, &out, &[])?.code, Some(0));
    let journal = fs::read_to_string(out.join("cases-1-of-1.csv"))?;
    let first = journal.lines().next().ok_or("no case")?;
    let fields: Vec<&str> = first.split(',').collect();
    let rest = fields[1..].join(",");
    let moved = [&[fields[0], "4321.0"], &fields[2..]].concat().join(",");
    for (line, number) in
        [(format!("40,{rest}"), "case 40"), (format!("999999,{rest}"), "case 999999"), (moved, "case ")]
    {
        fs::write(out.join("cases-7-of-9.csv"), format!("{line}\n"))?;
        let said = run(&path, &out, &["--resume"])?;
        assert_eq!(said.code, Some(2), "{line}");
        assert!(said.complains("cases-7-of-9.csv") && said.complains(number), "{}", said.err);
    }
    // The same case again is the same case.
    fs::write(out.join("cases-7-of-9.csv"), format!("{first}\n"))?;
    assert_eq!(run(&path, &out, &["--resume"])?.code, Some(0));
    Ok(())
}
