use super::meant::meant_in;

/// What the reader of TOML says of a text, without the rest of lines so long that they would fill the screen, and with what
/// was likely meant.
pub(crate) fn told_of_toml(error: &toml::de::Error, text: &str) -> String {
    const LONGEST: usize = 200;
    let told = error.to_string();
    let short = told.trim_end().lines().map(|line| match line.char_indices().nth(LONGEST) {
        Some((end, _)) => format!("{} ...", &line[..end]),
        None => line.into(),
    });
    let mut lines: Vec<String> = short.collect();
    if error.span().is_some_and(|span| is_decimal_comma(text, span.start)) {
        lines.push("a number has a point, not a comma: 52.5".into());
    } else if let Some(name) = meant_in(&told) {
        lines.push(format!("did you mean `{name}`?"));
    }
    lines.join("\n")
}

/// Whether a comma within a number stands where reading ended, or right before it.
fn is_decimal_comma(text: &str, at: usize) -> bool {
    let bytes = text.as_bytes();
    let digit = |at: usize| bytes.get(at).is_some_and(u8::is_ascii_digit);
    let comma = |at: usize| at > 0 && bytes.get(at) == Some(&b',') && digit(at - 1) && digit(at + 1);
    comma(at) || (at > 0 && comma(at - 1))
}
