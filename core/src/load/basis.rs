use std::sync::Arc;

use super::cycle::CycleForces;
use super::drive::{Drive, TERMS, Terms};
use super::force::{PinForce, SectionForce};
use super::rod_mass::RodMass;
use crate::engine::{CrankState, SliderCrank};

/// Pin and section forces of one pressure trace, split into what the gas does and what inertia does at 1 rad/s.
///
/// The [`Drive`] at each crank angle is the same for all planes; a plane has four rows of [`Terms`], one for each of its
/// forces, which hold at every angle and speed.
#[derive(Debug, Clone)]
pub struct LoadBasis {
    gas: Drive,
    /// The same at every throttle, as the planes are.
    inertia: Arc<Drive>,
    planes: Arc<[Terms]>,
}

impl LoadBasis {
    /// Forces over one cycle.
    ///
    /// `gas_force[i]` is the force of the gas on the piston toward the crank, N, at crank angle `i * step`; the
    /// reciprocating mass (kg) is what moves with the piston: piston, rings, pin.
    pub fn new(rod: &RodMass, crank: &SliderCrank, reciprocating_mass: f64, gas_force: &[f64], step: f64) -> Self {
        let states: Vec<CrankState> = (0..gas_force.len()).map(|i| crank.at(i as f64 * step, 1.0)).collect();
        let gas = Drive::of_gas(rod, &states, gas_force);
        let inertia = Drive::of_inertia(rod, &states, reciprocating_mass);
        let planes = (0..rod.planes().len()).map(|plane| Terms::of(rod, plane)).collect();
        Self { gas, inertia: Arc::new(inertia), planes }
    }

    /// The same rod on the same crank under another pressure at the same crank angles: what inertia does is shared.
    pub(crate) fn under(&self, rod: &RodMass, crank: &SliderCrank, gas_force: &[f64], step: f64) -> Self {
        let states: Vec<CrankState> = (0..gas_force.len()).map(|i| crank.at(i as f64 * step, 1.0)).collect();
        Self { gas: Drive::of_gas(rod, &states, gas_force), inertia: self.inertia.clone(), planes: self.planes.clone() }
    }

    /// Crank angles in the cycle.
    pub fn angles(&self) -> usize {
        self.gas.angles()
    }

    /// Planes along the rod.
    pub fn planes(&self) -> usize {
        self.planes.len()
    }

    /// All forces at an angular speed of the crank, rad/s.
    pub fn at(&self, angular_speed: f64) -> CycleForces<'_> {
        CycleForces::new(&self.planes, &self.gas, &self.inertia, angular_speed * angular_speed)
    }

    /// Force of the piston pin on the rod at an angular speed of the crank, rad/s.
    pub fn small_end(&self, angle: usize, angular_speed: f64) -> PinForce {
        let squared = angular_speed * angular_speed;
        self.gas.small_end(angle).plus(&self.inertia.small_end(angle), squared)
    }

    /// Force of the crank pin on the rod.
    pub fn big_end(&self, angle: usize, angular_speed: f64) -> PinForce {
        let squared = angular_speed * angular_speed;
        self.gas.big_end(angle).plus(&self.inertia.big_end(angle), squared)
    }

    /// Force and moments at a plane.
    pub fn section(&self, plane: usize, angle: usize, angular_speed: f64) -> SectionForce {
        let squared = angular_speed * angular_speed;
        let state: [f64; TERMS] =
            core::array::from_fn(|term| self.gas.rows[term][angle] + squared * self.inertia.rows[term][angle]);
        self.planes[plane].force(&state)
    }

    /// What the gas does, by term.
    pub(crate) fn gas(&self) -> &Drive {
        &self.gas
    }

    /// What inertia does at 1 rad/s, by term.
    pub(crate) fn inertia(&self) -> &Drive {
        &self.inertia
    }

    /// Rows of a plane.
    pub(crate) fn terms(&self, plane: usize) -> &Terms {
        &self.planes[plane]
    }
}
