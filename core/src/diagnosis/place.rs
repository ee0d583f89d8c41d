use crate::input::meant;

use super::error::DiagnosisError;

/// Where a break was seen.
#[derive(Debug, Clone, PartialEq)]
pub struct SeenPlace {
    /// Region of the part, one of those that its kind has.
    pub region: &'static str,
    /// In words, or as the point that was given.
    pub told: String,
    /// The point, mm, coordinates of the file.
    pub at_mm: Option<[f64; 3]>,
}

/// Words of the trade for a region, each with the region that it means where the kind has that.
const LAY: [(&str, &str); 23] = [
    ("little end", "small end"),
    ("gudgeon", "small end"),
    ("wrist pin", "small end"),
    ("piston pin", "small end"),
    ("crank pin", "big end"),
    ("crank end", "big end"),
    ("cap", "big end"),
    ("joint", "big end"),
    ("stud", "big end"),
    ("beam", "shank"),
    ("web", "shank"),
    ("flange", "shank"),
    ("column", "shank"),
    ("middle of the rod", "shank"),
    ("top face", "crown"),
    ("dome", "crown"),
    ("pin bore", "boss"),
    ("pin hole", "boss"),
    ("ring belt", "land"),
    ("ring groove", "land"),
    ("groove", "land"),
    ("wall", "skirt"),
    ("lip", "skirt"),
];

/// Words that name a region of a part, its own first.
fn lay_words(regions: &[&'static str]) -> Vec<(&'static str, &'static str)> {
    let own = regions.iter().map(|region| (*region, *region));
    own.chain(LAY.into_iter().filter(|(_, region)| regions.contains(region))).collect()
}

/// The region that words name first, if any: a place on the shank is told by its distance from an end.
pub fn region_of(words: &str, regions: &[&'static str]) -> Option<&'static str> {
    let text = words.to_lowercase().replace(['-', '_'], " ");
    let named = lay_words(regions).into_iter().filter_map(|(word, region)| Some((text.find(word)?, region)));
    named.min_by_key(|(at, _)| *at).map(|(_, region)| region)
}

impl SeenPlace {
    /// A place in words.
    ///
    /// # Errors
    ///
    /// Where the words name no region of the part.
    pub fn named(words: &str, regions: &[&'static str]) -> Result<Self, DiagnosisError> {
        if let Some(region) = region_of(words, regions) {
            return Ok(Self { region, told: words.trim().into(), at_mm: None });
        }
        let known = lay_words(regions);
        let near = meant(words, known.iter().map(|(word, _)| *word)).map(String::from);
        Err(DiagnosisError::UnknownPlace { said: words.trim().into(), near, known: regions.to_vec() })
    }
}
