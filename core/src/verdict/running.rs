use super::harm::{
    Harm, Known, NO_DAMAGE, cycle_damage, damage_per_repeat, fatigue_line, nothing_holds, rupture_exponents,
};
use super::margin::ModeMargin;
use super::spot_stress::{Counted, Reach};
use crate::engine::Duty;
use crate::life::{Cycle, Lasting, Link, MeanStress, StressLife};
use crate::material::{Card, MaterialState};

/// What a duty does to one place along one line through stress space.
pub(crate) struct Running<'a, P> {
    pub(crate) place: P,
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

/// The duty a place is held against.
pub(crate) struct Wanted<'a> {
    pub(crate) duty: &'a Duty,
    /// Cycles of load in each of its steps.
    pub(crate) cycles: &'a [f64],
    /// s.
    pub(crate) life: f64,
    pub(crate) rule: MeanStress,
}

impl<P: Copy> Running<'_, P> {
    /// Fatigue and rupture there.
    pub(crate) fn judged(
        &self,
        card: &Card,
        material: &MaterialState,
        wanted: &Wanted<'_>,
    ) -> ([Option<ModeMargin<P>>; 2], Link) {
        let Self { place, kelvin, reach, counted, scale, mean_share, layer_share, ultimate } = *self;
        let (ratio, exponent) = fatigue_line(material, layer_share);
        let across = layer_share > 0.5;
        let Ok(line) = StressLife::new(ratio * ultimate, exponent) else { return nothing_holds(place, across) };
        let damage = |cycle: &Cycle| {
            cycle_damage(wanted.rule, &line, ultimate, &Cycle { mean: cycle.mean * mean_share, ..*cycle }, scale)
        };
        let per_repeat = damage_per_repeat(wanted.cycles.iter().copied(), counted, reach, damage);
        let lasting = Lasting::new(rupture_exponents(card, kelvin), &counted.levels, scale / ultimate);
        let fatigue_rate = (per_repeat / wanted.duty.total_s()).max(NO_DAMAGE);
        let harm = Harm {
            place,
            across,
            link: Link::new(fatigue_rate, exponent, material.life_scatter, lasting),
            to_break: ultimate / (reach.whole().1 * scale).max(f64::MIN_POSITIVE),
        };
        harm.judged(material, wanted.life, Known::default())
    }
}
