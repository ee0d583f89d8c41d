use super::assess::PistonCase;
use super::place::PistonPlace;
use super::spots::PistonSpot;
use crate::life::{Link, MeanStress};
use crate::material::{Card, LayerPlane, LayerStrength, MaterialState};
use crate::verdict::{Counted, Mode, ModeMargin, Reach, Running, Wanted, extremes, ten_percent_factor};

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
    at: &Running<'_, PistonPlace>,
) -> ([Option<ModeMargin<PistonPlace>>; 2], Link) {
    let cycles = case.loading.cycles(case.factor);
    let (duty, life) = (&case.loading.duty, case.scenario.wanted_life);
    at.judged(card, material, &Wanted { duty, cycles: &cycles, life, rule })
}
