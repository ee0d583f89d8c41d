use core::f64::consts::FRAC_PI_2;

use nalgebra::{Isometry3, Point3, Vector2, Vector3};

use super::outside::Outside;
use super::pin::pin_bore;
use super::rays::{AxisRays, disc_points};
use super::{GivenPiston, Groove, PinBore, Piston, Skirt};
use crate::direction::unit;
use crate::mesh::{Body, Mesh, Place};
use crate::part::left_out::{LeftOut, Volumes};
use crate::part::rod::described;
use crate::part::search::round_outsides;
use crate::part::{Bore, BoreSearch, Frame, PartError};

/// The outside of a piston goes at least this far round, rad: its ring belt, whatever is cut from its skirt.
const LEAST_ARC: f64 = 5.2;

/// Nothing of a piston stands out of its ring belt by more than this share of the radius.
const TAPER: f64 = 0.05;

/// Pin bores are this large against the outer radius, and their axis passes the cylinder axis within the last share.
/// (Common practice, no source.)
const PIN_RADIUS: (f64, f64) = (0.08, 0.6);
const PIN_OFFSET: f64 = 0.25;

/// Sine of the greatest angle by which pin and cylinder axis may miss a right angle.
const LEAN: f64 = 0.05;

/// Lines by which the closed side is told.
const LINES: usize = 400;

/// The crown closes this share of the disc; the open side leaves this share free.
const CLOSED: f64 = 0.9;
const OPEN: f64 = 0.35;

/// Picks the one piston among the bodies of a file.
pub fn find_piston(bodies: Vec<Body>, given: &GivenPiston) -> Result<Piston, PartError> {
    pick_piston(&bodies, given)?.built(bodies)
}

/// The piston among some bodies, before its body is taken out of them.
pub(in crate::part) struct PickedPiston {
    index: usize,
    found: Found,
    left_out: Vec<LeftOut>,
}

struct Found {
    frame: Frame,
    motion: Isometry3<f64>,
    skirt: Skirt,
    grooves: Vec<Groove>,
    pin: PinBore,
    crown: f64,
    low: f64,
}

impl PickedPiston {
    /// The piston, out of the bodies it was picked from.
    pub(in crate::part) fn built(self, bodies: Vec<Body>) -> Result<Piston, PartError> {
        let Found { frame, motion, skirt, grooves, pin, crown, low } = self.found;
        let body = bodies.into_iter().nth(self.index).ok_or(PartError::SeveralPistons { count: 0 })?;
        Ok(Piston {
            mesh: body.mesh.moved(&motion),
            frame,
            skirt,
            grooves,
            pin,
            compression_height: crown,
            low,
            overlapping: body.outer_shells > 1,
            voids: body.voids,
            left_out: self.left_out,
        })
    }
}

/// Looks for the one piston among the bodies of a file.
pub(in crate::part) fn pick_piston(bodies: &[Body], given: &GivenPiston) -> Result<PickedPiston, PartError> {
    let volumes = Volumes::of(bodies);
    let mut first_reason = None;
    let mut pistons = Vec::new();
    for (index, body) in bodies.iter().enumerate().filter(|(index, _)| volumes.worth_a_look(*index)) {
        match found(&body.mesh, given) {
            Ok(found) => pistons.push((index, found)),
            Err(error) => first_reason = first_reason.or(Some(error)),
        }
    }
    if pistons.len() > 1 {
        return Err(PartError::SeveralPistons { count: pistons.len() });
    }
    let Some((index, found)) = pistons.pop() else {
        return Err(
            first_reason.unwrap_or_else(|| refused("the file holds no body with volume", "no round surface".into()))
        );
    };
    Ok(PickedPiston { index, found, left_out: volumes.without(index) })
}

fn refused(reason: &str, found: String) -> PartError {
    PartError::NotAPiston { reason: reason.into(), found }
}

/// The outer cylinder: a point of its axis, the direction, the radius.
struct Cylinder {
    center: Point3<f64>,
    axis: Vector3<f64>,
    radius: f64,
}

