//! Print settings and the printer's pace.

use super::limit::Limit;

pub(in crate::job) const BEAD: Limit =
    Limit::of("bead_width_mm", "bead width", "mm", |job, see| see("print", job.print.bead_width_mm))
        .possible(0.05, 5.0)
        .usual(0.2, 1.3)
        .slip(": is it in inches?");

pub(in crate::job) const LAYER: Limit =
    Limit::of("layer_height_mm", "layer height", "mm", |job, see| see("print", job.print.layer_height_mm))
        .possible(0.02, 3.0)
        .usual(0.05, 0.8)
        .slip(": is it in inches?");

pub(in crate::job) const WALLS: Limit =
    Limit::of("walls", "number of walls", "1", |job, see| see("print", job.print.walls.map(f64::from)))
        .possible(0.0, 200.0)
        .usual(2.0, 30.0)
        .slip(": fewer than two beads make no sound wall");

pub(in crate::job) const SKINS: Limit = Limit::of("skin_layers", "number of skin layers", "1", |job, see| {
    see("print", job.print.skin_layers.map(f64::from));
})
.possible(0.0, 1000.0)
.usual(2.0, 50.0)
.slip(": a skin of fewer than two layers does not close");

pub(in crate::job) const INFILL: Limit =
    Limit::of("infill_percent", "infill", "%", |job, see| see("print", job.print.infill_percent))
        .possible(0.0, 100.0)
        .usual(10.0, 100.0)
        .slip(": is a share meant? 0.2 is 20 %");

pub(in crate::job) const BEAD_SPEED: Limit =
    Limit::of("bead_speed_mm_s", "bead speed", "mm/s", |job, see| see("print", job.print.bead_speed_mm_s))
        .possible(1.0, 2000.0)
        .usual(10.0, 600.0)
        .slip(": is it in mm/min or m/s?");

pub(in crate::job) const LAYER_CHANGE: Limit =
    Limit::of("layer_change_s", "time for a change of layer", "s", |job, see| see("print", job.print.layer_change_s))
        .possible(0.0, 600.0)
        .usual(0.0, 120.0)
        .slip(": is it in milliseconds?");

pub(in crate::job) const LEAST_LAYER: Limit =
    Limit::of("least_layer_s", "least time for a layer", "s", |job, see| see("print", job.print.least_layer_s))
        .possible(0.0, 3600.0)
        .usual(0.0, 120.0)
        .slip(": is it in milliseconds?");

pub(in crate::job) const NOZZLE: Limit =
    Limit::of("nozzle_c", "nozzle temperature", "°C", |job, see| see("print", job.print.nozzle_c))
        .possible(100.0, 600.0)
        .usual(170.0, 450.0)
        .slip(": is it in kelvin or °F?");

pub(in crate::job) const BED: Limit =
    Limit::of("bed_c", "bed temperature", "°C", |job, see| see("print", job.print.bed_c))
        .possible(0.0, 400.0)
        .usual(15.0, 200.0)
        .slip(": is it in kelvin or °F?");

pub(in crate::job) const CHAMBER: Limit =
    Limit::of("chamber_c", "air round the part while it is printed", "°C", |job, see| {
        see("print", job.print.chamber_c);
    })
    .possible(-20.0, 400.0)
    .usual(10.0, 200.0)
    .slip(": is it in kelvin or °F?");

pub(in crate::job) const FAN: Limit =
    Limit::of("fan_percent", "fan", "%", |job, see| see("print", job.print.fan_percent))
        .possible(0.0, 100.0)
        .usual(0.0, 100.0)
        .slip(": is a share meant? 0.2 is 20 %");

pub(in crate::job) const TOGETHER: Limit = Limit::of("parts_together", "parts printed together", "1", |job, see| {
    see("print", job.print.parts_together.map(f64::from));
})
.possible(1.0, 1000.0)
.usual(1.0, 100.0)
.slip(": it counts this part too");

pub(in crate::job) const OVERHANG: Limit =
    Limit::of("overhang_deg", "overhang without support", "°", |job, see| see("print", job.print.overhang_deg))
        .possible(0.0, 89.0)
        .usual(15.0, 80.0)
        .slip(": is it in radians?");

pub(in crate::job) const SUPPORT: Limit =
    Limit::of("support_percent", "density of supports", "%", |job, see| see("print", job.print.support_percent))
        .possible(0.0, 100.0)
        .usual(2.0, 80.0)
        .slip(": is a share meant? 0.2 is 20 %");

pub(super) const ALL: &[&Limit] = &[
    &BEAD,
    &LAYER,
    &WALLS,
    &SKINS,
    &INFILL,
    &BEAD_SPEED,
    &LAYER_CHANGE,
    &LEAST_LAYER,
    &NOZZLE,
    &BED,
    &CHAMBER,
    &FAN,
    &TOGETHER,
    &OVERHANG,
    &SUPPORT,
];
