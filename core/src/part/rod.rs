use core::f64::consts::TAU;

use nalgebra::{Point3, Vector3};

use super::axes::upward;
use super::bore::{Bore, Seat};
use super::cap::beside;
use super::ends::{Naming, along, faced, named};
use super::left_out::{LeftOut, Volumes};
use super::{BoreSearch, Frame, PartError};
use crate::direction::unit;
use crate::few::sort_few;
use crate::mesh::{Body, Mesh, Place};
use crate::threads::map_blocks;

/// A connecting rod: its mesh in its own [`Frame`], and both eyes.
#[derive(Debug, Clone)]
pub struct Rod {
    /// Surface in frame coordinates.
    pub mesh: Mesh,
    /// Where the frame lies in the file.
    pub frame: Frame,
    /// The eye with the smaller bore, at the origin.
    pub small_end: Eye,
    /// The eye with the larger bore.
    pub big_end: Eye,
    /// Distance between the bore axes, m.
    pub center_distance: f64,
    /// Angle between the bore axes, radians.
    pub parallelism: f64,
    /// Whether the body is several shells that overlap or touch.
    pub overlapping: bool,
    /// Closed voids in the body.
    pub voids: usize,
    /// Other bodies of the file, left out.
    pub left_out: Vec<LeftOut>,
    /// By what its ends were told apart.
    pub naming: Naming,
    /// How far from the rod its cap lay in the file before it was moved onto it, m; 0 where none was moved.
    pub cap_gap: f64,
}

impl Rod {
    /// The same rod stretched along its pins.
    #[must_use]
    pub fn thicker(&self, factor: f64) -> Self {
        let mut thicker = self.clone();
        thicker.mesh = self.mesh.stretched(&Vector3::new(1.0, 1.0, factor));
        for eye in [&mut thicker.small_end, &mut thicker.big_end] {
            eye.center.z *= factor;
            for seat in &mut eye.bore.seats {
                seat.from *= factor;
                seat.to *= factor;
            }
        }
        thicker
    }
}

/// One end of a rod.
#[derive(Debug, Clone)]
pub struct Eye {
    /// Its bore, in file coordinates.
    pub bore: Bore,
    /// Centre in frame coordinates, m.
    pub center: Point3<f64>,
    /// Whether the wall goes less than three quarters round: a split end without its cap.
    pub half: bool,
}

impl Eye {
    /// Radius of the seat that carries the pin or bearing, m.
    pub fn radius(&self) -> f64 {
        self.bore.main().radius
    }

    /// Length of that seat along the pin, m.
    pub fn depth(&self) -> f64 {
        self.bore.main().depth()
    }
}

/// A bore named by hand.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GivenBore {
    /// Centre in file coordinates, m.
    pub center: Point3<f64>,
    /// Diameter, m.
    pub diameter: f64,
}

/// What the user says of the rod instead of recognition.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct GivenRod {
    /// The small end.
    pub small_end: Option<GivenBore>,
    /// The big end.
    pub big_end: Option<GivenBore>,
    /// Direction of both bore axes in the file.
    pub pin_axis: Option<Vector3<f64>>,
}

/// Rods have at least this much centre distance for their bore radii; crank webs have less. (Common practice, no source.)
const LEAST_SLENDERNESS: f64 = 1.25;

/// Material may reach this many bore radii beyond a bore centre, away from the other bore.
const OVERHANG: f64 = 3.2;

/// The shank is at most this wide against the wider eye.
const WAIST: f64 = 0.93;

/// Picks the one rod among the bodies of a file.
pub fn find_rod(bodies: Vec<Body>, given: &GivenRod) -> Result<Rod, PartError> {
    let picked = pick_rod(&bodies, given)?;
    picked.built(bodies)
}

/// The rod among some bodies, before its body is taken out of them.
pub(super) struct PickedRod {
    index: usize,
    ends: Ends,
    left_out: Vec<LeftOut>,
    given: GivenRod,
}

impl PickedRod {
    /// The rod, out of the bodies it was picked from.
    pub(super) fn built(self, bodies: Vec<Body>) -> Result<Rod, PartError> {
        let Ends { small, big, frame, .. } = &self.ends;
        if let Some(cap) = beside(&bodies, self.index, [small, big], frame) {
            let bodies = cap.clamped(bodies, self.index);
            let whole = pick_rod(&bodies, &self.given)?.built(bodies)?;
            return Ok(Rod { cap_gap: cap.gap, ..whole });
        }
        match bodies.into_iter().nth(self.index) {
            Some(body) => Ok(assembled(body, self.ends, self.left_out)),
            None => Err(PartError::SeveralRods { count: 0 }),
        }
    }
}

