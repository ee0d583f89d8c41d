//! Where files go: no input is replaced, no device or pipe, links go on leading where they led, and what has no place is told
//! before the work; the answer is printed all the same.

use std::os::unix::fs::{FileTypeExt, MetadataExt, PermissionsExt, symlink};
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::time::Duration;
use std::{fs, thread};

use super::Tested;
use super::refusal::refused;
use super::run::{JOB, ROD, Said, folder as empty_folder, layload, program, top};

/// An empty folder with a rod and a job in it.
fn folder(name: &str) -> std::io::Result<PathBuf> {
    let path = empty_folder(name)?;
    fs::copy(top().join(ROD), path.join("rod.stl"))?;
    fs::copy(top().join(JOB), path.join("job.toml"))?;
    Ok(path)
}

fn name(path: &Path) -> String {
    path.display().to_string()
}

/// A sweep of two speeds, the quickest command that writes a drawing.
fn swept(folder: &Path, svg: &Path, more: &[&str]) -> std::io::Result<Said> {
    let (mesh, job) = (name(&folder.join("rod.stl")), name(&folder.join("job.toml")));
    let svg = name(svg);
    let own =
        ["sweep", "--quick", &mesh, "--job", &job, "--from", "3000", "--to", "4000", "--count", "3", "--svg", &svg];
    layload(&[&own[..], more].concat())
}

fn names_in(folder: &Path) -> std::io::Result<Vec<String>> {
    let mut names: Vec<String> = fs::read_dir(folder)?
        .map(|entry| Ok(entry?.file_name().to_string_lossy().into_owned()))
        .collect::<std::io::Result<_>>()?;
    names.sort_unstable();
    Ok(names)
}

/// Every command that writes, with each of its inputs as the output, by its name, by a link and by a second name.
#[test]
fn no_command_replaces_what_it_reads() -> Tested {
    let place = folder("targets_inputs")?;
    let path = |file: &str| name(&place.join(file));
    fs::copy(top().join("samples/coupons.csv"), place.join("coupons.csv"))?;
    fs::write(place.join("card.toml"), layload(&["materials", "PA12-CF15"])?.out)?;
    let step = "{\"rpm\":5000.0,\"throttle\":1.0,\"seconds\":60.0}";
    let entry = format!("{{\"family\":\"f\",\"outcome\":\"survived\",\"steps\":[{step}],\"mesh\":\"other.stl\"}}\n");
    fs::write(place.join("bench.log"), entry)?;
    fs::copy(top().join(ROD), place.join("other.stl"))?;
    let (rod, job, coupons, card, log) =
        (path("rod.stl"), path("job.toml"), path("coupons.csv"), path("card.toml"), path("bench.log"));
    let check = ["check", "--quick", &rod, "--job", &job, "--card", &card, "--overwrite", "--report"];
    let walls = ["walls", &rod, "--job", &job, "--overwrite", "--mesh-out"];
    let size = ["size", "--quick", &rod, "--job", &job, "--overwrite", "--svg"];
    let compare = ["compare", "--quick", &rod, &rod, "--job", &job, "--overwrite", "--svg"];
    let fit = ["fit", &coupons, "--base", &card, "--overwrite", "--out"];
    let learn = ["learn", "--quick", &log, "--mesh", &rod, "--job", &job, "--overwrite", "--card-out"];
    let commands: [(&[&str], &str, &[&str]); 6] = [
        (&check, "html", &["rod.stl", "job.toml", "card.toml"]),
        (&walls, "ply", &["rod.stl", "job.toml"]),
        (&size, "svg", &["rod.stl", "job.toml"]),
        (&compare, "svg", &["rod.stl", "job.toml"]),
        (&fit, "toml", &["coupons.csv", "card.toml"]),
        (&learn, "toml", &["bench.log", "rod.stl", "job.toml", "other.stl"]),
    ];
    for (command, ending, inputs) in commands {
        for input in inputs {
            let before = fs::read(place.join(input))?;
            // The name itself may have the wrong ending, which is refused too.
            let itself = layload(&[command, &[&path(input)]].concat())?;
            refused(&format!("{command:?} {input}"), &itself, &[]);
            let (link, second) = (place.join(format!("link.{ending}")), place.join(format!("second.{ending}")));
            symlink(place.join(input), &link)?;
            fs::hard_link(place.join(input), &second)?;
            for other in [&link, &second] {
                let said = layload(&[command, &[&name(other)]].concat())?;
                refused(&format!("{command:?} {}", name(other)), &said, &["is read by this command"]);
                fs::remove_file(other)?;
            }
            assert_eq!(fs::read(place.join(input))?, before, "{command:?} {input}");
        }
    }
    Ok(())
}

