use std::env;
use std::sync::OnceLock;

/// Columns where the output is no terminal.
const USUAL: usize = 80;

/// Fewest columns that are used, however narrow the terminal.
const LEAST: usize = 40;

/// Most columns that are used: longer lines are hard to read.
const MOST: usize = 120;

/// Columns to write in: those of `COLUMNS`, else of the terminal, else 80; from 40 to 120.
pub(crate) fn width() -> usize {
    static WIDTH: OnceLock<usize> = OnceLock::new();
    *WIDTH.get_or_init(|| {
        let told = env::var("COLUMNS").ok().and_then(|columns| columns.trim().parse().ok());
        let seen = || terminal_size::terminal_size_of(std::io::stdout()).map(|(columns, _)| usize::from(columns.0));
        told.or_else(seen).unwrap_or(USUAL).clamp(LEAST, MOST)
    })
}

/// A titled list of sentences, wrapped.
pub(crate) fn list(text: &mut String, title: &str, items: &[String]) {
    if items.is_empty() {
        return;
    }
    heading(text, title);
    for item in items {
        paragraph(text, "- ", "  ", item);
    }
}

/// A title with an empty line before it.
pub(crate) fn heading(text: &mut String, title: &str) {
    text.push('\n');
    paragraph(text, "", "  ", title);
}

/// Words wrapped to the width, the first line and the following ones with their own indent.
pub(crate) fn paragraph(text: &mut String, first: &str, rest: &str, words: &str) {
    for line in lines(first, rest, words, width()) {
        text.push_str(line.trim_end());
        text.push('\n');
    }
}

/// The same with columns at the right end of the first line, a blank before them.
pub(crate) fn beside(text: &mut String, first: &str, rest: &str, words: &str, right: &str) {
    let room = width().saturating_sub(right.chars().count());
    for (number, line) in lines(first, rest, words, room.saturating_sub(1)).into_iter().enumerate() {
        let line = if number == 0 { format!("{line:<room$}{right}") } else { line };
        text.push_str(line.trim_end());
        text.push('\n');
    }
}

fn lines(first: &str, rest: &str, words: &str, width: usize) -> Vec<String> {
    let mut list = Vec::new();
    let mut line = String::from(first);
    let mut fresh = true;
    for word in words.split_whitespace() {
        if !fresh && line.chars().count() + 1 + word.chars().count() > width {
            list.push(line);
            line = String::from(rest);
            fresh = true;
        }
        if !fresh {
            line.push(' ');
        }
        line.push_str(word);
        fresh = false;
    }
    list.push(line);
    list
}
