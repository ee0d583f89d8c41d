use super::journal::Journal;
use super::loading::{HARMONICS, Loading, Swing, TermHarmonics};
use super::model::{Region, RodModel, Station};
use super::place::End;
use super::temperatures::Temperatures;
use crate::heat::{
    ChainEnd, Fin, FinCooling, FinMaterial, FinStation, Harmonic, HeatError, SectionLoop, SteadyHeat, StepPace,
    TemperatureTable, crossflow_film, loss_compliance,
};
use crate::job::{PartTemperature, Scenario};
use crate::load::{LoadBasis, TERMS};

/// Stations of the fin at most: conduction in plastic reaches a few millimetres, which so many resolve on any shank.
const FIN_STATIONS: usize = 48;

/// The air a rod meets moves with about two thirds of the crank pin's speed (memory).
const AIR_SPEED_SHARE: f64 = 0.67;

/// The shank as a fin from bore edge to bore edge, with hysteresis heat of each section's own forces (see
/// [`crate::heat`]); the eyes hang on their pins.
pub struct WarmRod<'a> {
    fin: Fin,
    /// `[basis][fin station]`.
    loops: Vec<Vec<SectionLoop>>,
    compliance: TemperatureTable,
    model: &'a RodModel,
    loading: &'a Loading,
    scenario: &'a Scenario,
    throw: f64,
    width: f64,
    limit: f64,
}

/// Temperatures at one speed.
#[derive(Debug, Clone, PartialEq)]
pub struct Warmed {
    /// Of every station and eye, K.
    pub temperatures: Temperatures,
    /// Whether the rod's own heat stays in bounds.
    pub settles: bool,
}

impl<'a> WarmRod<'a> {
    /// `throw` is that of the crank, m.
    pub fn new(
        model: &'a RodModel,
        loading: &'a Loading,
        scenario: &'a Scenario,
        throw: f64,
    ) -> Result<Self, HeatError> {
        let shank = thinned(model);
        let cuts: Vec<FinStation> = shank
            .iter()
            .map(|(_, station)| FinStation {
                position: station.section.position,
                area: station.makeup.stiffness.area,
                perimeter: station.section.perimeter(),
            })
            .collect();
        let cosine = model.print.build.x;
        let material = scenario.material();
        let stuff = FinMaterial {
            conductivity: material.conductivity_along(cosine),
            volumetric_heat: material.volumetric_heat(),
        };
        let fin = Fin::new(&cuts, stuff)?;
        let loops = loading.bases.iter().zip(loading.swings.iter());
        let loops = loops.map(|(basis, swing)| {
            shank.iter().map(|(plane, station)| section_loop(swing, basis, *plane, station)).collect()
        });
        let loops = loops.collect();
        // The card is linear between its points; half a kelvin rounds their corners by nothing that shows.
        let compliance = TemperatureTable::new(220.0, 900.0, 0.5, |kelvin| {
            let state = scenario.card.at(kelvin, scenario.moisture);
            loss_compliance(state.modulus_along(cosine), state.loss_factor)
        })?;
        let width = cuts.iter().map(|cut| cut.perimeter / 4.0).fold(f64::INFINITY, f64::min);
        let limit = scenario.card.softening();
        Ok(Self { fin, loops, compliance, model, loading, scenario, throw, width, limit })
    }

    /// What strength is taken at, with all speeds of the duty times a factor.
    pub fn at(&self, speed_factor: f64) -> Result<Warmed, HeatError> {
        match self.scenario.part_temperature {
            PartTemperature::Given => {
                let temperatures = Temperatures::uniform(self.model, self.scenario.temperature);
                Ok(Warmed { temperatures, settles: true })
            }
            PartTemperature::Settled => {
                let state = self.steady(speed_factor, 1.0)?;
                let settles = !matches!(state, SteadyHeat::Runaway { .. });
                Ok(Warmed { temperatures: self.spread(state.temperatures(), speed_factor), settles })
            }
            PartTemperature::AfterRun { seconds, start } => self.after_run(speed_factor, seconds, start),
        }
    }

    /// Long-run state with all speeds and all stresses of the duty times a factor each.
    pub fn steady(&self, speed_factor: f64, stress_factor: f64) -> Result<SteadyHeat, HeatError> {
        let strength = self.strength(speed_factor, stress_factor);
        let heat = |station: usize, kelvin: f64| strength[station] * self.compliance.at(kelvin);
        self.fin.steady(&self.cooling(speed_factor)?, heat, self.limit)
    }

    /// Positions of the fin's stations, m.
    pub fn positions(&self) -> &[f64] {
        self.fin.positions()
    }

    /// Heat averages over the steps of a duty, which are short against the minutes a shank takes to warm. A shank that softens
    /// within the run is taken at that moment: it is lost then, and gets no hotter. One that is warmer before the run than
    /// at its end is taken as it was: it bears the first loads too.
    fn after_run(&self, speed_factor: f64, seconds: f64, start: f64) -> Result<Warmed, HeatError> {
        let strength = self.strength(speed_factor, 1.0);
        let heat = |station: usize, kelvin: f64| strength[station] * self.compliance.at(kelvin);
        let mut run = self.fin.start(start)?;
        let pace = StepPace::brisk(seconds);
        let settles = match self.fin.run(&mut run, &self.cooling(speed_factor)?, heat, seconds, pace, self.limit) {
            Ok(_) => true,
            Err(HeatError::Unstable { .. }) => false,
            Err(other) => return Err(other),
        };
        let warmest: Vec<f64> = run.temperatures.iter().map(|kelvin| kelvin.max(start)).collect();
        Ok(Warmed { temperatures: self.spread(&warmest, speed_factor), settles })
    }