#[test]
fn two_outputs_are_two_files() -> Tested {
    let place = folder("targets_twice")?;
    let (mesh, job) = (name(&place.join("rod.stl")), name(&place.join("job.toml")));
    let one = name(&place.join("one.svg"));
    fs::write(&one, "mine")?;
    symlink(&one, place.join("same.svg"))?;
    let coupons = name(&top().join("samples/coupons.csv"));
    for [out, svg] in [["new", "new"], ["one.svg", "same.svg"]] {
        let (out, svg) = (name(&place.join(out)), name(&place.join(svg)));
        let said = layload(&["fit", &coupons, "--out", &out, "--svg", &svg, "--overwrite"])?;
        refused("fit", &said, &[]);
    }
    let legend = name(&place.join("same.svg"));
    let svg = name(&place);
    fs::remove_file(place.join("same.svg"))?;
    symlink(place.join("part.svg"), place.join("same.svg"))?;
    let said =
        layload(&["check", "--quick", &mesh, "--job", &job, "--legend-out", &legend, "--svg", &svg, "--overwrite"])?;
    refused("part.svg", &said, &["are one file"]);
    assert_eq!(fs::read_to_string(&one)?, "mine");
    Ok(())
}

#[test]
fn an_ending_says_what_is_written() -> Tested {
    let place = folder("targets_endings")?;
    let (mesh, job) = (name(&place.join("rod.stl")), name(&place.join("job.toml")));
    let coupons = name(&top().join("samples/coupons.csv"));
    for file in ["page.pdf", "page.json", "page.svg", "PAGE.PDF", "page.stl"] {
        let said = layload(&["check", "--quick", &mesh, "--job", &job, "--report", &name(&place.join(file))])?;
        refused(file, &said, &["ends in .", "a page in HTML", ".html"]);
    }
    refused("png", &swept(&place, &place.join("curve.png"), &[])?, &["a drawing in SVG"]);
    let said = layload(&["fit", &coupons, "--out", &name(&place.join("card.csv"))])?;
    refused("card", &said, &["text in TOML"]);
    refused("job", &layload(&["new-job", &name(&place.join("job.pdf"))])?, &["text in TOML"]);
    assert_eq!(names_in(&place)?, ["job.toml", "rod.stl"]);
    // Names without an ending, or with one of nobody's, are free.
    assert_eq!(swept(&place, &place.join("curve"), &[])?.code, Some(0));
    Ok(())
}

#[test]
fn a_place_is_looked_for_before_the_work() -> Tested {
    let place = folder("targets_places")?;
    let (mesh, job) = (name(&place.join("rod.stl")), name(&place.join("job.toml")));
    fs::create_dir_all(place.join("folder.html"))?;
    fs::write(place.join("there.html"), "mine")?;
    for (file, words) in [
        ("no_folder/page.html", "cannot be written"),
        ("folder.html", "is a folder"),
        ("there.html", "--overwrite"),
        ("rod.stl/page.html", "cannot be written"),
    ] {
        // Where the work began, a field of so many cells would take minutes.
        let own = ["check", &mesh, "--job", &job, "--cells", "400000", "--report"];
        let said = layload(&[&own[..], &[&name(&place.join(file))]].concat())?;
        refused(file, &said, &[words]);
    }
    assert_eq!(names_in(&place)?, ["folder.html", "job.toml", "rod.stl", "there.html"]);
    Ok(())
}

#[test]
fn the_answer_is_printed_where_a_file_fails() -> Tested {
    let place = folder("targets_fails")?;
    if Path::new("/dev/full").exists() {
        // A device that takes nothing: it is found out when it is written to.
        let said = swept(&place, Path::new("/dev/full"), &[])?;
        assert_eq!(said.code, Some(2));
        assert!(said.complains("cannot be written"), "{}", said.err);
        assert!(said.out.contains("rpm"), "no answer: {}", said.out);
        let meta = fs::symlink_metadata("/dev/full")?;
        assert!(meta.file_type().is_char_device());
    }
    Ok(())
}

