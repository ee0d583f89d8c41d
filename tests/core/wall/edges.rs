//! Edges are no walls, whatever their angle; knife edges are told as such.

use approx::assert_relative_eq;
use layload_core::mesh::Mesh;
use layload_core::wall::{Shells, Surface, ThinRegion, WallLimits, WallMap, thin_regions};
use nalgebra::Point2;

use super::Tested;
use super::solids::{prism, tube};
use crate::copies::{divided, poses};
use crate::mesh::shapes::Solid;

/// Thickness of the solids, m.
const THICK: f64 = 5e-3;

/// Two beads of 0.45 mm, m.
const LIMIT: f64 = 0.9e-3;

fn measured(mesh: &Mesh) -> (Option<f64>, Vec<ThinRegion>) {
    let surface = Surface::new(mesh, Shells::Apart);
    let map = WallMap::of(&surface);
    let least = map.by_area().map(|(thickness, _)| thickness).reduce(f64::min);
    (least, thin_regions(&surface, &map, &WallLimits::given(LIMIT), &[]))
}

/// A bar 40 mm wide and 5 mm thick whose sides lean in by an angle from the lower face.
fn leaning_bar(angle_deg: f64) -> Result<Mesh, layload_core::mesh::MeshError> {
    let setback = THICK / libm::tan(angle_deg.to_radians());
    let outline = [[0.0, 0.0], [0.040, 0.0], [0.040 - setback, THICK], [setback, THICK]];
    prism(&outline.map(Point2::from), 0.060)
}

fn solid(mesh: &Mesh) -> Solid {
    Solid { points: mesh.points().to_vec(), facets: mesh.facets().to_vec() }
}

#[test]
fn edges_of_any_angle_are_no_walls() -> Tested {
    for angle_deg in [30.0, 45.0, 60.0, 64.0, 75.0, 90.0, 120.0, 135.0] {
        let bar = leaning_bar(angle_deg)?;
        let turned = solid(&bar).moved(&poses(7, 1, 0.1)[0]);
        for copy in [bar, turned.mesh()?, divided(&turned).mesh()?, divided(&divided(&turned)).mesh()?] {
            let (least, regions) = measured(&copy);
            assert!(regions.is_empty(), "{angle_deg}: {regions:?}");
            // Planes of exact coordinates: rounding only.
            assert_relative_eq!(least.ok_or("no wall")?, THICK, max_relative = 1e-9);
        }
    }
    Ok(())
}

/// Chamfers and fillets along the edges of a plate make no thin walls.
#[test]
fn blunted_edges_are_no_walls() -> Tested {
    for (size, steps) in [(0.5e-3, 1), (2e-3, 1), (0.4e-3, 8), (1e-3, 8), (2.4e-3, 24)] {
        let mut outline = Vec::new();
        for (corner, [x, y]) in [[0.040, THICK], [0.0, THICK], [0.0, 0.0], [0.040, 0.0]].into_iter().enumerate() {
            let [to_x, to_y] = [if x > 0.0 { x - size } else { size }, if y > 0.0 { y - size } else { size }];
            for step in 0..=steps {
                let angle = (corner as f64 + f64::from(step) / f64::from(steps)) * core::f64::consts::FRAC_PI_2;
                outline.push(Point2::new(to_x + size * libm::cos(angle), to_y + size * libm::sin(angle)));
            }
        }
        let (least, regions) = measured(&prism(&outline, 0.060)?);
        assert!(regions.is_empty(), "{size} {steps}: {regions:?}");
        // From the outermost place of a chamfer the sphere touches the face across, at 45 degrees and this far away; the
        // chords of the fillets, of eleven degrees, take a hundredth.
        let across = 2.0 * (THICK - size) / (1.0 + core::f64::consts::FRAC_1_SQRT_2);
        assert!(least.ok_or("no wall")? > 0.99 * across.min(THICK), "{size} {steps}: {least:?}");
    }
    Ok(())
}

