//! Holds of a job on the places found: pins, and supports that push and pull.

use nalgebra::{Matrix6, Vector3, Vector6};

use super::found::{FoundBore, FoundPlace};
use crate::field::{Hold, Support};
use crate::job::{HeldAs, JobError, LoadKind, PlaceError, PlacesScenario};
use crate::mesh::Mesh;

/// A bore that a pin presses, to hold the part or to bring a load into it.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Pin {
    /// Number of its place.
    pub(crate) place: usize,
    pub(crate) bore: FoundBore,
    /// Radial, m.
    pub(crate) clearance: f64,
    /// Whether it holds the part; else its force is a load.
    pub(crate) holds: bool,
}

/// Share of a force that may point along its pin.
const ALONG: f64 = 0.02;

/// Every pin of a job, and that each load can act at its place.
pub(crate) fn pins(given: &PlacesScenario, found: &[FoundPlace]) -> Result<Vec<Pin>, JobError> {
    let mut pins: Vec<Pin> = Vec::new();
    for hold in &given.holds {
        if let HeldAs::Pin { clearance } = hold.held {
            let bore = only_bore(&found[hold.at], "a pin that holds")?;
            pins.push(Pin { place: hold.at, bore, clearance, holds: true });
        }
    }
    for load in &given.loads {
        let who = format!("the load `{}`", load.name);
        let refused = |at: usize, reason: &str| {
            JobError::from(PlaceError::NotThere {
                who: who.clone(),
                place: found[at].name.to_string(),
                reason: reason.into(),
            })
        };
        match load.kind {
            LoadKind::Force { at, force, clearance } if !found[at].bores.is_empty() => {
                let bore = only_bore(&found[at], &who)?;
                if bore.axis.dot(&force).abs() > ALONG * force.norm() {
                    return Err(refused(at, "points along the axis of the bore, and a pin pushes across it"));
                }
                match pins.iter_mut().find(|pin| pin.place == at) {
                    Some(pin) if pin.holds => return Err(refused(at, "acts where a pin holds the part")),
                    Some(pin) => pin.clearance = pin.clearance.max(clearance),
                    None => pins.push(Pin { place: at, bore, clearance, holds: false }),
                }
            }
            LoadKind::Spin { about, .. } if found[about].bores.len() > 1 => {
                return Err(several(&found[about]).into());
            }
            _ => {}
        }
    }
    Ok(pins)
}

fn only_bore(place: &FoundPlace, who: &str) -> Result<FoundBore, PlaceError> {
    match place.one_bore() {
        Some(bore) => Ok(*bore),
        None if place.bores.is_empty() => Err(PlaceError::NotThere {
            who: who.into(),
            place: place.name.to_string(),
            reason: "needs a bore, and the place is a face".into(),
        }),
        None => Err(several(place)),
    }
}

fn several(place: &FoundPlace) -> PlaceError {
    let list: Vec<String> =
        place.bores.iter().map(|bore| crate::mesh::Place::from(&bore.middle()).to_string()).collect();
    PlaceError::Several { name: place.name.to_string(), count: list.len(), list: list.join("; ") }
}

/// Supports that push and pull; refused where they and the pins leave the part free and the job does not say so.
pub(crate) fn supported(
    mesh: &Mesh,
    given: &PlacesScenario,
    found: &[FoundPlace],
    pins: &[Pin],
) -> Result<Vec<Support>, PlaceError> {
    let mut supports = Vec::new();
    for hold in &given.holds {
        let place = &found[hold.at];
        let hold = match hold.held {
            HeldAs::Pin { .. } => continue,
            HeldAs::Glued => Hold::Clamped,
            HeldAs::Flat if place.bores.is_empty() => Hold::Along(place.axis),
            HeldAs::Flat => {
                return Err(PlaceError::NotThere {
                    who: "a hold as flat".into(),
                    place: place.name.to_string(),
                    reason: "needs a face, and the place is a bore".into(),
                });
            }
        };
        supports.push(Support { facets: place.patch.facets.clone(), hold, bedding: None });
    }
    match (supports.is_empty(), given.free) {
        (false, true) => Err(PlaceError::Together {
            reason: "the part is free in one hold and glued or kept flat in another".into(),
        }),
        (true, true) => {
            let even = given.loads.iter().find(|load| matches!(load.kind, LoadKind::Acceleration(_)));
            match even.filter(|_| !pins.iter().any(|pin| pin.holds)) {
                Some(load) => Err(PlaceError::Load {
                    load: load.name.clone(),
                    said: "accelerates a part that nothing holds, which makes no stress",
                }),
                None => Ok(supports),
            }
        }
        (true, false) => {
            Err(PlaceError::LeftFree { motions: "it can turn about the axis of its pin and slide along it".into() })
        }
        (false, false) => {
            let motions = left_free(mesh, &supports);
            if motions.is_empty() { Ok(supports) } else { Err(PlaceError::LeftFree { motions: motions.join("; ") }) }
        }
    }
}

/// A motion that supports resist less than this share of the stiffest is free.
const FREE: f64 = 1e-6;

/// Motions of the whole part that supports leave, in words.
fn left_free(mesh: &Mesh, supports: &[Support]) -> Vec<String> {
    let middle = mesh.mass_properties().centroid;
    let lever = mesh.length() / 2.0;
    let mut resistance = Matrix6::zeros();
    for support in supports {
        for &facet in &support.facets {
            let area = mesh.area_vector(facet).norm() / 2.0;
            let directions: Vec<Vector3<f64>> = match support.hold {
                Hold::Along(direction) => vec![direction],
                _ => (0..3).map(|axis| Vector3::ith(axis, 1.0)).collect(),
            };
            for corner in mesh.corners(facet) {
                let arm = (corner - middle) / lever;
                for d in &directions {
                    let turn = arm.cross(d);
                    let felt = Vector6::new(d.x, d.y, d.z, turn.x, turn.y, turn.z);
                    resistance += felt * felt.transpose() * area;
                }
            }
        }
    }
    let parts = resistance.symmetric_eigen();
    let most = parts.eigenvalues.amax();
    let free = (0..6).filter(|&k| parts.eigenvalues[k] < FREE * most);
    let told = free.map(|k| {
        let motion = parts.eigenvectors.column(k);
        let (shift, turn) =
            (Vector3::new(motion[0], motion[1], motion[2]), Vector3::new(motion[3], motion[4], motion[5]));
        let along = |of: &Vector3<f64>| {
            let [x, y, z]: [f64; 3] = of.normalize().map(|c| (c * 100.0).round() / 100.0 + 0.0).into();
            format!("{x}, {y}, {z}")
        };
        if turn.norm() < 0.3 {
            format!("it can slide along {}", along(&shift))
        } else {
            format!("it can turn about {}", along(&turn))
        }
    });
    told.collect()
}
