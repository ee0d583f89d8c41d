//! Two sample rods pulled at both bores, against a general finite-element program whose numbers lie beside its script.

use std::sync::OnceLock;

use layload_core::LengthUnit;
use layload_core::field::{Accuracy, HeldModel, Stiffness};
use layload_core::mesh::Mesh;
use nalgebra::Vector3;
use serde_json::Value;

use super::pulled::{Bores, PulledRod};
use crate::mesh::files::{bytes, number};

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

fn compared(name: &str, bores: Bores, cells: usize, build: Vector3<f64>, reference: &Value) -> Pulled {
    let found = self::reference();
    let material = &found["material"];
    let mega = |key: &str| number(&material[key]) * 1e6;
    let ratio = number(&material["poisson_ratio"]);
    let stiffness =
        Stiffness::transverse([mega("level_mpa"), mega("upright_mpa")], mega("shear_mpa"), [ratio; 2], &build);
    let (mesh, _) = Mesh::from_stl(&bytes(&format!("samples/{name}.stl")).unwrap(), LengthUnit::Millimetre).unwrap();
    let rod = PulledRod::new(mesh, cells, &stiffness.unwrap(), bores, number(&found["force_n"]));
    let load = rod.load();
    let held = HeldModel::new(&rod.model, &[]).unwrap();
    let solution = held.solve(&load, &Accuracy::default(), None).unwrap();
    let greatest = rod.greatest(&solution, &load);
    let [small, big] = rod.bores.each_ref().map(|bore| {
        let [coarse, fine] = rod.peak(bore, &solution, &greatest).map(|peak| peak / 1e6);
        println!("peak {coarse:.2} MPa, with finer cells {fine:.2} MPa");
        fine
    });
    let [from, to] = rod.bores.each_ref().map(|bore| bore.center);
    let length = (to - from).norm();
    let halfway: Vec<f64> = rod
        .points
        .iter()
        .zip(&greatest)
        .filter(|((p, n), _)| {
            let at = rod.bores[1].toward.dot(&Vector3::new(p.x - from.x, p.y - from.y, 0.0));
            (at - length / 2.0).abs() < 1e-3 && n.z.abs() > 0.9
        })
        .map(|(_, stress)| *stress)
        .collect();
    let mean = halfway.iter().sum::<f64>() / halfway.len() as f64;
    let result = [
        (number(&reference["small_bore"]["mpa"]), small),
        (number(&reference["big_bore"]["mpa"]), big),
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
