use super::model::RodModel;
use super::place::End;
use super::temperatures::Temperatures;
use crate::job::{Ring, Scenario};
use crate::life::Findley;
use crate::material::{Card, REFERENCE_TEMPERATURE};
use crate::stress::{FitStress, PressFit, RingMaterial, StressError, grip_lasts, relaxed_pressure};

/// Friction of a metal ring in its plastic bore (memory).
const FRICTION: f64 = 0.2;

/// What an eye is like before any force: how stiff, and how stressed by its ring.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct EyeState {
    /// Young's modulus in its plane, Pa.
    pub modulus: f64,
    /// Hoop stress by the ring pressed in, at the bore and on the outer surface, Pa.
    pub pressed: [f64; 2],
}

impl EyeState {
    /// Of the small and the big end at their temperatures.
    pub fn both(model: &RodModel, scenario: &Scenario, card: &Card, temperatures: &Temperatures) -> [Self; 2] {
        [End::Small, End::Big].map(|end| {
            let modulus = card.at(temperatures.eyes[end as usize], scenario.moisture).in_plane_modulus();
            // Heat eases the fit of plastic on metal; creep does too, but not at first.
            let hot = Pressed::of(model, scenario, card, temperatures, end).map(|ring| ring.running());
            let hot = hot.and_then(Result::ok).unwrap_or_default();
            Self { modulus, pressed: [hot.eye_hoop, hot.eye_outside_hoop] }
        })
    }
}

/// A ring pressed into an eye.
pub struct Pressed<'a> {
    /// The ring.
    pub ring: &'a Ring,
    /// Least and greatest radial interference at assembly, m.
    pub interference: (f64, f64),
    cold: PressFit,
    hot: PressFit,
    warming: f64,
    creep: Findley,
    kelvin: f64,
}

impl<'a> Pressed<'a> {
    /// The ring of an eye, if it has one and the eye could be measured.
    pub fn of(
        model: &RodModel,
        scenario: &'a Scenario,
        card: &Card,
        temperatures: &Temperatures,
        end: End,
    ) -> Option<Self> {
        let ring = scenario.rings[end as usize].as_ref()?;
        let eye = model.eyes[end as usize].as_ref()?;
        let kelvin = temperatures.eyes[end as usize];
        let fit = |kelvin: f64| {
            let state = card.at(kelvin, scenario.moisture);
            let stuff = RingMaterial {
                modulus: state.in_plane_modulus(),
                poisson_ratio: state.poisson_ratio,
                expansion: state.in_plane_expansion(),
            };
            PressFit::new(ring.inner_radius, eye.radius, eye.radius + eye.ligament, ring.material, stuff).ok()
        };
        let state = card.at(REFERENCE_TEMPERATURE, scenario.moisture);
        let creep = Findley::of_material(&card.creep.in_si(), state.bead_modulus / state.in_plane_modulus()).ok()?;
        let by_mesh = 0.5 * ring.outside - eye.radius;
        let interference = ring.interference.map_or((by_mesh, by_mesh), |(least, most)| (0.5 * least, 0.5 * most));
        let warming = kelvin - REFERENCE_TEMPERATURE;
        Some(Self { ring, interference, cold: fit(REFERENCE_TEMPERATURE)?, hot: fit(kelvin)?, warming, creep, kelvin })
    }

    /// Stresses right after assembly, at the greatest interference.
    pub fn assembled(&self) -> FitStress {
        self.cold.at(self.interference.1)
    }

    /// Stresses when warm and before any creep, at the greatest interference.
    pub fn running(&self) -> Result<FitStress, StressError> {
        Ok(self.hot.at(self.hot.warmed(self.interference.1, self.warming)))
    }

    /// Pressure left after a time at the running temperature, Pa, at the least interference.
    pub fn pressure_after(&self, seconds: f64) -> Result<f64, StressError> {
        let warm = self.hot.warmed(self.interference.0, self.warming);
        if warm <= 0.0 {
            return Ok(0.0);
        }
        relaxed_pressure(&self.hot, warm, |hoop| self.creep_strain(hoop, seconds))
    }

    /// Pressure that friction needs so that a pin force, N, cannot drag the ring round, Pa.
    pub fn needed(&self, force: f64) -> f64 {
        self.ring.drag_arm * force / self.cold.slip_force(1.0, self.ring.width, FRICTION) / self.cold.joint_radius()
    }

    /// Running time until the ring can be dragged round by a pin force, N, s; `None` beyond `horizon`, s.
    pub fn grip_lasts(&self, force: f64, horizon: f64) -> Result<Option<f64>, StressError> {
        let warm = self.hot.warmed(self.interference.0, self.warming);
        grip_lasts(&self.hot, warm, self.needed(force), horizon, |hoop, seconds| self.creep_strain(hoop, seconds))
    }

    /// Temperature at which the least interference is gone, K; `None` where heat only tightens the fit.
    pub fn loose_at(&self) -> Option<f64> {
        self.cold.loose_at(self.interference.0).map(|warming| REFERENCE_TEMPERATURE + warming)
    }

    fn creep_strain(&self, hoop: f64, seconds: f64) -> f64 {
        self.creep.strain(hoop, seconds, self.kelvin).unwrap_or(f64::INFINITY)
    }
}
