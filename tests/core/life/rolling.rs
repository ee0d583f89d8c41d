//! Rating life of the bearings in a running rod, against sums by hand.

use approx::assert_relative_eq;
use layload_core::job::{Job, Rating};
use layload_core::life::RollingElement;
use layload_core::rod::{End, rolling_life};
use layload_core::stress::EyeFamily;
use layload_core::{Question, prepare};

use super::Tested;
use crate::mesh::files;

/// ISO 281 with the pin force of every crank angle, each weighed by the way the rings roll meanwhile.
#[test]
fn pin_forces_of_the_duty_by_cubic_mean() -> Tested {
    let job = Job::from_toml(&String::from_utf8(files::bytes("samples/bench_bearings.toml")?)?)?;
    let question = Question { job: &job, card_text: None, pressure_text: None };
    let prepared = prepare(&files::bytes("samples/bearing_rod.stl")?, &question, &mut ())?;
    let model = prepared.model(EyeFamily::embedded().angles());
    let loading = prepared.loading(&model)?;
    let (ratio, steps) = (prepared.crank.throw_m() / prepared.crank.rod_length_m(), loading.duty.steps());
    for (element, power) in [(RollingElement::Ball, 3.0), (RollingElement::Roller, 10.0 / 3.0)] {
        for end in [End::Small, End::Big] {
            let rating = Rating { element, dynamic_load: 12_700.0 };
            let found = rolling_life(&loading, &prepared.crank, &rating, end)?;
            // The rod's angle b: sin b = r/L sin t. Its rate by differences of the angle itself.
            let lean = |angle: f64| libm::asin(ratio * libm::sin(angle));
            let (mut sum, mut turns) = (0.0, 0.0);
            for (step, &basis) in steps.iter().zip(&loading.basis_of_step) {
                let basis = &loading.bases[basis];
                let stride = 4.0 * core::f64::consts::PI / basis.angles() as f64;
                for k in 0..basis.angles() {
                    let angle = k as f64 * stride;
                    let turned = lean(angle + stride / 2.0) - lean(angle - stride / 2.0);
                    let (force, turned) = match end {
                        End::Small => (basis.small_end(k, step.angular_speed_rad_s()), turned.abs()),
                        End::Big => (basis.big_end(k, step.angular_speed_rad_s()), stride + turned),
                    };
                    let weight = step.revolutions() / 2.0 * turned / core::f64::consts::TAU;
                    turns += weight;
                    sum += weight * libm::pow(libm::hypot(force.along, force.across), power);
                }
            }
            // In closed form: one turn a revolution at the crank, four times the greatest lean at the piston.
            let revolutions: f64 = steps.iter().map(layload_core::engine::DutyStep::revolutions).sum();
            let per_revolution = if end == End::Big { 1.0 } else { 4.0 * libm::asin(ratio) / core::f64::consts::TAU };
            // Differences over one stride of some 720 are good to a few parts in a hundred thousand.
            assert_relative_eq!(turns, revolutions * per_revolution, max_relative = 1e-4);
            let equivalent = libm::pow(sum / turns, 1.0 / power);
            assert_relative_eq!(found.equivalent_load, equivalent, max_relative = 1e-4);
            let life = 1e6 * libm::pow(12_700.0 / equivalent, power);
            // Three times the former, by the power.
            assert_relative_eq!(found.turns, life, max_relative = 4e-4);
            assert_relative_eq!(found.seconds, life / turns * loading.duty.total_s(), max_relative = 4e-4);
        }
    }
    Ok(())
}
