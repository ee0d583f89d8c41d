//! What the answer takes in and what it leaves out, for every kind of part.

use crate::report::{Coverage, CoveredReport};

/// One of them.
pub(crate) fn effect(effect: &str, state: Coverage, factor: f64, told: &str) -> CoveredReport {
    CoveredReport { effect: effect.into(), state, told: told.into(), factor }
}

/// Those that all kinds share. The factors are from memory unless the sentence says otherwise: how far such an effect goes
/// where it does its worst.
pub(crate) fn shared(field: bool, measured: bool, bonded: bool) -> Vec<CoveredReport> {
    let (checked, bounded, not) = (Coverage::Checked, Coverage::Bounded, Coverage::NotChecked);
    let blends = if field {
        effect(
            "blends and pockets",
            checked,
            1.0,
            "the stress field sees them; at a sharp inner corner, where stress has no bound, it takes that 0.1 mm below, half the \
             shortest critical distance of published tests of another printed plastic",
        )
    } else {
        let told =
            "sections do not see them; solve the stress field (one sample rod carries 2.2 times what sections find)";
        effect("blends and pockets", not, 2.2, told)
    };
    let spread = "all cycles have one peak pressure; a spread of 10 % (published work of a cycle at idle: 6 to 12 %) reaches 1.3 times at \
                  three standard deviations, knock more";
    let bond = if bonded {
        let told = "from the time of each layer and the warmth of the one below; few tests of healing exist, so its spread is wide";
        effect("bond of layers", checked, 1.0, told)
    } else {
        let told =
            "taken from the material card, which has no [weld]; a cold nozzle, a fan or a long layer time weakens it";
        effect("bond of layers", bounded, 1.5, told)
    };
    vec![
        blends,
        effect(
            "beads of walls and core",
            bounded,
            1.2,
            "strength is that of walls or of crossed infill lines, by the place; other bead patterns may carry less",
        ),
        effect("seams", not, 1.3, "a seam on the most stressed side starts a crack early: put it elsewhere"),
        bond,
        effect(
            "fatigue with temperature and frequency",
            not,
            1.2,
            "the ratio of fatigue to strength is that of the card at all temperatures and speeds",
        ),
        effect(
            "spread of peak pressure and knock",
            not,
            1.3,
            if measured { "one measured cycle stands for all; the worst of many is higher" } else { spread },
        ),
        effect(
            "oil, fuel and water",
            not,
            1.1,
            "moisture is in the material values; softening and swelling by oil and fuel are not checked",
        ),
        effect(
            "residual stress of the print",
            not,
            1.15,
            "thick parts of hot plastics keep stress from cooling: anneal them",
        ),
    ]
}