#[test]
fn pipes_and_devices_are_written_to() -> Tested {
    let place = folder("targets_pipe")?;
    let pipe = place.join("pipe");
    assert!(Command::new("mkfifo").arg(&pipe).status()?.success());
    for more in [&[][..], &["--overwrite"]] {
        let reading = pipe.clone();
        let reader = thread::spawn(move || fs::read_to_string(reading));
        assert_eq!(swept(&place, &pipe, more)?.code, Some(0));
        let read = reader.join().map_err(|_| "the reader broke down")??;
        assert!(read.starts_with("<svg"), "{read}");
        assert!(fs::symlink_metadata(&pipe)?.file_type().is_fifo(), "the pipe was replaced");
    }
    // A device of the test's own, where it may be made: the same as the system's null device.
    let device = place.join("null");
    let made = Command::new("mknod").arg(&device).args(["c", "1", "3"]).stderr(Stdio::null()).status();
    if made.is_ok_and(|made| made.success()) && fs::OpenOptions::new().write(true).open(&device).is_ok() {
        assert_eq!(swept(&place, &device, &["--overwrite"])?.code, Some(0));
        assert!(fs::symlink_metadata(&device)?.file_type().is_char_device(), "the device was replaced");
        symlink(&device, place.join("link"))?;
        assert_eq!(swept(&place, &place.join("link"), &["--overwrite"])?.code, Some(0));
        assert!(fs::symlink_metadata(place.join("link"))?.is_symlink());
    }
    Ok(())
}

#[test]
fn links_go_on_leading_where_they_led() -> Tested {
    let place = folder("targets_links")?;
    fs::create_dir_all(place.join("elsewhere"))?;
    let (real, link, nowhere) = (place.join("elsewhere/real.svg"), place.join("link.svg"), place.join("nowhere.svg"));
    fs::write(&real, "old")?;
    fs::set_permissions(&real, fs::Permissions::from_mode(0o600))?;
    symlink("elsewhere/real.svg", &link)?;
    symlink("elsewhere/new.svg", &nowhere)?;
    for taken in [&link, &nowhere] {
        refused("taken", &swept(&place, taken, &[])?, &["is there already", "--overwrite"]);
        assert_eq!(swept(&place, taken, &["--overwrite"])?.code, Some(0));
        assert!(fs::symlink_metadata(taken)?.is_symlink(), "the link was replaced");
    }
    assert!(fs::read_to_string(&real)?.starts_with("<svg"));
    assert!(fs::read_to_string(place.join("elsewhere/new.svg"))?.starts_with("<svg"));
    // What was private stays private.
    assert_eq!(fs::metadata(&real)?.mode() & 0o777, 0o600);
    let (one, other) = (place.join("one.svg"), place.join("other.svg"));
    symlink(&one, &other)?;
    symlink(&other, &one)?;
    refused("circle", &swept(&place, &one, &["--overwrite"])?, &["cannot be written"]);
    assert_eq!(names_in(&place.join("elsewhere"))?, ["new.svg", "real.svg"]);
    Ok(())
}

/// Stopped by the keyboard while a file is half way, no temporary file stays behind.
#[test]
fn a_stop_leaves_no_temporary_file() -> Tested {
    let place = folder("targets_stopped")?;
    let pipe = place.join("pipe.svg");
    assert!(Command::new("mkfifo").arg(&pipe).status()?.success());
    // The painted mesh is written under a temporary name, and then the pipe waits for a reader that never comes.
    let mut running = program()
        .args(["walls", &name(&place.join("rod.stl")), "--legend-out", &name(&pipe)])
        .args(["--mesh-out", &name(&place.join("part.ply"))])
        .stdout(Stdio::null())
        .stderr(Stdio::null())
        .spawn()?;
    let begun = || Ok::<bool, std::io::Error>(names_in(&place)?.iter().any(|name| name.starts_with(".layload-")));
    // Twice seen: the look for a place makes one too, and takes it away.
    let mut seen = 0;
    while seen < 20 && running.try_wait()?.is_none() {
        seen = if begun()? { seen + 1 } else { 0 };
        thread::sleep(Duration::from_millis(10));
    }
    assert!(running.try_wait()?.is_none(), "it ended by itself");
    assert!(Command::new("kill").args(["-INT", &running.id().to_string()]).status()?.success());
    assert!(!running.wait()?.success());
    assert_eq!(names_in(&place)?, ["job.toml", "pipe.svg", "rod.stl"]);
    Ok(())
}
