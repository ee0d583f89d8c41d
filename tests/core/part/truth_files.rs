//! Every rod among the test meshes and the samples is recognised as it was built.

use super::truth::{Truth, unit};
use super::{Tested, recognised};
use crate::mesh::files;

#[test]
fn rods() -> Tested {
    let truths = files::truths()?;
    let mut faults = Vec::new();
    let mut count = 0;
    for (name, value) in truths.as_object().ok_or("no files")? {
        if value["expected"] != "rod" {
            continue;
        }
        count += 1;
        match recognised(&files::bytes(name)?, unit(value)) {
            Ok(Ok(rod)) => faults.extend(Truth::of(value).faults(&rod).iter().map(|fault| format!("{name}: {fault}"))),
            Ok(Err(error)) => faults.push(format!("{name}: {error}")),
            Err(error) => faults.push(format!("{name}: {error}")),
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
    assert!(count >= 19, "only {count} rods among the files");
    Ok(())
}

#[test]
fn every_file_says_what_is_expected_of_it() -> Tested {
    for (name, value) in files::truths()?.as_object().ok_or("no files")? {
        let expected = value["expected"].as_str().unwrap_or_default();
        assert!(
            ["rod", "rod_after_repair", "not_a_rod", "piston", "refused"].contains(&expected),
            "{name}: {expected}"
        );
    }
    Ok(())
}
