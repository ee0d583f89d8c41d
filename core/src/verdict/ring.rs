use super::fatigue::{Fatigue, extremes};
use super::mode::Mode;
use super::piece::{FirstLook, Spot};
use super::place::{End, RodPlace};
use super::quantile::ten_percent_factor;
use super::setting::{LineStrength, Setting, pin_force};
use super::shank::at_once;
use super::summary::ModeMargin;
use crate::life::RainflowScratch;
use crate::stress::{EYE_ANGLES, EyeModel, Fit, Thrust, WidthFactors};

/// Hoop stress round an eye at every crank angle of every step, at the angles of the contact study.
struct RingStress {
    /// `[step]`, then bore and outer surface at each crank angle, Pa.
    steps: Vec<Vec<[[f64; EYE_ANGLES]; 2]>>,
    /// Greatest pin force, N.
    greatest: f64,
}

impl RingStress {
    fn of(setting: &Setting<'_>, end: End, eye: &EyeModel) -> Self {
        let fits = &setting.scenario.fits;
        let radial_clearance = if end == End::Small { fits.small_end } else { fits.big_end };
        let fit = Fit { radial_clearance, modulus: setting.material.in_plane_modulus() };
        let of_width = |thrust| WidthFactors::new(setting.family, thrust, eye.width_ratio());
        let (pull, push) = (of_width(Thrust::Pull), of_width(Thrust::Push));
        let net = eye.net_area();
        let outward = if end == End::Small { -1.0 } else { 1.0 };
        let mut greatest = 0.0_f64;
        let steps = setting
            .steps()
            .map(|(basis, speed)| {
                (0..basis.angles())
                    .map(|angle| {
                        let pin = pin_force(basis, end, angle, speed);
                        let force = libm::hypot(pin.along, pin.across);
                        greatest = greatest.max(force);
                        // A pin that pushes the rod's end outward pulls the rod.
                        let pulled = pin.along * outward > 0.0;
                        if pulled && eye.half {
                            return [[0.0; EYE_ANGLES]; 2];
                        }
                        let factors = if pulled { &pull } else { &push }.at(eye.looseness(force, fit));
                        let nominal = force / net;
                        [factors.bore.map(|f| f * nominal), factors.outer.map(|f| f * nominal)]
                    })
                    .collect()
            })
            .collect();
        Self { steps, greatest }
    }

    fn history(&self, step: usize, outside: bool, angle: usize) -> impl Iterator<Item = f64> + '_ {
        self.steps[step].iter().map(move |stress| stress[usize::from(outside)][angle])
    }
}

/// A first look at an eye.
pub(super) fn look(setting: &Setting<'_>, end: End) -> FirstLook {
    let mut found = FirstLook::default();
    let Some(eye) = &setting.model.eyes[end as usize] else { return found };
    let stress = RingStress::of(setting, end, eye);
    for (number, point) in setting.model.eye_points[end as usize].iter().enumerate() {
        let strength = LineStrength::new(setting, &point.hoop, point.lay);
        let steps: Vec<(f64, f64)> =
            (0..stress.steps.len()).map(|step| extremes(stress.history(step, point.outside, point.angle))).collect();
        let whole = steps.iter().fold((0.0_f64, 0.0_f64), |all, step| (all.0.min(step.0), all.1.max(step.1)));
        for mode in at_once(setting, &strength, whole, point.place) {
            found.add(mode);
        }
        let fatigue = Fatigue::new(setting, strength.in_plane, strength.pulled, point.place);
        let scaled = steps.iter().map(|(low, high)| (low * strength.scale(), high * strength.scale()));
        found.spots.push((fatigue.at_least(scaled), Spot::Round { end, point: number }));
        found.extremes.push(whole);
    }
    let deviation = setting.material.strength_scatter;
    let pressure = eye.pin_pressure(stress.greatest);
    let margin = ten_percent_factor(deviation) * setting.material.bearing_pressure / pressure.max(1.0);
    found.add(ModeMargin::at_once(Mode::BearingPressure, RodPlace::Bore { end }, margin, deviation));
    found
}

/// The exact margins of a point round an eye.
pub(super) fn point(setting: &Setting<'_>, end: End, number: usize) -> Vec<ModeMargin> {
    let Some(eye) = &setting.model.eyes[end as usize] else { return Vec::new() };
    let point = &setting.model.eye_points[end as usize][number];
    let stress = RingStress::of(setting, end, eye);
    let strength = LineStrength::new(setting, &point.hoop, point.lay);
    let scale = strength.scale();
    let histories: Vec<Vec<f64>> = (0..stress.steps.len())
        .map(|step| stress.history(step, point.outside, point.angle).map(|s| s * scale).collect())
        .collect();
    let fatigue = Fatigue::new(setting, strength.in_plane, strength.pulled, point.place);
    vec![fatigue.exact(&histories, &mut RainflowScratch::default())]
}
