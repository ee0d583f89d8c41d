//! Several bodies of a file sorted out before a part is looked for.
//!
//! Shells that touch or overlap are one body to the mesh reader. A pin in its bore touches too, and so does the second rod
//! that a drawing holds; neither is material of the part. What tells them apart:
//!
//! - a body within a bore that runs through another one sits there (pin, bush, bearing, bolt) and is a body by itself, unless
//!   it is hollow itself and sunk in the wall by more than a skin, as an eye drawn in pieces is;
//! - where two shells are rods each, or two sets of shells are, the file holds two rods;
//! - what only touches a rod, carries no part of its bores and is not needed to hold it together (a washer, a nut) is not of
//!   the rod; a cap touches too, but carries half a bore.

use core::f64::consts::TAU;

use nalgebra::{Point3, Vector3};

use super::bore::{Bore, Seat};
use super::rod::{GivenRod, RodEnds, ends};
use super::search::BoreSearch;
use super::side_by_side::rods_of;
use super::through::{across, is_open, reaches_in};
use crate::mesh::{Body, Laid, Meeting, Mesh, SKIN, largest_first};

/// The bodies of a file, each a part or what is no part of any; the largest first.
///
/// `piston` tells whether a mesh is a piston.
pub(super) fn sorted_out(bodies: Vec<Body>, given: &GivenRod, piston: &dyn Fn(&Mesh) -> bool) -> Vec<Body> {
    if bodies.iter().all(|body| body.outer_shells == 1) {
        return bodies;
    }
    let mut sorted = Vec::new();
    for body in bodies {
        if body.outer_shells == 1 {
            sorted.push(body);
        } else {
            sorted.extend(apart(body, given, piston));
        }
    }
    largest_first(sorted)
}

/// One body of several shells in what belongs together.
fn apart(body: Body, given: &GivenRod, piston: &dyn Fn(&Mesh) -> bool) -> Vec<Body> {
    let pieces = body.pieces();
    if pieces.iter().filter(|piece| ends(&piece.mesh, given).is_ok()).count() > 1 {
        return pieces;
    }
    let within = within_bores(&pieces);
    let bodies = if within.contains(&true) {
        let rest: Vec<&Body> = pieces.iter().zip(&within).filter(|(_, within)| !**within).map(|(p, _)| p).collect();
        let rest = Body::united(&rest).unwrap_or_else(|_| rest.into_iter().cloned().collect());
        let fillers = pieces.iter().zip(&within).filter(|(_, within)| **within).map(|(piece, _)| piece.clone());
        rest.into_iter().chain(fillers).collect()
    } else {
        vec![body]
    };
    bodies
        .into_iter()
        .flat_map(|body| {
            if body.outer_shells == 1 {
                return vec![body];
            }
            match ends(&body.mesh, given) {
                Ok(ends) => rods_of(&body, &ends, given).unwrap_or_else(|| without_idle(body, &ends)),
                Err(_) if piston(&body.mesh) => vec![body],
                Err(_) => {
                    let pieces = body.pieces();
                    let part = |piece: &Body| ends_or_piston(&piece.mesh, given, piston);
                    if pieces.iter().any(part) { pieces } else { vec![body] }
                }
            }
        })
        .collect()
}

fn ends_or_piston(mesh: &Mesh, given: &GivenRod, piston: &dyn Fn(&Mesh) -> bool) -> bool {
    ends(mesh, given).is_ok() || piston(mesh)
}

/// Which pieces sit in a bore that runs through another.
fn within_bores(pieces: &[Body]) -> Vec<bool> {
    let laid: Vec<Laid<'_>> = pieces.iter().map(Laid::new).collect();
    let bores: Vec<Vec<Bore>> = pieces
        .iter()
        .map(|piece| {
            let open = |bore: &Bore| is_open(&piece.mesh, bore, None);
            BoreSearch::new(&piece.mesh).all().into_iter().filter(open).collect()
        })
        .collect();
    let coaxial = |bore: &Bore, other: &Bore| {
        let beside = (other.center - bore.center).cross(&bore.axis).norm();
        bore.axis.dot(&other.axis).abs() > 0.99 && beside < 0.1 * bore.main().radius
    };
    (0..pieces.len())
        .map(|inner| {
            (0..pieces.len()).filter(|&outer| outer != inner).any(|outer| {
                bores[outer].iter().any(|bore| {
                    fills(&laid[inner], bore)
                        && !(bores[inner].iter().any(|own| coaxial(bore, own))
                            && laid[inner].meets(&laid[outer]) == Meeting::Overlapping)
                })
            })
        })
        .collect()
}

/// Whether a body has material within the wall of a bore, beneath a skin.
pub(super) fn fills(body: &Laid<'_>, bore: &Bore) -> bool {
    const AROUND: u32 = 12;
    let (right, up) = across(bore);
    let seat = bore.main();
    let wall = seat.radius - seat.sagitta - SKIN;
    let at = |radius: f64, turn: f64, share: f64| -> Point3<f64> {
        let out: Vector3<f64> = right * libm::cos(turn) + up * libm::sin(turn);
        bore.center + bore.axis * (seat.from + share * (seat.to - seat.from)) + out * radius
    };
    // Where no facet reaches in, one point tells for all.
    if !body.reaches(|corners| reaches_in(corners, bore, wall, (seat.from, seat.to))) {
        return body.holds(&at(0.0, 0.0, 0.5));
    }
    // Off the middle and the faces, where planes of facets lie; within the ends by more than the touch of a neighbour.
    [0.07, 0.29, 0.52, 0.73, 0.93].into_iter().any(|share| {
        let around = |radius: f64| {
            (0..AROUND).any(|k| body.holds(&at(radius, TAU * (f64::from(k) + 0.3) / f64::from(AROUND), share)))
        };
        body.holds(&at(0.0, 0.0, share)) || around(wall) || around(0.6 * seat.radius)
    })
}

