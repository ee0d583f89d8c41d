use super::model::Station;
use super::stressing::Stressing;
use super::temperatures::Temperatures;
use crate::job::Scenario;
use crate::life::{Findley, LifeError, RodStretch, StretchStation, rod_stretch};
use crate::material::{Card, REFERENCE_TEMPERATURE};

/// Stations that the stretch is summed over, at most: forces and sections change slowly against so many.
const STATIONS: usize = 48;

/// What pulls on a cut of the load path over the duty.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Pulled {
    /// Its number among the stations.
    index: usize,
    /// Distance along the rod, m.
    position: f64,
    /// Greatest pull, N.
    force: f64,
    /// Area that carries it, m².
    area: f64,
    /// The steady stress that creeps as the duty does, Pa.
    steady: f64,
}

/// Cuts of the load path with what pulls on them, for one stress scale of creep, Pa: build direction and temperatures
/// do not change it.
#[derive(Debug, Clone)]
pub(crate) struct Pulls {
    stress_scale: f64,
    cuts: Vec<Pulled>,
}

impl Pulls {
    /// Those of a duty.
    pub(crate) fn of(stressing: &Stressing<'_>, card: &Card) -> Result<Self, LifeError> {
        let creep = card.creep.in_si();
        let law = Findley::of_material(&creep, 1.0)?;
        let path: Vec<(usize, &Station)> = stressing.model.load_path().collect();
        let stride = path.len().div_ceil(STATIONS).max(1);
        let last = path.len().saturating_sub(1);
        let looked_at = path.iter().enumerate().filter(|(number, _)| number % stride == 0 || *number == last);
        let cuts = looked_at.map(|(_, &(index, station))| {
            let area = station.makeup.stiffness.area;
            let (mut force, mut mean) = (0.0_f64, 0.0);
            for (step, share) in stressing.forces.iter().zip(stressing.shares()) {
                let mut axial = step.axial(index);
                for value in &mut axial {
                    force = force.max(*value);
                    *value /= area;
                }
                mean += share * libm::sinh(law.equivalent_stress_pa(&axial)? / creep.stress_scale);
            }
            let steady = creep.stress_scale * libm::asinh(mean);
            Ok(Pulled { index, position: station.section.position, force, area, steady })
        });
        Ok(Self { stress_scale: creep.stress_scale, cuts: cuts.collect::<Result<_, LifeError>>()? })
    }

    /// Whether they hold for a card too.
    pub(crate) fn hold_for(&self, card: &Card) -> bool {
        self.stress_scale == card.creep.in_si().stress_scale
    }

    /// How much longer they make a rod printed with `cosine` between its length and the build direction.
    pub(crate) fn stretch(
        &self,
        cosine: f64,
        scenario: &Scenario,
        card: &Card,
        temperatures: &Temperatures,
    ) -> Result<RodStretch, LifeError> {
        let cold = card.at(REFERENCE_TEMPERATURE, scenario.moisture);
        let creep = Findley::of_material(&card.creep.in_si(), cold.bead_modulus / cold.modulus_along(cosine))?;
        let stations = self.cuts.iter().map(|cut| {
            let kelvin = temperatures.stations[cut.index];
            let material = card.at(kelvin, scenario.moisture);
            Ok(StretchStation {
                position: cut.position,
                force: cut.force,
                stiffness: material.modulus_along(cosine) * cut.area,
                creep_strain: creep.strain(cut.steady, scenario.wanted_life, kelvin)?,
                expansion: material.expansion_along(cosine),
                warming: kelvin - REFERENCE_TEMPERATURE,
            })
        });
        rod_stretch(&stations.collect::<Result<Vec<_>, LifeError>>()?)
    }
}

/// How much longer the rod is between its bore centres than when it was fitted, after the wanted life: at its greatest
/// pull, station by station, with creep by the stress of the whole duty and heat above 23 °C.
pub fn stretch(
    stressing: &Stressing<'_>,
    scenario: &Scenario,
    temperatures: &Temperatures,
) -> Result<RodStretch, LifeError> {
    let cosine = stressing.model.print.build.x;
    stressing.pulls(&scenario.card)?.stretch(cosine, scenario, &scenario.card, temperatures)
}
