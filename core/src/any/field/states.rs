use std::collections::BTreeMap;

use nalgebra::Vector3;

use super::cases::AnyField;
use super::contact::Acts;
use crate::Error;
use crate::any::prepared::PreparedAny;
use crate::job::{Every, JobError, LoadKind, PlaceError};
use crate::numeric::map_in_order;
use crate::verdict::field::States;

/// How the loads of a job are changed.
#[derive(Debug, Clone)]
pub(crate) struct Driven {
    /// On all speeds.
    pub(crate) speed: f64,
    /// On each load.
    pub(crate) loads: Vec<f64>,
    /// On all clearances: those of a bore that is softer than it was solved count as more.
    pub(crate) clearance: f64,
}

impl Driven {
    /// As the job says.
    pub(crate) fn as_given(prepared: &PreparedAny) -> Self {
        Self { speed: 1.0, loads: vec![1.0; prepared.given.loads.len()], clearance: 1.0 }
    }

    /// The same at a factor on all speeds.
    pub(crate) fn at_speed(prepared: &PreparedAny, speed: f64) -> Self {
        Self { speed, ..Self::as_given(prepared) }
    }
}

/// Loads over a duty, and what pins bear.
#[derive(Debug, Clone)]
pub(crate) struct Run {
    pub(crate) states: States,
    /// Greatest force of each pin, N.
    pub(crate) pin_forces: Vec<f64>,
    /// How often the history repeats in each step.
    pub(crate) cycles: Vec<f64>,
}

impl AnyField {
    /// How much of each case there is over the duty.
    pub(crate) fn run(&self, prepared: &PreparedAny, driven: &Driven) -> Result<Run, Error> {
        let (given, duty) = (&prepared.given, &prepared.scenario.duty);
        let top = duty.highest_rpm();
        let moments = given.history.moments.len();
        let mut known: BTreeMap<u64, Vec<Vec<f32>>> = BTreeMap::new();
        let (mut steps, mut cycles) = (Vec::new(), Vec::new());
        let follows = given.loads.iter().any(|load| load.follows_speed);
        for step in duty.steps() {
            let ratio = if follows { step.rpm / top * driven.speed } else { 1.0 };
            let states = if let Some(states) = known.get(&ratio.to_bits()) {
                states.clone()
            } else {
                let states = self.moments(prepared, driven, ratio, moments)?;
                known.insert(ratio.to_bits(), states.clone());
                states
            };
            steps.push(states);
            cycles.push(match given.history.every {
                Every::Steady => 0.0,
                Every::Turns(turns) => step.revolutions() * driven.speed / turns,
                Every::Seconds(seconds) => step.seconds / seconds,
            });
        }
        let pin_forces = self.pin_forces(&steps);
        let rest = vec![0.0; self.solved.count()];
        Ok(Run { states: States { steps, rest }, pin_forces, cycles })
    }

    fn moments(
        &self,
        prepared: &PreparedAny,
        driven: &Driven,
        ratio: f64,
        moments: usize,
    ) -> Result<Vec<Vec<f32>>, Error> {
        // Pieces of a fixed length, each with its own first guess: the answer does not depend on how many threads there are.
        const PIECE: usize = 24;
        let pieces = map_in_order(moments.div_ceil(PIECE), |piece| {
            let mut touching = None;
            let range = piece * PIECE..moments.min((piece + 1) * PIECE);
            range
                .map(|moment| self.state(prepared, driven, (moment, ratio), &mut touching))
                .collect::<Result<Vec<_>, _>>()
        });
        let mut all = Vec::with_capacity(moments);
        for piece in pieces {
            all.extend(piece?);
        }
        Ok(all)
    }

    /// How much of each case there is at a moment.
    fn state(
        &self,
        prepared: &PreparedAny,
        driven: &Driven,
        (moment, ratio): (usize, f64),
        touching: &mut Option<Vec<bool>>,
    ) -> Result<Vec<f32>, Error> {
        let given = &prepared.given;
        let pressed = self.pressed();
        let mut state = vec![0.0_f32; self.solved.count()];
        let mut others = vec![0.0; self.solved.count() - pressed];
        let mut forces = vec![Vector3::zeros(); prepared.pins.len()];
        for (number, load) in given.loads.iter().enumerate() {
            let column = given.history.factors[number][moment];
            let grown = if load.follows_speed { ratio * ratio } else { 1.0 };
            // The column of a spin is that of its speed.
            let column = if matches!(load.kind, LoadKind::Spin { .. }) { column * column } else { column };
            let factor = column * grown * driven.loads[number];
            match (self.case_of_load[number], load.kind) {
                (Some(case), _) => others[case - pressed] = factor,
                (None, LoadKind::Force { at, force, .. }) => {
                    if let Some(pin) = prepared.pins.iter().position(|pin| pin.place == at) {
                        forces[pin] += force * factor;
                    }
                }
                (None, _) => {}
            }
        }
        let pins: Vec<_> = prepared
            .pins
            .iter()
            .zip(&forces)
            .zip(&self.bores)
            .map(|((pin, force), bore)| (pin.clearance * driven.clearance, (!pin.holds).then(|| bore.square(force))))
            .collect();
        let acts = Acts { pins: &pins, loads: &others };
        let pressures = self.condensed.press(&acts, touching).map_err(|pin| {
            let place = prepared.found[prepared.pins[pin].place].name.to_string();
            JobError::from(PlaceError::Pin { place, reason: "nothing of its wall faces the force".into() })
        })?;
        for (value, pressure) in state.iter_mut().zip(pressures.iter().chain(&others)) {
            *value = *pressure as f32;
        }
        Ok(state)
    }

    /// Greatest acceleration of a floating part's middle that the loads of a run bring with them, m/s².
    pub(crate) fn greatest_acceleration(&self, run: &Run) -> f64 {
        let of_cases = self.solved.accelerations();
        let at = |state: &Vec<f32>| {
            let sum = of_cases.iter().zip(state).map(|(of, &so_much)| of.fixed_rows::<3>(0) * f64::from(so_much));
            sum.fold(Vector3::zeros(), |all, one| all + one).norm()
        };
        run.states.steps.iter().flatten().map(at).fold(0.0, f64::max)
    }

    /// Greatest force of every pin.
    fn pin_forces(&self, steps: &[Vec<Vec<f32>>]) -> Vec<f64> {
        let of_pin = |range: &core::ops::Range<usize>| {
            let force = |state: &Vec<f32>| {
                range
                    .clone()
                    .map(|k| self.condensed.forces[k] * f64::from(state[k]))
                    .sum::<nalgebra::Vector2<f64>>()
                    .norm()
            };
            steps.iter().flatten().map(force).fold(0.0, f64::max)
        };
        self.condensed.of_pin.iter().map(of_pin).collect()
    }
}
