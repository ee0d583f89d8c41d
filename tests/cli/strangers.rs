//! Jobs, logs and studies of strangers: they name files of their own folder only, nothing of a file they name is told on, and
//! no sign in them reaches a terminal or a page.

use std::fs;
use std::os::unix::fs::symlink;
use std::path::{Path, PathBuf};
use std::process::Command;

use super::Tested;
use super::html::Page;
use super::refusal::refused;
use super::run::{JOB, ROD, folder as empty_folder, layload, program, run, top};

/// A folder with a job's own folder in it, and a secret beside that.
fn folder(name: &str) -> std::io::Result<PathBuf> {
    let path = empty_folder(name)?;
    fs::create_dir_all(path.join("job/below"))?;
    fs::write(path.join("secret"), "password hunter2\n")?;
    Ok(path)
}

fn table() -> String {
    // A pressure that a four-stroke engine could have.
    let bar = |angle: i32| 1.0 + 25.0 * (-f64::from((angle - 10) * (angle - 10)) / 1800.0).exp();
    (-180..540).map(|angle| format!("{angle},{}", bar(angle))).collect::<Vec<_>>().join("\n")
}

/// The job of these tests with a pressure table of this name.
fn with_table(place: &Path, name: &str) -> std::io::Result<String> {
    let job = fs::read_to_string(top().join(JOB))?;
    let path = place.join("job/job.toml");
    fs::write(&path, job.replace("peak_pressure_bar = 28.0", &format!("pressure_table = {name:?}")))?;
    Ok(path.display().to_string())
}

fn with_card(place: &Path, name: &str) -> std::io::Result<String> {
    let job = fs::read_to_string(top().join(JOB))?;
    let path = place.join("job/job.toml");
    fs::write(&path, job.replace("name = \"PA12-CF15\"", &format!("card_file = {name:?}")))?;
    Ok(path.display().to_string())
}

#[test]
fn a_job_names_files_of_its_folder_only() -> Tested {
    let place = folder("strangers_folder")?;
    for file in ["job/own.csv", "job/below/own.csv", "other.csv"] {
        fs::write(place.join(file), table())?;
    }
    symlink(place.join("other.csv"), place.join("job/link.csv"))?;
    symlink("below/own.csv", place.join("job/inner.csv"))?;
    let outside = place.join("other.csv").display().to_string();
    for name in
        ["../other.csv", "below/../../other.csv", "link.csv", &outside, "/etc/passwd", "../no_such.csv", "/no/such"]
    {
        let job = with_table(&place, name)?;
        refused(name, &layload(&["check", "--quick", ROD, "--job", &job])?, &["outside its folder", "--any-folder"]);
    }
    for name in ["own.csv", "./own.csv", "below/own.csv", "below/../own.csv", "inner.csv"] {
        let job = with_table(&place, name)?;
        assert!(matches!(layload(&["check", "--quick", ROD, "--job", &job])?.code, Some(1 | 3)), "{name}");
    }
    for name in ["../other.csv", "link.csv", &outside] {
        let job = with_table(&place, name)?;
        assert!(
            matches!(layload(&["check", "--quick", ROD, "--job", &job, "--any-folder"])?.code, Some(1 | 3)),
            "{name}"
        );
    }
    Ok(())
}

#[test]
fn only_regular_files_of_some_size_are_read_for_a_job() -> Tested {
    let place = folder("strangers_kinds")?;
    assert!(Command::new("mkfifo").arg(place.join("job/pipe.csv")).status()?.success());
    symlink("/dev/zero", place.join("job/zero.csv"))?;
    for (name, words) in [("pipe.csv", "a pipe or a device"), ("below", "a folder"), ("zero.csv", "outside its folder")]
    {
        let job = with_table(&place, name)?;
        refused(name, &layload(&["check", "--quick", ROD, "--job", &job])?, &[words]);
        let job = with_card(&place, name)?;
        refused(name, &layload(&["check", "--quick", ROD, "--job", &job])?, &[words]);
    }
    let job = with_table(&place, "zero.csv")?;
    refused("zero", &layload(&["check", "--quick", ROD, "--job", &job, "--any-folder"])?, &["a pipe or a device"]);
    Ok(())
}

