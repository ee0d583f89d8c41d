use libm::pow;

use super::error::HeatError;
use crate::engine::{Cylinder, GasExchange, GasTemperature, PressureTrace};

/// A film on a surface.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Film {
    /// Heat per area and kelvin, W/(m² K).
    pub coefficient: f64,
    /// Temperature beyond the film, K.
    pub temperature: f64,
}

/// Film coefficient of the gas by Hohenberg (1979, SAE 790825), W/(m² K):
/// `h = 130 V^-0.06 p^0.8 T^-0.4 (c + 1.4)^0.8` with p in bar and V in m³.
///
/// `pressure` in Pa, `temperature` of the gas in K, `volume` of the cylinder at the time in m³, mean piston speed c in
/// m/s. Fitted to four diesel engines of 1 l a cylinder and more; small engines lie outside its data.
pub fn hohenberg(pressure: f64, temperature: f64, volume: f64, mean_piston_speed: f64) -> f64 {
    130.0 * pow(volume, -0.06) * pow(pressure * 1e-5, 0.8) * pow(temperature, -0.4) * pow(mean_piston_speed + 1.4, 0.8)
}

/// Film coefficient of the gas by Woschni (1967, SAE 670931), W/(m² K):
/// `h = 129.8 B^-0.2 p^0.8 T^-0.53 w^0.8` with p in bar.
///
/// `pressure` in Pa, `temperature` in K, `bore` in m, characteristic gas speed w in m/s:
/// `w = C1 c + C2 V_s T_r / (p_r V_r) (p - p_motored)`, c the mean piston speed, `C1 = 6.18` during gas exchange and 2.28
/// while closed, `C2 = 3.24e-3 m/(s K)` from combustion to exhaust opening, r any state while closed before combustion.
pub fn woschni(pressure: f64, temperature: f64, bore: f64, gas_speed: f64) -> f64 {
    129.8 * pow(bore, -0.2) * pow(pressure * 1e-5, 0.8) * pow(temperature, -0.53) * pow(gas_speed, 0.8)
}

/// Film coefficient and temperature of the gas over one cycle, at the samples of the pressure trace.
#[derive(Debug, Clone, PartialEq)]
pub struct GasFilm {
    /// Film coefficients, W/(m² K).
    pub coefficients: Vec<f64>,
    /// Gas temperatures, K.
    pub temperatures: Vec<f64>,
}

impl GasFilm {
    /// By Hohenberg, at a crank speed in rad/s.
    pub fn by_hohenberg(
        trace: &PressureTrace,
        temperature: &GasTemperature,
        cylinder: &Cylinder,
        angular_speed: f64,
    ) -> Result<Self, HeatError> {
        let speed = piston_speed(cylinder, angular_speed)?;
        Self::over_cycle(trace, temperature, |index, pressure, kelvin| {
            hohenberg(pressure, kelvin, cylinder.volume_m3(trace.angle_rad(index)), speed)
        })
    }

    /// By Woschni, at a crank speed in rad/s; the motored pressure runs from closing with the given exponent.
    pub fn by_woschni(
        trace: &PressureTrace,
        temperature: &GasTemperature,
        cylinder: &Cylinder,
        exchange: &GasExchange,
        compression_exponent: f64,
        angular_speed: f64,
    ) -> Result<Self, HeatError> {
        let speed = piston_speed(cylinder, angular_speed)?;
        let exponent = HeatError::positive("compression exponent", compression_exponent)?;
        let (from, to) = (exchange.closed_from_rad(), exchange.closed_to_rad());
        let cycle = trace.strokes().cycle_rad();
        let (closing_pressure, closing_volume) = (trace.pressure_at_pa(from), cylinder.volume_m3(from));
        let count = temperature.samples_k().len();
        // Temperature at the first sample of the closed period; all samples there belong to one ideal gas.
        let at = (((from + cycle) / cycle * count as f64).ceil() as usize).min(count.saturating_sub(1));
        let closing_temperature = temperature.samples_k().get(at).copied().unwrap_or(f64::NAN);
        let per_pascal =
            3.24e-3 * cylinder.displacement_m3() * closing_temperature / (closing_pressure * closing_volume);
        Self::over_cycle(trace, temperature, |index, pressure, kelvin| {
            let angle = trace.angle_rad(index);
            let closed = angle <= to || angle >= from + cycle;
            let gas_speed = if closed {
                let motored = closing_pressure * pow(closing_volume / cylinder.volume_m3(angle), exponent);
                // Before combustion pressure and motored pressure differ by the model of the trace only.
                let burning = if angle <= to { (pressure - motored).max(0.0) } else { 0.0 };
                2.28 * speed + per_pascal * burning
            } else {
                6.18 * speed
            };
            woschni(pressure, kelvin, cylinder.bore_m(), gas_speed)
        })
    }

    fn over_cycle(
        trace: &PressureTrace,
        temperature: &GasTemperature,
        coefficient: impl Fn(usize, f64, f64) -> f64,
    ) -> Result<Self, HeatError> {
        let (pressures, temperatures) = (trace.samples_pa(), temperature.samples_k());
        if pressures.len() != temperatures.len() {
            let (count, least) = (temperatures.len(), pressures.len());
            return Err(HeatError::Count { what: "gas temperatures", count, least, most: least });
        }
        let coefficients: Vec<f64> =
            pressures.iter().zip(temperatures).enumerate().map(|(i, (&p, &t))| coefficient(i, p, t)).collect();
        match coefficients.iter().position(|h| !h.is_finite()) {
            Some(index) => Err(HeatError::NotFinite { index }),
            None => Ok(Self { coefficients, temperatures: temperatures.to_vec() }),
        }
    }

    /// The steady film that brings as much heat as the cycle to a wall whose temperature does not follow it: mean
    /// coefficient, and temperature weighted by the coefficient (Heywood, engine heat transfer).
    pub fn mean(&self) -> Film {
        let sum: f64 = self.coefficients.iter().sum();
        let weighted: f64 = self.coefficients.iter().zip(&self.temperatures).map(|(h, t)| h * t).sum();
        Film { coefficient: sum / self.coefficients.len() as f64, temperature: weighted / sum }
    }
}

fn piston_speed(cylinder: &Cylinder, angular_speed: f64) -> Result<f64, HeatError> {
    let speed = HeatError::not_negative("crank speed", angular_speed)?;
    Ok(cylinder.mean_piston_speed_m_s(speed))
}
