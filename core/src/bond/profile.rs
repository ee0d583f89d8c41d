use std::sync::Arc;

use nalgebra::{Point3, Vector3};

use super::column::LayerColumn;
use super::healing::Healing;
use super::layers::{Layer, layers};
use crate::material::{Card, Value, Weld};
use crate::mesh::Mesh;
use crate::numeric::{greater, lesser};
use crate::print::{PrintSettings, PrintWarmth};
use crate::units::ZERO_C;

/// Heights at which outlines are cut.
pub(super) const CUTS: usize = 64;

/// Layers that are followed one by one; of a part with more, every second or third.
const FOLLOWED: usize = 400;

/// Layers of those from which the spread is worked out.
const SPREAD_BY: usize = 60;

/// After the last layer everything cools, s.
const END: f64 = 120.0;

/// The bars that a card's strength across layers stands for: sides, m; the five that ISO 527-1 asks for stand on one bed.
const BAR: [f64; 2] = [10e-3, 4e-3];
const BAR_LAYERS: usize = 60;
const BARS: f64 = 5.0;

/// Settings of those bars (common practice, no source).
const BAR_BEAD: f64 = 0.45e-3;
const BAR_LAYER: f64 = 0.2e-3;
const BAR_SPEED: f64 = 0.06;
const BAR_CHANGE: f64 = 3.0;
const BAR_LEAST: f64 = 8.0;

/// The bond at one height.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BondAt {
    /// Height over the lowest point of the part, m.
    pub height: f64,
    /// Time from this layer to the next, s.
    pub layer_time: f64,
    /// Temperature of the layer below when this one is laid, K.
    pub below: f64,
    /// Strength across layers over that of the card's bar.
    pub factor: f64,
}

/// The bond between layers of one print, by height.
#[derive(Debug, Clone, PartialEq)]
pub struct Bond {
    heights: Arc<[BondAt]>,
    build: Vector3<f64>,
    lowest: f64,
    least: f64,
    most: f64,
    /// Relative spread of the factor from what is not known of the weld.
    spread: f64,
}

impl Bond {
    /// That of a part in its pose; nothing where the card has no weld.
    pub fn of(mesh: &Mesh, print: &PrintSettings, warmth: &PrintWarmth, card: &Card) -> Option<Self> {
        let weld = card.weld.as_ref()?;
        let cuts = layers(mesh, print, warmth, CUTS);
        let last = cuts.last()?;
        let height = last.height + cuts[0].height;
        let (number, stride) = counted(height, print.layer_height);
        let at = |layer: usize| cut_at(&cuts, (layer as f64 + 0.5) * height / number as f64);
        let mut laid: Vec<Layer> = (0..number).step_by(stride).map(at).collect();
        let last_time = laid.last()?.time;
        if let Some(top) = laid.last_mut() {
            top.time = top.time.max(END);
        }
        let few: Vec<Layer> = laid.iter().step_by(laid.len().div_ceil(SPREAD_BY)).copied().collect();
        let factors = |laid| Factors { card, weld, print, warmth, laid };
        let mut heights = factors(&laid).as_fitted();
        if let Some(top) = heights.last_mut() {
            top.layer_time = last_time;
        }
        let spread = factors(&few).spread();
        let points = mesh.points().iter().map(|point| point.coords.dot(&print.build));
        let lowest = points.fold(f64::INFINITY, lesser);
        let least = least_inside(&heights);
        let most = heights.iter().map(|at| at.factor).fold(0.0, greater);
        Some(Self { heights: heights.into(), build: print.build, lowest, least, most, spread })
    }

    /// The least factor of the part without the first and last twentieth of its height: the bed cools the first layers, but
    /// next to nothing is cut there.
    pub fn least(&self) -> f64 {
        self.least
    }

    /// The greatest.
    pub fn most(&self) -> f64 {
        self.most
    }

    /// Every height that was followed.
    pub fn heights(&self) -> &[BondAt] {
        &self.heights
    }

    /// The lesser factor of the followed heights next to a point of the part, over the least of all.
    pub fn at(&self, point: &Point3<f64>) -> f64 {
        let height = self.height(point);
        let above = self.heights.partition_point(|at| at.height < height).min(self.heights.len() - 1);
        lowest_factor(&self.heights[above.saturating_sub(1)..=above]) / self.least
    }

    /// The least factor over the heights of some points, without the first and last twentieth of the part's, over the least
    /// of all: at least 1.
    pub fn over_least(&self, points: impl Iterator<Item = Point3<f64>>) -> f64 {
        let heights = points.map(|point| self.height(&point));
        let (low, high) =
            heights.fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), at| (lesser(l, at), greater(h, at)));
        let inside = inside(&self.heights);
        let last = inside.len() - 1;
        let number = |height: f64| inside.partition_point(|at| at.height < height).min(last);
        let (from, to) = (number(low).saturating_sub(1), number(high));
        if from <= to { lowest_factor(&inside[from..=to]) / self.least } else { 1.0 }
    }

    fn height(&self, point: &Point3<f64>) -> f64 {
        point.coords.dot(&self.build) - self.lowest
    }

    /// The card with the strength between its weakest layers as this print makes them; what is not known of the weld widens
    /// the spread of both.
    pub fn on(&self, card: &Card) -> Card {
        let mut bonded = card.clone();
        for value in [&mut bonded.strength.layer_mpa, &mut bonded.strength.layer_shear_mpa] {
            value.widen(self.spread);
            value.value *= self.least;
        }
        bonded
    }
}

/// What the factors of one print are worked out from.
pub(super) struct Factors<'a> {
    pub(super) card: &'a Card,
    pub(super) weld: &'a Weld,
    pub(super) print: &'a PrintSettings,
    pub(super) warmth: &'a PrintWarmth,
    pub(super) laid: &'a [Layer],
}

