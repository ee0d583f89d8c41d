//! Words that are retired stay retired, in all that a user reads: one term for one thing, and no sentence to read twice.

use std::fs;
use std::str::FromStr;

use proc_macro2::{Group, TokenStream, TokenTree};
use walkdir::WalkDir;

use super::Tested;
use super::run::{layload, top};

/// Retired words and what to write instead.
const RETIRED: [(&str, &str); 22] = [
    ("give way", "fail"),
    ("gives way", "fails"),
    ("giving way", "failing"),
    ("at once", "say when, or that it does not depend on time"),
    ("no time", "0 s"),
    ("in the long run", "in long running"),
    ("looked at", "checked"),
    ("is looked at", "is checked"),
    ("nine in ten", "90 %"),
    ("in ten would", "90 % would"),
    ("one in ten", "10 %"),
    ("parts in ten", "90 % of parts"),
    ("rods in ten", "90 % of rods"),
    ("pistons in ten", "90 % of pistons"),
    ("time in twenty", "at its 1-in-20 limit"),
    ("on paper", "unproven"),
    ("beware", "Not checked, Unusual or Safety"),
    ("values listed below", "the values below"),
    ("founding", "uncertainty"),
    ("founded on", "from"),
    ("of the uncertainty rests", "of the uncertainty comes"),
    ("numbers were not to be had", "data unavailable"),
];

/// Folders whose strings are read by users, and whether comments of documentation there are help.
const SOURCES: [(&str, bool); 7] = [
    ("cli/src", false),
    ("cli/src/args", true),
    ("core/src/report/words", false),
    ("core/src/verdict", false),
    ("core/src/rod/report", false),
    ("core/src/piston/report", false),
    ("core/src/any/report", false),
];

/// Texts of hosts that are read as they stand, comments too.
const WHOLE: [&str; 4] = ["wasm-plugin/README.md", "wasm-plugin/web/src", "wasm-plugin/wit", "wasm-plugin/hosts"];
const ENDINGS: [&str; 7] = ["md", "ts", "html", "wit", "h", "py", "pyi"];

/// Words as they are read: one blank between them, nothing of how a source breaks its lines.
fn plain(text: &str) -> String {
    let text = text.replace("\\n", " ").replace("\\\n", " ");
    format!(" {} ", text.split_whitespace().collect::<Vec<_>>().join(" ").to_lowercase())
}

fn retired(place: &str, text: &str, found: &mut Vec<String>) {
    let words = plain(text);
    for (word, instead) in RETIRED {
        if let Some(at) = words.find(word)
            && !words[..at].ends_with(char::is_alphanumeric)
            && !words[at + word.len()..].starts_with(char::is_alphanumeric)
        {
            found.push(format!("{place}: `{word}`, write {instead}: {}", words.trim()));
        }
    }
}

/// Texts of a source: its strings, and where they are help its comments of documentation, which the lexer gives as attributes.
fn texts(tokens: TokenStream, help: bool, list: &mut Vec<String>) {
    let mut attribute = false;
    for token in tokens {
        match &token {
            TokenTree::Literal(literal) => list.push(literal.to_string()),
            TokenTree::Group(group) if help || !(attribute && is_documentation(group)) => {
                texts(group.stream(), help, list);
            }
            _ => {}
        }
        // A module's own attribute has a mark between.
        attribute =
            matches!(&token, TokenTree::Punct(sign) if sign.as_char() == '#' || (attribute && sign.as_char() == '!'));
    }
}

fn is_documentation(attribute: &Group) -> bool {
    matches!(attribute.stream().into_iter().next(), Some(TokenTree::Ident(name)) if name == "doc")
}

