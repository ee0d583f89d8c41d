//! Bars and beams at angles to the grid.

use approx::assert_relative_eq;
use layload_core::field::{
    Accuracy, FieldModel, Grid, HeldModel, Hold, Load, Stiffness, Support, SurfaceForce, tensor,
};
use nalgebra::{Point3, Vector3};

use super::shapes::{block, facets, turned};

#[test]
fn off_axis_bar() {
    // Lekhnitskii: 1/E(angle) = s^4/E1 + c^4/E3 + s² c² (1/G - 2 nu/E1), angle between the bar and the build direction.
    let (level, upright, shear, ratio) = (5.2e9, 1.9e9, 0.8e9, 0.36);
    for degrees in [0.0_f64, 30.0, 55.0, 90.0] {
        let (s, c) = (libm::sin(degrees.to_radians()), libm::cos(degrees.to_radians()));
        let axis = Vector3::new(c, s, 0.0);
        let stiffness = Stiffness::transverse([level, upright], shear, [ratio; 2], &axis).unwrap();
        let compliance = (s * s) * (s * s) / level
            + (c * c) * (c * c) / upright
            + s * s * c * c * (1.0 / shear - 2.0 * ratio / level);
        let (mesh, rotation) = turned(block([0.04, 0.006, 0.006]), Vector3::z(), 0.0);
        let ends = facets(&mesh, |_, n| n.x.abs() > 0.9);
        let grid = Grid::with_edge(&mesh, 0.0015).unwrap();
        let model = FieldModel::solid(mesh, grid, stiffness).unwrap();
        let pull = rotation * Vector3::x();
        let load = Load::none(&model).traction(&model, &ends, |_, n| pull * (2e6 * n.x.signum())).unwrap();
        let held = HeldModel::new(&model, &[]).unwrap();
        let solution = held.solve(&load, &Accuracy { residual: 1e-9, iterations: 80 }, None).unwrap();
        let at = |x: f64| solution.displacement(&model, &Point3::new(x, 0.003, 0.003)).unwrap().x;
        let strain = (at(0.03) - at(0.01)) / 0.02;
        // Free to shear, the bar strains evenly, which the cells hold exactly; 1e-6 is the solver's share.
        assert_relative_eq!(strain, 2e6 * compliance, max_relative = 1e-6);
    }
}

#[test]
fn cantilever_along_and_across_the_grid() {
    // Beam theory: M c / I at mid-length, where neither end is felt; held to 2 %, six cells in the depth.
    let (length, depth, width, force) = (0.06, 0.006, 0.005, 20.0);
    for angle in [0.0, 0.2] {
        let (mesh, rotation) = turned(block([length, depth, width]), Vector3::z(), angle);
        let along = rotation * Vector3::x();
        let down = rotation * Vector3::y();
        let end = |mesh: &_, side: f64| facets(mesh, |_, n| n.dot(&along) * side > 0.9);
        let (root, tip) = (end(&mesh, -1.0), end(&mesh, 1.0));
        let grid = Grid::with_edge(&mesh, depth / 6.0).unwrap();
        let model = FieldModel::solid(mesh, grid, Stiffness::isotropic(2e9, 0.35).unwrap()).unwrap();
        let load = Load::none(&model).traction(&model, &tip, |_, _| down * (force / (depth * width))).unwrap();
        let support = Support { facets: root, hold: Hold::Clamped, bedding: None };
        let held = HeldModel::new(&model, &[support]).unwrap();
        let solution = held.solve(&load, &Accuracy::default(), None).unwrap();
        let strains = held.strains(&solution, &load);
        for x in [0.028, 0.0293, 0.0311] {
            let point = Point3::from(rotation * Vector3::new(x, 0.0, width / 2.0));
            let stress = strains.stress_at(&point, &-down, SurfaceForce::Known(Vector3::zeros())).unwrap();
            let found = along.dot(&(tensor(&stress) * along));
            let expected = force * (length - x) * 6.0 / (width * depth * depth);
            assert_relative_eq!(found, expected, max_relative = 0.02);
        }
    }
}

#[test]
fn free_expansion_makes_no_stress() {
    let mesh = block([0.01, 0.008, 0.012]);
    let stiffness = Stiffness::transverse([5e9, 2e9], 0.9e9, [0.38, 0.3], &Vector3::new(0.4, -0.3, 0.8))
        .unwrap()
        .with_expansion(2e-5, 9e-5, &Vector3::new(0.4, -0.3, 0.8))
        .unwrap();
    let grid = Grid::with_edge(&mesh, 0.0021).unwrap();
    let model = FieldModel::solid(mesh, grid, stiffness).unwrap();
    let load = Load::none(&model).warmth(&model, |_| 60.0);
    let held = HeldModel::new(&model, &[]).unwrap();
    let solution = held.solve(&load, &Accuracy { residual: 1e-10, iterations: 60 }, None).unwrap();
    let stress = held.strains(&solution, &load).in_cell([1, 1, 2]).unwrap();
    // A held-in strain of 60 K would make some 10 MPa.
    assert!(stress.amax() < 10.0, "{stress}");
}
