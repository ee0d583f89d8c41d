//! A file that claims billions of facets is refused before room is made for them.

use std::fs;
use std::process::Command;

use super::Tested;
use super::refusal::refused;
use super::run::{JOB, file, run, top};

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
