use super::crown_plate::{Crown, crown};
use super::limits::{Fits, bearing, growth, skirt, softening};
use super::loading::PistonLoading;
use super::model::{PistonModel, PistonStation};
use super::place::{PistonPlace, PistonRegion};
use super::spots::{PistonSpot, spots};
use super::warm::WarmPiston;
use super::wear::{SpotResult, judged};
use crate::job::{PartTemperature, PistonScenario, Scenario};
use crate::life::Link;
use crate::load::PistonBasis;
use crate::material::Card;
use crate::numeric::{map_in_order, sort_few, sort_few_by_key};
use crate::piston::field::PistonRaise;
use crate::stress::StressError;
use crate::verdict::{ModeMargin, PartStrength, mean_stress_rule};

/// A piston under its duty at a factor on all speeds.
#[derive(Clone, Copy)]
pub struct PistonCase<'a> {
    /// The piston.
    pub model: &'a PistonModel,
    /// What drives it.
    pub loading: &'a PistonLoading,
    /// The job.
    pub scenario: &'a Scenario,
    /// The piston's part of it.
    pub piston: &'a PistonScenario,
    /// Temperatures.
    pub warm: &'a WarmPiston,
    /// Diameters and what they run in.
    pub fits: Fits,
    /// What a stress field adds to the stress of plates, rings and cuts; nothing until one was solved.
    pub raise: PistonRaise,
    /// Factor on all speeds.
    pub factor: f64,
}

/// What speed, gas, material and heat make of a piston.
#[derive(Debug, Clone)]
pub struct PistonAssessment {
    /// Every mode in every region with its worst place.
    pub strength: PartStrength<PistonPlace>,
    /// When heat ends the run, s: crown or top land soft.
    pub soft_after: Option<f64>,
    /// How the crown's edge is held, and what the bounds on that would give.
    pub crown: CrownEdge,
    /// Highest temperature at which strength was taken, K.
    pub hottest: f64,
}

/// How a crown's edge is held.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CrownEdge {
    /// Share of a clamp's moment that its wall holds.
    pub share: f64,
    /// Least margin of the crown, were its edge simply supported.
    pub supported: f64,
    /// The same, were it clamped.
    pub clamped: f64,
}

impl PistonAssessment {
    /// Running time until a share of the parts has failed, s; heat takes all of them at once.
    pub fn life_at(&self, share: f64) -> f64 {
        let Some(soft) = self.soft_after else { return self.strength.life_at(share) };
        let cool = self.strength.modes.iter().filter(|mode| mode.mode.asks_for_strength());
        let cool = PartStrength { modes: cool.copied().collect(), ..self.strength.clone() };
        cool.life_at(share).min(soft)
    }
}

impl<'a> PistonCase<'a> {
    /// Something at every crank angle of every step.
    pub(crate) fn mapped<T>(&self, of: impl Fn(&PistonBasis, usize, f64) -> T) -> Vec<Vec<T>> {
        (0..self.loading.duty.steps().len())
            .map(|step| {
                let (basis, speed) = (self.loading.basis(step), self.loading.speed(step, self.factor));
                (0..basis.angles()).map(|angle| of(basis, angle, speed)).collect()
            })
            .collect()
    }

    /// A number at every crank angle of every step.
    pub(crate) fn over_cycle(&self, of: impl Fn(&PistonBasis, usize, f64) -> f64) -> Vec<Vec<f64>> {
        self.mapped(of)
    }

    /// Cuts below the crown, with their number.
    pub(crate) fn loaded_stations(&self) -> impl Iterator<Item = (usize, &'a PistonStation)> {
        let underside = self.model.crown.underside;
        let stations = self.model.stations.iter().enumerate();
        stations.filter(move |(_, s)| s.section.position < underside && s.makeup.stiffness.area > 0.0)
    }

    /// Least and greatest axial force through a cut over the duty, N, rest included.
    pub(crate) fn section_extremes(&self, index: usize) -> (f64, f64) {
        let mut extremes = (0.0_f64, 0.0_f64);
        for step in 0..self.loading.duty.steps().len() {
            let (basis, speed) = (self.loading.basis(step), self.loading.speed(step, self.factor));
            for angle in 0..basis.angles() {
                let here = basis.section(index, angle, speed);
                extremes = (extremes.0.min(here), extremes.1.max(here));
            }
        }
        extremes
    }

