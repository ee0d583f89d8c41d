//! Eyes of a rod with what is pressed into them or clamped over them, and the model.

use super::limit::{Limit, See};
use crate::job::cap::CapTable;
use crate::job::file::{EyeTable, Job};
use crate::job::ring::RingTable;

const LENGTH: &str = ": is it in micrometres, metres or inches?";

fn eyes(job: &Job, see: &mut See<'_>, of: fn(&EyeTable) -> Option<f64>) {
    see("part.small_end", of(&job.part.small_end));
    see("part.big_end", of(&job.part.big_end));
}

fn rings(job: &Job, see: &mut See<'_>, of: fn(&RingTable) -> Option<f64>) {
    see("part.small_end.ring", job.part.small_end.ring.as_ref().and_then(of));
    see("part.big_end.ring", job.part.big_end.ring.as_ref().and_then(of));
}

fn caps(job: &Job, see: &mut See<'_>, of: fn(&CapTable) -> Option<f64>) {
    see("part.small_end.cap", job.part.small_end.cap.as_ref().and_then(of));
    see("part.big_end.cap", job.part.big_end.cap.as_ref().and_then(of));
}

const BORE: Limit =
    Limit::of("diameter_mm", "bore given by hand", "mm", |job, see| eyes(job, see, |eye| eye.diameter_mm))
        .usual(2.0, 250.0)
        .slip(LENGTH);

const PISTON_BODY: Limit = Limit::of("diameter_mm", "piston diameter given by hand", "mm", |job, see| {
    see("part.piston", job.part.piston.diameter_mm);
})
.usual(8.0, 250.0)
.slip(LENGTH);

const PISTON_PIN: Limit = Limit::of("pin_diameter_mm", "pin bore given by hand", "mm", |job, see| {
    see("part.piston", job.part.piston.pin_diameter_mm);
})
.usual(2.0, 100.0)
.slip(LENGTH);

fn grooves(job: &Job, see: &mut See<'_>, of: fn(&crate::job::file::GrooveTable) -> f64) {
    let list = job.part.piston.grooves.as_deref().unwrap_or_default();
    for groove in list {
        see("part.piston.grooves", Some(of(groove)));
    }
}

const GROOVE_PLACE: Limit = Limit::of("below_crown_mm", "distance of a groove from the crown", "mm", |job, see| {
    grooves(job, see, |groove| groove.below_crown_mm);
})
.usual(0.5, 100.0)
.slip(LENGTH);

const GROOVE_WIDTH: Limit =
    Limit::of("width_mm", "width of a groove", "mm", |job, see| grooves(job, see, |groove| groove.width_mm))
        .usual(0.4, 10.0)
        .slip(LENGTH);

const GROOVE_DEPTH: Limit =
    Limit::of("depth_mm", "depth of a groove", "mm", |job, see| grooves(job, see, |groove| groove.depth_mm))
        .usual(0.4, 12.0)
        .slip(LENGTH);

/// Of the small end; the big end's has another name in the list of assumptions.
pub(in crate::job) const PIN_CLEARANCE: Limit =
    Limit::of("radial_clearance_mm", "radial clearance of the piston pin", "mm", |job, see| {
        see("part.small_end", job.part.small_end.radial_clearance_mm);
    })
    .possible(0.0, 2.0)
    .usual(0.0, 0.2)
    .slip(LENGTH);

pub(in crate::job) const CRANK_CLEARANCE: Limit =
    Limit::of("radial_clearance_mm", "radial clearance in the big end", "mm", |job, see| {
        see("part.big_end", job.part.big_end.radial_clearance_mm);
    })
    .possible(0.0, 2.0)
    .usual(0.0, 0.2)
    .slip(LENGTH);

const RING_BORE: Limit =
    Limit::of("bore_mm", "bore of the bush", "mm", |job, see| rings(job, see, |ring| ring.bore_mm))
        .possible(0.5, 500.0)
        .usual(2.0, 150.0)
        .slip(LENGTH);

const RING_OUTSIDE: Limit =
    Limit::of("outside_mm", "outside of the bush", "mm", |job, see| rings(job, see, |ring| ring.outside_mm))
        .possible(1.0, 600.0)
        .usual(3.0, 250.0)
        .slip(LENGTH);

