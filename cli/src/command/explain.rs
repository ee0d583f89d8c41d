use crate::args::ExplainArguments;
use crate::explain::{Entry, entries, found, nearest};
use crate::failure::Failure;
use crate::outcome::Outcome;
use crate::output::print_text;
use crate::text::wrap::paragraph;

/// Most entries told in full where a word fits several.
const MOST: usize = 6;

/// Explains a word, or lists all of them.
pub(crate) fn run(arguments: &ExplainArguments) -> Result<Outcome, Failure> {
    let word = arguments.words.join(" ");
    if word.trim().is_empty() {
        print_text(&listed())?;
        return Ok(Outcome::Good);
    }
    let list = found(&word);
    if list.is_empty() {
        return Err(Failure::Refused {
            message: format!("`{word}` is not explained"),
            help: match nearest(&word) {
                Some(name) => format!("did you mean `{name}`? layload explain lists all words"),
                None => "layload explain lists all words".into(),
            },
        });
    }
    let told: Vec<String> = list.iter().take(MOST).map(told).collect();
    print_text(&told.join("\n"))?;
    Ok(Outcome::Good)
}

fn told(entry: &Entry) -> String {
    let mut text = String::new();
    paragraph(&mut text, "", "  ", &entry.names.join(", "));
    paragraph(&mut text, "  ", "  ", entry.what);
    for lines in entry.more.lines() {
        paragraph(&mut text, "  ", "  ", lines);
    }
    text
}

fn listed() -> String {
    let mut text = String::from("layload explain TERM tells more of each:\n");
    for entry in entries() {
        paragraph(&mut text, "  ", "      ", &format!("{}: {}", entry.name(), entry.what));
    }
    text
}
