//! Prints how the stress field comes to known solutions as cells get smaller: `cargo run --release --example
//! field_convergence`. The numbers it last gave stand in `core/solid/src/field/mod.rs`.

#![allow(clippy::unwrap_used, missing_docs)]

use std::f64::consts::{FRAC_PI_2, TAU};
use std::time::Instant;

use layload_core::field::{
    Accuracy, FieldModel, ForceField, Grid, HeldModel, Hold, Load, Stiffness, Support, SurfaceForce, tensor,
};
use layload_core::mesh::Mesh;
use nalgebra::{Isometry3, Point3, Translation3, UnitQuaternion, Vector3};

#[path = "../../tests/core/field/drawn_out.rs"]
mod drawn_out;

use drawn_out::{between, circle, ring};

type Outline = Vec<[f64; 2]>;

/// A round plate.
fn round_plate(radius: f64, height: f64) -> Mesh {
    let n = 360_u32;
    let mut points = vec![Point3::origin(), Point3::new(0.0, 0.0, height)];
    for z in [0.0, height] {
        points.extend(circle(radius, n as usize).iter().map(|p| Point3::new(p[0], p[1], z)));
    }
    let mut facets = Vec::new();
    for k in 0..n {
        let (a, b) = (2 + k, 2 + (k + 1) % n);
        facets.extend([[0, b, a], [1, a + n, b + n], [a, b, b + n], [a, b + n, a + n]]);
    }
    Mesh::from_facets(points, facets).unwrap()
}

/// A rectangle with a corner on every ray a circle has one on.
fn rectangle(half_x: f64, half_y: f64, corners: usize) -> Outline {
    let corner = libm::atan2(half_y, half_x);
    let mut angles: Vec<f64> = (0..corners).map(|k| TAU * k as f64 / corners as f64).collect();
    for wanted in [corner, TAU / 2.0 - corner, TAU / 2.0 + corner, TAU - corner] {
        let near = (wanted / TAU * corners as f64).round() as usize;
        angles[near] = wanted;
    }
    angles
        .iter()
        .map(|t| {
            let (c, s) = (libm::cos(*t), libm::sin(*t));
            let r = (half_x / c.abs()).min(half_y / s.abs());
            [r * c, r * s]
        })
        .collect()
}

fn facets(mesh: &Mesh, keep: impl Fn(Point3<f64>, Vector3<f64>) -> bool) -> Vec<usize> {
    (0..mesh.facets().len()).filter(|&f| keep(mesh.middle(f), mesh.area_vector(f).normalize())).collect()
}

/// Turned about z by an angle.
fn turned(mesh: Mesh, angle: f64) -> (Mesh, UnitQuaternion<f64>) {
    let rotation = UnitQuaternion::from_axis_angle(&Vector3::z_axis(), angle);
    (mesh.moved(&Isometry3::from_parts(Translation3::identity(), rotation)), rotation)
}

fn main() {
    let which: Vec<String> = std::env::args().skip(1).collect();
    let wanted = |name: &str| which.is_empty() || which.iter().any(|w| w == name);
    if wanted("hole") {
        hole();
    }
    if wanted("ring") {
        thick_ring();
    }
    if wanted("plate") {
        plates();
    }
    if wanted("beam") {
        cantilever();
    }
    if wanted("disc") {
        disc();
    }
    if wanted("block") {
        block();
    }
    if wanted("speed") {
        speed(which.iter().filter_map(|word| word.parse().ok()).collect());
    }
}

/// The block of `tests/reference/field/time_direct.py`, for a general sparse solver beside it.
fn block() {
    let size = [0.04, 0.02, 0.012];
    let outline = |half: [f64; 2]| -> Outline {
        [[-1.0, -1.0], [1.0, -1.0], [1.0, 1.0], [-1.0, 1.0]].map(|s| [s[0] * half[0], s[1] * half[1]]).to_vec()
    };
    // The hole is far too small to be seen by a cell.
    let mesh = between(&outline([size[0] / 2.0, size[1] / 2.0]), &outline([1e-9, 1e-9]), size[2]);
    let end = |side: f64| facets(&mesh, |p, n| n.x * side > 0.9 && p.x * side > 1e-3);
    let began = Instant::now();
    let grid = Grid::with_edge(&mesh, 0.001).unwrap();
    let model = FieldModel::solid(mesh.clone(), grid, Stiffness::isotropic(2e9, 0.35).unwrap()).unwrap();
    let pull = Vector3::y() * (20.0 / (size[1] * size[2]));
    let load = Load::none(&model).traction(&model, &end(1.0), |_, _| pull).unwrap();
    let support = Support { facets: end(-1.0), hold: Hold::Clamped, bedding: None };
    let held = HeldModel::new(&model, &[support]).unwrap();
    let set_up = began.elapsed().as_secs_f64();
    let solution = held.solve(&load, &Accuracy::default(), None).unwrap();
    let tip = solution.displacement(&model, &Point3::new(size[0] / 2.0, 1e-5, size[2] / 2.0)).unwrap();
    println!(
        "block of {} cells: set up {set_up:.2} s, {} iterations in {:.2} s, drop of the end {:.5} mm",
        model.voxels().filled(),
        solution.iterations(),
        began.elapsed().as_secs_f64() - set_up,
        tip.y * 1e3,
    );
}

