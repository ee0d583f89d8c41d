use libm::pow;

use super::cylinder::Cylinder;
use super::error::GasError;
use super::exchange::GasExchange;
use super::pressure::PressureTrace;

/// Exponent of the burnt gas that expands out of the exhaust (Heywood; memory).
const BURNT_GAS_EXPONENT: f64 = 1.3;

/// Mean gas temperature in the cylinder at equal crank steps over one cycle.
#[derive(Debug, Clone, PartialEq)]
pub struct GasTemperature {
    samples_k: Vec<f64>,
}

impl GasTemperature {
    /// Temperature that belongs to a pressure trace, whatever its origin.
    ///
    /// While the cylinder is closed its mass is fixed, so `T = T_c p V / (p_c V_c)` from the state c at closing (ideal
    /// gas). From exhaust opening the burnt gas cools with its pressure at constant entropy; as fresh charge comes
    /// in the temperature passes to that of the charge along half a cosine wave.
    pub fn of(
        trace: &PressureTrace,
        cylinder: &Cylinder,
        exchange: &GasExchange,
        charge_temperature_k: f64,
    ) -> Result<Self, GasError> {
        exchange.check()?;
        if !(charge_temperature_k.is_finite() && charge_temperature_k > 0.0) {
            return Err(GasError::OutOfRange {
                quantity: "charge temperature",
                range: "a number above 0",
                value: charge_temperature_k,
            });
        }
        if exchange.strokes() != trace.strokes() {
            return Err(GasError::StrokesDiffer);
        }
        let (from, to) = (exchange.closed_from_rad(), exchange.closed_to_rad());
        let cycle_rad = trace.strokes().cycle_rad();
        let product = |angle_rad: f64| trace.pressure_at_pa(angle_rad) * cylinder.volume_m3(angle_rad);
        let per_product = charge_temperature_k / product(from);
        let opening_pa = trace.pressure_at_pa(to);
        let opening_k = per_product * product(to);
        let samples_k = (0..trace.samples_pa().len())
            .map(|index| {
                let angle_rad = trace.angle_rad(index);
                if angle_rad <= to || angle_rad >= from + cycle_rad {
                    return per_product * product(angle_rad);
                }
                let expansion = trace.samples_pa()[index] / opening_pa;
                let burnt_k = opening_k * pow(expansion, 1.0 - 1.0 / BURNT_GAS_EXPONENT);
                burnt_k + exchange.renewal(angle_rad) * (charge_temperature_k - burnt_k)
            })
            .collect();
        Ok(Self { samples_k })
    }

    /// The temperatures, at the crank angles of the pressure trace.
    pub fn samples_k(&self) -> &[f64] {
        &self.samples_k
    }

    /// Mean over crank angle.
    pub fn mean_k(&self) -> f64 {
        self.samples_k.iter().sum::<f64>() / self.samples_k.len() as f64
    }

    /// Highest sample.
    pub fn peak_k(&self) -> f64 {
        self.samples_k.iter().copied().fold(0.0, f64::max)
    }
}
