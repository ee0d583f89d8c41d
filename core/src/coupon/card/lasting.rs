use libm::{exp, log, sinh};

use crate::coupon::regression::Regression;
use crate::coupon::test::{Measured, TestDirection};
use crate::life::{GAS_CONSTANT_J_MOL_K, normal_quantile};
use crate::material::REFERENCE_TEMPERATURE;
use crate::report::{FitLineReport, FitPointReport};

use super::estimate::{best_scale, row_error, scale_range};
use super::{CONFIDENCE, LawFit, LawFound, ROOM};

/// Stress along the beads (Pa), time (s), creep strain and temperature (K).
type Strain = (f64, f64, f64, f64);

impl LawFit<'_> {
    /// Strength of a direction over that along the beads, Pa per Pa.
    pub(super) fn softer(&self, direction: TestDirection) -> f64 {
        let strength = &self.card.strength;
        match direction {
            TestDirection::Bead => 1.0,
            TestDirection::Across => strength.across_mpa.value / strength.bead_mpa.value,
            TestDirection::Layer => strength.layer_mpa.value / strength.bead_mpa.value,
        }
    }

    /// Zhurkov's law: `ln t/t0 = U/(R T) - g S/(R T)`, a plane without a constant.
    pub(super) fn rupture(&mut self) {
        let attempt = self.card.creep.attempt_time_s.value;
        let Ruptures { rows, logs, outs, temperatures, points, members } = self.ruptures(attempt);
        if rows.is_empty() {
            return;
        }
        let Some(fit) = Regression::new(&rows, &logs, &outs).filter(|fit| fit.coefficients.iter().all(|c| *c > 0.0))
        else {
            self.findings.push(
                "Creep-rupture tests are too few, all at one stress, or last longer under more stress: Zhurkov's law was \
                 not fitted."
                    .into(),
            );
            return;
        };
        for k in members {
            self.used[k] = true;
        }
        let (energy, volume) = (fit.coefficients[0], fit.coefficients[1]);
        let range = fit.range(0, CONFIDENCE);
        let how = zhurkov_by(&fit);
        let inflated = fit.t(ONE_DEVIATION);
        let found = |value: f64, spread: f64, range: (f64, f64)| LawFound {
            value,
            spread,
            range,
            count: logs.len(),
            run_outs: fit.run_outs,
            how: how.into(),
        };
        let of_energy =
            found(energy * 1e-3, inflated * fit.standard_error(0) / energy, (range.0 * 1e-3, range.1 * 1e-3));
        self.put("activation energy of rupture", "kJ/mol", |card| &mut card.creep.activation_energy_kj_mol, &of_energy);
        let reach = fit.range(1, CONFIDENCE);
        let of_volume = found(volume * 1e6, inflated * fit.standard_error(1) / volume, (reach.0 * 1e6, reach.1 * 1e6));
        self.report("activation volume of rupture", "cm³/mol", None, &of_volume);
        // The card's law goes through strength and time of a short test: the time at which this law meets the strength.
        let strength = self.card.strength.bead_mpa.value * 1e6;
        let thermal = GAS_CONSTANT_J_MOL_K * REFERENCE_TEMPERATURE;
        let row = [1.0 / thermal, -strength / thermal];
        let ln_time = fit.at(&row) + log(attempt);
        let reach = fit.t(CONFIDENCE) * row_error(&fit, &row);
        let time = found(
            exp(ln_time),
            (exp(inflated * row_error(&fit, &row)) - 1.0).min(5.0),
            (exp(ln_time - reach), exp(ln_time + reach)),
        );
        self.put("time of a short-term test", "s", |card| &mut card.creep.short_test_s, &time);
        if alike(temperatures) {
            self.findings.push(
                "Creep rupture was tested at one temperature: how it quickens with heat rests on the attempt time alone."
                    .into(),
            );
        }
        self.rupture_line(&points, &fit, attempt);
    }

    /// The tests of rupture as rows of Zhurkov's law with an attempt time, s.
    fn ruptures(&self, attempt: f64) -> Ruptures {
        let mut found = Ruptures::default();
        for (k, test) in self.tests.iter().enumerate() {
            let Measured::Rupture(stress, time) = test.measured else { continue };
            // As the stress along the beads that is as bad; heat takes strength away, by the card's curve.
            let kept = self.card.share_at(test.temperature).0 / self.card.share_at(REFERENCE_TEMPERATURE).0;
            let stress = stress / self.softer(test.direction);
            let thermal = GAS_CONSTANT_J_MOL_K * test.temperature;
            found.rows.push(vec![1.0 / thermal, -stress / kept / thermal]);
            found.logs.push(log(time / attempt));
            found.outs.push(test.run_out);
            found.temperatures.push(test.temperature);
            found.points.push((stress * 1e-6, time, test.run_out));
            found.members.push(k);
        }
        found
    }

    fn rupture_line(&mut self, points: &[(f64, f64, bool)], fit: &Regression, attempt: f64) {
        const STEPS: usize = 40;
        let (low, high) = points.iter().fold((f64::INFINITY, 0.0), |(l, h), p| (f64::min(l, p.0), f64::max(h, p.0)));
        let thermal = GAS_CONSTANT_J_MOL_K * REFERENCE_TEMPERATURE;
        let at = |step: usize| {
            let stress = low + (high - low) * step as f64 / STEPS as f64;
            let row = [1.0 / thermal, -stress * 1e6 / thermal];
            let (middle, reach) = (fit.at(&row) + log(attempt), fit.band(&row, CONFIDENCE));
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
            intercept: fit.coefficients[0],
            slope: -fit.coefficients[1],
            deviation: fit.deviation,
            line: (0..=STEPS).map(at).collect(),
            failed: points.iter().filter(|p| !p.2).map(|p| [p.0, p.1]).collect(),
            run_outs: points.iter().filter(|p| p.2).map(|p| [p.0, p.1]).collect(),
        });
    }

    /// Findley's law in logarithms: a straight line in `ln t` and `1/T` for each stress scale, which is looked for.
    pub(super) fn creep(&mut self) {
        let (tests, members) = self.strains();
        if tests.is_empty() {
            return;
        }
        let spans = |of: fn(&Strain) -> f64, least: f64| {
            let (low, high) =
                tests.iter().map(of).fold((f64::INFINITY, 0.0), |(l, h), x| (f64::min(l, x), f64::max(h, x)));
            high > low * least
        };
        let (stresses, temperatures) = (spans(|t| t.0, 1.2), spans(|t| t.3, 1.01));
        let held_energy = self.card.creep.shift_energy_kj_mol.value * 1e3;
        let fit_at = |scale: f64| findley(&tests, scale, (!temperatures).then_some(held_energy));
        let held = self.card.creep.stress_scale_mpa.value * 1e6;
        let scale = if stresses { best_scale(held, |scale| fit_at(scale).map(|fit| fit.deviation)) } else { held };
        let Some(fit) = fit_at(scale).filter(|fit| fit.coefficients[1] > 0.0 && fit.coefficients[1] <= 1.0) else {
            self.findings
                .push("Creep strains are too few, or do not grow with time: Findley's law was not fitted.".into());
            return;
        };
        for k in members {
            self.used[k] = true;
        }
        let inflated = fit.t(ONE_DEVIATION);
        let how = "Findley's law, least squares of ln strain";
        let found = |value: f64, spread: f64, range: (f64, f64)| LawFound {
            value,
            spread,
            range,
            count: tests.len(),
            run_outs: 0,
            how: how.into(),
        };
        let (low, high) = fit.range(0, CONFIDENCE);
        let strain = found(exp(fit.coefficients[0]), inflated * fit.standard_error(0), (exp(low), exp(high)));
        self.put("strain scale of creep", "1", |card| &mut card.creep.strain_scale, &strain);
        let n = fit.coefficients[1];
        let time = found(n, inflated * fit.standard_error(1) / n, fit.range(1, CONFIDENCE));
        self.put("time exponent of creep", "1", |card| &mut card.creep.time_exponent, &time);
        let fitted = FittedCreep { fit: &fit, scale, count: tests.len(), how };
        self.creep_by_stress(&fitted, stresses.then_some(&fit_at));
        self.creep_by_heat(&fitted, temperatures);
        self.findings.push(
            "Strains read from one test piece share its own stiffness: the ranges of creep values are too narrow where few \
             pieces were read often."
                .into(),
        );
    }

    /// Creep tests as strains along beads, with their numbers.
    fn strains(&self) -> (Vec<Strain>, Vec<usize>) {
        let (mut tests, mut members) = (Vec::new(), Vec::new());
        for (k, test) in self.tests.iter().enumerate() {
            let Measured::Creep(stress, time, strain) = test.measured else { continue };
            let softness = match test.direction {
                TestDirection::Bead => 1.0,
                TestDirection::Across => self.card.stiffness.bead_mpa.value / self.card.stiffness.across_mpa.value,
                TestDirection::Layer => self.card.stiffness.bead_mpa.value / self.card.stiffness.layer_mpa.value,
            };
            tests.push((stress, time, strain / softness, test.temperature));
            members.push(k);
        }
        (tests, members)
    }

    /// The stress scale of creep, where tests at several stresses tell it.
    fn creep_by_stress(&mut self, fitted: &FittedCreep<'_>, fit_at: Option<&dyn Fn(f64) -> Option<Regression>>) {
        let FittedCreep { fit, scale, .. } = *fitted;
        let Some(fit_at) = fit_at else {
            self.findings.push("Creep was tested at one stress: its stress scale stays as it was.".into());
            return;
        };
        let reach = scale_range(scale, fit, |scale| fit_at(scale).map(|fit| fit.deviation));
        let spread = (log(reach.1 / reach.0) / 2.0 / fit.t(CONFIDENCE) * fit.t(ONE_DEVIATION)).max(1e-6);
        let stress = fitted.found(scale * 1e-6, spread.min(5.0), (reach.0 * 1e-6, reach.1 * 1e-6));
        self.put("stress scale of creep", "MPa", |card| &mut card.creep.stress_scale_mpa, &stress);
    }

    /// The shift of creep with heat, where tests at several temperatures tell it.
    fn creep_by_heat(&mut self, fitted: &FittedCreep<'_>, temperatures: bool) {
        let fit = fitted.fit;
        if !(temperatures && fit.coefficients[2] > 0.0) {
            self.findings.push("Creep was tested at one temperature: its shift with heat stays as it was.".into());
            return;
        }
        // The third coefficient is n times the energy.
        let energy = fit.coefficients[2] / fit.coefficients[1];
        let relative = fit.standard_error(2) / fit.coefficients[2];
        let reach = fit.t(CONFIDENCE) * relative * energy;
        let range = ((energy - reach) * 1e-3, (energy + reach) * 1e-3);
        let value = fitted.found(energy * 1e-3, fit.t(ONE_DEVIATION) * relative, range);
        self.put("shift energy of creep", "kJ/mol", |card| &mut card.creep.shift_energy_kj_mol, &value);
    }
}

