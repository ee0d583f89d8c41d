//! The solver itself: even strain is exact, a level of grids costs nothing, and threads change no bit.

use approx::assert_relative_eq;
use layload_core::field::{Accuracy, FieldModel, Grid, HeldModel, Load, Stiffness, SurfaceForce, tensor};
use nalgebra::{Point3, Vector3};

use super::shapes::{block, disc, facets, ring, turned};

#[test]
fn even_stress_is_exact() {
    // Patch test: a block pulled evenly, its material turned against the grid.
    let size = [0.012, 0.009, 0.01];
    let stiffness = Stiffness::transverse([5e9, 2e9], 0.9e9, [0.38, 0.3], &Vector3::new(0.4, -0.3, 0.8)).unwrap();
    let mesh = block(size);
    let ends = facets(&mesh, |_, n| n.x.abs() > 0.9);
    let grid = Grid::with_edge(&mesh, 0.0013).unwrap();
    let model = FieldModel::solid(mesh, grid, stiffness).unwrap();
    let load = Load::none(&model).traction(&model, &ends, |_, n| Vector3::x() * (1e6 * n.x)).unwrap();
    let held = HeldModel::new(&model, &[]).unwrap();
    let accuracy = Accuracy { residual: 1e-10, iterations: 60 };
    let solution = held.solve(&load, &accuracy, None).unwrap();
    let strains = held.strains(&solution, &load);
    let [nx, ny, nz] = model.voxels().grid().counts;
    for cell in [[0, 0, 0], [nx / 2, ny / 2, nz / 2], [nx - 1, 0, nz - 1]] {
        let stress = strains.in_cell(cell).unwrap();
        // The residual asked for, times how much more the stress in one corner cell may follow it.
        assert_relative_eq!(stress.x, 1e6, max_relative = 1e-7);
        assert!(stress.iter().skip(1).all(|other| other.abs() < 0.1), "{stress}");
    }
    // Off-axis stretch in closed form: compliance times stress.
    let compliance = stiffness.matrix().try_inverse().unwrap();
    let left = solution.displacement(&model, &Point3::new(0.0, 0.0045, 0.005)).unwrap();
    let right = solution.displacement(&model, &Point3::new(size[0], 0.0045, 0.005)).unwrap();
    assert_relative_eq!((right - left).x, compliance[(0, 0)] * 1e6 * size[0], max_relative = 1e-7);
}

#[test]
fn even_stress_in_cut_cells() {
    // The same with a surface that cuts cells at every angle: integrals over cut cells are exact, so that even stress
    // is too, but for the stiffness left to the empty parts (1e-5) and single precision of their matrices.
    let (mesh, rotation) = turned(block([0.016, 0.009, 0.01]), Vector3::new(0.3, 1.0, -0.5), 0.7);
    let pull = rotation * Vector3::x();
    let ends = facets(&mesh, |_, n| n.dot(&pull).abs() > 0.9);
    let grid = Grid::with_edge(&mesh, 0.0013).unwrap();
    let model = FieldModel::solid(mesh, grid, Stiffness::isotropic(2e9, 0.35).unwrap()).unwrap();
    let load = Load::none(&model).traction(&model, &ends, |_, n| pull * (1e6 * n.dot(&pull).signum())).unwrap();
    let held = HeldModel::new(&model, &[]).unwrap();
    let solution = held.solve(&load, &Accuracy { residual: 1e-8, iterations: 100 }, None).unwrap();
    let strains = held.strains(&solution, &load);
    let sides = facets(model.mesh(), |_, n| n.dot(&pull).abs() < 0.1);
    for facet in sides {
        let normal = model.mesh().area_vector(facet).normalize();
        let stress = strains.stress_at(&model.mesh().middle(facet), &normal, SurfaceForce::Unknown).unwrap();
        let difference = tensor(&stress) - pull * pull.transpose() * 1e6;
        assert!(difference.amax() < 1e3, "{difference}");
    }
}

#[test]
fn iterations_do_not_grow_with_the_grid() {
    let mesh = ring(0.02, 0.008, 0.01, 90);
    let bore = facets(&mesh, |p, n| n.z.abs() < 0.5 && p.coords.xy().norm() < 0.01);
    let mut counts = Vec::new();
    for cells in [1500, 12_000] {
        let grid = Grid::round(&mesh, cells).unwrap();
        let stiffness = Stiffness::transverse([5e9, 2e9], 0.9e9, [0.38; 2], &Vector3::new(0.0, 1.0, 1.0)).unwrap();
        let model = FieldModel::solid(mesh.clone(), grid, stiffness).unwrap();
        let load = Load::none(&model).pressure(&model, &bore, 1e6).unwrap();
        let held = HeldModel::new(&model, &[]).unwrap();
        let solution = held.solve(&load, &Accuracy::default(), None).unwrap();
        counts.push(solution.iterations());
    }
    // A preconditioner of one grid needs twice as many for half the edge; from the second grid on the number stands.
    assert!(counts.iter().all(|&count| count <= 25), "{counts:?}");
}

#[test]
fn slivers_cost_no_iterations() {
    // A thick disc askew in its grid: a third of its cells are cut, many to slivers.
    let (mesh, rotation) = turned(disc(0.02, 0.006, 180), Vector3::new(1.0, 0.4, 0.2), 0.5);
    let (axis, across) = (rotation * Vector3::z(), rotation * Vector3::x());
    let rim = facets(&mesh, |_, n| n.dot(&axis).abs() < 0.5);
    for edge in [0.0008, 0.00105] {
        let grid = Grid::with_edge(&mesh, edge).unwrap();
        let model = FieldModel::solid(mesh.clone(), grid, Stiffness::isotropic(3e9, 0.38).unwrap()).unwrap();
        let squeeze = |point: &Point3<f64>, normal: &Vector3<f64>| {
            let along = point.coords.dot(&across) / 0.02;
            -normal * (1e6 * along * along)
        };
        let load = Load::none(&model).traction(&model, &rim, squeeze).unwrap();
        let held = HeldModel::new(&model, &[]).unwrap();
        let solution = held.solve(&load, &Accuracy::default(), None).unwrap();
        // Level with its grid it takes 6; with nodes of slivers treated one by one it would take 9 askew.
        assert!(solution.iterations() <= 7, "{edge}: {}", solution.iterations());
    }
}

#[test]
fn repeats_to_the_last_bit() {
    let mesh = ring(0.02, 0.008, 0.01, 90);
    let bore = facets(&mesh, |p, n| n.z.abs() < 0.5 && p.coords.xy().norm() < 0.01);
    let answer = || {
        let grid = Grid::round(&mesh, 3000).unwrap();
        let model = FieldModel::solid(mesh.clone(), grid, Stiffness::isotropic(2e9, 0.3).unwrap()).unwrap();
        let load = Load::none(&model).pressure(&model, &bore, 1e6).unwrap();
        let held = HeldModel::new(&model, &[]).unwrap();
        let solution = held.solve(&load, &Accuracy::default(), None).unwrap();
        let at = solution.displacement(&model, &Point3::new(0.008, 0.0, 0.005)).unwrap();
        (solution.histories, at)
    };
    // Pieces are dealt to whichever thread is free: two runs deal differently.
    assert_eq!(answer(), answer());
}
