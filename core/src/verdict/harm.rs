//! What running does to one place of any part: fatigue by load that repeats, rupture by load that lasts.

use super::margin::ModeMargin;
use super::mode::Mode;
use super::quantile::TEN_PERCENT;
use super::spot_stress::{Counted, Reach};
use crate::job::{FatigueRule, Scenario};
use crate::life::{
    Cycle, ENDLESS_S, EquivalentAmplitude, GREATEST_MARGIN, KineticStrength, Lasting, Link, MeanStress, Odds,
    StressLife, WalkerExponent,
};
use crate::material::{Card, MaterialState};

/// Cycles beyond which no printed plastic has been tested. The stress-life line is carried on past them, so that a margin
/// stays the factor on all stress; a life out there is told as no more than a lower bound.
pub(crate) const TESTED_CYCLES: f64 = 1e10;

/// Damage a second of a place that no load reaches: its logarithm is a number, and no margin comes near it.
pub(crate) const NO_DAMAGE: f64 = 1e-250;

/// Mean-stress rule of a job, with the exponent of the material where it has one.
pub(crate) fn mean_stress_rule(scenario: &Scenario, walker_exponent: f64) -> MeanStress {
    let walker = WalkerExponent::new(walker_exponent.clamp(0.01, 1.0));
    match scenario.mean_stress {
        FatigueRule::Walker => walker.map_or(MeanStress::SmithWatsonTopper, |exponent| MeanStress::Walker { exponent }),
        FatigueRule::Goodman => MeanStress::Goodman,
        FatigueRule::Gerber => MeanStress::Gerber,
        FatigueRule::SmithWatsonTopper => MeanStress::SmithWatsonTopper,
    }
}

/// Rupture under lasting load at a temperature (K): logarithm of the damage a second without stress, and its growth with
/// tension over strength.
pub(crate) fn rupture_exponents(card: &Card, kelvin: f64) -> (f64, f64) {
    let creep = card.creep.in_si();
    let law = KineticStrength::through(creep.attempt_time, creep.activation_energy, 1.0, creep.short_test, kelvin);
    // Where the law has no room for stress, the place does not last whatever the load.
    law.and_then(|law| law.exponents(kelvin)).unwrap_or((f64::INFINITY, 0.0))
}

/// Ratio at a million cycles and exponent of the stress-life line: between those within the layer plane and across
/// layers, in proportion to the share of the strength that tractions on the layer plane use (memory).
pub(crate) fn fatigue_line(material: &MaterialState, layer_share: f64) -> (f64, f64) {
    let between = |in_plane: f64, layer: f64| in_plane + layer_share * (layer - in_plane);
    let ratio = between(material.fatigue_ratio, material.layer_fatigue_ratio);
    (ratio, between(material.fatigue_exponent, material.layer_fatigue_exponent))
}

/// Damage of one cycle whose stress times `scale` is that within the layer plane which is as bad.
pub(crate) fn cycle_damage(rule: MeanStress, life: &StressLife, ultimate: f64, cycle: &Cycle, scale: f64) -> f64 {
    // Where a rule scales with stress, the limit of one load is looked at apart, so that margins beyond it stay known.
    let limit = if rule.scales_with_stress() { f64::INFINITY } else { ultimate };
    match rule.equivalent(cycle.amplitude() * scale, cycle.mean * scale, limit) {
        EquivalentAmplitude::Reversed(amplitude) => cycle.count * life.damage_per_cycle(amplitude),
        EquivalentAmplitude::Broken => f64::INFINITY,
    }
}

/// Damage of one repeat of a duty with so many engine cycles in each step, start and stop among it.
pub(crate) fn damage_per_repeat(
    engine_cycles: impl Iterator<Item = f64>,
    counted: &Counted,
    reach: &Reach,
    damage: impl Fn(&Cycle) -> f64,
) -> f64 {
    let mut sum = 0.0;
    for (cycles, in_one) in engine_cycles.zip(&counted.cycles) {
        sum += cycles * in_one.iter().map(&damage).sum::<f64>();
    }
    sum + damage(&reach.start_and_stop())
}

/// Names of fatigue and of creep rupture, across layers or within their plane.
pub(crate) fn running_modes(across: bool) -> (Mode, Mode) {
    if across {
        (Mode::FatigueAcrossLayers, Mode::CreepRuptureAcrossLayers)
    } else {
        (Mode::FatigueInLayerPlane, Mode::CreepRuptureInLayerPlane)
    }
}

