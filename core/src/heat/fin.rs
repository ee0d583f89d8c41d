use super::chain::{Around, Chain, ChainEnd};
use super::error::HeatError;

/// Most stations; more would only cost time.
const STATION_LIMIT: usize = 100_000;

/// One cut of a rod as a heat path.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FinStation {
    /// Distance along the rod, m.
    pub position: f64,
    /// Area that conducts, m²: plastic only, infill by its share.
    pub area: f64,
    /// Outline that air touches, m.
    pub perimeter: f64,
}

/// The stuff of a rod as heat sees it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FinMaterial {
    /// Conductivity along the rod, W/(m K).
    pub conductivity: f64,
    /// Density times specific heat, J/(m³ K).
    pub volumetric_heat: f64,
}

/// What cools or warms a rod.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FinCooling {
    /// Heat per area and kelvin between surface and air, W/(m² K).
    pub film_coefficient: f64,
    /// Temperature of the air round the rod, K.
    pub air_temperature: f64,
    /// First end (piston pin) and last end (crank pin).
    pub ends: [ChainEnd; 2],
}

/// A rod as a fin of varying section: `d/dx (k A dT/dx) - h P (T - T_air) + q'(x, T) = c A dT/dt` (Incropera and
/// others, Fundamentals of Heat and Mass Transfer, extended surfaces, with a source and storage).
///
/// Temperature is the same all over a cut. Finite volumes round each station, so heat is kept exactly; of second order
/// in the distance between stations.
#[derive(Debug, Clone, PartialEq)]
pub struct Fin {
    pub(super) chain: Chain,
    /// Side surface that belongs to each station, m².
    pub(super) surface: Vec<f64>,
    /// Length that belongs to each station, m.
    pub(super) length: Vec<f64>,
    positions: Vec<f64>,
}

impl Fin {
    /// A fin from its stations, in order.
    pub fn new(stations: &[FinStation], material: FinMaterial) -> Result<Self, HeatError> {
        let count = HeatError::count("stations", stations.len(), 2, STATION_LIMIT)?;
        let conductivity = HeatError::positive("conductivity", material.conductivity)?;
        let volumetric = HeatError::positive("volumetric heat", material.volumetric_heat)?;
        for (index, station) in stations.iter().enumerate() {
            HeatError::positive("area of a station", station.area)?;
            HeatError::not_negative("perimeter of a station", station.perimeter)?;
            let rises = index == 0 || station.position > stations[index - 1].position;
            if !(station.position.is_finite() && rises) {
                return Err(HeatError::NotRising { index });
            }
        }
        let mut chain = Chain { capacity: vec![0.0; count], link: Vec::with_capacity(count - 1) };
        let (mut surface, mut length) = (vec![0.0; count], vec![0.0; count]);
        for (index, pair) in stations.windows(2).enumerate() {
            let reach = pair[1].position - pair[0].position;
            chain.link.push(conductivity * f64::midpoint(pair[0].area, pair[1].area) / reach);
            // Half the stretch belongs to either station; area and outline change linearly along it.
            for (here, there, lump) in [(pair[0], pair[1], index), (pair[1], pair[0], index + 1)] {
                chain.capacity[lump] += volumetric * reach * 0.125 * (3.0 * here.area + there.area);
                surface[lump] += reach * 0.125 * (3.0 * here.perimeter + there.perimeter);
                length[lump] += 0.5 * reach;
            }
        }
        Ok(Self { chain, surface, length, positions: stations.iter().map(|s| s.position).collect() })
    }

    /// Positions of the stations, m.
    pub fn positions(&self) -> &[f64] {
        &self.positions
    }

    pub(super) fn around(&self, cooling: &FinCooling) -> Result<Around, HeatError> {
        let film = HeatError::not_negative("film coefficient", cooling.film_coefficient)?;
        let side_temperature = HeatError::positive("air temperature", cooling.air_temperature)?;
        let ends = [cooling.ends[0].checked()?, cooling.ends[1].checked()?];
        Ok(Around { side: self.surface.iter().map(|area| film * area).collect(), side_temperature, ends })
    }

    /// The source of each lump, W, from heat per length, W/m.
    pub(super) fn per_lump(&self, heat_per_length: &impl Fn(usize, f64) -> f64) -> impl Fn(usize, f64) -> f64 {
        move |lump, temperature| self.length[lump] * heat_per_length(lump, temperature)
    }
}
