//! A piston and what lies on its crown.

use super::limit::{Limit, See};
use crate::job::file::Job;
use crate::job::piston::LayerTable;

const LENGTH: &str = ": is it in micrometres, metres or inches?";

pub(in crate::job) const ROD_LENGTH: Limit =
    Limit::of("rod_length_mm", "rod centre distance", "mm", |job, see| see("piston", job.piston.rod_length_mm))
        .possible(1.0, 5000.0)
        .usual(15.0, 500.0)
        .slip(LENGTH);

/// What is usual goes with the cylinder bore.
pub(in crate::job) const PIN_MASS: Limit =
    Limit::of("pin_mass_g", "mass of the piston pin", "g", |job, see| see("piston", job.piston.pin_mass_g))
        .possible(0.0, 1e5);

/// What is usual goes with the cylinder bore.
pub(in crate::job) const RING_MASS: Limit =
    Limit::of("ring_mass_g", "mass of a ring", "g", |job, see| see("piston", job.piston.ring_mass_g))
        .possible(0.0, 1e5);

pub(in crate::job) const UNDERSIDE_FILM: Limit =
    Limit::of("underside_film_w_m2_k", "film under the crown", "W/(m² K)", |job, see| {
        see("piston", job.piston.underside_film_w_m2_k);
    })
    .possible(1.0, 1e5)
    .usual(10.0, 10_000.0)
    .recalled();

pub(in crate::job) const WALL_FILM: Limit =
    Limit::of("wall_film_w_m2_k", "film between ring belt and cylinder", "W/(m² K)", |job, see| {
        see("piston", job.piston.wall_film_w_m2_k);
    })
    .possible(1.0, 1e5)
    .usual(10.0, 10_000.0)
    .recalled();

pub(in crate::job) const CYLINDER_WALL: Limit =
    Limit::of("cylinder_wall_c", "cylinder wall", "°C", |job, see| see("piston", job.piston.cylinder_wall_c))
        .possible(-60.0, 400.0)
        .usual(-20.0, 210.0)
        .slip(": is it in kelvin or degrees Fahrenheit?");

pub(in crate::job) const RUNNING_CLEARANCE: Limit =
    Limit::of("running_clearance_mm", "clearance to be left when running", "mm", |job, see| {
        see("piston", job.piston.running_clearance_mm);
    })
    .possible(0.0, 5.0)
    .usual(0.0, 0.4)
    .slip(LENGTH);

pub(in crate::job) const SOFT_SHARE: Limit =
    Limit::of("soft_share", "share of the crown that may soften", "1", |job, see| see("piston", job.piston.soft_share))
        .possible(0.001, 1.0)
        .usual(0.02, 0.7)
        .slip(": it is a share of the thickness, 0.2 for a fifth");

pub(in crate::job) const BOSS_CLEARANCE: Limit =
    Limit::of("pin_clearance_mm", "radial clearance of the pin in its bosses", "mm", |job, see| {
        see("piston", job.piston.pin_clearance_mm);
    })
    .possible(0.0, 2.0)
    .usual(0.0, 0.2)
    .slip(LENGTH);

/// What is usual goes with the cylinder bore.
pub(in crate::job) const CROWN: Limit =
    Limit::of("crown_thickness_mm", "crown thickness", "mm", |job, see| see("piston", job.piston.crown_thickness_mm))
        .possible(0.1, 2000.0);

/// What is usual goes with the cylinder bore.
pub(in crate::job) const PLATE: Limit =
    Limit::of("plate_diameter_mm", "diameter of the free crown", "mm", |job, see| {
        see("piston", job.piston.plate_diameter_mm);
    })
    .possible(0.1, 2000.0);

fn layers(job: &Job, see: &mut See<'_>, of: fn(&LayerTable) -> Option<f64>) {
    job.piston.layers.iter().for_each(|layer| see("piston.layers", of(layer)));
}

pub(in crate::job) const THICKNESS: Limit = Limit::of("thickness_mm", "thickness of the layer", "mm", |job, see| {
    layers(job, see, |layer| Some(layer.thickness_mm));
})
.possible(0.001, 100.0)
.usual(0.02, 10.0)
.slip(LENGTH);

pub(in crate::job) const CONDUCTIVITY: Limit =
    Limit::of("conductivity_w_m_k", "conductivity of the layer", "W/(m K)", |job, see| {
        layers(job, see, |layer| Some(layer.conductivity_w_m_k));
    })
    .possible(0.005, 2000.0)
    .usual(0.02, 430.0)
    .slip(": copper has 400 W/(m K)");

pub(in crate::job) const DENSITY: Limit = Limit::of("density_kg_m3", "density of the layer", "kg/m³", |job, see| {
    layers(job, see, |layer| Some(layer.density_kg_m3));
})
.possible(10.0, 25_000.0)
.usual(100.0, 9500.0)
.slip(": is it in g/cm³?");

pub(in crate::job) const SPECIFIC_HEAT: Limit =
    Limit::of("specific_heat_j_kg_k", "specific heat of the layer", "J/(kg K)", |job, see| {
        layers(job, see, |layer| Some(layer.specific_heat_j_kg_k));
    })
    .possible(50.0, 10_000.0)
    .usual(120.0, 2500.0)
    .slip(": is it in kJ/(kg K)?");

pub(in crate::job) const JOINT: Limit =
    Limit::of("joint_w_m2_k", "conductance below the layer", "W/(m² K)", |job, see| {
        layers(job, see, |layer| layer.joint_w_m2_k);
    })
    .possible(1.0, 1e7)
    .usual(20.0, 1e6)
    .recalled();

pub(super) const ALL: &[&Limit] = &[
    &ROD_LENGTH,
    &PIN_MASS,
    &RING_MASS,
    &UNDERSIDE_FILM,
    &WALL_FILM,
    &CYLINDER_WALL,
    &RUNNING_CLEARANCE,
    &SOFT_SHARE,
    &BOSS_CLEARANCE,
    &CROWN,
    &PLATE,
    &THICKNESS,
    &CONDUCTIVITY,
    &DENSITY,
    &SPECIFIC_HEAT,
    &JOINT,
];
