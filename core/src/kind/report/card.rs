use crate::job::Assumption;
use crate::material::{Card, Value, visit_values};

/// Every number of a card, and what its hottest place leaves of it.
pub(crate) fn of_card(card: &Card, hottest: f64) -> Vec<Assumption> {
    let mut list = Vec::new();
    let mut copy = card.clone();
    visit_values(&mut copy, |input, value| {
        let mut entry = Assumption::number(input.name, value.value, input.unit, value.source.into());
        entry.reference = value.grounds();
        list.push(entry);
    });
    let retention = &card.temperature.retention;
    let (strength, stiffness) = card.share_at(hottest);
    let kept = [
        ("strength kept where the part is hottest", strength, &retention.strength_power),
        ("stiffness kept there", stiffness, &retention.stiffness_power),
    ];
    for (name, value, power) in kept {
        let source = power.as_ref().map_or(retention.source, |power| power.source);
        let mut entry = Assumption::number(name, value, "1", source.into());
        entry.reference = power.as_ref().map_or_else(|| retention.reference.clone(), Value::grounds);
        list.push(entry);
    }
    list
}
