//! The cards are those of the posterior: written by `tests/reference/posterior/run cards`, not by hand.

use std::collections::BTreeSet;
use std::fs;

use layload_core::material::{Card, Correlation, Value, library, visit_values};
use serde_json::Value as Json;

use crate::sources::repository;

type Tested = Result<(), Box<dyn std::error::Error>>;

/// Values that are a property as it stands, and the property.
const PLAIN: [(&str, &str); 14] = [
    ("stiffness along beads", "bead_modulus"),
    ("stiffness across beads", "across_modulus"),
    ("stiffness across layers", "layer_modulus"),
    ("strength along beads", "bead"),
    ("strength across beads", "across"),
    ("strength across layers", "layer"),
    ("shear strength between layers", "layer_shear"),
    ("compression strength", "compression"),
    ("fatigue ratio at a million cycles", "fatigue_ratio"),
    ("fatigue exponent", "fatigue_exponent"),
    ("fatigue ratio across layers", "fatigue_layer_ratio"),
    ("fatigue exponent across layers", "fatigue_layer_exponent"),
    ("power of strength kept warm", "warm_strength_power"),
    ("power of stiffness kept warm", "warm_stiffness_power"),
];

/// Three digits of a value and three decimals of a logarithm.
const ROUNDING: f64 = 0.0056;

/// The posterior of one card, by property.
struct Known {
    names: Vec<String>,
    card: Json,
}

impl Known {
    fn all() -> Result<Vec<(String, Self)>, Box<dyn std::error::Error>> {
        let text = fs::read_to_string(repository("core/src/material/posterior/cards.toml"))?;
        let file: Json = toml::from_str(&text)?;
        let names: Vec<String> = serde_json::from_value(file["properties"].clone())?;
        let cards = file["cards"].as_object().ok_or("no cards")?;
        Ok(cards.iter().map(|(name, card)| (name.clone(), Self { names: names.clone(), card: card.clone() })).collect())
    }

    fn place(&self, property: &str) -> usize {
        self.names.iter().position(|known| known == property).expect("a property")
    }

    fn of(&self, field: &str, property: &str) -> f64 {
        self.card[field][self.place(property)].as_f64().expect("a number")
    }

    fn count(&self, field: &str, property: &str) -> usize {
        self.card[field][self.place(property)].as_u64().expect("a count") as usize
    }

    fn word(&self, property: &str) -> &str {
        self.card["word"][self.place(property)].as_str().expect("a word")
    }

    fn correlation(&self, one: &str, other: &str) -> f64 {
        let (a, b) = (self.place(one), self.place(other));
        self.card["correlation"][a.max(b) - 1][a.min(b)].as_f64().expect("a number")
    }
}

fn value(card: &Card, name: &str) -> Value {
    let mut found = None;
    visit_values(&mut card.clone(), |input, value| {
        if input.name == name {
            found = Some(value.clone());
        }
    });
    found.unwrap_or_else(|| panic!("{name}"))
}

fn near(found: f64, expected: f64, what: &str) {
    assert!(libm::log(found / expected).abs() < ROUNDING, "{what}: {found} instead of {expected}");
}

/// Word, counts, spread and memory's share are those of the property.
fn founded(card: &Card, known: &Known, name: &str, property: &str) {
    let (found, what) = (value(card, name), format!("{}, {name}", card.name));
    assert_eq!(found.source.word(), known.word(property), "{what}");
    let behind = found.behind.as_ref().unwrap_or_else(|| panic!("{what}: nothing behind it"));
    let counts = (behind.rows.len(), behind.sources as usize, behind.sheets.len(), behind.like as usize);
    let expected = ["own_rows", "own_sources", "own_sheet_rows", "like_rows"].map(|field| known.count(field, property));
    assert_eq!(counts, expected.into(), "{what}");
}

#[test]
fn each_value_is_the_centre_of_a_new_printer_with_its_spread() -> Tested {
    let all = Known::all()?;
    assert_eq!(all.len(), library::names().count());
    for (name, known) in all {
        let card = library::card(&name)?;
        for (input, property) in PLAIN {
            let (found, what) = (value(&card, input), format!("{name}, {input}"));
            near(found.value, libm::exp(known.of("mean", property)), &what);
            assert!((found.relative_spread() - known.of("spread", property)).abs() < 1e-9, "{what}");
            assert!((found.memory_share() - known.of("memory", property)).abs() < 1e-9, "{what}");
            founded(&card, &known, input, property);
        }
        let walker = value(&card, "Walker exponent");
        near(walker.value, known.of("mean", "walker_exponent"), &name);
        near(walker.relative_spread() * walker.value, known.of("spread", "walker_exponent"), &name);
        founded(&card, &known, "Walker exponent", "walker_exponent");
        for kind in ["strength", "stiffness"] {
            let (input, property) = (format!("{kind} kept when conditioned"), format!("wet_{kind}_loss"));
            let half = 0.5 * libm::exp(known.of("mean", &property));
            near(value(&card, &input).value, libm::exp(-half), &input);
            assert!((value(&card, &input).relative_spread() - half * known.of("spread", &property)).abs() < 6e-4);
            founded(&card, &known, &input, &property);
        }
    }
    Ok(())
}

