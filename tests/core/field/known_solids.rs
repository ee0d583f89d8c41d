//! Stresses at curved surfaces against closed forms.

use layload_core::field::{
    Accuracy, FieldModel, ForceField, Grid, HeldModel, Hold, Load, Stiffness, Strains, Support, SurfaceForce, Zoom,
    tensor,
};
use nalgebra::{Point3, Vector3, Vector6};

use super::shapes::{disc, facets, holed_plate, ring, turned};

const FREE: SurfaceForce = SurfaceForce::Known(Vector3::new(0.0, 0.0, 0.0));

#[test]
fn thick_ring_under_pressure() {
    // Lame, ring of radii 1 : 2. Eight cells in the wall.
    let (a, b, p) = (6e-3, 12e-3, 10e6);
    let mesh = ring(b, a, 3e-3, 180);
    let round =
        |near: bool| move |p: Point3<f64>, n: Vector3<f64>| n.z.abs() < 0.5 && (p.coords.xy().norm() < 8e-3) == near;
    let (bore, rim) = (facets(&mesh, round(true)), facets(&mesh, round(false)));
    let grid = Grid::with_edge(&mesh, (b - a) / 8.0).unwrap();
    let model = FieldModel::solid(mesh, grid, Stiffness::isotropic(2e9, 0.35).unwrap()).unwrap();
    let load = Load::none(&model).pressure(&model, &bore, p).unwrap();
    let held = HeldModel::new(&model, &[]).unwrap();
    let solution = held.solve(&load, &Accuracy::default(), None).unwrap();
    let strains = held.strains(&solution, &load);
    let mean = |list: &[usize], pressure: f64| {
        let hoops = list.iter().map(|&f| {
            let (at, n) = (model.mesh().middle(f), model.mesh().area_vector(f).normalize());
            let stress = strains.stress_at(&at, &n, SurfaceForce::Known(-n * pressure)).unwrap();
            let along = Vector3::new(-at.y, at.x, 0.0).normalize();
            along.dot(&(tensor(&stress) * along))
        });
        hoops.sum::<f64>() / list.len() as f64
    };
    let inside = mean(&bore, p) / (p * (b * b + a * a) / (b * b - a * a));
    let outside = mean(&rim, 0.0) / (2.0 * p * a * a / (b * b - a * a));
    assert!((inside - 1.0).abs() < 0.02 && (outside - 1.0).abs() < 0.02, "{inside} {outside}");
}

/// Greatest stress at a hole of radius `r` in a plate of half width `half_y` pulled along x, over the mean of the net
/// section: by the grid itself, then with a window of finer cells at the worst place, with a window of that window, and so
/// on.
///
/// `turn` is the angle of the plate to the grid: turned, the hole's edge meets the grid at every angle.
pub(crate) fn hole_factors<const SEEN: usize>(
    r: f64,
    half_x: f64,
    half_y: f64,
    cells_across: f64,
    turn: f64,
) -> [f64; SEEN] {
    let (mesh, rotation) = turned(holed_plate(half_x, half_y, r, 1.25e-3), Vector3::z(), turn);
    let pull = rotation * Vector3::x();
    let ends = facets(&mesh, |_, n| n.dot(&pull).abs() > 0.999);
    let bore = facets(&mesh, |p, n| n.z.abs() < 0.5 && p.coords.xy().norm() < 1.1 * r);
    let grid = Grid::with_edge(&mesh, 2.0 * r / cells_across).unwrap();
    let model = FieldModel::solid(mesh, grid, Stiffness::isotropic(2e9, 0.3).unwrap()).unwrap();
    let load = Load::none(&model).traction(&model, &ends, |_, n| pull * (1e6 * n.dot(&pull).signum())).unwrap();
    let held = HeldModel::new(&model, &[]).unwrap();
    let solution = held.solve(&load, &Accuracy::default(), None).unwrap();
    let greatest = |stress: &Vector6<f64>| tensor(stress).symmetric_eigenvalues().max();
    let worst = |strains: &Strains<'_>, near: &[usize]| {
        let stresses = strains.stresses(near, |_| FREE);
        let found = near.iter().zip(&stresses).filter_map(|(&f, stress)| Some((f, greatest(stress.as_ref()?))));
        found.max_by(|a, b| a.1.total_cmp(&b.1)).unwrap()
    };
    let (mut at, peak) = worst(&held.strains(&solution, &load), &bore);
    let mut peaks = [peak; SEEN];
    let (mut finer, mut moved) = (None, solution.displacements().to_vec());
    for peak in peaks.iter_mut().skip(1) {
        let zoom = Zoom::new(finer.as_ref().unwrap_or(&model), &model.mesh().middle(at), 4.5, 3).unwrap();
        let nothing = Load::none(&zoom.model);
        let held = zoom.held(&moved, &[]).unwrap();
        let closer = held.solve(&nothing, &Accuracy { residual: 1e-7, ..Accuracy::default() }, None).unwrap();
        let near: Vec<usize> = bore.iter().copied().filter(|&f| zoom.within(&model.mesh().middle(f), 1.5)).collect();
        (at, *peak) = worst(&held.strains(&closer, &nothing), &near);
        moved = closer.displacements().to_vec();
        finer = Some(zoom.model);
    }
    peaks.map(|peak| peak / (1e6 / (1.0 - r / half_y)))
}

