//! Material families inside the plugin.

use layload_core::job::JobError;
use layload_core::material::library;

use crate::interface::checker::{MaterialFamily, Refusal};
use crate::refusal::explained;

/// Every family with the numbers a list shows.
pub(crate) fn families() -> Vec<MaterialFamily> {
    library::names()
        .filter_map(|name| {
            let card = library::card(name).ok()?;
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
    library::card_text(name)
        .map(String::from)
        .map_err(|error| Refusal::Request(explained(&JobError::from(error).into())))
}
