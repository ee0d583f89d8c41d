use super::assess::ModeMargin;
use crate::life::{
    Cycle, EquivalentAmplitude, MeanStress, RainflowScratch, StressLife, normal_quantile, rainflow_repeating,
};
use crate::material::{MaterialState, Use};

/// 10 % quantile of the standard normal distribution, negative.
pub(super) const TEN_PERCENT: f64 = -1.281_551_565_544_600_4;

/// Cycles beyond which no printed plastic has been tested; lives are not counted further.
pub(super) const MOST_CYCLES: f64 = 1e10;

/// The stress-life line of a point whose stress uses the layer plane by a given share.
///
/// Between the line within the layer plane and the line across layers, in proportion to that share (memory).
pub(super) struct FatigueLine {
    pub(super) line: StressLife,
    pub(super) ultimate: f64,
    /// Standard deviation of log10 life from life and strength scatter together.
    pub(super) deviation: f64,
}

impl FatigueLine {
    pub(super) fn of(material: &MaterialState, strength: f64, used: Use) -> Option<Self> {
        let share = used.layer_share;
        let between = |in_plane: f64, layer: f64| in_plane + share * (layer - in_plane);
        let ratio = between(material.fatigue_ratio, material.layer_fatigue_ratio);
        let exponent = between(material.fatigue_exponent, material.layer_fatigue_exponent);
        let line = StressLife::new(ratio * strength, exponent).ok()?;
        let from_strength = exponent * material.strength_scatter;
        let deviation = (material.life_scatter * material.life_scatter + from_strength * from_strength).sqrt();
        Some(Self { line, ultimate: strength, deviation })
    }
}

/// Damage of one engine cycle whose stress history, scaled to the strength within the layer plane, is `history`.
pub(super) fn damage_per_cycle(
    history: &[f64],
    line: &FatigueLine,
    rule: MeanStress,
    scratch: &mut RainflowScratch,
) -> f64 {
    let mut damage = 0.0;
    let counted = rainflow_repeating(history, scratch, |cycle| damage += damage_of(&cycle, line, rule));
    if counted.is_ok() { damage } else { f64::INFINITY }
}

pub(super) fn damage_of(cycle: &Cycle, line: &FatigueLine, rule: MeanStress) -> f64 {
    match rule.equivalent(cycle.amplitude(), cycle.mean, line.ultimate) {
        EquivalentAmplitude::Reversed(amplitude) => cycle.count * line.line.damage_per_cycle(amplitude),
        EquivalentAmplitude::Broken => f64::INFINITY,
    }
}

/// Median lives and strengths lowered to what nine parts in ten reach.
pub(super) fn ten_percent_factor(deviation_log10: f64) -> f64 {
    libm::pow(10.0, TEN_PERCENT * deviation_log10)
}

/// Running time until a share of the parts has failed by any of the modes, s.
///
/// A mode that does not count time fails at once where its strength at that share is used up.
pub fn life_at(modes: &[ModeMargin], failed_share: f64) -> f64 {
    let quantile = normal_quantile(failed_share).unwrap_or(0.0);
    modes
        .iter()
        .map(|mode| {
            if let Some(median) = mode.median_life {
                return median * libm::pow(10.0, quantile * mode.deviation);
            }
            let shifted = mode.margin * libm::pow(10.0, (quantile - TEN_PERCENT) * mode.deviation);
            if shifted < 1.0 { 0.0 } else { f64::INFINITY }
        })
        .fold(f64::INFINITY, f64::min)
}
