use super::loading::Loading;
use super::mode::Mode;
use super::model::{Region, RodModel, Station};
use super::place::RodPlace;
use super::summary::ModeMargin;
use crate::heat::{
    End, Fin, FinCooling, FinMaterial, FinStation, Harmonic, Harmonics, HeatError, SectionLoop, SteadyHeat,
    TemperatureTable, crossflow_film, loss_compliance, onset,
};
use crate::job::{Scenario, Surroundings};
use crate::load::{Drive, LoadBasis, TERMS};

/// Harmonics of a stress history that count: they hold all but a ten-thousandth of its loss.
const HARMONICS: usize = 36;

/// Relative width to which runaway is found.
const SHARPNESS: f64 = 1e-3;

/// The air a rod meets moves with about two thirds of the crank pin's speed (memory).
const AIR_SPEED_SHARE: f64 = 0.67;

/// What the loads themselves do to the temperature of the shank.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Warmth {
    /// Highest temperature of the shank in the long run, K, with its place along the rod, m; `None` where it runs away.
    pub peak: Option<(f64, f64)>,
    /// Factor on all stress at which the shank runs away: its own heat grows faster than it can leave.
    pub stress_to_runaway: f64,
    /// Factor on all speeds of the duty at which it runs away; `None` if not within reach.
    pub speed_to_runaway: Option<f64>,
}

impl Warmth {
    /// Self-heating as a mode among the others.
    pub fn margin(&self) -> ModeMargin {
        ModeMargin::at_once(Mode::SelfHeating, RodPlace::Shank, self.stress_to_runaway, 0.0)
    }
}

/// Steady temperature of the shank at the duty, averaged over its steps, and where it runs away.
///
/// Fin equation from bore edge to bore edge with hysteresis heat of the section's own forces (see [`crate::heat`]); the
/// eyes hang on their pins.
pub fn warmth(model: &RodModel, loading: &Loading, scenario: &Scenario, throw: f64) -> Result<Warmth, HeatError> {
    let rod = WarmRod::new(model, loading, scenario, throw)?;
    let peak = rod.steady(1.0, 1.0)?.peak().map(|(station, kelvin)| (kelvin, rod.fin.positions()[station]));
    let stress = onset(0.05, 20.0, SHARPNESS, |factor| rod.steady(1.0, factor).map(|state| state.settles()))?;
    let speed = onset(0.1, 10.0, SHARPNESS, |factor| rod.steady(factor, 1.0).map(|state| state.settles()))?;
    Ok(Warmth { peak, stress_to_runaway: stress.unwrap_or(20.0), speed_to_runaway: speed })
}

struct WarmRod<'a> {
    fin: Fin,
    /// `[basis][station]`.
    loops: Vec<Vec<SectionLoop>>,
    compliance: TemperatureTable,
    loading: &'a Loading,
    surroundings: Surroundings,
    throw: f64,
    width: f64,
    limit: f64,
}

impl<'a> WarmRod<'a> {
    fn new(model: &RodModel, loading: &'a Loading, scenario: &Scenario, throw: f64) -> Result<Self, HeatError> {
        let shank: Vec<(usize, &Station)> =
            model.load_path().filter(|(_, station)| station.region == Region::Shank).collect();
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
        let fin = Fin::new(
            &cuts,
            FinMaterial {
                conductivity: material.conductivity_along(cosine),
                volumetric_heat: material.volumetric_heat(),
            },
        )?;
        let mut loops = Vec::with_capacity(loading.bases.len());
        for basis in &loading.bases {
            let table = Harmonics::new(basis.angles(), HARMONICS)?;
            let (gas, inertia) = (term_harmonics(&table, basis.gas()), term_harmonics(&table, basis.inertia()));
            let of = |(plane, station): &(usize, &Station)| section_loop(&gas, &inertia, basis, *plane, station);
            loops.push(shank.iter().map(of).collect());
        }
        // The card is linear between its points; half a kelvin rounds their corners by nothing that shows.
        let compliance = TemperatureTable::new(220.0, 900.0, 0.5, |kelvin| {
            let state = scenario.card.at(kelvin, scenario.moisture);
            loss_compliance(state.modulus_along(cosine), state.loss_factor)
        })?;
        let widths = cuts.iter().map(|cut| cut.perimeter / 4.0);
        let width = widths.fold(f64::INFINITY, f64::min);
        let limit = scenario.card.temperature.softening_c.value + 273.15;
        let surroundings = scenario.surroundings;
        Ok(Self { fin, loops, compliance, loading, surroundings, throw, width, limit })
    }

    /// Long-run state with all speeds and all stresses of the duty times a factor each.
    fn steady(&self, speed_factor: f64, stress_factor: f64) -> Result<SteadyHeat, HeatError> {
        let duty = &self.loading.duty;
        let total = duty.total_s();
        let mut film_coefficient = 0.0;
        for step in duty.steps() {
            let speed = step.angular_speed_rad_s() * speed_factor * self.throw * AIR_SPEED_SHARE;
            let film = crossflow_film(speed, self.width, self.surroundings.air, 1e5)?;
            film_coefficient += film * step.seconds / total;
        }
        let cooling = FinCooling {
            film_coefficient,
            air_temperature: self.surroundings.air,
            ends: [End::Held(self.surroundings.piston_pin), End::Held(self.surroundings.crank_pin)],
        };
        let strength: Vec<f64> = (0..self.fin.positions().len())
            .map(|station| {
                let steps = duty.steps().iter().zip(&self.loading.basis_of_step);
                let shares = steps.map(|(step, &basis)| {
                    let speed = step.angular_speed_rad_s() * speed_factor;
                    let frequency = speed / core::f64::consts::TAU / self.loading.turns_per_cycle;
                    self.loops[basis][station].heat_per_length(speed, frequency, 1.0) * step.seconds / total
                });
                shares.sum::<f64>() * stress_factor * stress_factor
            })
            .collect();
        let heat = |station: usize, kelvin: f64| strength[station] * self.compliance.at(kelvin);
        self.fin.steady(&cooling, heat, self.limit)
    }
}

/// Harmonics of every term that section forces are made of.
type TermHarmonics = [Vec<Harmonic>; TERMS];

fn term_harmonics(table: &Harmonics, drive: &Drive) -> TermHarmonics {
    core::array::from_fn(|term| table.of(&drive.rows[term]).unwrap_or_default())
}

/// Loss of a section's own forces, split so that it holds at every speed.
fn section_loop(
    gas: &TermHarmonics,
    inertia: &TermHarmonics,
    basis: &LoadBasis,
    plane: usize,
    station: &Station,
) -> SectionLoop {
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
        section.with(&force(row, gas), &force(row, inertia), property)
    })
}
