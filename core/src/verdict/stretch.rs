use super::model::Station;
use super::stressing::Stressing;
use super::temperatures::Temperatures;
use crate::job::Scenario;
use crate::life::{Findley, LifeError, RodStretch, StretchStation, rod_stretch};
use crate::material::REFERENCE_TEMPERATURE;

/// Stations that the stretch is summed over, at most: forces and sections change slowly against so many.
const STATIONS: usize = 48;

/// How much longer the rod is between its bore centres than when it was fitted, after the wanted life: at its greatest
/// pull, station by station, with creep by the stress of the whole duty and heat above 23 °C.
pub fn stretch(
    stressing: &Stressing<'_>,
    scenario: &Scenario,
    temperatures: &Temperatures,
) -> Result<RodStretch, LifeError> {
    let cosine = stressing.model.print.build.x;
    let cold = scenario.card.at(REFERENCE_TEMPERATURE, scenario.moisture);
    let creep = Findley::of_material(&scenario.card.creep.in_si(), cold.bead_modulus / cold.modulus_along(cosine))?;
    let path: Vec<(usize, &Station)> = stressing.model.load_path().collect();
    let stride = path.len().div_ceil(STATIONS).max(1);
    let last = path.len().saturating_sub(1);
    let looked_at = path.iter().enumerate().filter(|(number, _)| number % stride == 0 || *number == last);
    let stations = looked_at.map(|(_, &(index, station))| {
        let kelvin = temperatures.stations[index];
        let material = scenario.card.at(kelvin, scenario.moisture);
        let area = station.makeup.stiffness.area;
        let steady = steady_stress(stressing, index, area, &creep, scenario.card.creep.in_si().stress_scale)?;
        Ok(StretchStation {
            position: station.section.position,
            force: stressing.station(index).axial.1.max(0.0),
            stiffness: material.modulus_along(cosine) * area,
            creep_strain: creep.strain(steady, scenario.wanted_life, kelvin)?,
            expansion: material.expansion_along(cosine),
            warming: kelvin - REFERENCE_TEMPERATURE,
        })
    });
    rod_stretch(&stations.collect::<Result<Vec<_>, LifeError>>()?)
}

/// The steady stress that creeps as the duty does, Pa.
fn steady_stress(
    stressing: &Stressing<'_>,
    station: usize,
    area: f64,
    creep: &Findley,
    scale: f64,
) -> Result<f64, LifeError> {
    let mut mean = 0.0;
    for (step, share) in stressing.forces.iter().zip(stressing.shares()) {
        let stress: Vec<f64> = step.section(station).axial.iter().map(|force| force / area).collect();
        mean += share * libm::sinh(creep.equivalent_stress_pa(&stress)? / scale);
    }
    Ok(scale * libm::asinh(mean))
}
