//! Text from files and names as it is shown: what would steer a terminal, break a page or turn the order of letters is
//! written out instead of sent.

use std::borrow::Cow;
use std::fmt::Write as _;
use std::path::Path;

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

/// JSON with the same signs in the escapes of JSON, which read back as they were. Outside of its strings JSON has none.
pub(crate) fn visible_json(json: &str) -> Cow<'_, str> {
    written_out(
        json,
        |letter| letter != '\n' && letter != '\t' && is_hidden(letter),
        |out, letter| {
            for unit in letter.encode_utf16(&mut [0; 2]) {
                let _ = write!(out, "\\u{unit:04x}");
            }
        },
    )
}

/// A file's name as it is shown.
pub(crate) fn shown(path: &Path) -> String {
    visible_line(&path.to_string_lossy()).into_owned()
}

/// Controls of terminals (C0, C1, delete), line and paragraph ends of Unicode, signs that turn the order of letters or take
/// no room (bidirectional controls, joiners, tags), and those that are no characters and that XML does not allow.
fn is_hidden(letter: char) -> bool {
    matches!(letter,
        '\u{0}'..='\u{1f}' | '\u{7f}'..='\u{9f}' | '\u{ad}' | '\u{61c}' | '\u{180e}' | '\u{200b}'..='\u{200f}'
        | '\u{2028}'..='\u{202e}' | '\u{2060}'..='\u{206f}' | '\u{feff}' | '\u{fff9}'..='\u{fffb}' | '\u{fffe}'..='\u{ffff}'
        | '\u{e0000}'..='\u{e007f}')
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
