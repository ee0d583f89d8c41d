//! A pin that only pushes.

use layload_core::field::{Accuracy, ContactPoint, FieldModel, Grid, HeldModel, Hold, Load, Stiffness, Support};
use nalgebra::{Point3, Vector3};

use super::shapes::{facets, holed_plate};

/// A lug pulled off a rigid pin by an even pull on one end.
fn pulled(clearance: f64) -> (Vec<ContactPoint>, f64) {
    let r = 5e-3;
    let mesh = holed_plate(20e-3, 12e-3, r, 2e-3);
    let end = facets(&mesh, |_, n| n.x > 0.999);
    let bore = facets(&mesh, |p, n| n.z.abs() < 0.5 && p.coords.xy().norm() < 1.1 * r);
    let grid = Grid::with_edge(&mesh, 1e-3).unwrap();
    let model = FieldModel::solid(mesh, grid, Stiffness::isotropic(2e9, 0.35).unwrap()).unwrap();
    let hold = Hold::Pin { point: Point3::origin(), axis: Vector3::z(), clearance };
    let held = HeldModel::new(&model, &[Support { facets: bore, hold, bedding: None }]).unwrap();
    let load = Load::none(&model).traction(&model, &end, |_, _| Vector3::x() * 2e6).unwrap();
    let force = load.resultant(&model).x;
    let solution = held.solve(&load, &Accuracy::default(), None).unwrap();
    (solution.contact, force)
}

fn half_angle(contact: &[ContactPoint]) -> f64 {
    contact
        .iter()
        .filter(|point| point.pressure > 0.0)
        .map(|point| libm::acos((-point.direction.x).clamp(-1.0, 1.0)).to_degrees())
        .fold(0.0, f64::max)
}

#[test]
fn clearance_narrows_the_contact_and_force_is_in_balance() {
    let mut last = 180.0;
    for clearance in [0.0, 20e-6, 200e-6] {
        let (contact, force) = pulled(clearance);
        let pushed: Vector3<f64> = contact.iter().map(|p| p.direction * (p.pressure * p.area)).sum();
        // The pin pushes back all of the load, to the solver's residual over few points.
        assert!((pushed.x + force).abs() < 1e-3 * force, "{pushed} against {force}");
        let angle = half_angle(&contact);
        assert!(angle < last && contact.iter().all(|p| p.pressure >= 0.0), "{angle} after {last}");
        last = angle;
    }
}
