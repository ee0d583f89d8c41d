use core::f64::consts::TAU;

use nalgebra::{Point3, Vector3};

use super::assembly::sorted_out;
use super::axes::upward;
use super::bore::Bore;
use super::ends::{Naming, along, faced, named};
use super::error::PartError;
use super::frame::Frame;
use super::left_out::{LeftOut, Volumes, with_roles};
use super::named::{NEARLY_PARALLEL, NamedBores, beside};
use super::search::{BoreSearch, Sight};
use super::shape::BorePair;
use super::slopes::Slopes;
use super::thickness::ThicknessFactors;
use crate::input::BoresByHand;
use crate::mesh::{Body, Mesh, MeshError, Place};
use crate::numeric::{sort_few, unit};
use crate::part::cap;

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
    /// The same rod thicker or thinner along its pins. Where neighbouring parts differ the shank slopes from one to the other,
    /// as sections, which step, do not.
    ///
    /// # Errors
    ///
    /// Where facets cut at the ends of the slopes do not close again.
    pub fn with_thickness(&self, factors: &ThicknessFactors) -> Result<Self, MeshError> {
        let slopes = Slopes::of(self, factors);
        let mesh = self.mesh.cut_across(&slopes.ends())?;
        let mut made = self.clone();
        made.mesh = mesh.stretched_along_z(|point| slopes.at(point.x));
        for eye in [&mut made.small_end, &mut made.big_end] {
            let factor = slopes.at(eye.center.x);
            eye.center.z *= factor;
            for seat in &mut eye.bore.seats {
                seat.from *= factor;
                seat.to *= factor;
                seat.gap *= factor;
            }
        }
        Ok(made)
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

impl GivenRod {
    /// With the axis made a unit vector.
    pub(super) fn checked(&self) -> Result<Self, PartError> {
        let fault = || PartError::GivenDoesNotFit { reason: "the axis is zero or not finite".into() };
        let pin_axis = self.pin_axis.map(|axis| unit(&axis).ok_or_else(fault)).transpose()?;
        Ok(Self { pin_axis, ..*self })
    }

    /// Whether a bore is named.
    pub(super) fn anything(&self) -> bool {
        self.small_end.is_some() || self.big_end.is_some()
    }
}

/// Picks the one rod among the bodies of a file.
pub fn find_rod(bodies: Vec<Body>, given: &GivenRod) -> Result<Rod, PartError> {
    let bodies = sorted_out(bodies, &given.checked()?, &|_| false);
    let picked = pick_rod(&bodies, given, None)?;
    picked.built(bodies)
}

/// The rod among some bodies, before its body is taken out of them.
pub(super) struct PickedRod {
    index: usize,
    ends: RodEnds,
    left_out: Vec<LeftOut>,
    given: GivenRod,
    only: Option<usize>,
}

impl PickedRod {
    /// The rod, out of the bodies it was picked from.
    pub(super) fn built(mut self, bodies: Vec<Body>) -> Result<Rod, PartError> {
        let RodEnds { small, big, frame, .. } = &self.ends;
        if let Some(cap) = cap::beside(&bodies, self.index, [small, big], frame) {
            let (bodies, rod) = cap.clamped(bodies, self.index);
            let whole = pick_rod(&bodies, &self.given, self.only.map(|_| rod))?.built(bodies)?;
            return Ok(Rod { cap_gap: cap.gap, ..whole });
        }
        let bores = [("small-end", &self.ends.small), ("big-end", &self.ends.big)];
        with_roles(&mut self.left_out, &bodies, self.index, &bores);
        match bodies.into_iter().nth(self.index) {
            Some(body) => Ok(assembled(body, self.ends, self.left_out)),
            None => Err(PartError::SeveralRods { count: 0 }),
        }
    }
}

/// Looks for the one rod among the bodies of a file, or in `only` one of them.
pub(super) fn pick_rod(bodies: &[Body], given: &GivenRod, only: Option<usize>) -> Result<PickedRod, PartError> {
    let given = &given.checked()?;
    let volumes = Volumes::of(bodies);
    let mut first_reason = None;
    let mut rods = Vec::new();
    let looked_at = |index: usize| only.map_or_else(|| volumes.worth_a_look(index), |only| only == index);
    for (index, body) in bodies.iter().enumerate().filter(|(index, _)| looked_at(*index)) {
        match ends(&body.mesh, given) {
            Ok(ends) => rods.push((index, ends)),
            Err(error) => first_reason = first_reason.or(Some(error)),
        }
        // What is named is the first that it fits.
        if given.anything() && !rods.is_empty() {
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
    Ok(PickedRod { index, ends, left_out: volumes.without(index), given: *given, only })
}

/// Both bores of a rod, and the frame they make.
#[derive(Debug, Clone)]
pub(super) struct RodEnds {
    pub(super) small: Bore,
    pub(super) big: Bore,
    frame: Frame,
    naming: Naming,
}

impl RodEnds {
    /// Of two bores on different axes.
    fn of(small: &Bore, big: &Bore, naming: Naming) -> Option<Self> {
        let axis = upward((small.axis + big.axis * small.axis.dot(&big.axis).signum()).normalize());
        let frame = Frame::new(small.center, big.center - small.center, axis)?;
        Some(Self { small: small.clone(), big: big.clone(), frame, naming })
    }

    /// In the frame that the part itself asks for.
    fn faced(self, mesh: &Mesh) -> Self {
        let frame = faced(mesh, self.frame, self.distance());
        let [small, big] = [self.small, self.big].map(|bore| along(&frame, bore));
        Self { small, big, frame, naming: self.naming }
    }

    fn distance(&self) -> f64 {
        self.frame.point(&self.big.center).x
    }

    /// What speaks against a rod with these ends.
    fn against(&self, mesh: &Mesh, others: &[Bore]) -> Option<String> {
        let Self { small, big, frame, .. } = self;
        BorePair { mesh, small, big, frame, distance: self.distance() }.against(others)
    }
}

/// Both ends of the rod that a body is.
pub(super) fn ends(mesh: &Mesh, given: &GivenRod) -> Result<RodEnds, PartError> {
    match (&given.small_end, &given.big_end) {
        (Some(small), Some(big)) => by_hand(mesh, small, big, given.pin_axis),
        (Some(one), None) => one_by_hand(mesh, one, true, given.pin_axis),
        (None, Some(one)) => one_by_hand(mesh, one, false, given.pin_axis),
        (None, None) => recognised(mesh, given.pin_axis),
    }
}

fn recognised(mesh: &Mesh, pin_axis: Option<Vector3<f64>>) -> Result<RodEnds, PartError> {
    let mut search = BoreSearch::new(mesh);
    let mut reason = None;
    while search.advance() {
        match rod_among(mesh, search.found(), pin_axis) {
            Ok(ends) => return Ok(ends),
            // The last reason has seen all bores.
            Err(why) => reason = Some(why),
        }
    }
    let mut coarse = BoreSearch::with(mesh, Sight::Coarse);
    while coarse.advance() {
        if let Ok(ends) = rod_among(mesh, coarse.found(), pin_axis) {
            return Err(few_sides(&ends));
        }
    }
    let reason = reason.unwrap_or_else(|| "it has no bore".into());
    Err(PartError::NotARod { reason, found: described(search.found()) })
}

/// The question that bores of very few sides are.
fn few_sides(ends: &RodEnds) -> PartError {
    let told = [("small", &ends.small), ("big", &ends.big)].map(|(end, bore)| {
        let seat = bore.main();
        format!(
            "the {end}-end bore has {:.0} sides, {:.2} mm over the corners and {:.2} mm between the sides",
            seat.sides(),
            2e3 * seat.radius,
            2e3 * (seat.radius - seat.sagitta)
        )
    });
    let by_hand = |bore: &Bore| {
        let [x, y, z] = Place::from(&bore.center).mm;
        [x, y, z, bore.diameter() * 1e3]
    };
    PartError::FewSides {
        told: told.join("; "),
        bores: BoresByHand {
            small_end_mm: by_hand(&ends.small),
            big_end_mm: by_hand(&ends.big),
            pin_axis: ends.frame.direction_to_file(&Vector3::z()).into(),
        },
    }
}

/// The rod that two of the bores make, or why the pair farthest apart makes none.
fn rod_among(mesh: &Mesh, bores: &[Bore], pin_axis: Option<Vector3<f64>>) -> Result<RodEnds, String> {
    let allowed = |bore: &Bore| pin_axis.is_none_or(|axis| bore.axis.dot(&axis).abs() > NEARLY_PARALLEL);
    let mut pairs = Vec::new();
    for (i, a) in bores.iter().enumerate().filter(|(_, a)| allowed(a)) {
        for b in bores[i + 1..].iter().filter(|b| b.axis.dot(&a.axis).abs() > 0.999) {
            pairs.push((beside(a, &b.center), a, b));
        }
    }
    sort_few(&mut pairs, |p, q| q.0.total_cmp(&p.0));
    let mut reason = None;
    for (_, a, b) in pairs {
        let (small, big, naming) = named(mesh, a, b);
        match judged(mesh, small, big, bores, naming) {
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
fn judged(mesh: &Mesh, small: &Bore, big: &Bore, others: &[Bore], naming: Naming) -> Result<RodEnds, String> {
    let ends = RodEnds::of(small, big, naming).ok_or_else(|| String::from("its bores lie on one axis"))?;
    match ends.against(mesh, others) {
        None => Ok(ends.faced(mesh)),
        Some(why) => Err(why),
    }
}

fn by_hand(mesh: &Mesh, small: &GivenBore, big: &GivenBore, axis: Option<Vector3<f64>>) -> Result<RodEnds, PartError> {
    let fault = |reason: &str| PartError::GivenDoesNotFit { reason: reason.into() };
    let mut bores = NamedBores::new(mesh);
    let small = bores.bore(small, axis)?;
    let big = bores.bore(big, axis)?;
    if small.axis.dot(&big.axis).abs() < NEARLY_PARALLEL {
        return Err(fault("the two bores are not parallel"));
    }
    let ends = RodEnds::of(&small, &big, Naming::Diameter).ok_or_else(|| fault("the two centres lie on one axis"))?;
    Ok(ends.faced(mesh))
}

/// One end is named, the other looked for.
fn one_by_hand(mesh: &Mesh, one: &GivenBore, is_small: bool, axis: Option<Vector3<f64>>) -> Result<RodEnds, PartError> {
    let mut bores = NamedBores::new(mesh);
    let one = bores.bore(one, axis)?;
    let found = bores.others();
    let mut others: Vec<&Bore> = found
        .iter()
        .filter(|bore| {
            bore.axis.dot(&one.axis).abs() > NEARLY_PARALLEL && beside(bore, &one.center) > one.main().radius
        })
        .collect();
    sort_few(&mut others, |a, b| beside(b, &one.center).total_cmp(&beside(a, &one.center)));
    let mut reason = None;
    for other in others {
        let (small, big) = if is_small { (&one, other) } else { (other, &one) };
        match judged(mesh, small, big, &found, Naming::Diameter) {
            Ok(ends) => return Ok(ends),
            Err(why) => reason = reason.or(Some(why)),
        }
    }
    let end = if is_small { "big" } else { "small" };
    Err(PartError::NotARod {
        reason: reason.unwrap_or_else(|| format!("no bore was seen that could be its {end} end")),
        found: described(&found),
    })
}

fn assembled(body: Body, ends: RodEnds, left_out: Vec<LeftOut>) -> Rod {
    let RodEnds { small, big, frame, naming } = ends;
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
