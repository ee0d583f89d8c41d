//! Tests made by a card, fitted, give the card back: every law at several temperatures, for every family.

use layload_core::coupon::{CouponRow, fit_card};
use layload_core::life::{Findley, KineticStrength};
use layload_core::material::{Card, MaterialState, MoistureState, library, visit_values};
use proptest::prelude::*;

/// Values that the tests tell, in the order of the factors by which the truth differs from the base card.
const TOLD: [&str; 20] = [
    "strength along beads",
    "strength across beads",
    "strength across layers",
    "compression strength",
    "shear strength between layers",
    "stiffness along beads",
    "stiffness across beads",
    "stiffness across layers",
    "power of strength kept warm",
    "power of stiffness kept warm",
    "fatigue ratio at a million cycles",
    "fatigue exponent",
    "fatigue ratio across layers",
    "fatigue exponent across layers",
    "Walker exponent",
    "activation energy of rupture",
    "time of a short-term test",
    "strain scale of creep",
    "stress scale of creep",
    "time exponent of creep",
];

const DIRECTIONS: [&str; 3] = ["bead", "across", "layer"];

/// The card with values times their factors.
fn truth(base: &Card, factors: &[f64]) -> Card {
    let mut card = base.clone();
    visit_values(&mut card, |input, value| {
        if let Some(place) = TOLD.iter().position(|name| *name == input.name) {
            value.value *= factors[place];
        }
    });
    card
}

fn of(card: &Card, name: &str) -> f64 {
    let mut found = f64::NAN;
    visit_values(&mut card.clone(), |input, value| {
        if input.name == name {
            found = value.value;
        }
    });
    found
}

fn row(test: &str, direction: &str, celsius: f64) -> CouponRow {
    let (test, direction) = (Some(test.into()), Some(direction.into()));
    CouponRow { test, direction, temperature_c: Some(celsius), ..CouponRow::default() }
}

/// A card at a temperature: strength and modulus by direction, MPa.
struct Warm {
    state: MaterialState,
}

impl Warm {
    fn of(card: &Card, celsius: f64) -> Self {
        Self { state: card.at(celsius + 273.15, MoistureState::Dry) }
    }

    fn strength(&self, direction: usize) -> f64 {
        1e-6 * [self.state.bead_strength, self.state.across_strength, self.state.layer_strength][direction]
    }

    fn modulus(&self, direction: usize) -> f64 {
        1e-6 * [self.state.bead_modulus, self.state.across_modulus, self.state.layer_modulus][direction]
    }
}

/// Short tests of every direction; pushed and sheared ones at room temperature.
fn short(card: &Card, temperatures: &[f64]) -> Vec<CouponRow> {
    let mut rows = Vec::new();
    for &celsius in temperatures {
        let warm = Warm::of(card, celsius);
        for (number, direction) in DIRECTIONS.into_iter().enumerate() {
            let (strength_mpa, modulus_mpa) = (Some(warm.strength(number)), Some(warm.modulus(number)));
            rows.push(CouponRow { strength_mpa, modulus_mpa, ..row("tensile", direction, celsius) });
        }
    }
    let room = Warm::of(card, 23.0).state;
    let pa = [("compression", room.compression_strength), ("shear", room.layer_shear_strength)];
    rows.extend(pa.map(|(test, pa)| CouponRow { strength_mpa: Some(pa * 1e-6), ..row(test, "layer", 23.0) }));
    rows
}

/// Basquin's line with Walker's mean stress, over the strength at each temperature.
fn fatigue(card: &Card, temperatures: &[f64]) -> Vec<CouponRow> {
    let law = &card.fatigue;
    let mut rows = Vec::new();
    for &celsius in temperatures {
        let warm = Warm::of(card, celsius);
        for (number, direction) in DIRECTIONS.into_iter().enumerate() {
            let (ratio, exponent) = if number == 2 {
                (law.layer_ratio_1e6.value, law.layer_exponent.value)
            } else {
                (law.ratio_1e6.value, law.exponent.value)
            };
            for (stress_ratio, part) in [(-1.0, 1.6), (-1.0, 1.2), (0.1, 1.4), (0.1, 1.1), (-0.4, 1.3)] {
                let strength = warm.strength(number);
                let amplitude = part * ratio * strength;
                let highest = amplitude * libm::pow(0.5 * (1.0 - stress_ratio), -law.walker_exponent.value);
                let cycles = Some(1e6 * libm::pow(ratio * strength / amplitude, exponent));
                let (stress_mpa, stress_ratio) = (Some(highest), Some(stress_ratio));
                rows.push(CouponRow { stress_mpa, stress_ratio, cycles, ..row("fatigue", direction, celsius) });
            }
        }
    }
    rows
}

