use core::f64::consts::FRAC_PI_2;

use nalgebra::{Isometry3, Point3, Vector3};

use super::doubt::{Doubts, PistonDoubt};
use super::ends::{PistonEnds, over_and_under};
use super::outside::{Outside, TAPER, straightened};
use super::pin::{PinFault, pin_bore};
use crate::mesh::{Body, Mesh, Place};
use crate::numeric::{sort_few, unit};
use crate::part::bore::{Bore, Seat};
use crate::part::ends::faced;
use crate::part::error::PartError;
use crate::part::frame::Frame;
use crate::part::left_out::{LeftOut, Volumes};
use crate::part::piston::{Collar, GivenPiston, Groove, PinBore, Piston, Skirt};
use crate::part::rod::described;
use crate::part::search::{BoreSearch, round_outsides};

/// The outside of a piston goes at least this far round, rad: its ring belt, whatever is cut from its skirt.
const LEAST_ARC: f64 = 5.2;

/// Pin bores are this large against the outer radius, and their axis passes the cylinder axis within the last share.
/// (Common practice, no source.)
const PIN_RADIUS: (f64, f64) = (0.1, 0.6);
const PIN_OFFSET: f64 = 0.25;

/// Sine of the greatest angle by which pin and cylinder axis may miss a right angle.
const LEAN: f64 = 0.05;

/// Another bore with this share of the pin bore's area may be the pin's as well.
const AS_GOOD: f64 = 0.5;

/// Bores on one axis whose radii differ by more than this share are steps of one: less is how round a bore was drawn.
const STEP: f64 = 0.03;

/// Picks the one piston among the bodies of a file.
pub fn find_piston(bodies: Vec<Body>, given: &GivenPiston) -> Result<Piston, PartError> {
    pick_piston(&bodies, given)?.built(bodies)
}

/// The piston among some bodies, before its body is taken out of them.
pub(in crate::part) struct PickedPiston {
    index: usize,
    found: FoundPiston,
    left_out: Vec<LeftOut>,
}

struct FoundPiston {
    frame: Frame,
    motion: Isometry3<f64>,
    skirt: Skirt,
    grooves: Vec<Groove>,
    skirt_grooves: Vec<Groove>,
    collar: Option<Collar>,
    lip: Option<Collar>,
    pin: PinBore,
    crown: f64,
    low: f64,
    doubts: Vec<PistonDoubt>,
}