#[test]
fn lines_of_files_that_a_job_names_are_not_told() -> Tested {
    let place = folder("strangers_lines")?;
    for (file, text) in [
        ("card.toml", "name = \"x\"\npassword = hunter2\n"),
        ("kind.toml", "name = 7\nfamily = \"hunter2\"\ndensity_kg_m3 = \"hunter2\"\n"),
        ("word.toml", "hunter2\n"),
    ] {
        fs::write(place.join("job").join(file), text)?;
        let said = layload(&["check", "--quick", ROD, "--job", &with_card(&place, file)?])?;
        refused(file, &said, &[file]);
        assert!(!said.err.contains("hunter2"), "{}", said.err);
        // A card that the user names is told of in full.
        let named = place.join("job").join(file).display().to_string();
        let said = layload(&["check", "--quick", ROD, "--job", JOB, "--card", &named])?;
        assert_eq!(said.code, Some(2), "{file}");
    }
    fs::write(place.join("job/table.csv"), "0,1\n1,hunter2\n2,3\n")?;
    let said = layload(&["check", "--quick", ROD, "--job", &with_table(&place, "table.csv")?])?;
    refused("table", &said, &["line 2"]);
    assert!(!said.err.contains("hunter2"), "{}", said.err);
    Ok(())
}

#[test]
fn a_study_names_files_of_its_folder_only() -> Tested {
    let place = folder("strangers_study")?;
    for (from, to) in [(ROD, "job/rod.stl"), (ROD, "rod.stl"), (JOB, "job/job.toml"), (JOB, "job.toml")] {
        fs::copy(top().join(from), place.join(to))?;
    }
    let inputs = "sampling = \"latin-hypercube\"\ncases = 4\n[[inputs]]\nname = \"rpm\"\nlow = 3000.0\nhigh = 4000.0\n";
    for (job, mesh, good) in
        [("job.toml", "rod.stl", true), ("../job.toml", "rod.stl", false), ("job.toml", "../rod.stl", false)]
    {
        let path = place.join("job/study.toml").display().to_string();
        fs::write(&path, format!("job = \"{job}\"\nmeshes = [\"{mesh}\"]\nquick = true\n{inputs}"))?;
        let out = place.join(format!("out-{}-{}", job.len(), mesh.len())).display().to_string();
        let said = layload(&["study", &path, "--out", &out])?;
        if good {
            assert_eq!(said.code, Some(0), "{}", said.err);
        } else {
            refused(job, &said, &["outside its folder"]);
            assert_eq!(layload(&["study", &path, "--out", &out, "--any-folder"])?.code, Some(0), "{job} {mesh}");
        }
    }
    Ok(())
}

/// A log names files of its folder, and those that the user names too.
#[test]
fn a_log_names_files_of_its_folder_only() -> Tested {
    let place = folder("strangers_log")?;
    fs::copy(top().join("samples/plain_rod.stl"), place.join("rod.stl"))?;
    fs::copy(top().join("samples/bench_single.toml"), place.join("job.toml"))?;
    fs::copy(top().join("samples/plain_rod.stl"), place.join("other.stl"))?;
    let log = place.join("job/bench.log").display().to_string();
    let path = |name: &str| place.join(name).display().to_string();
    let (rod, job) = (path("rod.stl"), path("job.toml"));
    let own = ["learn", "--quick", &log, "--mesh", &rod, "--job", &job];
    let add = [&own[..], &["--add", "survived", "--steps", "5000:1:60"]].concat();
    assert!(matches!(layload(&add)?.code, Some(1 | 3)));
    assert!(matches!(layload(&own)?.code, Some(1 | 3)));
    let mesh = fs::read_to_string(&log)?;
    fs::write(&log, mesh.replace("rod.stl", "other.stl"))?;
    refused("log", &layload(&own)?, &["outside its folder"]);
    assert!(matches!(layload(&[&own[..], &["--any-folder"]].concat())?.code, Some(1 | 3)));
    Ok(())
}

/// Signs that steer a terminal, end a string of XML, close a script, turn the order of letters or are none.
const SIGNS: &str =
    "\u{1b}[2Jx\u{7}\u{0}\u{9b}31m\u{202e}lla\u{2066}\u{feff}]]></script><!--\r\u{85}\u{2028}\u{fffe}\u{e0041}";

/// Whether a text has signs that must not be sent.
fn hides(text: &str) -> Option<char> {
    let hidden = |c: char| {
        (c.is_control() && c != '\n' && c != '\t')
            || ('\u{202a}'..='\u{202e}').contains(&c)
            || ('\u{2066}'..='\u{2069}').contains(&c)
            || matches!(c, '\u{2028}' | '\u{feff}' | '\u{fffe}' | '\u{e0041}')
    };
    text.chars().find(|c| hidden(*c))
}

