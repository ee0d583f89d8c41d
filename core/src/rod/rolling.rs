use core::f64::consts::TAU;

use super::loading::Loading;
use super::place::End;
use crate::engine::SliderCrank;
use crate::job::Rating;
use crate::life::{BearingLoad, LifeError, basic_rating_life, equivalent_load};

/// Basic rating life of a rolling bearing over a duty.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RollingLife {
    /// Steady load of the same life, N.
    pub equivalent_load: f64,
    /// Turns of its inner ring in the outer that nine bearings in ten outlive.
    pub turns: f64,
    /// The same in running time, s.
    pub seconds: f64,
}

/// Rating life of the bearing in an eye by ISO 281, its load the pin's force at every crank angle.
///
/// Each angle counts by the way its rings roll on each other meanwhile: at the crank pin about one turn a revolution, at
/// the piston pin, which swings, twice the swing of the rod to and fro.
pub fn rolling_life(
    loading: &Loading,
    crank: &SliderCrank,
    rating: &Rating,
    end: End,
) -> Result<RollingLife, LifeError> {
    let mut loads = Vec::new();
    for (step, &basis) in loading.duty.steps().iter().zip(&loading.basis_of_step) {
        let (basis, speed) = (&loading.bases[basis], step.angular_speed_rad_s());
        let cycles = step.revolutions() / loading.turns_per_cycle;
        let stride = TAU * loading.turns_per_cycle / basis.angles() as f64;
        for angle in 0..basis.angles() {
            // The rod turns against the sense in which its angle counts.
            let swing = crank.at(angle as f64 * stride, 1.0).rod_angular_velocity_rad_s;
            let (force, rolling) = match end {
                End::Small => (basis.small_end(angle, speed), swing.abs()),
                End::Big => (basis.big_end(angle, speed), (1.0 + swing).abs()),
            };
            loads.push(BearingLoad {
                force_n: libm::hypot(force.along, force.across),
                revolutions: cycles * rolling * stride / TAU,
            });
        }
    }
    let equivalent_load = equivalent_load(rating.element, &loads)?;
    let turns = basic_rating_life(rating.element, rating.dynamic_load, equivalent_load)?;
    let per_repeat: f64 = loads.iter().map(|load| load.revolutions).sum();
    Ok(RollingLife { equivalent_load, turns, seconds: turns / per_repeat * loading.duty.total_s() })
}