/// Looks for the one rod among the bodies of a file.
pub(super) fn pick_rod(bodies: &[Body], given: &GivenRod) -> Result<PickedRod, PartError> {
    let pin_axis = match given.pin_axis {
        Some(axis) => Some(
            unit(&axis)
                .ok_or_else(|| PartError::GivenDoesNotFit { reason: "the axis is zero or not finite".into() })?,
        ),
        None => None,
    };
    let given = &GivenRod { pin_axis, ..*given };
    let volumes = Volumes::of(bodies);
    let mut first_reason = None;
    let mut rods = Vec::new();
    for (index, body) in bodies.iter().enumerate().filter(|(index, _)| volumes.worth_a_look(*index)) {
        match ends(&body.mesh, given) {
            Ok(ends) => rods.push((index, ends)),
            Err(error) => first_reason = first_reason.or(Some(error)),
        }
        if given.small_end.is_some() && !rods.is_empty() {
            break;
        }
    }
    if rods.len() > 1 {
        return Err(PartError::SeveralRods { count: rods.len() });
    }
    let Some((index, ends)) = rods.pop() else {
        return Err(first_reason.unwrap_or_else(|| PartError::NotARod {
            reason: "the file holds no body with volume".into(),
            found: "no bores".into(),
        }));
    };
    Ok(PickedRod { index, ends, left_out: volumes.without(index), given: *given })
}

struct Ends {
    small: Bore,
    big: Bore,
    frame: Frame,
    naming: Naming,
}

fn ends(mesh: &Mesh, given: &GivenRod) -> Result<Ends, PartError> {
    if let (Some(small), Some(big)) = (&given.small_end, &given.big_end) {
        return by_hand(mesh, small, big, given.pin_axis);
    }
    let mut search = BoreSearch::new(mesh);
    let mut reason = None;
    while search.advance() {
        match rod_among(mesh, search.found(), given.pin_axis) {
            Ok(ends) => return Ok(ends),
            // The last reason has seen all bores.
            Err(why) => reason = Some(why),
        }
    }
    let reason = reason.unwrap_or_else(|| "it has no bore".into());
    Err(PartError::NotARod { reason, found: described(search.found()) })
}

/// The rod that two of the bores make, or why the pair farthest apart makes none.
fn rod_among(mesh: &Mesh, bores: &[Bore], pin_axis: Option<Vector3<f64>>) -> Result<Ends, String> {
    let allowed = |bore: &Bore| pin_axis.is_none_or(|axis| bore.axis.dot(&axis).abs() > 0.99);
    let mut pairs = Vec::new();
    for (i, a) in bores.iter().enumerate().filter(|(_, a)| allowed(a)) {
        for b in bores[i + 1..].iter().filter(|b| b.axis.dot(&a.axis).abs() > 0.999) {
            let apart = (b.center - a.center).cross(&a.axis).norm();
            pairs.push((apart, a, b));
        }
    }
    sort_few(&mut pairs, |p, q| q.0.total_cmp(&p.0));
    let mut reason = None;
    for (_, a, b) in pairs {
        match judged(mesh, a, b) {
            Ok(ends) => return Ok(ends),
            Err(why) => reason = reason.or(Some(why)),
        }
    }
    Err(reason.unwrap_or_else(|| match bores.len() {
        0 => "it has no bore".into(),
        1 => "it has only one bore".into(),
        _ => "its bores are not parallel".into(),
    }))
}

/// The rod that two parallel bores make, or why they make none.
fn judged(mesh: &Mesh, a: &Bore, b: &Bore) -> Result<Ends, String> {
    let (small, big, naming) = named(mesh, a, b);
    let axis = upward((small.axis + big.axis * small.axis.dot(&big.axis).signum()).normalize());
    let frame = Frame::new(small.center, big.center - small.center, axis)
        .ok_or_else(|| String::from("its bores lie on one axis"))?;
    let distance = frame.point(&big.center).x;
    judged_in_frame(mesh, small, big, &frame, distance)?;
    let frame = faced(mesh, frame, distance);
    let [small, big] = [small, big].map(|bore| along(&frame, bore.clone()));
    Ok(Ends { small, big, frame, naming })
}