const RING_WIDTH: Limit =
    Limit::of("width_mm", "width of the bush", "mm", |job, see| rings(job, see, |ring| ring.width_mm))
        .possible(0.5, 300.0)
        .usual(2.0, 100.0)
        .slip(LENGTH);

/// What is usual goes with the outside of the ring.
const INTERFERENCE: Limit = Limit::of("interference_mm", "interference of the ring", "mm", |job, see| {
    rings(job, see, |ring| ring.interference_mm);
})
.possible(-1.0, 2.0);

const RATING: Limit = Limit::of("dynamic_rating_n", "dynamic load rating of the bearing", "N", |job, see| {
    rings(job, see, |ring| ring.dynamic_rating_n);
})
.possible(10.0, 1e7)
.usual(200.0, 300_000.0)
.slip(": is it in kN?");

const STUDS: Limit =
    Limit::of("studs", "number of studs", "1", |job, see| caps(job, see, |cap| cap.studs.map(f64::from)))
        .possible(1.0, 12.0)
        .usual(2.0, 8.0);

const THREAD: Limit =
    Limit::of("thread_mm", "thread of the studs", "mm", |job, see| caps(job, see, |cap| cap.thread_mm))
        .possible(1.0, 30.0)
        .usual(2.0, 16.0)
        .slip(LENGTH);

/// At most half the thread, which the cap itself looks at.
const PITCH: Limit = Limit::of("pitch_mm", "pitch of the studs", "mm", |job, see| caps(job, see, |cap| cap.pitch_mm))
    .usual(0.3, 2.5)
    .slip(": is it in threads per inch?");

const GRIP: Limit =
    Limit::of("grip_mm", "length the studs squeeze", "mm", |job, see| caps(job, see, |cap| cap.grip_mm))
        .possible(1.0, 500.0)
        .usual(3.0, 100.0)
        .slip(LENGTH);

const HEAD: Limit =
    Limit::of("head_mm", "head or washer of the studs", "mm", |job, see| caps(job, see, |cap| cap.head_mm))
        .usual(3.0, 50.0)
        .slip(LENGTH);

const HOLE: Limit = Limit::of("hole_mm", "hole in the cap", "mm", |job, see| caps(job, see, |cap| cap.hole_mm))
    .usual(2.0, 20.0)
    .slip(LENGTH);

/// What is usual goes with the thread.
const PRELOAD: Limit =
    Limit::of("preload_n", "preload of a stud", "N", |job, see| caps(job, see, |cap| cap.preload_n)).possible(1.0, 1e6);

const TORQUE: Limit =
    Limit::of("torque_n_m", "torque of a stud", "N m", |job, see| caps(job, see, |cap| cap.torque_n_m))
        .possible(1e-3, 1e4)
        .usual(0.1, 150.0)
        .slip(": is it in N mm or in inch pounds?");

pub(in crate::job) const STATIONS: Limit = Limit::of("stations", "stations", "1", |job, see| {
    see("model", job.model.stations.map(|count| count as f64));
})
.possible(20.0, 2000.0);

pub(in crate::job) const FIXITY_IN_PLANE: Limit =
    Limit::of("end_fixity_in_plane", "column length factor in the plane", "1", |job, see| {
        see("model", job.model.end_fixity_in_plane);
    })
    .possible(0.3, 2.0)
    .usual(0.5, 1.2)
    .slip(": held ends have 0.5 in theory");

pub(in crate::job) const FIXITY_ACROSS: Limit =
    Limit::of("end_fixity_across", "column length factor across it", "1", |job, see| {
        see("model", job.model.end_fixity_across);
    })
    .possible(0.3, 2.0)
    .usual(0.5, 1.2)
    .slip(": held ends have 0.5 in theory");

pub(super) const ALL: &[&Limit] = &[
    &BORE,
    &PISTON_BODY,
    &PISTON_PIN,
    &GROOVE_PLACE,
    &GROOVE_WIDTH,
    &GROOVE_DEPTH,
    &PIN_CLEARANCE,
    &CRANK_CLEARANCE,
    &RING_BORE,
    &RING_OUTSIDE,
    &RING_WIDTH,
    &INTERFERENCE,
    &RATING,
    &STUDS,
    &THREAD,
    &PITCH,
    &GRIP,
    &HEAD,
    &HOLE,
    &PRELOAD,
    &TORQUE,
    &STATIONS,
    &FIXITY_IN_PLANE,
    &FIXITY_ACROSS,
];
