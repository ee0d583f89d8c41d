use super::assess::PistonCase;
use super::place::PistonPlace;
use super::spots::PistonSpot;
use crate::life::{
    ENDLESS_S, EquivalentAmplitude, KineticStrength, Lasting, Link, MeanStress, Odds, RainflowScratch, StressLife,
    TensionLevels,
};
use crate::material::{Card, LayerPlane, LayerStrength, MaterialState};
use crate::verdict::mode::Mode;
use crate::verdict::quantile::{TEN_PERCENT, ten_percent_factor};
use crate::verdict::spot_stress::{Reach, counted, extremes};
use crate::verdict::summary::ModeMargin;

/// Cycles beyond which no printed plastic has been tested; lives are not counted further.
const MOST_CYCLES: f64 = 1e10;

/// What one spot comes to.
pub(super) struct SpotResult {
    pub(super) modes: Vec<ModeMargin<PistonPlace>>,
    pub(super) link: Link,
}

impl SpotResult {
    /// The least margin by running.
    pub(super) fn running(&self) -> f64 {
        let modes = self.modes.iter().filter(|mode| mode.counts_time());
        modes.map(|mode| mode.margin).fold(f64::INFINITY, f64::min)
    }
}

/// Margins of a spot: one pull, one push, repeated load, lasting load.
pub(super) fn judged(case: &PistonCase<'_>, card: &Card, rule: MeanStress, spot: &PistonSpot) -> SpotResult {
    let material = card.at(spot.kelvin, case.scenario.moisture);
    let strength = LayerStrength::of(&material, spot.lay);
    let plane = LayerPlane::new(case.model.print.build);
    let pulled = strength.use_of(&spot.shape, &plane);
    let pushed = strength.use_of(&-spot.shape, &plane);
    let reach = reach(spot);
    let (low, high) = reach.whole();
    let ten = ten_percent_factor(material.strength_scatter);
    let pull = high * pulled.utilisation;
    // Shear is alike both ways: whichever is greater tears.
    let shear = spot.crushing == 0.0;
    let push = -low * pushed.utilisation * if shear { 1.0 } else { spot.crushing };
    let torn = if pulled.layer_share > 0.5 { Mode::OverloadAcrossLayers } else { Mode::OverloadInLayerPlane };
    let at_once = |mode, used: f64| ModeMargin::at_once(mode, spot.place, ten / used.max(1e-9));
    let mut modes = Vec::with_capacity(4);
    if shear {
        modes.push(at_once(torn, pull.max(push)));
    } else {
        modes.push(at_once(torn, pull));
        modes.push(at_once(Mode::Crushing, push));
    }
    // Stress turned into stress within the layer plane that is as bad.
    let scale = pulled.utilisation * strength.in_plane();
    let (running, link) = running(case, card, &material, rule, spot, (scale, pulled.layer_share, strength.in_plane()));
    modes.extend(running);
    SpotResult { modes, link }
}

/// How far the stress of a spot reaches; at rest there is none.
fn reach(spot: &PistonSpot) -> Reach {
    Reach { steps: spot.history.iter().map(|step| extremes(step.iter().copied())).collect(), rest: 0.0 }
}

