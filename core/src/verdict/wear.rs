use super::mode::Mode;
use super::model::Region;
use super::quantile::{TEN_PERCENT, ten_percent_factor};
use super::setting::{Here, Setting};
use super::spot_stress::{Counted, Reach};
use super::stressing::Stressing;
use super::summary::ModeMargin;
use crate::life::{Cycle, ENDLESS_S, EquivalentAmplitude, Lasting, Link, Odds, StressLife, TensionLevels};
use crate::material::Use;

/// Cycles beyond which no printed plastic has been tested; lives are not counted further.
const MOST_CYCLES: f64 = 1e10;

/// No engine cycle holds more rainflow cycles than this: a stress history turns a few times a turn of the crank.
const MOST_IN_ONE: f64 = 16.0;

/// What running does to a point whose stress is scaled to the strength within the layer plane: fatigue by load that
/// repeats, rupture by load that lasts.
pub(super) struct Wear<'a> {
    setting: &'a Setting<'a>,
    across: bool,
    here: Here,
    /// `None` where the card gives no usable line: then nothing holds.
    line: Option<Line>,
}

struct Line {
    life: StressLife,
    ultimate: f64,
    /// Factors that nine prints in ten stay below: on fatigue damage, on tension over strength, and on damage by a load
    /// that lasts at one tension.
    ten_percent: [f64; 3],
}

/// What a look without histories says of a point: margins that the true ones cannot fall below.
#[derive(Debug, Clone, Copy)]
pub(super) struct WearBound {
    pub(super) fatigue: (Mode, f64),
    pub(super) rupture: (Mode, f64),
    pub(super) region: Region,
}

impl WearBound {
    pub(super) fn least(&self) -> f64 {
        self.fatigue.1.min(self.rupture.1)
    }
}

/// What running does to a point.
pub(super) struct Worn {
    /// The mode that does more harm counts the harm of both, the other its own; rupture only where there is tension.
    pub(super) modes: [Option<ModeMargin>; 2],
    pub(super) region: Region,
    pub(super) link: Link,
}

impl Worn {
    pub(super) fn margin(&self) -> f64 {
        self.modes.iter().flatten().map(|mode| mode.margin).fold(f64::INFINITY, f64::min)
    }
}

impl<'a> Wear<'a> {
    /// The stress-life line lies between that within the layer plane and that across layers, in proportion to the share
    /// of the strength that tractions on the layer plane use (memory).
    pub(super) fn new(setting: &'a Setting<'a>, in_plane: f64, used: Use, here: Here) -> Self {
        let material = &setting.material;
        let share = used.layer_share;
        let between = |in_plane: f64, layer: f64| in_plane + share * (layer - in_plane);
        let ratio = between(material.fatigue_ratio, material.layer_fatigue_ratio);
        let exponent = between(material.fatigue_exponent, material.layer_fatigue_exponent);
        let from_strength = exponent * material.strength_scatter;
        let deviation = (material.life_scatter * material.life_scatter + from_strength * from_strength).sqrt();
        let line = StressLife::new(ratio * in_plane, exponent).ok();
        Self {
            setting,
            across: share > 0.5,
            here,
            line: line.map(|life| Line {
                life,
                ultimate: in_plane,
                ten_percent: [
                    1.0 / ten_percent_factor(deviation),
                    1.0 / setting.ten_percent_strength,
                    1.0 / ten_percent_factor(material.life_scatter),
                ],
            }),
        }
    }

    fn fatigue_mode(&self) -> Mode {
        if self.across { Mode::FatigueAcrossLayers } else { Mode::FatigueInLayerPlane }
    }

    fn rupture_mode(&self) -> Mode {
        if self.across { Mode::CreepRuptureAcrossLayers } else { Mode::CreepRuptureInLayerPlane }
    }

    /// Margins that the true ones cannot fall below, from the least and greatest stress of each step (Pa) times `scale`.
    ///
    /// The largest rainflow cycle spans both; every other does less harm, and there are few.
    pub(super) fn at_least(&self, reach: &Reach, scale: f64) -> WearBound {
        let Some(line) = &self.line else { return self.bound(0.0, 0.0) };
        let most = self.setting.stressing.cycles().zip(&reach.steps).map(|(cycles, &(low, high))| {
            let cycle = Cycle { range: high - low, mean: f64::midpoint(high, low), count: MOST_IN_ONE };
            cycles * self.damage(line, &cycle, scale)
        });
        let per_repeat = most.sum::<f64>() + self.damage(line, &reach.start_and_stop(), scale);
        let rate = self.fatigue_rate(per_repeat);
        let wanted = rate * line.ten_percent[0] * self.setting.scenario.wanted_life;
        self.bound(libm::pow(wanted, -1.0 / line.life.exponent()), reach.whole().1 * scale)
    }

