//! Places, holds, loads and warmth of a part of any kind.

use super::limit::Limit;

const LENGTH: &str = ": is it in micrometres, metres or inches?";

pub(in crate::job) const BORE: Limit =
    Limit::of("diameter_mm", "diameter of a bore that is a place", "mm", |job, see| {
        for place in &job.place {
            see("place.bore", place.bore.and_then(|bore| bore.diameter_mm));
        }
    })
    .possible(0.1, 2000.0)
    .usual(1.0, 200.0)
    .slip(LENGTH);

pub(in crate::job) const WITHIN: Limit =
    Limit::of("within_deg", "angle by which a face may turn away", "°", |job, see| {
        for place in &job.place {
            see("place.face", place.face.and_then(|face| face.within_deg));
        }
    })
    .possible(0.1, 90.0)
    .usual(1.0, 60.0)
    .slip(": is it in radians?");

pub(in crate::job) const HOLD_CLEARANCE: Limit =
    Limit::of("clearance_mm", "radial clearance of a pin that holds", "mm", |job, see| {
        job.hold.iter().for_each(|hold| see("hold", hold.clearance_mm));
    })
    .possible(0.0, 2.0)
    .usual(0.0, 0.3)
    .slip(LENGTH);

pub(in crate::job) const LOAD_CLEARANCE: Limit =
    Limit::of("clearance_mm", "radial clearance of a pin that loads", "mm", |job, see| {
        job.load.iter().for_each(|load| see("load", load.clearance_mm));
    })
    .possible(0.0, 2.0)
    .usual(0.0, 0.3)
    .slip(LENGTH);

pub(in crate::job) const PRESSURE: Limit = Limit::of("pressure_bar", "pressure on a place", "bar", |job, see| {
    job.load.iter().for_each(|load| see("load", load.pressure_bar));
})
.possible(-1e4, 1e5)
.usual(-1.0, 300.0)
.slip(": is it in kPa or MPa?");

pub(in crate::job) const SPIN: Limit = Limit::of("rpm", "turning of the part", "rpm", |job, see| {
    for load in &job.load {
        see("load.spin", load.spin.as_ref().map(|spin| spin.rpm));
    }
})
.possible(-1e6, 1e6)
.usual(-60_000.0, 60_000.0)
.slip(": is it in rad/s or turns a second?");

pub(in crate::job) const WARM: Limit = Limit::of("temperature_c", "temperature of a place", "°C", |job, see| {
    job.warm.iter().for_each(|warm| see("warm", Some(warm.temperature_c)));
})
.possible(-100.0, 1500.0)
.usual(-40.0, 300.0)
.slip(": is it in kelvin or °F?");

pub(in crate::job) const REACH: Limit = Limit::of("reach_mm", "reach of the warmth of a place", "mm", |job, see| {
    job.warm.iter().for_each(|warm| see("warm", warm.reach_mm));
})
.possible(0.01, 1e4)
.usual(0.5, 200.0)
.slip(LENGTH);

pub(super) const ALL: &[&Limit] = &[&BORE, &WITHIN, &HOLD_CLEARANCE, &LOAD_CLEARANCE, &PRESSURE, &SPIN, &WARM, &REACH];