/// Iterations and times of a ring bent by pressure inside, at rising numbers of cells.
fn speed(sizes: Vec<usize>) {
    let sizes = if sizes.is_empty() { vec![50_000, 100_000, 200_000, 500_000, 1_000_000, 3_000_000] } else { sizes };
    let mesh = ring(30e-3, 15e-3, 12e-3, 720);
    let bore = facets(&mesh, |p, n| n.z.abs() < 0.5 && p.coords.xy().norm() < 20e-3);
    for cells in sizes {
        let began = Instant::now();
        let stiffness = Stiffness::transverse([5e9, 2.5e9], 1e9, [0.38; 2], &Vector3::new(0.3, 0.2, 1.0)).unwrap();
        let model = FieldModel::solid(mesh.clone(), Grid::round(&mesh, cells).unwrap(), stiffness).unwrap();
        let divided = began.elapsed().as_secs_f64();
        let load = Load::none(&model)
            .traction(&model, &bore, |point, normal| -normal * (1e6 * (point.x / 15e-3) * (point.x / 15e-3)))
            .unwrap();
        let held = HeldModel::new(&model, &[]).unwrap();
        let set_up = began.elapsed().as_secs_f64() - divided;
        let solution = held.solve(&load, &Accuracy::default(), None).unwrap();
        let solved = began.elapsed().as_secs_f64() - divided - set_up;
        let strains = held.strains(&solution, &load);
        let all: Vec<usize> = (0..mesh.facets().len()).collect();
        let stresses = strains.stresses(&all, |_| SurfaceForce::Unknown);
        let recovered = began.elapsed().as_secs_f64() - divided - set_up - solved;
        let memory = std::fs::read_to_string("/proc/self/status").unwrap_or_default();
        let peak = memory.lines().find(|line| line.starts_with("VmHWM")).unwrap_or_default();
        println!(
            "{} cells ({} cut), {} unknowns: cells {divided:.2} s, grids {set_up:.2} s ({} of them), {} iterations in \
             {solved:.2} s ({:.3} s each, rate {:.3}), {} stresses {recovered:.2} s; {} own matrices; {peak}",
            model.voxels().filled(),
            model.voxels().cut(),
            model.unknowns(),
            held.grids(),
            solution.iterations(),
            solved / solution.iterations() as f64,
            solution.histories[0].rate(),
            stresses.len(),
            held.own_cells(),
        );
    }
}