fn judged_in_frame(mesh: &Mesh, small: &Bore, big: &Bore, frame: &Frame, distance: f64) -> Result<(), String> {
    let (small_radius, big_radius) = (small.main().radius, big.main().radius);
    if distance < LEAST_SLENDERNESS * (small_radius + big_radius) {
        return Err("its two bores are close together for their size, as on a crank web".into());
    }
    let profile = Profile::of(mesh, frame, distance);
    if -profile.low > OVERHANG * small_radius || profile.high - distance > OVERHANG * big_radius {
        return Err("material reaches far beyond its bores, so they do not span the part".into());
    }
    let shank = profile.least_between(small_radius, distance - big_radius);
    let eye = profile.width_near(distance, big_radius).max(profile.width_near(0.0, small_radius));
    if shank > WAIST * eye {
        return Err("it is as wide between its bores as at them: it has eyes but no shank".into());
    }
    Ok(())
}

fn by_hand(mesh: &Mesh, small: &GivenBore, big: &GivenBore, axis: Option<Vector3<f64>>) -> Result<Ends, PartError> {
    let fault = |reason: &str| PartError::GivenDoesNotFit { reason: reason.into() };
    let Some(axis) = axis else {
        return Err(fault("the direction of the bore axes is missing (--pin-axis or pin_axis)"));
    };
    let frame = Frame::new(small.center, big.center - small.center, axis)
        .ok_or_else(|| fault("the two centres lie on one axis"))?;
    let (low, high) = mesh.bounds();
    for bore in [small, big] {
        let inside = (0..3).all(|k| low[k] <= bore.center[k] && bore.center[k] <= high[k]);
        if !inside {
            return Err(fault("a centre lies outside the part"));
        }
        if !(bore.diameter > 0.0 && bore.diameter < (high - low).norm()) {
            return Err(fault("a diameter is not positive, or larger than the part"));
        }
        if !has_wall(mesh, &frame, &frame.point(&bore.center), bore.diameter / 2.0) {
            return Err(PartError::GivenDoesNotFit {
                reason: format!(
                    "there is no wall of {:.2} mm diameter round {}",
                    bore.diameter * 1e3,
                    Place::from(&bore.center)
                ),
            });
        }
    }
    let bore = |given: &GivenBore| {
        let depth = depth_round(mesh, &frame, &frame.point(&given.center), given.diameter / 2.0);
        Bore {
            center: given.center,
            axis,
            seats: vec![Seat {
                radius: given.diameter / 2.0,
                from: depth.0,
                to: depth.1,
                arc: TAU,
                sagitta: 0.0,
                residual: 0.0,
            }],
        }
    };
    Ok(Ends { small: bore(small), big: bore(big), frame, naming: Naming::Diameter })
}

/// A bore given by hand may miss its wall by this share of the radius.
const BY_HAND: f64 = 0.05;

/// Whether facets that look at the axis lie on a cylinder, over at least a split end's share of the circle.
pub(super) fn has_wall(mesh: &Mesh, frame: &Frame, center: &Point3<f64>, radius: f64) -> bool {
    const BINS: usize = 36;
    const LEAST: usize = 15;
    let mut seen = [false; BINS];
    for facet in 0..mesh.facets().len() {
        let Some(normal) = mesh.area_vector(facet).try_normalize(0.0) else { continue };
        let normal = frame.direction(&normal);
        let corners = mesh.corners(facet).map(|corner| frame.point(&corner) - center);
        let on_wall = corners.iter().all(|arm| (arm.xy().norm() - radius).abs() < BY_HAND * radius);
        let middle = (corners[0] + corners[1] + corners[2]) / 3.0;
        if !on_wall || normal.xy().dot(&middle.xy()) > -0.9 * middle.xy().norm() {
            continue;
        }
        // A coarse bore has few facets; each stands for the angle between its corners.
        for share in [0.0, 0.25, 0.5, 0.75, 1.0] {
            for (from, to) in [(0, 1), (1, 2), (2, 0)] {
                let arm = corners[from] + (corners[to] - corners[from]) * share;
                let turn = libm::atan2(arm.y, arm.x) / TAU + 0.5;
                seen[((turn * BINS as f64) as usize).min(BINS - 1)] = true;
            }
        }
    }
    seen.iter().filter(|bin| **bin).count() >= LEAST
}