#[test]
fn signs_of_a_title_are_shown_and_not_sent() -> Tested {
    let place = folder("strangers_signs")?;
    let title = SIGNS.chars().map(|sign| format!("\\U{:08x}", u32::from(sign))).collect::<Vec<_>>().concat();
    let text = fs::read_to_string(top().join("samples/bench_single.toml"))?;
    let own = text.lines().find(|line| line.starts_with("title")).ok_or("no title")?;
    let job = place.join("job/job.toml");
    fs::write(&job, text.replacen(own, &format!("title = \"{title}\""), 1))?;
    let card = layload(&["materials", "PA12-CF15"])?.out;
    let named = card.lines().find(|line| line.starts_with("name")).ok_or("no name")?;
    let of_card = place.join("job/card.toml");
    fs::write(&of_card, card.replacen(named, &format!("name = \"{title}\""), 1))?;
    let mesh = "samples/plain_rod.stl";
    let (job, of_card) = (job.display().to_string(), of_card.display().to_string());
    let path = |name: &str| place.join(name).display().to_string();
    let (page, svg, part) = (path("page.html"), path("svg"), path("part.3mf"));
    let check = ["check", "--quick", mesh, "--job", &job, "--card", &of_card];
    let files = ["--report", &page, "--svg", &svg, "--mesh-out", &part];
    let said = layload(&[&check[..], &files].concat())?;
    assert!(matches!(said.code, Some(1 | 3)), "{}", said.err);
    let colored = layload(&[&["--color", "always"], &check[..]].concat())?;
    for text in [&said.out, &said.err, &colored.out.replacen("\u{1b}[", "", 2)] {
        assert_eq!(hides(text), None, "{text:?}");
    }
    let text = fs::read_to_string(&page)?;
    assert_eq!(hides(&text), None);
    assert!(Page::parsed(&text).named(&["script"]).is_empty());
    assert!(text.contains("\\u{1b}[2J") && text.contains("\\u{202e}"), "not shown");
    let mut drawings = 0;
    for entry in fs::read_dir(&svg)? {
        let text = fs::read_to_string(entry?.path())?;
        assert_eq!(hides(&text), None);
        well_formed(&text)?;
        drawings += 1;
    }
    assert!(drawings > 4);
    // JSON holds them as they are, in its own escapes.
    let json = layload(&[&check[..], &["--json"]].concat())?.out;
    assert_eq!(hides(&json), None);
    let report: serde_json::Value = serde_json::from_str(&json)?;
    assert_eq!(report["title"].as_str(), Some(SIGNS));
    Ok(())
}

/// Read to its end by a reader of XML, with all of its letters allowed there.
fn well_formed(text: &str) -> Tested {
    let mut reader = quick_xml::Reader::from_str(text);
    while !matches!(reader.read_event()?, quick_xml::events::Event::Eof) {}
    let allowed = |c: char| c >= ' ' && !matches!(c, '\u{fffe}' | '\u{ffff}') || matches!(c, '\t' | '\n' | '\r');
    assert!(text.chars().all(allowed));
    Ok(())
}

#[test]
fn signs_of_names_and_meshes_are_shown_and_not_sent() -> Tested {
    let place = folder("strangers_names")?;
    let evil = "a\u{1b}[31m\u{202e}\nHOLDS";
    let said = layload(&["check", "--quick", &format!("{evil}.stl"), "--job", JOB])?;
    assert_eq!(said.code, Some(2));
    assert_eq!(hides(&said.err), None, "{}", said.err);
    assert!(said.complains("\\u{1b}[31m\\u{202e}\\u{a}HOLDS"), "{}", said.err);
    let said = layload(&["check", "--quick", ROD, "--job", JOB, "--material", evil])?;
    assert_eq!((said.code, hides(&said.err)), (Some(2), None));
    let said = layload(&["check", "--quick", ROD, "--no\u{1b}[31m\u{202e}"])?;
    assert_eq!((said.code, hides(&said.err)), (Some(2), None));
    // In the head and in the body of a mesh.
    let mesh = place.join("mesh.stl");
    fs::write(&mesh, format!("solid {evil}\nfacet normal 0 0 1\nouter \u{1b}[31mloop\n\u{1b}[2J 1 2\n"))?;
    let said = run(program().args(["check", "--quick"]).arg(&mesh).args(["--job", JOB]))?;
    assert_eq!((said.code, hides(&said.err)), (Some(2), None), "{}", said.err);
    let named = place.join(format!("{evil}.toml"));
    let said = run(program().arg("new-job").arg(&named))?;
    assert_eq!((said.code, hides(&said.out)), (Some(0), None), "{}", said.out);
    Ok(())
}
