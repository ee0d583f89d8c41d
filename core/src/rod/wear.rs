use super::model::Region;
use super::place::{RodMargin, RodPlace};
use super::setting::{Here, Setting};
use crate::life::{Cycle, Lasting, Link, StressLife, TensionLevels};
use crate::material::Use;
use crate::verdict::{
    Counted, Harm, Known, Mode, NO_DAMAGE, Reach, cycle_damage, damage_per_repeat, fatigue_line, ln_ten_percent_factor,
    nothing_holds, running_modes,
};

/// No engine cycle holds more rainflow cycles than this: a stress history turns a few times a turn of the crank.
const MOST_IN_ONE: f64 = 16.0;

/// Logarithm of a damage that changes nothing.
const NOTHING: f64 = -45.0;

/// What running does to a point whose stress is scaled to the strength within the layer plane: fatigue by load that
/// repeats, rupture by load that lasts.
pub(crate) struct Wear<'a> {
    setting: &'a Setting<'a>,
    across: bool,
    here: Here,
    /// `None` where the card gives no usable line: then nothing holds.
    line: Option<WornLine>,
}

struct WornLine {
    life: StressLife,
    ultimate: f64,
    /// Logarithms of factors that nine prints in ten stay below: on fatigue damage, and on damage by a load that lasts at
    /// one tension.
    ln_ten_percent: [f64; 2],
}

/// What a look without histories says of a point: margins that the true ones cannot fall below.
#[derive(Debug, Clone, Copy)]
pub(crate) struct WearBound {
    pub(crate) fatigue: (Mode, f64),
    pub(crate) rupture: (Mode, f64),
    pub(crate) region: Region,
}

impl WearBound {
    pub(crate) fn least(&self) -> f64 {
        self.fatigue.1.min(self.rupture.1)
    }
}

/// What running does to a point.
pub(crate) struct Worn {
    /// The mode that does more harm counts the harm of both, the other its own; rupture only where there is tension.
    pub(crate) modes: [Option<RodMargin>; 2],
    pub(crate) region: Region,
    pub(crate) link: Link,
}

impl Worn {
    pub(crate) fn margin(&self) -> f64 {
        self.modes.iter().flatten().map(|mode| mode.margin).fold(f64::INFINITY, f64::min)
    }
}

impl<'a> Wear<'a> {
    /// `used` is the strength used by a pull: its share of tractions on the layer plane chooses the stress-life line.
    pub(crate) fn new(setting: &'a Setting<'a>, in_plane: f64, used: Use, here: Here) -> Self {
        let material = &setting.material;
        let (ratio, exponent) = fatigue_line(material, used.layer_share);
        let from_strength = exponent * material.strength_scatter;
        let deviation = (material.life_scatter * material.life_scatter + from_strength * from_strength).sqrt();
        let line = StressLife::new(ratio * in_plane, exponent).ok();
        Self {
            setting,
            across: used.layer_share > 0.5,
            here,
            line: line.map(|life| WornLine {
                life,
                ultimate: in_plane,
                ln_ten_percent: [deviation, material.life_scatter].map(|d| -ln_ten_percent_factor(d)),
            }),
        }
    }

    /// Names of fatigue and rupture there, and the region.
    pub(crate) fn kinds(&self) -> ((Mode, Mode), Region) {
        (running_modes(self.across), self.here.place.region())
    }

    /// Margins that the true ones cannot fall below, from the least and greatest stress of each step (Pa) times `scale`.
    ///
    /// The largest rainflow cycle spans both; every other does less harm, and there are few.
    pub(crate) fn at_least(&self, reach: &Reach, scale: f64) -> WearBound {
        let Some(line) = &self.line else { return self.bound(0.0, 0.0) };
        let most = self.setting.stressing.cycles().zip(&reach.steps).map(|(cycles, &(low, high))| {
            let cycle = Cycle { range: high - low, mean: f64::midpoint(high, low), count: MOST_IN_ONE };
            cycles * self.damage(line, &cycle, scale)
        });
        let per_repeat = most.sum::<f64>() + self.damage(line, &reach.start_and_stop(), scale);
        let rate = self.fatigue_rate(per_repeat);
        let wanted = rate * libm::exp(line.ln_ten_percent[0]) * self.setting.scenario.wanted_life;
        self.bound(libm::pow(wanted, -1.0 / line.life.exponent()), reach.whole().1 * scale)
    }

    /// As [`Self::at_least`] without looking at single steps, for rules that scale with stress: from the highest stress
    /// (Pa), the logarithm of the greatest equivalent amplitude of any cycle (Pa), and that of the life over that wanted
    /// were this amplitude the one for a million cycles; all stress times `scale`.
    pub(crate) fn at_least_of_scaled(&self, highest: f64, ln_greatest: f64, ln_life: f64, scale: f64) -> WearBound {
        let Some(line) = &self.line else { return self.bound(0.0, 0.0) };
        let exponent = line.life.exponent();
        let over = libm::log(scale / line.life.amplitude_1e6_pa());
        let ln_life = ln_life - exponent * (ln_greatest + over);
        let fatigue = libm::exp((ln_life - line.ln_ten_percent[0]) / exponent);
        self.bound(fatigue, highest * scale)
    }

