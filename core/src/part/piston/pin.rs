use core::f64::consts::TAU;

use crate::mesh::Mesh;
use crate::numeric::sort_few;
use crate::part::piston::{Boss, PinBore};

/// Corners of the bore's wall lie this near to its circle, share of the radius.
const ON_WALL: f64 = 0.02;

/// Bosses nearer to each other than this, m, are one with a slit.
const SLIT: f64 = 0.3e-3;

/// Stretches at one side, apart by no more than this share of the diameter, are one boss with a groove for a clip.
const CLIP: f64 = 0.5;

/// A boss shorter than this share of the diameter is the wall of a hole: a pin would tear it. (Common practice for printed
/// and cast pistons is 0.6 to 1; no source.)
const LEAST_LENGTH: f64 = 0.3;

/// Shorter than this the pin runs in bare walls.
const BARE: f64 = 0.5;

/// What speaks against a pin bore.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum PinFault {
    /// It has no wall.
    NoWall,
    /// It has a wall at one side of the piston's axis only.
    OneSide,
    /// A wall shorter than a pin asks for: its length and the diameter, m.
    TooShort(f64, f64),
    /// More stretches of wall than two.
    Stretches(usize),
}

impl PinFault {
    /// In words that go on "it".
    pub(super) fn words(self, diameter: f64) -> String {
        let bore = format!("the bore of {:.2} mm across its axis", diameter * 1e3);
        match self {
            Self::NoWall => format!("{bore} has no wall"),
            Self::OneSide => format!("{bore} runs through one side only"),
            Self::TooShort(length, _) => {
                format!("{bore} is too short for a pin: its wall is {:.2} mm long at one side", length * 1e3)
            }
            Self::Stretches(count) => format!("{bore} has {count} stretches of wall instead of one or two"),
        }
    }
}

impl PinBore {
    /// Whether a pin can run in it: a boss at each side of the axis, or one across it, each long enough.
    pub(super) fn checked(&self) -> Result<(), PinFault> {
        let middle = |boss: &Boss| f64::midpoint(boss.from, boss.to);
        match self.bosses.as_slice() {
            [] => return Err(PinFault::NoWall),
            [one] if one.from >= 0.0 || one.to <= 0.0 => return Err(PinFault::OneSide),
            [one, other] if middle(one) * middle(other) >= 0.0 => return Err(PinFault::OneSide),
            [_] | [_, _] => {}
            more => return Err(PinFault::Stretches(more.len())),
        }
        let shortest = self.bosses.iter().map(|boss| boss.bearing_length).fold(f64::INFINITY, f64::min);
        let diameter = 2.0 * self.radius;
        if shortest < LEAST_LENGTH * diameter { Err(PinFault::TooShort(shortest, diameter)) } else { Ok(()) }
    }

    /// Area that carries the pin, seen along its load, m².
    pub(super) fn area(&self) -> f64 {
        2.0 * self.radius * self.bearing_length()
    }

    /// The longest boss, where even that is no more than a bare wall.
    pub(super) fn bare(&self) -> Option<Boss> {
        let longest = self.bosses.iter().max_by(|a, b| a.bearing_length.total_cmp(&b.bearing_length))?;
        (longest.bearing_length < BARE * 2.0 * self.radius).then_some(*longest)
    }
}

/// The bosses round a bore along `z` at `x = 0`, `y = offset`, in the frame of the piston.
pub(super) fn pin_bore(mesh: &Mesh, offset: f64, radius: f64, sagitta: f64, lean: f64) -> PinBore {
    let mut pieces: Vec<(f64, f64, f64)> = Vec::new();
    for facet in 0..mesh.facets().len() {
        let corners = mesh.corners(facet).map(|c| (c.x, c.y - offset, c.z));
        let on_wall = |&(x, y, _): &(f64, f64, f64)| (libm::hypot(x, y) - radius).abs() < ON_WALL * radius;
        if !corners.iter().all(on_wall) {
            continue;
        }
        let twice = mesh.area_vector(facet);
        let Some(normal) = twice.try_normalize(0.0) else { continue };
        let (x, y) = corners.iter().fold((0.0, 0.0), |sum, c| (sum.0 + c.0, sum.1 + c.1));
        if normal.z.abs() > 0.1 || normal.x * x + normal.y * y > -0.95 * libm::hypot(x, y) {
            continue;
        }
        let z = corners.map(|c| c.2);
        pieces.push((z[0].min(z[1]).min(z[2]), z[0].max(z[1]).max(z[2]), twice.norm() / 2.0));
    }
    sort_few(&mut pieces, |a, b| a.0.total_cmp(&b.0).then(a.1.total_cmp(&b.1)));
    let mut found: Vec<(Boss, f64)> = Vec::new();
    for (from, to, area) in pieces {
        match found.last_mut() {
            Some((boss, sum)) if from <= boss.to + SLIT => {
                boss.to = boss.to.max(to);
                *sum += area;
            }
            _ => found.push((Boss { from, to, bearing_length: 0.0 }, area)),
        }
    }
    // Slivers where another hole crosses the bore are no bosses.
    let longest = found.iter().map(|(_, area)| *area).fold(0.0, f64::max);
    let mut bosses: Vec<Boss> = found
        .into_iter()
        .filter(|(_, area)| *area > 0.1 * longest)
        .map(|(boss, area)| Boss { bearing_length: (area / (TAU * radius)).min(boss.to - boss.from), ..boss })
        .collect();
    bosses.dedup_by(|next, boss| {
        let beside = next.from - boss.to < CLIP * 2.0 * radius
            && (boss.from > 0.0) == (next.from > 0.0)
            && boss.to * next.to > 0.0;
        if beside {
            boss.to = next.to;
            boss.bearing_length += next.bearing_length;
        }
        beside
    });
    PinBore { radius, offset, sagitta, bosses, lean }
}