/// Zhurkov's law through the strength at each temperature and in each direction.
fn rupture(card: &Card, temperatures: &[f64]) -> Vec<CouponRow> {
    let mut rows = Vec::new();
    for &celsius in temperatures {
        let (warm, kelvin) = (Warm::of(card, celsius), celsius + 273.15);
        for (number, direction) in DIRECTIONS.into_iter().enumerate() {
            let law = KineticStrength::of_material(&card.creep.in_si(), 1e6 * warm.strength(number), kelvin).unwrap();
            for part in [0.9, 0.8, 0.7] {
                let mpa = part * warm.strength(number);
                let time_s = Some(law.time_to_failure_s(1e6 * mpa, kelvin).unwrap());
                rows.push(CouponRow { stress_mpa: Some(mpa), time_s, ..row("creep-rupture", direction, celsius) });
            }
        }
    }
    rows
}

/// Findley's law, softer where the modulus is lower.
fn creep(card: &Card, temperatures: &[f64]) -> Vec<CouponRow> {
    let mut rows = Vec::new();
    for &celsius in temperatures {
        let warm = Warm::of(card, celsius);
        for (number, direction) in DIRECTIONS.into_iter().enumerate() {
            let law = Findley::of_material(&card.creep.in_si(), warm.modulus(0) / warm.modulus(number)).unwrap();
            for part in [0.3, 1.0, 2.0] {
                let mpa = part * card.creep.stress_scale_mpa.value;
                for seconds in [100.0, 1e4] {
                    let strain = law.strain(1e6 * mpa, seconds, celsius + 273.15).unwrap();
                    let (stress_mpa, time_s, creep_strain) = (Some(mpa), Some(seconds), Some(strain));
                    rows.push(CouponRow { stress_mpa, time_s, creep_strain, ..row("creep", direction, celsius) });
                }
            }
        }
    }
    rows
}

/// Three temperatures from 23 °C to below softening.
fn temperatures(card: &Card) -> [f64; 3] {
    let span = card.temperature.softening_c.value - 23.0;
    [23.0, 23.0 + 0.3 * span, 23.0 + 0.6 * span]
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    /// All laws at once. Fits end where steps are below 1e-9 of a value.
    #[test]
    fn a_card_comes_back_from_its_own_tests(
        family in 0..12_usize,
        factors in proptest::collection::vec(0.85..1.15_f64, TOLD.len()),
    ) {
        let base = library::card(library::names().nth(family).unwrap()).unwrap();
        let truth = truth(&base, &factors);
        let at = temperatures(&base);
        let rows: Vec<CouponRow> =
            [short(&truth, &at), fatigue(&truth, &at), rupture(&truth, &at), creep(&truth, &at)].concat();
        let found = fit_card(&rows, &base, None, None).unwrap();
        for name in TOLD.into_iter().chain(["shift energy of creep"]) {
            let (back, given) = (of(&found.card, name), of(&truth, name));
            prop_assert!((back / given - 1.0).abs() < 1e-6, "{} {name}: {back} instead of {given}", base.name);
        }
        prop_assert_eq!(found.report.unused, 0);
        let said = &found.report.findings;
        prop_assert!(!said.iter().any(|finding| finding.contains("contradicts")), "{said:?}");
    }

    /// Bars held at several temperatures, none pulled warm: the strength that heat leaves comes back with the law.
    #[test]
    fn bars_that_were_held_warm_tell_the_strength_there(
        family in 0..12_usize,
        factors in proptest::collection::vec(0.85..1.15_f64, TOLD.len()),
    ) {
        let base = library::card(library::names().nth(family).unwrap()).unwrap();
        let truth = truth(&base, &factors);
        let rows = [short(&truth, &[23.0]), rupture(&truth, &temperatures(&base))].concat();
        let found = fit_card(&rows, &base, None, None).unwrap();
        for name in ["power of strength kept warm", "activation energy of rupture", "time of a short-term test"] {
            let (back, given) = (of(&found.card, name), of(&truth, name));
            prop_assert!((back / given - 1.0).abs() < 1e-6, "{} {name}: {back} instead of {given}", base.name);
        }
    }
}