#[test]
fn what_users_read_has_no_retired_word() -> Tested {
    let mut found = Vec::new();
    let mut seen = 0;
    for (folder, help) in SOURCES {
        for entry in WalkDir::new(top().join(folder)) {
            let path = entry?.into_path();
            if path.extension().is_none_or(|ending| ending != "rs") {
                continue;
            }
            let tokens = TokenStream::from_str(&fs::read_to_string(&path)?).map_err(|error| error.to_string())?;
            let mut list = Vec::new();
            texts(tokens, help, &mut list);
            seen += list.len();
            let place = path.display().to_string();
            for text in &list {
                retired(&place, text, &mut found);
            }
        }
    }
    assert!(seen > 1000, "only {seen} texts were found");
    let made = |path: &std::path::Path| {
        ["component", "node_modules", "target"].iter().any(|folder| path.iter().any(|part| part == *folder))
    };
    let mut hosts = 0;
    for entry in WHOLE.iter().flat_map(|place| WalkDir::new(top().join(place))) {
        let path = entry?.into_path();
        let read = path.extension().is_some_and(|ending| ENDINGS.iter().any(|known| ending == *known));
        if read && !made(&path) {
            hosts += 1;
            let text = fs::read_to_string(&path)?;
            text.split("\n\n").for_each(|part| retired(&path.display().to_string(), part, &mut found));
        }
    }
    assert!(hosts > 20, "only {hosts} texts of hosts were found");
    let readme = fs::read_to_string(top().join("README.md"))?;
    readme.split("\n\n").for_each(|part| retired("README.md", part, &mut found));
    for of in ["check", "compare", "diagnose", "directions", "fit", "learn", "plan", "size", "study", "sweep", "walls"]
    {
        let schema: serde_json::Value = serde_json::from_str(&layload(&["schema", of])?.out)?;
        descriptions(&schema, &mut |text| retired(&format!("schema of {of}"), text, &mut found));
    }
    found.sort_unstable();
    found.dedup();
    assert!(found.is_empty(), "{} retired words:\n{}", found.len(), found.join("\n"));
    Ok(())
}

fn descriptions(schema: &serde_json::Value, tell: &mut impl FnMut(&str)) {
    match schema {
        serde_json::Value::Object(map) => {
            if let Some(text) = map.get("description").and_then(serde_json::Value::as_str) {
                tell(text);
            }
            map.values().for_each(|value| descriptions(value, tell));
        }
        serde_json::Value::Array(list) => list.iter().for_each(|value| descriptions(value, tell)),
        _ => {}
    }
}

/// A retired word is found wherever it stands, so that the test above can fail.
#[test]
fn a_retired_word_is_found() {
    let mut found = Vec::new();
    retired("here", "the rod\n   gives way there", &mut found);
    retired("here", "it misgives way", &mut found);
    assert_eq!(found.len(), 1, "{found:?}");
    let mut list = Vec::new();
    let source = "/// The part that gives way.\nfn told() -> &'static str { \"it \\\n   gives way\" }";
    texts(TokenStream::from_str(source).unwrap_or_default(), false, &mut list);
    assert_eq!(list.len(), 1, "{list:?}");
}

/// README is short, begins with the job, and has exactly two commands before the tour.
#[test]
fn readme_is_short_and_keeps_its_order() -> Tested {
    let readme = fs::read_to_string(top().join("README.md"))?;
    assert!(readme.lines().count() <= 150, "{} lines", readme.lines().count());
    let commands: Vec<&str> = readme.lines().filter(|line| line.starts_with("    ")).map(str::trim).collect();
    assert_eq!(commands.len(), 2, "{commands:?}");
    assert!(commands[0].starts_with("cargo run --release -- check") && commands[1] == "bash tests/run", "{commands:?}");
    let at = |title: &str| readme.find(title).ok_or_else(|| format!("no {title}"));
    let order =
        [at("# layload")?, at("## Before you start an engine")?, at("## A tour")?, at("## How to read the answer")?];
    assert!(order.is_sorted(), "{order:?}");
    // Topics that it sends readers to are there.
    let topics = readme.split("Topics:").nth(1).and_then(|rest| rest.split("\n\n").next()).ok_or("no topics")?;
    let names: Vec<&str> = topics.split('`').skip(1).step_by(2).collect();
    assert!(names.len() > 10, "{names:?}");
    for name in names {
        assert_eq!(layload(&["explain", name])?.code, Some(0), "{name}");
    }
    Ok(())
}