fn running(
    case: &PistonCase<'_>,
    card: &Card,
    material: &MaterialState,
    rule: MeanStress,
    spot: &PistonSpot,
    (scale, layer_share, ultimate): (f64, f64, f64),
) -> (Vec<ModeMargin<PistonPlace>>, Link) {
    let between = |in_plane: f64, layer: f64| in_plane + layer_share * (layer - in_plane);
    let ratio = between(material.fatigue_ratio, material.layer_fatigue_ratio);
    let exponent = between(material.fatigue_exponent, material.layer_fatigue_exponent);
    let across = layer_share > 0.5;
    let (fatigue_mode, rupture_mode) = if across {
        (Mode::FatigueAcrossLayers, Mode::CreepRuptureAcrossLayers)
    } else {
        (Mode::FatigueInLayerPlane, Mode::CreepRuptureInLayerPlane)
    };
    let mode = |mode, margin, median, ten, beyond_tests| ModeMargin {
        mode,
        place: spot.place,
        margin,
        median_life: Some(f64::min(median, ENDLESS_S)),
        life_b10: Some(f64::min(ten, ENDLESS_S)),
        beyond_tests,
    };
    let Ok(line) = StressLife::new(ratio * ultimate, exponent) else {
        let link = Link::new(f64::INFINITY, 1.0, 0.0, Lasting::none());
        return (vec![mode(fatigue_mode, 0.0, 0.0, 0.0, false)], link);
    };
    let reach = reach(spot);
    let limit = if rule.scales_with_stress() { f64::INFINITY } else { ultimate };
    let damage = |amplitude: f64, mean: f64| match rule.equivalent(amplitude * scale, mean * scale, limit) {
        EquivalentAmplitude::Reversed(amplitude) => line.damage_per_cycle(amplitude),
        EquivalentAmplitude::Broken => f64::INFINITY,
    };
    let cycles = case.loading.cycles(case.factor);
    let mut scratch = RainflowScratch::default();
    let mut per_repeat = 0.0;
    for (count, history) in cycles.iter().zip(&spot.history) {
        let found = counted(history, &mut scratch);
        per_repeat += count * found.iter().map(|c| c.count * damage(c.amplitude(), c.mean)).sum::<f64>();
    }
    let start = reach.start_and_stop();
    per_repeat += damage(start.amplitude(), start.mean);
    let duty = case.loading.duty.total_s();
    let most_life = MOST_CYCLES * duty / cycles.iter().sum::<f64>();
    let rate = (per_repeat / duty).max(1.0 / most_life);
    let levels: Vec<TensionLevels> = spot.history.iter().map(|step| TensionLevels::of(step)).collect();
    let shares = case.loading.duty.steps().iter().map(|step| step.seconds / duty);
    let levels = TensionLevels::joined(levels.iter().zip(shares));
    let creep = card.creep.in_si();
    let (time, energy) = (creep.attempt_time, creep.activation_energy);
    let law = KineticStrength::through(time, energy, 1.0, creep.short_test, spot.kelvin);
    // Where the law has no room for stress, the place does not last whatever the load.
    let law = law.and_then(|law| law.exponents(spot.kelvin)).unwrap_or((f64::INFINITY, 0.0));
    let lasting = Lasting::new(law, &levels, scale / ultimate);
    let to_break = ultimate / (reach.whole().1 * scale).max(f64::MIN_POSITIVE);
    let wanted = case.scenario.wanted_life;
    let median = Odds { deviations: 0.0, strength_scatter: material.strength_scatter };
    let ten = Odds { deviations: -TEN_PERCENT, ..median };
    let link = Link::new(rate, exponent, material.life_scatter, lasting);
    let margin = |link: &Link| link.factor_to_fail(wanted, ten).min(to_break);
    let ([fatigue, rupture], [fatigue_ten, rupture_ten]) = (link.rates(1.0, median), link.rates(1.0, ten));
    let life = |rate: f64| if to_break <= 1.0 { 0.0 } else { 1.0 / rate };
    let beyond = rate * most_life <= 1.0;
    let both = margin(&link);
    let [by_fatigue, by_rupture] = link.rates(both, ten);
    let whole = (life(fatigue + rupture), life(fatigue_ten + rupture_ten));
    let mut modes = Vec::with_capacity(2);
    if by_fatigue >= by_rupture {
        modes.push(mode(fatigue_mode, both, whole.0, whole.1, beyond && rupture <= 0.0));
        if link.lasting.pulls() {
            modes.push(mode(rupture_mode, margin(&link.without_fatigue()), life(rupture), life(rupture_ten), false));
        }
    } else {
        modes.push(mode(fatigue_mode, margin(&link.without_lasting()), life(fatigue), life(fatigue_ten), beyond));
        modes.push(mode(rupture_mode, both, whole.0, whole.1, false));
    }
    (modes, link)
}
