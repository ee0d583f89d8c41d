//! Pulls a rod apart at both bores by cosine pushes and prints peaks and times, as JSON:
//! `cargo run --release -p layload-core --features rooms --example pulled_rod -- ROD.stl CELLS FORCE_N SMALL_X SMALL_Y SMALL_R BIG_X BIG_Y BIG_R`
//! (mm; both bores along z). `tests/reference/calculix/beside.py` runs it beside a general finite-element program.

#![allow(clippy::unwrap_used, missing_docs)]

use std::time::Instant;

use layload_core::LengthUnit;
use layload_core::field::{Accuracy, HeldModel, Stiffness};
use layload_core::mesh::Mesh;
use nalgebra::Vector3;
use serde_json::json;

#[path = "../../tests/core/field/pulled.rs"]
mod pulled;

use pulled::PulledRod;

fn main() {
    let words: Vec<String> = std::env::args().skip(1).collect();
    let number = |at: usize| words[at].parse::<f64>().unwrap();
    let began = Instant::now();
    let (mesh, _) = Mesh::from_stl(&std::fs::read(&words[0]).unwrap(), LengthUnit::Millimetre).unwrap();
    // Of the printed material of `pulled_rods.py`.
    let stiffness = Stiffness::transverse([5e9, 2.5e9], 1e9, [0.38; 2], &Vector3::z()).unwrap();
    let bores = [3, 6].map(|at| ([number(at), number(at + 1)], number(at + 2)));
    let rod = PulledRod::new(mesh, number(1) as usize, &stiffness, bores, number(2));
    let load = rod.load();
    let held = HeldModel::new(&rod.model, &[]).unwrap();
    let ready = began.elapsed().as_secs_f64();
    let solution = held.solve(&load, &Accuracy::default(), None).unwrap();
    let solved = began.elapsed().as_secs_f64();
    let greatest = rod.greatest(&solution, &load);
    let peaks = rod.bores.each_ref().map(|bore| rod.peak(bore, &solution, &greatest));
    let all = began.elapsed().as_secs_f64();
    let report = json!({
        "cells": rod.model.voxels().filled(),
        "iterations": solution.iterations(),
        "seconds": { "reading and grids": ready, "solving": solved - ready, "stresses and windows": all - solved, "all": all },
        "small_bore_mpa": peaks[0].map(|stress| stress * 1e-6),
        "big_bore_mpa": peaks[1].map(|stress| stress * 1e-6),
    });
    println!("{report:#}");
}
