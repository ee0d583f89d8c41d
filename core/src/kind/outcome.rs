use nalgebra::Vector3;

use crate::life::ENDLESS_S;
use crate::numeric::sort_few;
use crate::report::{ChangeMeasure, ChangedInput, ChangedValue, SensitivityReport, SofteningChange};

/// Life that nine in ten reach, s, margin, and the time until heat takes it, s, of a part.
#[derive(Debug, Clone, Copy)]
pub(crate) struct ChangeOutcome {
    pub(crate) life: f64,
    pub(crate) margin: f64,
    pub(crate) soft: Option<f64>,
}

/// Margins below this are none.
const NONE: f64 = 1e-9;

/// What is changed, with the words for it and for how.
pub(crate) type ChangeWords = (ChangedInput, &'static str, &'static str);

/// A number of the part, the engine or the print, before and after a change.
pub(crate) fn moved(name: &str, from: f64, to: f64, unit: &str) -> ChangedValue {
    ChangedValue { name: name.into(), from, to, unit: unit.into() }
}

/// Share of the peak pressure at full throttle that a change leaves.
pub(crate) const LESS_PRESSURE: f64 = 0.9;

/// The peak pressure before and after it became `to`, Pa.
pub(crate) fn less_pressure(to: Option<f64>) -> Option<ChangedValue> {
    to.map(|to| moved("peak cylinder pressure", to / LESS_PRESSURE / 1e5, to / 1e5, "bar"))
}

impl ChangeOutcome {
    /// Factors on life and margin that a change gives.
    pub(super) fn factors(self, then: Self) -> (Option<f64>, f64) {
        let life_factor = (self.life > 0.0).then(|| then.life / self.life).filter(|factor| factor.is_finite());
        // From no margin to none is no change.
        (life_factor, then.margin.max(NONE) / self.margin.max(NONE))
    }

    /// What a change did, told by what it is and the values that it moved.
    pub(crate) fn changed(
        self,
        (key, input, change): ChangeWords,
        moves: Vec<ChangedValue>,
        then: Self,
    ) -> SensitivityReport {
        let (life_factor, margin_factor) = self.factors(then);
        let softening = self.soft.map(|from_s| SofteningChange { from_s, to_s: then.soft });
        let measured_by = ChangeMeasure::default();
        let (input, change) = (input.into(), change.into());
        SensitivityReport {
            key,
            input,
            change,
            moves,
            measured_by,
            life_factor,
            margin_factor,
            softening,
            further: None,
        }
    }
}

/// Largest effect first, all by one measure: life where the duty leaves one that ends and some change moves it, else the
/// margin. Changes alike in that are in the order of their margins, then by name.
pub(crate) fn ranked(mut list: Vec<SensitivityReport>, now: ChangeOutcome) -> Vec<SensitivityReport> {
    let ends = now.life > 0.0 && now.life < ENDLESS_S;
    let by = |measured_by| move |entry: &SensitivityReport| SensitivityReport { measured_by, ..entry.clone() }.effect();
    let (by_life, by_margin) = (by(ChangeMeasure::Life), by(ChangeMeasure::Margin));
    let measure = if ends && list.iter().any(|entry| by_life(entry) != 0.0) {
        ChangeMeasure::Life
    } else {
        ChangeMeasure::Margin
    };
    for entry in &mut list {
        entry.measured_by = measure;
    }
    sort_few(&mut list, |a, b| {
        let larger = |of: &dyn Fn(&SensitivityReport) -> f64| of(b).abs().total_cmp(&of(a).abs());
        larger(&SensitivityReport::effect).then(larger(&by_margin)).then(a.input.cmp(&b.input))
    });
    list
}

/// A lean of the build direction that is easily overlooked at the printer, rad.
const LEAN: f64 = 10.0 / 180.0 * core::f64::consts::PI;

/// A direction turned toward the part's long axis, or away from it where it lies along that already.
pub(crate) fn leaned(build: &Vector3<f64>) -> Vector3<f64> {
    let along = Vector3::x() * if build.x < 0.0 { -1.0 } else { 1.0 };
    let toward = along - build * build.dot(&along);
    let toward = if toward.norm() > 1e-6 { toward.normalize() } else { Vector3::z() };
    build * libm::cos(LEAN) + toward * libm::sin(LEAN)
}
