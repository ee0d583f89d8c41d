//! The one glossary: every failure mode, every term of a report, values and their sources, and topics on how it works.

mod modes;
mod terms;
mod topics;
mod values;

pub(crate) use modes::of_mode;
use modes::{MODES, key};
use terms::TERMS;
use topics::TOPICS;
use values::VALUES;

/// A word with what it means.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Entry {
    /// The name it has in a report, then other names of it.
    pub(crate) names: &'static [&'static str],
    /// What it is.
    pub(crate) what: &'static str,
    /// How it comes about or is worked out, and what to do about it; a paragraph a line.
    pub(crate) more: &'static str,
}

const fn entry(names: &'static [&'static str], what: &'static str, more: &'static str) -> Entry {
    Entry { names, what, more }
}

impl Entry {
    /// The name it has in a report.
    pub(crate) fn name(&self) -> &'static str {
        self.names.first().copied().unwrap_or_default()
    }
}

/// All entries: the failure modes first, the topics last.
pub(crate) fn entries() -> impl Iterator<Item = Entry> {
    let lists = [TERMS, VALUES, TOPICS];
    MODES.into_iter().map(of_mode).chain(lists.into_iter().flatten().copied())
}

/// The name that was meant by a word that is not explained.
pub(crate) fn nearest(word: &str) -> Option<&'static str> {
    let names: Vec<&'static str> = entries().flat_map(|entry| entry.names.iter().copied()).collect();
    layload_core::meant(&word.to_lowercase(), names)
}

/// The entries that a word may mean: the one of that name, or all in whose names it occurs.
pub(crate) fn found(word: &str) -> Vec<Entry> {
    let wanted = plain(word);
    let exact = |entry: &Entry| entry.names.iter().any(|name| plain(name) == wanted);
    let by_key = MODES.into_iter().filter(|mode| key(*mode) == wanted.replace(' ', "-")).map(of_mode);
    let mut list: Vec<Entry> = entries().filter(exact).collect();
    if list.is_empty() {
        list = by_key.collect();
    }
    if list.is_empty() && wanted.chars().count() >= 3 {
        list = entries().filter(|entry| entry.names.iter().any(|name| plain(name).contains(&wanted))).collect();
    }
    list
}

/// Without capitals, hyphens and needless blanks.
fn plain(word: &str) -> String {
    let lower = word.to_lowercase().replace(['-', '_', ','], " ");
    lower.split_whitespace().collect::<Vec<_>>().join(" ")
}
