use super::mode::Mode;
use super::place::RodPlace;
use super::quantile::{TEN_PERCENT, ten_percent_factor};
use super::setting::Setting;
use super::spot_stress::{start_and_stop, with_rest};
use super::stressing::Stressing;
use super::summary::ModeMargin;
use crate::life::{Cycle, EquivalentAmplitude, StressLife};
use crate::material::Use;

/// Cycles beyond which no printed plastic has been tested; lives are not counted further.
const MOST_CYCLES: f64 = 1e10;

/// No engine cycle holds more rainflow cycles than this: a stress history turns a few times a turn of the crank.
const MOST_IN_ONE: f64 = 16.0;

/// Fatigue of a point whose stress is scaled to the strength within the layer plane.
pub(super) struct Fatigue<'a> {
    setting: &'a Setting<'a>,
    mode: Mode,
    place: RodPlace,
    /// `None` where the card gives no usable line: then nothing holds.
    line: Option<Line>,
}

struct Line {
    life: StressLife,
    ultimate: f64,
    /// Standard deviation of log10 life from life and strength scatter together.
    deviation: f64,
}

impl<'a> Fatigue<'a> {
    /// The stress-life line lies between that within the layer plane and that across layers, in proportion to the share
    /// of the strength that tractions on the layer plane use (memory).
    pub(super) fn new(setting: &'a Setting<'a>, in_plane: f64, used: Use, place: RodPlace) -> Self {
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
            mode: if share > 0.5 { Mode::FatigueAcrossLayers } else { Mode::FatigueInLayerPlane },
            place,
            line: line.map(|life| Line { life, ultimate: in_plane, deviation }),
        }
    }

    /// What a failure here is called.
    pub(super) fn mode(&self) -> Mode {
        self.mode
    }

    /// A margin that the true one cannot fall below, from the least and greatest stress of each step (Pa) times `scale`.
    ///
    /// The largest rainflow cycle spans both; every other does less harm, and there are few.
    pub(super) fn at_least(&self, steps: &[(f64, f64)], scale: f64) -> ModeMargin {
        let most = self.setting.stressing.cycles().zip(steps).map(|(cycles, &(low, high))| {
            let cycle = Cycle { range: high - low, mean: f64::midpoint(high, low), count: MOST_IN_ONE };
            cycles * self.damage(&cycle, scale)
        });
        self.repeated(most.sum(), steps, scale)
    }

    /// As [`Self::at_least`] without looking at single steps, for rules that scale with stress: from the highest stress and
    /// the greatest equivalent amplitude of any cycle, Pa, both times `scale`.
    pub(super) fn roughly_at_least(&self, (highest, equivalent): (f64, f64), scale: f64) -> f64 {
        let Some(line) = &self.line else { return 0.0 };
        let exponent = line.life.exponent();
        let amplitude = (equivalent * scale).max(f64::MIN_POSITIVE);
        let ln_life = exponent * libm::log(line.life.amplitude_1e6_pa() / amplitude) + self.setting.ln_rough_life;
        let ln_life = ln_life.min(self.setting.ln_most_life);
        let counted = libm::exp((ln_life + TEN_PERCENT * core::f64::consts::LN_10 * line.deviation) / exponent);
        counted.min(line.ultimate / (highest * scale).max(f64::MIN_POSITIVE))
    }

    /// As [`Self::exact`], for rules that scale with stress: from the logarithm of each cycle's equivalent amplitude (Pa)
    /// and its count in each step, that of start and stop, and the highest stress, Pa, all stress times `scale`.
    pub(super) fn exact_scaled(&self, harms: &[Vec<(f64, f64)>], start: f64, highest: f64, scale: f64) -> ModeMargin {
        let Some(line) = &self.line else { return self.margin(f64::INFINITY, highest * scale) };
        let exponent = line.life.exponent();
        let over = libm::log(scale / line.life.amplitude_1e6_pa());
        let damage = |ln_amplitude: f64| 1e-6 * libm::exp(exponent * (ln_amplitude + over));
        let steps = self.setting.stressing.cycles().zip(harms);
        let per_repeat: f64 = steps
            .map(|(cycles, in_one)| {
                cycles * in_one.iter().map(|&(amplitude, count)| count * damage(amplitude)).sum::<f64>()
            })
            .sum();
        self.margin(per_repeat + damage(start), highest * scale)
    }

    /// The margin from the counted cycles of each step, all stress times `scale`.
    pub(super) fn exact(&self, steps: &[(f64, f64)], counted: &[Vec<Cycle>], scale: f64) -> ModeMargin {
        let mut per_repeat = 0.0;
        for (cycles, in_one) in self.setting.stressing.cycles().zip(counted) {
            per_repeat += cycles * in_one.iter().map(|cycle| self.damage(cycle, scale)).sum::<f64>();
        }
        self.repeated(per_repeat, steps, scale)
    }

    /// The margin from the damage of running and of one start and stop each time the duty is repeated.
    fn repeated(&self, running: f64, steps: &[(f64, f64)], scale: f64) -> ModeMargin {
        self.margin(running + self.damage(&start_and_stop(steps), scale), with_rest(steps).1 * scale)
    }

    fn damage(&self, cycle: &Cycle, scale: f64) -> f64 {
        let Some(line) = &self.line else { return f64::INFINITY };
        // Where a rule scales with stress, the limit of one load is looked at apart, so that margins beyond it stay known.
        let limit = if self.setting.rule.scales_with_stress() { f64::INFINITY } else { line.ultimate };
        match self.setting.rule.equivalent(cycle.amplitude() * scale, cycle.mean * scale, limit) {
            EquivalentAmplitude::Reversed(amplitude) => cycle.count * line.life.damage_per_cycle(amplitude),
            EquivalentAmplitude::Broken => f64::INFINITY,
        }
    }

    /// `highest` is the highest scaled stress, Pa: from the strength on, the first cycle breaks the part.
    fn margin(&self, damage_per_repeat: f64, highest: f64) -> ModeMargin {
        let Some(line) = &self.line else { return ModeMargin::at_once(self.mode, self.place, 0.0, 0.0) };
        let duty = &self.setting.stressing.loading.duty;
        let most = most_life(self.setting.stressing);
        let life = (duty.total_s() / damage_per_repeat).min(most);
        let wanted = life * ten_percent_factor(line.deviation) / self.setting.scenario.wanted_life;
        let counted = libm::pow(wanted, 1.0 / line.life.exponent());
        let to_break = line.ultimate / highest.max(f64::MIN_POSITIVE);
        ModeMargin {
            mode: self.mode,
            place: self.place,
            margin: counted.min(to_break),
            median_life: Some(if to_break <= 1.0 { 0.0 } else { life }),
            deviation: line.deviation,
            beyond_tests: life >= most,
        }
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
