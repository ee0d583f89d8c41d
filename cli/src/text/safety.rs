use super::wrap::paragraph;

/// What stands under every answer; `explain safety` tells the rest.
const WORDS: &str =
    "parts burst: use a shield, stand clear, guard against fire, protect eyes and ears (layload explain safety)";

/// The one line of safety.
pub(crate) fn safety(text: &mut String) {
    paragraph(text, "Safety      ", "            ", WORDS);
}
