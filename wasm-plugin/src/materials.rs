//! Material families inside the plugin.

use layload_core::job::JobError;
use layload_core::material::Card;

use crate::interface::checker::{MaterialFamily, Refusal};
use crate::refusal::explained;

/// Every family with the numbers a list shows.
pub(crate) fn families() -> Vec<MaterialFamily> {
    Card::families()
        .filter_map(|name| {
            let card = Card::named(name).ok()?;
            Some(MaterialFamily {
                name: name.into(),
                softening_c: card.temperature.softening_c.value,
                bead_mpa: card.strength.bead_mpa.value,
                layer_mpa: card.strength.layer_mpa.value,
                family: card.family,
            })
        })
        .collect()
}

/// The text of a card.
pub(crate) fn card(name: &str) -> Result<String, Refusal> {
    Card::text_of(name).map(String::from).map_err(|error| Refusal::Request(explained(&JobError::from(error).into())))
}
