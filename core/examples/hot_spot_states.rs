//! Prints where the stress field finds the most harm in a rod and what loads the rod then, for other programs to solve
//! the same: `cargo run --release -p layload-core --example hot_spot_states -- ROD.stl JOB.toml [CELLS]`.
//!
//! Everything is in the frame of the rod (origin at the small-end centre, x toward the big end, z along the pins), mm,
//! MPa, N; `frame` leads there from the coordinates of the file. `tests/reference/calculix/hot_spots.py` reads it.

#![allow(clippy::unwrap_used, missing_docs)]

use layload_core::job::Job;
use layload_core::verdict::{FieldRequest, FieldSpot, USUAL_CELLS};
use layload_core::{Question, SolvedField, stress_field};
use nalgebra::{Point3, Vector3, Vector6};
use serde_json::{Value, json};

fn main() {
    let words: Vec<String> = std::env::args().skip(1).collect();
    let stl = std::fs::read(&words[0]).unwrap();
    let job = Job::from_toml(&std::fs::read_to_string(&words[1]).unwrap()).unwrap();
    let cells = words.get(2).map_or(USUAL_CELLS, |word| word.parse().unwrap());
    let question = Question { job: &job, card_text: None, pressure_text: None };
    let SolvedField { prepared, findings, .. } =
        stress_field(&stl, &question, FieldRequest { cells }, &mut ()).unwrap();
    let (rod, material) = (&prepared.rod, prepared.scenario.material());
    let frame = rod.frame.rows();
    let rows: Vec<[f64; 3]> = (0..3).map(|row| list(&frame.row(row).transpose())).collect();
    let bores = [&rod.small_end, &rod.big_end].map(|eye| {
        let seat = eye.bore.main();
        let axis = rod.frame.direction(&eye.bore.axis);
        json!({ "center": mm(&eye.center), "axis": list(&axis), "radius": seat.radius * 1e3,
                "from": seat.from * 1e3, "to": seat.to * 1e3 })
    });
    let report = json!({
        "cells": findings.cells,
        "edge": findings.edge * 1e3,
        "iterations": findings.cases.iter().map(|case| case.iterations).sum::<usize>(),
        "frame": { "origin": rod.frame.to_file_mm(&Point3::origin()),
                   "rows": rows },
        "material": { "level": material.in_plane_modulus() * 1e-6, "upright": material.layer_modulus * 1e-6,
                      "shear": material.layer_shear_modulus * 1e-6, "poisson_ratio": material.poisson_ratio,
                      "density_kg_m3": material.density },
        "build": list(&prepared.print.build),
        "infill": prepared.print.infill,
        "bores": bores,
        "spots": findings.spots.iter().map(spot).collect::<Vec<_>>(),
    });
    println!("{report:#}");
}

fn spot(spot: &FieldSpot) -> Value {
    let moment = &spot.moment;
    json!({
        "place": spot.place.to_string(),
        "position": mm(&spot.position),
        "normal": list(&spot.normal),
        "sharp": spot.sharp,
        "margin": spot.mode.margin,
        "mode": spot.mode.mode,
        "sections": spot.sections.map(|mode| json!({ "margin": mode.margin, "mode": mode.mode,
                                                     "place": mode.place.to_string() })),
        "factor": spot.factor,
        "section_factor": spot.section_factor,
        "stress": mega(&moment.stress),
        "mechanical": mega(&moment.mechanical),
        "layer_share": moment.layer_share,
        "rpm": moment.rpm,
        "crank_deg": moment.crank_angle.to_degrees(),
        "pressures": moment.pressures.each_ref().map(|list| {
            list.iter().map(|(angle, pressure)| [*angle, pressure * 1e-6]).collect::<Vec<_>>()
        }),
        "sideways": moment.sideways,
        "spin_squared": moment.spin_squared,
    })
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
