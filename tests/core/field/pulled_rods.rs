//! Two sample rods pulled at both bores, against a general finite-element program whose numbers lie beside its script.

use std::sync::OnceLock;

use layload_core::field::{
    Accuracy, FieldModel, Gauges, Grid, HeldModel, InertiaRelief, Load, Stiffness, SurfaceForce, Zoom, tensor,
};
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

/// Centres and radii of the bores, mm.
type Bores = [([f64; 2], f64); 2];

const PLAIN: Bores = [([20.0, 15.0], 6.5), ([20.0, 105.0], 12.0)];
const POCKETS: Bores = [([-12.0, 8.0], 6.5), ([65.9423, 53.0], 12.0)];

/// Stresses, MPa, each with the reference's: peaks at small bore and big bore, and the mean round the shank half way.
pub(crate) type Pulled = [(f64, f64); 3];

fn reference() -> Value {
    serde_json::from_slice(&bytes("tests/reference/calculix/pulled_rods.json").unwrap()).unwrap()
}

/// Solved once for the tests and the book of evidence.
pub(crate) fn plain() -> Pulled {
    static FOUND: OnceLock<Pulled> = OnceLock::new();
    *FOUND.get_or_init(|| compared("plain_rod", PLAIN, 60_000, Vector3::z(), &reference()["rods"]["plain_rod"]))
}

pub(crate) fn with_pockets() -> Pulled {
    static FOUND: OnceLock<Pulled> = OnceLock::new();
    *FOUND.get_or_init(|| compared("i_shank_rod", POCKETS, 60_000, Vector3::z(), &reference()["rods"]["i_shank_rod"]))
}

/// The plain rod with its layers stacked along each of five directions.
pub(crate) fn directions() -> &'static [(String, Pulled)] {
    static FOUND: OnceLock<Vec<(String, Pulled)>> = OnceLock::new();
    FOUND.get_or_init(|| {
        let found = reference();
        let of = |(name, wanted): (&String, &Value)| {
            let build = Vector3::from_fn(|axis, _| number(&wanted["build"][axis]));
            (name.clone(), compared("plain_rod", PLAIN, 60_000, build, wanted))
        };
        found["directions"].as_object().unwrap().iter().map(of).collect()
    })
}

/// Points about `apart` from each other on what of the surface is wanted, with their normals: facets of the samples are
/// long strips.
fn spread(model: &FieldModel, apart: f64, wanted: impl Fn(&Point3<f64>) -> bool) -> Vec<(Point3<f64>, Vector3<f64>)> {
    let mut points = Vec::new();
    for facet in 0..model.mesh().facets().len() {
        let normal = model.mesh().area_vector(facet).normalize();
        let [a, b, c] = model.mesh().corners(facet);
        let longest = (a - b).norm().max((b - c).norm()).max((c - a).norm());
        let parts = (longest / apart).ceil().max(1.0) as usize;
        for i in 0..parts {
            for j in 0..parts - i {
                let (u, v) = ((i as f64 + 1.0 / 3.0) / parts as f64, (j as f64 + 1.0 / 3.0) / parts as f64);
                points.push((a + (b - a) * u + (c - a) * v, normal));
            }
        }
    }
    points.retain(|(point, _)| wanted(point));
    points
}

fn compared(name: &str, bores: Bores, cells: usize, build: Vector3<f64>, reference: &Value) -> Pulled {
    let found = self::reference();
    let material = &found["material"];
    let mega = |key: &str| number(&material[key]) * 1e6;
    let ratio = number(&material["poisson_ratio"]);
    let stiffness =
        Stiffness::transverse([mega("level_mpa"), mega("upright_mpa")], mega("shear_mpa"), [ratio; 2], &build);
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
    let points = spread(&model, edge, |_| true);
    let peaks = [(&small, -along), (&big, along)].map(|(bore, toward)| {
        let reach = model.integral(&bore.facets, |p| bore.push(p, &toward).dot(&toward));
        force / reach
    });
    let traction = |point: &Point3<f64>, normal: &Vector3<f64>| {
        if small.touches(point, normal) {
            small.push(point, &-along) * peaks[0]
        } else if big.touches(point, normal) {
            big.push(point, &along) * peaks[1]
        } else {
            Vector3::zeros()
        }
    };
    let stresses = Gauges::new(&model, &points).stresses(&solution, &load, |n| traction(&points[n].0, &points[n].1));
    let greatest: Vec<f64> = stresses
        .iter()
        .map(|stress| stress.map_or(f64::NAN, |stress| tensor(&stress).symmetric_eigenvalues().max()))
        .collect();
    // The worst place once more with finer cells, as a check looks at it.
    let peak = |bore: &Bore| {
        let on = points.iter().zip(&greatest).filter(|((p, n), _)| bore.touches(p, n));
        let (worst, coarse) = on.max_by(|a, b| a.1.total_cmp(b.1)).unwrap();
        let zoom = Zoom::new(&model, &worst.0, 4.5, 3).unwrap();
        let load = Load::none(&zoom.model).traction(&zoom.model, &bore.facets, traction).unwrap();
        let held = zoom.held(solution.displacements());
        let closer = held.solve(&load, &Accuracy { residual: 1e-7, ..Accuracy::default() }, None).unwrap();
        let strains = held.strains(&closer, &load);
        let near = spread(&zoom.model, edge / 3.0, |p| zoom.within(p, 1.5));
        let stress = |(p, n): &(Point3<f64>, Vector3<f64>)| {
            let stress = strains.stress_at(p, n, SurfaceForce::Known(traction(p, n)))?;
            Some(tensor(&stress).symmetric_eigenvalues().max())
        };
        let on = near.iter().filter(|(p, n)| bore.touches(p, n));
        let peak = on.filter_map(stress).fold(0.0, f64::max);
        println!("peak {:.2} MPa, with finer cells {:.2} MPa", coarse / 1e6, peak / 1e6);
        peak / 1e6
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
    let result = [
        (number(&reference["small_bore"]["mpa"]), peak(&small)),
        (number(&reference["big_bore"]["mpa"]), peak(&big)),
        (number(&reference["shank_mean_mpa"]), mean / 1e6),
    ];
    let off = result.map(|(expected, found)| (found / expected - 1.0) * 100.0);
    println!(
        "{name}, layers along {:?}, {cells} cells: small bore, big bore, shank off by {off:.1?} %",
        build.data.0[0]
    );
    result
}

fn holds([small, big, shank]: Pulled) {
    // As asked for: eyes within 5 %, shank within 2 %. The reference itself is converged to 0.5 %.
    for ((expected, found), allowed) in [(small, 0.05), (big, 0.05), (shank, 0.02)] {
        assert!((found / expected - 1.0).abs() < allowed, "{found} for {expected}");
    }
}

#[test]
fn plain_rod() {
    holds(plain());
}

#[test]
fn rod_with_pockets() {
    holds(with_pockets());
}

#[test]
fn five_build_directions() {
    for (_, pulled) in directions() {
        holds(*pulled);
    }
}
