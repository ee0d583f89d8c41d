//! How the engine is run and what surrounds the part.

use super::limit::Limit;

const TEMPERATURE: &str = ": is it in kelvin or degrees Fahrenheit?";

pub(in crate::job) const PART_TEMPERATURE: Limit =
    Limit::of("temperature_c", "part temperature", "°C", |job, see| see("material", job.material.temperature_c))
        .possible(-60.0, 600.0)
        .usual(-40.0, 250.0)
        .slip(TEMPERATURE);

pub(in crate::job) const AIR: Limit = Limit::of("crankcase_air_c", "crankcase air", "°C", |job, see| {
    see("surroundings", job.surroundings.crankcase_air_c);
})
.possible(-60.0, 400.0)
.usual(-20.0, 120.0)
.slip(TEMPERATURE);

pub(in crate::job) const PISTON_PIN: Limit =
    Limit::of("piston_pin_c", "piston pin", "°C", |job, see| see("surroundings", job.surroundings.piston_pin_c))
        .possible(-60.0, 400.0)
        .usual(-20.0, 170.0)
        .slip(TEMPERATURE);

pub(in crate::job) const CRANK_PIN: Limit =
    Limit::of("crank_pin_c", "crank pin", "°C", |job, see| see("surroundings", job.surroundings.crank_pin_c))
        .possible(-60.0, 400.0)
        .usual(-20.0, 145.0)
        .slip(TEMPERATURE);

pub(in crate::job) const START: Limit =
    Limit::of("start_c", "part before a run", "°C", |job, see| see("surroundings", job.surroundings.start_c))
        .possible(-60.0, 200.0)
        .usual(-30.0, 60.0)
        .slip(TEMPERATURE);

pub(in crate::job) const WANTED_LIFE: Limit =
    Limit::of("wanted_life_h", "wanted life", "h", |job, see| see("duty", job.duty.wanted_life_h))
        .possible(1e-6, 1e6)
        .usual(0.002, 2000.0)
        .slip(": is it in seconds?");

pub(in crate::job) const RUN: Limit =
    Limit::of("run_s", "length of one run", "s", |job, see| see("duty", job.duty.run_s))
        .possible(1.0, 1e6)
        .usual(1.0, 14_400.0)
        .slip(": is it in milliseconds?");

fn steps(job: &crate::job::file::Job, see: &mut super::limit::See<'_>, of: fn(&crate::engine::DutyStep) -> f64) {
    job.duty.steps.iter().flatten().for_each(|step| see("duty.steps", Some(of(step))));
}

/// Impossible ones the duty refuses with the number of the step.
const SPEED: Limit = Limit::of("rpm", "speed of a step", "rpm", |job, see| steps(job, see, |step| step.rpm))
    .usual(300.0, 30_000.0)
    .slip(": has it a zero too many or too few, or is it in turns a second or rad/s?");

const THROTTLE: Limit =
    Limit::of("throttle", "throttle of a step", "1", |job, see| steps(job, see, |step| step.throttle))
        .usual(0.02, 1.0)
        .slip(": 1 is fully open; near 0 hardly any gas pushes");

const SECONDS: Limit = Limit::of("seconds", "length of a step", "s", |job, see| steps(job, see, |step| step.seconds))
    .usual(0.5, 1e6)
    .slip(": is it in minutes or hours?");

pub(super) const ALL: &[&Limit] =
    &[&PART_TEMPERATURE, &AIR, &PISTON_PIN, &CRANK_PIN, &START, &WANTED_LIFE, &RUN, &SPEED, &THROTTLE, &SECONDS];
