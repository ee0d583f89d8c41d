use super::card::Card;
use super::error::MaterialError;

/// The embedded cards, by family name.
const CARDS: [(&str, &str); 12] = [
    ("PLA", include_str!("cards/pla.toml")),
    ("PETG", include_str!("cards/petg.toml")),
    ("ABS", include_str!("cards/abs.toml")),
    ("ASA", include_str!("cards/asa.toml")),
    ("PC", include_str!("cards/pc.toml")),
    ("PA12", include_str!("cards/pa12.toml")),
    ("PA12-CF15", include_str!("cards/pa12-cf15.toml")),
    ("PA6-CF20", include_str!("cards/pa6-cf20.toml")),
    ("PA6-GF", include_str!("cards/pa6-gf.toml")),
    ("PPS-CF", include_str!("cards/pps-cf.toml")),
    ("PEI", include_str!("cards/pei.toml")),
    ("PEEK", include_str!("cards/peek.toml")),
];

/// Names of the embedded cards.
pub fn names() -> impl Iterator<Item = &'static str> {
    CARDS.iter().map(|(name, _)| *name)
}

/// The text of an embedded card; letter case does not matter.
///
/// # Errors
///
/// Where there is no family of that name; the one that was meant is told.
pub fn card_text(name: &str) -> Result<&'static str, MaterialError> {
    CARDS
        .iter()
        .find(|(known, _)| known.eq_ignore_ascii_case(name.trim()))
        .map(|(_, text)| *text)
        .ok_or_else(|| MaterialError::Unknown { name: name.into(), known: names().map(String::from).collect() })
}

/// The embedded card of a material family.
///
/// # Errors
///
/// Where there is no family of that name; the one that was meant is told.
pub fn card(name: &str) -> Result<Card, MaterialError> {
    Card::from_toml(card_text(name)?)
}

impl Card {
    /// The embedded card of a material family; letter case does not matter.
    ///
    /// # Errors
    ///
    /// Where there is no family of that name; the one that was meant is told.
    ///
    /// ```
    /// use layload_core::material::Card;
    ///
    /// let card = Card::named("PA12-CF15").unwrap();
    /// assert!(card.strength.bead_mpa.value > card.strength.layer_mpa.value);
    /// assert!(Card::families().all(|name| Card::named(name).is_ok()));
    /// ```
    pub fn named(name: &str) -> Result<Self, MaterialError> {
        card(name)
    }

    /// The text of an embedded card, to be changed and read back by [`Card::from_toml`].
    ///
    /// # Errors
    ///
    /// As [`Card::named`].
    pub fn text_of(name: &str) -> Result<&'static str, MaterialError> {
        card_text(name)
    }

    /// Names of the embedded cards.
    pub fn families() -> impl Iterator<Item = &'static str> {
        names()
    }
}
