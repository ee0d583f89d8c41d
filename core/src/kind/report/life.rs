use crate::engine::Duty;
use crate::life::{WeakestLink, drawn_life_at, drawn_lives};
use crate::report::LifeReport;

/// Prints drawn for the life of one of them.
const DRAWS: usize = 10_000;

/// Any number does; this one always.
const SEED: u64 = 0x6c61_796c_6f61_6421;

/// Standard deviations either side that hold 90 % of a normal distribution.
const NINETY: f64 = 1.644_853_626_951_472_7;

/// Lives of a part; `unknown` is the standard deviation of the natural logarithm of its margin.
pub fn life_of(part: &WeakestLink, unknown: f64) -> LifeReport {
    let drawn = drawn_lives(part, DRAWS, SEED, unknown);
    let of_one = |share: f64| drawn_life_at(&drawn, share).unwrap_or(0.0);
    LifeReport {
        b50_s: part.life_at(0.5, 1.0),
        b10_s: part.life_at(0.1, 1.0),
        b1_s: part.life_at(0.01, 1.0),
        b10_low_s: part.life_at(0.1, libm::exp(NINETY * unknown)),
        b10_high_s: part.life_at(0.1, libm::exp(-NINETY * unknown)),
        one_print_low_s: of_one(0.05),
        one_print_high_s: of_one(0.95),
        draws: DRAWS,
        seed: SEED,
    }
}

/// Turns of the crank in a second of the duty.
pub(crate) fn turns_per_second(duty: &Duty) -> f64 {
    duty.revolutions() / duty.total_s()
}