/// Rupture: the centre, but no less than what keeps half the strength for two decades up to softening. Creep, and what is
/// taken from other values by rule.
#[test]
fn values_that_follow_from_others_do() -> Tested {
    for (name, known) in Known::all()? {
        let card = library::card(&name)?;
        let of = |input: &str| value(&card, input).value;
        let kelvin = card.temperature.softening_c.value + 273.15;
        let creep = &card.creep;
        let short = libm::log(creep.short_test_s.value / creep.attempt_time_s.value);
        let least = 8.314_462_618e-3 * kelvin * (short + 4.0 * core::f64::consts::LN_10);
        let energy = creep.activation_energy_kj_mol.value;
        let centre = libm::exp(known.of("mean", "rupture_energy"));
        if centre >= least {
            near(energy, centre, &name);
        } else {
            assert!((least..least + 1.0).contains(&energy), "{name}: {energy} instead of {least}");
        }
        founded(&card, &known, "activation energy of rupture", "rupture_energy");
        near(of("bearing pressure"), 0.45 * of("compression strength"), &name);
        let shear = of("stiffness across layers") / (2.0 * (1.0 + of("Poisson's ratio")));
        near(of("shear stiffness between layers"), shear, &name);
        let share = of("strain scale of creep") * of("stiffness along beads") / of("stress scale of creep");
        // Of three rounded values.
        let expected = libm::exp(known.of("mean", "creep_share_1h"));
        assert!(libm::log(share / expected).abs() < 2.0 * ROUNDING, "{name}: {share} instead of {expected}");
        founded(&card, &known, "strain scale of creep", "creep_share_1h");
    }
    Ok(())
}

/// Two digits, shrunk by a few parts in a hundred where rounding would leave no covariance.
#[test]
fn values_go_together_as_they_were_drawn() -> Tested {
    for (name, known) in Known::all()? {
        let card = library::card(&name)?;
        let correlation: &Correlation = card.correlation.as_ref().ok_or("no correlation")?;
        for (one, first) in PLAIN {
            for (other, second) in PLAIN.into_iter().filter(|(other, _)| *other != one) {
                let (found, expected) = (correlation.between(one, other), known.correlation(first, second));
                assert!(
                    (found - expected).abs() < 0.006 + 0.03 * expected.abs(),
                    "{name}, {one}, {other}: {found} {expected}"
                );
            }
        }
        let mut names = BTreeSet::new();
        visit_values(&mut card.clone(), |input, _| {
            names.insert(input.name);
        });
        assert!(correlation.of.iter().all(|one| names.contains(one.as_str())), "{name}: {:?}", correlation.of);
        // What rises with the loss by water falls with what is kept.
        assert!(
            correlation.between("strength kept when conditioned", "stiffness kept when conditioned") > 0.0,
            "{name}"
        );
    }
    Ok(())
}

/// Each row that a card names stands in the evidence, and is of the card's polymer.
#[test]
fn cards_lead_to_their_rows() -> Tested {
    let mut polymers = std::collections::BTreeMap::new();
    for entry in fs::read_dir(repository("core/src/material/evidence"))? {
        let path = entry?.path();
        if path.extension().is_none_or(|ending| ending != "csv") || path.ends_with("unopened.csv") {
            continue;
        }
        let mut reader = csv::Reader::from_path(path)?;
        let headers = reader.headers()?.clone();
        let at = |name: &str| headers.iter().position(|known| known == name);
        let (Some(id), Some(polymer)) = (at("id"), at("polymer")) else { continue };
        for record in reader.records() {
            let record = record?;
            polymers.insert(record[id].to_string(), record[polymer].to_string());
        }
    }
    let mut met = 0;
    for name in library::names() {
        let family = name.split('-').next().unwrap_or(name);
        visit_values(&mut library::card(name)?, |input, value| {
            let Some(behind) = &value.behind else { return };
            for row in behind.rows.iter().chain(&behind.sheets) {
                met += 1;
                assert_eq!(polymers.get(row).map(String::as_str), Some(family), "{name}, {}: {row}", input.name);
            }
        });
    }
    assert!(met > 200, "{met}");
    Ok(())
}
