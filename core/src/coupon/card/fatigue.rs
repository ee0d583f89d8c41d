use libm::{log10, pow};

use crate::coupon::regression::Regression;
use crate::coupon::test::{Measured, TestDirection};
use crate::life::normal_quantile;
use crate::material::{Card, REFERENCE_TEMPERATURE};
use crate::report::{FitLineReport, FitPointReport};

use super::{CONFIDENCE, LEAST_LIFE_SCATTER, LawFit, LawFound};

impl LawFit<'_> {
    /// Stress-life lines: within the layer plane, and across layers.
    pub(super) fn fatigue(&mut self) {
        let walker = self.card.fatigue.walker_exponent.value;
        for layer in [false, true] {
            let strength = |card: &Card, direction: TestDirection| match direction {
                TestDirection::Bead => card.strength.bead_mpa.value,
                TestDirection::Across => card.strength.across_mpa.value,
                TestDirection::Layer => card.strength.layer_mpa.value,
            };
            let mut points: Vec<(f64, f64, bool)> = Vec::new();
            for (test, used) in self.tests.iter().zip(&mut self.used) {
                let Measured::Fatigue(highest, ratio, cycles) = test.measured else { continue };
                if (test.direction == TestDirection::Layer) != layer
                    || (test.temperature - REFERENCE_TEMPERATURE).abs() > 10.0
                {
                    continue;
                }
                // Over the strength of its own direction, at zero mean by Walker's rule.
                let amplitude = highest * pow(0.5 * (1.0 - ratio), walker);
                points.push((amplitude * 1e-6 / strength(&self.card, test.direction), cycles, test.run_out));
                *used = true;
            }
            let rows: Vec<Vec<f64>> = points.iter().map(|(s, ..)| vec![1.0, log10(*s)]).collect();
            let lives: Vec<f64> = points.iter().map(|(_, n, _)| log10(*n)).collect();
            let outs: Vec<bool> = points.iter().map(|p| p.2).collect();
            let Some(fit) = Regression::new(&rows, &lives, &outs) else {
                if !points.is_empty() {
                    self.findings.push(format!(
                        "{} fatigue tests {} are too few, or all at one stress, for a line.",
                        points.len(),
                        if layer { "across layers" } else { "in the layer plane" }
                    ));
                }
                continue;
            };
            self.stress_life(layer, &points, &fit);
        }
    }

    fn stress_life(&mut self, layer: bool, points: &[(f64, f64, bool)], fit: &Regression) {
        let where_ = if layer { "across layers" } else { "in the layer plane" };
        let (a, b) = (fit.coefficients[0], fit.coefficients[1]);
        if b >= 0.0 {
            self.findings.push(format!("Fatigue lives {where_} do not fall with stress: no line was taken from them."));
            return;
        }
        let how = if fit.run_outs > 0 {
            format!("stress-life line {where_}, run-outs right-censored, by maximum likelihood")
        } else {
            format!("stress-life line {where_}, least squares (ASTM E739)")
        };
        let range = fit.range(1, CONFIDENCE);
        let found = |value: f64, spread: f64, range: (f64, f64)| LawFound {
            value,
            spread,
            range,
            count: points.len(),
            run_outs: fit.run_outs,
            how: how.clone(),
        };
        let inflated = fit.t(0.682_689_492_137);
        let exponent = found(-b, inflated * fit.standard_error(1) / -b, (-range.1, -range.0));
        // The amplitude at a million cycles: log10 S = (6 - a) / b.
        let log_ratio = (6.0 - a) / b;
        let row = [1.0, log_ratio];
        let variance = row
            .iter()
            .enumerate()
            .flat_map(|(r, x)| row.iter().enumerate().map(move |(c, y)| (r, c, x * y)))
            .map(|(r, c, product)| product * fit.covariance[(r, c)])
            .sum::<f64>();
        let error = variance.max(0.0).sqrt() / -b;
        let reach = fit.t(CONFIDENCE) * error;
        let of = |log: f64| pow(10.0, log);
        let spread = of(inflated * error) - 1.0;
        let ratio = found(of(log_ratio), spread, (of(log_ratio - reach), of(log_ratio + reach)));
        if layer {
            self.put("fatigue ratio across layers", "1", |card| &mut card.fatigue.layer_ratio_1e6, &ratio);
            self.put("fatigue exponent across layers", "1", |card| &mut card.fatigue.layer_exponent, &exponent);
        } else {
            self.put("fatigue ratio at a million cycles", "1", |card| &mut card.fatigue.ratio_1e6, &ratio);
            self.put("fatigue exponent", "1", |card| &mut card.fatigue.exponent, &exponent);
            // Every coupon is a print of its own: the scatter of its strength is in that of its life already.
            let strength = -b * self.card.strength.scatter_log10.value;
            let own = (fit.deviation * fit.deviation - strength * strength).max(0.0).sqrt().max(LEAST_LIFE_SCATTER);
            let of_all = fit.deviation_range(CONFIDENCE);
            let part = own / fit.deviation;
            let mut scatter = found(own, 1.0 / (2.0 * fit.freedom() as f64).sqrt(), (of_all.0 * part, of_all.1 * part));
            scatter.how = format!(
                "scatter about the line {where_}, {:.3}, less the exponent times the scatter of strength",
                fit.deviation
            );
            self.put("scatter of life (log10)", "1", |card| &mut card.fatigue.scatter_log10, &scatter);
        }
        self.line(layer, points, fit);
    }

    fn line(&mut self, layer: bool, points: &[(f64, f64, bool)], fit: &Regression) {
        const STEPS: usize = 40;
        let (a, b) = (fit.coefficients[0], fit.coefficients[1]);
        let logs = points.iter().map(|p| log10(p.0));
        let (low, high) = logs.fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), x| (f64::min(l, x), f64::max(h, x)));
        let ten = -normal_quantile(0.1).unwrap_or(-1.281_551_565_544_600_4);
        let at = |step: usize| {
            let stress = low + (high - low) * step as f64 / STEPS as f64;
            let (middle, reach) = (a + b * stress, fit.band(&[1.0, stress], CONFIDENCE));
            let of = |log: f64| pow(10.0, log);
            FitPointReport {
                stress: of(stress),
                life: of(middle),
                low: of(middle - reach),
                high: of(middle + reach),
                nine_in_ten: of(middle - ten * fit.deviation),
            }
        };
        let of = if layer { "across layers" } else { "in the layer plane" };
        self.lines.push(FitLineReport {
            name: format!("fatigue {of}"),
            stress_unit: "amplitude over strength, zero mean".into(),
            life_unit: "cycles".into(),
            intercept: a,
            slope: b,
            deviation: fit.deviation,
            line: (0..=STEPS).map(at).collect(),
            failed: points.iter().filter(|p| !p.2).map(|p| [p.0, p.1]).collect(),
            run_outs: points.iter().filter(|p| p.2).map(|p| [p.0, p.1]).collect(),
        });
    }
}