/// Stress at depths (m) below the edge of a hole over that far away, in a window of finer cells.
pub(crate) fn below_a_hole<const SEEN: usize>(
    r: f64,
    half: f64,
    cells_across: f64,
    depths: [f64; SEEN],
) -> [f64; SEEN] {
    let mesh = holed_plate(half, half, r, 1.25e-3);
    let ends = facets(&mesh, |_, n| n.x.abs() > 0.999);
    let grid = Grid::with_edge(&mesh, 2.0 * r / cells_across).unwrap();
    let model = FieldModel::solid(mesh, grid, Stiffness::isotropic(2e9, 0.3).unwrap()).unwrap();
    let load = Load::none(&model).traction(&model, &ends, |_, n| Vector3::x() * (1e6 * n.x.signum())).unwrap();
    let held = HeldModel::new(&model, &[]).unwrap();
    let solution = held.solve(&load, &Accuracy::default(), None).unwrap();
    let edge = Point3::new(0.0, r, model.mesh().bounds().0.z / 2.0 + model.mesh().bounds().1.z / 2.0);
    let zoom = Zoom::new(&model, &edge, 4.5, 3).unwrap();
    let nothing = Load::none(&zoom.model);
    let held = zoom.held(solution.displacements(), &[]).unwrap();
    let closer = held.solve(&nothing, &Accuracy { residual: 1e-7, ..Accuracy::default() }, None).unwrap();
    let strains = held.strains(&closer, &nothing);
    depths.map(|depth| {
        let at = edge + Vector3::y() * depth;
        strains.stress_at(&at, &-Vector3::y(), SurfaceForce::Unknown).unwrap()[0] / 1e6
    })
}

/// By the grid itself.
pub(crate) fn hole_factor(r: f64, half_x: f64, half_y: f64, cells_across: f64) -> f64 {
    let [factor] = hole_factors(r, half_x, half_y, cells_across, 0.3);
    factor
}

#[test]
fn finer_cells_at_the_worst_place_of_a_hole_along_the_grid() {
    // Heywood's fit at a third of the width (memory), 3 %: the grid alone misses it by 5 % at sixteen cells.
    let expected = 2.0 + 8.0 / 27.0;
    for turn in [0.0, 0.3] {
        let [coarse, fine] = hole_factors(5e-3, 32e-3, 15e-3, 16.0, turn);
        println!("turned {turn}: {coarse:.3}, with finer cells {fine:.3}, expected {expected:.3}");
        assert!((fine / expected - 1.0).abs() < 0.03, "{fine} for {expected}");
    }
}

#[test]
fn window_in_a_window_sees_a_hole_of_few_cells() {
    // Three cells in the radius: the grid is a third too low, a window some 5 %; Heywood's fit as above, 3 %.
    let expected = 2.0 + 8.0 / 27.0;
    for turn in [0.0, 0.3] {
        let [coarse, fine, finest] = hole_factors(5e-3, 32e-3, 15e-3, 6.0, turn);
        println!("turned {turn}: {coarse:.3}, {fine:.3}, {finest:.3}, expected {expected:.3}");
        assert!(
            (finest - expected).abs() < (fine - expected).abs() && (fine - expected).abs() < (coarse - expected).abs()
        );
        assert!((finest / expected - 1.0).abs() < 0.03, "{finest} for {expected}");
    }
}

/// Stress of thin-plate theory and of the field at three places of a round plate under even pressure, MPa.
pub(crate) struct PlateStresses {
    pub(crate) clamped: (f64, f64),
    pub(crate) near_clamp: (f64, f64),
    pub(crate) supported: (f64, f64),
}