/// Plate with a hole in tension, turned against the grid: C14, C15.
fn hole() {
    println!("plate with hole, d/W = 0.25, t = d/4: Kt of the net section, Heywood 2 + (1 - d/W)^3 = 2.421875");
    let (r, half_y, half_x) = (5e-3, 20e-3, 45e-3);
    let expected = 2.0 + 0.75 * 0.75 * 0.75;
    for angle in [0.0, 0.3] {
        for cells_across in [6.0, 8.0, 12.0, 16.0, 24.0, 32.0] {
            let edge = 2.0 * r / cells_across;
            let flat = between(&rectangle(half_x, half_y, 720), &circle(r, 720), 2.5e-3);
            let ends = facets(&flat, |_, n| n.x.abs() > 0.999);
            let bore = facets(&flat, |p, n| n.z.abs() < 0.5 && p.coords.xy().norm() < 1.01 * r);
            let (mesh, rotation) = turned(flat, angle);
            let began = Instant::now();
            let grid = Grid::with_edge(&mesh, edge).unwrap();
            let model = FieldModel::solid(mesh.clone(), grid, Stiffness::isotropic(2e9, 0.3).unwrap()).unwrap();
            let voxels = began.elapsed().as_secs_f64();
            let pull = rotation * Vector3::x();
            let load = Load::none(&model).traction(&model, &ends, |_, n| pull * (1e6 * n.dot(&pull).signum())).unwrap();
            let held = HeldModel::new(&model, &[]).unwrap();
            let setup = began.elapsed().as_secs_f64() - voxels;
            let solution = match held.solve(&load, &Accuracy { iterations: 60, residual: 1e-6 }, None) {
                Ok(solution) => solution,
                Err(error) => {
                    println!("angle {angle} cells/d {cells_across}: {error}");
                    continue;
                }
            };
            let solve = began.elapsed().as_secs_f64() - setup - voxels;
            let strains = held.strains(&solution, &load);
            let net = 1e6 / (1.0 - r / half_y);
            let peak = |force: SurfaceForce| {
                strains
                    .stresses(&bore, |_| force)
                    .into_iter()
                    .flatten()
                    .map(|s| tensor(&s).symmetric_eigenvalues().max())
                    .fold(f64::NEG_INFINITY, f64::max)
                    / net
            };
            let free = peak(SurfaceForce::Known(Vector3::zeros()));
            let fitted = peak(SurfaceForce::Unknown);
            println!(
                "angle {angle:.1} cells/d {cells_across:4.0} cells {:7} cut {:6}: Kt {free:.4} ({:+.2} %), without traction {fitted:.4} ({:+.2} %); \
                 {} its, rate {:.3}, {} grids, {voxels:.2} + {setup:.2} + {solve:.2} s",
                model.voxels().filled(),
                model.voxels().cut(),
                (free / expected - 1.0) * 100.0,
                (fitted / expected - 1.0) * 100.0,
                solution.iterations(),
                solution.histories[0].rate(),
                held.grids(),
            );
        }
    }
}

/// Thick ring under inner pressure: Lame.
fn thick_ring() {
    let (a, b, p) = (6e-3, 12e-3, 10e6);
    let inner = p * (b * b + a * a) / (b * b - a * a);
    let outer = 2.0 * p * a * a / (b * b - a * a);
    println!(
        "ring 2:1 under pressure, hoop stress inside {:.2} MPa, outside {:.2} MPa (Lame)",
        inner / 1e6,
        outer / 1e6
    );
    for cells in [3.0, 4.0, 6.0, 8.0, 12.0, 16.0] {
        let mesh = ring(b, a, 4e-3, 360);
        let bore = facets(&mesh, |p, n| n.z.abs() < 0.5 && p.coords.xy().norm() < 1.1 * a);
        let rim = facets(&mesh, |p, n| n.z.abs() < 0.5 && p.coords.xy().norm() > 1.1 * a);
        let grid = Grid::with_edge(&mesh, (b - a) / cells).unwrap();
        let model = FieldModel::solid(mesh.clone(), grid, Stiffness::isotropic(2e9, 0.35).unwrap()).unwrap();
        let load = Load::none(&model).pressure(&model, &bore, p).unwrap();
        let held = HeldModel::new(&model, &[]).unwrap();
        let solution = held.solve(&load, &Accuracy::default(), None).unwrap();
        let strains = held.strains(&solution, &load);
        let hoop = |list: &[usize], pressure: f64| {
            let got: Vec<f64> = list
                .iter()
                .filter_map(|&f| {
                    let (m, n) = (mesh.middle(f), mesh.area_vector(f).normalize());
                    let s = strains.stress_at(&m, &n, SurfaceForce::Known(-n * pressure))?;
                    let along = Vector3::new(-m.y, m.x, 0.0).normalize();
                    Some(along.dot(&(tensor(&s) * along)))
                })
                .collect();
            let mean = got.iter().sum::<f64>() / got.len() as f64;
            let (low, high) = got.iter().fold((f64::MAX, f64::MIN), |(l, h), v| (l.min(*v), h.max(*v)));
            (mean, low, high)
        };
        let u = solution.displacement(&model, &Point3::new(a, 1e-9, 2e-3)).unwrap().x;
        println!("u/lame {:.4}", u / (a * p / 2e9 * ((b * b + a * a) / (b * b - a * a) + 0.35)));
        let (i, il, ih) = hoop(&bore, p);
        let (o, ol, oh) = hoop(&rim, 0.0);
        let pc = |v: f64, e: f64| (v / e - 1.0) * 100.0;
        println!(
            "cells/wall {cells:3.0} cells {:7}: inside mean {:+.2} % ({:+.2} to {:+.2}), outside mean {:+.2} % ({:+.2} to {:+.2}); {} its",
            model.voxels().filled(),
            pc(i, inner),
            pc(il, inner),
            pc(ih, inner),
            pc(o, outer),
            pc(ol, outer),
            pc(oh, outer),
            solution.iterations(),
        );
    }
}

