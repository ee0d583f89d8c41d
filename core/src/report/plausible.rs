//! Inputs that do not go together: doubtful ones are told, impossible ones were refused before.

use crate::job::Scenario;
use crate::print::PrintSettings;

/// What pistons with rings and pin weigh over the cube of their bore, kg/m³ (common practice, no source: 0.3 to 3 g/cm³
/// for plastic to steel; doubtful beyond twice that).
const MASS_OVER_BORE: (f64, f64) = (150.0, 6000.0);

/// Rod length over crank throw (common practice, no source: 3.2 to 5; doubtful beyond).
const LENGTH_OVER_THROW: (f64, f64) = (2.2, 8.0);

/// Mean piston speed that no engine with printed parts has reached, m/s (common practice, no source).
const PISTON_SPEED: f64 = 30.0;

/// Layer over bead, above which a bead is round and hardly holds (common practice, no source).
const LAYER_OVER_BEAD: f64 = 0.8;

/// What is doubtful in any job, in words that follow "not checked".
pub(super) fn doubts(scenario: &Scenario, print: &PrintSettings, rod_length: f64) -> Vec<String> {
    let engine = &scenario.engine;
    let mut list = Vec::new();
    let cube = engine.bore * engine.bore * engine.bore * 1e3;
    let (least, most) = (cube * MASS_OVER_BORE.0, cube * MASS_OVER_BORE.1);
    let grams = engine.reciprocating_mass * 1e3;
    if !(least..=most).contains(&grams) {
        list.push(format!(
            "whether a reciprocating mass of {grams:.3} g is right: with a bore of {:.1} mm {least:.1} to {most:.0} g are \
             usual; is it in grams?",
            engine.bore * 1e3
        ));
    }
    let ratio = rod_length / engine.throw;
    if !(LENGTH_OVER_THROW.0..=LENGTH_OVER_THROW.1).contains(&ratio) {
        list.push(format!(
            "whether rod and stroke belong together: {:.1} mm between centres over a stroke of {:.1} mm; 1.6 to 2.5 strokes \
             are usual",
            rod_length * 1e3,
            engine.throw * 2e3
        ));
    }
    let speed = 2.0 * engine.throw * 2.0 * scenario.duty.highest_rpm() / 60.0;
    if speed > PISTON_SPEED {
        list.push(format!(
            "whether {:.0} rpm is meant: the mean piston speed would be {speed:.0} m/s, and 25 m/s is a racing engine's",
            scenario.duty.highest_rpm()
        ));
    }
    if print.layer_height > LAYER_OVER_BEAD * print.bead_width {
        list.push(format!(
            "how layers {:.2} mm high hold with beads {:.2} mm wide: above 0.8 of the width they hardly do",
            print.layer_height * 1e3,
            print.bead_width * 1e3
        ));
    }
    list
}
