//! What the answer takes in and what it leaves out, for every kind of part.

use crate::engine::{Knock, Peaks};
use crate::job::EngineScenario;
use crate::kind::{Changes, LESS_PRESSURE};
use crate::report::{ChangedInput, Coverage, CoveredReport};

/// One of them.
pub(crate) fn effect(effect: &str, state: Coverage, factor: f64, told: &str) -> CoveredReport {
    CoveredReport { effect: effect.into(), state, told: told.into(), factor }
}

/// Peaks that may be so much higher than the mean where the job says nothing: three standard deviations of 10 %.
const HIGHER: f64 = 1.3;

/// Spread of peak pressure and knock, of a part that the gas of this engine loads; where the job does not say how far peaks
/// spread, with what higher ones could do, by what lower ones are found to do.
pub(crate) fn peaks(engine: &EngineScenario, changes: &Changes) -> CoveredReport {
    const EFFECT: &str = "spread of peak pressure and knock";
    let Peaks { spread, knock } = engine.peaks;
    if spread > 0.0 || knock.is_some() {
        let spreads = if spread > 0.0 {
            format!("peaks spread by {:.0} %, the highest 4 times that over the mean", spread * 100.0)
        } else {
            "all peaks that do not knock are alike".into()
        };
        let knocks =
            knock.map(|Knock { every, times }| format!("; one cycle in {every} peaks at {times} times the mean"));
        return effect(EFFECT, Coverage::Checked, 1.0, &(spreads + &knocks.unwrap_or_default()));
    }
    let lower = changes.list.iter().find(|entry| entry.key == ChangedInput::PeakPressure);
    let power = lower.map_or(1.0, |entry| -libm::log(entry.margin_factor) / libm::log(LESS_PRESSURE));
    let factor = libm::pow(HIGHER, power.clamp(0.0, 3.0));
    let told = if engine.measured.is_some() {
        "one measured cycle stands for all; the worst of many is higher: say peak_spread_percent or knock_every and knock_times"
    } else {
        "all cycles have one peak pressure; a spread of 10 % (published work of a cycle at idle: 6 to 12 %) reaches 1.3 times at \
         three standard deviations, knock more: say peak_spread_percent or knock_every and knock_times"
    };
    effect(EFFECT, Coverage::NotChecked, factor, told)
}

/// Those that all kinds share. The factors are from memory unless the sentence says otherwise: how far such an effect goes
/// where it does its worst.
pub(crate) fn shared(field: bool, bonded: bool) -> Vec<CoveredReport> {
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
            checked,
            1.0,
            "heat lowers fatigue strength as it lowers tensile strength; how far the ratio of the two may differ from tests at \
             room temperature and 10 Hz is in the confidence, from memory",
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
