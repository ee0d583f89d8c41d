use nalgebra::{Point3, Vector2};

use super::{Sample, Surface, thickness_at};
use crate::part::{AxisRays, Piston, disc_points};
use crate::threads::map_in_order;

/// Points of the map: each stands for two thousandths of the crown's area.
const POINTS: usize = 2000;

/// The free crown ends where it is this many times as thick as in its middle: there a wall or a boss carries it.
const HELD: f64 = 2.0;

/// The middle of the crown reaches to this share of its radius.
const MIDDLE: f64 = 0.4;

/// The crown counts as thin as it is over this share of its free area: a single scratch does not make it thinner.
const THIN_SHARE: f64 = 0.05;

/// How thick a crown is, over its disc.
#[derive(Debug, Clone)]
pub struct CrownMap {
    /// Samples of equal area.
    pub samples: Vec<CrownSample>,
    /// Radius of the disc of the free crown's area, m.
    pub free_radius: f64,
    /// Radius of the crown, m.
    pub radius: f64,
    /// Thickness that all but a twentieth of the free crown exceeds, m.
    pub thin: f64,
    /// Mean over the free crown, m.
    pub mean: f64,
    /// Thickness that only a twentieth of the free crown exceeds, m.
    pub thick: f64,
    /// Inscribed sphere that all but a twentieth of the free crown exceeds, m; the same as `thin` on an even crown.
    pub thin_sphere: f64,
    /// Difference of height over the free crown's upper face, m: of a dome, a bowl or valve pockets.
    pub relief: f64,
    /// Height of the underside where the crown is free, m over the pin axis; mean.
    pub underside: f64,
}

/// The crown at one point.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CrownSample {
    /// Place on the disc `(y, z)`, m.
    pub at: Vector2<f64>,
    /// Height of the upper face, m over the pin axis.
    pub top: f64,
    /// Material along the axis below it, m.
    pub thickness: f64,
    /// Whether no wall or boss holds the crown there.
    pub free: bool,
}

impl CrownMap {
    /// Measures a piston's crown; `None` where no line along the axis meets it.
    pub fn of(piston: &Piston, surface: &Surface<'_>) -> Option<Self> {
        let radius = piston.land_radius();
        // Over a ring groove the crown is a land, not a plate.
        let inner = piston.grooves.iter().map(|groove| groove.floor_radius).fold(radius, f64::min);
        // The outermost facets are chords.
        let points = disc_points(0.995 * radius, POINTS);
        let rays = AxisRays::new(&piston.mesh, &points);
        let met: Vec<(Vector2<f64>, crate::part::Span)> =
            points.iter().zip(rays.spans()).filter_map(|(at, spans)| spans.first().map(|span| (*at, *span))).collect();
        let middle = sorted(met.iter().filter(|(at, _)| at.norm() < MIDDLE * radius).map(|(_, s)| s.to - s.from));
        let usual = *middle.get(middle.len() / 2)?;
        let samples: Vec<CrownSample> = met
            .iter()
            .map(|(at, span)| {
                let thickness = span.to - span.from;
                CrownSample { at: *at, top: span.to, thickness, free: thickness < HELD * usual && at.norm() < inner }
            })
            .collect();
        let free: Vec<&CrownSample> = samples.iter().filter(|sample| sample.free).collect();
        let thickness = sorted(free.iter().map(|sample| sample.thickness));
        let spheres = map_in_order(met.len(), |k| {
            let (at, span) = met[k];
            let sample = Sample { facet: span.facet_above, point: Point3::new(span.to, at.x, at.y) };
            samples[k].free.then(|| thickness_at(surface, &sample).map(|found| found.sphere)).flatten()
        });
        let spheres = sorted(spheres.into_iter().flatten());
        let count = free.len().max(1) as f64;
        let (low, high) =
            free.iter().fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), s| (l.min(s.top), h.max(s.top)));
        Some(Self {
            free_radius: radius * (free.len() as f64 / samples.len().max(1) as f64).sqrt(),
            radius,
            thin: quantile(&thickness, THIN_SHARE)?,
            mean: thickness.iter().sum::<f64>() / count,
            thick: quantile(&thickness, 1.0 - THIN_SHARE)?,
            thin_sphere: quantile(&spheres, THIN_SHARE).or_else(|| quantile(&thickness, THIN_SHARE))?,
            relief: high - low,
            underside: free.iter().map(|s| s.top - s.thickness).sum::<f64>() / count,
            samples,
        })
    }

    /// Thickness the crown plate is taken with, m: the thinner of line and sphere.
    pub fn plate(&self) -> f64 {
        self.thin.min(self.thin_sphere)
    }
}

fn sorted(values: impl Iterator<Item = f64>) -> Vec<f64> {
    let mut list: Vec<f64> = values.collect();
    list.sort_by(f64::total_cmp);
    list
}

fn quantile(sorted: &[f64], share: f64) -> Option<f64> {
    sorted.get(((sorted.len() as f64 * share) as usize).min(sorted.len().saturating_sub(1))).copied()
}