/// A knife edge: thinner than the limit as far back as limit / (2 tan(angle / 2)).
#[test]
fn a_thin_wedge_is_a_sharp_edge() -> Tested {
    for angle_deg in [5.0, 10.0, 20.0] {
        let (length, height) = (0.040, 0.060);
        let angle = f64::to_radians(angle_deg);
        let outline = [[0.0, 0.0], [length, 0.0], [length * libm::cos(angle), length * libm::sin(angle)]];
        let wedge = prism(&outline.map(Point2::from), height)?;
        let turned = solid(&wedge).moved(&poses(11, 1, 0.1)[0]);
        for copy in [wedge, turned.mesh()?, divided(&divided(&turned)).mesh()?] {
            let (_, regions) = measured(&copy);
            let [region] = regions.as_slice() else { return Err(format!("{angle_deg}: {regions:?}").into()) };
            let edge = region.edge.ok_or("no edge")?;
            assert_relative_eq!(edge.length, height, max_relative = 1e-9);
            // As far as pieces of 0.5 mm show it.
            assert!((edge.depth - LIMIT / (2.0 * libm::tan(angle / 2.0))).abs() < 0.5e-3, "{angle_deg}: {edge:?}");
            assert_relative_eq!(region.least_thickness, 0.0);
        }
    }
    Ok(())
}

/// A tube whose wall is below the limit is one thin region, and not an edge.
#[test]
fn a_thin_tube_has_no_edge() -> Tested {
    let (_, regions) = measured(&tube(0.010, 0.0095, 0.020, 64, 1)?);
    let [wall] = regions.as_slice() else { return Err(format!("{regions:?}").into()) };
    assert!(wall.edge.is_none());
    assert!((wall.least_thickness - 0.5e-3).abs() < 5e-6, "{}", wall.least_thickness);
    // Facets the length of the tube, of which each piece counts for itself.
    let middle = core::f64::consts::TAU * 0.00975 * 0.020;
    assert_relative_eq!(wall.area, middle, max_relative = 0.04);
    Ok(())
}

/// Only the part of a large facet that is thin counts: a groove across the lower face of a plate.
#[test]
fn the_area_is_that_of_the_thin_part() -> Tested {
    let (left, right, deep) = (0.018, 0.022, THICK - 0.5e-3);
    // The ends in three strips.
    let strips = [[0.0, left, 0.0], [left, right, deep], [right, 0.040, 0.0]];
    let mut triangles = Vec::new();
    let at = |x: f64, y: f64, z: f64| nalgebra::Point3::new(x, y, z);
    for z in [0.0, 0.060] {
        for [from, to, floor] in strips {
            let mut corners = vec![at(from, floor, z), at(to, floor, z), at(to, THICK, z), at(from, THICK, z)];
            // Corners of the neighbours on this strip's sides.
            if floor == 0.0 {
                corners = if from == 0.0 {
                    vec![at(from, 0.0, z), at(to, 0.0, z), at(to, deep, z), at(to, THICK, z), at(from, THICK, z)]
                } else {
                    vec![at(to, THICK, z), at(from, THICK, z), at(from, deep, z), at(from, 0.0, z), at(to, 0.0, z)]
                };
            }
            for k in 1..corners.len() - 1 {
                let [a, b, c] = [corners[0], corners[k], corners[k + 1]];
                triangles.push(if z > 0.0 { [a, b, c] } else { [a, c, b] });
            }
        }
    }
    let mut side = |[x0, y0]: [f64; 2], [x1, y1]: [f64; 2]| {
        triangles.push([at(x0, y0, 0.0), at(x1, y1, 0.0), at(x1, y1, 0.060)]);
        triangles.push([at(x0, y0, 0.0), at(x1, y1, 0.060), at(x0, y0, 0.060)]);
    };
    let round = [
        [0.0, 0.0],
        [left, 0.0],
        [left, deep],
        [right, deep],
        [right, 0.0],
        [0.040, 0.0],
        [0.040, THICK],
        [right, THICK],
        [left, THICK],
        [0.0, THICK],
    ];
    for k in 0..round.len() {
        side(round[k], round[(k + 1) % round.len()]);
    }
    let mesh = super::solids::welded(&triangles)?;
    let (_, regions) = measured(&mesh);
    let [thin] = regions.as_slice() else { return Err(format!("{regions:?}").into()) };
    assert!(thin.edge.is_none());
    assert_relative_eq!(thin.least_thickness, 0.5e-3, max_relative = 1e-9);
    // 4 mm by 60 mm, and beside it what the sphere reaches round the groove's corners: below the limit that is 0.45 mm.
    assert!(thin.area > 0.95 * 0.004 * 0.060 && thin.area < 0.0052 * 0.060, "{}", thin.area);
    Ok(())
}
