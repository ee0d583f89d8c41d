use super::healing::Healing;
use super::layers::Layer;
use crate::print::PrintWarmth;

/// The topmost layers of a growing part, one temperature each: heat flows down, off the top and off the sides.
///
/// Conduction is implicit in time, so that no step is too long; steps grow within a layer, as the newest one cools fastest at
/// first. Layers far below no longer change what happens on top and are dropped.
#[derive(Debug, Clone)]
pub struct LayerColumn {
    /// Height of a layer, m.
    pub layer: f64,
    /// Conductivity across layers, W/(m K).
    pub conductivity: f64,
    /// Heat that a volume stores, J/(m³ K).
    pub volumetric_heat: f64,
    /// Film on top and sides, W/(m² K).
    pub film: f64,
    /// Temperatures of the layers, the lowest kept one first, K.
    kelvin: Vec<f64>,
    /// Whether the lowest kept one lies on the bed.
    on_bed: bool,
}

/// Layers that are followed.
const KEPT: usize = 40;

/// Interfaces that still heal: the newest and those below it.
const HEALING: usize = 4;

/// Film of still air and of the nozzle's own draught, and what a full fan adds, W/(m² K) (from memory).
const STILL_AIR: f64 = 15.0;
const FULL_FAN: f64 = 60.0;

/// First step of a layer over the time in which heat crosses a layer, and how steps grow.
const FIRST_STEP: f64 = 0.2;
const GROWTH: f64 = 1.25;

/// What came of one layer.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Deposited {
    /// Temperature of the layer below when it is laid, K.
    pub below: f64,
    /// Sum of shares of full healing of the interface to the layer below.
    pub healed: f64,
}

impl LayerColumn {
    /// Before the first layer.
    pub fn new(layer: f64, conductivity: f64, volumetric_heat: f64, fan: f64) -> Self {
        let film = STILL_AIR + FULL_FAN * fan;
        Self { layer, conductivity, volumetric_heat, film, kelvin: Vec::with_capacity(KEPT + 1), on_bed: true }
    }

    /// Lays layers one after another, and tells of each how warm the one below was and how far their interface healed.
    pub fn lay(&mut self, layers: &[Layer], warmth: &PrintWarmth, healing: &Healing) -> Vec<Deposited> {
        let mut told: Vec<Deposited> = Vec::with_capacity(layers.len());
        for layer in layers {
            let below = self.kelvin.last().copied().unwrap_or(warmth.bed);
            told.push(Deposited { below, healed: 0.0 });
            if self.kelvin.len() == KEPT {
                self.kelvin.remove(0);
                self.on_bed = false;
            }
            self.kelvin.push(warmth.nozzle);
            let healed = self.cool(layer, warmth, healing);
            for (deposited, healed) in told.iter_mut().rev().zip(healed) {
                deposited.healed += healed;
            }
        }
        told
    }

    /// Lets the column cool for the time of a layer; what each of the topmost interfaces heals, the newest first.
    fn cool(&mut self, layer: &Layer, warmth: &PrintWarmth, healing: &Healing) -> [f64; HEALING] {
        let crossing = self.layer * self.layer * self.volumetric_heat / self.conductivity;
        let mut healed = [0.0; HEALING];
        let (mut step, mut passed) = (FIRST_STEP * crossing, 0.0);
        while passed < layer.time {
            step = step.min(layer.time - passed);
            let before = self.interfaces(warmth);
            self.advance(step, layer, warmth);
            let after = self.interfaces(warmth);
            for ((sum, was), is) in healed.iter_mut().zip(before).zip(after) {
                *sum += 0.5 * step * (healing.rate(was) + healing.rate(is));
            }
            passed += step;
            step *= GROWTH;
        }
        healed
    }

    /// Temperatures of the topmost interfaces, the newest first: the mean of both layers, as both conduct alike.
    fn interfaces(&self, warmth: &PrintWarmth) -> [f64; HEALING] {
        let top = self.kelvin.len() - 1;
        core::array::from_fn(|depth| match (top.checked_sub(depth), top.checked_sub(depth + 1)) {
            (Some(above), Some(below)) => f64::midpoint(self.kelvin[above], self.kelvin[below]),
            (Some(above), None) => f64::midpoint(self.kelvin[above], warmth.bed),
            _ => 0.0,
        })
    }

    /// One implicit step: a band of three, swept up and back (Thomas 1949, from memory).
    fn advance(&mut self, step: f64, layer: &Layer, warmth: &PrintWarmth) {
        let stored = self.volumetric_heat * self.layer / step;
        let conducted = self.conductivity / self.layer;
        let side = if layer.area > 0.0 { self.film * self.layer * layer.perimeter / layer.area } else { 0.0 };
        let count = self.kelvin.len();
        let mut swept = [(0.0, 0.0); KEPT];
        for k in 0..count {
            let (first, top) = (k == 0, k + 1 == count);
            // The bed touches half a layer below the middle of the first one.
            let bed = if first && self.on_bed { 2.0 * conducted } else { 0.0 };
            let under = if first { 0.0 } else { conducted };
            let over = if top { 0.0 } else { conducted };
            let air = side + if top { self.film } else { 0.0 };
            let diagonal = stored + under + over + air + bed;
            let right = stored * self.kelvin[k] + air * warmth.chamber + bed * warmth.bed;
            let (ratio, value) = if first { (0.0, 0.0) } else { swept[k - 1] };
            let pivot = diagonal - under * ratio;
            swept[k] = (over / pivot, (right + under * value) / pivot);
        }
        let mut above = 0.0;
        for k in (0..count).rev() {
            above = swept[k].1 + swept[k].0 * above;
            self.kelvin[k] = above;
        }
    }
}
