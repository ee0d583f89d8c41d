//! A cycle brought to a stated peak pressure: by its burn first, then by its charge.

use super::closed::Point;
use super::cylinder::Cylinder;
use super::error::GasError;
use super::exchange::GasExchange;
use super::gas::GasCycle;
use crate::numeric::crossing;

/// Most heat, as a multiple of what the charge's fuel gives, that a stated peak pressure may call for. Above it the
/// stated peak and the engine do not belong together.
const HEAT_SCALE_LIMIT: f64 = 5.0;

/// Shortest burn of a petrol engine, 40 degrees (Heywood ch. 9 has 40 to 60 from spark to end for a fast chamber; memory).
const SHORTEST_BURN_RAD: f64 = 40.0 / 180.0 * core::f64::consts::PI;

/// Longest and latest burn that an engine still runs on: 90 degrees from 5 degrees before the top (Heywood ch. 9, slow and
/// late cycles; memory).
const LONGEST_BURN_RAD: f64 = 90.0 / 180.0 * core::f64::consts::PI;
const LATEST_START_RAD: f64 = -5.0 / 180.0 * core::f64::consts::PI;

/// Share of a shortened burn's lost length that is taken off before the top: its middle then moves a little earlier.
const TAKEN_BEFORE: f64 = 0.25;

/// A peak this near to the cycle's own asks for no other burn.
const SAME: f64 = 1e-9;

impl GasCycle {
    /// The same cycle with its sampled peak at open throttle at the stated one.
    ///
    /// A real engine whose peak is low burns late or slowly, or takes in less; its gas is not cold. So the heat of the charge
    /// is kept and the burn moved: later and longer up to 90 degrees from 5 degrees before the top, or shorter down to 40
    /// degrees. What that cannot meet comes off the charge of a four-stroke, pressure and heat alike, and off the fresh share
    /// of a two-stroke; what lies above asks for more heat.
    pub fn scaled_to_peak(&self, cylinder: &Cylinder, peak_pa: f64, samples: usize) -> Result<Self, GasError> {
        self.check(1.0)?;
        let quick = self.burning(-1.0);
        let least_pa = self.shape(cylinder, 1.0, samples)?.iter().map(|point| point.motored_pa).fold(0.0, f64::max);
        let most_pa = quick.peak_pa(cylinder, samples, HEAT_SCALE_LIMIT)?;
        if !(peak_pa > least_pa && peak_pa <= most_pa) {
            return Err(GasError::PeakOutOfReach { peak_pa, least_pa, most_pa });
        }
        let at = |lateness: f64| self.burning(lateness).peak_pa(cylinder, samples, 1.0);
        let (own, earliest, latest) = (at(0.0)?, at(-1.0)?, at(1.0)?);
        if (peak_pa / own - 1.0).abs() < SAME {
            return self.heated_to_peak(cylinder, peak_pa, samples);
        }
        if peak_pa > earliest {
            return quick.heated_to_peak(cylinder, peak_pa, samples);
        }
        if peak_pa < latest {
            let slow = self.burning(1.0);
            return match self.exchange {
                // Every pressure of the closed cylinder goes with that at closing.
                GasExchange::Valves { .. } => {
                    let open_manifold_pa = slow.open_manifold_pa * peak_pa / latest;
                    let closed_manifold_pa = slow.closed_manifold_pa.min(open_manifold_pa);
                    Ok(Self { closed_manifold_pa, open_manifold_pa, ..slow })
                }
                GasExchange::Ports { .. } => slow.heated_to_peak(cylinder, peak_pa, samples),
            };
        }
        let (early, late) = if peak_pa > own { ((-1.0, earliest), (0.0, own)) } else { ((0.0, own), (1.0, latest)) };
        // Falling with lateness; in parts of the peak, for the tolerance of the search.
        let short = |found: f64| 1.0 - found / peak_pa;
        let lateness = crossing((early.0, short(early.1)), (late.0, short(late.1)), |lateness| {
            at(lateness).map_or(f64::NAN, short)
        });
        // The search ends at a billionth; heat takes up what is left of it.
        self.burning(lateness).heated_to_peak(cylinder, peak_pa, samples)
    }

    /// With its burn moved: by 1 the latest and slowest, by -1 the shortest.
    fn burning(&self, lateness: f64) -> Self {
        let (start, duration) = (self.burn_start_rad, self.burn_duration_rad);
        let ends_by = self.exchange.closed_to_rad();
        let (to_start, to_duration) = if lateness > 0.0 {
            let late = start.max(LATEST_START_RAD);
            (late, duration.max(LONGEST_BURN_RAD.min(ends_by - late)))
        } else {
            let short = duration.min(SHORTEST_BURN_RAD);
            (start + TAKEN_BEFORE * (duration - short), short)
        };
        let share = lateness.abs();
        Self {
            burn_start_rad: start + share * (to_start - start),
            burn_duration_rad: duration + share * (to_duration - duration),
            ..*self
        }
    }

    /// Sampled peak at open throttle with so many times the heat.
    fn peak_pa(&self, cylinder: &Cylinder, samples: usize, heat: f64) -> Result<f64, GasError> {
        let heat_j = heat * self.heat_scale * self.charge(cylinder, 1.0).heat_j;
        let at = |point: &Point| point.motored_pa + heat_j * point.per_heat;
        Ok(self.shape(cylinder, 1.0, samples)?.iter().map(at).fold(0.0, f64::max))
    }

    /// With its heat scaled to a peak. At every crank angle the pressure is the motored one plus a fixed factor times the
    /// heat, so the heat for a peak is the least over all angles of (peak - motored) / factor: a root found exactly.
    fn heated_to_peak(&self, cylinder: &Cylinder, peak_pa: f64, samples: usize) -> Result<Self, GasError> {
        let charge_heat_j = self.charge(cylinder, 1.0).heat_j;
        let shape = self.shape(cylinder, 1.0, samples)?;
        let heats = shape.iter().filter(|point| point.per_heat > 0.0);
        let heat_j = heats
            .map(|point| (peak_pa - point.motored_pa) / point.per_heat)
            .fold(HEAT_SCALE_LIMIT * charge_heat_j, f64::min);
        Ok(Self { heat_scale: heat_j / charge_heat_j, ..*self })
    }
}
