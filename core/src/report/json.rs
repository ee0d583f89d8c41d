//! A report as JSON, the same bytes from every program that gives it out.

use std::borrow::Cow;

use serde::Serialize;

/// JSON on several lines, without a line break at its end. Signs that are not to be seen, or that turn the order of letters,
/// stand in it as escapes, which read back as they were.
///
/// # Errors
///
/// Where a value cannot be written; of the reports here all can.
///
/// ```
/// use layload_core::report::json;
///
/// # fn main() -> Result<(), serde_json::Error> {
/// assert_eq!(json(&"rod\u{202e}")?, r#""rod\u202e""#);
/// # Ok(())
/// # }
/// ```
pub fn json(report: &impl Serialize) -> Result<String, serde_json::Error> {
    let text = serde_json::to_string_pretty(report)?;
    let escaped = match visible_json(&text) {
        Cow::Borrowed(_) => None,
        Cow::Owned(escaped) => Some(escaped),
    };
    Ok(escaped.unwrap_or(text))
}

/// JSON with such signs as escapes. Outside of its strings JSON has none but ends of lines and tabs.
pub fn visible_json(json: &str) -> Cow<'_, str> {
    let hidden = |letter: char| letter != '\n' && letter != '\t' && is_hidden(letter);
    if !json.chars().any(hidden) {
        return Cow::Borrowed(json);
    }
    let mut out = String::with_capacity(json.len() + 16);
    for letter in json.chars() {
        if hidden(letter) {
            out.extend(letter.encode_utf16(&mut [0; 2]).iter().map(|unit| format!("\\u{unit:04x}")));
        } else {
            out.push(letter);
        }
    }
    Cow::Owned(out)
}

/// Controls of terminals (C0, C1, delete), line and paragraph ends of Unicode, signs that turn the order of letters or take
/// no room (bidirectional controls, joiners, tags), and those that are no characters and that XML does not allow.
pub fn is_hidden(letter: char) -> bool {
    matches!(letter,
        '\u{0}'..='\u{1f}' | '\u{7f}'..='\u{9f}' | '\u{ad}' | '\u{61c}' | '\u{180e}' | '\u{200b}'..='\u{200f}'
        | '\u{2028}'..='\u{202e}' | '\u{2060}'..='\u{206f}' | '\u{feff}' | '\u{fff9}'..='\u{fffb}' | '\u{fffe}'..='\u{ffff}'
        | '\u{e0000}'..='\u{e007f}')
}
