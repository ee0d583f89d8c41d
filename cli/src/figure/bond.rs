use layload_core::report::{BondHeight, BondReport};

use crate::plot::{Axis, Chart, Level, Line, Panel};

/// Layer time, temperature of the layer below and strength between layers, against height over the bed.
pub(crate) fn bond(bond: &BondReport) -> Chart {
    let line = |label: &str, of: fn(&BondHeight) -> f64| Line {
        label: label.into(),
        points: bond.heights.iter().map(|at| (at.height_mm, Some(of(at)))).collect(),
        dashed: false,
    };
    let most = |of: fn(&BondHeight) -> f64| bond.heights.iter().map(of).fold(0.0, f64::max);
    let panel = |up: Axis, line: Line, levels: Vec<Level>| Panel {
        up,
        lines: vec![line],
        bands: Vec::new(),
        levels,
        points: Vec::new(),
    };
    let time = most(|at| at.layer_time_s);
    let below = most(|at| at.below_c);
    let factor = most(|at| at.factor).max(1.0);
    let height = bond.heights.last().map_or(1.0, |at| at.height_mm);
    let weakest = bond.heights.iter().min_by(|a, b| a.factor.total_cmp(&b.factor));
    Chart {
        title: "How well the layers bond".into(),
        told: format!(
            "Over {height:.1} mm of height a layer takes up to {time:.0} s, the layer below is up to {below:.0} °C warm, and \
             the layers hold {least:.2} to {:.2} of the card's strength between layers{}.",
            most(|at| at.factor),
            weakest.map_or(String::new(), |at| format!(", least at {:.1} mm", at.height_mm)),
            least = weakest.map_or(0.0, |at| at.factor),
        ),
        across: Axis::even("height over the bed, mm", 0.0, height),
        panels: vec![
            panel(Axis::rounded("layer time, s", 0.0, 1.2 * time), line("time", |at| at.layer_time_s), Vec::new()),
            panel(Axis::rounded("layer below, °C", 0.0, 1.2 * below), line("temperature", |at| at.below_c), Vec::new()),
            panel(
                Axis::rounded("bond / card", 0.0, 1.2 * factor),
                line("bond", |at| at.factor),
                vec![Level { value: 1.0, label: "card".into() }],
            ),
        ],
        spans: Vec::new(),
        mark: None,
        notes: Vec::new(),
    }
}
