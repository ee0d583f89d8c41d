//! What is refused, and how it is said.

use layload_core::field::{Accuracy, FieldError, FieldModel, Grid, HeldModel, Load, Stiffness};
use nalgebra::Vector3;

use super::shapes::{block, facets};

#[test]
fn numbers_of_cells() {
    let mesh = block([0.01; 3]);
    for wanted in [0, 49, 1_000_000_000] {
        assert!(matches!(Grid::round(&mesh, wanted), Err(FieldError::CellCount { .. })));
    }
    assert!(matches!(Grid::with_edge(&mesh, 1e-9), Err(FieldError::TooSparse { .. })));
    for edge in [0.0, -1.0, f64::NAN] {
        assert!(matches!(Grid::with_edge(&mesh, edge), Err(FieldError::OutOfRange { .. })));
    }
}

#[test]
fn impossible_materials() {
    assert!(Stiffness::isotropic(2e9, 0.5).is_err());
    assert!(Stiffness::isotropic(-2e9, 0.3).is_err());
    assert!(Stiffness::isotropic(f64::NAN, 0.3).is_err());
    assert!(Stiffness::transverse([2e9, 2e9], 1e9, [0.3; 2], &Vector3::zeros()).is_err());
}

#[test]
fn loads_out_of_balance_and_too_few_iterations() {
    let mesh = block([0.01, 0.02, 0.01]);
    let (end, both) = (facets(&mesh, |_, n| n.y > 0.9), facets(&mesh, |_, n| n.y.abs() > 0.9));
    let grid = Grid::with_edge(&mesh, 0.0005).unwrap();
    let model = FieldModel::solid(mesh, grid, Stiffness::isotropic(2e9, 0.3).unwrap()).unwrap();
    let held = HeldModel::new(&model, &[]).unwrap();
    let one = Load::none(&model).pressure(&model, &end, 1e6).unwrap();
    let error = held.solve(&one, &Accuracy::default(), None).unwrap_err();
    assert!(matches!(error, FieldError::OutOfBalance { .. }), "{error}");
    let two = Load::none(&model).pressure(&model, &both, 1e6).unwrap();
    let error = held.solve(&two, &Accuracy { residual: 1e-12, iterations: 1 }, None).unwrap_err();
    assert!(matches!(error, FieldError::NotConverged { iterations: 1, .. }), "{error}");
    assert!(matches!(Load::none(&model).pressure(&model, &[], 1.0), Err(FieldError::NoSurface { .. })));
}
