use nalgebra::Vector3;

use super::healing::Healing;
use super::layers::{Layer, layers};
use super::profile::{Factors, bar};
use crate::material::Card;
use crate::mesh::Mesh;
use crate::numeric::lesser;
use crate::print::{PrintSettings, PrintWarmth};

/// Heights at which a part is cut, in each of many directions.
const CUTS: usize = 12;

/// Layer times of the table, s: from the first each time so many times the one before.
const FIRST: f64 = 2.0;
const GROWTH: f64 = 1.5;
const TIMES: usize = 16;

/// Layers until a column no longer knows of the bed.
const SETTLED: usize = 48;

/// The bond of one print for many build directions: a table over the time of a layer, from columns of equal layers.
///
/// The bed, and layers that differ from those next to them, are not in it.
#[derive(Debug, Clone)]
pub struct QuickBond {
    print: PrintSettings,
    warmth: PrintWarmth,
    factors: [f64; TIMES],
}

impl QuickBond {
    /// That of a part, whose outline over area in its own pose stands for every pose.
    pub fn of(mesh: &Mesh, print: &PrintSettings, warmth: &PrintWarmth, card: &Card) -> Option<Self> {
        let weld = card.weld.as_ref()?;
        let cuts = layers(mesh, print, warmth, CUTS);
        let (area, perimeter) = cuts.iter().fold((0.0, 0.0), |sum, cut| (sum.0 + cut.area, sum.1 + cut.perimeter));
        let healing = Healing::of(weld);
        let bar = bar(card, weld, &healing);
        let factor = |number: usize| {
            let time = FIRST * libm::pow(GROWTH, number as f64);
            let laid = [Layer { height: 0.0, area, perimeter, time }; SETTLED];
            let factors = Factors { card, weld, print, warmth, laid: &laid }.with(healing, bar);
            // The last interfaces are not yet done.
            factors.get(SETTLED - 8).map_or(1.0, |at| at.factor)
        };
        Some(Self { print: *print, warmth: *warmth, factors: core::array::from_fn(factor) })
    }

    /// The least factor of the part with layers stacked along the unit vector `build`.
    pub fn least(&self, mesh: &Mesh, build: &Vector3<f64>) -> f64 {
        let print = PrintSettings { build: *build, ..self.print };
        let of = |cut: &Layer| {
            let at = (libm::log(cut.time / FIRST) / libm::log(GROWTH)).clamp(0.0, (TIMES - 1) as f64);
            let below = (at as usize).min(TIMES - 2);
            self.factors[below] + (at - below as f64) * (self.factors[below + 1] - self.factors[below])
        };
        layers(mesh, &print, &self.warmth, CUTS).iter().map(of).fold(f64::INFINITY, lesser)
    }
}
