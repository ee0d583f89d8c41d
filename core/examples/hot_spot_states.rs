//! Prints where the stress field finds the most harm in a rod or piston and what loads the part then, for other programs to
//! solve the same: `cargo run --release -p layload-core --features rooms --example hot_spot_states -- PART.stl JOB.toml [CELLS]`.
//!
//! Everything is in the frame of the part (of a rod: origin at the small-end centre, x toward the big end, z along the pins;
//! of a piston: origin on the cylinder axis at the height of the pin, x toward the crown, z along the pin), mm, MPa, N;
//! `frame` leads there from the coordinates of the file. A piston needs `material.temperature_c` in its job: the other
//! programs know one stiffness. `tests/reference/calculix/hot_spots.py` reads it.

#![allow(clippy::unwrap_used, missing_docs)]

use core::fmt::Display;

use layload_core::job::Job;
use layload_core::material::MaterialState;
use layload_core::part::{Frame, Piston, Rod};
use layload_core::piston::PreparedPiston;
use layload_core::piston::field::{OnPiston, PistonFieldFindings};
use layload_core::rod::PreparedRod;
use layload_core::rod::field::{OnRod, RodFieldFindings};
use layload_core::verdict::{FieldCase, FieldRequest, FieldSpot, ModeMargin};
use layload_core::{Question, load, piston, rod};
use nalgebra::{Point3, Vector3, Vector6};
use serde_json::{Value, json};

fn main() {
    let words: Vec<String> = std::env::args().skip(1).collect();
    let stl = std::fs::read(&words[0]).unwrap();
    let job = Job::from_toml(&std::fs::read_to_string(&words[1]).unwrap()).unwrap();
    let cells = words.get(2).map_or(FieldRequest::USUAL_CELLS, |word| word.parse().unwrap());
    let question = Question { job: &job, card_text: None, pressure_text: None };
    let request = FieldRequest { cells };
    let loaded = load(&stl, &job, &mut ()).unwrap();
    let report = if let Some(found) = loaded.recognised::<Rod>() {
        let prepared = PreparedRod::new(found, &loaded, &question).unwrap();
        let (_, findings) = rod::stress_field(&prepared, request, &mut ()).unwrap();
        of_rod(&prepared, &findings)
    } else {
        assert!(job.material.temperature_c.is_some(), "a piston needs material.temperature_c");
        let prepared = PreparedPiston::new(loaded.recognised::<Piston>().unwrap(), &loaded, &question).unwrap();
        let findings = piston::stress_field(&prepared, request, &mut ()).unwrap();
        of_piston(&prepared, &findings)
    };
    println!("{report:#}");
}

fn of_rod(prepared: &PreparedRod, findings: &RodFieldFindings) -> Value {
    let rod = &prepared.rod;
    let bores = [(&rod.small_end, -1.0), (&rod.big_end, 1.0)].map(|(eye, outward)| {
        let seat = eye.bore.main();
        let axis = rod.frame.direction(&eye.bore.axis);
        json!({ "center": mm(&eye.center), "axis": list(&axis), "outward": [outward, 0.0, 0.0],
                "radius": seat.radius * 1e3, "from": seat.from * 1e3, "to": seat.to * 1e3 })
    });
    json!({
        "cells": findings.cells,
        "edge": findings.edge * 1e3,
        "iterations": iterations(&findings.cases),
        "frame": frame(&rod.frame),
        "material": material(&prepared.scenario.material()),
        "build": list(&prepared.print.build),
        "infill": prepared.print.infill,
        "bores": bores,
        "spots": findings.spots.iter().map(|at| spot(at, on_rod)).collect::<Vec<_>>(),
    })
}

