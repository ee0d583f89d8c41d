use crate::engine::{Cylinder, Duty, GasTemperature, PressureTrace};
use crate::heat::{Film, GasFilm, HeatError};
use crate::job::EngineScenario;
use crate::load::PistonBasis;

/// What drives a piston: forces and gas at every throttle of a duty.
#[derive(Debug, Clone)]
pub struct PistonLoading {
    /// The duty.
    pub duty: Duty,
    /// For each step of the duty the index into `throttles`.
    pub throttle_of_step: Vec<usize>,
    /// The distinct throttles.
    pub throttles: Vec<ThrottleLoad>,
    /// Turns of the crank in one cycle.
    pub turns_per_cycle: f64,
    /// The cylinder.
    pub cylinder: Cylinder,
}

/// Forces and gas at one throttle.
#[derive(Debug, Clone)]
pub struct ThrottleLoad {
    /// Forces.
    pub basis: PistonBasis,
    /// Pressure of the gas.
    pub trace: PressureTrace,
    /// Temperature of the gas.
    pub temperature: GasTemperature,
}

/// Mean films of the gas on the crown by both correlations.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GasFilms {
    /// Hohenberg 1979.
    pub hohenberg: Film,
    /// Woschni 1967.
    pub woschni: Film,
}

impl PistonLoading {
    /// Speed of a step at a factor on all speeds, rad/s.
    pub fn speed(&self, step: usize, factor: f64) -> f64 {
        self.duty.steps()[step].angular_speed_rad_s() * factor
    }

    /// Forces of a step's throttle.
    pub fn basis(&self, step: usize) -> &PistonBasis {
        &self.throttles[self.throttle_of_step[step]].basis
    }

    /// Engine cycles of every step in one repeat at a factor on all speeds.
    pub fn cycles(&self, factor: f64) -> Vec<f64> {
        self.duty.steps().iter().map(|step| step.revolutions() * factor / self.turns_per_cycle).collect()
    }

    /// Films of the gas in every step at a factor on all speeds.
    pub fn films(&self, engine: &EngineScenario, factor: f64) -> Result<Vec<GasFilms>, HeatError> {
        let mut known: Vec<(usize, f64, GasFilms)> = Vec::new();
        let mut films = Vec::new();
        for step in 0..self.duty.steps().len() {
            let (throttle, speed) = (self.throttle_of_step[step], self.speed(step, factor));
            if let Some(found) = known.iter().find(|k| k.0 == throttle && k.1 == speed) {
                films.push(found.2);
                continue;
            }
            let load = &self.throttles[throttle];
            let (trace, gas, cylinder) = (&load.trace, &load.temperature, &self.cylinder);
            let cycle = &engine.cycle;
            let both = GasFilms {
                hohenberg: GasFilm::by_hohenberg(trace, gas, cylinder, speed)?.mean(),
                woschni: GasFilm::by_woschni(trace, gas, cylinder, &cycle.exchange, cycle.compression_exponent, speed)?
                    .mean(),
            };
            known.push((throttle, speed, both));
            films.push(both);
        }
        Ok(films)
    }
}
