use crate::job::Assumption;
use crate::material::{Card, visit_values};

/// Every number of a card, and what its hottest place leaves of it.
pub(crate) fn of_card(card: &Card, hottest: f64) -> Vec<Assumption> {
    let mut list = Vec::new();
    let mut copy = card.clone();
    visit_values(&mut copy, |input, value| {
        let mut entry = Assumption::number(input.name, value.value, input.unit, value.source.into());
        entry.reference.clone_from(&value.reference);
        if entry.reference.is_none() {
            entry.reference.clone_from(&value.note);
        }
        list.push(entry);
    });
    let retention = &card.temperature.retention;
    let (strength, stiffness) = card.share_at(hottest);
    for (name, value) in [("strength kept where the part is hottest", strength), ("stiffness kept there", stiffness)] {
        let mut entry = Assumption::number(name, value, "1", retention.source.into());
        entry.reference.clone_from(&retention.reference);
        list.push(entry);
    }
    list
}