impl Factors<'_> {
    /// What such healing makes of the print; `bar` is the strength it gives the card's bars.
    pub(super) fn with(&self, healing: Healing, bar: f64) -> Vec<BondAt> {
        let full = contact(self.print.layer_height, self.print.bead_width) / contact(BAR_LAYER, BAR_BEAD);
        // Layers do not bond better than the beads within one, which lie beside each other while hot.
        let strength = &self.card.strength;
        let most = (strength.across_mpa.value / strength.layer_mpa.value).max(1.0);
        let mut column = column(self.card, self.print.layer_height, self.warmth.fan);
        let told = column.lay(self.laid, self.warmth, &healing);
        let at = |(layer, deposited): (&Layer, super::column::Deposited)| BondAt {
            height: layer.height,
            layer_time: layer.time,
            below: deposited.below,
            // To a millionth, so that the last digits of a turned part do not show.
            factor: ((full * healing.strength(deposited.healed) / bar).min(most) * 1e6).round() * 1e-6,
        };
        // The first layer lies on the bed; the last has no cover, and its interface is the one below it.
        self.laid.iter().zip(told).skip(1).map(at).collect()
    }

    /// By the weld of the card.
    fn as_fitted(&self) -> Vec<BondAt> {
        let healing = Healing::of(self.weld);
        self.with(healing, bar(self.card, self.weld, &healing))
    }

    /// Relative spread of the least factor: its changes as each value of the weld is lowered by its own, added as chances.
    fn spread(&self) -> f64 {
        let base = Healing::of(self.weld);
        let usual = least_inside(&self.as_fitted());
        let down = |value: &Value| (1.0 - value.relative_spread()).max(0.05);
        let weld = self.weld;
        let stop = base.stop - weld.stop_c.relative_spread() * weld.stop_c.value;
        let changed = [
            Healing { reference: base.reference * down(&weld.reference_s), ..base },
            Healing { activation: base.activation * down(&weld.activation_kj_mol), ..base },
            Healing { stop, ..base },
            Healing { floor: base.floor * down(&weld.floor), ..base },
        ];
        let changes = changed.map(|healing| {
            let bar = bar(self.card, self.weld, &healing);
            least_inside(&self.with(healing, bar)) / usual - 1.0
        });
        libm::sqrt(changes.into_iter().map(|change| change * change).sum())
    }
}

fn column(card: &Card, layer: f64, fan: f64) -> LayerColumn {
    let thermal = &card.thermal;
    let stored = card.density_kg_m3.value * thermal.specific_heat_j_kg_k.value;
    LayerColumn::new(layer, thermal.conductivity_layer_w_m_k.value, stored, fan)
}

/// Strength of the card's bars in their middle, over that of bars healed in full.
pub(super) fn bar(card: &Card, weld: &Weld, healing: &Healing) -> f64 {
    let usual = &weld.usual;
    let warmth = PrintWarmth {
        nozzle: usual.nozzle_c + ZERO_C,
        bed: usual.bed_c + ZERO_C,
        chamber: usual.chamber_c + ZERO_C,
        fan: usual.fan_percent / 100.0,
        bead_speed: BAR_SPEED,
        layer_change: BAR_CHANGE,
        least_layer: BAR_LEAST,
        together: BARS,
    };
    let (area, perimeter) = (BAR[0] * BAR[1], 2.0 * (BAR[0] + BAR[1]));
    let time = (BARS * (area / (BAR_BEAD * BAR_SPEED) + BAR_CHANGE)).max(BAR_LEAST);
    let laid = vec![Layer { height: 0.0, area, perimeter, time }; BAR_LAYERS];
    let told = column(card, BAR_LAYER, warmth.fan).lay(&laid, &warmth, healing);
    // The last interfaces are not yet done.
    healing.strength(told.get(BAR_LAYERS - 8).map_or(0.0, |deposited| deposited.healed))
}

/// Width over which a bead with round sides touches the next, over its own: `w - h (1 - pi/4)` of `w`.
fn contact(layer: f64, bead: f64) -> f64 {
    (1.0 - layer / bead * (1.0 - core::f64::consts::FRAC_PI_4)).max(0.1)
}

/// Number of layers, and every how many are followed.
fn counted(height: f64, layer: f64) -> (usize, usize) {
    let number = (height / layer).round().clamp(2.0, 1e6) as usize;
    (number, number.div_ceil(FOLLOWED))
}

/// Between the cuts next to a height.
fn cut_at(cuts: &[Layer], height: f64) -> Layer {
    let above = cuts.partition_point(|cut| cut.height < height).min(cuts.len() - 1);
    let (near, far) = (&cuts[above.saturating_sub(1)], &cuts[above]);
    let span = far.height - near.height;
    let share = if span > 0.0 { ((height - near.height) / span).clamp(0.0, 1.0) } else { 0.0 };
    let between = |a: f64, b: f64| a + share * (b - a);
    Layer {
        height,
        area: between(near.area, far.area),
        perimeter: between(near.perimeter, far.perimeter),
        time: between(near.time, far.time),
    }
}

fn lowest_factor(heights: &[BondAt]) -> f64 {
    heights.iter().map(|at| at.factor).fold(f64::INFINITY, lesser)
}

/// The least factor without the first and last twentieth of the height.
fn least_inside(heights: &[BondAt]) -> f64 {
    lowest_factor(inside(heights))
}

fn inside(heights: &[BondAt]) -> &[BondAt] {
    let edge = heights.len() / 20;
    &heights[edge..heights.len() - edge]
}
