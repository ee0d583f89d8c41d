use nalgebra::{Matrix3, Vector3};

use super::model::RodModel;
use super::place::End;
use crate::engine::Duty;
use crate::job::{FatigueRule, Scenario};
use crate::life::{MeanStress, WalkerExponent};
use crate::load::{LoadBasis, PinForce};
use crate::material::{Lay, LayerPlane, LayerStrength, MaterialState, Use};
use crate::stress::EyeFamily;

/// Forces at every throttle of a duty.
#[derive(Debug, Clone)]
pub struct Loading {
    /// The duty.
    pub duty: Duty,
    /// One basis for each step of the duty, by index into `bases`.
    pub basis_of_step: Vec<usize>,
    /// Bases of the distinct throttles.
    pub bases: Vec<LoadBasis>,
    /// Turns of the crank in one cycle.
    pub turns_per_cycle: f64,
}

/// Everything an assessment of one point needs besides the point.
pub(super) struct Setting<'a> {
    pub(super) model: &'a RodModel,
    pub(super) loading: &'a Loading,
    pub(super) scenario: &'a Scenario,
    pub(super) material: MaterialState,
    pub(super) speed_factor: f64,
    pub(super) rule: MeanStress,
    pub(super) family: &'static EyeFamily,
    pub(super) plane: LayerPlane,
    wall: LayerStrength,
    lines: LayerStrength,
}

impl<'a> Setting<'a> {
    pub(super) fn new(
        model: &'a RodModel,
        loading: &'a Loading,
        scenario: &'a Scenario,
        material: MaterialState,
        speed_factor: f64,
    ) -> Self {
        let walker = WalkerExponent::new(material.walker_exponent.clamp(0.01, 1.0));
        let rule = match scenario.mean_stress {
            FatigueRule::Walker => {
                walker.map_or(MeanStress::SmithWatsonTopper, |exponent| MeanStress::Walker { exponent })
            }
            FatigueRule::Goodman => MeanStress::Goodman,
            FatigueRule::Gerber => MeanStress::Gerber,
            FatigueRule::SmithWatsonTopper => MeanStress::SmithWatsonTopper,
        };
        Self {
            model,
            loading,
            scenario,
            material,
            speed_factor,
            rule,
            family: EyeFamily::embedded(),
            plane: LayerPlane::new(model.print.build),
            wall: LayerStrength::of(&material, Lay::Wall),
            lines: LayerStrength::of(&material, Lay::Lines),
        }
    }

    pub(super) fn strength(&self, lay: Lay) -> &LayerStrength {
        match lay {
            Lay::Wall => &self.wall,
            Lay::Lines => &self.lines,
        }
    }

    /// Basis and angular speed (rad/s) of every step of the duty.
    pub(super) fn steps(&self) -> impl Iterator<Item = (&'a LoadBasis, f64)> + '_ {
        self.loading
            .duty
            .steps()
            .iter()
            .zip(&self.loading.basis_of_step)
            .map(|(step, &basis)| (&self.loading.bases[basis], step.angular_speed_rad_s() * self.speed_factor))
    }

    /// Engine cycles of every step in one repeat of the duty.
    pub(super) fn cycles(&self) -> impl Iterator<Item = f64> + '_ {
        let steps = self.loading.duty.steps().iter();
        steps.map(|step| step.revolutions() * self.speed_factor / self.loading.turns_per_cycle)
    }
}

/// Force of its pin on an eye.
pub(super) fn pin_force(basis: &LoadBasis, end: End, angle: usize, speed: f64) -> PinForce {
    match end {
        End::Small => basis.small_end(angle, speed),
        End::Big => basis.big_end(angle, speed),
    }
}

/// Strength of a point against stress along one line, per Pa, pulled and pushed.
pub(super) struct LineStrength {
    pub(super) pulled: Use,
    pub(super) pushed: Use,
    /// Strength within the layer plane, Pa: the scale of fatigue.
    pub(super) in_plane: f64,
}

impl LineStrength {
    pub(super) fn new(setting: &Setting<'_>, direction: &Vector3<f64>, lay: Lay) -> Self {
        let strength = setting.strength(lay);
        let stress: Matrix3<f64> = direction * direction.transpose();
        Self {
            pulled: strength.use_of(&stress, &setting.plane),
            pushed: strength.use_of(&-stress, &setting.plane),
            in_plane: strength.in_plane(),
        }
    }

    pub(super) fn utilisation(&self, stress: f64) -> f64 {
        if stress >= 0.0 { stress * self.pulled.utilisation } else { -stress * self.pushed.utilisation }
    }

    /// Factor that turns a stress along the line into the stress along beads that is as bad. Pushes keep the scale of
    /// pulls, which is severe.
    pub(super) fn scale(&self) -> f64 {
        self.pulled.utilisation * self.in_plane
    }
}
