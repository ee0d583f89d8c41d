//! Layer time, heat of the column and healing against closed forms.

use approx::assert_relative_eq;
use layload_core::LengthUnit;
use layload_core::bond::{Healing, Layer, LayerColumn, layers};
use layload_core::mesh::Mesh;
use layload_core::print::{PrintSettings, PrintWarmth};
use nalgebra::Vector3;

use crate::sources::repository;

pub(super) const STILL: PrintWarmth = PrintWarmth {
    nozzle: 540.0,
    bed: 350.0,
    chamber: 320.0,
    fan: 0.0,
    bead_speed: 0.06,
    layer_change: 3.0,
    least_layer: 8.0,
    together: 1.0,
};

/// Heals nowhere near at these temperatures: only heat is looked at.
const COLD: Healing = Healing { at: 500.0, reference: 1.0, activation: 3e4, stop: 900.0, floor: 0.2 };

const H: f64 = 0.2e-3;
const K: f64 = 0.25;
const STORED: f64 = 1.9e6;

fn layer(time: f64) -> Layer {
    Layer { height: 0.0, area: 40e-6, perimeter: 28e-3, time }
}

#[test]
fn a_warm_layer_on_a_deep_column_cools_as_a_slab_on_a_half_space() {
    // Carslaw & Jaeger: a slab of thickness h at one temperature on a half-space at another, insulated on top; its mean share
    // of the difference left after t is that of the two error functions, which for long times is h / sqrt(pi a t).
    let diffusivity = K / STORED;
    for time in [5.0, 20.0] {
        let mut column = LayerColumn::new(H, K, STORED, 0.0);
        column.film = 0.0;
        let even = PrintWarmth { nozzle: 350.0, bed: 350.0, chamber: 350.0, ..STILL };
        column.lay(&vec![layer(1.0); 80], &even, &COLD);
        column.lay(&[layer(time)], &PrintWarmth { nozzle: 450.0, ..even }, &COLD);
        let below = column.lay(&[layer(1.0)], &even, &COLD)[0].below;
        let left = H / libm::sqrt(std::f64::consts::PI * diffusivity * time);
        // Implicit steps that grow by a quarter are of first order: under four per cent at these times.
        assert_relative_eq!((below - 350.0) / 100.0, left, max_relative = 0.04);
    }
}

#[test]
fn a_column_left_alone_settles_as_a_fin_on_its_bed() {
    // Incropera: a fin with a film on its tip, T - T_air = (T_bed - T_air) / (cosh mL + film / (m k) sinh mL) at the tip.
    let mut column = LayerColumn::new(H, K, STORED, 0.0);
    let mut laid = vec![layer(10.0); 30];
    laid[29].time = 1e5;
    column.lay(&laid, &STILL, &COLD);
    let below = column.lay(&[layer(1.0)], &STILL, &COLD)[0].below;
    let area = layer(0.0);
    let m = libm::sqrt(column.film * area.perimeter / (K * area.area));
    let (length, tip) = (29.5 * H, column.film / (m * K));
    let closed = 1.0 / (libm::cosh(m * length) + tip * libm::sinh(m * length));
    // Layers are lumps: the film of the tip acts half a layer of thirty too low.
    assert_relative_eq!((below - STILL.chamber) / (STILL.bed - STILL.chamber), closed, max_relative = 0.02);
}

#[test]
fn healing_adds_up_as_its_integral() {
    let healing = Healing { at: 500.0, reference: 0.5, activation: 3e4, stop: 420.0, floor: 0.25 };
    // One temperature: the time over the time it takes; the fourth root of it in strength.
    assert_relative_eq!(healing.rate(500.0), 2.0);
    assert_relative_eq!(healing.strength(0.0625), 0.25 + 0.75 * 0.5);
    assert_relative_eq!(healing.strength(7.0), 1.0);
    assert_eq!(healing.rate(419.9), 0.0);
    // Cooling by a kelvin a second through 500 K: over a few kelvin the rate falls by a plain exponential.
    let (steps, seconds) = (4000, 4.0);
    let sum: f64 = (0..steps)
        .map(|k| healing.rate(500.0 - (f64::from(k) + 0.5) * seconds / f64::from(steps)) * seconds / f64::from(steps))
        .sum();
    let falls = healing.activation / (500.0 * 498.0);
    // 1 / T is straight over four kelvin to a part in two hundred.
    assert_relative_eq!(sum, 2.0 * (1.0 - libm::exp(-falls * seconds)) / falls, max_relative = 0.01);
}

#[test]
fn layers_add_up_to_the_volume_and_print_at_their_speed() {
    let bytes = std::fs::read(repository("samples/plain_rod.stl")).unwrap();
    let (mesh, _) = Mesh::from_stl(&bytes, LengthUnit::Millimetre).unwrap();
    let volume = mesh.mass_properties().volume;
    for build in [Vector3::x(), Vector3::y(), Vector3::z(), Vector3::new(0.3, -0.5, 0.8).normalize()] {
        let print =
            PrintSettings { build, bead_width: 0.45e-3, layer_height: H, walls: 4, skin_layers: 5, infill: 1.0 };
        let cuts = layers(&mesh, &print, &STILL, 200);
        let step = cuts[1].height - cuts[0].height;
        let sum: f64 = cuts.iter().map(|cut| cut.area * step).sum();
        // The rule of midpoints at corners of the outline.
        assert_relative_eq!(sum, volume, max_relative = 0.005);
        for cut in cuts {
            let time = cut.area / (0.45e-3 * 0.06) + 3.0;
            assert_relative_eq!(cut.time, time.max(8.0), max_relative = 1e-12);
        }
    }
}
