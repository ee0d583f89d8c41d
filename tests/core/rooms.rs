//! The plan of `core`: which folder may use which, and how few files know which kinds of part there are.

use std::collections::BTreeMap;
use std::fs;

use crate::sources::{repository, sources};

/// Lines of code, without comments.
fn code(text: &str) -> impl Iterator<Item = &str> {
    text.lines().map(|line| line.split("//").next().unwrap_or_default())
}

/// Folders of `core/src` that each folder names.
fn uses() -> BTreeMap<String, BTreeMap<String, String>> {
    let root = repository("core/src");
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

/// The order of folders in the map for contributors, from those that use nothing upward.
fn order() -> Vec<String> {
    let map = fs::read_to_string(repository("DEVELOPERS.md")).unwrap();
    let (_, rest) = map.split_once("<!-- order of folders -->").expect("the map has no order of folders");
    let (block, _) = rest.split_once("<!-- end of order -->").expect("the order has no end");
    let words = block.split(|c: char| !c.is_alphanumeric() && c != '_');
    words.filter(|word| !word.is_empty()).map(String::from).collect()
}

#[test]
fn folders_use_only_what_stands_before_them_in_the_map() {
    let (order, uses) = (order(), uses());
    let place = |name: &String| order.iter().position(|known| known == name);
    let root = repository("core/src");
    for entry in fs::read_dir(&root).unwrap().map(Result::unwrap).filter(|entry| entry.path().is_dir()) {
        let name = entry.file_name().to_string_lossy().into_owned();
        assert!(place(&name).is_some(), "{name} is not in the order of folders in DEVELOPERS.md");
    }
    let mut faults = Vec::new();
    for (room, used) in &uses {
        for (other, file) in used {
            if place(other) >= place(room) {
                faults.push(format!("{file} of {room} uses {other}, which stands after it"));
            }
        }
    }
    assert!(faults.is_empty(), "{faults:#?}");
    // Every folder of any size uses another: an order read from nothing would pass as well.
    assert!(uses.len() > 15 && order.len() >= uses.len(), "{} folders, {} in the order", uses.len(), order.len());
}

#[test]
fn few_files_tell_kinds_of_part_apart() {
    let asks = ["Part::Rod(", "Part::Piston(", "PartKind::ConnectingRod", "PartKind::Piston", "PartWord::"];
    let mut found = Vec::new();
    for folder in ["core/src", "cli/src", "wasm-plugin/src"] {
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
    let folders = ["core/src", "cli/src", "wasm-plugin/src"];
    let long: Vec<String> = folders
        .into_iter()
        .flat_map(|folder| sources(&repository(folder)))
        .filter(|(_, text)| text.lines().count() > 400)
        .map(|(path, text)| format!("{} {}", path.display(), text.lines().count()))
        .collect();
    assert!(long.len() <= LONGER, "{long:#?}");
}