/// Tests of rupture as Zhurkov's law has them.
#[derive(Default)]
struct Ruptures {
    rows: Vec<Vec<f64>>,
    /// Logarithms of time over attempt time.
    logs: Vec<f64>,
    outs: Vec<bool>,
    temperatures: Vec<f64>,
    /// Stress along beads that is as bad, MPa, time, s, and whether it was a run-out.
    points: Vec<(f64, f64, bool)>,
    /// Their numbers among all tests.
    members: Vec<usize>,
}

/// Findley's law through creep tests.
struct FittedCreep<'a> {
    fit: &'a Regression,
    /// Of stress, Pa.
    scale: f64,
    count: usize,
    how: &'static str,
}

impl FittedCreep<'_> {
    fn found(&self, value: f64, spread: f64, range: (f64, f64)) -> LawFound {
        LawFound { value, spread, range, count: self.count, run_outs: 0, how: self.how.into() }
    }
}

/// Share of a normal distribution within one standard deviation.
const ONE_DEVIATION: f64 = 0.682_689_492_137;

fn zhurkov_by(fit: &Regression) -> &'static str {
    if fit.run_outs > 0 {
        "Zhurkov's law, run-outs right-censored, by maximum likelihood, attempt time as it was"
    } else {
        "Zhurkov's law by least squares, attempt time as it was"
    }
}

/// Whether temperatures are one within what a test room varies by.
fn alike(mut temperatures: Vec<f64>) -> bool {
    temperatures.sort_by(f64::total_cmp);
    temperatures.dedup_by(|a, b| (*a - *b).abs() < ROOM);
    temperatures.len() < 2
}

/// Findley's law at a scale of stress, Pa; with a shift energy that is held, J/mol, or one that is fitted.
fn findley(tests: &[Strain], scale: f64, held_energy: Option<f64>) -> Option<Regression> {
    let shift = |kelvin: f64| (1.0 / REFERENCE_TEMPERATURE - 1.0 / kelvin) / GAS_CONSTANT_J_MOL_K;
    let row = |&(_, time, _, kelvin): &Strain| {
        let clock = log(time / 3600.0);
        match held_energy {
            None => vec![1.0, clock, shift(kelvin)],
            Some(energy) => vec![1.0, clock + energy * shift(kelvin)],
        }
    };
    let rows: Vec<Vec<f64>> = tests.iter().map(row).collect();
    let y: Vec<f64> = tests.iter().map(|&(stress, _, strain, _)| log(strain) - log(sinh(stress / scale))).collect();
    Regression::new(&rows, &y, &vec![false; y.len()])
}