fn of_piston(prepared: &PreparedPiston, findings: &PistonFieldFindings) -> Value {
    let (piston, scenario) = (&prepared.piston, &prepared.scenario);
    let ends = piston.pin.bosses.iter().flat_map(|boss| [boss.from, boss.to]);
    let (from, to) = ends.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), end| (low.min(end), high.max(end)));
    let bore = json!({ "center": mm(&Point3::new(0.0, piston.pin.offset, 0.0)), "axis": [0.0, 0.0, 1.0],
                       "outward": [1.0, 0.0, 0.0], "radius": piston.pin.radius * 1e3, "from": from * 1e3, "to": to * 1e3 });
    let lower = piston.grooves.first().map_or(piston.compression_height, |groove| groove.to);
    json!({
        "cells": findings.cells,
        "edge": findings.edge * 1e3,
        "iterations": iterations(&findings.cases),
        "frame": frame(&piston.frame),
        "material": material(&scenario.card.at(scenario.temperature, scenario.moisture)),
        "build": list(&prepared.print.build),
        "infill": prepared.print.infill,
        "bores": [bore],
        "gas_from": lower * 1e3,
        "land_radius": piston.land_radius() * 1e3,
        "skirt": { "radius": piston.skirt.radius * 1e3, "from": piston.skirt.from * 1e3, "to": piston.skirt.to * 1e3 },
        "spots": findings.spots.iter().map(|at| spot(at, on_piston)).collect::<Vec<_>>(),
    })
}

fn frame(frame: &Frame) -> Value {
    let rows = frame.rows();
    let rows: Vec<[f64; 3]> = (0..3).map(|row| list(&rows.row(row).transpose())).collect();
    json!({ "origin": frame.to_file_mm(&Point3::origin()), "rows": rows })
}

fn material(material: &MaterialState) -> Value {
    json!({ "level": material.in_plane_modulus() * 1e-6, "upright": material.layer_modulus * 1e-6,
            "shear": material.layer_shear_modulus * 1e-6, "poisson_ratio": material.poisson_ratio,
            "density_kg_m3": material.density })
}

fn iterations(cases: &[FieldCase]) -> usize {
    cases.iter().map(|case| case.iterations).sum()
}

fn mode<P: ToString>(mode: &ModeMargin<P>) -> Value {
    json!({ "margin": mode.margin, "mode": mode.mode, "place": mode.place.to_string() })
}

/// What any part has at a spot, and what `acts` on it.
fn spot<P: Display, A>(spot: &FieldSpot<P, A>, acts: impl Fn(&A) -> Value) -> Value {
    let moment = &spot.moment;
    let mut told = json!({
        "place": spot.place.to_string(),
        "position": mm(&spot.position),
        "normal": list(&spot.normal),
        "sharp": spot.sharp,
        "finer": spot.finer,
        "margin": spot.mode.margin,
        "mode": spot.mode.mode,
        "sections": spot.sections.as_ref().map(mode),
        "factor": spot.factor,
        "section_factor": spot.section_factor,
        "stress": mega(&moment.stress),
        "mechanical": mega(&moment.mechanical),
        "layer_share": moment.layer_share,
        "rpm": moment.rpm,
        "crank_deg": moment.crank_angle.to_degrees(),
    });
    let Value::Object(acting) = acts(&moment.acting) else { unreachable!("acting is told by name") };
    told.as_object_mut().unwrap().extend(acting);
    told
}

fn on_rod(acting: &OnRod) -> Value {
    json!({
        "pressures": acting.pressures.each_ref().map(|table| pressures(table)),
        "sideways": acting.sideways,
        "spin_squared": acting.spin_squared,
    })
}

fn on_piston(acting: &OnPiston) -> Value {
    json!({
        "pressures": [pressures(&acting.pin)],
        "sideways": [acting.sideways],
        "spin_squared": 0.0,
        "gas": acting.gas * 1e-6,
        "wall": acting.wall,
    })
}

/// Angle in degrees with pressure in MPa.
fn pressures(table: &[(f64, f64)]) -> Vec<[f64; 2]> {
    table.iter().map(|(angle, pressure)| [*angle, pressure * 1e-6]).collect()
}

fn mm(point: &Point3<f64>) -> [f64; 3] {
    (point.coords * 1e3).into()
}

fn list(vector: &Vector3<f64>) -> [f64; 3] {
    (*vector).into()
}

fn mega(stress: &Vector6<f64>) -> [f64; 6] {
    (stress * 1e-6).into()
}
