//! Columns, plates and rings by their closed forms, and handbook factors by a finite-element library.

use core::f64::consts::PI;

use layload_core::stress::{
    BearingSize, Column, EyeFamily, HeldEdge, PressFit, RingMaterial, RoundPlate, Thrust, critical_load,
};
use serde_json::Value;

use super::Rows;
use super::row::{Measure, Row, Source, Word};
use crate::mesh::files::{bytes, number};

pub(super) fn rows() -> Rows {
    let mut rows = plates()?;
    rows.extend(columns());
    rows.extend(rings()?);
    rows.extend(bearing_sizes()?);
    rows.extend(eyes()?);
    rows.extend(crowns()?);
    Ok(rows)
}

const ROUNDING: &str = "one closed form in another order of factors";

fn plates() -> Rows {
    let roark = |id| Source { id, word: Word::ClosedForm, name: "Roark's Formulas, flat round plates" };
    // a/t = 10 and 1 MPa, so that the numbers can be worked out by hand.
    let (a, t, e, nu, p) = (0.1, 0.01, 200e9, 0.3, 1e6);
    let plate = RoundPlate::new(a, t, e, nu)?;
    let (clamped, supported) = (plate.clamped(p), plate.supported(p));
    // p a⁴ / (64 D) with D = E t³ / (12 (1 - nu²)).
    let deflection_mm = 1e3 * p * (a * a * a * a) * 12.0 * (1.0 - nu * nu) / (64.0 * e * t * t * t);
    Ok(vec![
        roark("C5").row(
            "edge stress of a clamped plate, a/t = 10, 1 MPa, MPa",
            75.0,
            clamped.edge_stress / 1e6,
            1e-9,
            ROUNDING,
        ),
        roark("C5").row("its deflection, 200 GPa, mm", deflection_mm, 1e3 * clamped.center_deflection, 1e-9, ROUNDING),
        roark("C6").row(
            "middle of a supported plate, nu 0.3, MPa",
            123.75,
            supported.center_stress / 1e6,
            1e-9,
            ROUNDING,
        ),
    ])
}

fn columns() -> Vec<Row> {
    let shigley = Source { id: "C7", word: Word::ClosedForm, name: "Euler and Johnson; Shigley, columns" };
    // A bar of 6 x 12 mm, 2 GPa, 40 MPa.
    let (stiffness, crush) = (2e9 * 0.012 * 0.006 * 0.006 * 0.006 / 12.0, 40e6 * 0.006 * 0.012);
    let load = |length, end_fixity| {
        critical_load(&Column { length, end_fixity, bending_stiffness: stiffness, crush_load: crush })
    };
    let euler = |length: f64| PI * PI * stiffness / (length * length);
    let johnson = |length: f64| crush * (1.0 - crush * length * length / (4.0 * PI * PI * stiffness));
    vec![
        shigley.worst(
            "slender, pinned, 0.2 to 0.5 m, worst, N",
            [0.2, 0.3, 0.5].map(|l| (euler(l), load(l, 1.0))),
            1e-9,
            ROUNDING,
        ),
        shigley.row("slender, ends held, 0.6 m, N", euler(0.3), load(0.6, 0.5), 1e-9, ROUNDING),
        shigley.worst(
            "stout, 1 to 30 mm, worst, N",
            [0.001, 0.01, 0.02, 0.03].map(|l| (johnson(l), load(l, 1.0))),
            1e-9,
            ROUNDING,
        ),
    ]
}

fn rings() -> Rows {
    let shigley = Source { id: "C8", word: Word::ClosedForm, name: "Lamé; Shigley, press and shrink fits" };
    // Shaft of 2 c in a hub of 2 b of one steel: p = E d (b² - c²) / (2 c b²) for a solid shaft, and
    // E d / (2 c³) (b² - c²)(c² - a²) / (b² - a²) for a hollow one, d radial.
    let steel = RingMaterial::steel();
    let (a, c, b, d) = (0.0127, 0.0254, 0.0508, 20e-6);
    let solid = PressFit::new(0.0, c, b, steel, steel)?.at(d);
    let hollow = PressFit::new(a, c, b, steel, steel)?.at(d);
    let pressure = steel.modulus * d * (b * b - c * c) / (2.0 * c * b * b);
    let hollow_pressure = steel.modulus * d / (2.0 * c * c * c) * (b * b - c * c) * (c * c - a * a) / (b * b - a * a);
    Ok(vec![
        shigley.row(
            "pressure of a shaft of 50.8 mm in a hub of twice that, 20 µm, MPa",
            pressure / 1e6,
            solid.pressure / 1e6,
            1e-9,
            ROUNDING,
        ),
        shigley.row("hoop stress of the hub, 5/3 of it, MPa", pressure / 0.6e6, solid.eye_hoop / 1e6, 1e-9, ROUNDING),
        shigley.row("hoop stress of the solid shaft, MPa", -pressure / 1e6, solid.insert_hoop / 1e6, 1e-9, ROUNDING),
        shigley.row("pressure of a hollow shaft, MPa", hollow_pressure / 1e6, hollow.pressure / 1e6, 1e-9, ROUNDING),
    ])
}

