//! Numbers of one engine and one print that are held against each other.

use super::pair::{Pair, Told};
use crate::job::scenario::Scenario;
use crate::material::Source;
use crate::units::MM;

const ANY: (f64, f64) = (f64::NEG_INFINITY, f64::INFINITY);
fn mm(what: &'static str, metres: f64) -> Told {
    Told { what, value: metres * MM, unit: "mm" }
}

/// Pairs of any part with a rod of `rod_length`, m.
pub(super) fn pairs(scenario: &Scenario, rod_length: f64) -> Vec<Pair> {
    let mut list = engine(scenario, rod_length);
    list.extend(where_given(scenario));
    let print = &scenario.print;
    list.push(Pair {
        key: "print.layer_height_mm",
        number: mm("a layer height", print.layer_height),
        with: mm("a bead width", print.bead_width),
        scale: print.bead_width * MM,
        possible: ANY,
        // Above that a bead is round and hardly holds to the one below.
        usual: (0.1, 0.8),
        source: Source::CommonPractice,
        slip: ": a bead higher than wide hardly bonds",
    });
    list
}

fn engine(scenario: &Scenario, rod_length: f64) -> Vec<Pair> {
    let engine = &scenario.engine;
    let (bore, stroke) = (mm("a cylinder bore", engine.bore), mm("a stroke", 2.0 * engine.throw));
    let cube = engine.bore * engine.bore * engine.bore * 1e3;
    vec![
        Pair {
            key: "engine.reciprocating_mass_g",
            number: Told { what: "a reciprocating mass", value: engine.reciprocating_mass * 1e3, unit: "g" },
            with: bore,
            scale: cube,
            // Far beyond what piston, rings and pin weigh over the cube of the bore, kg/m³; 300 to 3000 from plastic to steel.
            possible: (10.0, 100_000.0),
            usual: (150.0, 6000.0),
            source: Source::CommonPractice,
            slip: ": is it in kilograms, ounces or pounds?",
        },
        Pair {
            key: "engine.stroke_mm",
            number: stroke,
            with: mm("a rod", rod_length),
            scale: rod_length * MM,
            // Rods are 1.6 to 2.5 strokes long; one that is too short the crank itself refuses.
            possible: (0.04, f64::INFINITY),
            usual: (0.25, 0.91),
            source: Source::CommonPractice,
            slip: " and the unit of the mesh",
        },
        Pair {
            key: "engine.bore_mm",
            number: bore,
            with: stroke,
            scale: stroke.value,
            possible: (0.02, 50.0),
            usual: (0.5, 2.5),
            source: Source::CommonPractice,
            slip: " and engine.stroke_mm",
        },
        Pair {
            key: "duty.steps.rpm",
            number: Told { what: "a highest speed", value: scenario.duty.highest_rpm(), unit: "rpm" },
            with: stroke,
            // The speed at which the piston moves one metre a second on average.
            scale: 30.0 / stroke.value * MM,
            possible: (0.0, 300.0),
            // Idling to beyond racing engines, m/s.
            usual: (1.2, 30.0),
            source: Source::CommonPractice,
            slip: ": has it a zero too many or too few, or is it in rad/s or turns a second?",
        },
    ]
}

/// What only stands in some jobs.
fn where_given(scenario: &Scenario) -> Vec<Pair> {
    let engine = &scenario.engine;
    let stroke = mm("a stroke", 2.0 * engine.throw);
    let mut list = Vec::new();
    if engine.pin_offset != 0.0 {
        list.push(Pair {
            key: "engine.pin_offset_mm",
            number: mm("a pin offset", engine.pin_offset.abs()),
            with: stroke,
            scale: stroke.value,
            possible: (0.0, 0.4),
            usual: (0.0, 0.06),
            source: Source::CommonPractice,
            slip: ": one to three hundredths of the stroke is common",
        });
    }
    if let Some(gap) = engine.piston_to_head {
        list.push(Pair {
            key: "engine.piston_to_head_mm",
            number: mm("a gap to the head", gap),
            with: stroke,
            // The gap that a flat head and a flat piston would leave.
            scale: stroke.value / (engine.compression_ratio - 1.0),
            possible: ANY,
            usual: (0.0, 1.3),
            source: Source::CommonPractice,
            slip: ": the compression ratio leaves no such room",
        });
    }
    list
}
