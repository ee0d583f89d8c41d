//! Two sample rods pulled at both bores, against a general finite-element program whose numbers lie beside its script.

use layload_core::field::{Accuracy, FieldModel, Gauges, Grid, HeldModel, InertiaRelief, Load, Stiffness, tensor};
use layload_core::mesh::{LengthUnit, Mesh};
use nalgebra::{Point3, Vector3};
use serde_json::Value;

use super::shapes::facets;
use crate::mesh::files::{bytes, number};

struct Bore {
    center: Point3<f64>,
    radius: f64,
    facets: Vec<usize>,
}

impl Bore {
    fn new(mesh: &Mesh, center: [f64; 2], radius: f64) -> Self {
        let center = Point3::new(center[0], center[1], 0.0);
        let facets = facets(mesh, |p, n| {
            let arm = Vector3::new(p.x - center.x, p.y - center.y, 0.0);
            (arm.norm() - radius).abs() < 0.02 * radius && n.dot(&arm) < -0.8 * radius
        });
        Self { center, radius, facets }
    }

    fn away(&self, point: &Point3<f64>) -> f64 {
        Vector3::new(point.x - self.center.x, point.y - self.center.y, 0.0).norm()
    }

    fn touches(&self, point: &Point3<f64>, normal: &Vector3<f64>) -> bool {
        (self.away(point) - self.radius).abs() < 0.02 * self.radius && normal.z.abs() < 0.5
    }

    /// The traction of a cosine push with a peak of one.
    fn push(&self, point: &Point3<f64>, toward: &Vector3<f64>) -> Vector3<f64> {
        let radial = Vector3::new(point.x - self.center.x, point.y - self.center.y, 0.0).normalize();
        radial * radial.dot(toward).max(0.0)
    }
}

/// Peaks at small bore and big bore, and the mean round the shank half way, over those of the reference.
fn compared(name: &str, bores: [([f64; 2], f64); 2], cells: usize) -> [f64; 3] {
    let found: Value = serde_json::from_slice(&bytes("tests/reference/calculix/pulled_rods.json").unwrap()).unwrap();
    let material = &found["material"];
    let mega = |key: &str| number(&material[key]) * 1e6;
    let ratio = number(&material["poisson_ratio"]);
    let stiffness =
        Stiffness::transverse([mega("level_mpa"), mega("upright_mpa")], mega("shear_mpa"), [ratio; 2], &Vector3::z());
    let (mesh, _) = Mesh::from_stl(&bytes(&format!("samples/{name}.stl")).unwrap(), LengthUnit::Millimetre).unwrap();
    let grid = Grid::round(&mesh, cells).unwrap();
    let edge = libm::cbrt(grid.cell_volume());
    let model = FieldModel::solid(mesh, grid, stiffness.unwrap()).unwrap();
    let [small, big] = bores.map(|(center, radius)| Bore::new(model.mesh(), center.map(|c| c * 1e-3), radius * 1e-3));
    let along = (big.center - small.center).normalize();
    let force = number(&found["force_n"]);
    let mut load = Load::none(&model);
    for (bore, toward) in [(&small, -along), (&big, along)] {
        load = load.cosine_push(&model, &bore.facets, &bore.center, &Vector3::z(), &(toward * force)).unwrap();
    }
    // Two facet meshes of the bores may differ in the last digits; the rest is taken by a hair of acceleration.
    let load = InertiaRelief::new(&model, 1100.0).unwrap().balanced(&model, load);
    let held = HeldModel::new(&model, &[]).unwrap();
    let solution = held.solve(&load, &Accuracy::default(), None).unwrap();
    // Facets of the samples are long strips: points lie a cell apart on them.
    let mut points = Vec::new();
    for facet in 0..model.mesh().facets().len() {
        let normal = model.mesh().area_vector(facet).normalize();
        let [a, b, c] = model.mesh().corners(facet);
        let longest = (a - b).norm().max((b - c).norm()).max((c - a).norm());
        let parts = (longest / edge).ceil().max(1.0) as usize;
        for i in 0..parts {
            for j in 0..parts - i {
                let (u, v) = ((i as f64 + 1.0 / 3.0) / parts as f64, (j as f64 + 1.0 / 3.0) / parts as f64);
                points.push((a + (b - a) * u + (c - a) * v, normal));
            }
        }
    }
    let peaks = [(&small, -along), (&big, along)].map(|(bore, toward)| {
        let reach = model.integral(&bore.facets, |p| bore.push(p, &toward).dot(&toward));
        force / reach
    });
    let traction = |n: usize| {
        let (point, normal) = &points[n];
        if small.touches(point, normal) {
            small.push(point, &-along) * peaks[0]
        } else if big.touches(point, normal) {
            big.push(point, &along) * peaks[1]
        } else {
            Vector3::zeros()
        }
    };
    let stresses = Gauges::new(&model, &points).stresses(&solution, &load, traction);
    let greatest: Vec<f64> = stresses
        .iter()
        .map(|stress| stress.map_or(f64::NAN, |stress| tensor(&stress).symmetric_eigenvalues().max()))
        .collect();
    let reference = &found["rods"][name];
    let over = |bore: &Bore, key: &str| {
        let on = points.iter().zip(&greatest).filter(|((p, n), _)| bore.touches(p, n));
        on.map(|(_, stress)| *stress).fold(0.0, f64::max) / (number(&reference[key]["mpa"]) * 1e6)
    };
    let length = (big.center - small.center).norm();
    let halfway: Vec<f64> = points
        .iter()
        .zip(&greatest)
        .filter(|((p, n), _)| {
            let at = along.dot(&Vector3::new(p.x - small.center.x, p.y - small.center.y, 0.0));
            (at - length / 2.0).abs() < 1e-3 && n.z.abs() > 0.9
        })
        .map(|(_, stress)| *stress)
        .collect();
    let mean = halfway.iter().sum::<f64>() / halfway.len() as f64;
    let result =
        [over(&small, "small_bore"), over(&big, "big_bore"), mean / (number(&reference["shank_mean_mpa"]) * 1e6)];
    println!("{name}, {cells} cells: small bore, big bore, shank over the reference {result:.4?}");
    result
}

#[test]
fn plain_rod() {
    // 5 % at the eyes and 2 % in the shank, as asked for: some twenty cells across the small bore. With the usual 60 000
    // cells its peak comes out 5.7 % low.
    let [small, big, shank] = compared("plain_rod", [([20.0, 15.0], 6.5), ([20.0, 105.0], 12.0)], 120_000);
    assert!((small - 1.0).abs() < 0.05 && (big - 1.0).abs() < 0.05, "{small} {big}");
    assert!((shank - 1.0).abs() < 0.02, "{shank}");
}

#[test]
fn rod_with_pockets() {
    let [small, big, shank] = compared("i_shank_rod", [([-12.0, 8.0], 6.5), ([65.9423, 53.0], 12.0)], 60_000);
    assert!((small - 1.0).abs() < 0.05 && (big - 1.0).abs() < 0.05, "{small} {big}");
    assert!((shank - 1.0).abs() < 0.02, "{shank}");
}
