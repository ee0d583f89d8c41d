//! A file that is huge, or claims billions of facets, is refused before room is made for it.

use std::fs::{self, File};
use std::io;
use std::process::Command;

use super::Tested;
use super::refusal::refused;
use super::run::{JOB, ROD, file, run, top};

#[cfg(target_os = "linux")]
#[test]
fn within_one_gibibyte_of_addresses() -> Tested {
    for announced in [200_000_000_u32, u32::MAX] {
        let mut bytes = fs::read(top().join("tests/meshes/pin.stl"))?;
        bytes[80..84].copy_from_slice(&announced.to_le_bytes());
        let path = file(&format!("huge_claim_{announced}.stl"), bytes)?;
        // 200 million facets of 50 bytes are 10 GB; the shell's limit counts in KiB.
        let script = "ulimit -v 1048576 && exec \"$0\" \"$@\"";
        let mut command = Command::new("sh");
        command.current_dir(top()).args(["-c", script, env!("CARGO_BIN_EXE_layload"), "check", &path, "--job", JOB]);
        refused("huge claim", &run(&mut command)?, &[&format!("announces {announced} facets")]);
    }
    Ok(())
}

/// A file of so many bytes, all zero, that takes no room on the disk.
fn hollow(name: &str, bytes: u64) -> io::Result<String> {
    let path = file(name, [])?;
    File::options().write(true).open(&path)?.set_len(bytes)?;
    Ok(path)
}

#[test]
fn larger_than_anything_that_belongs_there_is_not_read() -> Tested {
    let text = hollow("two_gigabytes.toml", 2_000_000_000)?;
    let mesh = hollow("three_gibibytes.stl", 3 << 30)?;
    let table = "stroke_mm = 46.0\nbore_mm = 52.0\n[engine.gas]\npressure_table = \"two_gigabytes.toml\"\n";
    let naming = file("names_two_gigabytes.toml", format!("[engine]\n{table}"))?;
    for (arguments, limit) in [
        (["check", ROD, "--job", &text], "is larger than 16 MiB and was not read"),
        (["check", ROD, "--job", &naming], "is larger than 16 MiB and was not read"),
        (["check", ROD, "--card", &text], "is larger than 16 MiB and was not read"),
        (["check", &mesh, "--job", JOB], "is larger than 2048 MiB and was not read"),
    ] {
        let mut command = Command::new("sh");
        let script =
            if cfg!(target_os = "linux") { "ulimit -v 1048576 && exec \"$0\" \"$@\"" } else { "exec \"$0\" \"$@\"" };
        command.current_dir(top()).args(["-c", script, env!("CARGO_BIN_EXE_layload")]).args(arguments);
        refused("huge file", &run(&mut command)?, &[limit]);
    }
    Ok(())
}

#[cfg(unix)]
#[test]
fn a_pipe_without_end_is_not_read_to_its_end() -> Tested {
    let script = "yes '# nothing' | \"$0\" check \"$1\" --job /dev/stdin";
    let mut command = Command::new("sh");
    command.current_dir(top()).args(["-c", script, env!("CARGO_BIN_EXE_layload"), ROD]);
    refused("endless pipe", &run(&mut command)?, &["is larger than 16 MiB and was not read"]);
    Ok(())
}