/// The two harms of running at one place.
pub(crate) struct Harm<P> {
    pub(crate) place: P,
    pub(crate) across: bool,
    /// Both harms with their scatter.
    pub(crate) link: Link,
    /// Factor at which one load breaks it.
    pub(crate) to_break: f64,
}

/// The least margins met so far that a place could undercut; by default none, so that every place could.
#[derive(Debug, Clone, Copy, Default)]
pub(crate) struct Known {
    pub(crate) fatigue: Option<f64>,
    pub(crate) rupture: Option<f64>,
    /// Of running in its region.
    pub(crate) region: Option<f64>,
}

impl<P: Copy> Harm<P> {
    /// Whether none of its margins can undercut those known: by the damage at their factors, without looking for its own.
    pub(crate) fn above(&self, material: &MaterialState, wanted: f64, known: Known) -> bool {
        let (Some(fatigue), Some(region)) = (known.fatigue, known.region) else { return false };
        let rupture = if self.link.lasting.pulls() { known.rupture } else { Some(0.0) };
        let (Some(rupture), both) = (rupture, fatigue.max(region)) else { return false };
        if self.to_break <= both.max(rupture) {
            return false;
        }
        let ten = Odds { deviations: -TEN_PERCENT, strength_scatter: material.strength_scatter };
        let most = -libm::log(wanted);
        // Where rupture does less than half of the harm up to its known margin, it neither governs there nor fails alone.
        self.link.wears_below(most, both, ten)
            && (rupture <= 0.0 || self.link.lasts_below(most - core::f64::consts::LN_2, rupture, ten))
    }

    /// Margins and the link: the mode that does more harm counts the harm of both, the other its own; rupture only where
    /// there is tension, and alone only where it can undercut what is known of it.
    pub(crate) fn judged(
        self,
        material: &MaterialState,
        wanted: f64,
        known: Known,
    ) -> ([Option<ModeMargin<P>>; 2], Link) {
        let Self { place, to_break, link, .. } = self;
        let (fatigue_mode, rupture_mode) = running_modes(self.across);
        let median = Odds { deviations: 0.0, strength_scatter: material.strength_scatter };
        let ten = Odds { deviations: -TEN_PERCENT, ..median };
        let margin = |link: &Link| link.factor_to_fail(wanted, ten).min(to_break).min(GREATEST_MARGIN);
        // From the strength on, the first cycle breaks the part.
        let life = |rate: f64| if to_break <= 1.0 { 0.0 } else { (1.0 / rate).min(ENDLESS_S) };
        let mode = |mode: Mode, margin: f64, median: f64, ten: f64| ModeMargin {
            mode,
            place,
            margin,
            median_life: Some(life(median)),
            life_b10: Some(life(ten)),
        };
        let ([fatigue, rupture], [fatigue_ten, rupture_ten]) = (link.rates(1.0, median), link.rates(1.0, ten));
        let both = margin(&link);
        let [by_fatigue, by_rupture] = link.rates(both, ten);
        let together = |which: Mode| mode(which, both, fatigue + rupture, fatigue_ten + rupture_ten);
        let modes = if by_fatigue >= by_rupture {
            let most = -libm::log(wanted);
            let above = known.rupture.is_some_and(|known| known <= to_break && link.lasts_below(most, known, ten));
            let alone = || mode(rupture_mode, margin(&link.without_fatigue()), rupture, rupture_ten);
            [Some(together(fatigue_mode)), (link.lasting.pulls() && !above).then(alone)]
        } else {
            let alone = mode(fatigue_mode, margin(&link.without_lasting()), fatigue, fatigue_ten);
            [Some(alone), Some(together(rupture_mode))]
        };
        (modes, link)
    }
}

/// A place whose card gives no usable line.
pub(crate) fn nothing_holds<P>(place: P, across: bool) -> ([Option<ModeMargin<P>>; 2], Link) {
    let none =
        ModeMargin { mode: running_modes(across).0, place, margin: 0.0, median_life: Some(0.0), life_b10: Some(0.0) };
    ([Some(none), None], Link::new(f64::INFINITY, 1.0, 0.0, Lasting::none()))
}