/// Round plates under even pressure: C5, C6.
fn plates() {
    let (a, t, p, e, nu) = (30e-3_f64, 3e-3, 1e5, 3e9, 0.35);
    let clamped = 3.0 * p * a * a / (4.0 * t * t);
    let supported = 3.0 * (3.0 + nu) * p * a * a / (8.0 * t * t);
    let d = e * t * t * t / (12.0 * (1.0 - nu * nu));
    let deflection = p * (a * a * a * a) / (64.0 * d);
    println!(
        "round plate a/t = 10: clamped edge {:.3} MPa, centre supported {:.3} MPa",
        clamped / 1e6,
        supported / 1e6
    );
    for cells in [2.0, 3.0, 4.0, 6.0] {
        for fixed in [true, false] {
            let mesh = round_plate(a, t);
            let top = facets(&mesh, |_, n| n.z > 0.5);
            let edge = facets(&mesh, |p, n| n.z.abs() < 0.5 && p.coords.xy().norm() > 0.5 * a);
            let grid = Grid::with_edge(&mesh, t / cells).unwrap();
            let model = FieldModel::solid(mesh.clone(), grid, Stiffness::isotropic(e, nu).unwrap()).unwrap();
            let load = Load::none(&model).pressure(&model, &top, p).unwrap();
            let hold = if fixed { Hold::Clamped } else { Hold::Along(Vector3::z()) };
            let held = HeldModel::new(&model, &[Support { facets: edge, hold, bedding: None }]).unwrap();
            let solution = match held.solve(&load, &Accuracy::default(), None) {
                Ok(solution) => solution,
                Err(error) => {
                    println!("{error}");
                    continue;
                }
            };
            let strains = held.strains(&solution, &load);
            let at = |x: f64| {
                let s = strains
                    .stress_at(&Point3::new(x, 0.0, 0.0), &-Vector3::z(), SurfaceForce::Known(Vector3::zeros()))
                    .unwrap_or_else(|| {
                        println!("none at {x} {:?}", solution.histories);
                        nalgebra::Vector6::zeros()
                    });
                s.x / 1e6
            };
            let w = solution.displacement(&model, &Point3::new(0.0, 0.0, t / 2.0)).unwrap().z;
            println!(
                "cells/t {cells:2.0} cells {:7} {}: centre {:.4} MPa ({:+.2} %), x=0.8a {:.4}, 0.9a {:.4}, edge {:.4} ({:+.2} %), w/w_clamped {:.4}; {} its, rate {:.3}",
                model.voxels().filled(),
                if fixed { "clamped  " } else { "supported" },
                at(0.0),
                (at(0.0) * 1e6 / if fixed { clamped * (1.0 + nu) / 2.0 } else { supported } - 1.0) * 100.0,
                at(0.8 * a),
                at(0.9 * a),
                at(a - 1e-6),
                (at(a - 1e-6) * 1e6 / -clamped - 1.0) * 100.0,
                -w / deflection,
                solution.iterations(),
                solution.histories[0].rate(),
            );
        }
    }
}

