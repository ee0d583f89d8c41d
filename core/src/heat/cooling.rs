use libm::{log, pow};

use super::error::HeatError;
use crate::units::ZERO_C;

/// Film coefficient of air that flows across a bar, W/(m² K): Churchill & Bernstein 1977 (J. Heat Transfer 99, 300;
/// Incropera and others, Fundamentals of Heat and Mass Transfer, external flow), for a cylinder as wide as the bar.
///
/// `speed` is that of the air against the bar (m/s), `width` the bar's breadth across the flow (m), `film_temperature`
/// the mean of surface and air (K), `pressure` absolute (Pa). Air: Sutherland's viscosity and a Prandtl number of 0.70.
pub fn crossflow_film(speed: f64, width: f64, film_temperature: f64, pressure: f64) -> Result<f64, HeatError> {
    const PRANDTL: f64 = 0.70;
    let speed = HeatError::not_negative("air speed", speed)?;
    let width = HeatError::positive("width", width)?;
    let temperature = HeatError::positive("film temperature", film_temperature)?;
    let pressure = HeatError::positive("air pressure", pressure)?;
    let viscosity = 1.716e-5 * pow(temperature / ZERO_C, 1.5) * (ZERO_C + 110.4) / (temperature + 110.4);
    let density = pressure / (287.05 * temperature);
    // Sutherland's viscosity, the Prandtl number and the specific heat of air (1007 J/(kg K)) give the conductivity.
    let conductivity = viscosity * 1007.0 / PRANDTL;
    let reynolds = density * speed * width / viscosity;
    let front = 0.62 * reynolds.sqrt() * pow(PRANDTL, 1.0 / 3.0) / pow(1.0 + pow(0.4 / PRANDTL, 2.0 / 3.0), 0.25);
    let nusselt = 0.3 + front * pow(1.0 + pow(reynolds / 282_000.0, 0.625), 0.8);
    Ok(nusselt * conductivity / width)
}

/// Conductance between a pin and its bore, W/K: conduction through a film of thickness `gap` (m) and conductivity
/// `conductivity` (W/(m K)) over the bore's surface, as for thin concentric shells.
pub fn bore_conductance(diameter: f64, depth: f64, gap: f64, conductivity: f64) -> Result<f64, HeatError> {
    let diameter = HeatError::positive("bore diameter", diameter)?;
    let depth = HeatError::positive("bore depth", depth)?;
    let gap = HeatError::positive("gap", gap)?;
    let conductivity = HeatError::positive("conductivity of the film", conductivity)?;
    // Exact for a shell: 2 pi k l / ln(r2/r1), r1 that of the pin.
    Ok(core::f64::consts::TAU * conductivity * depth / log(diameter / (diameter - 2.0 * gap.min(0.25 * diameter))))
}