/// A rod of several shells without those that only touch it and carry nothing, which follow it.
fn without_idle(body: Body, ends: &RodEnds) -> Vec<Body> {
    let pieces = body.pieces();
    let laid: Vec<Laid<'_>> = pieces.iter().map(Laid::new).collect();
    let mut merged: Vec<usize> = (0..pieces.len()).collect();
    let mut touching = Vec::new();
    for a in 0..pieces.len() {
        for b in a + 1..pieces.len() {
            match laid[a].meets(&laid[b]) {
                Meeting::Apart => {}
                Meeting::Touching => touching.push((a, b)),
                Meeting::Overlapping => join(&mut merged, a, b),
            }
        }
    }
    let carries = carriers(&pieces, ends);
    let carrying = |piece: usize| (0..pieces.len()).any(|other| carries[other] && merged[other] == merged[piece]);
    let kept: Vec<bool> = (0..pieces.len()).map(carrying).collect();
    let mut held = merged.clone();
    for &(a, b) in touching.iter().filter(|(a, b)| kept[*a] && kept[*b]) {
        join(&mut held, a, b);
    }
    let mut groups: Vec<usize> = (0..pieces.len()).filter(|&piece| kept[piece]).map(|piece| held[piece]).collect();
    groups.dedup();
    if kept.iter().all(|kept| *kept) || groups.windows(2).any(|pair| pair[0] != pair[1]) || groups.is_empty() {
        return vec![body];
    }
    let rod: Vec<&Body> = pieces.iter().zip(&kept).filter(|(_, kept)| **kept).map(|(piece, _)| piece).collect();
    let Ok(rod) = Body::united(&rod) else { return vec![body] };
    let idle = pieces.iter().zip(&kept).filter(|(_, kept)| !**kept).map(|(piece, _)| piece.clone());
    rod.into_iter().chain(idle).collect()
}

/// Joins the groups of two pieces.
fn join(group: &mut [usize], a: usize, b: usize) {
    let (keep, lose) = (group[a].min(group[b]), group[a].max(group[b]));
    group.iter_mut().filter(|at| **at == lose).for_each(|at| *at = keep);
}

/// Which pieces have a wall of one of the bores that is theirs to carry: of whole rings laid on one another the largest.
fn carriers(pieces: &[Body], ends: &RodEnds) -> Vec<bool> {
    let mut carries = vec![false; pieces.len()];
    for bore in [&ends.small, &ends.big] {
        let around: Vec<usize> =
            pieces.iter().map(|piece| wall_around(&piece.mesh, bore, SKIN + 0.01 * bore.main().radius)).collect();
        let ring = (0..pieces.len())
            .filter(|&piece| around[piece] > BINS * 3 / 4)
            .map(|piece| (pieces[piece].mesh.mass_properties().volume, piece))
            .max_by(|a, b| a.0.total_cmp(&b.0));
        match ring {
            Some((_, piece)) => carries[piece] = true,
            None => (0..pieces.len()).for_each(|piece| carries[piece] |= around[piece] > 0),
        }
    }
    carries
}

/// Parts into which a full turn is divided to tell how far round a wall goes.
const BINS: usize = 36;

/// Whether a mesh has as much of the wall of a bore as a split end's half, at most `reach` (m) beside it.
pub(super) fn has_wall(mesh: &Mesh, bore: &Bore, reach: f64) -> bool {
    wall_around(mesh, bore, reach) >= BINS * 5 / 12
}

/// Whether a mesh goes round a bore, at whatever seat of it.
pub(super) fn is_ring(mesh: &Mesh, bore: &Bore) -> bool {
    bore.seats.iter().any(|seat| wall_at(mesh, bore, seat, SKIN + 0.01 * seat.radius) > BINS * 3 / 4)
}

/// How many of the parts of a full turn a mesh has a wall of a bore in, at most `reach` (m) beside it.
fn wall_around(mesh: &Mesh, bore: &Bore, reach: f64) -> usize {
    wall_at(mesh, bore, bore.main(), reach)
}

/// The same at one of its seats.
fn wall_at(mesh: &Mesh, bore: &Bore, seat: &Seat, reach: f64) -> usize {
    let (right, up) = across(bore);
    let mut met = [false; BINS];
    for facet in 0..mesh.facets().len() {
        let arms = mesh.corners(facet).map(|corner| corner - bore.center);
        let on_wall = arms.iter().all(|arm| {
            let height = bore.axis.dot(arm);
            let distance = (arm - bore.axis * height).norm();
            (distance - seat.radius).abs() < reach && (seat.from - reach..=seat.to + reach).contains(&height)
        });
        let middle = (arms[0] + arms[1] + arms[2]) / 3.0;
        let out = middle - bore.axis * bore.axis.dot(&middle);
        let facing = mesh.area_vector(facet).dot(&out) < -0.8 * mesh.area_vector(facet).norm() * out.norm();
        if !(on_wall && facing) {
            continue;
        }
        // A coarse bore has few facets; each stands for the angle between its corners.
        for (from, to) in [(0, 1), (1, 2), (2, 0)] {
            for share in [0.0, 0.25, 0.5, 0.75] {
                let arm = arms[from] + (arms[to] - arms[from]) * share;
                let turn = libm::atan2(up.dot(&arm), right.dot(&arm)) / TAU + 0.5;
                met[((turn * BINS as f64) as usize).min(BINS - 1)] = true;
            }
        }
    }
    met.into_iter().filter(|bin| *bin).count()
}
