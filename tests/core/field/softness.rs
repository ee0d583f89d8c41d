//! Material that warmth softens from one side.

use layload_core::field::{
    Accuracy, FieldModel, Gauges, Grid, HeldModel, InertiaRelief, Load, Softness, Stiffness, SurfaceForce,
};
use nalgebra::{Point3, Vector3, Vector6};

use super::shapes::{block, facets};

/// Stiffness over x of a block of 8 mm: falls to a fifth, the kinks on faces of cells.
fn share(x: f64) -> f64 {
    1.0 - 0.8 * ((x - 2e-3) / 6e-3).clamp(0.0, 1.0)
}

#[test]
fn even_stretch_stresses_by_stiffness() {
    // Layers side by side under one stretch carry by their stiffness (Voigt), and all of them contract and shear alike: an
    // even strain meets every condition. Cells are even within themselves, which the ends feel and the middle does not.
    for (modulus, axis) in [([2.5e9, 2.5e9], Vector3::z()), ([3e9, 1.4e9], Vector3::new(0.6, 0.0, 0.8))] {
        let mesh = block([8e-3, 6e-3, 24e-3]);
        let ends = facets(&mesh, |_, n| n.z.abs() > 0.9);
        let grid = Grid::with_edge(&mesh, 1e-3).unwrap();
        let stiffness = Stiffness::transverse(modulus, 0.9e9, [0.35, 0.35], &axis).unwrap();
        let model = FieldModel::solid(mesh, grid, stiffness).unwrap();
        let model = model.softened(Softness::new([(2e-3, 1.0), (8e-3, 0.2)]));
        let pull = 2e6;
        let load = Load::none(&model).traction(&model, &ends, |p, n| n * (pull * share(p.x))).unwrap();
        let held = HeldModel::new(&model, &[]).unwrap();
        let load = InertiaRelief::new(&model, 1000.0).unwrap().balanced(&model, load);
        let accuracy = Accuracy { residual: 1e-9, iterations: 100 };
        let solution = held.solve(&load, &accuracy, None).unwrap();
        let strains = held.strains(&solution, &load);
        let sides = [(Vector3::y(), 6e-3), (-Vector3::y(), 0.0)];
        let gauges: Vec<(Point3<f64>, Vector3<f64>)> = [0.7e-3, 2.6e-3, 4.2e-3, 6.4e-3, 7.7e-3]
            .iter()
            .flat_map(|&x| sides.map(|(normal, y)| (Point3::new(x, y, 12e-3), normal)))
            .collect();
        let at_once = Gauges::new(&model, &gauges).stresses(&solution, &load, |_| Vector3::zeros());
        for ((at, normal), again) in gauges.iter().zip(at_once) {
            let stress = strains.stress_at(at, normal, SurfaceForce::Known(Vector3::zeros())).unwrap();
            assert!((stress - again.unwrap()).amax() < 1e-6 * pull, "factors of gauges are of single precision");
            let wanted = Vector6::new(0.0, 0.0, pull * share(at.x), 0.0, 0.0, 0.0);
            // Half a cell of change, twice: by its cell and by the ends.
            assert!((stress - wanted).amax() < 0.02 * pull, "{axis:?} {at}: {stress} for {wanted}");
        }
    }
}