impl PickedPiston {
    /// The piston, out of the bodies it was picked from.
    pub(in crate::part) fn built(self, bodies: Vec<Body>) -> Result<Piston, PartError> {
        let FoundPiston { frame, motion, skirt, grooves, skirt_grooves, collar, lip, pin, crown, low, doubts } =
            self.found;
        let body = bodies.into_iter().nth(self.index).ok_or(PartError::SeveralPistons { count: 0 })?;
        Ok(Piston {
            mesh: body.mesh.moved(&motion),
            frame,
            skirt,
            grooves,
            skirt_grooves,
            collar,
            lip,
            pin,
            compression_height: crown,
            low,
            overlapping: body.outer_shells > 1,
            voids: body.voids,
            left_out: self.left_out,
            doubts,
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
struct BodyCylinder {
    center: Point3<f64>,
    axis: Vector3<f64>,
    radius: f64,
}

fn found(mesh: &Mesh, given: &GivenPiston) -> Result<FoundPiston, PartError> {
    let direction = |what: &str, axis: &Option<Vector3<f64>>| match axis {
        Some(axis) => unit(axis)
            .map(Some)
            .ok_or_else(|| PartError::GivenDoesNotFit { reason: format!("{what} is zero or not finite") }),
        None => Ok(None),
    };
    let crown_direction = direction("the crown direction", &given.crown_direction)?;
    let pin_axis = direction("the pin axis", &given.pin_axis)?;
    let cylinder = outer_cylinder(mesh, given, crown_direction)?;
    let (pin, other) = pin_of(mesh, &cylinder, given, pin_axis)?;
    let axis = match crown_direction {
        Some(crown) if crown.dot(&cylinder.axis) < 0.0 => -cylinder.axis,
        Some(_) => cylinder.axis,
        None => closed_side(mesh, &cylinder, &pin)?,
    };
    let (frame, lean) = crossing(&cylinder, axis, &pin)
        .ok_or_else(|| refused("its pin bore runs along its axis", described(core::slice::from_ref(&pin))))?;
    let frame = faced(mesh, frame, 2.0 * cylinder.radius);
    let motion = frame.motion();
    let moved = mesh.clone().moved(&motion);
    let (low, high) = moved.bounds();
    let (low, crown) = (low.x, high.x);
    let outside = Outside::of(&moved);
    let offset = frame.point(&pin.center).y;
    let pin = pin_bore(&moved, offset, pin.main().radius, pin.main().sagitta, lean);
    let around = || format!("an outer cylinder of {:.2} mm", cylinder.radius * 2e3);
    if pin.bosses.is_empty() || pin.bosses.len() > 2 {
        return Err(refused(&PinFault::Stretches(pin.bosses.len()).words(2.0 * pin.radius), around()));
    }
    let (grooves, skirt_grooves) = over_and_under(match &given.grooves {
        Some(list) => given_grooves(list, &outside, (low, crown))?,
        None => outside.grooves(crown),
    });
    if crown_direction.is_none() && given.grooves.is_none() && grooves.is_empty() && !skirt_grooves.is_empty() {
        let reason = "its ring grooves lie at the open end and its closed end has none, so that nothing tells which end is the crown";
        return Err(refused(reason, around()));
    }
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
    let lip = outside.out_of(skirt.radius, (low, top));
    let collar = grooves.first().and_then(|first| outside.out_of(first.land_radius, (first.to, crown)));
    let flange = [lip, collar].into_iter().flatten().find(|out| out.radius > skirt.radius * (1.0 + TAPER));
    if let (Some(flange), None) = (flange, &given.body) {
        let (wide, body) = (flange.radius * 2e3, skirt.radius * 2e3);
        let reason = format!("a flange of {wide:.2} mm stands out of its body of {body:.2} mm");
        return Err(refused(&reason, around()));
    }
    let doubts = Doubts { given, pin: &pin, other, lip, collar, skirt: &skirt, ends: (crown, low) };
    let doubts = doubts.list(grooves.is_empty());
    Ok(FoundPiston { frame, motion, skirt, grooves, skirt_grooves, collar, lip, pin, crown, low, doubts })
}

/// A frame at the foot of the pin axis on the cylinder axis, `x` along a direction of that, `z` along the pin; and how far
/// the two axes miss a right angle, rad.
fn crossing(cylinder: &BodyCylinder, axis: Vector3<f64>, pin: &Bore) -> Option<(Frame, f64)> {
    let along = axis.dot(&(pin.center - cylinder.center));
    let origin = cylinder.center + axis * along;
    let lean = libm::asin(pin.axis.dot(&axis).abs().min(1.0));
    let z = pin.axis - axis * axis.dot(&pin.axis);
    Some((Frame::new(origin, axis, z)?, lean))
}

fn given_grooves(
    list: &[crate::part::piston::GivenGroove],
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
) -> Result<BodyCylinder, PartError> {
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
        return Ok(BodyCylinder { center: body.center, axis, radius });
    }
    let outsides = round_outsides(mesh);
    let allowed = |b: &&Bore| {
        crown_direction.is_none_or(|axis| b.axis.dot(&axis).abs() > 0.99)
            && b.seats.iter().any(|seat| seat.arc >= LEAST_ARC)
    };
    let mut reason = "nothing round goes all the way round it";
    let mut candidates: Vec<Bore> = outsides.iter().filter(allowed).cloned().collect();
    // Walls of two nearly equal radii are no circle; the hollow of such a body has its axis too.
    let mut search: Option<BoreSearch<'_>> = None;
    loop {
        for candidate in &candidates {
            let Some((cylinder, frame)) = around(mesh, candidate) else { continue };
            // Ring grooves and a tapered belt make several radii; whatever reaches farthest must be a ring or near one.
            if Outside::of(&mesh.clone().moved(&frame.motion())).ringed(cylinder.radius * (1.0 - TAPER)) {
                return Ok(cylinder);
            }
            reason = "it stands out of its own outer cylinder";
        }
        let search = search.get_or_insert_with(|| BoreSearch::new(mesh));
        if !search.advance() {
            return Err(refused(reason, named(&outsides)));
        }
        candidates = search.found().iter().filter(allowed).cloned().collect();
    }
}

/// The cylinder round a whole body about the axis of one of its round outsides, and a frame with `x` along it.
fn around(mesh: &Mesh, outside: &Bore) -> Option<(BodyCylinder, Frame)> {
    let (center, axis) = straightened(mesh, (outside.center, outside.axis));
    let radius = mesh.points().iter().map(|p| distance(p, &center, &axis)).fold(0.0, f64::max);
    Some((BodyCylinder { center, axis, radius }, along(&center, &axis)?))
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

/// The pin's bore, and the diameter of another that may be it as well, m.
fn pin_of(
    mesh: &Mesh,
    cylinder: &BodyCylinder,
    given: &GivenPiston,
    pin_axis: Option<Vector3<f64>>,
) -> Result<(Bore, Option<f64>), PartError> {
    let crosses = |bore: &Bore| {
        let apart = bore.center - cylinder.center;
        let beside = apart.dot(&bore.axis.cross(&cylinder.axis)).abs();
        bore.axis.dot(&cylinder.axis).abs() < LEAN
            && pin_axis.is_none_or(|axis| axis.dot(&bore.axis).abs() > 0.99)
            && beside < PIN_OFFSET * cylinder.radius
    };
    let of_a_pin = |seat: &Seat| {
        let share = seat.radius / cylinder.radius;
        share > PIN_RADIUS.0 && share < PIN_RADIUS.1
    };
    if let (Some(bore), Some(axis)) = (&given.pin_bore, pin_axis) {
        let made = by_hand(bore.center, bore.diameter / 2.0, axis);
        return if crosses(&made) && of_a_pin(made.main()) {
            Ok((made, None))
        } else {
            Err(PartError::GivenDoesNotFit {
                reason: "the pin bore does not cross the cylinder axis at a right angle, or is not of a pin's size"
                    .into(),
            })
        };
    }
    let mut search = BoreSearch::new(mesh);
    let mut looked = 0;
    let mut candidates: Vec<Candidate> = Vec::new();
    while search.advance() {
        for bore in search.found().iter().skip(looked).filter(|bore| crosses(bore)) {
            let seats = bore.seats.iter().filter(|seat| of_a_pin(seat));
            candidates.extend(seats.filter_map(|seat| Candidate::of(mesh, cylinder, bore, *seat)));
        }
        looked = search.found().len();
        // A bore through two bosses ends the search; one through bare walls may yet be that of a screw.
        if candidates.iter().any(|known| known.fault.is_none() && known.pin.bare().is_none()) {
            break;
        }
    }
    picked(candidates, || {
        format!("an outer cylinder of {:.2} mm, {}", cylinder.radius * 2e3, described(search.found()))
    })
}

/// A bore across that may be the pin's.
struct Candidate {
    bore: Bore,
    pin: PinBore,
    fault: Option<PinFault>,
}

impl Candidate {
    /// One seat of a bore, with the bosses that it has.
    fn of(mesh: &Mesh, cylinder: &BodyCylinder, bore: &Bore, seat: Seat) -> Option<Self> {
        let (frame, lean) = crossing(cylinder, cylinder.axis, bore)?;
        let offset = frame.point(&bore.center).y;
        let pin = pin_bore(&mesh.clone().moved(&frame.motion()), offset, seat.radius, seat.sagitta, lean);
        let fault = pin.checked().err();
        Some(Self { bore: Bore { seats: vec![seat], ..bore.clone() }, pin, fault })
    }
}

/// Of sound candidates the one with the most area for a pin; of stepped bosses the narrowest step, as a pin goes through all.
fn picked(mut candidates: Vec<Candidate>, found: impl Fn() -> String) -> Result<(Bore, Option<f64>), PartError> {
    sort_few(&mut candidates, |a, b| {
        a.fault.is_some().cmp(&b.fault.is_some()).then(b.pin.area().total_cmp(&a.pin.area()))
    });
    let mut candidates = candidates.into_iter();
    let Some(best) = candidates.next() else { return Err(refused("no pin bore crosses its axis", found())) };
    if let Some(fault) = best.fault {
        return Err(refused(&fault.words(2.0 * best.pin.radius), found()));
    }
    let beside = |known: &Candidate| {
        let apart = known.bore.center - best.bore.center;
        (apart - best.bore.axis * best.bore.axis.dot(&apart)).norm() > 0.1 * best.pin.radius
            || known.bore.axis.dot(&best.bore.axis).abs() < 0.99
    };
    let sound: Vec<Candidate> = candidates.filter(|known| known.fault.is_none()).collect();
    let steps = sound.iter().filter(|known| !beside(known) && known.pin.radius < (1.0 - STEP) * best.pin.radius);
    if let Some(narrow) = steps.min_by(|a, b| a.pin.radius.total_cmp(&b.pin.radius)) {
        return Ok((narrow.bore.clone(), Some(2.0 * best.pin.radius)));
    }
    let other = sound.iter().find(|known| known.pin.area() > AS_GOOD * best.pin.area() && beside(known));
    Ok((best.bore.clone(), other.map(|known| 2.0 * known.pin.radius)))
}

fn by_hand(center: Point3<f64>, radius: f64, axis: Vector3<f64>) -> Bore {
    let seat = Seat { radius, from: -radius, to: radius, arc: 4.0 * FRAC_PI_2, sagitta: 0.0, residual: 0.0, gap: 0.0 };
    Bore { center, axis, seats: vec![seat] }
}

/// The direction along the axis at whose end the body is closed while it is hollow for the rod from the other.
fn closed_side(mesh: &Mesh, cylinder: &BodyCylinder, pin: &Bore) -> Result<Vector3<f64>, PartError> {
    let Some(frame) = along(&cylinder.center, &cylinder.axis) else {
        return Err(refused("its axis has no direction", "an outer cylinder".into()));
    };
    let moved = mesh.clone().moved(&frame.motion());
    let ends = PistonEnds::of(&moved, cylinder.radius, frame.point(&pin.center).x, pin.main().radius);
    let up = frame.direction_to_file(&Vector3::x());
    match ends.crown_is_up() {
        Ok(true) => Ok(up),
        Ok(false) => Ok(-up),
        Err(reason) => Err(refused(reason, ends.described(cylinder.radius))),
    }
}