    /// Temperatures through the crown, K.
    pub(crate) fn crown_temperatures(&self) -> &'a [f64] {
        &self.warm.crown
    }

    /// Temperature of the ring belt at a height, K.
    pub(crate) fn belt_temperature(&self, height: f64) -> f64 {
        self.warm.belt_at(height)
    }

    /// Temperature of the walls at a height, K; below the pin that at the pin.
    pub(crate) fn wall_temperature(&self, height: f64) -> f64 {
        self.warm.belt_at(height.max(0.0))
    }

    /// Temperature of the bosses, K.
    pub(crate) fn boss_temperature(&self) -> f64 {
        match self.scenario.part_temperature {
            PartTemperature::Given => self.scenario.temperature,
            _ => self.scenario.surroundings.piston_pin,
        }
    }

    /// Temperature of the skirt, K.
    pub(crate) fn skirt_temperature(&self) -> f64 {
        match self.scenario.part_temperature {
            PartTemperature::Given => self.scenario.temperature,
            _ => self.piston.cylinder_wall,
        }
    }

    /// A temperature at which strength is taken, K: what has softened has failed by that already, and is judged as it was
    /// the moment before.
    pub(crate) fn before_softening(&self, kelvin: f64) -> f64 {
        if self.warm.counts { kelvin.min(self.warm.softening - 0.01) } else { kelvin }
    }
}

/// Assesses a piston with the material of a card.
pub fn assess_piston(case: &PistonCase<'_>, card: &Card) -> Result<PistonAssessment, StressError> {
    let rule = mean_stress_rule(case.scenario, card.fatigue.walker_exponent.value);
    let Crown { held, supported, clamped, share } = crown(case, card)?;
    let mut spots = spots(case, card)?;
    spots.extend(held);
    for spot in &mut spots {
        spot.raise(case.raise.of(spot.place.region()));
    }
    let judge = |spots: &[PistonSpot]| map_in_order(spots.len(), |k| judged(case, card, rule, &spots[k]));
    let results: Vec<SpotResult> = judge(&spots);
    let at_spots = spots.iter().map(|spot| spot.kelvin);
    let hottest = at_spots.chain(case.crown_temperatures().iter().copied()).fold(0.0, f64::max);
    let least = |results: &[SpotResult]| {
        results.iter().flat_map(|result| &result.modes).map(|mode| mode.margin).fold(f64::INFINITY, f64::min)
    };
    let crown = CrownEdge { share, supported: least(&judge(&supported)), clamped: least(&judge(&clamped)) };
    let mut modes: Vec<ModeMargin<PistonPlace>> = Vec::new();
    let mut links: Vec<(PistonRegion, f64, Link)> = Vec::new();
    for (spot, result) in spots.iter().zip(&results) {
        for mode in &result.modes {
            add(&mut modes, *mode);
        }
        let (region, running) = (spot.place.region(), result.running());
        match links.iter_mut().find(|known| known.0 == region) {
            Some(known) if running < known.1 => *known = (region, running, result.link.clone()),
            Some(_) => {}
            None => links.push((region, running, result.link.clone())),
        }
    }
    let (soft, soft_after) = softening(case, card);
    for mode in soft.into_iter().chain(growth(case, card)).chain(bearing(case, card)).chain([skirt(case, card)]) {
        add(&mut modes, mode);
    }
    sort_few(&mut modes, |a, b| a.mode.cmp(&b.mode).then(a.place.region().cmp(&b.place.region())));
    sort_few_by_key(&mut links, |known| known.0);
    let strength = PartStrength {
        modes,
        links: links.into_iter().map(|(_, _, link)| link).collect(),
        strength_scatter: card.strength.scatter_log10.value,
        wanted_life: case.scenario.wanted_life,
    };
    Ok(PistonAssessment { strength, soft_after, crown, hottest })
}

/// Keeps the worst place of each mode in each region.
fn add(modes: &mut Vec<ModeMargin<PistonPlace>>, mode: ModeMargin<PistonPlace>) {
    let same =
        |known: &&mut ModeMargin<PistonPlace>| known.mode == mode.mode && known.place.region() == mode.place.region();
    match modes.iter_mut().find(same) {
        Some(known) if mode.margin < known.margin => *known = mode,
        Some(_) => {}
        None => modes.push(mode),
    }
}
