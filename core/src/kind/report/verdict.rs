use core::fmt::Display;

use super::life::turns_per_second;
use crate::job::{Scenario, Warning};
use crate::report::{
    Coverage, CoveredReport, InfluenceReport, ModeReport, SpeedVerdict, UncertaintyReport, VerdictReport, WarningReport,
};
use crate::verdict::{Basis, ModeMargin, PartStrength, SpeedLimit, State, TESTED_CYCLES, Uncertainty};

/// What a verdict is made from.
pub(crate) struct VerdictOf<'a, P> {
    pub(crate) strength: &'a PartStrength<P>,
    /// Running time that nine in ten reach, s.
    pub(crate) life: f64,
    pub(crate) scenario: &'a Scenario,
    pub(crate) uncertainty: &'a Uncertainty,
    pub(crate) limit: SpeedLimit,
    /// Whether the stress field was solved.
    pub(crate) field: bool,
    pub(crate) unchecked: Vec<String>,
    pub(crate) effects: &'a [CoveredReport],
}

impl<P: Display> VerdictOf<'_, P> {
    pub(crate) fn verdict(self) -> VerdictReport {
        let Self { strength, life, scenario, uncertainty, limit, field, mut unchecked, effects } = self;
        let governing = strength.governing();
        let margin = strength.margin();
        let top = scenario.duty.highest_rpm();
        let (min_rpm, max_rpm, max_rpm_meaning) = speeds(limit, top);
        let turns = turns_per_second(&scenario.duty);
        let tested = TESTED_CYCLES * scenario.engine.cycle.exchange.strokes().revolutions() / turns;
        let well_founded = uncertainty.memory_share < 0.5;
        // Sections alone give no answer that an effect could turn.
        let all_checked = unchecked.is_empty() && !effects.iter().any(|effect| effect.could_turn(margin));
        let state = State::of(margin, Basis { field, all_checked, well_founded });
        let left_out = effects.iter().filter(|effect| effect.state == Coverage::NotChecked);
        unchecked.extend(left_out.map(|effect| effect.effect.clone()));
        VerdictReport {
            state,
            holds: state.holds(),
            well_founded,
            governing_mode: governing.mode,
            governing_place: governing.place.to_string(),
            governing_margin: governing.margin,
            margin,
            life_s: life,
            life_revolutions: life * turns,
            life_beyond_tests: life > tested,
            tested_s: tested,
            wanted_life_s: scenario.wanted_life,
            max_rpm,
            min_rpm,
            max_rpm_meaning,
            duty_rpm: top,
            unchecked,
        }
    }
}

/// Inputs that are hardly meant.
pub(crate) fn warnings(scenario: &Scenario) -> Vec<WarningReport> {
    let of = |warning: &Warning| WarningReport { key: warning.key.clone(), message: warning.message.clone() };
    scenario.warnings.iter().map(of).collect()
}

/// Lowest and highest top speed, rpm, and how to read the latter.
fn speeds(limit: SpeedLimit, top: f64) -> (Option<f64>, Option<f64>, SpeedVerdict) {
    match limit {
        SpeedLimit::UpTo(factor) => (None, Some(factor * top), SpeedVerdict::Limit),
        SpeedLimit::Between(low, factor) => (Some(low * top), Some(factor * top), SpeedVerdict::Range),
        SpeedLimit::Beyond(factor) => (None, Some(factor * top), SpeedVerdict::AtLeast),
        SpeedLimit::NotEven(_) => (None, None, SpeedVerdict::None),
    }
}

pub(crate) fn mode<P: Display>(mode: &ModeMargin<P>, center_mm: Option<[f64; 3]>) -> ModeReport {
    ModeReport {
        mode: mode.mode,
        place: mode.place.to_string(),
        center_mm,
        margin: mode.margin,
        life_b10_s: mode.life_b10,
    }
}

pub(crate) fn uncertainty(uncertainty: &Uncertainty) -> UncertaintyReport {
    UncertaintyReport {
        memory_share: uncertainty.memory_share,
        margin_factor: libm::exp(uncertainty.deviation),
        measure_first: uncertainty.measure_first().map(|influence| influence.name.into()),
        influences: uncertainty
            .influences
            .iter()
            .take(8)
            .map(|influence| InfluenceReport {
                name: influence.name.into(),
                bears: influence.bears,
                source: influence.source.into(),
                margin_factor: libm::exp(influence.change),
            })
            .collect(),
    }
}
