//! Stress by uneven warmth in the crown of a cup, beside a general finite-element library.

use std::f64::consts::TAU;

use layload_core::field::{
    Accuracy, FieldModel, Grid, HeldModel, InertiaRelief, Load, Softness, Stiffness, SurfaceForce,
};
use layload_core::mesh::Mesh;
use nalgebra::{Point3, Vector3};
use serde_json::Value;

use crate::mesh::files::bytes;
use crate::mesh::shapes::Solid;

/// Sides of the cup: chords miss its radius by a thousandth.
const SIDES: u32 = 72;

/// Young's modulus, Pa, and expansion, 1/K; only their product counts.
const MODULUS: f64 = 3e9;
const EXPANSION: f64 = 5e-5;

/// A cup round x: a closed outline of heights and radii turned round, its first and last corner on the axis.
fn cup(outline: &[[f64; 2]]) -> Mesh {
    let rings = outline.len() as u32 - 2;
    let around = |[x, r]: [f64; 2]| {
        let turn = |k: u32| TAU * f64::from(k) / f64::from(SIDES);
        (0..SIDES).map(move |k| Point3::new(x, r * libm::cos(turn(k)), r * libm::sin(turn(k))))
    };
    let mut points = vec![Point3::new(outline[0][0], 0.0, 0.0)];
    points.extend(outline[1..outline.len() - 1].iter().copied().flat_map(around));
    points.push(Point3::new(outline[outline.len() - 1][0], 0.0, 0.0));
    let at = |ring: u32, k: u32| 1 + ring * SIDES + k % SIDES;
    let last = points.len() as u32 - 1;
    let mut facets = Vec::new();
    for k in 0..SIDES {
        facets.push([0, at(0, k + 1), at(0, k)]);
        for ring in 0..rings - 1 {
            facets.push([at(ring, k), at(ring, k + 1), at(ring + 1, k + 1)]);
            facets.push([at(ring, k), at(ring + 1, k + 1), at(ring + 1, k)]);
        }
        facets.push([last, at(rings - 1, k), at(rings - 1, k + 1)]);
    }
    Solid { points, facets }.mesh().unwrap()
}

/// Of each crown of the library's file the stress of the field over that of the library, by place.
pub(crate) fn shares() -> Vec<(String, f64, f64)> {
    let found: Value = serde_json::from_slice(&bytes("tests/reference/crown/crown_warmth.json").unwrap()).unwrap();
    let number = |value: &Value| value.as_f64().unwrap();
    let mm = |key: &str| number(&found[key]) * 1e-3;
    let mut rows = Vec::new();
    for crown in found["crowns"].as_array().unwrap() {
        let (thickness, softest) = (number(&crown["thickness_mm"]) * 1e-3, number(&crown["softest"]));
        let (inner, outer, foot) = (mm("inner_mm"), mm("outer_mm"), mm("foot_mm"));
        let outline = [[0.0, 0.0], [0.0, inner], [foot, inner], [foot, outer], [thickness, outer], [thickness, 0.0]];
        let mesh = cup(&outline);
        let grid = Grid::round(&mesh, 60_000).unwrap();
        let stiffness = Stiffness::isotropic(MODULUS, number(&found["poisson_ratio"]))
            .unwrap()
            .with_expansion(EXPANSION, EXPANSION, &Vector3::x())
            .unwrap();
        let model = FieldModel::solid(mesh, grid, stiffness).unwrap();
        let model = model.softened(Softness::new([(0.0, 1.0), (thickness, softest)]));
        let load = Load::none(&model).warmth(&model, |at| (at.x / thickness).clamp(0.0, 1.0));
        let load = InertiaRelief::new(&model, 1000.0).unwrap().balanced(&model, load);
        let held = HeldModel::new(&model, &[]).unwrap();
        let solution = held.solve(&load, &Accuracy { residual: 1e-7, iterations: 200 }, None).unwrap();
        let strains = held.strains(&solution, &load);
        for (side, x) in [("underside", 0.0), ("top", thickness)] {
            for (radius, wanted) in found["radii_mm"].as_array().unwrap().iter().zip(crown[side].as_array().unwrap()) {
                let at = Point3::new(x, number(radius) * 1e-3, 0.0);
                let normal = if x > 0.0 { Vector3::x() } else { -Vector3::x() };
                let stress = strains.stress_at(&at, &normal, SurfaceForce::Known(Vector3::zeros())).unwrap();
                let place = format!("{side} of {:.0} mm at {radius} mm, softest {softest}", thickness * 1e3);
                rows.push((place, number(wanted), stress.y / (MODULUS * EXPANSION)));
            }
        }
    }
    rows
}

#[test]
fn a_crown_warm_on_top_is_stressed_as_the_library_finds() {
    for (place, wanted, found) in shares() {
        println!("{place}: {wanted:.4} and {found:.4}");
        // Three to five cells through the crown, each of one stiffness and one temperature, and chords for circles.
        assert!((found / wanted - 1.0).abs() < 0.05, "{place}: {wanted} and {found}");
    }
}