/// Cantilever at an angle to the grid.
fn cantilever() {
    let (l, h, b, f, e) = (60e-3_f64, 6e-3_f64, 5e-3, 20.0, 2e9);
    println!("cantilever 60 x 6 x 5 mm, end force: stress at 30 mm {:.4} MPa", f * 30e-3 * 6.0 / (b * h * h) / 1e6);
    for angle in [0.0, 0.2, FRAC_PI_2 / 2.0] {
        for cells in [2.0, 4.0, 8.0, 12.0] {
            let outer = vec![[0.0, -h / 2.0], [l, -h / 2.0], [l, h / 2.0], [0.0, h / 2.0]];
            let inner: Outline = outer.iter().map(|p| [l / 2.0 + (p[0] - l / 2.0) * 1e-7, p[1] * 1e-7]).collect();
            let flat = between(&outer, &inner, b);
            let root = facets(&flat, |p, n| n.x < -0.9 && p.x < 1e-6);
            let tip = facets(&flat, |p, n| n.x > 0.9 && p.x > l - 1e-6);
            let (mesh, rotation) = turned(flat, angle);
            let grid = Grid::with_edge(&mesh, h / cells).unwrap();
            let model = FieldModel::solid(mesh.clone(), grid, Stiffness::isotropic(e, 0.35).unwrap()).unwrap();
            let down = rotation * Vector3::y();
            let load = Load::none(&model).traction(&model, &tip, |_, _| down * (f / (b * h))).unwrap();
            let held = HeldModel::new(&model, &[Support { facets: root, hold: Hold::Clamped, bedding: None }]).unwrap();
            let solution = held.solve(&load, &Accuracy { residual: 1e-10, iterations: 200 }, None).unwrap();
            let strains = held.strains(&solution, &load);
            let x = rotation * Vector3::x();
            let got: Vec<f64> = (0..41)
                .map(|k| {
                    let s = 28e-3 + 4e-3 * f64::from(k) / 40.0;
                    let point = Point3::from(rotation * Vector3::new(s, -h / 2.0, b * 0.5));
                    let stress = strains
                        .stress_at(&point, &(rotation * -Vector3::y()), SurfaceForce::Known(Vector3::zeros()))
                        .unwrap();
                    x.dot(&(tensor(&stress) * x)) / (f * (l - s) * 6.0 / (b * h * h))
                })
                .collect();
            let tip_at = Point3::from(rotation * Vector3::new(l, 0.0, b / 2.0));
            let w = solution.displacement(&model, &tip_at).unwrap().dot(&down);
            let (low, high) = got.iter().fold((f64::MAX, f64::MIN), |(l, h), v| (l.min(*v), h.max(*v)));
            let euler = f * (l * l * l) * 12.0 / (3.0 * e * b * (h * h * h));
            println!(
                "angle {angle:.2} cells/h {cells:3.0} cells {:6}: stress {:+.2} to {:+.2} %, tip {:.4} of Euler; {} its rate {:.3}",
                model.voxels().filled(),
                (low - 1.0) * 100.0,
                (high - 1.0) * 100.0,
                w / euler,
                solution.iterations(),
                solution.histories[0].rate(),
            );
        }
    }
}

/// A thin turning disc with a hole.
fn disc() {
    let (a, b, density, nu, speed) = (6e-3, 30e-3, 1100.0, 0.35, 2000.0);
    // Timoshenko & Goodier, Theory of Elasticity: hoop stress at the hole.
    let expected = (3.0 + nu) / 4.0 * density * speed * speed * (b * b + (1.0 - nu) / (3.0 + nu) * a * a);
    println!("turning disc, hoop stress at the hole {:.4} MPa", expected / 1e6);
    for cells in [8.0, 12.0, 16.0, 24.0] {
        let mesh = ring(b, a, 2e-3, 360);
        let bore = facets(&mesh, |p, n| n.z.abs() < 0.5 && p.coords.xy().norm() < 1.1 * a);
        let grid = Grid::with_edge(&mesh, 2.0 * a / cells).unwrap();
        let model = FieldModel::solid(mesh.clone(), grid, Stiffness::isotropic(2e9, nu).unwrap()).unwrap();
        let field = ForceField::centrifugal(&Point3::origin(), &Vector3::z(), speed);
        let load = Load::none(&model).body(&model, density, &field).unwrap();
        let held = HeldModel::new(&model, &[]).unwrap();
        let solution = held.solve(&load, &Accuracy::default(), None).unwrap();
        let strains = held.strains(&solution, &load);
        let got: Vec<f64> = strains
            .stresses(&bore, |_| SurfaceForce::Known(Vector3::zeros()))
            .into_iter()
            .flatten()
            .map(|s| tensor(&s).symmetric_eigenvalues().max() / expected)
            .collect();
        let (low, high) = got.iter().fold((f64::MAX, f64::MIN), |(l, h), v| (l.min(*v), h.max(*v)));
        println!(
            "cells/d {cells:3.0} cells {:7}: {:+.2} to {:+.2} %; {} its",
            model.voxels().filled(),
            (low - 1.0) * 100.0,
            (high - 1.0) * 100.0,
            solution.iterations(),
        );
    }
}
