use std::sync::{Arc, OnceLock};

use super::eye_stress::EyeStress;
use super::loading::Loading;
use super::model::RodModel;
use super::place::End;
use super::pressed::EyeState;
use super::station_force::StationForce;
use super::stretch::Pulls;
use super::temperatures::Temperatures;
use crate::job::{EndFits, Scenario};
use crate::life::LifeError;
use crate::load::CycleForces;
use crate::material::Card;

/// Forces and stresses over the duty at one factor on its speeds: what geometry, loads and stiffness fix, before any
/// strength.
///
/// Stations and eyes are worked out when first asked for and then kept, so that one stressing answers for many
/// materials, temperatures and build directions.
pub struct Stressing<'a> {
    /// The rod.
    pub model: &'a RodModel,
    /// What drives it.
    pub loading: &'a Loading,
    /// Factor on all speeds of the duty.
    pub speed_factor: f64,
    /// One for each step of the duty.
    pub(crate) forces: Arc<Vec<CycleForces<'a>>>,
    fits: EndFits,
    states: [EyeState; 2],
    stations: Arc<Vec<OnceLock<StationForce>>>,
    eyes: [Arc<OnceLock<Option<EyeStress>>>; 2],
    pulls: Arc<OnceLock<Result<Pulls, LifeError>>>,
}

impl<'a> Stressing<'a> {
    /// The duty as it is. Nothing is worked out yet.
    pub fn new(model: &'a RodModel, loading: &'a Loading, scenario: &Scenario, temperatures: &Temperatures) -> Self {
        let states = EyeState::both(model, scenario, &scenario.card, temperatures);
        Self::at(model, loading, scenario.fits, states, 1.0)
    }

    fn at(model: &'a RodModel, loading: &'a Loading, fits: EndFits, states: [EyeState; 2], speed_factor: f64) -> Self {
        let steps = loading.duty.steps().iter().zip(&loading.basis_of_step);
        let forces = steps.map(|(step, &basis)| loading.bases[basis].at(step.angular_speed_rad_s() * speed_factor));
        let stations = (0..model.stations.len()).map(|_| OnceLock::new()).collect();
        Self {
            model,
            loading,
            speed_factor,
            forces: Arc::new(forces.collect()),
            fits,
            states,
            stations: Arc::new(stations),
            eyes: Default::default(),
            pulls: Arc::default(),
        }
    }

    /// The same with other eyes; what does not depend on them is shared.
    pub(crate) fn with_eyes(&self, states: [EyeState; 2]) -> Self {
        let shared = |index: usize| {
            if states[index] == self.states[index] { self.eyes[index].clone() } else { Arc::default() }
        };
        let eyes = [shared(0), shared(1)];
        let (forces, stations, pulls) = (self.forces.clone(), self.stations.clone(), self.pulls.clone());
        Self { forces, states, stations, eyes, pulls, ..*self }
    }

    /// The same forces on a rod that fits or is warmed otherwise; what does not depend on that is shared.
    pub(crate) fn under(&self, scenario: &Scenario, temperatures: &Temperatures) -> Self {
        let same = self.with_eyes(EyeState::both(self.model, scenario, &scenario.card, temperatures));
        if scenario.fits == self.fits { same } else { Self { fits: scenario.fits, eyes: Default::default(), ..same } }
    }

    /// The same rod with all speeds of the duty times a factor.
    pub(crate) fn at_speed(&self, speed_factor: f64, states: [EyeState; 2]) -> Self {
        Self::at(self.model, self.loading, self.fits, states, speed_factor)
    }

    /// Engine cycles of every step in one repeat of the duty.
    pub(crate) fn cycles(&self) -> impl Iterator<Item = f64> + Clone + '_ {
        let steps = self.loading.duty.steps().iter();
        steps.map(|step| step.revolutions() * self.speed_factor / self.loading.turns_per_cycle)
    }

    /// Share of the running time of every step.
    pub(crate) fn shares(&self) -> impl Iterator<Item = f64> + Clone + '_ {
        let total = self.loading.duty.total_s();
        self.loading.duty.steps().iter().map(move |step| step.seconds / total)
    }

    /// Forces and fibre stresses at a station.
    pub(crate) fn station(&self, index: usize) -> &StationForce {
        self.stations[index].get_or_init(|| StationForce::of(&self.model.stations[index], index, &self.forces))
    }

    /// What pulls on the cuts of the load path; worked out again only for a card that creeps otherwise.
    pub(crate) fn pulls(&self, card: &Card) -> Result<Pulls, LifeError> {
        match self.pulls.get_or_init(|| Pulls::of(self, card)) {
            Ok(known) if known.hold_for(card) => Ok(known.clone()),
            _ => Pulls::of(self, card),
        }
    }

    /// Hoop stress round an eye; `None` where its ring could not be measured.
    pub(crate) fn eye(&self, end: End) -> Option<&EyeStress> {
        let index = end as usize;
        let known = self.eyes[index].get_or_init(|| {
            let eye = self.model.eyes[index].as_ref()?;
            let clearance = end.clearance(&self.fits);
            Some(EyeStress::of(end, eye, clearance, self.states[index], &self.forces))
        });
        known.as_ref()
    }
}
