//! What makes a print hotter makes its layers bond better.

use layload_core::LengthUnit;
use layload_core::bond::Bond;
use layload_core::material::library;
use layload_core::mesh::Mesh;
use layload_core::print::{PrintSettings, PrintWarmth};
use nalgebra::{Isometry3, Vector3};

use crate::sources::repository;

const PRINT: PrintSettings = PrintSettings {
    build: Vector3::new(0.0, 0.0, 1.0),
    bead_width: 0.45e-3,
    layer_height: 0.2e-3,
    walls: 4,
    skin_layers: 5,
    infill: 1.0,
};

fn rod() -> Mesh {
    let bytes = std::fs::read(repository("samples/plain_rod.stl")).unwrap();
    Mesh::from_stl(&bytes, LengthUnit::Millimetre).unwrap().0
}

fn usual(name: &str) -> PrintWarmth {
    let usual = library::card(name).unwrap().weld.unwrap().usual;
    PrintWarmth {
        nozzle: usual.nozzle_c + 273.15,
        bed: usual.bed_c + 273.15,
        chamber: usual.chamber_c + 273.15,
        fan: usual.fan_percent / 100.0,
        bead_speed: 0.06,
        layer_change: 3.0,
        least_layer: 8.0,
        together: 1.0,
    }
}

fn bond(mesh: &Mesh, print: &PrintSettings, warmth: &PrintWarmth, name: &str) -> Bond {
    Bond::of(mesh, print, warmth, &library::card(name).unwrap()).unwrap()
}

#[test]
fn every_family_bonds_within_what_prints_of_one_spool_differ() {
    let mesh = rod();
    for name in library::names() {
        for (word, build) in [("flat", Vector3::z()), ("upright", Vector3::y())] {
            let bond = bond(&mesh, &PrintSettings { build, ..PRINT }, &usual(name), name);
            let middle = bond.heights()[bond.heights().len() / 2];
            println!(
                "{name} {word}: least {:.3} most {:.3}; in the middle {:.0} s, {:.0} °C below, {:.3}",
                bond.least(),
                bond.most(),
                middle.layer_time,
                middle.below - 273.15,
                middle.factor
            );
            // Prints of one spool differ fivefold (frontier of the trade, second hand); the bar lies within.
            assert!(bond.least() > 0.2 && bond.most() < 5.0, "{name} {word}");
        }
    }
}

#[test]
fn hotter_and_quicker_prints_bond_better() {
    let mesh = rod();
    let upright = PrintSettings { build: Vector3::y(), ..PRINT };
    let name = "PA6-CF20";
    // Four together: one alone stays so warm that its layers bond in full.
    let base = PrintWarmth { together: 4.0, ..usual(name) };
    let least = |print: &PrintSettings, warmth: &PrintWarmth| bond(&mesh, print, warmth, name).least();
    let rising = |what: &str, factors: &[f64]| {
        println!("{what}: {factors:?}");
        for pair in factors.windows(2) {
            assert!(pair[1] >= pair[0] * (1.0 - 1e-9), "{what}: {factors:?}");
        }
        assert!(factors[factors.len() - 1] > factors[0] * 1.001, "{what}: {factors:?}");
    };
    let by = |change: &dyn Fn(f64) -> PrintWarmth, values: &[f64]| -> Vec<f64> {
        values.iter().map(|&value| least(&upright, &change(value))).collect()
    };
    rising("nozzle", &by(&|kelvin| PrintWarmth { nozzle: base.nozzle + kelvin, ..base }, &[-20.0, 0.0, 20.0, 40.0]));
    rising("chamber", &by(&|kelvin| PrintWarmth { chamber: base.chamber + kelvin, ..base }, &[-20.0, 0.0, 20.0, 60.0]));
    rising("fan off", &by(&|fan| PrintWarmth { fan, ..base }, &[1.0, 0.5, 0.2, 0.0]));
    rising("speed", &by(&|speed| PrintWarmth { bead_speed: speed, ..base }, &[0.01, 0.02, 0.04, 0.08]));
    rising("fewer together", &by(&|together| PrintWarmth { together, ..base }, &[8.0, 4.0, 2.0, 1.0]));
    let wide = |bead: f64| least(&PrintSettings { bead_width: bead, ..PRINT }, &base);
    rising("bead width, flat", &[wide(0.3e-3), wide(0.45e-3), wide(0.8e-3)]);
}

#[test]
fn a_turned_part_bonds_alike() {
    let mesh = rod();
    let name = "PA6-CF20";
    let turn = Isometry3::rotation(Vector3::new(0.4, -1.1, 0.7));
    for build in [Vector3::z(), Vector3::y(), Vector3::new(1.0, 2.0, 3.0).normalize()] {
        let here = bond(&mesh, &PrintSettings { build, ..PRINT }, &usual(name), name);
        let turned = PrintSettings { build: turn * build, ..PRINT };
        let there = bond(&mesh.clone().moved(&turn), &turned, &usual(name), name);
        assert_eq!(here.heights().len(), there.heights().len());
        for (a, b) in here.heights().iter().zip(there.heights()) {
            // A facet along a cut lies on one side of it or the other by its last digits.
            assert!((a.factor / b.factor - 1.0).abs() < 1e-3, "{a:?} {b:?}");
        }
    }
}
