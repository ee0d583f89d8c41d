use libm::{exp, log};

use super::estimate::row_error;
use super::through::{Law, Parameter, Through, through};
use super::warm::strength_power;
use super::{CONFIDENCE, LawFit, LawFound, ONE_DEVIATION, ROOM};
use crate::coupon::predicted;
use crate::coupon::regression::Regression;
use crate::coupon::test::{CouponTest, Measured};
use crate::life::{GAS_CONSTANT_J_MOL_K, normal_quantile};
use crate::material::{Card, REFERENCE_TEMPERATURE};
use crate::report::{FitLineReport, FitPointReport};

/// Logarithms of the time a bar lasted and of the one that a check gives it.
const TIME: Law = |card, test| {
    let Measured::Rupture(_, seconds) = test.measured else { return None };
    Some((log(seconds), log(predicted::life(card, test)?)))
};

impl LawFit<'_> {
    /// Zhurkov's law through the strength at each temperature, as a check takes it: its energy and the time of a short test;
    /// and, where bars were held at several temperatures and none was pulled warm, the strength that is left there.
    pub(super) fn rupture(&mut self) {
        let held = |test: &CouponTest| matches!(test.measured, Measured::Rupture(..));
        let tests: Vec<CouponTest> = self.tests.iter().filter(|test| held(test)).copied().collect();
        if tests.is_empty() {
            return;
        }
        let law = [
            Parameter::plain(|card| &mut card.creep.activation_energy_kj_mol.value),
            Parameter::log(|card| &mut card.creep.short_test_s.value),
        ];
        let heat = Parameter::log(|card| &mut strength_power(card).value);
        let alike = alike(&tests);
        let by_heat = |start: &Card| through(start, &[law[0], law[1], heat], &tests, TIME);
        let cold = through(&self.card, &law, &tests, TIME);
        let warm = (!alike && !self.warm_strength_known())
            .then(|| by_heat(cold.as_ref().map_or(&self.card, |found| &found.card)))
            .flatten()
            .filter(|found| self.heat_told(found));
        let Some(found) = warm.or(cold) else {
            self.findings.push(
                "Creep-rupture tests are too few, all at one stress, or last longer under more stress: Zhurkov's law was \
                 not fitted."
                    .into(),
            );
            return;
        };
        for (test, used) in self.tests.iter().zip(&mut self.used) {
            *used |= held(test);
        }
        self.zhurkov(&tests, &found);
        if alike {
            self.findings.push(
                "Creep rupture was tested at one temperature: how it quickens with heat rests on the attempt time alone."
                    .into(),
            );
        }
        self.rupture_line(&tests, &found);
    }

    /// Whether tests tell the strength left by heat better than the card already does.
    fn heat_told(&self, found: &Through) -> bool {
        let spread = found.fit.t(ONE_DEVIATION) * found.fit.standard_error(2);
        let known = self.card.temperature.retention.strength_power.as_ref();
        spread < known.map_or(1.0, crate::material::Value::relative_spread)
    }

    fn zhurkov(&mut self, tests: &[CouponTest], found: &Through) {
        let Through { card, fit } = found;
        let (count, how) = (tests.len(), zhurkov_by(fit));
        let energy = card.creep.activation_energy_kj_mol.value;
        let of_energy = LawFound::plain(fit, 0, energy, count, how);
        self.put("activation energy of rupture", "kJ/mol", |card| &mut card.creep.activation_energy_kj_mol, &of_energy);
        let time = LawFound::by_log(fit, 1, card.creep.short_test_s.value, count, how);
        self.put("time of a short-term test", "s", |card| &mut card.creep.short_test_s, &time);
        if fit.coefficients.len() > 2 {
            let power = strength_power(&mut card.clone()).value;
            let how = "strength that bars held at several temperatures have left, as a power of the card's curve";
            let power = LawFound::by_log(fit, 2, power, count, how);
            self.put("power of strength kept warm", "1", strength_power, &power);
        }
        // Slope of the law at 23 °C along the beads, from the two values it is made of.
        let strength = card.strength.bead_mpa.value;
        let mut row = vec![0.0; fit.coefficients.len()];
        (row[0], row[1]) = (1e3 / strength, -thermal() / strength);
        let volume = volume(card);
        let error = row_error(fit, &row);
        let (reach, spread) = (fit.t(CONFIDENCE) * error, fit.t(ONE_DEVIATION) * error / volume);
        let range = (volume - reach, volume + reach);
        let volume = LawFound { value: volume, spread, range, count, run_outs: fit.run_outs, how: how.into() };
        self.report("activation volume of rupture", "cm³/mol", None, &volume);
    }

    fn rupture_line(&mut self, tests: &[CouponTest], found: &Through) {
        const STEPS: usize = 40;
        let Through { card, fit } = found;
        let strength = card.strength.bead_mpa.value;
        // As the stress along the beads at 23 °C that uses as much of the strength.
        let points: Vec<(f64, f64, bool)> = tests
            .iter()
            .filter_map(|test| {
                let Measured::Rupture(_, seconds) = test.measured else { return None };
                Some((predicted::over_strength(card, test)? * strength, seconds, test.run_out))
            })
            .collect();
        let (low, high) = points.iter().fold((f64::INFINITY, 0.0), |(l, h), p| (f64::min(l, p.0), f64::max(h, p.0)));
        let creep = card.creep.in_si();
        let at = |step: usize| {
            let stress = low + (high - low) * step as f64 / STEPS as f64;
            let part = stress / strength;
            let mut row = vec![0.0; fit.coefficients.len()];
            (row[0], row[1]) = ((1.0 - part) * 1e3 / thermal(), part);
            let middle = (1.0 - part) * (creep.activation_energy / thermal() + log(creep.attempt_time))
                + part * log(creep.short_test);
            let reach = fit.band(&row, CONFIDENCE);
            FitPointReport {
                stress,
                life: exp(middle),
                low: exp(middle - reach),
                high: exp(middle + reach),
                nine_in_ten: exp(middle + normal_quantile(0.1).unwrap_or(0.0) * fit.deviation),
            }
        };
        self.lines.push(FitLineReport {
            name: "creep rupture, line at 23 °C".into(),
            stress_unit: "stress along beads that is as bad, MPa".into(),
            life_unit: "s".into(),
            intercept: creep.activation_energy,
            slope: -volume(card) * 1e-6,
            deviation: fit.deviation,
            line: (0..=STEPS).map(at).collect(),
            failed: points.iter().filter(|p| !p.2).map(|p| [p.0, p.1]).collect(),
            run_outs: points.iter().filter(|p| p.2).map(|p| [p.0, p.1]).collect(),
        });
    }
}

/// R T at 23 °C, J/mol.
fn thermal() -> f64 {
    GAS_CONSTANT_J_MOL_K * REFERENCE_TEMPERATURE
}

/// Activation volume along the beads at 23 °C, cm³/mol.
fn volume(card: &Card) -> f64 {
    let creep = card.creep.in_si();
    (creep.activation_energy - thermal() * log(creep.short_test / creep.attempt_time)) / card.strength.bead_mpa.value
}

fn zhurkov_by(fit: &Regression) -> &'static str {
    if fit.run_outs > 0 {
        "Zhurkov's law, run-outs right-censored, by maximum likelihood, attempt time as it was"
    } else {
        "Zhurkov's law by least squares, attempt time as it was"
    }
}

/// Whether temperatures are one within what a test room varies by.
fn alike(tests: &[CouponTest]) -> bool {
    let kelvins = tests.iter().map(|test| test.temperature);
    let (low, high) = kelvins.fold((f64::INFINITY, 0.0), |(l, h), t| (f64::min(l, t), f64::max(h, t)));
    high - low < ROOM
}
