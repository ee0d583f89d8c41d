//! A sample rod described as a part of any kind: its stress has to be that of the rod's own check.

use std::fmt::Write as _;
use std::sync::OnceLock;

use layload_core::job::Job;
use layload_core::rod::{End, RodPlace, stress_field};
use layload_core::stress::EyeFamily;
use layload_core::{CheckRequest, FieldRequest, Question, check_with, prepare};
use serde_json::Value;

use super::closed_forms::Compared;
use crate::bench_job::BENCH_JOB;
use crate::mesh::files::{bytes, number};

/// Whether a place is one that is looked for.
type Wanted<'a> = &'a dyn Fn(&RodPlace) -> bool;

/// Cells of both.
const CELLS: usize = 30_000;

/// Moments of a cycle that are handed over.
const MOMENTS: usize = 120;

/// The worst places of small-end bore, big-end bore and shank: stress of the part of any kind, and of the rod, MPa.
pub(crate) fn as_any() -> &'static [(&'static str, Compared)] {
    static FOUND: OnceLock<Vec<(&'static str, Compared)>> = OnceLock::new();
    FOUND.get_or_init(compared)
}

fn compared() -> Vec<(&'static str, Compared)> {
    let stl = bytes("samples/plain_rod.stl").unwrap();
    let job = Job::from_toml(BENCH_JOB).unwrap();
    let question = Question { job: &job, card_text: None, pressure_text: None };
    let prepared = prepare(&stl, &question, &mut ()).unwrap();
    let (_, findings) = stress_field(&prepared, FieldRequest { cells: CELLS }, &mut ()).unwrap();

    let model = prepared.model(EyeFamily::embedded().angles());
    let loading = prepared.loading(&model).unwrap();
    let basis = &loading.bases[loading.basis_of_step[0]];
    let forces = basis.at(loading.duty.steps()[0].angular_speed_rad_s());
    let count = forces.angles();
    let chosen: Vec<usize> = (0..MOMENTS).map(|k| k * count / MOMENTS).collect();
    let column =
        |of: &dyn Fn(usize) -> f64| chosen.iter().map(|&k| format!("{:.6}", of(k))).collect::<Vec<_>>().join(", ");

    let rod = &prepared.rod;
    let axes = [nalgebra::Vector3::x(), nalgebra::Vector3::y()].map(|axis| rod.frame.direction_to_file(&axis));
    let mut text = of_any();
    for (name, eye) in [("small", &rod.small_end), ("big", &rod.big_end)] {
        let [x, y, z] = rod.frame.to_file_mm(&eye.center);
        writeln!(text, "[[place]]\nname = \"{name}\"\nbore = {{ near_mm = [{x}, {y}, {z}] }}").unwrap();
        for (way, axis) in ["along", "across"].iter().zip(&axes) {
            let [a, b, c]: [f64; 3] = (*axis).into();
            writeln!(
                text,
                "[[load]]\nname = \"{name}_{way}\"\nat = \"{name}\"\nforce_n = [{a}, {b}, {c}]\nclearance_mm = 0.02"
            )
            .unwrap();
        }
    }
    // One radian a second; the column is the rod's own speed.
    writeln!(text, "[[load]]\nname = \"turning\"\nspin = {{ about = \"small\", rpm = 9.549296585513721 }}").unwrap();
    writeln!(text, "[[hold]]\nas = \"free\"\n[history]").unwrap();
    let degrees = |k: usize| 720.0 * k as f64 / count as f64;
    writeln!(text, "angle_deg = [{}]\n[history.loads]", column(&degrees)).unwrap();
    writeln!(text, "small_along = [{}]", column(&|k| forces.small_end(k).along)).unwrap();
    writeln!(text, "small_across = [{}]", column(&|k| forces.small_end(k).across)).unwrap();
    writeln!(text, "big_along = [{}]", column(&|k| forces.big_end(k).along)).unwrap();
    writeln!(text, "big_across = [{}]", column(&|k| forces.big_end(k).across)).unwrap();
    writeln!(text, "turning = [{}]", column(&|k| forces.spin_squared(k).max(0.0).sqrt())).unwrap();
    let any = Job::from_toml(&text).unwrap();
    let request = CheckRequest { facets: false, field: Some(FieldRequest { cells: CELLS }) };
    let question = Question { job: &any, card_text: None, pressure_text: None };
    let report = check_with(&stl, &question, &request, &mut ()).unwrap().report;
    let spots = &report.field.as_ref().unwrap().hot_spots;
    let wanted: [(&str, Wanted<'_>); 3] = [
        ("small-end bore", &|place| matches!(place, RodPlace::Eye { end: End::Small, outside: false, .. })),
        ("big-end bore", &|place| matches!(place, RodPlace::Eye { end: End::Big, outside: false, .. })),
        ("shank", &|place| matches!(place, RodPlace::ShankAt { .. })),
    ];
    let pairs = wanted.iter().filter_map(|(name, is)| {
        let of_rod = findings.spots.iter().find(|spot| !spot.sharp && is(&spot.place))?;
        let at = rod.frame.to_file_mm(&of_rod.position);
        // Either side of the rod is alike.
        let away = |mm: &[f64; 3]| {
            let mirrored = |k: usize| (mm[k] - at[k]) * (mm[k] - at[k]);
            (0..3).map(mirrored).sum::<f64>().sqrt()
        };
        let near = spots.iter().filter(|spot| !spot.sharp_corner && spot.stress_mpa * of_rod.stress > 0.0);
        let near = near.min_by(|a, b| away(&a.position_mm).total_cmp(&away(&b.position_mm)))?;
        Some((*name, Compared { got: near.stress_mpa, expected: 1e-6 * of_rod.stress }))
    });
    pairs.collect()
}

#[test]
fn a_rod_by_its_places_has_the_stress_of_the_rod() {
    let found = as_any();
    assert!(found.len() >= 2, "{}", found.len());
    for (name, compared) in found {
        println!("{name}: {:.3} against {:.3}, off {:+.2} %", compared.got, compared.expected, 100.0 * compared.off());
        // The rod's check presses each bore by itself; here the pull of one pin ovals the bore of the other before it is
        // pressed. Pressed by itself the big end comes within 0.8 % of the rod's, with both pins 6 % lower.
        assert!(compared.off().abs() < 0.08, "{name}: {:+.4}", compared.off());
    }
}

/// Both eyes of a rod, twice as wide as their bores, pulled by rigid pins: the peak factor on the net section by
/// `tests/reference/eye_contact`, at two looser and a closer fit.
pub(crate) fn eyes() -> &'static [(f64, [Compared; 2])] {
    static FOUND: OnceLock<Vec<(f64, [Compared; 2])>> = OnceLock::new();
    FOUND.get_or_init(|| [0.5, 2.0, 10.0].map(|load| (load, pulled(load))).into())
}

/// At a load over stiffness, clearance and thickness.
fn pulled(load: f64) -> [Compared; 2] {
    const THICKNESS: f64 = 4e-3;
    const FORCE: f64 = 100.0;
    let table: Value = serde_json::from_str(include_str!("../../reference/eye_contact/eye_family.json")).unwrap();
    let place = |key: &str, value: f64| {
        table[key].as_array().unwrap().iter().position(|entry| entry.as_f64() == Some(value)).unwrap()
    };
    let expected = number(&table["peak"][0][place("width_ratio", 2.0)][place("load", load)]);
    let stl = bytes("tests/meshes/study_eyes.stl").unwrap();
    let job = Job::from_toml(BENCH_JOB).unwrap();
    let question = Question { job: &job, card_text: None, pressure_text: None };
    let prepared = prepare(&stl, &question, &mut ()).unwrap();
    let modulus = prepared.scenario.material().in_plane_modulus();
    let clearance = 1e3 * FORCE / (modulus * load * THICKNESS);
    let rod = &prepared.rod;
    let along = rod.frame.direction_to_file(&nalgebra::Vector3::x());
    let mut text = of_any();
    for (name, eye, force) in [("small", &rod.small_end, -FORCE), ("big", &rod.big_end, FORCE)] {
        let [x, y, z] = rod.frame.to_file_mm(&eye.center);
        let [a, b, c]: [f64; 3] = (along * force).into();
        writeln!(text, "[[place]]\nname = \"{name}\"\nbore = {{ near_mm = [{x}, {y}, {z}] }}").unwrap();
        writeln!(text, "[[load]]\nname = \"{name}\"\nat = \"{name}\"\nforce_n = [{a}, {b}, {c}]").unwrap();
        writeln!(text, "clearance_mm = {clearance}").unwrap();
    }
    writeln!(text, "[[hold]]\nas = \"free\"").unwrap();
    let any = Job::from_toml(&text).unwrap();
    let request = CheckRequest { facets: false, field: Some(FieldRequest { cells: 30_000 }) };
    let question = Question { job: &any, card_text: None, pressure_text: None };
    let report = check_with(&stl, &question, &request, &mut ()).unwrap().report;
    [("small", 10e-3), ("big", 12e-3)].map(|(name, bore)| {
        let spots = report.field.as_ref().unwrap().hot_spots.iter().filter(|spot| !spot.sharp_corner);
        let there = spots.filter(|spot| spot.place == format!("on {name}"));
        let peak = there.map(|spot| spot.stress_mpa).fold(0.0, f64::max);
        // Net section: as wide as the bore.
        Compared { got: 1e6 * peak * bore * THICKNESS / FORCE, expected }
    })
}

/// The bench job of a part of any kind.
fn of_any() -> String {
    let own = "[part.small_end]\n    runs = \"bush\"\n    [part.big_end]\n    runs = \"bearing\"";
    BENCH_JOB.replace(own, "[part]\n    kind = \"any\"")
}

#[test]
fn pins_press_eyes_as_in_the_contact_study() {
    for (load, both) in eyes() {
        for compared in both {
            println!(
                "load {load}: {:.3} against {:.3}, off {:+.2} %",
                compared.got,
                compared.expected,
                100.0 * compared.off()
            );
            // As of the rod's own field: the study itself is converged to 1 %.
            assert!(compared.off().abs() < 0.05, "{load}: {:+.4}", compared.off());
        }
    }
}
