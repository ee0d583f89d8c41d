//! Engine.

use super::limit::Limit;

const LENGTH: &str = ": is it in centimetres, metres or inches?";

pub(in crate::job) const STROKE: Limit =
    Limit::of("stroke_mm", "stroke", "mm", |job, see| see("engine", job.engine.stroke_mm))
        .possible(1.0, 2000.0)
        .usual(8.0, 250.0)
        .slip(LENGTH);

pub(in crate::job) const BORE: Limit =
    Limit::of("bore_mm", "cylinder bore", "mm", |job, see| see("engine", job.engine.bore_mm))
        .possible(1.0, 2000.0)
        .usual(8.0, 250.0)
        .slip(LENGTH);

/// What is usual goes with the bore.
pub(in crate::job) const RECIPROCATING_MASS: Limit =
    Limit::of("reciprocating_mass_g", "reciprocating mass", "g", |job, see| {
        see("engine", job.engine.reciprocating_mass_g);
    })
    .possible(0.01, 1e6);

pub(in crate::job) const COMPRESSION_RATIO: Limit =
    Limit::of("compression_ratio", "compression ratio", "1", |job, see| see("engine", job.engine.compression_ratio))
        .possible(1.5, 40.0)
        .usual(4.0, 23.0)
        .slip(": is it a pressure?");

/// What is usual goes with the stroke.
pub(in crate::job) const PIN_OFFSET: Limit =
    Limit::of("pin_offset_mm", "pin offset", "mm", |job, see| see("engine", job.engine.pin_offset_mm))
        .possible(-500.0, 500.0);

pub(in crate::job) const PISTON_TO_HEAD: Limit =
    Limit::of("piston_to_head_mm", "cold gap between piston and head", "mm", |job, see| {
        see("engine", job.engine.piston_to_head_mm);
    })
    .possible(0.0, 100.0)
    .usual(0.2, 10.0)
    .slip(LENGTH);

pub(in crate::job) const PEAK_PRESSURE: Limit =
    Limit::of("peak_pressure_bar", "peak cylinder pressure", "bar", |job, see| {
        see("engine.gas", job.engine.gas.peak_pressure_bar);
    })
    .possible(1.0, 400.0)
    .usual(5.0, 150.0)
    .slip(": is it in MPa or psi?");

pub(in crate::job) const CRANKCASE_PRESSURE: Limit =
    Limit::of("crankcase_pressure_bar", "crankcase pressure", "bar", |job, see| {
        see("engine.gas", job.engine.gas.crankcase_pressure_bar);
    })
    .possible(0.0, 20.0)
    .usual(0.7, 2.0)
    .slip(": it is absolute, open air has 1 bar");

pub(in crate::job) const PEAK_SPREAD: Limit =
    Limit::of("peak_spread_percent", "spread of peak pressure", "%", |job, see| {
        see("engine.gas", job.engine.gas.peak_spread_percent);
    })
    .possible(0.0, 50.0)
    .usual(1.0, 20.0)
    .slip(": it is a standard deviation in per cent of the mean");

pub(in crate::job) const KNOCK_EVERY: Limit = Limit::of("knock_every", "cycles to one that knocks", "1", |job, see| {
    see("engine.gas", job.engine.gas.knock_every);
})
.possible(2.0, 1e9);

pub(in crate::job) const KNOCK_TIMES: Limit =
    Limit::of("knock_times", "peak of a knocking cycle over the mean", "1", |job, see| {
        see("engine.gas", job.engine.gas.knock_times);
    })
    .possible(1.0, 10.0)
    .usual(1.05, 3.0)
    .slip(": it is a factor on the mean peak");

pub(super) const ALL: &[&Limit] = &[
    &STROKE,
    &BORE,
    &RECIPROCATING_MASS,
    &COMPRESSION_RATIO,
    &PIN_OFFSET,
    &PISTON_TO_HEAD,
    &PEAK_PRESSURE,
    &CRANKCASE_PRESSURE,
    &PEAK_SPREAD,
    &KNOCK_EVERY,
    &KNOCK_TIMES,
];
