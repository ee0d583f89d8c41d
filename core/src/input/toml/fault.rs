use core::fmt::{Display, Formatter, Write};
use core::ops::Range;

use serde::de::{Error, Expected, Unexpected};

use crate::input::meant_in;

/// What is wrong with a text, and where.
#[derive(Debug)]
pub(super) struct Fault(Box<(String, Option<Range<usize>>)>);

/// The most of a line that is shown.
const LONGEST: usize = 200;

impl Fault {
    pub(super) fn new(sentence: String, place: Option<Range<usize>>) -> Self {
        Self(Box::new((sentence, place)))
    }

    /// What the parser found.
    pub(super) fn of_text(error: &toml::de::Error) -> Self {
        Self::new(error.message().into(), error.span())
    }

    /// The same at a place, unless a narrower one is known.
    pub(super) fn at(mut self, place: Range<usize>) -> Self {
        self.0.1.get_or_insert(place);
        self
    }

    /// The line with a mark under the place, what is wrong, and what was likely meant.
    pub(super) fn told(&self, text: &str) -> String {
        let (sentence, place) = &*self.0;
        let mut told = place.as_ref().map_or_else(String::new, |place| shown(text, place));
        for line in sentence.trim_end().lines() {
            told.push_str(&shortened(line));
            told.push('\n');
        }
        if place.as_ref().is_some_and(|place| is_decimal_comma(text, place.start)) {
            told.push_str("a number has a point, not a comma: 52.5");
        } else if let Some(name) = meant_in(sentence) {
            told.push_str("did you mean `");
            told.push_str(&name);
            told.push_str("`?");
        }
        told.truncate(told.trim_end().len());
        told
    }
}

/// The line of a place and a mark under it, with the number of the line.
fn shown(text: &str, place: &Range<usize>) -> String {
    let start = (0..=place.start.min(text.len())).rev().find(|&at| text.is_char_boundary(at)).unwrap_or(0);
    let line_start = text[..start].rfind('\n').map_or(0, |at| at + 1);
    let line = text[line_start..].lines().next().unwrap_or_default();
    let number = 1 + text[..line_start].bytes().filter(|&byte| byte == b'\n').count();
    let before = text[line_start..start].chars().count();
    let marked = text.get(start..place.end.min(line_start + line.len())).map_or(0, |part| part.chars().count());
    let mut told = format!("line {number}, column {}\n{number} | {}\n", before + 1, shortened(line));
    if before < LONGEST {
        let margin = number.to_string().len();
        told.extend(core::iter::repeat_n(' ', margin + 1));
        told.push('|');
        told.extend(core::iter::repeat_n(' ', before + 1));
        told.extend(core::iter::repeat_n('^', marked.clamp(1, LONGEST - before)));
        told.push('\n');
    }
    told
}

fn shortened(line: &str) -> String {
    match line.char_indices().nth(LONGEST) {
        Some((end, _)) => format!("{} ...", &line[..end]),
        None => line.into(),
    }
}

/// Whether a comma within a number stands where reading ended, or right before it.
fn is_decimal_comma(text: &str, at: usize) -> bool {
    let bytes = text.as_bytes();
    let digit = |at: usize| bytes.get(at).is_some_and(u8::is_ascii_digit);
    let comma = |at: usize| at > 0 && bytes.get(at) == Some(&b',') && digit(at - 1) && digit(at + 1);
    comma(at) || (at > 0 && comma(at - 1))
}

impl Display for Fault {
    fn fmt(&self, f: &mut Formatter<'_>) -> core::fmt::Result {
        f.write_str(&self.0.0)
    }
}

impl std::error::Error for Fault {}

impl Error for Fault {
    #[inline(never)]
    fn custom<T: Display>(sentence: T) -> Self {
        Self::new(sentence.to_string(), None)
    }

    #[inline(never)]
    fn invalid_type(found: Unexpected<'_>, wanted: &dyn Expected) -> Self {
        let wanted = wanted.to_string();
        let mut sentence = format!("{} is wanted here, not ", in_words(&wanted));
        // Writing into a string cannot fail.
        let _ = match found {
            Unexpected::Str(text) => write!(sentence, "the text \"{text}\""),
            Unexpected::Float(number) => write!(sentence, "the number {number}"),
            Unexpected::Signed(number) => write!(sentence, "the number {number}"),
            Unexpected::Bool(value) => write!(sentence, "{value}"),
            Unexpected::Map => write!(sentence, "a table"),
            Unexpected::Seq => write!(sentence, "a list"),
            other => write!(sentence, "{other}"),
        };
        Self::new(sentence, None)
    }
}

/// What a type calls itself, in the words of a job file.
fn in_words(wanted: &str) -> &str {
    match wanted {
        "f64" => "a number",
        "u32" | "u64" | "usize" | "i64" | "i32" => "a whole number",
        "a string" => "a text in quotes",
        "a boolean" => "true or false",
        "a sequence" => "a list in [ ]",
        _ if wanted.starts_with("struct ") => "a table",
        _ if wanted.starts_with("an array") => "a list of numbers in [ ]",
        _ => wanted,
    }
}
