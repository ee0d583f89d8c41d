//! Which end of a round body is the crown.

use nalgebra::Vector2;

use super::rays::{AxisRays, Span, disc_points};
use crate::mesh::Mesh;
use crate::part::piston::Groove;

/// Lines by which the ends are told.
const LINES: usize = 400;

/// The crown closes at least this share of the disc: holes for valves, a plug or screws open the rest.
const CLOSED: f64 = 0.75;

/// From below a crown is free for the rod over at least this share of the disc: a slot for a narrow rod takes a seventh.
const HOLLOW: f64 = 0.1;

/// Shares of the disc at one end of a body.
#[derive(Debug, Clone, Copy, PartialEq)]
struct PistonEnd {
    /// Lines that meet material between pin bore and this end.
    closed: f64,
    /// Lines that meet nothing else, and that beyond the pin bore alone: the hollow under a crown.
    hollow: f64,
}

impl PistonEnd {
    fn is_crown(self) -> bool {
        self.closed >= CLOSED && self.hollow >= HOLLOW
    }
}

/// Both ends of a body with its axis along `x`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct PistonEnds {
    up: PistonEnd,
    down: PistonEnd,
}

impl PistonEnds {
    /// Looks along lines within a radius; the pin bore crosses at a height.
    pub(super) fn of(mesh: &Mesh, radius: f64, pin_height: f64, pin_radius: f64) -> Self {
        let points: Vec<Vector2<f64>> = disc_points(0.9 * radius, LINES);
        let rays = AxisRays::new(mesh, &points);
        let share =
            |of: &dyn Fn(&[Span]) -> bool| rays.spans().iter().filter(|spans| of(spans)).count() as f64 / LINES as f64;
        // The highest stretch of a line comes first.
        let (over, under) = (pin_height + pin_radius, pin_height - pin_radius);
        let roof = |spans: &[Span]| spans.first().is_some_and(|span| span.to > over);
        let floor = |spans: &[Span]| spans.last().is_some_and(|span| span.from < under);
        let roof_alone = |spans: &[Span]| matches!(spans, [span] if span.from > over);
        let floor_alone = |spans: &[Span]| matches!(spans, [span] if span.to < under);
        Self {
            up: PistonEnd { closed: share(&roof), hollow: share(&roof_alone) },
            down: PistonEnd { closed: share(&floor), hollow: share(&floor_alone) },
        }
    }

    /// Whether the crown lies toward `x`, or what speaks against either.
    pub(super) fn crown_is_up(&self) -> Result<bool, &'static str> {
        match (self.up.is_crown(), self.down.is_crown()) {
            (true, false) => Ok(true),
            (false, true) => Ok(false),
            (true, true) => Err("it is closed at both ends, so that its crown cannot be told"),
            (false, false) if self.up.closed < CLOSED && self.down.closed < CLOSED => {
                Err("no side of it is closed by a crown")
            }
            (false, false) => Err("it is solid, or closed at both ends: no hollow for a rod opens below a crown"),
        }
    }

    /// Shares in words.
    pub(super) fn described(&self, radius: f64) -> String {
        let percent = |share: f64| format!("{:.0} %", share * 100.0);
        format!(
            "an outer cylinder of {:.2} mm, closed over {} at one end and {} at the other, hollow below over {} and {}",
            radius * 2e3,
            percent(self.up.closed),
            percent(self.down.closed),
            percent(self.up.hollow),
            percent(self.down.hollow)
        )
    }
}

/// Parts ring grooves, from the crown down, into those over the pin axis at height 0 and those under it.
pub(super) fn over_and_under(mut grooves: Vec<Groove>) -> (Vec<Groove>, Vec<Groove>) {
    let under = grooves.iter().position(|groove| f64::midpoint(groove.from, groove.to) < 0.0).unwrap_or(grooves.len());
    let below = grooves.split_off(under);
    (grooves, below)
}
