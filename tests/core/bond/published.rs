//! The weld of the cards against published strengths across layers.

use layload_core::bond::{Healing, Layer, LayerColumn};
use layload_core::material::library;
use layload_core::print::PrintWarmth;

use super::column::STILL;

/// Temperature of the layer below, °C, and strength across layers, MPa, of a carbon-fibre nylon: means of four settings,
/// 10.1017/pds.2026.10563 (second hand). The nozzle is taken at 280 °C, the layers at 0.2 mm and 20 s.
const MEANS: [(f64, f64); 4] = [(104.0, 14.3), (106.0, 11.8), (140.0, 28.4), (165.0, 36.0)];

/// Strength over that of a full weld, of a layer laid on others of one temperature.
fn strength(below_c: f64, healing: &Healing) -> f64 {
    let kelvin = below_c + 273.15;
    let warmth = PrintWarmth { nozzle: 553.15, bed: kelvin, chamber: kelvin, ..STILL };
    let layer = Layer { height: 0.0, area: 40e-6, perimeter: 28e-3, time: 20.0 };
    let mut column = LayerColumn::new(0.2e-3, 0.25, 1.9e6, 0.0);
    column.lay(&vec![layer; 40], &PrintWarmth { nozzle: kelvin, ..warmth }, healing);
    let healed = column.lay(&[layer], &warmth, healing)[0].healed;
    healing.strength(healed)
}

#[test]
fn the_nylons_follow_the_four_means_they_were_fitted_to() {
    let card = library::card("PA6-CF20").unwrap();
    let healing = Healing::of(card.weld.as_ref().unwrap());
    let full = MEANS[3].1 / strength(MEANS[3].0, &healing);
    for (below, mean) in MEANS {
        let told = full * strength(below, &healing);
        println!("{below} {mean} {told:.2}");
        // A fit, no validation: three constants on four means, two of which lie 20 % apart at one temperature.
        assert!((told / mean - 1.0).abs() < 0.20, "{below} °C: {told:.1} for {mean} MPa");
    }
}

/// Strength across layers of printed PLA, MPa: plain, and with a pause of 30 s at every layer; 10.1007/s40964-026-01693-w
/// (second hand). Neither bars nor layer time were told to us: a bar of 4 x 10 mm takes 3 to 10 s a layer.
const PAUSE: (f64, f64) = (17.17, 7.44);

#[test]
fn a_pause_at_every_layer_weakens_pla_as_published() {
    let card = library::card("PLA").unwrap();
    let weld = card.weld.as_ref().unwrap();
    let healing = Healing::of(weld);
    let of = |time: f64| {
        let layer = Layer { height: 0.0, area: 40e-6, perimeter: 28e-3, time };
        let warmth = PrintWarmth {
            nozzle: weld.usual.nozzle_c + 273.15,
            bed: weld.usual.bed_c + 273.15,
            chamber: weld.usual.chamber_c + 273.15,
            fan: weld.usual.fan_percent / 100.0,
            ..STILL
        };
        let stored = card.density_kg_m3.value * card.thermal.specific_heat_j_kg_k.value;
        let mut column = LayerColumn::new(0.2e-3, card.thermal.conductivity_layer_w_m_k.value, stored, warmth.fan);
        let told = column.lay(&[layer; 60], &warmth, &healing);
        healing.strength(told[50].healed)
    };
    let told = [3.0, 5.0, 10.0].map(|time| of(time + 30.0) / of(time));
    println!("after 3, 5 and 10 s: {told:.3?}, published {:.3}", PAUSE.1 / PAUSE.0);
    assert!(told[0] < PAUSE.1 / PAUSE.0 && PAUSE.1 / PAUSE.0 < told[2], "{told:?}");
}