    /// As [`Self::at_least`] without looking at single steps, for rules that scale with stress: from the highest stress and
    /// the greatest equivalent amplitude of any cycle, Pa, both times `scale`.
    pub(super) fn roughly_at_least(&self, (highest, equivalent): (f64, f64), scale: f64) -> WearBound {
        let Some(line) = &self.line else { return self.bound(0.0, 0.0) };
        let exponent = line.life.exponent();
        let amplitude = (equivalent * scale).max(f64::MIN_POSITIVE);
        let ln_life = exponent * libm::log(line.life.amplitude_1e6_pa() / amplitude) + self.setting.ln_rough_life;
        let ln_life = ln_life.min(self.setting.ln_most_life);
        let fatigue = libm::exp((ln_life - libm::log(line.ten_percent[0])) / exponent);
        self.bound(fatigue, highest * scale)
    }

    /// From a bound on the margin of fatigue alone and the highest scaled stress, Pa.
    fn bound(&self, fatigue: f64, highest: f64) -> WearBound {
        let modes = (self.fatigue_mode(), self.rupture_mode());
        let region = self.here.place.region();
        let Some(line) = &self.line else {
            return WearBound { fatigue: (modes.0, 0.0), rupture: (modes.1, f64::INFINITY), region };
        };
        let to_break = line.ultimate / highest.max(f64::MIN_POSITIVE);
        let (ln_rest, pull) = self.here.rupture;
        let ln_wanted = self.setting.ln_wanted_life + libm::log(line.ten_percent[2]);
        // As if the highest stress were there all the time.
        let steepness = pull * line.ten_percent[1] / to_break;
        let lasting = libm::exp(ln_wanted + ln_rest + steepness * fatigue.min(to_break));
        // At the factor at which both together break it, fatigue does no less than what rupture leaves.
        let fatigue = fatigue * libm::pow(1.0 - lasting.min(0.5), 1.0 / line.life.exponent());
        // Rupture governs only where it does half of the harm.
        let spare = -(ln_wanted + ln_rest) - core::f64::consts::LN_2;
        let rupture = if highest <= 0.0 && spare > 0.0 { f64::INFINITY } else { spare.max(0.0) / steepness };
        WearBound { fatigue: (modes.0, fatigue.min(to_break)), rupture: (modes.1, rupture.min(to_break)), region }
    }

    /// From the counted history of each step, all stress times `scale`.
    pub(super) fn exact(&self, reach: &Reach, counted: &Counted, scale: f64) -> Worn {
        let Some(line) = &self.line else { return self.nothing_holds() };
        let mut per_repeat = 0.0;
        for (cycles, in_one) in self.setting.stressing.cycles().zip(&counted.cycles) {
            per_repeat += cycles * in_one.iter().map(|cycle| self.damage(line, cycle, scale)).sum::<f64>();
        }
        per_repeat += self.damage(line, &reach.start_and_stop(), scale);
        self.worn(line, per_repeat, &counted.levels, reach.whole().1 * scale, scale)
    }

    /// As [`Self::exact`], for rules that scale with stress: from the logarithm of each cycle's equivalent amplitude (Pa)
    /// and its count in each step, that of start and stop, and the highest stress, Pa, all stress times `scale`.
    pub(super) fn exact_scaled(
        &self,
        harms: &[Vec<(f64, f64)>],
        start: f64,
        levels: &TensionLevels,
        highest: f64,
        scale: f64,
    ) -> Worn {
        let Some(line) = &self.line else { return self.nothing_holds() };
        let exponent = line.life.exponent();
        let over = libm::log(scale / line.life.amplitude_1e6_pa());
        let damage = |ln_amplitude: f64| 1e-6 * libm::exp(exponent * (ln_amplitude + over));
        let steps = self.setting.stressing.cycles().zip(harms);
        let per_repeat: f64 = steps
            .map(|(cycles, in_one)| {
                cycles * in_one.iter().map(|&(amplitude, count)| count * damage(amplitude)).sum::<f64>()
            })
            .sum();
        self.worn(line, per_repeat + damage(start), levels, highest * scale, scale)
    }

