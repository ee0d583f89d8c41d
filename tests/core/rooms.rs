//! The plan of `core` and of the solid inside it: which folder may use which, and how few files know which kinds of part there are.

use std::collections::BTreeMap;
use std::fs;

use crate::sources::{repository, sources};

/// Lines of code, without comments.
fn code(text: &str) -> impl Iterator<Item = &str> {
    text.lines().map(|line| line.split("//").next().unwrap_or_default())
}

/// Crates of the core, the lower first, each with the fewest folders of it that use another.
const CRATES: [(&str, usize); 2] = [("core/solid/src", 2), ("core/src", 15)];

/// Folders of a crate that each folder names.
fn uses(crate_folder: &str) -> BTreeMap<String, BTreeMap<String, String>> {
    let root = repository(crate_folder);
    let mut uses: BTreeMap<String, BTreeMap<String, String>> = BTreeMap::new();
    for (path, text) in sources(&root) {
        let inside = path.strip_prefix(&root).unwrap();
        let mut parts = inside.components().map(|part| part.as_os_str().to_string_lossy().into_owned());
        // Of the files at the top `lib` offers everything and `error` gathers all errors.
        let (Some(room), Some(_)) = (parts.next(), parts.next()) else { continue };
        for line in code(&text) {
            for (at, _) in line.match_indices("crate::") {
                let name: String = line[at + 7..].chars().take_while(|c| c.is_alphanumeric() || *c == '_').collect();
                // The error of all and what the root offers are nobody's room.
                if root.join(&name).is_dir() && name != room {
                    uses.entry(room.clone()).or_default().insert(name, inside.display().to_string());
                }
            }
        }
    }
    uses
}

/// The order of a crate's folders in the map for contributors, from those that use nothing upward.
fn order(crate_folder: &str) -> Vec<String> {
    let map = fs::read_to_string(repository("DEVELOPERS.md")).unwrap();
    let (_, rest) = map
        .split_once(&format!("<!-- order of folders of {crate_folder} -->"))
        .expect("the map has no order of folders");
    let (block, _) = rest.split_once("<!-- end of order -->").expect("the order has no end");
    let words = block.split(|c: char| !c.is_alphanumeric() && c != '_');
    words.filter(|word| !word.is_empty()).map(String::from).collect()
}

#[test]
fn folders_use_only_what_stands_before_them_in_the_map() {
    for (crate_folder, fewest) in CRATES {
        let (order, uses) = (order(crate_folder), uses(crate_folder));
        let place = |name: &String| order.iter().position(|known| known == name);
        let root = repository(crate_folder);
        let entries = fs::read_dir(&root).unwrap().map(Result::unwrap);
        let folders = entries.filter(|entry| entry.path().is_dir()).map(|entry| entry.file_name());
        let mut folders: Vec<String> = folders.map(|name| name.to_string_lossy().into_owned()).collect();
        folders.sort();
        let mut listed = order.clone();
        listed.sort();
        assert_eq!(folders, listed, "folders of {crate_folder}, and those in the order in DEVELOPERS.md");
        let mut faults = Vec::new();
        for (room, used) in &uses {
            for (other, file) in used {
                if place(other) >= place(room) {
                    faults.push(format!("{file} of {room} uses {other}, which stands after it"));
                }
            }
        }
        assert!(faults.is_empty(), "{crate_folder}: {faults:#?}");
        // Every folder of any size uses another: an order read from nothing would pass as well.
        assert!(uses.len() >= fewest, "{crate_folder}: {} folders use another", uses.len());
    }
}

#[test]
fn the_lower_crate_is_reached_by_its_folders_alone() {
    // `lib` and `input` hand on what stands in the solid's folders; every other file says `crate::mesh`, as for its own, so
    // that the order above is seen in it.
    let root = repository("core/src");
    let named = sources(&root).into_iter().filter(|(_, text)| code(text).any(|line| line.contains("layload_solid")));
    let named: Vec<String> = named.map(|(path, _)| path.strip_prefix(&root).unwrap().display().to_string()).collect();
    assert_eq!(named, ["input/mod.rs", "lib.rs"]);
}

#[test]
fn a_solid_knows_no_part_print_or_material() {
    let asks = ["Rod", "Piston", "Print", "Material", "print::", "material::", "part::"];
    let root = repository("core/solid/src");
    let mut files = 0;
    let mut found = Vec::new();
    for (path, text) in sources(&root) {
        let inside = path.strip_prefix(&root).unwrap().display().to_string();
        files += 1;
        // Help is worded for every user of the program, whose inputs it names.
        if inside != "input/help.rs" && code(&text).any(|line| asks.iter().any(|word| line.contains(word))) {
            found.push(inside);
        }
    }
    assert!(files > 40, "{files} files");
    assert!(found.is_empty(), "{found:#?}");
}

#[test]
fn few_files_tell_kinds_of_part_apart() {
    let asks = ["Part::Rod(", "Part::Piston(", "PartKind::ConnectingRod", "PartKind::Piston", "PartWord::"];
    let mut found = Vec::new();
    for folder in ["core/solid/src", "core/src", "cli/src", "wasm-plugin/src"] {
        for (path, text) in sources(&repository(folder)) {
            let inside = path.strip_prefix(repository("")).unwrap().display().to_string();
            // A kind's own folder names itself.
            let own = ["rod", "piston", "any"].iter().any(|own| inside.starts_with(&format!("core/src/{own}/")));
            if !own && code(&text).any(|line| asks.iter().any(|word| line.contains(word))) {
                found.push(inside);
            }
        }
    }
    assert!((1..=3).contains(&found.len()), "{found:#?}");
}

#[test]
fn product_files_are_short() {
    /// Files that may be longer, each with its reason in its head.
    const LONGER: usize = 4;
    let folders = ["core/solid/src", "core/src", "cli/src", "wasm-plugin/src"];
    let long: Vec<String> = folders
        .into_iter()
        .flat_map(|folder| sources(&repository(folder)))
        .filter(|(_, text)| text.lines().count() > 400)
        .map(|(path, text)| format!("{} {}", path.display(), text.lines().count()))
        .collect();
    assert!(long.len() <= LONGER, "{long:#?}");
}
