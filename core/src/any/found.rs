//! Places of a job found on a part.

use nalgebra::{Point3, Vector3};
use parry3d::math::Vector;
use parry3d::query::PointQuery;

use super::patch::Patch;
use crate::job::{JobError, PlaceError, PlaceName, PlaceShape, PlaceWanted};
use crate::mesh::{Mesh, Place};
use crate::part::{AnyPart, Bore, Seat, joined, measured};
use crate::units::MM;

/// A place as it was found.
#[derive(Debug, Clone)]
pub(crate) struct FoundPlace {
    pub(crate) name: PlaceName,
    pub(crate) patch: Patch,
    /// m².
    pub(crate) area: f64,
    /// Middle of its area; of a single bore the middle of its axis.
    pub(crate) center: Point3<f64>,
    /// Mean outward unit vector; of a bore that along its axis.
    pub(crate) axis: Vector3<f64>,
    /// Its bores; none of a face.
    pub(crate) bores: Vec<FoundBore>,
}

/// A bore that is a place.
#[derive(Debug, Clone, Copy)]
pub(crate) struct FoundBore {
    pub(crate) center: Point3<f64>,
    pub(crate) axis: Vector3<f64>,
    pub(crate) seat: Seat,
}

/// A point this far from the surface is still meant to be on it, m, or by this share of the part's length.
const NEAR: f64 = 1e-3;
const NEAR_SHARE: f64 = 0.02;

/// A diameter is that of a bore within this, m, or this share of it.
const WIDE: f64 = 0.15e-3;
const WIDE_SHARE: f64 = 0.02;

/// A point within a bore, or so far beyond its wall, is near it, m.
const BESIDE: f64 = 3e-3;

/// All places of a job on a part.
pub(crate) fn found(part: &AnyPart, wanted: &[PlaceWanted]) -> Result<Vec<FoundPlace>, JobError> {
    wanted.iter().map(|place| Ok(find(part, place)?)).collect()
}

fn find(part: &AnyPart, wanted: &PlaceWanted) -> Result<FoundPlace, PlaceError> {
    let name = wanted.name;
    let missing = |wanted: String, near: String| PlaceError::NotFound { name: name.to_string(), wanted, near };
    let mesh = &part.mesh;
    let facets = match wanted.shape {
        PlaceShape::Bore { near, diameter } => return bored(part, name, near, diameter),
        PlaceShape::FaceNear { near, within } => {
            let (facet, away) = nearest(mesh, &near);
            if away > NEAR.max(NEAR_SHARE * mesh.length()) {
                let wanted = format!("surface at {}", Place::from(&near));
                return Err(missing(
                    wanted,
                    format!("the nearest is {:.1} mm away; {}", away * MM, part.faces_near(&near)),
                ));
            }
            let normal = mesh.area_vector(facet).try_normalize(0.0).unwrap_or_default();
            let facets = joined(mesh, facet, (&normal, within), &[]);
            beside_one(mesh, name, (&near, away), &facets)?;
            facets
        }
        PlaceShape::FaceToward { toward, within } => {
            let least = libm::cos(within);
            let faces = |&facet: &usize| {
                mesh.area_vector(facet).try_normalize(0.0).is_some_and(|normal| normal.dot(&toward) >= least)
            };
            let facets: Vec<usize> = (0..mesh.facets().len()).filter(faces).collect();
            if facets.is_empty() {
                let [x, y, z]: [f64; 3] = toward.into();
                let wanted = format!("surface that faces {x:.2}, {y:.2}, {z:.2} within {:.0}°", within.to_degrees());
                return Err(missing(wanted, part.faces_near(&mesh.mass_properties().centroid)));
            }
            facets
        }
    };
    let (area, center, axis) = measured(mesh, &facets);
    Ok(FoundPlace { name, patch: Patch::new(mesh, facets), area, center, axis, bores: Vec::new() })
}

/// Refuses a point on an edge or a corner, where it may be meant to be on any of the faces that meet there.
fn beside_one(
    mesh: &Mesh,
    name: PlaceName,
    (point, away): (&Point3<f64>, f64),
    facets: &[usize],
) -> Result<(), PlaceError> {
    let at = Vector::new(point.x, point.y, point.z);
    let near = |&facet: &usize| mesh.triangle(facet).distance_to_local_point(at, false) <= away + EDGE;
    let others: Vec<usize> =
        (0..mesh.facets().len()).filter(near).filter(|facet| facets.binary_search(facet).is_err()).collect();
    let Some(&first) = others.first() else { return Ok(()) };
    let facing = |facet: usize| {
        let normal = mesh.area_vector(facet).try_normalize(0.0).unwrap_or_default();
        let [x, y, z]: [f64; 3] = normal.map(|c| (c * 100.0).round() / 100.0 + 0.0).into();
        format!("facing {x}, {y}, {z}")
    };
    let list = [facets.first().copied().unwrap_or(first), first].map(facing).join("; ");
    Err(PlaceError::Several { name: name.to_string(), count: 2, list: format!("at an edge of them, {list}") })
}

