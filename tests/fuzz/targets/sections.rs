//! Bent parts, cut anywhere: areas and volumes are numbers.
#![no_main]

use layload_core::section::{narrowest, planes, sections, slab_moments};
use layload_fuzz::{Bend, bent};
use libfuzzer_sys::fuzz_target;

fuzz_target!(|input: (u8, Vec<Bend>, Vec<i16>, bool)| {
    let (start, bends, cuts, unite) = input;
    let Some(mesh) = bent(start, &bends) else { return };
    let mut positions: Vec<f64> = cuts.iter().take(12).map(|&cut| f64::from(cut) * 1e-5).collect();
    let (low, high) = mesh.bounds();
    if high.x > low.x {
        positions.extend(planes(&mesh, low.x, high.x, 6, unite));
    }
    positions.sort_by(f64::total_cmp);
    positions.dedup();
    for section in sections(&mesh, &positions, unite) {
        let p = &section.properties;
        assert!(p.area.is_finite() && p.second_moment_y.is_finite() && p.principal().0.is_finite());
        if let Some(ligament) = narrowest(&section.loops) {
            let _ = ligament;
        }
    }
    assert!(slab_moments(&mesh, &positions).iter().all(|slab| slab.volume.is_finite()));
});
