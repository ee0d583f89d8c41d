//! Speed of the stress field: `cargo bench -p layload-core --features rooms --bench field`.
//!
//! A ring bent by pressure inside. Memory does not show in the table; the example `field_convergence speed` prints it with
//! times and iterations, and `tests/reference/field/time_direct.py` times a general sparse solver on a small block.

#![allow(clippy::unwrap_used, missing_docs)]

use divan::{Bencher, black_box};
use layload_core::field::{Accuracy, FieldModel, Grid, HeldModel, Load, Stiffness, SurfaceForce, Voxels};
use layload_core::mesh::Mesh;
use nalgebra::Vector3;

#[path = "../../tests/core/field/drawn_out.rs"]
mod drawn_out;

use drawn_out::ring;

fn main() {
    divan::main();
}

const CELLS: [usize; 5] = [50_000, 100_000, 300_000, 1_000_000, 3_000_000];

/// Nearly all of its sides cut cells.
fn many_corners() -> Mesh {
    ring(0.03, 0.015, 0.012, 720)
}

fn model(mesh: &Mesh, cells: usize) -> FieldModel {
    let stiffness = Stiffness::transverse([5e9, 2.5e9], 1e9, [0.38; 2], &Vector3::new(0.3, 0.2, 1.0)).unwrap();
    FieldModel::solid(mesh.clone(), Grid::round(mesh, cells).unwrap(), stiffness).unwrap()
}

#[divan::bench(args = CELLS, sample_count = 3)]
fn cells(bencher: Bencher, cells: usize) {
    let mesh = many_corners();
    let grid = Grid::round(&mesh, cells).unwrap();
    bencher.bench(|| Voxels::new(black_box(&mesh), grid).unwrap());
}

#[divan::bench(args = CELLS, sample_count = 3)]
fn grids(bencher: Bencher, cells: usize) {
    let model = model(&many_corners(), cells);
    bencher.bench(|| HeldModel::new(black_box(&model), &[]).unwrap());
}

/// One case from the mesh to the stress on every facet: what a million cells should take six seconds for.
#[divan::bench(args = CELLS, sample_count = 3)]
fn one_case(bencher: Bencher, cells: usize) {
    let mesh = many_corners();
    bencher.bench(|| {
        let model = model(black_box(&mesh), cells);
        let load = bending(&model);
        let held = HeldModel::new(&model, &[]).unwrap();
        let solution = held.solve(&load, &Accuracy::default(), None).unwrap();
        let all: Vec<usize> = (0..mesh.facets().len()).collect();
        held.strains(&solution, &load).stresses(&all, |_| SurfaceForce::Unknown)
    });
}

/// Pushed from inside on opposite sides, which bends the ring: the slow case, as an eye is.
fn bending(model: &FieldModel) -> Load {
    let mesh = model.mesh();
    let bore: Vec<usize> = (0..mesh.facets().len())
        .filter(|&f| mesh.area_vector(f).normalize().z.abs() < 0.5 && mesh.middle(f).coords.xy().norm() < 0.02)
        .collect();
    Load::none(model)
        .traction(model, &bore, |point, normal| -normal * (1e6 * (point.x / 0.015) * (point.x / 0.015)))
        .unwrap()
}

#[divan::bench(args = CELLS, sample_count = 3)]
fn solve(bencher: Bencher, cells: usize) {
    let model = model(&many_corners(), cells);
    let load = bending(&model);
    let held = HeldModel::new(&model, &[]).unwrap();
    let solution = held.solve(&load, &Accuracy::default(), None).unwrap();
    println!(
        "{} cells, {} unknowns: {} iterations, residual {:.1e}, {} grids, {} cells with a matrix of their own",
        model.voxels().filled(),
        model.unknowns(),
        solution.iterations(),
        solution.residual(),
        held.grids(),
        held.own_cells(),
    );
    bencher.bench(|| held.solve(black_box(&load), &Accuracy::default(), None).unwrap());
}