/// Extent along the pin axis of the corners near a bore wall, relative to its centre.
fn depth_round(mesh: &Mesh, frame: &Frame, center: &Point3<f64>, radius: f64) -> (f64, f64) {
    let near = mesh.points().iter().map(|p| frame.point(p) - center).filter(|r| r.xy().norm() < 1.3 * radius);
    let (low, high) = near.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), r| (low.min(r.z), high.max(r.z)));
    if low < high { (low, high) } else { (-radius, radius) }
}

fn assembled(body: Body, ends: Ends, left_out: Vec<LeftOut>) -> Rod {
    let Ends { small, big, frame, naming } = ends;
    let eye = |bore: Bore| Eye { center: frame.point(&bore.center), half: bore.main().arc < 0.75 * TAU, bore };
    let parallelism = libm::asin(small.axis.cross(&big.axis).norm().min(1.0));
    let (small_end, big_end) = (eye(small), eye(big));
    Rod {
        mesh: body.mesh.moved(&frame.motion()),
        center_distance: big_end.center.x,
        frame,
        small_end,
        big_end,
        parallelism,
        overlapping: body.outer_shells > 1,
        voids: body.voids,
        left_out,
        naming,
        cap_gap: 0.0,
    }
}

pub(super) fn described(bores: &[Bore]) -> String {
    if bores.is_empty() {
        return "no bores".into();
    }
    let list: Vec<String> =
        bores.iter().map(|b| format!("a bore of {:.2} mm at {}", b.diameter() * 1e3, Place::from(&b.center))).collect();
    list.join(", ")
}

/// Width of a part across the line of centres, in slices along it.
struct Profile {
    low: f64,
    high: f64,
    slice: f64,
    extent: Vec<(f64, f64)>,
}

impl Profile {
    fn of(mesh: &Mesh, frame: &Frame, distance: f64) -> Self {
        let points: Vec<Point3<f64>> = mesh.points().iter().map(|p| frame.point(p)).collect();
        let (low, high) =
            points.iter().fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), p| (low.min(p.x), high.max(p.x)));
        let slice = distance / SLICES;
        let count = (((high - low) / slice) as usize + 1).min(4096);
        let partial = map_blocks(mesh.facets().len(), 65_536, |range| {
            let mut extent = vec![(f64::INFINITY, f64::NEG_INFINITY); count];
            for facet in &mesh.facets()[range] {
                for k in 0..3 {
                    let (a, b) = (points[facet[k] as usize], points[facet[(k + 1) % 3] as usize]);
                    // Each edge belongs to two facets; the one in which it rises looks at it.
                    if a.x < b.x {
                        cross(&a, &b, low, slice, &mut extent);
                    }
                }
            }
            extent
        });
        let mut extent = vec![(f64::INFINITY, f64::NEG_INFINITY); count];
        for block in partial {
            for (whole, part) in extent.iter_mut().zip(block) {
                *whole = (whole.0.min(part.0), whole.1.max(part.1));
            }
        }
        Self { low, high, slice, extent }
    }

    fn widths(&self, from: f64, to: f64) -> impl Iterator<Item = f64> {
        let inside = move |index: usize| {
            let plane = self.low + (index as f64 + 0.5) * self.slice;
            (from..=to).contains(&plane)
        };
        let widths = self.extent.iter().enumerate().filter(move |(i, e)| inside(*i) && e.0 < e.1);
        widths.map(|(_, e)| e.1 - e.0)
    }

    fn least_between(&self, from: f64, to: f64) -> f64 {
        self.widths(from, to).fold(f64::INFINITY, f64::min)
    }

    fn width_near(&self, center: f64, radius: f64) -> f64 {
        self.widths(center - radius, center + radius).fold(0.0, f64::max)
    }
}

/// Slices between the bore centres.
const SLICES: f64 = 48.0;

/// Widens each slice by where an edge crosses its middle plane.
fn cross(a: &Point3<f64>, b: &Point3<f64>, low: f64, slice: f64, extent: &mut [(f64, f64)]) {
    let first = ((a.x - low) / slice + 0.5) as usize;
    for (index, range) in extent.iter_mut().enumerate().skip(first) {
        let plane = low + (index as f64 + 0.5) * slice;
        if plane > b.x {
            break;
        }
        if plane >= a.x {
            let y = a.y + (b.y - a.y) * (plane - a.x) / (b.x - a.x);
            *range = (range.0.min(y), range.1.max(y));
        }
    }
}
