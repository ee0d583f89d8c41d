//! Pulls a rod apart at both bores by cosine pushes and prints peaks and times, as JSON:
//! `cargo run --release -p layload-core --example pulled_rod -- ROD.stl CELLS FORCE_N SMALL_X SMALL_Y SMALL_R BIG_X BIG_Y BIG_R`
//! (mm; both bores along z). `tests/reference/calculix/beside.py` runs it beside a general finite-element program.

#![allow(clippy::unwrap_used, missing_docs)]

use std::time::Instant;

use layload_core::field::{
    Accuracy, FieldModel, Gauges, Grid, HeldModel, InertiaRelief, Load, Stiffness, SurfaceForce, Zoom, tensor,
};
use layload_core::mesh::{LengthUnit, Mesh};
use nalgebra::{Point3, Vector3, Vector6};
use serde_json::json;

struct Bore {
    center: Point3<f64>,
    radius: f64,
    facets: Vec<usize>,
    /// Where the pin pushes.
    toward: Vector3<f64>,
    /// Greatest pressure, Pa.
    peak: f64,
}

impl Bore {
    fn arm(&self, point: &Point3<f64>) -> Vector3<f64> {
        Vector3::new(point.x - self.center.x, point.y - self.center.y, 0.0)
    }

    fn on(&self, point: &Point3<f64>, normal: &Vector3<f64>) -> bool {
        (self.arm(point).norm() - self.radius).abs() < 0.02 * self.radius && normal.z.abs() < 0.5
    }

    fn push(&self, point: &Point3<f64>) -> Vector3<f64> {
        let radial = self.arm(point).normalize();
        radial * radial.dot(&self.toward).max(0.0)
    }
}

fn main() {
    let words: Vec<String> = std::env::args().skip(1).collect();
    let number = |at: usize| words[at].parse::<f64>().unwrap();
    let began = Instant::now();
    let (mesh, _) = Mesh::from_stl(&std::fs::read(&words[0]).unwrap(), LengthUnit::Millimetre).unwrap();
    // Of the printed material of `pulled_rods.py`.
    let stiffness = Stiffness::transverse([5e9, 2.5e9], 1e9, [0.38; 2], &Vector3::z()).unwrap();
    let grid = Grid::round(&mesh, number(1) as usize).unwrap();
    let edge = libm::cbrt(grid.cell_volume());
    let model = FieldModel::solid(mesh, grid, stiffness).unwrap();
    let force = number(2);
    let center = |at: usize| Point3::new(number(at) * 1e-3, number(at + 1) * 1e-3, 0.0);
    let along = (center(6) - center(3)).normalize();
    let bores = [(3, -along), (6, along)].map(|(at, toward)| {
        let mut bore =
            Bore { center: center(at), radius: number(at + 2) * 1e-3, facets: Vec::new(), toward, peak: 0.0 };
        let mesh = model.mesh();
        bore.facets =
            (0..mesh.facets().len()).filter(|&f| bore.on(&mesh.middle(f), &mesh.area_vector(f).normalize())).collect();
        bore.peak = force / model.integral(&bore.facets, |p| bore.push(p).dot(&toward));
        bore
    });
    let traction = |point: &Point3<f64>, normal: &Vector3<f64>| {
        let on = bores.iter().find(|bore| bore.on(point, normal));
        on.map_or_else(Vector3::zeros, |bore| bore.push(point) * bore.peak)
    };
    let load =
        bores.iter().fold(Load::none(&model), |load, bore| load.traction(&model, &bore.facets, traction).unwrap());
    let load = InertiaRelief::new(&model, 1100.0).unwrap().balanced(&model, load);
    let held = HeldModel::new(&model, &[]).unwrap();
    let ready = began.elapsed().as_secs_f64();
    let solution = held.solve(&load, &Accuracy::default(), None).unwrap();
    let solved = began.elapsed().as_secs_f64();
    let greatest = |stress: &Vector6<f64>| tensor(stress).symmetric_eigenvalues().max();
    let peaks: Vec<[f64; 2]> = bores
        .iter()
        .map(|bore| {
            let points: Vec<_> =
                spread(&model, edge).into_iter().filter(|(point, normal)| bore.on(point, normal)).collect();
            let stresses = Gauges::new(&model, &points)
                .stresses(&solution, &load, |n| traction(&points[n].0, &points[n].1))
                .into_iter()
                .map(|stress| stress.map_or(0.0, |stress| greatest(&stress)));
            let (worst, coarse) = stresses.enumerate().max_by(|a, b| a.1.total_cmp(&b.1)).unwrap();
            // Once more with finer cells, as a check looks at its worst places.
            let zoom = Zoom::new(&model, &points[worst].0, 4.5, 3).unwrap();
            let load = Load::none(&zoom.model).traction(&zoom.model, &bore.facets, traction).unwrap();
            let held = zoom.held(solution.displacements());
            let closer = held.solve(&load, &Accuracy { residual: 1e-7, ..Accuracy::default() }, None).unwrap();
            let strains = held.strains(&closer, &load);
            let fine =
                spread(&zoom.model, edge / 3.0).into_iter().filter(|(p, n)| bore.on(p, n) && zoom.within(p, 1.5));
            let stresses = fine.filter_map(|(p, n)| strains.stress_at(&p, &n, SurfaceForce::Known(traction(&p, &n))));
            [coarse, stresses.map(|stress| greatest(&stress)).fold(0.0, f64::max)]
        })
        .collect();
    let all = began.elapsed().as_secs_f64();
    let report = json!({
        "cells": model.voxels().filled(),
        "iterations": solution.iterations(),
        "seconds": { "reading and grids": ready, "solving": solved - ready, "stresses and windows": all - solved, "all": all },
        "small_bore_mpa": peaks[0].map(|stress| stress * 1e-6),
        "big_bore_mpa": peaks[1].map(|stress| stress * 1e-6),
    });
    println!("{report:#}");
}

/// Points about `apart` from each other all over the surface, with their normals: facets of samples are long strips.
fn spread(model: &FieldModel, apart: f64) -> Vec<(Point3<f64>, Vector3<f64>)> {
    let mut points = Vec::new();
    for facet in 0..model.mesh().facets().len() {
        let normal = model.mesh().area_vector(facet).normalize();
        let [a, b, c] = model.mesh().corners(facet);
        let longest = (a - b).norm().max((b - c).norm()).max((c - a).norm());
        let parts = (longest / apart).ceil().max(1.0) as usize;
        for i in 0..parts {
            for j in 0..parts - i {
                let (u, v) = ((i as f64 + 1.0 / 3.0) / parts as f64, (j as f64 + 1.0 / 3.0) / parts as f64);
                points.push((a + (b - a) * u + (c - a) * v, normal));
            }
        }
    }
    points
}
