use layload_core::report::Report;

/// A place of the part that the report points at.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Place {
    /// Counted from 1, the least margin first.
    pub(crate) number: usize,
    /// Where, in words.
    pub(crate) words: String,
    /// mm, coordinates of the file.
    pub(crate) center_mm: [f64; 3],
}

/// Most places with a number: more would cover the part.
const MOST: usize = 9;

/// Places of the modes with the least margins, then of walls that are too thin, each once.
pub(crate) fn places(report: &Report) -> Vec<Place> {
    let modes = report.modes.iter().filter_map(|mode| Some((mode.place.as_str(), mode.center_mm?)));
    let thin_sections = report.rod.as_ref().map_or(&[][..], |rod| &rod.thin_sections);
    let thin = thin_sections.iter().map(|thin| (thin.place.as_str(), thin.center_mm));
    let most = MOST.saturating_sub(thin_sections.len().min(3));
    let mut found: Vec<Place> = Vec::new();
    let mut add = |(words, center_mm): (&str, [f64; 3]), most: usize| {
        if found.len() < most && found.iter().all(|known| known.words != words) {
            found.push(Place { number: found.len() + 1, words: words.into(), center_mm });
        }
    };
    modes.for_each(|place| add(place, most));
    thin.for_each(|place| add(place, MOST));
    found
}

/// The number of a place in words.
pub(crate) fn number_of(places: &[Place], words: &str) -> Option<usize> {
    places.iter().find(|place| place.words == words).map(|place| place.number)
}