fn found(mesh: &Mesh, given: &GivenPiston) -> Result<Found, PartError> {
    let direction = |what: &str, axis: &Option<Vector3<f64>>| match axis {
        Some(axis) => unit(axis)
            .map(Some)
            .ok_or_else(|| PartError::GivenDoesNotFit { reason: format!("{what} is zero or not finite") }),
        None => Ok(None),
    };
    let crown_direction = direction("the crown direction", &given.crown_direction)?;
    let pin_axis = direction("the pin axis", &given.pin_axis)?;
    let cylinder = outer_cylinder(mesh, given, crown_direction)?;
    let pin = pin_of(mesh, &cylinder, given, pin_axis)?;
    let axis = match crown_direction {
        Some(crown) if crown.dot(&cylinder.axis) < 0.0 => -cylinder.axis,
        Some(_) => cylinder.axis,
        None => closed_side(mesh, &cylinder)?,
    };
    // The foot of the pin axis on the cylinder axis.
    let along = axis.dot(&(pin.center - cylinder.center));
    let origin = cylinder.center + axis * along;
    let lean = libm::asin(pin.axis.dot(&axis).abs().min(1.0));
    let z = pin.axis - axis * axis.dot(&pin.axis);
    let frame = Frame::new(origin, axis, z)
        .ok_or_else(|| refused("its pin bore runs along its axis", described(core::slice::from_ref(&pin))))?;
    let motion = frame.motion();
    let moved = mesh.clone().moved(&motion);
    let (low, high) = moved.bounds();
    let (low, crown) = (low.x, high.x);
    let outside = Outside::of(&moved);
    let offset = frame.point(&pin.center).y;
    let pin = pin_bore(&moved, offset, pin.main().radius, pin.main().sagitta, lean);
    if pin.bosses.is_empty() || pin.bosses.len() > 2 {
        let reason = format!("its pin bore has {} stretches of wall instead of one or two", pin.bosses.len());
        return Err(refused(&reason, format!("an outer cylinder of {:.2} mm", cylinder.radius * 2e3)));
    }
    let grooves = match &given.grooves {
        Some(list) => given_grooves(list, &outside, (low, crown))?,
        None => outside.grooves(crown),
    };
    let top = grooves.last().map_or(crown, |groove| groove.from);
    let skirt = outside.skirt(top, (low, crown));
    let skirt = match (skirt, &given.body) {
        (found, Some(body)) => {
            let radius = body.diameter / 2.0;
            let (from, to) = found.map_or((low, top), |skirt| (skirt.from, skirt.to));
            Skirt { radius, from, to, arc: found.map_or(LEAST_ARC, |s| s.arc), sagitta: 0.0 }
        }
        (Some(found), None) => found,
        (None, None) => return Err(refused("there is no round skirt below its grooves", "a round crown".into())),
    };
    Ok(Found { frame, motion, skirt, grooves, pin, crown, low })
}

fn given_grooves(
    list: &[super::GivenGroove],
    outside: &Outside<'_>,
    (low, crown): (f64, f64),
) -> Result<Vec<Groove>, PartError> {
    let radius = outside.skirt(crown, (low, crown)).map_or(0.0, |skirt| skirt.radius);
    let grooves: Vec<Groove> = list.iter().map(|groove| groove.placed(crown, radius)).collect();
    let sound = |g: &Groove| g.from > low && g.to < crown && g.width() > 0.0 && g.depth() > 0.0 && g.floor_radius > 0.0;
    let falling = grooves.windows(2).all(|pair| pair[1].to < pair[0].from);
    if grooves.iter().all(sound) && falling {
        Ok(grooves)
    } else {
        let reason = "ring grooves must lie within the piston, from the crown down, without touching".into();
        Err(PartError::GivenDoesNotFit { reason })
    }
}

fn outer_cylinder(
    mesh: &Mesh,
    given: &GivenPiston,
    crown_direction: Option<Vector3<f64>>,
) -> Result<Cylinder, PartError> {
    if let (Some(body), Some(axis)) = (&given.body, crown_direction) {
        let (low, high) = mesh.bounds();
        if !(body.diameter > 0.0 && body.diameter <= 1.5 * (high - low).norm()) {
            let reason = "the diameter of the piston's body is not positive, or larger than the part".into();
            return Err(PartError::GivenDoesNotFit { reason });
        }
        let radius = body.diameter / 2.0;
        if (0..mesh.points().len()).all(|p| (mesh.points()[p] - body.center).norm() > 2.0 * (high - low).norm()) {
            return Err(PartError::GivenDoesNotFit { reason: "the point of its axis lies far from the part".into() });
        }
        return Ok(Cylinder { center: body.center, axis, radius });
    }
    let outsides = round_outsides(mesh);
    let allowed = |b: &&Bore| crown_direction.is_none_or(|axis| b.axis.dot(&axis).abs() > 0.99);
    let full = outsides.iter().filter(allowed).filter(|b| b.seats.iter().any(|seat| seat.arc >= LEAST_ARC));
    let mut reason = "nothing round goes all the way round it";
    for candidate in full {
        let Some((cylinder, frame)) = around(mesh, candidate) else { continue };
        // Ring grooves and a tapered belt make several radii; whatever reaches farthest must be a ring or near one.
        if Outside::of(&mesh.clone().moved(&frame.motion())).ringed(cylinder.radius * (1.0 - TAPER)) {
            return Ok(cylinder);
        }
        reason = "it stands out of its own outer cylinder";
    }
    Err(refused(reason, named(&outsides)))
}

/// The cylinder round a whole body about the axis of one of its round outsides, and a frame with `x` along it.
fn around(mesh: &Mesh, outside: &Bore) -> Option<(Cylinder, Frame)> {
    let (center, axis) = (outside.center, outside.axis);
    let radius = mesh.points().iter().map(|p| distance(p, &center, &axis)).fold(0.0, f64::max);
    Some((Cylinder { center, axis, radius }, along(&center, &axis)?))
}

