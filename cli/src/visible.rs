//! Text from files and names as it is shown: what would steer a terminal, break a page or turn the order of letters is
//! written out instead of sent.

use std::borrow::Cow;
use std::fmt::Write as _;
use std::path::Path;

use layload_core::report::is_hidden;

/// Text with every sign that is not to be seen written out, as `\u{1b}`; ends of lines and tabs stay.
///
/// Every edge sends its text through this: terminal, drawing, page. Reports and other data keep what they were given.
pub(crate) fn visible(text: &str) -> Cow<'_, str> {
    written_out(
        text,
        |letter| letter != '\n' && letter != '\t' && is_hidden(letter),
        |out, letter| {
            let _ = write!(out, "{}", letter.escape_unicode());
        },
    )
}

/// The same on one line: the name of a file, or words within a sentence.
pub(crate) fn visible_line(text: &str) -> Cow<'_, str> {
    written_out(text, is_hidden, |out, letter| {
        let _ = write!(out, "{}", letter.escape_unicode());
    })
}

/// A file's name as it is shown.
pub(crate) fn shown(path: &Path) -> String {
    visible_line(&path.to_string_lossy()).into_owned()
}

fn written_out(text: &str, hidden: impl Fn(char) -> bool, escape: impl Fn(&mut String, char)) -> Cow<'_, str> {
    if !text.chars().any(&hidden) {
        return Cow::Borrowed(text);
    }
    let mut out = String::with_capacity(text.len() + 16);
    let mut letters = text.chars().peekable();
    while let Some(letter) = letters.next() {
        // The end of a line as some systems write it is one all the same.
        let line_end = letter == '\r' && letters.peek() == Some(&'\n') && !hidden('\n');
        if line_end {
            continue;
        }
        if hidden(letter) { escape(&mut out, letter) } else { out.push(letter) }
    }
    Cow::Owned(out)
}