fn bearing_sizes() -> Rows {
    let iso = Source { id: "C10", word: Word::Memory, name: "ISO 15, boundary dimensions of radial bearings" };
    let mut rows = Vec::new();
    for (designation, sizes) in [
        ("6000", [10.0, 26.0, 8.0]),
        ("6003", [17.0, 35.0, 10.0]),
        ("6010", [50.0, 80.0, 16.0]),
        ("6202", [15.0, 35.0, 11.0]),
        ("6204", [20.0, 47.0, 14.0]),
        ("6208", [40.0, 80.0, 18.0]),
    ] {
        let found = BearingSize::of(designation).ok_or(designation)?;
        let got = [found.bore, found.outside, found.width].map(|size| 1e3 * size);
        let [bore, outside, width] = sizes;
        let what = format!("{designation}: {bore} x {outside} x {width} mm, worst of the three, mm");
        rows.push(iso.worst(what, sizes.into_iter().zip(got), 1e-12, "whole millimetres"));
    }
    Ok(rows)
}

/// The eye table against solves of the contact study between its nodes.
fn eyes() -> Rows {
    let study =
        Source { id: "C27", word: Word::GeneralLibrary, name: "scikit-fem (PyPI), tests/reference/eye_contact" };
    let table: Value = serde_json::from_slice(&bytes("tests/reference/eye_contact/eye_family.json")?)?;
    let mut pairs = Vec::new();
    for solve in table["check"]["off_grid"].as_array().ok_or("no solves")? {
        let thrust = if solve["direction"] == "pull" { Thrust::Pull } else { Thrust::Push };
        let looseness = 1.0 / number(&solve["load"]);
        let found = EyeFamily::embedded().factors(thrust, number(&solve["width_ratio"]), looseness).bore;
        if thrust == Thrust::Pull {
            pairs.push((number(&solve["peak"]), found.iter().copied().fold(0.0, f64::max)));
        }
    }
    let count = pairs.len();
    Ok(vec![study.worst(
        format!("peak factor of an eye under pull between the nodes of its table, which the same study made, worst of {count}"),
        pairs,
        0.04,
        "straight lines between the nodes of a table; the study itself is converged to 1 %",
    )])
}

/// Greatest stress of a crown on its wall over gas pressure: the library's, and that of the plate a check takes for it.
fn crown(found: &Value, crown: &Value) -> Result<(f64, f64), Box<dyn std::error::Error>> {
    // Only ratios count: stress in units of the pressure, lengths in mm.
    let (radius, nu) = (number(&found["free_radius_mm"]), number(&found["poisson_ratio"]));
    let (thickness, wall) = (number(&crown["thickness_mm"]), number(&crown["wall_mm"]));
    let stiffness = number(&crown["wall_stiffness"]);
    let share = HeldEdge { radius, thickness, wall, stiffness, poisson_ratio: nu }.share()?;
    let plate = RoundPlate::new(radius, thickness, 1.0, nu)?.held(1.0, share);
    Ok((number(&crown["middle_underside"]).max(number(&crown["edge_top"])), plate.greatest_stress()))
}

/// Of crowns: the one whose stress comes out lowest beside the library's, and the one whose stress comes out highest.
fn crowns() -> Rows {
    let script = Source { id: "C27", word: Word::GeneralLibrary, name: "scikit-fem (PyPI), tests/reference/crown" };
    let found: Value = serde_json::from_slice(&bytes("tests/reference/crown/crown_stress.json")?)?;
    let mut rows = Vec::new();
    for (key, what) in [
        ("held_out", "crowns on walls of many kinds that no constant was fitted to"),
        ("walls", "crowns to which the two constants of the corner were fitted"),
    ] {
        let list = found[key].as_array().ok_or("no crowns")?;
        let pairs = list.iter().map(|one| crown(&found, one)).collect::<Result<Vec<_>, _>>()?;
        let off = |pair: &(f64, f64)| pair.1 / pair.0;
        let lowest = pairs.iter().copied().min_by(|a, b| off(a).total_cmp(&off(b))).ok_or("no crowns")?;
        let highest = pairs.iter().copied().max_by(|a, b| off(a).total_cmp(&off(b))).ok_or("no crowns")?;
        let count = pairs.len();
        let low = "what the notes of a piston's report say; a thick crown on a soft wall";
        let what_low = format!("greatest stress over gas pressure of {count} {what}, the one furthest too low");
        rows.push(script.row(what_low, lowest.0, lowest.1, 0.06, low).by(Measure::Shortfall));
        let high = "what the notes of a piston's report say; thin crowns on stout walls, whose edge decides: a plate on paper \
                    has no room for the corner, and errs to the severe side";
        let what_high = format!("greatest stress over gas pressure of {count} {what}, the one furthest too high");
        rows.push(script.row(what_high, highest.0, highest.1, 0.24, high).by(Measure::Excess));
    }
    Ok(rows)
}