    fn cooling(&self, speed_factor: f64) -> Result<FinCooling, HeatError> {
        let duty = &self.loading.duty;
        let surroundings = &self.scenario.surroundings;
        let mut film_coefficient = 0.0;
        for step in duty.steps() {
            let speed = step.angular_speed_rad_s() * speed_factor * self.throw * AIR_SPEED_SHARE;
            let film = crossflow_film(speed, self.width, surroundings.air, 1e5)?;
            film_coefficient += film * step.seconds / duty.total_s();
        }
        Ok(FinCooling {
            film_coefficient,
            air_temperature: surroundings.air,
            ends: [ChainEnd::Held(surroundings.piston_pin), ChainEnd::Held(surroundings.crank_pin)],
        })
    }

    /// Heat per length and loss compliance at every station of the fin, mean over the duty.
    fn strength(&self, speed_factor: f64, stress_factor: f64) -> Vec<f64> {
        let duty = &self.loading.duty;
        let of = |station: usize| {
            let steps = duty.steps().iter().zip(&self.loading.basis_of_step);
            let shares = steps.map(|(step, &basis)| {
                let speed = step.angular_speed_rad_s() * speed_factor;
                let frequency = speed / core::f64::consts::TAU / self.loading.turns_per_cycle;
                self.loops[basis][station].heat_per_length(speed, frequency, 1.0) * step.seconds / duty.total_s()
            });
            shares.sum::<f64>() * stress_factor * stress_factor
        };
        (0..self.fin.positions().len()).map(of).collect()
    }

    /// Temperatures of all stations from those of the fin, linear in between; the eyes have those of their pins, with the heat
    /// of friction where they slide on them.
    fn spread(&self, fin: &[f64], speed_factor: f64) -> Temperatures {
        let surroundings = &self.scenario.surroundings;
        let positions = self.fin.positions();
        let stations = self.model.stations.iter().map(|station| {
            let at = station.section.position;
            match station.region {
                Region::SmallEnd => surroundings.piston_pin,
                Region::BigEnd => surroundings.crank_pin,
                Region::Shank => {
                    let above = positions.partition_point(|&p| p <= at).clamp(1, positions.len() - 1);
                    let (low, high) = (positions[above - 1], positions[above]);
                    let share = ((at - low) / (high - low)).clamp(0.0, 1.0);
                    fin[above - 1] + share * (fin[above] - fin[above - 1])
                }
            }
        });
        let eyes = [(End::Small, surroundings.piston_pin), (End::Big, surroundings.crank_pin)].map(|(end, pin)| {
            let journal = Journal::of(self.model, self.loading, self.scenario, speed_factor, end);
            journal.map_or(pin, |journal| journal.bore())
        });
        Temperatures { stations: stations.collect(), eyes }
    }
}

/// Areas that differ by less than this share are the same: rounding of 32-bit coordinates, far from the origin too.
const EVEN: f64 = 1e-4;

/// Stations of the shank, evenly thinned, with the smallest among them.
fn thinned(model: &RodModel) -> Vec<(usize, &Station)> {
    let shank: Vec<(usize, &Station)> = model.load_path().filter(|(_, s)| s.region == Region::Shank).collect();
    let stride = shank.len().div_ceil(FIN_STATIONS).max(1);
    let area = |k: usize| shank[k].1.makeup.stiffness.area;
    let least = (0..shank.len()).map(area).fold(f64::INFINITY, f64::min);
    // Of an even shank the first station, whichever the last digits of the coordinates make smallest.
    let smallest = (0..shank.len()).find(|&k| area(k) <= least * (1.0 + EVEN));
    let last = shank.len().saturating_sub(1);
    (0..shank.len()).filter(|&k| k % stride == 0 || k == last || Some(k) == smallest).map(|k| shank[k]).collect()
}

/// Loss of a section's own forces, split so that it holds at every speed.
fn section_loop(swing: &Swing, basis: &LoadBasis, plane: usize, station: &Station) -> SectionLoop {
    let makeup = &station.makeup.stiffness;
    let terms = basis.terms(plane);
    let parts = [
        (&terms.axial, makeup.area),
        (&terms.bending, makeup.second_moment_z),
        (&terms.side_bending, makeup.second_moment_y),
    ];
    let force = |row: &[f64; TERMS], of: &TermHarmonics| {
        let mut sum = vec![Harmonic::default(); HARMONICS];
        for (coefficient, harmonics) in row.iter().zip(of) {
            for (total, harmonic) in sum.iter_mut().zip(harmonics) {
                total.cosine += coefficient * harmonic.cosine;
                total.sine += coefficient * harmonic.sine;
            }
        }
        sum
    };
    parts.iter().fold(SectionLoop::default(), |section, &(row, property)| {
        section.with(&force(row, &swing.gas), &force(row, &swing.inertia), property)
    })
}
