//! Parts that mirror themselves are solved by half or by a quarter: the answer has to be that of the whole.

use layload_core::field::{
    Accuracy, FieldModel, Footprint, ForceField, FreeModel, Grid, HeldModel, InertiaRelief, Load, Solution, Stiffness,
};
use layload_core::mesh::Mesh;
use nalgebra::{Matrix3, Point3, Vector3, Vector6};

use super::drawn_out::{between, circle};
use super::shapes::ring;

const DENSITY: f64 = 1100.0;

/// A residual far below the difference that is looked for.
const ACCURACY: Accuracy = Accuracy { residual: 1e-9, iterations: 200 };

/// Difference of two stresses over the greatest: matrices of cut cells are kept in single precision, 6e-8 off, and a cell with
/// little material takes up to some hundred times that. A tenth of what the answer itself is solved to.
const SAME: f64 = 2e-5;

fn model(mesh: Mesh, axis: Vector3<f64>) -> FieldModel {
    let grid = Grid::with_edge(&mesh, 0.0009).unwrap();
    let stiffness = Stiffness::transverse([4e9, 2e9], 0.8e9, [0.36, 0.36], &axis).unwrap();
    FieldModel::solid(mesh, grid, stiffness).unwrap()
}

/// Pressure in the hole that depends on the angle, as `share` of the direction from the axis.
fn push(model: &FieldModel, share: impl Fn(Vector3<f64>) -> f64 + Sync + Send) -> Load {
    let mesh = model.mesh();
    let inside = |f: &usize| {
        let middle = mesh.middle(*f).coords;
        mesh.area_vector(*f).dot(&Vector3::new(middle.x, middle.y, 0.0)) < 0.0
    };
    let facets: Vec<usize> = (0..mesh.facets().len()).filter(inside).collect();
    let radial = |point: &Point3<f64>| Vector3::new(point.x, point.y, 0.0).normalize();
    Load::none(model).traction(model, &facets, |point, normal| -normal * share(radial(point))).unwrap()
}

/// Loads that are even and odd about y, and one that is neither, on the wall of the hole and on the mass.
fn loads(model: &FieldModel) -> Vec<Load> {
    let away = ForceField { at_origin: Vector3::zeros(), gradient: Matrix3::from_diagonal(&[1e7, 1e7, 0.0].into()) };
    vec![
        push(model, |along| 1e6 * along.x.max(0.0)),
        push(model, |along| 1e6 * along.y),
        push(model, |along| if along.x > 0.3 && along.y > 0.1 { 1e6 } else { 0.0 }),
        push(model, |along| 1e6 * along.x * along.y),
        Load::none(model).body(model, DENSITY, &away).unwrap(),
    ]
}

fn free(model: &FieldModel, loads: &[Load]) -> (Vec<(Solution, Vector6<f64>)>, [bool; 3]) {
    let mut free = FreeModel::new(model, DENSITY).unwrap();
    let footprints: Vec<Footprint> = loads.iter().map(Load::footprint).collect();
    let solved = free.solve_each(&footprints, &ACCURACY, |_| true).unwrap().unwrap();
    (solved.iter().map(|solved| (free.whole(solved), solved.accelerations)).collect(), free.mirrors())
}

/// Greatest difference of a cell's stress from that in the solution of the whole part, over the greatest stress.
fn off(model: &FieldModel, solved: &[(Solution, Vector6<f64>)], loads: Vec<Load>) -> Vec<f64> {
    let relief = InertiaRelief::new(model, DENSITY).unwrap();
    let held = HeldModel::new(model, &[]).unwrap();
    let [nx, ny, nz] = model.voxels().grid().counts;
    let stresses = |solution: &Solution, load: &Load| -> Vec<Vector6<f64>> {
        let strains = held.strains(solution, load);
        let cells = (0..nx * ny * nz).map(|n| [n % nx, n / nx % ny, n / nx / ny]);
        cells.filter_map(|cell| strains.in_cell(cell)).collect()
    };
    let difference = |(load, (solution, _)): (Load, &(Solution, _))| {
        let load = relief.balanced(model, load);
        let whole = stresses(&held.solve(&load, &ACCURACY, None).unwrap(), &load);
        let size = whole.iter().fold(0.0_f64, |most, stress| most.max(stress.norm()));
        let pairs = whole.iter().zip(stresses(solution, &load));
        pairs.fold(0.0_f64, |most, (a, b)| most.max((a - b).norm())) / size
    };
    loads.into_iter().zip(solved).map(difference).collect()
}

fn same(mesh: Mesh, axis: Vector3<f64>, mirrors: [bool; 3]) {
    let model = model(mesh, axis);
    let loads = loads(&model);
    let (solved, found) = free(&model, &loads);
    assert_eq!(found, mirrors);
    let off = off(&model, &solved, loads);
    assert!(off.iter().all(|&off| off < SAME), "{off:?}");
}

#[test]
fn a_ring_is_solved_by_an_eighth() {
    same(ring(0.012, 0.007, 0.008, 120), Vector3::z(), [true; 3]);
}

#[test]
fn layers_that_lean_leave_one_plane() {
    same(ring(0.012, 0.007, 0.008, 120), Vector3::new(0.0, 0.3, 1.0), [true, false, false]);
}

#[test]
fn a_hole_beside_the_middle_leaves_two_planes() {
    let hole = circle(0.006, 120).into_iter().map(|[x, y]| [x + 0.002, y]).collect::<Vec<_>>();
    same(between(&circle(0.012, 120), &hole, 0.008), Vector3::z(), [false, true, true]);
}

#[test]
fn a_hole_off_both_axes_leaves_the_plane_of_the_layers() {
    let hole = circle(0.006, 120).into_iter().map(|[x, y]| [x + 0.002, y + 0.0004]).collect::<Vec<_>>();
    same(between(&circle(0.012, 120), &hole, 0.008), Vector3::z(), [false, false, true]);
}

#[test]
fn its_own_inertia_balances_a_load() {
    // Newton's second law: a push of 1 N on so much mass.
    let model = model(ring(0.012, 0.007, 0.008, 120), Vector3::z());
    let load = push(&model, |along| 1e6 * along.x.max(0.0));
    let force = load.resultant(&model);
    let mass = DENSITY * model.mesh().mass_properties().volume;
    let (solved, _) = free(&model, &[load]);
    approx::assert_relative_eq!(solved[0].1.x, force.x / mass, max_relative = 1e-9);
}