    /// From a bound on the margin of fatigue alone and the highest scaled stress, Pa.
    fn bound(&self, fatigue: f64, highest: f64) -> WearBound {
        let modes = running_modes(self.across);
        let region = self.here.place.region();
        let Some(line) = &self.line else {
            return WearBound { fatigue: (modes.0, 0.0), rupture: (modes.1, f64::INFINITY), region };
        };
        let to_break = line.ultimate / highest.max(f64::MIN_POSITIVE);
        let (ln_rest, pull) = self.here.rupture;
        let ln_wanted = self.setting.ln_wanted_life + line.ln_ten_percent[1];
        // As if the highest stress were there all the time.
        let steepness = pull / (self.setting.ten_percent_strength * to_break);
        let ln_lasting = ln_wanted + ln_rest + steepness * fatigue.min(to_break);
        let lasting = if ln_lasting < NOTHING { 0.0 } else { libm::exp(ln_lasting).min(0.5) };
        // At the factor at which both together break it, fatigue does no less than what rupture leaves, `1 - lasting`: its
        // root is a little more than the straight line between no rupture and half of the harm by it.
        let fatigue = fatigue * (1.0 - 2.0 * core::f64::consts::LN_2 * lasting / line.life.exponent());
        // Rupture governs only where it does half of the harm.
        let spare = -(ln_wanted + ln_rest) - core::f64::consts::LN_2;
        let rupture = if highest <= 0.0 && spare > 0.0 { f64::INFINITY } else { spare.max(0.0) / steepness };
        WearBound { fatigue: (modes.0, fatigue.min(to_break)), rupture: (modes.1, rupture.min(to_break)), region }
    }

    /// From the counted history of each step, all stress times the first of `scales`, where only a share of each cycle's mean
    /// counts, the second: a steady shear stress has next to no effect on fatigue (Smith 1942, as Shigley's Mechanical
    /// Engineering Design tells it), unlike a steady pull.
    pub(crate) fn exact_of(&self, reach: &Reach, counted: &Counted, scales: (f64, f64)) -> Worn {
        let harm = self.line.as_ref().map(|line| self.harm_counted(line, reach, counted, scales));
        self.judged(harm, Known::default())
    }

    /// As [`Self::exact_of`], but `None` where no margin can undercut those known.
    pub(crate) fn exact_below(
        &self,
        known: Known,
        reach: &Reach,
        counted: &Counted,
        scales: (f64, f64),
    ) -> Option<Worn> {
        self.below(known, self.line.as_ref().map(|line| self.harm_counted(line, reach, counted, scales)))
    }

    /// All stress times the first, the mean of each cycle times the second too.
    fn harm_counted(
        &self,
        line: &WornLine,
        reach: &Reach,
        counted: &Counted,
        (scale, mean_share): (f64, f64),
    ) -> Harm<RodPlace> {
        let damage = |cycle: &Cycle| self.damage(line, &Cycle { mean: cycle.mean * mean_share, ..*cycle }, scale);
        let per_repeat = damage_per_repeat(self.setting.stressing.cycles(), counted, reach, damage);
        self.harm(line, per_repeat, &counted.levels, reach.whole().1 * scale, scale)
    }

    /// As [`Self::exact_below`], for rules that scale with stress: from the logarithm of each cycle's equivalent amplitude
    /// (Pa) and its count in each step, that of start and stop, and the highest stress, Pa, all stress times `scale`.
    pub(crate) fn scaled_below(
        &self,
        known: Known,
        harms: &[Vec<(f64, f64)>],
        start: f64,
        levels: &TensionLevels,
        highest: f64,
        scale: f64,
    ) -> Option<Worn> {
        let Some(line) = &self.line else { return Some(self.judged(None, known)) };
        let exponent = line.life.exponent();
        let over = libm::log(scale / line.life.amplitude_1e6_pa());
        let damage = |ln_amplitude: f64| 1e-6 * libm::exp(exponent * (ln_amplitude + over));
        let steps = self.setting.stressing.cycles().zip(harms);
        let per_repeat: f64 = steps
            .map(|(cycles, in_one)| {
                cycles * in_one.iter().map(|&(amplitude, count)| count * damage(amplitude)).sum::<f64>()
            })
            .sum();
        self.below(known, Some(self.harm(line, per_repeat + damage(start), levels, highest * scale, scale)))
    }

    fn damage(&self, line: &WornLine, cycle: &Cycle, scale: f64) -> f64 {
        cycle_damage(self.setting.rule, &line.life, line.ultimate, cycle, scale)
    }

    /// Damage a second.
    fn fatigue_rate(&self, per_repeat: f64) -> f64 {
        (per_repeat / self.setting.stressing.loading.duty.total_s()).max(NO_DAMAGE)
    }

    /// `highest` is the highest scaled stress, Pa.
    fn harm(
        &self,
        line: &WornLine,
        per_repeat: f64,
        levels: &TensionLevels,
        highest: f64,
        scale: f64,
    ) -> Harm<RodPlace> {
        let fatigue_rate = self.fatigue_rate(per_repeat);
        let lasting = Lasting::new(self.here.rupture, levels, scale / line.ultimate);
        Harm {
            place: self.here.place,
            across: self.across,
            link: Link::new(fatigue_rate, line.life.exponent(), self.setting.material.life_scatter, lasting),
            to_break: line.ultimate / highest.max(f64::MIN_POSITIVE),
        }
    }

    fn below(&self, known: Known, harm: Option<Harm<RodPlace>>) -> Option<Worn> {
        let (material, wanted) = (&self.setting.material, self.setting.scenario.wanted_life);
        let above = harm.as_ref().is_some_and(|harm| harm.above(material, wanted, known));
        (!above).then(|| self.judged(harm, known))
    }

    /// Nothing holds where there is no line.
    fn judged(&self, harm: Option<Harm<RodPlace>>, known: Known) -> Worn {
        let (modes, link) = match harm {
            Some(harm) => harm.judged(&self.setting.material, self.setting.scenario.wanted_life, known),
            None => nothing_holds(self.here.place, self.across),
        };
        Worn { modes, region: self.here.place.region(), link }
    }
}
