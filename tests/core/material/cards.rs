//! The embedded cards are complete and make sense; damaged ones are refused.

use layload_core::material::{Card, MaterialError, Source, library, visit_values};

#[test]
fn twelve_families_read_and_state_their_sources() {
    let names: Vec<_> = library::names().collect();
    assert_eq!(names.len(), 12);
    for name in names {
        let mut card = library::card(name).expect("embedded card");
        assert_eq!(card.name, name);
        visit_values(&mut card, |input, value| {
            // Where it is printed, and the tests themselves; a value without them is not published.
            let cited = value.reference.as_deref().is_some_and(|reference| !reference.trim().is_empty());
            let tested = value.behind.as_ref().is_some_and(|behind| !behind.rows.is_empty());
            assert_eq!(value.source == Source::Published, cited && tested, "{name}: {}", input.name);
        });
    }
}

#[test]
fn letter_case_does_not_matter_and_strangers_are_refused_by_name() {
    assert_eq!(library::card("pa12-cf15").expect("known").name, "PA12-CF15");
    let Err(MaterialError::Unknown { name, known }) = library::card("unobtainium") else { panic!("accepted") };
    assert_eq!(name, "unobtainium");
    assert_eq!(known.len(), 12);
}

#[test]
fn cards_that_make_no_sense_are_refused() {
    let good = library::card_text("PLA").expect("embedded card");
    assert!(Card::from_toml(good).is_ok());
    let changed = |from: &str, to: &str| {
        assert!(good.contains(from), "the test looks for `{from}`");
        Card::from_toml(&good.replacen(from, to, 1))
    };
    assert!(matches!(changed("name = ", "brand = \"x\"\nname = "), Err(MaterialError::Format { .. })));
    assert!(matches!(
        changed("poisson_ratio = { value = ", "poisson_ratio = { value = -"),
        Err(MaterialError::Implausible { .. })
    ));
    assert!(matches!(
        changed("strength = 1.0, stiffness = 1.0", "strength = 0.1, stiffness = 1.0"),
        Err(MaterialError::Implausible { .. })
    ));
}
