//! The name that was meant where one is not known.

/// How alike two names must be before one is taken for a slip of the other; 1 is equal (Jaro and Winkler's measure, in which
/// one letter wrong in ten leaves more than 0.9).
const ALIKE: f64 = 0.82;

/// The known name that is most like one that is not known, if any is like it.
///
/// ```
/// use layload_core::meant;
///
/// assert_eq!(meant("strokemm", ["bore_mm", "stroke_mm"]), Some("stroke_mm"));
/// assert_eq!(meant("colour", ["bore_mm", "stroke_mm"]), None);
/// ```
pub fn meant<'a>(unknown: &str, known: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    let folded = |name: &str| name.to_lowercase().replace(['-', ' '], "_");
    let written = folded(unknown);
    let mut best: Option<(f64, &'a str)> = None;
    for name in known {
        let name_folded = folded(name);
        // In short names one slip of the hand, as two letters in each other's place, changes a third of them.
        let slip = written.chars().count() > 2 && strsim::damerau_levenshtein(&written, &name_folded) == 1;
        let alike = strsim::jaro_winkler(&written, &name_folded).max(if slip { ALIKE } else { 0.0 });
        if alike >= ALIKE && best.is_none_or(|(most, _)| alike > most) {
            best = Some((alike, name));
        }
    }
    best.map(|(_, name)| name)
}

/// The same from what the reader of a format says: "unknown field `a`, expected one of `b`, `c`".
pub(crate) fn meant_in(told: &str) -> Option<String> {
    let said = ["unknown field `", "unknown variant `"]
        .iter()
        .find_map(|start| Some(&told[told.find(start)? + start.len()..]));
    let (unknown, rest) = said?.split_once('`')?;
    let known: Vec<&str> = rest.split('`').skip(1).step_by(2).collect();
    meant(unknown, known).map(String::from)
}