/// A plate of eight times its thickness in radius, four cells in the thickness, clamped and supported.
pub(crate) fn plate_stresses() -> PlateStresses {
    let (a, t, p, nu) = (20e-3, 2.5e-3, 1e5, 0.35);
    let mesh = disc(a, t, 120);
    let top = facets(&mesh, |_, n| n.z > 0.5);
    let rim = facets(&mesh, |_, n| n.z.abs() < 0.5);
    let grid = Grid::with_edge(&mesh, t / 4.0).unwrap();
    let model = FieldModel::solid(mesh, grid, Stiffness::isotropic(3e9, nu).unwrap()).unwrap();
    let load = Load::none(&model).pressure(&model, &top, p).unwrap();
    let under = |hold, radii: &[f64]| -> Vec<f64> {
        let held = HeldModel::new(&model, &[Support { facets: rim.clone(), hold, bedding: None }]).unwrap();
        let solution = held.solve(&load, &Accuracy::default(), None).unwrap();
        let strains = held.strains(&solution, &load);
        let at = |r: &f64| strains.stress_at(&Point3::new(*r, 1e-4, 0.0), &-Vector3::z(), FREE).unwrap().x / 1e6;
        radii.iter().map(at).collect()
    };
    // At the clamp itself a solid has a corner whose stress has no bound, so that the plate's curve is followed to 0.9
    // of the radius; it leads to 3 p a²/(4 t²) from there.
    let r = 0.9 * a;
    let clamped = under(Hold::Clamped, &[1e-4, r]);
    let supported = under(Hold::Along(Vector3::z()), &[1e-4]);
    let edge = 3.0 * p * a * a / (4.0 * t * t) / 1e6;
    let near = 3.0 * p / (8.0 * t * t) * ((1.0 + nu) * a * a - (3.0 + nu) * r * r) / 1e6;
    PlateStresses {
        clamped: (edge * (1.0 + nu) / 2.0, clamped[0]),
        near_clamp: (near, clamped[1]),
        supported: (edge * (3.0 + nu) / 2.0, supported[0]),
    }
}

#[test]
fn turning_disc() {
    // Timoshenko & Goodier, Theory of Elasticity, rotating disc with a hole: hoop stress at the hole.
    let (a, b, density, nu, speed) = (6e-3, 20e-3, 1100.0, 0.35, 2000.0);
    let expected = (3.0 + nu) / 4.0 * density * speed * speed * (b * b + (1.0 - nu) / (3.0 + nu) * a * a);
    let mesh = ring(b, a, 1.5e-3, 180);
    let bore = facets(&mesh, |p, n| n.z.abs() < 0.5 && p.coords.xy().norm() < 8e-3);
    let grid = Grid::with_edge(&mesh, 0.75e-3).unwrap();
    let model = FieldModel::solid(mesh, grid, Stiffness::isotropic(2e9, nu).unwrap()).unwrap();
    let field = ForceField::centrifugal(&Point3::origin(), &Vector3::z(), speed);
    let load = Load::none(&model).body(&model, density, &field).unwrap();
    let held = HeldModel::new(&model, &[]).unwrap();
    let solution = held.solve(&load, &Accuracy::default(), None).unwrap();
    let stresses = held.strains(&solution, &load).stresses(&bore, |_| FREE);
    let mean =
        stresses.iter().flatten().map(|s| tensor(s).symmetric_eigenvalues().max()).sum::<f64>() / stresses.len() as f64;
    // Sixteen cells across the hole.
    assert!((mean / expected - 1.0).abs() < 0.02, "{mean} for {expected}");
}

#[test]
fn press_fit_of_a_rigid_ring() {
    // Lame with a given displacement of the bore: p = E u / (a ((b² + a²)/(b² - a²) + nu)), hoop stress as under p.
    let (a, b, e, nu, u) = (6e-3, 12e-3, 2e9, 0.35, 30e-6);
    let p = e * u / (a * ((b * b + a * a) / (b * b - a * a) + nu));
    let mesh = ring(b, a, 3e-3, 180);
    let bore = facets(&mesh, |p, n| n.z.abs() < 0.5 && p.coords.xy().norm() < 8e-3);
    let rim = facets(&mesh, |p, n| n.z.abs() < 0.5 && p.coords.xy().norm() > 8e-3);
    let grid = Grid::with_edge(&mesh, (b - a) / 8.0).unwrap();
    let model = FieldModel::solid(mesh, grid, Stiffness::isotropic(e, nu).unwrap()).unwrap();
    let hold = Hold::Radial { point: Point3::origin(), axis: Vector3::z(), outward: u };
    let held = HeldModel::new(&model, &[Support { facets: bore, hold, bedding: None }]).unwrap();
    let load = Load::none(&model);
    let solution = held.solve(&load, &Accuracy::default(), None).unwrap();
    let stresses = held.strains(&solution, &load).stresses(&rim, |_| FREE);
    let mean =
        stresses.iter().flatten().map(|s| tensor(s).symmetric_eigenvalues().max()).sum::<f64>() / stresses.len() as f64;
    let expected = 2.0 * p * a * a / (b * b - a * a);
    assert!((mean / expected - 1.0).abs() < 0.03, "{mean} for {expected}");
}