/// A point this near to an edge is on it, m.
const EDGE: f64 = 1e-6;

/// The facet nearest to a point, the larger of equally near ones, and its distance, m.
fn nearest(mesh: &Mesh, point: &Point3<f64>) -> (usize, f64) {
    let at = Vector::new(point.x, point.y, point.z);
    let mut best = (0, f64::INFINITY);
    for facet in 0..mesh.facets().len() {
        let away = mesh.triangle(facet).distance_to_local_point(at, false);
        let larger = || mesh.area_vector(facet).norm() > mesh.area_vector(best.0).norm();
        if away < best.1 - 1e-9 || (away <= best.1 + 1e-9 && larger()) {
            best = (facet, away.min(best.1));
        }
    }
    best
}

/// A place that is a bore, or all bores of a diameter.
fn bored(
    part: &AnyPart,
    name: PlaceName,
    near: Option<Point3<f64>>,
    diameter: Option<f64>,
) -> Result<FoundPlace, PlaceError> {
    let fits = |seat: &Seat| diameter.is_none_or(|d| (2.0 * seat.radius - d).abs() <= WIDE.max(WIDE_SHARE * d));
    let mut candidates: Vec<(f64, FoundBore)> = Vec::new();
    for bore in &part.bores {
        let Some(seat) = bore.seats.iter().find(|seat| fits(seat)) else { continue };
        let away = near.map_or(0.0, |point| beside(bore, seat, &point));
        if away <= seat.radius + BESIDE {
            let found = FoundBore { center: bore.center, axis: bore.axis, seat: *seat };
            candidates.push((away, found));
        }
    }
    if near.is_some() {
        let first = candidates.iter().copied().reduce(|best, next| if next.0 < best.0 { next } else { best });
        candidates = first.into_iter().collect();
    }
    let bores: Vec<FoundBore> = candidates.into_iter().map(|(_, bore)| bore).collect();
    let facets: Vec<usize> = bores.iter().flat_map(|bore| bore.facets(&part.mesh)).collect();
    let (Some(first), false) = (bores.first(), facets.is_empty()) else {
        let wide = diameter.map_or_else(String::new, |d| format!(" {:.2} mm wide", d * MM));
        let at = near.map_or_else(String::new, |point| format!(" near {}", Place::from(&point)));
        return Err(PlaceError::NotFound {
            name: name.to_string(),
            wanted: format!("bore{wide}{at}"),
            near: part.bores_near(near.as_ref()),
        });
    };
    let (area, middle, _) = measured(&part.mesh, &facets);
    let center = if bores.len() == 1 { first.middle() } else { middle };
    let axis = first.axis;
    Ok(FoundPlace { name, patch: Patch::new(&part.mesh, facets), area, center, axis, bores })
}

/// Distance of a point from the axis of a seat, beyond its ends from those, m.
fn beside(bore: &Bore, seat: &Seat, point: &Point3<f64>) -> f64 {
    let arm = point - bore.center;
    let along = bore.axis.dot(&arm).clamp(seat.from, seat.to);
    (arm - bore.axis * along).norm()
}

impl FoundBore {
    /// Middle of its wall on the axis.
    pub(crate) fn middle(&self) -> Point3<f64> {
        self.center + self.axis * f64::midpoint(self.seat.from, self.seat.to)
    }

    /// Distance within which a surface is its wall, m.
    pub(crate) fn reach(&self) -> f64 {
        0.01 * self.seat.radius + 1.5 * self.seat.sagitta
    }

    /// Facets of its wall.
    fn facets(&self, mesh: &Mesh) -> Vec<usize> {
        let Seat { radius, from, to, .. } = self.seat;
        let ends = 0.01 * radius;
        let on = |&facet: &usize| {
            let arm = mesh.middle(facet) - self.center;
            let along = self.axis.dot(&arm);
            let across = arm - self.axis * along;
            let Some(normal) = mesh.area_vector(facet).try_normalize(0.0) else { return false };
            (across.norm() - radius).abs() <= self.reach()
                && (from - ends..=to + ends).contains(&along)
                && normal.dot(&across) < -0.8 * across.norm()
        };
        (0..mesh.facets().len()).filter(on).collect()
    }
}

impl FoundPlace {
    /// Its only bore.
    pub(crate) fn one_bore(&self) -> Option<&FoundBore> {
        if let [bore] = self.bores.as_slice() { Some(bore) } else { None }
    }
}
