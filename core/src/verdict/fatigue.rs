use super::mode::Mode;
use super::place::RodPlace;
use super::quantile::ten_percent_factor;
use super::setting::Setting;
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
        let deviation = libm::hypot(material.life_scatter, from_strength);
        let line = StressLife::new(ratio * in_plane, exponent).ok();
        Self {
            setting,
            mode: if share > 0.5 { Mode::FatigueAcrossLayers } else { Mode::FatigueInLayerPlane },
            place,
            line: line.map(|life| Line { life, ultimate: in_plane, deviation }),
        }
    }

    /// A margin that the true one cannot fall below, from the least and greatest stress of each step (Pa) times `scale`.
    ///
    /// The largest rainflow cycle spans both; every other does less harm, and there are few.
    pub(super) fn at_least(&self, steps: &[(f64, f64)], scale: f64) -> ModeMargin {
        let most = self.setting.stressing.cycles().zip(steps).map(|(cycles, &(low, high))| {
            let cycle = Cycle { range: high - low, mean: f64::midpoint(high, low), count: MOST_IN_ONE };
            cycles * self.damage(&cycle, scale)
        });
        self.margin(most.sum::<f64>() + self.start_and_stop(steps, scale))
    }

    /// The margin from the counted cycles of each step, all stress times `scale`.
    pub(super) fn exact(&self, steps: &[(f64, f64)], counted: &[Vec<Cycle>], scale: f64) -> ModeMargin {
        let mut per_repeat = 0.0;
        for (cycles, in_one) in self.setting.stressing.cycles().zip(counted) {
            per_repeat += cycles * in_one.iter().map(|cycle| self.damage(cycle, scale)).sum::<f64>();
        }
        self.margin(per_repeat + self.start_and_stop(steps, scale))
    }

    /// One cycle from rest to the extremes each time the duty is repeated.
    fn start_and_stop(&self, steps: &[(f64, f64)], scale: f64) -> f64 {
        let (low, high) =
            steps.iter().fold((0.0_f64, 0.0_f64), |(low, high), step| (low.min(step.0), high.max(step.1)));
        self.damage(&Cycle { range: high - low, mean: f64::midpoint(high, low), count: 1.0 }, scale)
    }

    fn damage(&self, cycle: &Cycle, scale: f64) -> f64 {
        let Some(line) = &self.line else { return f64::INFINITY };
        match self.setting.rule.equivalent(cycle.amplitude() * scale, cycle.mean * scale, line.ultimate) {
            EquivalentAmplitude::Reversed(amplitude) => cycle.count * line.life.damage_per_cycle(amplitude),
            EquivalentAmplitude::Broken => f64::INFINITY,
        }
    }

    fn margin(&self, damage_per_repeat: f64) -> ModeMargin {
        let Some(line) = &self.line else { return ModeMargin::at_once(self.mode, self.place, 0.0, 0.0) };
        let duty = &self.setting.stressing.loading.duty;
        let cycles: f64 = self.setting.stressing.cycles().sum();
        let most = MOST_CYCLES * duty.total_s() / cycles;
        let life = (duty.total_s() / damage_per_repeat).min(most);
        let wanted = life * ten_percent_factor(line.deviation) / self.setting.scenario.wanted_life;
        ModeMargin {
            mode: self.mode,
            place: self.place,
            margin: libm::pow(wanted, 1.0 / line.life.exponent()),
            median_life: Some(life),
            deviation: line.deviation,
            beyond_tests: life >= most,
        }
    }
}
