use super::assess::PistonCase;
use super::place::PistonPlace;
use super::spots::PistonSpot;
use crate::life::{Cycle, Lasting, Link, MeanStress, StressLife};
use crate::material::{Card, LayerPlane, LayerStrength, MaterialState};
use crate::verdict::{
    Counted, Harm, Known, Mode, ModeMargin, NO_DAMAGE, Reach, cycle_damage, damage_per_repeat, extremes, fatigue_line,
    nothing_holds, rupture_exponents, ten_percent_factor,
};

/// What one spot comes to.
pub(crate) struct SpotResult {
    pub(crate) modes: Vec<ModeMargin<PistonPlace>>,
    pub(crate) link: Link,
}

impl SpotResult {
    /// The least margin by running.
    pub(crate) fn running(&self) -> f64 {
        let modes = self.modes.iter().filter(|mode| mode.counts_time());
        modes.map(|mode| mode.margin).fold(f64::INFINITY, f64::min)
    }
}

/// Margins of a spot: one pull, one push, repeated load, lasting load.
pub(crate) fn judged(case: &PistonCase<'_>, card: &Card, rule: MeanStress, spot: &PistonSpot) -> SpotResult {
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
    let duty = &case.loading.duty;
    let shares = duty.steps().iter().map(|step| step.seconds / duty.total_s());
    let counted = Counted::of(spot.history.iter(), shares);
    let at_spot = Running {
        place: spot.place,
        kelvin: spot.kelvin,
        reach: &reach,
        counted: &counted,
        // Stress turned into stress within the layer plane that is as bad.
        scale: pulled.utilisation * strength.in_plane(),
        mean_share: 1.0,
        layer_share: pulled.layer_share,
        ultimate: strength.in_plane(),
    };
    let (running, link) = running(case, card, &material, rule, &at_spot);
    modes.extend(running.into_iter().flatten());
    SpotResult { modes, link }
}

/// What a duty does to one place along one line through stress space.
pub(crate) struct Running<'a> {
    pub(crate) place: PistonPlace,
    /// Temperature there, K.
    pub(crate) kelvin: f64,
    pub(crate) reach: &'a Reach,
    pub(crate) counted: &'a Counted,
    /// From the numbers of reach and cycles to stress within the layer plane that is as bad, Pa.
    pub(crate) scale: f64,
    /// How much of a cycle's mean counts: a steady shear along the layers does not (Smith 1942).
    pub(crate) mean_share: f64,
    /// Share of the used strength that tractions on the layer plane take.
    pub(crate) layer_share: f64,
    /// Strength within the layer plane, Pa.
    pub(crate) ultimate: f64,
}

/// How far the stress of a spot reaches; at rest there is none.
fn reach(spot: &PistonSpot) -> Reach {
    Reach { steps: spot.history.iter().map(|step| extremes(step.iter().copied())).collect(), rest: 0.0 }
}

/// Fatigue and rupture there.
pub(crate) fn running(
    case: &PistonCase<'_>,
    card: &Card,
    material: &MaterialState,
    rule: MeanStress,
    at: &Running<'_>,
) -> ([Option<ModeMargin<PistonPlace>>; 2], Link) {
    let Running { place, kelvin, reach, counted, scale, mean_share, layer_share, ultimate } = *at;
    let (ratio, exponent) = fatigue_line(material, layer_share);
    let across = layer_share > 0.5;
    let Ok(line) = StressLife::new(ratio * ultimate, exponent) else { return nothing_holds(place, across) };
    let duty = &case.loading.duty;
    let cycles = case.loading.cycles(case.factor);
    let damage =
        |cycle: &Cycle| cycle_damage(rule, &line, ultimate, &Cycle { mean: cycle.mean * mean_share, ..*cycle }, scale);
    let per_repeat = damage_per_repeat(cycles.iter().copied(), counted, reach, damage);
    let lasting = Lasting::new(rupture_exponents(card, kelvin), &counted.levels, scale / ultimate);
    let fatigue_rate = (per_repeat / duty.total_s()).max(NO_DAMAGE);
    let harm = Harm {
        place,
        across,
        link: Link::new(fatigue_rate, exponent, material.life_scatter, lasting),
        to_break: ultimate / (reach.whole().1 * scale).max(f64::MIN_POSITIVE),
    };
    harm.judged(material, case.scenario.wanted_life, Known::default())
}
