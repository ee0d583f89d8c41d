use super::place::End;
use super::pressed::EyeState;
use crate::load::{CycleForces, PinForce};
use crate::numeric::{greater, lesser};
use crate::stress::{EYE_ANGLES, EyeFamily, EyeModel, Fit, TableLoad, Thrust, WidthFactors};
use crate::verdict::{Reach, SpotStress};

/// Hoop stress round an eye over the duty.
#[derive(Debug, Clone)]
pub(crate) struct EyeStress {
    /// Greatest pin force, N.
    pub(crate) greatest: f64,
    /// At the angles of the contact study, first at the bore, then on the outer surface.
    pub(crate) spots: Vec<SpotStress>,
    /// By the pressed ring, at the bore and on the outer surface, Pa.
    pressed: [f64; 2],
    pull: WidthFactors,
    push: WidthFactors,
    /// `[step][crank angle]`.
    pins: Vec<Vec<PinState>>,
}

/// Spots of an eye: the angles of the study at the bore and on the outer surface.
const SPOTS: usize = 2 * EYE_ANGLES;

/// Least and greatest stress of every spot, Pa.
struct Reached {
    low: [f64; SPOTS],
    high: [f64; SPOTS],
}

/// The pin at one crank angle, in the words of the contact study.
#[derive(Debug, Clone, Copy)]
struct PinState {
    /// Pin force over net section, Pa.
    nominal: f64,
    pulls: bool,
    load: TableLoad,
}

impl EyeStress {
    pub(crate) fn of(end: End, eye: &EyeModel, clearance: f64, eye_state: EyeState, steps: &[CycleForces<'_>]) -> Self {
        let fit = Fit { radial_clearance: clearance, modulus: eye_state.modulus };
        let of_width = |thrust| WidthFactors::new(EyeFamily::embedded(), thrust, eye.width_ratio());
        let (pull, push) = (of_width(Thrust::Pull), of_width(Thrust::Push));
        let net = eye.net_area() / eye.raise;
        let outward = if end == End::Small { -1.0 } else { 1.0 };
        let mut greatest = 0.0_f64;
        let state = |forces: &CycleForces<'_>, angle: usize, greatest: &mut f64| {
            let pin = pin_force(forces, end, angle);
            let force = libm::hypot(pin.along, pin.across);
            *greatest = greater(*greatest, force);
            // A pin that pushes the rod's end outward pulls the rod; a half bore has nothing there to pull.
            let pulls = pin.along * outward > 0.0;
            let nominal = if pulls && eye.half { 0.0 } else { force / net };
            let load = if pulls { &pull } else { &push }.load(eye.looseness(force, fit));
            PinState { nominal, pulls, load }
        };
        let pins: Vec<Vec<PinState>> = steps
            .iter()
            .map(|forces| (0..forces.angles()).map(|angle| state(forces, angle, &mut greatest)).collect())
            .collect();
        let mut found = Self { greatest, spots: Vec::new(), pressed: eye_state.pressed, pull, push, pins };
        let reached: Vec<_> = (0..steps.len()).map(|step| found.reached(step)).collect();
        found.spots = (0..SPOTS)
            .map(|spot| {
                let steps = reached.iter().map(|step| (step.low[spot], step.high[spot])).collect();
                // At rest the ring still presses.
                SpotStress::new(Reach { steps, rest: eye_state.pressed[usize::from(spot >= EYE_ANGLES)] })
            })
            .collect();
        found
    }

    /// Least and greatest stress of every spot in a step: all of them at one crank angle after another, so that each pass
    /// is a plain loop over neighbours in memory.
    fn reached(&self, step: usize) -> Reached {
        let mut reached = Reached { low: [f64::INFINITY; SPOTS], high: [f64::NEG_INFINITY; SPOTS] };
        let Reached { low, high } = &mut reached;
        for pin in &self.pins[step] {
            let factors = if pin.pulls { &self.pull } else { &self.push };
            let at_pin = factors.at_load(pin.load);
            for (outside, factors) in [&at_pin.bore, &at_pin.outer].into_iter().enumerate() {
                let own = outside * EYE_ANGLES..(outside + 1) * EYE_ANGLES;
                for ((low, high), factor) in low[own.clone()].iter_mut().zip(&mut high[own]).zip(factors) {
                    let stress = self.pressed[outside] + pin.nominal * factor;
                    *low = lesser(*low, stress);
                    *high = greater(*high, stress);
                }
            }
        }
        reached
    }

    /// Number of a spot by its angle in the study and its surface.
    pub(crate) fn spot(angle: usize, outside: bool) -> usize {
        if outside { EYE_ANGLES + angle } else { angle }
    }

    /// Stress of a spot at every crank angle of a step, Pa.
    pub(crate) fn history(&self, spot: usize, step: usize) -> Vec<f64> {
        self.stresses(spot, step).collect()
    }

    fn stresses(&self, spot: usize, step: usize) -> impl Iterator<Item = f64> + '_ {
        let (outside, angle) = (spot >= EYE_ANGLES, spot % EYE_ANGLES);
        let pressed = self.pressed[usize::from(outside)];
        self.pins[step].iter().map(move |pin| {
            let factors = if pin.pulls { &self.pull } else { &self.push };
            pressed + pin.nominal * factors.factor(pin.load, outside, angle)
        })
    }
}

/// Force of its pin on an eye.
pub(crate) fn pin_force(forces: &CycleForces<'_>, end: End, angle: usize) -> PinForce {
    match end {
        End::Small => forces.small_end(angle),
        End::Big => forces.big_end(angle),
    }
}