/// A frame with `x` along an axis.
fn along(center: &Point3<f64>, axis: &Vector3<f64>) -> Option<Frame> {
    let mut helper = Vector3::zeros();
    helper[axis.iamin()] = 1.0;
    Frame::new(*center, *axis, axis.cross(&helper))
}

fn named(outsides: &[Bore]) -> String {
    if outsides.is_empty() {
        return "no round outside".into();
    }
    let list: Vec<String> = outsides
        .iter()
        .map(|b| format!("a round outside of {:.2} mm at {}", b.diameter() * 1e3, Place::from(&b.center)))
        .collect();
    list.join(", ")
}

/// Distance of a point from a line.
fn distance(point: &Point3<f64>, center: &Point3<f64>, axis: &Vector3<f64>) -> f64 {
    let arm = point - center;
    (arm - axis * axis.dot(&arm)).norm()
}

fn pin_of(
    mesh: &Mesh,
    cylinder: &Cylinder,
    given: &GivenPiston,
    pin_axis: Option<Vector3<f64>>,
) -> Result<Bore, PartError> {
    let fits = |bore: &Bore| {
        let share = bore.main().radius / cylinder.radius;
        let apart = bore.center - cylinder.center;
        let beside = apart.dot(&bore.axis.cross(&cylinder.axis)).abs();
        bore.axis.dot(&cylinder.axis).abs() < LEAN
            && pin_axis.is_none_or(|axis| axis.dot(&bore.axis).abs() > 0.99)
            && share > PIN_RADIUS.0
            && share < PIN_RADIUS.1
            && beside < PIN_OFFSET * cylinder.radius
    };
    if let (Some(bore), Some(axis)) = (&given.pin_bore, pin_axis) {
        let made = by_hand(bore.center, bore.diameter / 2.0, axis);
        return if fits(&made) {
            Ok(made)
        } else {
            Err(PartError::GivenDoesNotFit {
                reason: "the pin bore does not cross the cylinder axis at a right angle, or is not of a pin's size"
                    .into(),
            })
        };
    }
    let mut search = BoreSearch::new(mesh);
    while search.advance() {
        let pins = search.found().iter().filter(|bore| fits(bore));
        if let Some(widest) = pins.max_by(|a, b| a.diameter().total_cmp(&b.diameter())) {
            return Ok(widest.clone());
        }
    }
    let found = format!("an outer cylinder of {:.2} mm, {}", cylinder.radius * 2e3, described(search.found()));
    Err(refused("no pin bore crosses its axis", found))
}

fn by_hand(center: Point3<f64>, radius: f64, axis: Vector3<f64>) -> Bore {
    let seat = crate::part::Seat {
        radius,
        from: -radius,
        to: radius,
        arc: 4.0 * FRAC_PI_2,
        sagitta: 0.0,
        residual: 0.0,
        gap: 0.0,
    };
    Bore { center, axis, seats: vec![seat] }
}

/// The direction along the axis at whose end the body is closed while the other end is open.
fn closed_side(mesh: &Mesh, cylinder: &Cylinder) -> Result<Vector3<f64>, PartError> {
    let Some(frame) = along(&cylinder.center, &cylinder.axis) else {
        return Err(refused("its axis has no direction", "an outer cylinder".into()));
    };
    let moved = mesh.clone().moved(&frame.motion());
    let (low, high) = moved.bounds();
    let points: Vec<Vector2<f64>> = disc_points(0.9 * cylinder.radius, LINES);
    let rays = AxisRays::new(&moved, &points);
    // A crown may be domed or hollowed by valve pockets, but not by half its radius.
    let near = 0.5 * cylinder.radius.min(high.x - low.x);
    let share = |closed: &dyn Fn(f64, f64) -> bool| {
        let met = rays.spans().iter().filter_map(|spans| Some(closed(spans.last()?.from, spans.first()?.to)));
        met.filter(|closed| *closed).count() as f64 / LINES as f64
    };
    let up = share(&|_, top| high.x - top < near);
    let down = share(&|bottom, _| bottom - low.x < near);
    let found = || {
        format!(
            "an outer cylinder of {:.2} mm, closed over {:.0} % at one end and {:.0} % at the other",
            cylinder.radius * 2e3,
            up * 100.0,
            down * 100.0
        )
    };
    match (up >= CLOSED, down >= CLOSED) {
        (true, false) if down <= 1.0 - OPEN => Ok(frame.direction_to_file(&Vector3::x())),
        (false, true) if up <= 1.0 - OPEN => Ok(-frame.direction_to_file(&Vector3::x())),
        (false, false) => Err(refused("no side of it is closed by a crown", found())),
        _ => Err(refused("it is closed at both ends, or nearly, so that its crown cannot be told", found())),
    }
}
