/// Columns of the terminal.
pub(crate) const WIDTH: usize = 80;

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
    text.push_str(title);
    text.push('\n');
}

/// Words wrapped to the width, the first line and the following ones with their own indent.
pub(crate) fn paragraph(text: &mut String, first: &str, rest: &str, words: &str) {
    let mut line = String::from(first);
    let mut fresh = true;
    for word in words.split_whitespace() {
        if !fresh && line.chars().count() + 1 + word.chars().count() > WIDTH {
            text.push_str(line.trim_end());
            text.push('\n');
            line = String::from(rest);
            fresh = true;
        }
        if !fresh {
            line.push(' ');
        }
        line.push_str(word);
        fresh = false;
    }
    text.push_str(line.trim_end());
    text.push('\n');
}