    /// Damage of one cycle.
    fn damage(&self, line: &Line, cycle: &Cycle, scale: f64) -> f64 {
        // Where a rule scales with stress, the limit of one load is looked at apart, so that margins beyond it stay known.
        let limit = if self.setting.rule.scales_with_stress() { f64::INFINITY } else { line.ultimate };
        match self.setting.rule.equivalent(cycle.amplitude() * scale, cycle.mean * scale, limit) {
            EquivalentAmplitude::Reversed(amplitude) => cycle.count * line.life.damage_per_cycle(amplitude),
            EquivalentAmplitude::Broken => f64::INFINITY,
        }
    }

    /// Damage a second; never below that of the most cycles that are counted.
    fn fatigue_rate(&self, per_repeat: f64) -> f64 {
        let stressing = self.setting.stressing;
        (per_repeat / stressing.loading.duty.total_s()).max(1.0 / most_life(stressing))
    }

    /// `highest` is the highest scaled stress, Pa: from the strength on, the first cycle breaks the part.
    fn worn(&self, line: &Line, per_repeat: f64, levels: &TensionLevels, highest: f64, scale: f64) -> Worn {
        let fatigue_rate = self.fatigue_rate(per_repeat);
        let lasting = Lasting::new(self.here.rupture, levels, scale / line.ultimate);
        let to_break = line.ultimate / highest.max(f64::MIN_POSITIVE);
        let beyond_tests = fatigue_rate * most_life(self.setting.stressing) <= 1.0;
        let wanted = self.setting.scenario.wanted_life;
        let material = &self.setting.material;
        let median = Odds { deviations: 0.0, strength_scatter: material.strength_scatter };
        let ten = Odds { deviations: -TEN_PERCENT, ..median };
        let link = Link::new(fatigue_rate, line.life.exponent(), material.life_scatter, lasting);
        let both = link.factor_to_fail(wanted, ten).min(to_break);
        let [by_fatigue, by_rupture] = link.rates(both, ten);
        // A harm each on its own, and both together.
        let life =
            |fatigue: f64, rupture: f64| if to_break <= 1.0 { 0.0 } else { (1.0 / (fatigue + rupture)).min(ENDLESS_S) };
        let ([fatigue, rupture], [fatigue_ten, rupture_ten]) = (link.rates(1.0, median), link.rates(1.0, ten));
        let place = self.here.place;
        let mode = |mode: Mode, margin: f64, median: f64, ten: f64, beyond_tests: bool| ModeMargin {
            mode,
            place,
            margin,
            median_life: Some(median),
            life_b10: Some(ten),
            beyond_tests,
        };
        let together = |which: Mode| {
            mode(which, both, life(fatigue, rupture), life(fatigue_ten, rupture_ten), beyond_tests && rupture <= 0.0)
        };
        let modes = if by_fatigue >= by_rupture {
            let alone = link.lasting.pulls().then(|| {
                let margin = link.without_fatigue().factor_to_fail(wanted, ten).min(to_break);
                mode(self.rupture_mode(), margin, life(0.0, rupture), life(0.0, rupture_ten), false)
            });
            [Some(together(self.fatigue_mode())), alone]
        } else {
            let margin = link.without_lasting().factor_to_fail(wanted, ten).min(to_break);
            let alone = mode(self.fatigue_mode(), margin, life(fatigue, 0.0), life(fatigue_ten, 0.0), beyond_tests);
            [Some(alone), Some(together(self.rupture_mode()))]
        };
        Worn { modes, region: place.region(), link }
    }

    fn nothing_holds(&self) -> Worn {
        let none = ModeMargin {
            mode: self.fatigue_mode(),
            place: self.here.place,
            margin: 0.0,
            median_life: Some(0.0),
            life_b10: Some(0.0),
            beyond_tests: false,
        };
        let link = Link::new(f64::INFINITY, 1.0, 0.0, Lasting::none());
        Worn { modes: [Some(none), None], region: self.here.place.region(), link }
    }
}

/// Running time of the most cycles that are counted, s.
pub(super) fn most_life(stressing: &Stressing<'_>) -> f64 {
    MOST_CYCLES * stressing.loading.duty.total_s() / stressing.cycles().sum::<f64>()
}

/// Life, s, if every cycle that can be in the duty had the amplitude for a million cycles, start and stop among them.
pub(super) fn rough_life(stressing: &Stressing<'_>) -> f64 {
    let cycles: f64 = stressing.cycles().sum();
    1e6 * stressing.loading.duty.total_s() / (MOST_IN_ONE * cycles + 1.0)
}
